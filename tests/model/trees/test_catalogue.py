"""The catalogue answers by name, says what it lacks, and never hides whose value it gives."""

import pytest

from model.trees import Option
from tests.model.trees.shipped import CATALOGUE


def test_a_value_the_cultivar_lacks_is_its_species_and_says_so():
    value = CATALOGUE.value("cultivars", ("apple", "Discovery"), "chill_need")

    assert value.value == CATALOGUE.value("species", "apple", "chill_need").value
    assert value.of == "apple"
    assert value.note.startswith("value of the species, apple")


def test_a_value_of_the_cultivars_own_goes_first():
    value = CATALOGUE.value("cultivars", ("sweet_cherry", "Lapins"), "chill_need")

    assert (value.value, value.of) == (35.0, "Lapins")


def test_a_rootstocks_value_for_one_species_goes_before_its_general_one():
    medlar = CATALOGUE.value("rootstocks", ("Quince A", "medlar"), "height_low")
    pear = CATALOGUE.value("rootstocks", ("Quince A", "pear"), "height_low")

    assert medlar.value < pear.value


def test_an_unknown_trait_of_a_cultivar_is_none():
    assert CATALOGUE.value("cultivars", ("apple", "Discovery"), "s_alleles") is None


def test_a_pear_that_does_not_take_on_quince_is_no_option_there():
    labels = {option.label for option in CATALOGUE.options()}

    assert "Conference on Quince A" in labels
    assert "Williams' Bon Chrétien on Quince A" not in labels
    assert "Williams' Bon Chrétien on Pyrodwarf" in labels


@pytest.mark.parametrize("name", ["cox", "Cox’s Orange Pippin", "COX'S ORANGE PIPPIN"])
def test_a_cultivar_is_found_by_its_other_names_and_spellings(name):
    option = CATALOGUE.option("Apple", name, "mm106")

    assert option == Option("apple", "Cox's Orange Pippin", "MM106")


@pytest.mark.parametrize(
    ("names", "hint"),
    [
        (("appel", "Bramley", "M9"), "did you mean apple"),
        (("apple", "Bramly", "M9"), "did you mean Bramley"),
        (("apple", "Bramley", "Pixy"), "MM106"),
        (("pear", "Williams", "Quince A"), "choose from"),
    ],
)
def test_a_wrong_name_is_answered_with_what_there_is(names, hint):
    with pytest.raises(ValueError, match=hint):
        CATALOGUE.option(*names)


def test_every_option_of_the_catalogue_can_be_asked_for_by_its_names():
    options = CATALOGUE.options()

    assert len(set(options)) == len(options)
    for option in options:
        assert CATALOGUE.option(option.species, option.cultivar, option.rootstock) == option


def test_a_source_is_cited_in_full():
    value = CATALOGUE.value("rootstocks", "M9", "height_low")

    assert CATALOGUE.citation(value).startswith("RHS: Rootstocks for fruit, rhs.org.uk")


def test_a_value_without_a_source_says_so():
    value = CATALOGUE.value("rootstocks", "M9", "poor_soil")

    assert CATALOGUE.citation(value) == "common practice, no source"
