"""Walking and watering of a plan: rounds are the shortest, and never longer than single walks."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point

from model.planting.effort.effort import ALONE, EFFORT, TOGETHER, effort, walking_times
from model.planting.effort.rounds import round_time, shortest_round
from model.planting.effort.visits import layers, rounds, visits
from tests.model.planting.plans import demo_plan, plan
from tests.model.small_site import feature, study

TAP = feature("tap", Point(31, 31), "House tap")


@pytest.fixture(scope="module")
def demo():
    made, placed = demo_plan()
    return made, placed, effort(made, placed).set_index("tree")


def distances(points):
    x, y = np.array(points, dtype=float).T
    return np.hypot(x[:, None] - x, y[:, None] - y)


@given(st.lists(st.tuples(st.integers(0, 50), st.integers(0, 50)), min_size=2, max_size=7))
@settings(max_examples=40, deadline=None)
def test_no_order_of_the_stops_is_shorter(points):
    times = distances(points)
    stops = range(1, len(points))
    shortest = min(round_time(times, order) for order in permutations(stops))
    assert shortest_round(times, tuple(stops))[0] == pytest.approx(shortest)


def test_a_round_of_many_visits_each_once_and_is_near_the_circle_they_stand_on():
    # Twenty stops and the house on a circle: the shortest round goes along it.
    angle = np.random.default_rng(3).permutation(np.linspace(0, 2 * np.pi, 21, endpoint=False))
    times = distances(np.column_stack([np.cos(angle), np.sin(angle)]))
    time, order = shortest_round(times, tuple(range(1, 21)))
    assert sorted(order) == list(range(1, 21))
    assert time == pytest.approx(21 * 2 * np.sin(np.pi / 21), rel=0.15)


def test_a_long_round_is_mended_where_the_nearest_next_stop_leads_astray():
    # Stops on one line, ever farther to either side: the shortest round is twice the line.
    line = [(0.0, 0.0), *(((-2.1) ** n, 0.0) for n in range(1, 15))]
    times = distances(line)
    x = [point[0] for point in line]
    time, _ = shortest_round(times, tuple(range(1, 15)))
    assert time == pytest.approx(2 * (max(x) - min(x)))


def test_a_round_of_one_is_there_and_back():
    times = distances([(0, 0), (3, 4)])
    assert shortest_round(times, (1,)) == (pytest.approx(10.0), (1,))
    assert shortest_round(times, ()) == (0.0, ())


@given(st.lists(st.sampled_from([0.0, 0.5, 1.0, 2.0, 6.0]), min_size=1, max_size=6))
def test_the_layers_of_rounds_bring_every_tree_its_visits(counts):
    found = np.zeros(len(counts))
    for often, who in layers(np.array(counts)):
        found[who] += often
    assert found == pytest.approx(counts)


def test_the_rounds_bring_every_tree_the_visits_the_catalogue_gives(demo):
    made, placed, _ = demo
    asked = np.sum(list(visits(made, placed.trees).values()), axis=0)
    assert np.sum(list(rounds(made, placed.trees).values()), axis=0) == pytest.approx(asked)
    assert asked == pytest.approx(made.traits.visits[[t.option for t in placed.trees]])


def test_a_tree_s_hours_are_those_of_the_factor_access(demo):
    made, placed, table = demo
    hours = [made.measure("access")[tree.option, tree.place] for tree in placed.trees]
    assert table["walking_h_a_year"].iloc[: len(hours)].tolist() == pytest.approx(hours)


def test_going_round_walks_less_than_going_to_each_and_no_less_than_to_the_farthest(demo):
    _, _, table = demo
    alone, together = table.loc[ALONE], table.loc[TOGETHER]
    assert together["walking_h_a_year"] < alone["walking_h_a_year"]
    assert together["walking_h_a_year"] > table["walking_h_a_year"].iloc[:-2].max()
    assert together["visits"] < alone["visits"]


def test_a_plan_of_one_tree_walks_the_same_in_rounds():
    made = study([TAP])
    table = effort(made, plan(made, (50.0, 50.0, 0))).set_index("tree")
    assert table.loc[ALONE, "walking_h_a_year"] == pytest.approx(
        table.loc[TOGETHER, "walking_h_a_year"]
    )


def test_two_trees_on_one_line_from_the_house_cost_the_walk_to_the_farther():
    made = study()
    placed = plan(made, (41.0, 31.0, 0), (51.0, 31.0, 0))
    times = walking_times(made, placed.trees)
    assert shortest_round(times, (1, 2))[0] == pytest.approx(2 * times[0, 2], rel=1e-3)
    table = effort(made, placed).set_index("tree")
    assert table.loc[TOGETHER, "walking_h_a_year"] == pytest.approx(
        table["walking_h_a_year"].iloc[1], rel=1e-3
    )


def test_walking_times_are_the_same_both_ways_and_no_detour_is_quicker(demo):
    made, placed, _ = demo
    times = walking_times(made, placed.trees)
    assert times == pytest.approx(times.T)
    detour = (times[:, :, None] + times[None]).min(axis=1)
    assert (times <= detour + 2.0).all()  # cell centres and pegs lie a step apart


def test_water_takes_longer_in_a_dry_summer_and_longer_farther_from_the_tap():
    made = study([TAP])
    table = effort(made, plan(made, (35.0, 31.0, 0), (1.0, 59.0, 0)))
    near, far = table.iloc[0], table.iloc[1]
    for year in (1, 2):
        assert near[f"water_{year}_median_min"] <= near[f"water_{year}_dry_min"]
    assert near["water_1_dry_min"] <= far["water_1_dry_min"]


def test_every_row_is_said_in_a_sentence(demo):
    _, _, table = demo
    assert list(table.reset_index().columns) == EFFORT
    assert table["says"].str.endswith(".").all()
    assert "6 to pick" in table["says"].iloc[0]
    assert not table["says"].str.contains("nan|inf").any()


def test_without_house_or_water_nothing_is_made_up():
    made = study(hub=None, absent={"hub": "No house is drawn."})
    table = effort(made, plan(made, (10.0, 10.0, 0)))
    assert table["walking_h_a_year"].isna().all()
    assert table["water_1_dry_min"].isna().all()
    assert (
        table["says"].iloc[0]
        == "No house is drawn, so walking is not reckoned; watering not reckoned."
    )


def test_a_tree_behind_a_wall_without_a_gate_is_said_to_be_out_of_reach():
    wall = feature("wall", LineString([(0, 45), (60, 45)]), "Wall")
    made = study([wall])
    table = effort(made, plan(made, (30.0, 55.0, 0)))
    assert table["says"].iloc[0].startswith("No way leads there")
