"""Guards: which animal to guard each tree against, and how high."""

from dataclasses import dataclass

from model.factors.browsing import GUARDS
from model.ground import given
from model.language import _
from model.planting.placement import Planted
from model.study import Study

USUAL = "rabbit"  # rabbits and hares leave no lines to see (common practice, no source)


@dataclass(frozen=True)
class Guard:
    """A guard for one tree; `height` [m] is None where only its animal is known."""

    animal: str
    height: float | None
    why: str
    source: str

    @property
    def called(self) -> str:
        """What to ask for."""
        said = _("guard against {animal}, {height:g} m high")
        if self.height is None:
            said = _("guard against {animal}")
        return said.format(animal=_(self.animal), height=self.height)


def guard(study: Study, tree: Planted) -> Guard:
    """The tallest guard that an animal walking within its reach of the tree calls for.

    A tree that no run comes near gets a guard against rabbits, as is usual.
    """
    near = _animals_near(study, tree.place)
    if not near:
        height, source = GUARDS[USUAL]
        why = _("no run passes near; rabbits and hares come where no run is seen")
        return Guard(USUAL, height, why, _(source))
    known = [found for found in near if found[0] in GUARDS]
    animal, why = max(known or near, key=lambda found: GUARDS.get(found[0], (0.0, ""))[0])
    if animal not in GUARDS:
        return Guard(animal, None, why, _("common practice, no source"))
    height, source = GUARDS[animal]
    return Guard(animal, height, why, _(source))


def _animals_near(study: Study, place: int) -> list[tuple[str, str]]:
    """Every animal whose run comes near a place, and how near."""
    if study.ground.animal_runs is None:
        return []
    runs = given(study.ground.animal_runs)
    reach = float(study.settings["browsing"].figures()["reach"])
    passes = _("{run} passes {away:.0f} m away")
    return [
        (animal.lower(), passes.format(run=label, away=away))
        for label, animal, away in zip(
            runs.labels, runs.animals, runs.distance[:, place], strict=True
        )
        if away < reach
    ]
