"""Browsing: how exposed is the tree to animals that walk here, and which guard does it call for?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground, given
from model.language import _, marked
from model.trees import Traits

ON_THE_RUN = 3.0  # [m] either side of a regular run (common practice, no source)
MOST_EATEN = 5.0  # the class of trees that are eaten most

# Height of a guard [m] by animal, and where the figure comes from.
GUARDS = {
    marked("red deer"): (1.8, marked("Forestry Commission guides, from memory")),
    marked("fallow deer"): (1.8, marked("Forestry Commission guides, from memory")),
    marked("deer"): (1.8, marked("Forestry Commission guides for the taller deer, from memory")),
    marked("roe deer"): (1.2, marked("Forestry Commission guides, from memory")),
    marked("muntjac"): (1.2, marked("as for roe deer, whose browse line of 1.1 m it shares")),
    marked("sheep"): (1.5, marked("Natural England grant option TE8")),
    marked("cattle"): (2.0, marked("Natural England grant option TE7")),
    marked("goat"): (1.8, marked("Scottish rural payments guidance on tree guards")),
    marked("horse"): (1.8, marked("Scottish rural payments guidance on tree guards")),
    marked("rabbit"): (0.6, marked("Forestry Commission guides, from memory")),
    marked("hare"): (0.75, marked("Forestry Commission guides, from memory")),
}


class BrowsingSettings(Settings):
    """The curve over the exposure, and how far from their run animals stray to browse."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 20.0, 60.0, 100.0), (1.0, 0.85, 0.4, 0.2))
    )
    reach = param.Number(
        25.0, bounds=(4.0, 100.0), doc="Distance from a run beyond which animals seldom browse [m]."
    )


def exposure(distance: np.ndarray, eaten: np.ndarray, reach: float) -> np.ndarray:
    """Exposure to browsing (option, place) [%]: full on the run, falling evenly to its reach.

    `distance` (place,) [m] to the nearest run; `eaten` (option,) 0 to 1, how readily the tree is
    eaten. Source: model choice (common practice, no source).
    """
    near = np.clip((reach - distance) / (reach - ON_THE_RUN), 0, 1)
    return 100 * eaten[:, None] * near


def _measure(ground: Ground, traits: Traits, *, reach: float) -> np.ndarray:
    nearest = given(ground.animal_runs).distance.min(axis=0)
    return exposure(nearest, np.nan_to_num(traits.browse, nan=MOST_EATEN) / MOST_EATEN, reach)


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, reach: float) -> str:
    runs = given(ground.animal_runs)
    nearest = int(runs.distance[:, place].argmin())
    label, animal = runs.labels[nearest], runs.animals[nearest]
    said = {"run": label, "away": runs.distance[nearest, place], "animal": _(animal)}
    if runs.distance[nearest, place] >= reach:
        return _(
            "{run} passes {away:.0f} m away, beyond the {reach:.0f} m that animals commonly stray."
        ).format(reach=reach, **said)
    if animal.lower() not in GUARDS:
        return _(
            "{run} passes {away:.0f} m away: guard the tree as is usual against {animal}."
        ).format(**said)
    height, source = GUARDS[animal.lower()]
    return _(
        "{run} passes {away:.0f} m away: it calls for a guard against {animal}, {height:.1f} m "
        "high ({source})."
    ).format(height=height, source=_(source), **said)


BROWSING = Factor(
    name="browsing",
    label="Browsing",
    question="Do animals walk here, and what guard would it need?",
    group="people",
    quantity="browsing_exposure",
    unit="% exposed",
    decimals=0,
    needs=("animal_runs",),
    settings=BrowsingSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Fall of the risk with distance from a run: model choice (common practice, no source).",
        "How readily a tree is eaten: the catalogue. Guards: as each sentence says.",
    ),
)
