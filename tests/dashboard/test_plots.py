"""What the plots show is what the study says."""

import holoviews as hv
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard import theme
from dashboard.plots import site_map, survey_marks, tipping
from model.survey.feature import KINDS


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


def test_each_line_is_drawn_whole_in_the_style_of_its_kind(study):
    kinds = {}
    for feature in study.site.features:
        kinds.setdefault(feature.kind, []).append(feature)
    under, over = survey_marks.lines(kinds)
    drawn = hv.renderer("bokeh").get_plot(over).handles["source"].data
    styles = zip(drawn["line_color"], drawn["line_width"], drawn["line_dash"], strict=True)
    rows = list(zip(drawn["called"], drawn["xs"], styles, strict=True))
    hedges = [(xs, style) for called, xs, style in rows if called.endswith("hedge)")]
    assert [style for _xs, style in hedges] == [survey_marks.LINES["hedge"][:3]] * len(hedges)
    assert sorted(len(xs) for xs, _style in hedges) == sorted(
        len(path) for hedge in kinds["hedge"] for path in survey_marks.courses(hedge.geometry)
    )
    assert len(under.split()) < len(rows)  # an animals' run has no casing


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


def test_the_place_beside_the_chosen_one_has_a_ring_of_its_own(study):
    places, other = study.ground.places, study.ground.places.x.size - 1
    numbers = np.full(places.x.size, -1)
    ring = site_map.layers(study.map_layer(), numbers, (), places, 0, beside=other)["beside"]
    assert ring["x"].tolist() == [places.x[other]]
    none = site_map.layers(study.map_layer(), numbers, (), places, 0, beside=0)["beside"]
    assert none["x"].size == 0


@given(
    st.lists(st.tuples(st.floats(0, 90), st.floats(0, 90)), min_size=1, max_size=12),
    st.floats(0.05, 1.0),
)
def test_names_on_the_map_do_not_cover_one_another(at, pixel):
    x, y = np.array(at).T
    texts = ["a name"] * len(at)
    kept = [n for n, text in enumerate(survey_marks.thinned(texts, x, y, pixel)) if text]
    assert 0 in kept
    wide, high = survey_marks.LETTER * len("a name") * pixel, survey_marks.LINE * pixel
    for one in kept:
        for other in kept:
            if one != other:
                assert abs(x[one] - x[other]) >= wide or abs(y[one] - y[other]) >= high


def test_fewer_names_stand_on_a_narrow_map(study):
    kinds = {}
    for feature in study.site.features:
        kinds.setdefault(feature.kind, []).append(feature)
    extent = site_map.extent(study.ground.places)
    anchors = [
        survey_marks.anchor(f.geometry) for k in survey_marks.NAMED for f in kinds.get(k, [])
    ]
    texts = ["some feature"] * len(anchors)
    x, y = np.array([a.x for a in anchors]), np.array([a.y for a in anchors])
    wide, slim = (
        sum(map(bool, survey_marks.thinned(texts, x, y, extent / width)))
        for width in (survey_marks.WIDE, survey_marks.SLIM)
    )
    assert slim < wide


def test_what_lies_at_a_place_is_named_nearest_first(study):
    house = next(f for f in study.site.features if f.name == "House").geometry.centroid
    named = survey_marks.names_near(study.site.features, (house.x, house.y), 1.5)
    assert named[0] == "House (building)"
    assert survey_marks.names_near(study.site.features, (-900.0, -900.0), 1.5) == []
