"""Faults are sentences for people."""

import pickle

from model.trees import CatalogueFaults, Fault


def test_a_fault_says_where_what_and_how_to_mend_it():
    fault = Fault("cultivars.csv", 4, "value", "'tall'", "a number", "writing one")

    assert str(fault) == (
        "cultivars.csv, row 4, value: found 'tall', expected a number, mend by writing one"
    )


def test_all_faults_are_told_at_once():
    first = Fault("species.csv", 2, "unit", "'ft'", "'m'", "converting")
    second = Fault("species.csv", 0, "columns", "no note", "note", "adding it")

    text = str(CatalogueFaults([first, second]))

    assert text.splitlines() == [str(first), str(second)]
    assert "species.csv, columns" in text


def test_faults_survive_a_process_boundary():
    faults = CatalogueFaults([Fault("a.csv", 1, "unit", "x", "y", "z")])

    assert pickle.loads(pickle.dumps(faults)).faults == faults.faults  # noqa: S301 - our own bytes
