"""The card tells everything known of an option, with unit, source and status."""

import pytest

from model.trees.card import CARD
from model.trees.value import STATUSES
from model.trees.vocabulary import VOCABULARY
from tests.model.trees.shipped import CATALOGUE


@pytest.mark.parametrize("cultivar", ["Bramley", "Discovery"])
def test_every_line_has_label_value_source_and_status(cultivar):
    card = CATALOGUE.card(CATALOGUE.option("apple", cultivar, "M26"))

    assert len(card) > 40
    for line in card:
        assert line.label
        assert line.value
        assert line.source
        assert line.status in STATUSES


def test_a_value_of_the_species_says_so_on_the_card():
    card = CATALOGUE.card(CATALOGUE.option("apple", "Discovery", "M26"))

    chill = next(line for line in card if line.label == "winter chill needed")
    assert (chill.value, chill.unit) == ("50", "portions")
    assert "value of the species, apple" in chill.source


def test_every_line_is_a_known_trait_and_none_comes_twice():
    assert len(set(CARD)) == len(CARD)
    assert all(trait in VOCABULARY[table] for table, trait in CARD)


def test_days_are_told_as_dates():
    # Picked early in September: Arundel Arboretum, apple notes.
    card = CATALOGUE.card(CATALOGUE.option("apple", "Worcester Pearmain", "M26"))

    first = next(line for line in card if line.label.startswith("first pick"))
    assert (first.value, first.unit) == ("1 September", "")
