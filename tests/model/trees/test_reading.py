"""The shipped catalogue is read, and a site folder's own rows go over it."""

import pytest

from model.trees import CatalogueFaults, read_catalogue, traits

CULTIVARS = "species,cultivar,trait,value,unit,source,status,note\n"
ROOTSTOCKS = "rootstock,species,trait,value,unit,source,status,note\n"


def folder_with(tmp_path, **files):
    for name, text in files.items():
        (tmp_path / f"{name}.csv").write_text(text, encoding="utf-8")
    return tmp_path


def test_a_folder_without_rows_changes_nothing(tmp_path):
    assert read_catalogue(tmp_path) == read_catalogue()


def test_an_own_row_replaces_the_shipped_value_only(tmp_path):
    row = "apple,Bramley,flower_group,4,group,our orchard,common,ten springs\n"

    catalogue = read_catalogue(folder_with(tmp_path, cultivars=CULTIVARS + row))

    assert catalogue.value("cultivars", ("apple", "Bramley"), "flower_group").value == 4
    assert catalogue.value("cultivars", ("apple", "Bramley"), "ploidy").value == "triploid"


def test_a_cultivar_of_ones_own_can_be_planted(tmp_path):
    row = "apple,The One by the Gate,use,dessert,,my notes,common,\n"

    catalogue = read_catalogue(folder_with(tmp_path, cultivars=CULTIVARS + row))

    option = catalogue.option("apple", "the one by the gate", "MM106")
    assert traits(catalogue, [option]).height[1, 0] == pytest.approx(4.0)


def test_a_rootstock_of_ones_own_can_be_planted(tmp_path):
    sizes = "".join(
        f"My stock,,{size}_{part},{metres},m,my notes,common,\n"
        for size in ("height", "spread")
        for part, metres in (("low", 2), ("typical", 3), ("high", 4))
    )
    serves = "My stock,,serves,apple; pear,,my notes,common,\n"

    catalogue = read_catalogue(folder_with(tmp_path, rootstocks=ROOTSTOCKS + serves + sizes))

    assert "My stock" in catalogue.rootstocks_for("pear")


def test_own_citations_are_found(tmp_path):
    catalogue = read_catalogue(
        folder_with(
            tmp_path,
            cultivars=CULTIVARS + "apple,Bramley,use,cooking,,OURS,verified,\n",
            sources="source,kind,citation,where\nOURS,record,Our orchard book,shelf\n",
        )
    )

    value = catalogue.value("cultivars", ("apple", "Bramley"), "use")
    assert catalogue.citation(value) == "Our orchard book, shelf"


def test_the_faults_of_all_files_are_told_at_once(tmp_path):
    folder = folder_with(
        tmp_path,
        cultivars=CULTIVARS + "apple,A,use,,,me,common,\n",
        rootstocks=ROOTSTOCKS + "R,,colour,red,,me,common,\n",
        sources="source,kind,citation,where\nX,book,,\n",
    )

    with pytest.raises(CatalogueFaults) as raised:
        read_catalogue(folder)

    assert {fault.file for fault in raised.value.faults} == {
        "cultivars.csv",
        "rootstocks.csv",
        "sources.csv",
    }
