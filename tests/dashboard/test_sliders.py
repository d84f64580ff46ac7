"""What a browser sends is believed only as far as the sliders go."""

import math

import pytest

from dashboard.pages.sliders import Slider, Sliders


@pytest.fixture
def moves():
    return []


@pytest.fixture
def sliders(moves):
    column = Sliders(lambda *move: moves.append(move))
    column.set([Slider("spacing", "Spacing", 10.0, "10 %")])
    return column


def test_a_move_is_passed_on(sliders, moves):
    sliders._handle_msg({"id": "spacing", "value": 40, "settled": True})
    assert moves == [("spacing", 40.0, True)]


def test_every_message_is_answered(sliders):
    sliders._handle_msg({"id": "spacing", "value": 40, "settled": False})
    sliders._handle_msg({"id": "unheard of", "value": 40})
    assert sliders.answer == 2


@pytest.mark.parametrize("value", [math.nan, math.inf, "40", None, [1]])
def test_what_is_no_figure_moves_nothing(sliders, moves, value):
    sliders._handle_msg({"id": "spacing", "value": value})
    assert moves == []


def test_no_slider_goes_past_its_end(sliders, moves):
    sliders._handle_msg({"id": "spacing", "value": 400})
    sliders._handle_msg({"id": "spacing", "value": -4})
    assert [value for _, value, _ in moves] == [100.0, 0.0]
