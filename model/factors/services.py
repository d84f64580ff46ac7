"""Services: does the full-grown tree keep clear of pipes, cables and overhead lines?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, RuleOut, Settings
from model.ground import Ground, given
from model.language import _, figure, marked
from model.trees import HIGH, Traits, full_size

LADDERS = marked(
    "Locate services before you dig and ask the network operator; keep people, ladders and poles "
    "away from overhead lines."
)


class ServiceSettings(Settings):
    """The curve over the room to spare, and the clearances asked of overhead lines."""

    curve = param.ClassSelector(class_=Curve, default=Curve((0.0, 1.0, 4.0), (0.3, 0.8, 1.0)))
    electricity = param.Number(
        3.0, bounds=(0.5, 15.0), doc="Clearance from a crown to an overhead power line [m]."
    )
    telecoms = param.Number(
        1.0, bounds=(0.2, 5.0), doc="Clearance from a crown to an overhead telephone line [m]."
    )


def room_from_wire(
    distance: np.ndarray, wire: float, height: np.ndarray, spread: np.ndarray
) -> np.ndarray:
    """Nearest distance between a crown and a level wire (option, place) [m].

    `distance` (place,) [m] from trunk to wire on the ground, `wire` its height [m], `height` and
    `spread` (option, place) [m] of the tree, its crown taken as an upright cylinder.
    """
    beside = np.maximum(distance - spread / 2, 0)
    above = np.maximum(wire - height, 0)
    return np.hypot(beside, above)


def _spare(ground: Ground, traits: Traits, clearance: dict[str, float]) -> np.ndarray:
    """Room to spare from every service beyond what it asks (service, option, place) [m]."""
    services = given(ground.services)
    # A wire is judged by the largest that the tree may grow.
    size = full_size(traits, ground.soils.fertility)
    spare = []
    for number, wire in enumerate(services.height):
        distance = services.distance[number]
        if np.isnan(wire):
            gap = np.broadcast_to(distance - services.asked[number], size.height[HIGH].shape)
        else:
            room = room_from_wire(distance, wire, size.height[HIGH], size.spread[HIGH])
            gap = room - clearance[services.carries[number]]
        spare.append(gap)
    return np.stack(spare)


def _measure(ground: Ground, traits: Traits, **clearance: float) -> np.ndarray:
    return _spare(ground, traits, clearance).min(axis=0)


def _rules_out(ground: Ground, traits: Traits, **clearance: float) -> tuple[RuleOut, ...]:
    labels = given(ground.services).labels
    spare = _spare(ground, traits, clearance)
    return tuple(
        RuleOut(_("too near {service} for its clearance").format(service=label), spare[number] < 0)
        for number, label in enumerate(labels)
    )


def _explain(ground: Ground, traits: Traits, option: int, place: int, **clearance: float) -> str:
    spare = _spare(ground, traits, clearance)[:, option, place]
    nearest = int(spare.argmin())
    services = given(ground.services)
    said = _(
        "{service} runs {away} m from the trunk: the largest this tree may grow is {room:.1f} m "
        "short of the clearance asked."
    )
    if spare[nearest] >= 0:
        said = _(
            "{service} runs {away} m from the trunk: the largest this tree may grow is {room:.1f} "
            "m to spare beyond the clearance asked."
        )
    told = said.format(
        service=services.labels[nearest],
        away=figure(services.distance[nearest, place], ".1f"),
        room=abs(spare[nearest]),
    )
    return f"{told} {_(LADDERS)}"


SERVICES = Factor(
    name="services",
    label="Services",
    question="Does it keep clear of pipes, cables and overhead lines?",
    group="room",
    quantity="service_room",
    unit="m to spare",
    decimals=1,
    needs=("services",),
    settings=ServiceSettings,
    measure=_measure,
    rules_out=_rules_out,
    explain=_explain,
    sources=(
        "Clearance to a buried service: as surveyed; ask its operator, whose rules come first.",
        "3 m to a power line: ENA TS 43-8 for 11 to 33 kV, from memory; operators differ.",
        "1 m to a telephone line: common practice, no source.",
    ),
)
