"""Trees from whip to full size, and their neighbours with them."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from model.growth import Shown, chosen, leaders, stand_of
from model.growth.stand import LEAST, WHIP_HEIGHT, WHIP_SPREAD, age_at
from model.trees import size_at_age
from tests.model.small_site import APPLE, PEAR, Point, Polygon, feature, spot, study, tree

YOUNG_OAK = feature(
    "neighbour_tree", Point(50, 50), "the oak", species="oak", height_m=4.0, crown_m=3.0,
    full_height_m=16.0, full_crown_m=12.0,
)  # fmt: skip


def stood(features=(), **given_):
    made = study(features, (APPLE, PEAR), spots=(spot("West", 20, 30), spot("East", 26, 30)))
    return made, stand_of(made, leaders(made) if given_.get("all") else chosen(made))


def test_in_year_0_every_planted_tree_is_a_whip():
    _, stand = stood(all=True)
    at = stand.at(0, 1)
    assert stand.new == 2
    np.testing.assert_allclose(at.height[:2], WHIP_HEIGHT)
    np.testing.assert_allclose(at.spread[:2], WHIP_SPREAD)


@pytest.mark.parametrize("growth", [0, 1, 2])
def test_in_the_end_it_has_the_catalogues_full_size(growth):
    made, stand = stood()
    at = stand.at(80, growth)
    part = ("low", "typical", "high")[growth]
    for size, name in ((at.height, "height"), (at.spread, "spread")):
        value = made.catalogue.value("rootstocks", ("MM106", "apple"), f"{name}_{part}")
        vigour = made.catalogue.value("cultivars", ("apple", "Egremont Russet"), "vigour")
        wanted = value.number * (vigour.number if vigour is not None else 1.0)
        assert size[0] == pytest.approx(wanted, rel=0.01)


def test_a_neighbour_goes_from_its_size_now_to_its_full_size():
    _, stand = stood([YOUNG_OAK])
    oak = stand.labels.index("the oak")
    now, end = stand.at(0, 1), stand.at(200, 1)
    assert (now.height[oak], now.spread[oak]) == pytest.approx((4.0, 3.0))
    assert (end.height[oak], end.spread[oak]) == pytest.approx((16.0, 12.0), rel=0.01)


def test_a_neighbour_that_is_full_grown_stays():
    _, stand = stood([tree("oak", 50, 50, 14.0)])
    np.testing.assert_allclose(stand.sizes(np.arange(50), 1)[0, :, 1], 14.0)


def test_no_tree_ever_shrinks():
    _, stand = stood([YOUNG_OAK], all=True)
    assert (np.diff(stand.sizes(np.arange(0, 51), 1), axis=1) >= -1e-9).all()


@given(st.floats(0.02, 0.98), st.floats(0.02, 0.5), st.floats(1.0, 3.0))
def test_the_age_of_a_size_gives_that_size_again(share, rate, power):
    age = age_at(np.array(share), rate, power)
    assert size_at_age(10.0, age, rate, power) == pytest.approx(10 * share, rel=1e-6)


def test_nothing_is_shown_outside_the_boundary():
    corner = feature("boundary", Polygon([(0, 0), (60, 0), (0, 60)]))
    made = study([corner])
    made.place = made.ground.places.nearest(55, 55)
    assert chosen(made) == ()
    assert stand_of(made, ()).horizon == LEAST


def test_a_tree_planted_earlier_is_ahead_of_the_others():
    made, _ = stood()
    first, second = (
        Shown("a", "West", 20, 30, made.place, 0, date(2022, 2, 1)),
        Shown("b", "East", 26, 30, made.place + 1, 0, date(2027, 2, 1)),
    )
    stand = stand_of(made, (first, second))
    np.testing.assert_allclose(stand.at(3, 1).height[0], stand.at(8, 1).height[1], rtol=1e-3)
