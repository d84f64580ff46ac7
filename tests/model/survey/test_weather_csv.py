"""Daily records and monthly normals are read with their faults and written without loss."""

import io

import numpy as np
import pandas as pd
import pytest

from model.survey.weather_csv import daily_table, daily_text, monthly_table, monthly_text
from tests.model.survey.examples import folder_with, monthly_weather

DAYS = pd.date_range("2019-12-20", "2021-01-10", freq="D", name="date")


def daily():
    generator = np.random.default_rng(1)
    tmin = generator.normal(6, 4, len(DAYS)).round(1)
    rain = generator.gamma(0.5, 4, len(DAYS)).round(1)
    return pd.DataFrame({"tmin": tmin, "tmax": tmin + 7.3, "rain": rain}, index=DAYS)


def read_daily(tmp_path, text):
    folder = folder_with(tmp_path, weather_daily_csv=text)
    return daily_table(folder), folder.faults


def read_monthly(tmp_path, text):
    folder = folder_with(tmp_path, weather_monthly_csv=text)
    return monthly_table(folder), folder.faults


def test_days_come_back_the_same(tmp_path):
    table, faults = read_daily(tmp_path, daily_text(daily()))
    assert faults == []
    pd.testing.assert_frame_equal(table, daily(), check_freq=False, check_index_type=False)


def test_pandas_reads_the_same_days():
    table = pd.read_csv(io.StringIO(daily_text(daily())), index_col="date", parse_dates=["date"])
    assert np.allclose(table, daily(), rtol=0, atol=1e-12)
    assert (table.index == DAYS).all()


def test_short_gaps_are_left_and_more_columns_kept(tmp_path):
    table = daily().assign(wind=2.5).drop(DAYS[[50, 51]])
    table.loc[DAYS[70], "tmax"] = np.nan
    back, faults = read_daily(tmp_path, daily_text(table))
    assert faults == []
    assert len(back) == len(DAYS) - 2
    assert np.isnan(back.loc[DAYS[70], "tmax"])
    assert (back["wind"] == 2.5).all()


@pytest.mark.parametrize(
    ("change", "row", "field"),
    [
        (lambda text: text.replace("2020-02-29", "2020-02-30"), 73, "date"),
        (lambda text: text.replace("2020-02-29", "29/2/2020"), 73, "date"),
        (lambda text: text.replace("2020-02-29", "2020-01-29"), 73, "date"),
        (lambda text: text.replace("tmax", "t_max"), 1, "t_max"),
        (lambda text: "\n".join(text.splitlines()[:300]), None, "date"),
        (lambda text: text.split("\n", 1)[0] + "\n2020-02-29,9,1,\n", 2, "tmin"),
        (lambda text: text.split("\n", 1)[0] + "\n2020-02-29,-99,1,\n", 2, "tmin"),
        (lambda text: text.split("\n", 1)[0], None, "date"),
    ],
)
def test_what_is_wrong_with_days_is_named(tmp_path, change, row, field):
    _, faults = read_daily(tmp_path, change(daily_text(daily())))
    assert (row, field) in [(fault.row, fault.field) for fault in faults]


def test_a_long_gap_in_every_year_is_a_fault(tmp_path):
    _, [fault] = read_daily(tmp_path, daily_text(daily().drop(DAYS[100:104])))
    assert "whole calendar year" in fault.expected


def test_months_come_back_the_same_in_whatever_order(tmp_path):
    lines = monthly_text(monthly_weather().table).splitlines()
    table, faults = read_monthly(tmp_path, "\n".join([lines[0], *lines[:0:-1]]))
    assert faults == []
    pd.testing.assert_frame_equal(table, monthly_weather().table, check_index_type=False)


@pytest.mark.parametrize(
    ("before", "after", "row", "field"),
    [
        ("\n2,", "\n1,", None, "month"),
        ("\n2,", "\n13,", 3, "month"),
        ("\n2,", "\nFeb,", 3, "month"),
        ("\n2,0.4", "\n2,40", 3, "tmin"),
        ("\n2,0.4", "\n2,", 3, "tmin"),
        ("rain_days", "raindays", 1, "rain_days"),
    ],
)
def test_what_is_wrong_with_months_is_named(tmp_path, before, after, row, field):
    text = monthly_text(monthly_weather().table)
    assert before in text
    _, faults = read_monthly(tmp_path, text.replace(before, after))
    assert (row, field) in [(fault.row, fault.field) for fault in faults]
