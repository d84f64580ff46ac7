"""The vocabulary is whole: each trait labelled, numbers bounded and with a unit."""

import math

import pytest

from model.trees.vocabulary import KEYS, VOCABULARY

TRAITS = [(table, trait) for table, known in VOCABULARY.items() for trait in known.values()]


def test_every_table_has_its_key_columns():
    assert KEYS.keys() == VOCABULARY.keys()


@pytest.mark.parametrize(("table", "trait"), TRAITS, ids=lambda part: getattr(part, "name", part))
def test_a_trait_has_a_label_and_a_number_has_unit_and_bounds(table, trait):
    assert trait.label
    if trait.numeric:
        assert trait.unit
        assert math.isfinite(trait.low)
        assert math.isfinite(trait.high)
        assert trait.low < trait.high
    else:
        assert not trait.unit


def test_a_trait_means_the_same_in_every_table():
    units = {}
    for _, trait in TRAITS:
        assert units.setdefault(trait.name, trait.unit) == trait.unit
