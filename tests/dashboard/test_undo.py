"""Steps are taken back one by one."""

import numpy as np

from dashboard.pages.undo import STEPS, Undo, alike


def test_steps_come_back_in_turn():
    undo = Undo()
    undo.keep("first")
    undo.keep("second")
    assert [undo.last("now"), undo.last("now"), undo.last("now")] == ["second", "first", None]


def test_a_drag_is_one_step():
    undo = Undo()
    for move in range(5):
        undo.keep(f"before move {move}", drag="spacing")
    undo.settle()
    undo.keep("before the next drag", drag="spacing")
    assert len(undo) == 2
    assert undo.last("now") == "before the next drag"
    assert undo.last("now") == "before move 0"


def test_what_changed_nothing_is_passed_over():
    undo = Undo()
    undo.keep({"weights": np.array([0.5, 0.5])})
    undo.keep({"weights": np.array([0.2, 0.8])})
    assert undo.last({"weights": np.array([0.2, 0.8])})["weights"].tolist() == [0.5, 0.5]


def test_old_steps_are_let_go():
    undo = Undo()
    for step in range(STEPS + 5):
        undo.keep(step)
    assert len(undo) == STEPS


def test_snapshots_differ_where_any_choice_differs():
    assert alike({"a": {"b": (1, 2)}}, {"a": {"b": (1, 2)}})
    assert not alike({"a": {"b": (1, 2)}}, {"a": {"b": (1, 3)}})
