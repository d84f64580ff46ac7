"""The shipped catalogue gives a source and a status for every value, and enough to choose from."""

import pytest

from model.trees.value import COMMON_PRACTICE, STATUSES
from model.trees.vocabulary import VOCABULARY
from tests.model.trees.shipped import CATALOGUE

VALUES = [
    (table, key, trait, value)
    for table, rows in CATALOGUE.tables.items()
    for (key, trait), value in rows.items()
]
CULTIVARS = [
    (species, cultivar)
    for species in CATALOGUE.species()
    for cultivar in CATALOGUE.cultivars_of(species)
]


def test_there_are_enough_species_rootstocks_and_cultivars():
    assert len(CATALOGUE.species()) >= 12
    assert len(CATALOGUE.rootstocks()) >= 25
    assert len(CULTIVARS) >= 100


def test_every_value_has_a_source_that_fits_its_status():
    for table, key, trait, value in VALUES:
        where = (table, key, trait)
        assert value.status in STATUSES, where
        if value.status == "verified":
            assert set(value.source.split()) <= CATALOGUE.sources.keys(), where
        elif value.status == "common":
            assert value.source == COMMON_PRACTICE, where
        else:
            assert value.source.startswith("from memory of "), where


def test_every_source_is_cited_in_full_and_used():
    used = {word for *_, value in VALUES for word in value.source.split()}
    noted = " ".join(value.note for *_, value in VALUES)
    for name, source in CATALOGUE.sources.items():
        assert source.kind, name
        assert source.citation, name
        assert source.where, name
        assert name in used or name in noted


def test_units_are_the_vocabularys():
    for table, key, trait, value in VALUES:
        assert value.unit == VOCABULARY[table][trait].unit, (table, key, trait)


@pytest.mark.parametrize(("species", "cultivar"), CULTIVARS)
def test_every_cultivar_has_a_flowering_group_or_says_why_not(species, cultivar):
    group, fertile, why = (
        CATALOGUE.value("cultivars", (species, cultivar), trait)
        for trait in ("flower_group", "self_fertile", "flower_group_note")
    )

    assert group or why or fertile.value == "yes"


def test_every_species_can_be_planted():
    assert {option.species for option in CATALOGUE.options()} == set(CATALOGUE.species())


def test_every_rootstock_is_used():
    assert {option.rootstock for option in CATALOGUE.options()} == set(CATALOGUE.rootstocks())


def test_no_cultivar_shares_a_name_with_another_of_its_species():
    for species in CATALOGUE.species():
        names = [
            word.casefold()
            for cultivar in CATALOGUE.cultivars_of(species)
            for value in [CATALOGUE.value("cultivars", (species, cultivar), "also_called")]
            for word in (cultivar, *(value.words if value else ()))
        ]
        assert len(set(names)) == len(names), species


def test_partners_that_fail_each_other_are_cultivars_of_the_catalogue():
    for table, key, trait, value in VALUES:
        if trait in ("incompatible_with", "incompatible_scions"):
            species = key[0] if table == "cultivars" else "pear"
            assert set(value.words) <= set(CATALOGUE.cultivars_of(species)), key


def test_partners_fail_each_other_both_ways():
    for species, cultivar in CULTIVARS:
        value = CATALOGUE.value("cultivars", (species, cultivar), "incompatible_with")
        for other in value.words if value else ():
            back = CATALOGUE.value("cultivars", (species, other), "incompatible_with")
            assert cultivar in back.words


def test_a_triploid_is_never_called_self_fertile():
    for key in CULTIVARS:
        ploidy = CATALOGUE.value("cultivars", key, "ploidy")
        if ploidy and ploidy.value == "triploid":
            assert CATALOGUE.value("cultivars", key, "self_fertile").value == "no"
