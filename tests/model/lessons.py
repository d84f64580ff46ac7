"""What the tests of the demos' lessons ask of a study at a peg."""

from dataclasses import replace

import numpy as np

from model.ground import Ground
from model.study import Here, Study


def place(study: Study, peg: str) -> int:
    """The number of a peg among the places."""
    return study.ground.places.cells + study.ground.places.spots.index(peg)


def cell(study: Study, x: float, y: float) -> int:
    """The number of the grid cell nearest to a point."""
    places = study.ground.places
    return int(np.hypot(places.x - x, places.y - y)[: places.cells].argmin())


def here(study: Study, peg: str) -> Here:
    """The options judged at a peg."""
    return study.here(place(study, peg))


def option(study: Study, label: str) -> int:
    """The number of an option."""
    return [one.label for one in study.options].index(label)


def leader(study: Study, peg: str) -> str:
    """The option that leads at a peg."""
    return study.options[here(study, peg).order[0]].label


def factor(study: Study, name: str) -> int:
    """The number of a factor."""
    return [one.name for one in study.factors].index(name)


def measure(study: Study, name: str, peg: str, label: str) -> float:
    """The measure of a factor for an option at a peg, in its unit."""
    return float(here(study, peg).measures[factor(study, name), option(study, label)])


def by_peg(study: Study, name: str, label: str) -> dict[str, float]:
    """The measure of a factor for an option at every peg."""
    return {peg: measure(study, name, peg, label) for peg in study.ground.places.spots}


def sentence(study: Study, name: str, peg: str, label: str) -> str:
    """What is said of a factor for an option at a peg."""
    return study.explain(factor(study, name), option(study, label), place(study, peg))


def without(study: Study, name: str, word: str, where: int, label: str) -> float:
    """The measure of a factor at a place if the features whose name has the word were gone."""
    kept = tuple(one for one in study.site.features if word not in one.name)
    assert len(kept) < len(study.site.features)
    judged = study.factors[factor(study, name)]
    ground = Ground(replace(study.site, features=kept), study.catalogue)
    values = judged.measure(ground, study.traits, **study.settings[name].figures())
    return float(values[min(option(study, label), len(values) - 1), where])


def counting(study: Study) -> np.ndarray:
    """Which factors weigh more than the fungal network, which is disputed (factor,) bool."""
    return study.weights > study.weights[factor(study, "fungal_network")]
