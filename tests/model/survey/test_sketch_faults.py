"""Every fault of a sketch is said, under the number of the mark it is of."""

from dataclasses import replace

import pytest

from model.sketched import judged_sketch
from model.survey.editing import Sketch, sketch_of
from model.survey.sketch_faults import WHOLE, checked_sketch
from tests.model.demo import demo_study


@pytest.fixture
def sketch():
    return sketch_of(demo_study().site)


def fields(checked, number):
    return [fault.field for fault in checked.faults.get(number, ())]


def test_what_is_still_needed_is_said_and_the_rest_of_the_site_stands(sketch):
    drawn = sketch.added("neighbour_tree", ((40.0, 40.0),))
    checked = checked_sketch(drawn)
    assert list(checked.faults) == [drawn.marks[-1].id]
    assert fields(checked, drawn.marks[-1].id) == ["species", "height_m", "crown_m"]
    assert len(checked.site.features) == len(demo_study().site.features)


def test_an_outline_that_crosses_itself_is_said(sketch):
    drawn = sketch.added(
        "keep_clear", ((0.0, 0.0), (5.0, 5.0), (5.0, 0.0), (0.0, 5.0)), "", {"reason": "x"}
    )
    assert fields(checked_sketch(drawn), drawn.marks[-1].id) == ["geometry"]


def test_too_few_corners_are_said(sketch):
    drawn = sketch.added("building", ((0.0, 0.0), (5.0, 5.0)), "", {"height_m": "3"})
    assert fields(checked_sketch(drawn), drawn.marks[-1].id) == ["geometry"]


def test_two_pegs_of_one_name_and_a_peg_off_the_land_are_said(sketch):
    twin = sketch.added("spot", ((50.0, 50.0),), "Hollow")
    assert fields(checked_sketch(twin), twin.marks[-1].id) == ["spot"]
    astray = sketch.added("spot", ((500.0, 50.0),), "Astray")
    assert fields(checked_sketch(astray), astray.marks[-1].id) == ["x_m"]


def test_a_second_boundary_is_said_of_that_one(sketch):
    points = ((0.0, 0.0), (50.0, 0.0), (50.0, 50.0))
    drawn = sketch.added("boundary", points)
    assert fields(checked_sketch(drawn), drawn.marks[-1].id) == ["kind"]


def test_a_tree_the_catalogue_lacks_is_said(sketch):
    known = {"species": "dragon tree", "height_m": 5.0, "crown_m": 3.0}
    drawn = sketch.added("neighbour_tree", ((40.0, 40.0),), "", known)
    checked = judged_sketch(drawn, demo_study().catalogue)
    assert fields(checked, drawn.marks[-1].id) == ["species"]
    assert "oak" in str(checked.faults[drawn.marks[-1].id][0])


def test_too_many_cells_is_a_fault_of_the_whole_site(sketch):
    finer = replace(sketch, site=replace(sketch.site, cell=0.05))
    assert fields(checked_sketch(finer), WHOLE) == ["grid_m"]


def test_what_was_drawn_is_no_longer_missing():
    site = replace(
        demo_study().site,
        hub=None,
        features=(),
        spots=(),
        absent={"hub": "no hub", "spots": "no pegs"},
    )
    drawn = Sketch(site).added("hub", ((1.0, 1.0),))
    assert checked_sketch(drawn).site.absent == {"spots": "no pegs"}
