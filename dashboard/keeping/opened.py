"""Studies of one folder for many visitors: each has a study of its own, like ground is shared."""

from collections import OrderedDict
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from threading import RLock

from dashboard.keeping.working_copy import sweep_copies
from model.ground import Ground
from model.opening import open_study
from model.study import Study
from model.trees_here import trees_here

# Files the ground does not follow from: what is chosen, planned, bought, seen, drawn and said.
NOT_GROUND = (
    "study.toml",
    "options.csv",
    "order.csv",
    "placement.csv",
    "plan.json",
    "prices.csv",
    "observations.csv",
    "report.toml",
    "sketch.json",
    "background.toml",
    "background.png",
    "background.jpg",
)
TRIES = 5  # at reading a folder that another app is writing
KEPT = 8  # grounds in memory: the folder's own and those of the visitors who draw on it


class Opened:
    """A folder kept open. A ground is computed once and again only after its survey has changed."""

    def __init__(self, folder: str | Path) -> None:
        self.folder = Path(folder)
        self._grounds: OrderedDict[str, Ground] = OrderedDict()
        self._lock = RLock()

    def study(self, folder: Path | None = None) -> Study:
        """A visitor's own study of the folder, or of their copy of it, over a shared ground."""
        folder = folder or self.folder
        for _try in range(TRIES):
            survey = survey_digest(folder)
            study = open_study(folder, ground=self._known(survey))
            if survey_digest(folder) == survey:  # else its files were changed while it was read
                self._remember(survey, study.ground)
                return study
        return open_study(folder)

    def _known(self, survey: str) -> Ground | None:
        with self._lock:
            return self._grounds.get(survey)

    def _remember(self, survey: str, ground: Ground) -> None:
        with self._lock:
            self._grounds[survey] = ground
            self._grounds.move_to_end(survey)
            while len(self._grounds) > KEPT:
                self._grounds.popitem(last=False)

    def prepare(self, say: Callable[[str], None]) -> None:
        """Compute the ground before the first visitor comes, saying what is being computed.

        What an app left half done that was killed here is swept away first.
        """
        sweep_copies(self.folder)
        study = self.study()
        for number, factor in enumerate(study.factors, start=1):
            say(f"computing the ground: {factor.label.lower()} ({number} of {len(study.factors)})")
            study.measure(factor.name)
        say("computing when every tree of the catalogue flowers here")
        trees_here(study)


def survey_digest(folder: Path) -> str:
    """Digest of all files of a folder that the ground follows from."""
    digest = sha256()
    for path in sorted(folder.iterdir()):
        if path.is_file() and not path.name.startswith(".") and path.name not in NOT_GROUND:
            digest.update(f"{path.name}\0{path.stat().st_size}\0".encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()
