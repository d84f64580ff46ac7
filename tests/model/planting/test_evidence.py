"""What was seen against what the map said, on small made-up sites.

Source of every statement here: common practice, no source, unless one is named.
"""

from datetime import date

import numpy as np
import pytest

from model.planting.year_after.correcting import updated_site
from model.planting.year_after.evidence import evidence_at, place_of
from model.planting.year_after.expected import MONTH, expected
from model.planting.year_after.observations import Observation
from model.planting.year_after.rescoring import overrides, rescored, worth_at
from model.survey.site import Soil
from tests.model.small_site import LineString, box, feature, spot, study

PEGS = (spot("A", 15, 15), spot("B", 45, 15), spot("C", 45, 45))


def seen(what, value, off, at="A", day=date(2027, 10, 10)):
    return Observation(at, day, what, value, off)


@pytest.fixture(scope="module")
def field():
    patch = feature("soil_patch", box(30, 0, 60, 60), "the clay", texture="clay", depth_cm=60.0, ph=6.0)  # fmt: skip # noqa: E501
    run = feature("animal_run", LineString([(0, 18), (60, 18)]), "the run", animal="roe deer")
    return study((patch, run), spots=PEGS, soil=Soil("loam", "ordinary", 80.0, 6.5))


def one_of(field, *observations, at="A", option=0):
    (found,) = evidence_at(field, place_of(field, at), option, observations)
    return found


def test_what_agrees_with_the_map_is_as_expected_and_moves_nothing(field):
    said = expected(field, "sun_hours", place_of(field, "A"), 0)
    found = one_of(field, seen("sun_hours", said.mean, 1.0))
    assert found.words == "as expected"
    assert found.mean == pytest.approx(said.mean)
    assert found.sd < min(said.sd, 0.5 + 1e-9)


def test_precisions_add_as_in_gelman_and_others_section_2_5(field):
    said = expected(field, "ph", place_of(field, "A"), 0)
    found = one_of(field, seen("ph", 7.0, 0.4))
    weights = 1 / said.sd**2, 1 / 0.2**2
    assert found.mean == pytest.approx(np.average([said.mean, 7.0], weights=weights))
    assert found.sd == pytest.approx(sum(weights) ** -0.5)


def test_less_sun_than_the_map_lowers_the_score_of_that_peg_alone(field):
    place = place_of(field, "A")
    before = [field.shown_scores(0)[place_of(field, peg)] for peg in "ABC"]
    evidence = evidence_at(field, place, 0, [seen("sun_hours", 4.0, 0.5)])
    assert worth_at(field, 0, place, evidence).score < before[0] - 0.02
    for peg, score in zip("BC", before[1:], strict=True):
        other = place_of(field, peg)
        found = evidence_at(field, other, 0, [seen("sun_hours", 4.0, 0.5)])
        assert worth_at(field, 0, other, found).score == pytest.approx(score, abs=1e-6)


def test_a_reading_far_from_the_map_is_doubted_and_a_near_one_is_not(field):
    said = expected(field, "sun_hours", place_of(field, "A"), 0)
    wild = one_of(field, seen("sun_hours", said.mean - 8, 0.5))
    assert wild.doubted
    assert "distrust the map or the meter" in wild.words
    assert not one_of(field, seen("sun_hours", said.mean - 0.5, 0.5)).doubted


def test_what_was_seen_again_is_doubted_no_more_unless_the_looks_disagree(field):
    low = expected(field, "sun_hours", place_of(field, "A"), 0).mean - 5
    june, autumn = date(2027, 6, 20), date(2027, 9, 12)
    again = one_of(
        field, seen("sun_hours", low, 1, day=june), seen("sun_hours", low, 1, day=autumn)
    )
    assert not again.doubted
    assert "seen again: the map was wrong" in again.words
    other = seen("sun_hours", low - 3, 1, day=autumn)
    assert one_of(field, seen("sun_hours", low, 1, day=june), other).doubted
    assert one_of(field, seen("sun_hours", low, 1), seen("sun_hours", low, 1)).doubted


def test_looking_twice_in_one_year_does_not_average_the_year_away(field):
    wet = study(soil=Soil("clay", "ordinary", 60.0, 6.5), spots=PEGS)
    years = [date(2027, 3, 1), date(2027, 3, 2), date(2028, 3, 1)]
    said = expected(wet, "wet_days", place_of(wet, "A"), 0)
    assert said.year_sd >= 0
    looks = [seen("wet_days", 60.0, 20.0, day=day) for day in years]
    same = one_of(wet, *looks[:2]).seen_sd
    other = one_of(wet, looks[0], looks[2]).seen_sd
    assert same == pytest.approx(np.hypot(10 / np.sqrt(2), said.year_sd))
    assert other == pytest.approx(np.hypot(10, said.year_sd) / np.sqrt(2))


