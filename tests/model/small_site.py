"""Small made-up sites for the tests: invented land, no real place."""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from shapely.geometry import LineString, Point, Polygon, box

from model.factors import FACTORS
from model.ground import Ground
from model.study import Study
from model.survey.feature import KINDS, Feature
from model.survey.heights import Plane
from model.survey.site import Site, Soil, Spot
from model.survey.weather import Weather
from model.trees import Option, read_catalogue

CATALOGUE = read_catalogue()
APPLE = Option("apple", "Egremont Russet", "MM106")
PEAR = Option("pear", "Conference", "Quince A")
PLUM = Option("european_plum", "Victoria", "St Julien A")
GAGE = Option("gage", "Cambridge Gage", "St Julien A")


def feature(kind: str, shape: object, name: str = "", **attributes: object) -> Feature:
    """A feature of a made-up site, what is not said taken from its kind's defaults."""
    defaults = {a.name: a.default for a in KINDS[kind].attributes}
    return Feature(kind, name, shape, defaults | attributes, "made up for a test")


def tree(
    species: str, x: float, y: float, height: float, crown: float = 6.0, name: str = ""
) -> Feature:
    """A neighbour tree that is full grown already."""
    return feature(
        "neighbour_tree", Point(x, y), name or f"the {species}", species=species, height_m=height,
        crown_m=crown, full_height_m=height, full_crown_m=crown,
    )  # fmt: skip


def monthly_weather(warmth: float = 0.0, rain: float = 75.0, years: int = 30) -> Weather:
    """Twelve normals of an invented mild lowland climate, warmer or wetter as said."""
    month = np.arange(1, 13)
    mean = 10.2 + 6.2 * np.cos(2 * np.pi * (month - 7.3) / 12) + warmth
    table = pd.DataFrame(
        {
            "tmin": mean - 4.0,
            "tmax": mean + 4.0,
            "tmin_sd": 3.0,
            "tmax_sd": 2.5,
            "rain": rain,
            "rain_days": 14.0,
            "year_sd": 1.0,
        },
        index=month,
    )
    return Weather("monthly", table, station_altitude=50.0, seed=11, years=years)


def site(features: Sequence[Feature] = (), **given: object) -> Site:
    """A level field of 60 m by 60 m with the house in its middle, unless said otherwise."""
    defaults: dict[str, object] = {
        "name": "made up for a test",
        "latitude": 52.0,
        "longitude": -5.75,
        "altitude": 50.0,
        "timezone": "Europe/London",
        "cell": 2.0,
        "hub": (30.0, 30.0),
        "soil": Soil(),
        "heights": Plane(0.0, 180.0, 50.0),
        "weather": monthly_weather(),
        "absent": {},
    }
    drawn = tuple(features)
    if not any(f.kind == "boundary" for f in drawn):
        drawn = (feature("boundary", box(0, 0, 60, 60)), *drawn)
    return Site(**(defaults | given | {"features": drawn}))


def study(
    features: Sequence[Feature] = (),
    options: Sequence[Option] = (APPLE, PEAR, PLUM),
    **given: object,
) -> Study:
    """A study of a small made-up site."""
    return Study(site(features, **given), CATALOGUE, options)


def spot(name: str, x: float, y: float) -> Spot:
    """A peg."""
    return Spot(name, x, y)


def measure(made: Study, factor: str, option: int, x: float, y: float) -> float:
    """A factor's figure for an option at a point."""
    values = made.measure(factor)
    return float(values[min(option, len(values) - 1), made.ground.places.nearest(x, y, 0.01)])


__all__ = [
    "APPLE", "CATALOGUE", "FACTORS", "GAGE", "PEAR", "PLUM", "Ground", "LineString", "Point",
    "Polygon", "box", "feature", "measure", "monthly_weather", "site", "spot", "study",
    "tree",
]  # fmt: skip
