"""Root competition: how much of the tree's rooting circle do neighbours' roots hold already?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.language import _, each
from model.trees import TYPICAL, Traits, full_size


class RootSettings(Settings):
    """The curve over the share held, and how wide a circle the tree is taken to feed from."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 10.0, 30.0, 60.0), (1.0, 0.85, 0.4, 0.05))
    )
    circle = param.Number(
        1.0, bounds=(0.5, 3.0), doc="Radius of the rooting circle, in radii of the full crown [1]."
    )


def _radius(ground: Ground, traits: Traits, circle: float) -> np.ndarray:
    """Radius of the rooting circle (option, place) [m]."""
    return circle * full_size(traits, ground.soils.fertility).spread[TYPICAL] / 2


def _measure(ground: Ground, traits: Traits, *, circle: float) -> np.ndarray:
    return 100 * ground.roots.share.at(_radius(ground, traits, circle))


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, circle: float) -> str:
    spread = full_size(traits, ground.soils.fertility[[place]]).spread[TYPICAL, option, 0]
    share = 100 * ground.roots.share.at_place(circle * spread / 2, place)
    held = {"share": share, "across": circle * spread}
    strength = ground.roots.by_neighbour[:, place]
    strongest = [number for number in np.argsort(-strength)[:2] if strength[number] > 0.02]
    if strongest:
        names = each([ground.roots.labels[number] for number in strongest])
        said = _(
            "{share:.0f} % of a rooting circle {across:.1f} m across is held by the roots of "
            "{trees}."
        ).format(trees=names, **held)
    else:
        said = _(
            "{share:.0f} % of a rooting circle {across:.1f} m across is held, and no neighbour's "
            "roots reach the trunk."
        ).format(**held)
    return " ".join([said, *_juglone(ground, place)])


def _juglone(ground: Ground, place: int) -> list[str]:
    """A word on juglone where it may reach."""
    walnuts = np.flatnonzero(ground.roots.juglone[:, place])
    if not walnuts.size:
        return []
    said = _("Juglone from {trees} may reach here too (field evidence is mixed).")
    return [said.format(trees=each([ground.roots.labels[number] for number in walnuts]))]


ROOT_COMPETITION = Factor(
    name="root_competition",
    label="Root competition",
    question="How much of its ground do neighbours' roots hold already?",
    group="room",
    quantity="root_share",
    unit="% held",
    decimals=0,
    needs=(),
    settings=RootSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Reach of roots in heights of the tree: NHBC Standards chapter 4.2, zones of influence.",
        "Strength and its fall with distance: model choice (common practice, no source).",
        "Walnut and juglone: Funt & Martin, Ohio State University; disputed in the field.",
    ),
)