def test_frost_seen_raises_its_chance_and_a_frostless_year_lowers_it(field):
    said = expected(field, "blossom_frost", place_of(field, "A"), 0)
    caught = one_of(field, seen("blossom_frost", 1.0, 0.0))
    spared = one_of(field, seen("blossom_frost", 0.0, 0.0))
    assert spared.mean < said.mean < caught.mean
    # Beta-binomial, Gelman and others (2004), section 2.4: as if `years` trials had been seen.
    assert caught.mean == pytest.approx((said.years * said.mean + 1) / (said.years + 1))


def test_visits_by_deer_count_by_years_and_not_by_nights(field):
    often = one_of(field, seen("browsed", 9.0, 0.0))
    once = one_of(field, seen("browsed", 1.0, 0.0))
    assert often.mean == once.mean > expected(field, "browsed", place_of(field, "A"), 0).mean


def test_poor_growth_is_a_sign_and_changes_no_score(field):
    place = place_of(field, "A")
    evidence = evidence_at(field, place, 0, [seen("leader_growth", 11.0, 2.0)])
    assert evidence[0].words == "poor growth: look for the cause"
    assert overrides(field, evidence, place) == {}
    assert worth_at(field, 0, place, evidence).score == pytest.approx(
        float(field.shown_scores(0)[place]), abs=1e-6
    )


def test_soil_found_at_one_peg_speaks_less_surely_for_another_in_the_same_soil(field):
    found = [seen("ph", 7.4, 0.2, at="B")]
    here, there = (one_of(field, *found, at=peg) for peg in "BC")
    assert 6.0 < there.mean < here.mean < 7.4
    assert here.own
    assert not there.own
    assert evidence_at(field, place_of(field, "A"), 0, found) == ()


def test_a_study_is_left_as_it_was(field):
    before = field.scores.copy()
    place = place_of(field, "A")
    rescored(field, 0, place, {"sunlight": -3.0})
    np.testing.assert_array_equal(field.scores, before)


def test_without_evidence_the_score_is_the_studys_own(field):
    for option in range(3):
        for peg in "ABC":
            place = place_of(field, peg)
            assert rescored(field, option, place, {}) == pytest.approx(
                float(field.shown_scores(option)[place]), abs=1e-6
            )


def test_a_corrected_survey_gives_the_corrected_measure(field):
    observations = [seen("ph", 7.0, 0.2, at="B"), seen("soil_depth", 40.0, 5.0, at="B")]
    evidence = evidence_at(field, place_of(field, "B"), 0, observations)
    made = updated_site(field, evidence)
    (patch,) = made.site.of_kind("soil_patch")
    assert 6.0 < patch.number("ph") < 7.0
    assert 40 < patch.number("depth_cm") < 60
    assert patch.plus_minus("ph") < 0.5
    assert "pH of the clay: 6.0 to" in made.said[0]
    assert made.taken == (("B", "ph"), ("B", "soil_depth"))
    assert field.site.of_kind("soil_patch")[0].number("ph") == 6.0
    assert made.site.soil == field.site.soil


def test_what_the_survey_was_corrected_by_does_not_count_again(field):
    taken = Observation("B", date(2027, 4, 1), "ph", 7.0, 0.2, "a kit [in the survey]")
    assert evidence_at(field, place_of(field, "B"), 0, [taken]) == ()


def test_ground_seen_to_stand_wet_is_drawn_round_its_peg_alone(field):
    days = expected(field, "wet_days", place_of(field, "A"), 0).mean + 3 * MONTH
    evidence = evidence_at(field, place_of(field, "A"), 0, [seen("wet_days", days, 10.0)])
    made = updated_site(field, evidence)
    (drawn,) = made.site.of_kind("wet_ground")
    again = study(made.site.features, spots=PEGS, soil=made.site.soil)
    months = again.ground.wet_months
    assert months[place_of(again, "A")] == pytest.approx(evidence[0].mean / MONTH, abs=0.06)
    assert months[place_of(again, "C")] == pytest.approx(
        field.ground.wet_months[place_of(field, "C")]
    )
    assert drawn.number("wet_months") > 1


def test_the_same_seed_gives_the_same_draws(field):
    place = place_of(field, "A")
    one, two = (worth_at(field, 0, place).draws for _ in range(2))
    np.testing.assert_array_equal(one, two)
