"""A small made-up site with something of every kind, everything on it in doubt."""

from functools import cache

import numpy as np

from model.robustness.doubt import Doubt
from model.robustness.doubts import doubts
from model.study import Study
from model.survey.kinds import KINDS
from model.survey.plus_minus import plus_minuses
from model.survey.reading import ABSENT
from tests.model.small_site import (
    APPLE,
    CATALOGUE,
    PEAR,
    PLUM,
    LineString,
    Point,
    box,
    feature,
    monthly_weather,
    site,
    spot,
)

SPOTS = (spot("A", 20, 22), spot("B", 40, 41), spot("C", 12, 45))
OPTIONS = (APPLE, PEAR, PLUM)
WITHOUT_WEATHER = {"weather": ABSENT["weather"], "wind": ABSENT["wind"]}


def pipe(y: float = 17.0, **said: object) -> object:
    """A water main across the field, 3 m to be kept clear of it."""
    ends = LineString([(0, y), (60, y)])
    return feature("buried_service", ends, "Main", service="water", clearance_m=3.0, **said)


def walnut(**said: object) -> object:
    """A walnut that has yet to grow."""
    return feature(
        "neighbour_tree", Point(30, 50), "Walnut", species="walnut", height_m=9.0, crown_m=7.0,
        **said,
    )  # fmt: skip


def clay(**said: object) -> object:
    """Sour ground under peg A."""
    patch = box(10, 10, 35, 35)
    return feature("soil_patch", patch, "Clay", texture="clay", depth_cm=55, ph=5.4, **said)


def plain_study(*features: object, **given: object) -> Study:
    """A study without weather, quick to judge."""
    defaults = {"weather": None, "spots": SPOTS, "absent": WITHOUT_WEATHER}
    return Study(site(features, **(defaults | given)), CATALOGUE, OPTIONS)


@cache
def full_study() -> Study:
    """Something of every kind that carries a figure, each figure with a plus-minus of its own."""
    line = [(2, 30), (58, 31)]
    drawn = [
        pipe(),
        walnut(),
        clay(),
        feature("woodland", box(0, 52, 20, 60), "Copse", species="oak;birch", height_m=11.0),
        feature("hedge", LineString([(0, 2), (60, 2)]), "Hedge", species="hawthorn", height_m=1.4),
        feature("building", box(26, 26, 32, 32), "House", height_m=6.0),
        feature("wall", LineString([(45, 20), (45, 40)]), "Wall", height_m=1.2),
        feature("fence", LineString([(5, 40), (20, 40)]), "Fence", height_m=1.1),
        feature("path", LineString([(34, 30), (58, 30)]), "Path", width_m=2.0),
        feature("gate", Point(45, 30), "Gate", width_m=1.5),
        feature("tap", Point(33, 27), "Tap"),
        feature("tank", Point(50, 50), "Tank", capacity_l=900.0),
        feature("watercourse", LineString([(0, 8), (60, 9)]), "Brook", width_m=1.5),
        feature("wet_ground", box(8, 40, 18, 50), "Rushes", wet_months=5.0),
        feature("grassland", box(35, 35, 50, 50), "Meadow", age_years=12.0),
        feature("sun_wanted", box(22, 30, 24, 32), "Bed"),
        feature("overhead_line", LineString([(38, 0), (38, 60)]), "Line",
                height_m=6.0, service="electricity"),
        feature("animal_run", LineString(line), "Run", animal="deer"),
        feature("view", Point(29, 25), "Window", bearing_deg=200.0, width_deg=50.0, wish="keep"),
    ]  # fmt: skip
    said = []
    for one in drawn:
        off = {
            plus.name: _off(one.attributes.get(plus.name.removesuffix("_plus_minus")))
            for plus in plus_minuses(KINDS[one.kind])
        }
        said.append(type(one)(one.kind, one.name, one.geometry, one.attributes | off, one.origin))
    return Study(
        site(said, spots=SPOTS, weather=monthly_weather(years=10), cell=3.0), CATALOGUE, OPTIONS
    )


def _off(value: object) -> float:
    known = isinstance(value, float | int) and np.isfinite(value)
    return 0.2 * abs(value) + 0.05 if known else 0.4


def doubt(study: Study, label: str) -> Doubt:
    """The doubt of that label."""
    return next(one for one in doubts(study) if one.label == label)
