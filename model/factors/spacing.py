"""Spacing: is there room for the full-grown crown, and to walk all the way round it?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, RuleOut, Settings
from model.ground import Ground
from model.language import _
from model.trees import HIGH, LOW, TYPICAL, Traits, full_size

SIZES = {"low": LOW, "typical": TYPICAL, "high": HIGH}


class SpacingSettings(Settings):
    """The curve over the clear room, and which end of the size range the crown is taken at."""

    curve = param.ClassSelector(
        class_=Curve, default=Curve((0.0, 0.5, 1.0, 2.0), (0.05, 0.4, 0.85, 1.0))
    )
    size: param.Selector = param.Selector(
        default="typical",
        objects=list(SIZES),
        doc="Which of the full-grown sizes to leave room for.",
    )


def clear_room(distance: np.ndarray, spread: np.ndarray) -> np.ndarray:
    """Room left between a crown and what stands nearest (option, place) [m].

    `distance` (place,) [m] from the trunk, `spread` (option, place) [m]. Negative: it does not fit.
    """
    return distance - spread / 2


def _room(ground: Ground, traits: Traits, size: str) -> tuple[np.ndarray, np.ndarray]:
    """Clear room (option, place) [m] and the nearest obstacle (place,)."""
    distance, which = ground.obstacles.nearest()
    spread = full_size(traits, ground.soils.fertility).spread[SIZES[size]]
    return clear_room(distance, spread), which


def _measure(ground: Ground, traits: Traits, *, size: str) -> np.ndarray:
    return _room(ground, traits, size)[0]


def _rules_out(ground: Ground, traits: Traits, *, size: str) -> tuple[RuleOut, ...]:
    room, which = _room(ground, traits, size)
    why = _("no room: the full-grown crown would reach {obstacle}")
    return tuple(
        RuleOut(why.format(obstacle=label), (room < 0) & (which == number))
        for number, label in enumerate(ground.obstacles.labels)
        if (which == number).any()
    )


def _explain(ground: Ground, traits: Traits, option: int, place: int, *, size: str) -> str:
    distance = ground.obstacles.distance[:, place]
    nearest = int(distance.argmin())
    spread = full_size(traits, ground.soils.fertility[[place]]).spread[SIZES[size], option, 0]
    room = distance[nearest] - spread / 2
    clear = _("{room:.1f} m clear") if room >= 0 else _("{room:.1f} m too little")
    said = _(
        "The trunk would stand {away:.1f} m from {obstacle}; the full-grown crown reaches "
        "{reach:.1f} m: {verdict}."
    )
    if distance[nearest] < 0:
        said = _(
            "The trunk would stand inside {obstacle}; the full-grown crown reaches {reach:.1f} m: "
            "{verdict}."
        )
    return said.format(
        away=distance[nearest],
        obstacle=ground.obstacles.labels[nearest],
        reach=spread / 2,
        verdict=clear.format(room=abs(room)),
    )


SPACING = Factor(
    name="spacing",
    label="Spacing",
    question="Is there room to walk round it when it is full grown?",
    group="room",
    quantity="clear_room",
    unit="m clear",
    decimals=1,
    needs=(),
    settings=SpacingSettings,
    measure=_measure,
    rules_out=_rules_out,
    explain=_explain,
    sources=(
        "A free strip of about 1 m round each mature crown (common practice, no source).",
        "Crowns and neighbours at their own full size: the catalogue, value by value.",
    ),
)
