"""What a vote is about: a place on a piece of land, fixed when the vote begins."""

import json
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np

from model.study import Study


@dataclass(frozen=True)
class Subject:
    """The site's name, the folder that is judged, and the place [m east, m north]."""

    site: str
    folder: str
    x: float
    y: float

    @classmethod
    def chosen(cls, study: Study, folder: Path) -> "Subject":
        """The place that is chosen in a study."""
        places, at = study.ground.places, study.place
        where = (float(places.x[at]), float(places.y[at]))
        return cls(study.site.name, str(folder), *where)

    @classmethod
    def read(cls, text: str) -> "Subject":
        """A subject as the store keeps it; ValueError when it is none."""
        try:
            told = json.loads(text)
            return cls(**told)
        except (TypeError, ValueError) as error:
            raise ValueError("This vote was begun by another edition: begin a new one.") from error

    @property
    def text(self) -> str:
        """The subject as the store keeps it."""
        return json.dumps(asdict(self))

    def place(self, study: Study) -> int:
        """Number of the place in a study: a peg where one stands there, else the nearest."""
        places = study.ground.places
        distance = np.hypot(places.x - self.x, places.y - self.y)
        near = np.flatnonzero(distance <= distance.min() + 1e-6)
        return int(near[-1])  # pegs come after the grid's cells
