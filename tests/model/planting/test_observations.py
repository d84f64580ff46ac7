"""What was seen is read with care, and every fault is said at once."""

from datetime import date

import pytest

from model.planting.year_after.observations import (
    KINDS,
    observations_text,
    read_observations,
    typed_observations,
)
from model.survey.faults import SurveyFaults

SPOTS = ("Top field", "Hollow")
HEADER = "spot,date,what,value,plus_minus,unit,note\n"


def written(folder, *lines):
    (folder / "observations.csv").write_text(HEADER + "\n".join(lines) + "\n", encoding="utf-8")
    return folder


def faults_of(folder, *lines):
    with pytest.raises(SurveyFaults) as caught:
        read_observations(written(folder, *lines), SPOTS)
    return [(f.row, f.field) for f in caught.value.faults]


def test_an_observation_carries_its_day_figure_and_error(tmp_path):
    (one,) = read_observations(
        written(tmp_path, "Hollow,2027-10-10,sun_hours,6.5,1,h/day,x"), SPOTS
    )
    assert (one.spot, one.date, one.what) == ("Hollow", date(2027, 10, 10), "sun_hours")
    assert (one.value, one.plus_minus, one.kind.unit) == (6.5, 1.0, "h/day")


def test_a_blank_plus_minus_is_the_usual_error_of_its_kind(tmp_path):
    (one,) = read_observations(written(tmp_path, "Hollow,2027-10-10,ph,6.1,,,"), SPOTS)
    assert one.plus_minus == KINDS["ph"].plus_minus
    assert one.assumed


def test_a_value_of_nought_is_a_value(tmp_path):
    (one,) = read_observations(written(tmp_path, "Hollow,2027-10-10,browsed,0,,,"), SPOTS)
    assert one.value == 0


def test_a_folder_without_the_file_has_no_observations(tmp_path):
    assert read_observations(tmp_path, SPOTS) == ()


def test_all_faults_of_a_file_are_said_at_once_with_row_and_field(tmp_path):
    assert faults_of(
        tmp_path,
        "Nowhere,2027-10-10,sun_hours,6,1,,",
        "Hollow,2027-02-30,sun_hours,6,1,,",
        "Hollow,2027-10-10,sunshine,6,1,,",
        "Hollow,2027-10-10,sun_hours,25,1,,",
        "Hollow,2027-10-10,ph,6.1,0,,",
        "Hollow,2027-10-11,ph,6.1,0.2,cm,",
        "Hollow,2027-10-11,late_frost,20,,,",
        'Hollow,2027-10-11,wet_days,"3,5",,,',
        "Top field,2027-10-11,ph,6.1,0.2,,",
        "Top field,2027-10-11,ph,6.3,0.2,,",
    ) == [
        (2, "spot"),
        (3, "date"),
        (4, "what"),
        (5, "value"),
        (6, "plus_minus"),
        (7, "unit"),
        (8, "plus_minus"),
        (9, "value"),
        (11, "what"),
    ]


def test_typed_observations_are_held_to_the_same_rules():
    good = {"spot": "Hollow", "date": "2027-10-10", "what": "leader_growth", "value": 41.0}
    (one,) = typed_observations([good], SPOTS)
    assert one.value == 41
    with pytest.raises(SurveyFaults, match="typed in, row 1, value"):
        typed_observations([good | {"value": 900}], SPOTS)
    with pytest.raises(SurveyFaults, match="typed in, row 1, spot"):
        typed_observations([good | {"spot": ""}], SPOTS)


def test_what_is_written_is_read_again(tmp_path):
    rows = read_observations(
        written(tmp_path, "Hollow,2027-10-10,sun_hours,6.5,1,,a", "Hollow,2027-05-01,browsed,1,,,"),
        SPOTS,
    )
    (tmp_path / "observations.csv").write_text(observations_text(rows), encoding="utf-8")
    assert read_observations(tmp_path, SPOTS) == rows


def test_everything_that_can_be_watched_says_where_its_usual_error_comes_from():
    assert all(kind.source for kind in KINDS.values())
