"""Files that are right by themselves and wrong together are faults."""

import numpy as np
import pytest

from model.survey import site_faults
from tests.model.survey import epw_example
from tests.model.survey.examples import starter_with_examples


def changed(tmp_path, file, before, after):
    folder = starter_with_examples(tmp_path / "land")
    text = (folder / file).read_text()
    assert before in text
    (folder / file).write_text(text.replace(before, after, 1))
    return site_faults(folder)


def test_the_starter_agrees_with_itself(tmp_path):
    assert site_faults(starter_with_examples(tmp_path / "land")) == []


def test_a_second_boundary_is_named(tmp_path):
    more = (
        "4,gate",
        "\n".join(f"9,boundary,,{x},{y},,," for x, y in ((0, 0), (9, 0), (9, 9))) + "\n4,gate",
    )
    [fault] = changed(tmp_path, "features.csv", *more)
    assert (fault.file, fault.row, fault.field) == ("features.csv", 12, "kind")
    assert "feature 2" in fault.found


def test_a_spot_outside_the_boundary_is_named_with_its_distance(tmp_path):
    [fault] = changed(tmp_path, "spots.csv", "A,40,20", "A,20,50")
    assert (fault.file, fault.row, fault.field) == ("spots.csv", 2, "x_m")
    assert "'A' 10.0 m outside" in fault.found


def test_a_grid_too_fine_for_the_land_is_named(tmp_path):
    [fault] = changed(tmp_path, "features.csv", ",60,40", ",6000,4000")
    assert (fault.file, fault.field) == ("site.toml", "grid_m")


def test_heights_above_the_peg_where_the_sea_is_meant_are_named(tmp_path):
    [fault] = changed(tmp_path, "site.toml", "altitude_m = 50.0", "altitude_m = 90.0")
    assert (fault.file, fault.field) == ("site.toml", "altitude_m")
    assert "50.0 at the origin" in fault.found


@pytest.mark.parametrize(("latitude", "count"), [(52.1, 0), (42.1, 1), (np.nan, 0)])
def test_a_station_far_away_is_named(tmp_path, latitude, count):
    folder = starter_with_examples(tmp_path / "land")
    (folder / "weather_monthly.csv").unlink()
    text = epw_example.text().replace("52.10", "" if np.isnan(latitude) else str(latitude))
    (folder / "weather.epw").write_text(text)
    faults = site_faults(folder)
    assert [fault.field for fault in faults] == ["LOCATION"] * count
