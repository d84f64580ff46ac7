"""A sketch is drawn on in steps that can all be taken back."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.survey import same_site
from model.survey.editing import History, Sketch, sketch_of
from model.survey.sketch_faults import checked_sketch
from tests.model.demo import DEMO, demo_study
from tests.model.survey.examples import features


@pytest.fixture(scope="module")
def demo():
    return demo_study().site


@pytest.fixture
def empty(demo):
    return Sketch(replace(demo, features=(), spots=(), hub=None))


def test_a_site_drawn_and_checked_is_the_same_site(demo):
    checked = checked_sketch(sketch_of(demo))
    assert not checked.faults
    assert same_site(checked.site, demo)


def test_holes_are_kept_and_go_along(demo):
    sketch = sketch_of(replace(demo, features=features(), spots=(), hub=None))
    holed = next(mark for mark in sketch.marks if mark.holes)
    shifted = tuple((x + 3, y - 2) for x, y in holed.points)
    moved = sketch.reshaped(holed.id, shifted).mark(holed.id)
    assert moved.holes[0][0] == pytest.approx((holed.holes[0][0][0] + 3, holed.holes[0][0][1] - 2))
    assert moved.geometry.area == pytest.approx(holed.geometry.area)


def test_marks_are_added_moved_changed_and_removed(empty):
    sketch = empty.added("neighbour_tree", ((1.0, 2.0),))
    number = sketch.marks[0].id
    sketch = sketch.changed(number, "height_m", "12").changed(number, "name", " Old oak ")
    sketch = sketch.shifted(number, 2, 3)
    mark = sketch.mark(number)
    assert (mark.name, mark.points, mark.fields) == ("Old oak", ((3.0, 5.0),), {"height_m": "12"})
    assert sketch.changed(number, "height_m", " ").mark(number).fields == {}
    assert sketch.removed(number).marks == ()


def test_there_is_one_hub_and_pegs_name_themselves(empty):
    sketch = empty.added("hub", ((0.0, 0.0),)).added("hub", ((5.0, 5.0),))
    assert [mark.points for mark in sketch.of_kind("hub")] == [((5.0, 5.0),)]
    sketch = sketch.added("spot", ((1.0, 1.0),)).added("spot", ((2.0, 1.0),))
    assert [mark.name for mark in sketch.of_kind("spot")] == ["Peg 1", "Peg 2"]


def test_what_is_not_there_cannot_be_changed(empty):
    with pytest.raises(ValueError, match="no feature 7"):
        empty.shifted(7, 1, 1)
    with pytest.raises(ValueError, match="expected a kind"):
        empty.added("dragon", ((0.0, 0.0),))


@given(st.lists(st.sampled_from(["add", "undo", "redo"]), max_size=30))
def test_undo_and_redo_walk_the_same_road(acts):
    history, road, at = History(Sketch(demo_study().site)), [()], 0
    for number, act in enumerate(acts):
        if act == "add":
            history = history.after(history.present.added("tap", ((float(number), 0.0),)))
            road = [*road[: at + 1], history.present.marks]
            at += 1
        elif act == "undo":
            history, at = history.undone(), max(at - 1, 0)
        else:
            history, at = history.redone(), min(at + 1, len(road) - 1)
        assert history.present.marks == road[at]


def test_the_same_sketch_is_no_step(empty):
    history = History(empty)
    assert history.after(empty) is history


def test_the_demo_is_where_it_was(demo):
    assert demo.folder == DEMO
