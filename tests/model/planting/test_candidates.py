"""The places that an order is offered: pegs first, then the best of the land, well apart."""

from itertools import combinations

import numpy as np
import pytest

from model.decision import power_mean
from model.planting.candidates import (
    CLOSE,
    candidate_places,
    place_name,
    placing_scores,
    same_holes,
)
from tests.model.planting.orders import COX, DISCOVERY, STELLA, field, order
from tests.model.small_site import LineString, feature

PIPE = feature(
    "buried_service", LineString([(0, 20), (60, 20)]), "the main", service="water", clearance_m=2.0
)


@pytest.fixture(scope="module")
def made():
    return field([COX, DISCOVERY, STELLA], [(12, 12), (12, 20), (48, 48)], [PIPE])


@pytest.fixture(scope="module")
def offered(made):
    return candidate_places(made, order(made, 1, 1, 0), most=60)


def test_every_peg_is_offered_where_a_tree_may_stand_and_none_on_a_pipe(made, offered):
    names = [one.name for one in offered]
    assert "P0" in names
    assert "P2" in names
    assert "P1" not in names


def test_no_more_places_are_offered_than_asked_and_all_are_apart(made, offered):
    assert len(offered) == 60
    x, y = made.ground.places.x, made.ground.places.y
    for one, other in combinations([one.place for one in offered], 2):
        assert np.hypot(x[one] - x[other], y[one] - y[other]) >= CLOSE


def test_the_best_cell_of_every_kind_or_one_beside_it_is_offered(made):
    asked = order(made, 1, 1, 1)
    offered = [one.place for one in candidate_places(made, asked)]
    everywhere = placing_scores(made, np.arange(made.ground.places.x.size))
    for option in asked.options:
        best = np.nanmax(everywhere[option])
        assert np.nanmax(everywhere[option, offered]) >= 0.99 * best


def test_pegs_alone_are_offered_where_only_pegs_are_wanted(made):
    offered = candidate_places(made, order(made, 1, 0, 0), between=False)
    assert [one.name for one in offered] == ["P0", "P2"]


def test_the_same_places_are_offered_every_time(made, offered):
    assert candidate_places(made, order(made, 1, 1, 0), most=60) == offered


def test_a_place_is_told_from_the_nearest_peg_by_distance_and_bearing(made):
    places = made.ground.places
    north = int(np.argmin(np.hypot(places.x - 47, places.y - 53)[: places.cells]))
    assert place_name(made, north) == "5.1 m north (349°) of P2"
    assert place_name(made, places.cells) == "P0"


def test_without_pegs_a_place_is_told_from_the_origin():
    bare = field([COX])
    assert place_name(bare, bare.ground.places.nearest(13.0, 41.0)).endswith(
        "m north of the origin"
    )


def test_a_blocked_hole_takes_with_it_all_that_would_be_the_same_hole(made):
    peg = made.ground.places.cells
    x, y = made.ground.places.x, made.ground.places.y
    closed = same_holes(made, [peg])
    assert peg in closed
    assert 1 < len(closed) < 8
    assert np.hypot(x[list(closed)] - 12, y[list(closed)] - 12).max() < 2


def test_a_tree_is_not_marked_down_for_the_partner_that_comes_with_it(made):
    """As judged alone it wants pollen; placed, it has it. Everything else stays as it was."""
    peg = made.ground.places.cells
    placed = placing_scores(made, np.array([peg]))[0, 0]
    assert placed > made.shown_scores(0)[peg]
    number = [factor.name for factor in made.factors].index("pollination")
    worth = made.desirabilities[:, 0, peg].astype(float)
    worth[number] = 1.0
    assert placed == pytest.approx(power_mean.power_mean(worth, made.weights, made.trade_off))


def test_a_self_fertile_tree_scores_as_the_study_has_it(made):
    peg = made.ground.places.cells
    alone = made.shown_scores(2)[peg]
    assert placing_scores(made, np.array([peg]))[2, 0] == pytest.approx(alone, rel=1e-5)


def test_what_is_ruled_out_has_no_score(made):
    pipe = made.ground.places.cells + 1
    assert np.isnan(placing_scores(made, np.array([pipe]))).all()
