"""Whatever is in a file: only the documented error, its place named, nothing changed on disk.

A hundred files harmed by lot and hundreds that Hypothesis makes up. For many more:
python -m tests.faults --tries 20000
"""

import json
from dataclasses import replace

import pytest
import tomli_w
from hypothesis import given, settings
from hypothesis import strategies as st

from model.survey.lists import SPOT_COLUMNS
from model.survey.settings import SETTINGS
from model.survey.table import table_text
from tests.faults.readers import readers
from tests.faults.trial import bench, harmed

READERS = {reader.name: reader for reader in readers()}
SEED, TRIES, FEWER = 20261128, 3, 1
LEAVES = (
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8)
    | st.sampled_from(("Point", "Polygon", "LineString", "GeometryCollection", "hedge"))
)  # fmt: skip
KEYS = st.sampled_from(("type", "geometry", "coordinates", "geometries", "properties", "kind", "a"))
JSON = st.recursive(
    LEAVES, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4)
)
TOML = st.recursive(
    st.booleans() | st.integers() | st.floats() | st.dates() | st.text(max_size=8),
    lambda one: st.lists(one, max_size=3) | st.dictionaries(st.text(max_size=4), one, max_size=3),
)  # fmt: skip
NAMES = [attribute.name for table in SETTINGS.values() for attribute in table]
TABLES = st.sampled_from([*NAMES, *(table for table in SETTINGS if table), "weights", "curves"])
CELLS = st.text(max_size=6) | st.floats().map(repr) | st.integers().map(str)
ROWS = st.lists(st.tuples(*[CELLS] * len(SPOT_COLUMNS)), max_size=4)


@pytest.fixture(scope="module")
def at(tmp_path_factory):
    """The bench of a reader, made when it is first asked for."""
    made = {}

    def bench_of(name):
        if name not in made:
            made[name] = bench(READERS[name], tmp_path_factory.mktemp("faults"))
        return made[name]

    return bench_of


@pytest.mark.parametrize("name", READERS)
def test_a_file_is_read_as_it_is_and_refused_in_words_when_harmed(at, name):
    reader = READERS[name]
    as_it_is = at(name).tried(reader.sample())
    assert (as_it_is.said, as_it_is.wrong) == ((), "")
    for number in range(TRIES if reader.share >= 0.5 else FEWER):
        tried = at(name).tried(harmed(reader, SEED, number))
        assert not tried.wrong, f"{name}, seed {SEED}, try {number}: {tried.wrong}"


@settings(max_examples=8)
@given(data=st.binary(max_size=200) | st.text(max_size=60).map(lambda text: text.encode("utf-8")))
@pytest.mark.parametrize(
    "name",
    ["site.toml", "features.geojson", "spots.csv", "study.toml", "order.csv", "observations.csv",
     "language (.po)", "link", "ballot form", "background.toml", "sketch.json", "report.toml",
     "picture (.png)", "zip of a folder", "heights.tif", "features.gpkg", "tapes pasted"],
)  # fmt: skip
def test_any_bytes_at_all_are_read_or_refused_in_words(at, name, data):
    assert not at(name).tried(data).wrong


@settings(max_examples=25)
@given(features=st.lists(JSON, max_size=3), crs=st.none() | JSON)
def test_any_json_in_the_place_of_features_is_refused_in_words(at, features, crs):
    document = {"type": "FeatureCollection", "features": features, "crs": crs}
    assert not at("features.geojson").tried(json.dumps(document).encode()).wrong


@settings(max_examples=15)
@given(tables=st.dictionaries(TABLES | st.text(max_size=5), TOML, max_size=5))
@pytest.mark.parametrize("name", ["site.toml", "study.toml", "background.toml", "report.toml"])
def test_any_values_under_any_keys_are_refused_in_words(at, name, tables):
    assert not at(name).tried(tomli_w.dumps(tables).encode()).wrong


@settings(max_examples=25)
@given(rows=ROWS)
def test_any_cells_under_the_right_header_are_read_or_refused_in_words(at, rows):
    text = table_text([column.name for column in SPOT_COLUMNS], rows)
    assert not at("spots.csv").tried(text.encode()).wrong


@pytest.mark.parametrize(
    ("told", "read"),
    [
        ("undocumented", lambda path: {}[path]),
        ("no word of where", lambda path: ["found " + path.suffix]),
        ("files changed", lambda path: [str(path)] if path.with_name("new").touch() else []),
        ("files changed", lambda path: path.unlink()),
    ],
)
def test_the_bench_tells_what_it_looks_for(tmp_path, told, read):
    reader = replace(READERS["spots.csv"], read=read)
    assert told in bench(reader, tmp_path).tried(b"x").wrong
