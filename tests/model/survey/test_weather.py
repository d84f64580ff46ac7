"""Two weather records are the same when they say the same."""

from dataclasses import replace

import numpy as np
import pytest

from model.survey.weather import same_weather
from tests.model.survey.examples import monthly_weather


def test_not_known_equals_not_known():
    table = monthly_weather().table.assign(year_sd=np.nan)
    one, other = (replace(monthly_weather(), table=table.copy()) for _ in range(2))
    assert same_weather(one, other)


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "daily"},
        {"seed": None},
        {"years": 31},
        {"station_altitude": 0.0},
        {"table": monthly_weather().table[:11]},
        {"table": monthly_weather().table.drop(columns="rain")},
        {"table": monthly_weather().table.set_index(monthly_weather().table.index[::-1])},
    ],
)
def test_any_change_makes_another_record(change):
    assert not same_weather(monthly_weather(), replace(monthly_weather(), **change))


def test_no_record_is_the_same_as_none():
    assert same_weather(None, None)
    assert not same_weather(monthly_weather(), None)
