"""One's own cultivar or rootstock: asked for in sentences, read back as the catalogue reads all."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.trees import Option, read_catalogue, traits
from model.trees.own_rows import (
    ASKED,
    NEEDED,
    OwnRows,
    own_faults,
    own_keys,
    with_own,
    without_own,
)
from model.trees.rows import table_rows
from model.trees.vocabulary import VOCABULARY
from tests.model.small_site import CATALOGUE

SOURCE = "invented for a test, page 7"
PLUM = OwnRows(
    "cultivars",
    ("european_plum", "Made-up Early"),
    {"use": "dessert", "self_fertile": "yes", "flower_group": "2", "pick_first": "210"},
    SOURCE,
    "verified",
)
SIZES = {"low": "1.5", "typical": "2", "high": "2.6"}
STOCK = OwnRows(
    "rootstocks",
    ("Made-up Dwarf", ""),
    {"serves": "apple; pear", "growth_rate": "0.2", "growth_power": "1.3"}
    | {f"{size}_{part}": value for size in ("height", "spread") for part, value in SIZES.items()},
    SOURCE,
    "memory",
)


def changed(own, **values):
    return OwnRows(own.table, own.key, {**own.values, **values}, own.source, own.status)


def test_a_tree_of_ones_own_is_read_back_with_its_source_and_status(tmp_path):
    (tmp_path / "cultivars.csv").write_text(with_own("", PLUM), encoding="utf-8")
    (tmp_path / "rootstocks.csv").write_text(with_own("", STOCK), encoding="utf-8")
    catalogue = read_catalogue(tmp_path)
    value = catalogue.value("cultivars", PLUM.key, "pick_first")
    assert (value.number, value.source, value.status) == (210, SOURCE, "verified")
    options = catalogue.options()
    assert Option("european_plum", "Made-up Early", "Pixy") in options
    of = traits(catalogue, [Option("apple", "Bramley", "Made-up Dwarf")])
    vigour = catalogue.value("cultivars", ("apple", "Bramley"), "vigour").number
    assert of.height[:, 0].tolist() == pytest.approx([1.5 * vigour, 2 * vigour, 2.6 * vigour])


def test_good_rows_have_no_fault():
    assert own_faults(PLUM, CATALOGUE) == {}
    assert own_faults(STOCK, CATALOGUE) == {}


@pytest.mark.parametrize(
    ("own", "field"),
    [
        (changed(PLUM, self_fertile=""), "self_fertile"),
        (changed(PLUM, flower_group="12"), "flower_group"),
        (changed(PLUM, flower_group="nan"), "flower_group"),
        (changed(PLUM, use="jam"), "use"),
        (
            OwnRows("cultivars", ("european_plum", "victoria"), PLUM.values, SOURCE, "memory"),
            "name",
        ),
        (OwnRows("cultivars", ("apple", "a|b"), PLUM.values, SOURCE, "memory"), "name"),
        (OwnRows("cultivars", ("apple", "=A1"), PLUM.values, SOURCE, "memory"), "name"),
        (OwnRows("cultivars", ("plumb", "New"), PLUM.values, SOURCE, "memory"), "species"),
        (OwnRows("cultivars", PLUM.key, PLUM.values, " ", "memory"), "source"),
        (OwnRows("cultivars", PLUM.key, PLUM.values, SOURCE, ""), "status"),
        (changed(STOCK, serves="apple; tomato"), "serves"),
        (changed(STOCK, height_typical="4"), "height_typical"),
        (changed(STOCK, height_low=""), "height_low"),
    ],
)
def test_each_fault_is_a_sentence_beside_its_field(own, field):
    faults = own_faults(own, CATALOGUE)
    assert list(faults) == [field]
    for part in ("found ", "expected ", "mend by "):
        assert part in faults[field]


def test_other_rows_and_columns_of_the_file_stay():
    text = "species,cultivar,trait,value,unit,source,status,note,mine\n"
    text += "apple,Bramley,vigour,1.3,x,an old book,memory,,kept\n"
    both = with_own(text, PLUM)
    assert own_keys(both, "cultivars") == (("apple", "Bramley"), PLUM.key)
    assert "kept" in both
    assert without_own(both, "cultivars", PLUM.key) == text
    assert with_own(both, PLUM) == both


def test_nothing_that_is_written_is_a_formula():
    own = OwnRows("cultivars", PLUM.key, PLUM.values, "=HYPERLINK(1)", "memory")
    rows = list(csv.DictReader(io.StringIO(with_own("", own))))
    assert {row["source"] for row in rows} == {"'=HYPERLINK(1)"}


@given(st.text(max_size=40), st.text(max_size=40))
def test_any_words_survive_or_are_refused(tmp_path_factory, name, source):
    own = OwnRows("cultivars", ("apple", name), PLUM.values, source, "memory")
    if not own_faults(own, CATALOGUE):
        faults = []
        path = tmp_path_factory.mktemp("own") / "cultivars.csv"
        path.write_text(with_own("", own), encoding="utf-8")
        rows = table_rows(path, "cultivars", faults)
        assert not faults
        assert len(rows) == len(PLUM.values)


def test_every_trait_asked_for_is_one_the_catalogue_knows():
    for table, asked in ASKED.items():
        assert set(NEEDED[table]) <= set(asked) <= set(VOCABULARY[table])
