"""Any site that a survey could describe, for property tests."""

import numpy as np
import pandas as pd
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

from model.survey import (
    KINDS,
    Feature,
    Plane,
    RasterHeights,
    Site,
    Soil,
    Spot,
    SpotHeights,
    Weather,
)
from model.survey.attribute import Attribute, Required
from model.survey.plus_minus import plus_minuses
from model.survey.soil import FERTILITIES, TEXTURES
from model.survey.wind import POINTS, Wind

LETTERS = "aZ9 äß,;\"'\\#=[]{}<>%é日本"
WORDS = st.text(LETTERS, min_size=1, max_size=12).map(str.strip).filter(bool)
NOTES = st.text(LETTERS, max_size=12).map(str.strip)
METRES = st.integers(-200_000, 200_000).map(lambda millimetres: millimetres / 1000)
PLACES = st.tuples(METRES, METRES)
SHARES = st.tuples(*[st.floats(0, 100)] * len(POINTS))
WINDS = st.builds(Wind, st.floats(0.1, 30), SHARES)


def value(attribute: Attribute) -> st.SearchStrategy:
    """Any value an attribute may have."""
    if attribute.choices:
        return st.sampled_from(attribute.choices)
    if not attribute.is_number:
        return WORDS if isinstance(attribute.default, Required) else NOTES
    numbers = st.floats(attribute.low, attribute.high)
    is_open = isinstance(attribute.default, float) and np.isnan(attribute.default)
    return st.one_of(st.just(float("nan")), numbers) if is_open else numbers


@st.composite
def geometries(draw, kind):
    """A point, a line, or an outline whose corners go once round its middle."""
    x, y = draw(PLACES)
    if kind.geometry == ("Point",):
        return Point(x, y)
    corners = draw(st.integers(3, 7))
    radii = draw(st.lists(st.integers(10, 400), min_size=corners, max_size=corners))
    turn = np.arange(corners) / corners * 2 * np.pi
    points = np.column_stack([x + radii * np.cos(turn), y + radii * np.sin(turn)]).round(3)
    if kind.geometry == ("LineString",):
        return LineString(points)
    hole = np.column_stack([x + np.cos(turn), y + np.sin(turn)]).round(3)
    return Polygon(points, [hole] if draw(st.booleans()) else [])


@st.composite
def features(draw):
    """A feature of any kind but the boundary."""
    kind = draw(st.sampled_from([kind for kind in KINDS.values() if kind.name != "boundary"]))
    attributes = {one.name: draw(value(one)) for one in kind.attributes}
    for off in plus_minuses(kind):
        if draw(st.booleans()):
            attributes[off.name] = draw(st.floats(off.low, off.high))
    if kind.name == "view":
        attributes |= {"low_deg": -draw(st.floats(1, 80)), "high_deg": draw(st.floats(0, 80))}
    return Feature(kind.name, draw(NOTES), draw(geometries(kind)), attributes)


@st.composite
def heights(draw):
    """Any of the three forms, or none; near 60 m at the origin."""
    form = draw(st.sampled_from(["none", "plane", "spots", "raster"]))
    if form == "plane":
        return Plane(draw(st.floats(0, 100)), draw(st.floats(0, 360)))
    z = np.array(draw(st.lists(st.floats(40, 80), min_size=12, max_size=12)))
    if form == "spots":
        x, y = np.arange(12.0) * 7.3, (np.arange(12.0) * 5) % 17
        return SpotHeights(x + draw(METRES), y, z)
    if form == "raster":
        cell = draw(st.sampled_from([0.5, 1.0, 3.7]))
        x = round(draw(METRES), 1) + cell * np.arange(4)
        return RasterHeights(x, -3.3 + cell * np.arange(3), z.reshape(3, 4))
    return None


@st.composite
def weather(draw):
    """Monthly or daily weather, or none."""
    kind = draw(st.sampled_from(["none", "monthly", "daily"]))
    if kind == "none":
        return None
    seed = draw(st.integers(0, 2**31)) if kind == "monthly" else None
    span = (pd.Index(range(1, 13), name="month"), pd.date_range("2020-01-01", "2020-12-31"))
    index = span[kind == "daily"]
    generator = np.random.default_rng(draw(st.integers(0, 99)))
    table = pd.DataFrame({"tmin": generator.normal(5, 0.5, len(index))}, index=index)
    table["tmax"] = table["tmin"] + generator.uniform(0, 15, len(index))
    if kind == "monthly":
        table[["tmin_sd", "tmax_sd"]] = generator.uniform(1, 6, (12, 2))
    table["rain"] = generator.gamma(1, 9, len(index))
    if kind == "monthly":
        table["rain_days"] = generator.uniform(0, 28, 12)
    return Weather(kind, table, draw(st.floats(-10, 900)), seed, draw(st.integers(10, 200)))


@st.composite
def sites(draw):
    """Any site."""
    names = draw(st.lists(WORDS, unique=True, max_size=3))
    trees = st.tuples(WORDS, WORDS, WORDS)
    return Site(
        name=draw(WORDS),
        latitude=draw(st.floats(-74, 74)),
        longitude=draw(st.floats(-180, 180)),
        altitude=60.0,
        timezone=draw(st.sampled_from(["Etc/GMT+3", "Etc/GMT-12", "UTC"])),
        cell=draw(st.floats(2, 50)),
        hub=draw(st.none() | PLACES),
        wind=draw(st.none() | WINDS),
        soil=Soil(
            draw(st.sampled_from(TEXTURES)),
            draw(st.sampled_from(FERTILITIES)),
            draw(st.floats(1, 500)),
            draw(st.floats(3, 10)),
        ),
        soil_plus_minus=draw(st.dictionaries(st.just("ph"), st.floats(0, 3))),
        features=tuple(draw(st.lists(features(), max_size=4))),
        heights=draw(heights()),
        weather=draw(weather()),
        spots=tuple(Spot(name, *draw(PLACES), draw(NOTES)) for name in names),
        options=tuple(draw(st.lists(trees, unique=True, max_size=3))),
    )
