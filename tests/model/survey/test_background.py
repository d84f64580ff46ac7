"""A picture lies where two known points put it."""

import pytest
from affine import Affine
from hypothesis import given
from hypothesis import strategies as st

from model.survey.background import (
    Background,
    background_from,
    background_text,
    fitted_background,
)

FIGURE = st.floats(-200, 200)


@given(FIGURE, FIGURE, st.floats(0.01, 2), st.floats(0, 359))
def test_two_known_points_give_back_scale_turn_and_place(x, y, scale, turn):
    truth = Background((x, y), scale, turn)
    pixels = ((100.0, 50.0), (700.0, 420.0))
    found = fitted_background(pixels, (truth.ground(pixels[0]), truth.ground(pixels[1])))
    assert found.ground((333.0, 222.0)) == pytest.approx(truth.ground((333.0, 222.0)), abs=1e-6)
    assert found.pixel(found.ground((12.0, 34.0))) == pytest.approx((12, 34), abs=1e-6)


def test_pixels_lie_as_the_affine_library_has_them():
    lie = Background((10.0, 20.0), 0.5, 30.0)
    theirs = Affine.translation(10, 20) @ Affine.rotation(-30) @ Affine.scale(0.5, -0.5)
    assert lie.ground((8.0, 6.0)) == pytest.approx(theirs @ (8.0, 6.0))


def test_points_too_near_are_said():
    with pytest.raises(ValueError, match="too near"):
        fitted_background(((1.0, 1.0), (2.0, 2.0)), ((0.0, 0.0), (5.0, 5.0)))
    with pytest.raises(ValueError, match="one and the same"):
        fitted_background(((1.0, 1.0), (200.0, 2.0)), ((5.0, 5.0), (5.0, 5.0)))


def test_its_file_comes_back_and_a_wrong_one_is_said():
    lie = Background((1.5, -2.0), 0.04, 12.0, 0.7)
    assert background_from(background_text(lie)) == lie
    for text in ("", "x_m = 1", background_text(Background((0.0, 0.0), -1.0)), "x_m = = 1"):
        with pytest.raises(ValueError, match=r"background\.toml"):
            background_from(text)
