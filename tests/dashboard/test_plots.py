"""What the plots show is what the study says."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard import theme
from dashboard.plots import factor_bars, merit, site_map, survey_marks, tipping
from model.survey.feature import KINDS


def merit_layers(study):
    labels = [option.label for option in study.options]
    headings = [merit.Heading(factor.label, "#000000") for factor in study.factors]
    return merit.layers(study.here(), labels, headings, study.weights, study.option)


def test_bars_are_as_long_as_the_scores(study):
    here, columns = study.here(), merit_layers(study)
    length = (columns["bars"]["right"] - merit.SCORE) / merit.SCORE_WIDTH
    allowed = here.allowed.size
    np.testing.assert_allclose(length[:allowed], here.score[here.allowed])
    assert not length[allowed:].any()


def test_the_leader_is_marked_by_more_than_colour(study):
    columns = merit_layers(study)
    first = study.here().order[0]
    assert columns["letters"]["text"][0] == theme.letter(first)
    assert columns["bars"]["fill_color"][0] == theme.LEADER
    assert columns["bars"]["fill_color"][-1] == theme.CONTENDER


def test_drawn_contributions_are_those_of_the_study_on_one_scale(study):
    here, columns = study.here(), merit_layers(study)
    drawn, outline = columns["contributions"], columns["weights"]
    start = outline["left"]
    shape = (len(study.factors), -1)
    scale = ((outline["right"] - start).reshape(shape)[:, 0] / study.weights)[0]
    gain = (drawn["right"] - start).reshape(shape) / scale
    expected = here.contributions[:, here.allowed]
    np.testing.assert_allclose(gain, np.maximum(expected, 0), atol=1e-9)
    left_of_start = (drawn["left"] < start - 1e-9).reshape(shape)
    np.testing.assert_array_equal(left_of_start, expected < -1e-9)


def test_what_is_ruled_out_stands_below_the_line_with_its_reason(study):
    here, columns = study.here(), merit_layers(study)
    line = columns["line"]["y0"][0]
    y = merit.rows(here)
    assert (y[: here.allowed.size] < line).all()
    assert (y[here.allowed.size :] > line).all()
    reasons = columns["reasons"]["text"]
    assert all(reasons[here.allowed.size :])
    assert not any(reasons[: here.allowed.size])


def test_a_row_that_is_tapped_is_the_option_drawn_there(study):
    here = study.here()
    for y, option in zip(merit.rows(here), here.order, strict=True):
        assert merit.row_at(here, y + 0.3) == option
    assert merit.row_at(here, -3.0) is None


def test_bars_of_an_option_begin_with_the_worst(study):
    worth = study.here().desirabilities[:, 0]
    words = ["" for _ in study.factors]
    columns = factor_bars.layers(worth, words, [f.label for f in study.factors], words, 0)
    length = columns["bars"]["right"] - factor_bars.BARS
    assert (np.diff(length) >= 0).all()
    assert columns["names"]["text"][0] == study.factors[int(worth.argmin())].label
    assert factor_bars.factor_at(worth, 0.2) == worth.argmin()
    assert factor_bars.factor_at(worth, -2.0) is None


def test_crossings_lie_on_the_lines_of_both():
    shares = np.linspace(0, 1, 101)
    scores = np.array([80 - 40 * shares, 60 + 0 * shares, np.full(101, np.nan)])
    columns = tipping.layers(shares, scores, 0.2, [(0.5, 0, 1)], 0, ["one", "two", "three"])
    assert columns["crossings"]["x"].tolist() == [50.0]
    assert columns["crossings"]["y"].tolist() == pytest.approx([60.0])
    assert columns["crossing_words"]["text"][0].strip() == "50 %: two"
    assert len(columns["scores"]["xs"]) == 2
    assert columns["today"]["x0"] == [20.0]


@given(st.lists(st.floats(0, 100), min_size=1, max_size=20), st.floats(0.1, 10))
def test_labels_moved_apart_keep_their_order_and_their_distance(positions, gap):
    placed = np.array(theme.spread_apart(positions, gap))
    order = np.argsort(positions, kind="stable")
    assert (np.diff(placed[order]) >= gap - 1e-6).all()
    assert placed.mean() == pytest.approx(np.mean(positions), abs=1e-5)


def test_labels_with_room_stay_where_they_belong():
    assert theme.spread_apart([10.0, 50.0, 30.0], 5.0) == [10.0, 50.0, 30.0]


def test_every_leader_on_the_chart_carries_its_name():
    shares = np.linspace(0, 1, 101)
    scores = np.array([80 - 40 * shares, 60 + 0 * shares, 50 + 0 * shares])
    assert tipping.contenders(scores, [0, 1, 2], 0)[:2] == [0, 1]


def test_letters_stand_only_on_the_picture_of_the_best(study):
    study.layer = "option"
    shown = study.map_layer()
    numbers = np.full(study.ground.places.x.size, -1)
    columns = site_map.layers(shown, numbers, (), study.ground.places, 0, lettered=False)
    assert set(columns["leaders"]["text"]) == {""}


def test_every_kind_of_feature_is_drawn():
    drawn = {*survey_marks.AREAS, *survey_marks.LINES, *survey_marks.POINTS}
    assert drawn | {"neighbour_tree", "view"} == set(KINDS)


def test_an_open_gate_and_a_wall_of_many_parts_can_be_drawn(study):
    assert survey_marks.elements(study.site.features)


def test_sight_lines_run_by_bearing(study):
    view = next(f for f in study.site.features if f.kind == "view")
    (eye, left), (_, right) = survey_marks.sight_edges(view)
    middle = (left + right) / 2 - eye
    bearing = np.degrees(np.arctan2(middle[0], middle[1])) % 360
    assert bearing == pytest.approx(view.attributes["bearing_deg"], abs=1e-6)


def map_columns(study):
    reasons = np.where(study.map_layer().ruled_out, study.ruling.first[study.option], -1)
    return site_map.layers(
        study.map_layer(), reasons, study.ruling.reasons, study.ground.places, study.place
    )


def test_the_map_shows_the_layer_south_edge_first(study):
    places, columns = study.ground.places, map_columns(study)
    picture = columns["score"]["image"][0]
    assert picture.shape == places.shape
    inside = places.inside[: places.cells] & ~study.map_layer().ruled_out[: places.cells]
    place = int(np.flatnonzero(inside)[0])
    row, column = divmod(place, places.shape[1])
    assert picture[row, column] == pytest.approx(100 * study.map_layer().values[place], rel=1e-6)
    assert columns["score"]["y"] == [places.bottom]


def test_letters_on_the_map_are_those_of_the_leaders(study):
    places, columns = study.ground.places, map_columns(study)
    leaders = study.leaders.option
    pegs = range(places.cells, places.x.size)
    expected = [theme.letter(int(leaders[peg])) if leaders[peg] >= 0 else "" for peg in pegs]
    assert columns["peg_leaders"]["text"] == expected
    assert places.inside[site_map.lattice(places)].all()


def test_hatched_ground_is_the_ground_that_is_ruled_out(study):
    study.layer, study.option = "option", 3
    places, columns = study.ground.places, map_columns(study)
    hatch = columns["hatch"]
    area = (hatch["right"] - hatch["left"]) * (hatch["top"] - hatch["bottom"])
    ruled = study.ruling.ruled_out[3][: places.cells] & places.inside[: places.cells]
    assert area.sum() == pytest.approx(ruled.sum() * places.cell**2)
    assert all(hatch["reason"])
