"""What the lessons share: an invented site, a place on it, an answer that is hidden at first."""

from html import escape
from pathlib import Path

import demo_data
from model.opening import open_study
from model.study import Study

ASKED = "What you should have seen"


def demo(name: str) -> Study:
    """A study of an invented site, wherever it is installed: 'sorrelhay' or 'sallowbend'."""
    return open_study(folder(name))


def folder(name: str) -> Path:
    """Folder of an invented site, wherever it is installed."""
    return Path(demo_data.__file__).parent / name


def peg(study: Study, name: str) -> int:
    """Number of the place where a peg stands; ValueError names the pegs there are."""
    spots = study.ground.places.spots
    if name not in spots:
        raise ValueError(f"no peg called {name!r}: there are {', '.join(spots)}")
    return study.ground.places.cells + spots.index(name)


def pegs(study: Study) -> dict[str, int]:
    """Places of all pegs by name, as a list of choices wants them."""
    return {name: peg(study, name) for name in study.ground.places.spots}


def option(study: Study, label: str) -> int:
    """Number of an option of the short list; ValueError names those there are."""
    labels = [one.label for one in study.options]
    if label not in labels:
        raise ValueError(f"no option called {label!r}: there are {', '.join(labels)}")
    return labels.index(label)


def options(study: Study) -> dict[str, int]:
    """Numbers of the options by label, as a list of choices wants them."""
    return {one.label: number for number, one in enumerate(study.options)}


class Answer:
    """An answer in paragraphs, shown only when it is opened."""

    def __init__(self, *paragraphs: str) -> None:
        self.paragraphs = paragraphs

    def _repr_html_(self) -> str:
        said = "".join(f"<p>{escape(paragraph)}</p>" for paragraph in self.paragraphs)
        return f"<details><summary><b>{ASKED}</b></summary>{said}</details>"

    def __repr__(self) -> str:
        return "\n\n".join((f"{ASKED}:", *self.paragraphs))
