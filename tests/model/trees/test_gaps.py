"""What rows together lack is told before anything is judged with them."""

import pytest

from model.trees import CatalogueFaults, read_catalogue

CULTIVARS = "species,cultivar,trait,value,unit,source,status,note\n"
ROOTSTOCKS = "rootstock,species,trait,value,unit,source,status,note\n"


def faults_of(tmp_path, name, text):
    (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    with pytest.raises(CatalogueFaults) as raised:
        read_catalogue(tmp_path)
    return raised.value.faults


def test_a_cultivar_of_an_unknown_species_is_refused(tmp_path):
    faults = faults_of(tmp_path, "cultivars", CULTIVARS + "aple,A,use,cider,,me,common,")

    assert "aple" in faults[0].found
    assert "apple" in faults[0].expected


def test_a_rootstock_that_serves_nothing_is_refused(tmp_path):
    faults = faults_of(tmp_path, "rootstocks", ROOTSTOCKS + "R,,stake,none,,me,common,")

    assert [fault.field for fault in faults] == ["serves"]


def test_a_rootstock_without_sizes_is_refused_size_by_size(tmp_path):
    faults = faults_of(tmp_path, "rootstocks", ROOTSTOCKS + "R,,serves,apple,,me,common,")

    assert [fault.field for fault in faults] == [
        *("height_low", "height_typical", "height_high"),
        *("spread_low", "spread_typical", "spread_high"),
    ]


def test_a_rootstock_for_an_unknown_species_is_refused(tmp_path):
    faults = faults_of(tmp_path, "rootstocks", ROOTSTOCKS + "M9,,serves,aple,,me,common,")

    assert "'aple'" in faults[0].found
