"""What surveyed figures are off by, against what was published."""

import pytest

from model.robustness.usual_errors import USUAL


def test_a_clinometer_knows_a_tree_as_well_as_four_foresters_do():
    # Luoma et al. (2017), Forests 8:38: four people, 319 trees, the standard deviation of their
    # heights 0.5 m or 2.9 % (from memory); a plus-minus is two of them
    for kind in ("neighbour_tree", "woodland"):
        assert USUAL[kind, "height_m"].measured.of(17.0) == pytest.approx(2 * 0.5, abs=0.1)


def test_a_clinometer_is_no_better_than_a_metre_in_forty():
    # Brack & Wood, Forest Mensuration (Australian National University): differences of up to 1 m
    # are acceptable for a tree of 40 m, instruments in the woods do no better
    assert USUAL["neighbour_tree", "height_m"].measured.of(40.0) >= 1.0


def test_a_service_located_by_one_method_lies_within_a_quarter_of_a_metre():
    # PAS 128:2014, quality level B2: located horizontally by one detection method within 250 mm
    assert USUAL["buried_service", "position"].measured.of(0.0) == 0.25


@pytest.mark.parametrize("usual", USUAL.values(), ids=map(str, USUAL))
def test_measuring_is_better_than_the_eye(usual):
    if usual.by:
        assert usual.measured.of(10.0) < usual.surveyed.of(10.0)
    assert usual.source
