"""What is in doubt, by how much, and whether anybody said so."""

import numpy as np
import pytest
from scipy import stats

from model.robustness.doubts import doubts
from model.survey.reading import ABSENT
from tests.model.robustness.doubtful_site import (
    WITHOUT_WEATHER,
    clay,
    doubt,
    pipe,
    plain_study,
    walnut,
)
from tests.model.small_site import tree


def test_a_plus_minus_is_two_standard_deviations():
    # 19 times in 20: 95.45 % of a normal error lies within two standard deviations (any table)
    found = doubt(plain_study(clay(ph_plus_minus=0.4)), "pH of the clay")
    assert found.sd == pytest.approx(0.2)
    assert found.given
    within = stats.norm.cdf(2) - stats.norm.cdf(-2)
    assert within == pytest.approx(19 / 20, abs=0.005)


def test_where_nothing_was_said_a_usual_error_is_assumed_and_says_so():
    found = doubt(plain_study(clay()), "pH of the clay")
    assert found.sd == pytest.approx(0.25)
    assert not found.given
    assert "common practice, no source" in found.source


def test_a_figure_that_is_sure_is_in_no_doubt():
    labels = [d.label for d in doubts(plain_study(clay(ph_plus_minus=0.0)))]
    assert "pH of the clay" not in labels
    assert "soil depth of the clay" in labels


def test_soil_that_nobody_looked_at_is_in_twice_the_doubt():
    seen = doubt(plain_study(), "pH of the soil in general")
    unseen = plain_study(absent=WITHOUT_WEATHER | {"soil": ABSENT["soil"]})
    assert doubt(unseen, "pH of the soil in general").sd == 2 * seen.sd


def test_the_sites_own_plus_minus_is_used():
    study = plain_study(soil_plus_minus={"ph": 0.1})
    assert doubt(study, "pH of the soil in general").sd == pytest.approx(0.05)


def test_the_course_of_a_pipe_is_in_doubt_but_not_the_distance_its_operator_asks():
    labels = [d.label for d in doubts(plain_study(pipe()))]
    assert "course of the main" in labels
    assert not any("clearance" in label for label in labels)


def test_a_tree_that_is_full_grown_has_one_height_in_doubt():
    labels = [d.label for d in doubts(plain_study(tree("apple", 50, 50, 5.0)))]
    assert "height of the apple" in labels
    assert not any("full-grown" in label and "apple" in label for label in labels)


def test_a_tree_that_will_grow_is_as_tall_in_the_end_as_its_kind():
    study = plain_study(walnut())
    found = doubt(study, "full-grown height of the walnut")
    kind = study.catalogue.value("neighbours", "walnut", "mature_height")
    assert found.value == kind.number
    assert not found.measurable


def test_low_and_high_sizes_are_the_tenth_and_ninetieth_percentile():
    study = plain_study()
    found = doubt(study, "full-grown size on MM106")
    low, _, high = study.traits.height[:, 0]
    assert found.at(stats.norm.ppf([0.1, 0.5, 0.9])) == pytest.approx(
        [low, found.value, high], rel=1e-4
    )


def test_rootstocks_are_one_doubt_each_however_many_options_stand_on_them():
    labels = [d.label for d in doubts(plain_study()) if "full-grown size on" in d.label]
    assert len(labels) == len(set(labels)) == 3


def test_nothing_is_taken_further_off_than_its_plus_minus_nor_to_what_cannot_be():
    found = doubt(plain_study(clay(depth_cm_plus_minus=200.0)), "soil depth of the clay")
    assert found.at(np.array([-9.0, 9.0])).tolist() == [1.0, 255.0]
