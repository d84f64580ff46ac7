"""A draft becomes a feature when kind, attributes and geometry are right."""

import numpy as np
import pytest
from shapely.geometry import LineString, MultiPolygon, Point, Polygon

from model.survey.drafts import Draft, checked_features
from model.survey.folder import Folder
from tests.model.survey.examples import square


def checked(tmp_path, geometry, **fields):
    folder = Folder(tmp_path)
    features = checked_features(folder, [Draft("features.csv", 4, geometry, fields)])
    return features, folder.faults


def test_defaults_are_filled_and_the_origin_told(tmp_path):
    [path], faults = checked(tmp_path, LineString([(0, 0), (9, 0)]), kind="path", width_m="2")
    assert faults == []
    assert path.attributes == {"width_m": 2.0, "surface": "grass"}
    assert path.origin == "features.csv, feature 4"


def test_heights_of_the_points_are_left_out(tmp_path):
    [tap], _ = checked(tmp_path, Point(1, 2, 3), kind="tap")
    assert not tap.geometry.has_z


def test_a_geometry_of_several_parts_becomes_as_many_features(tmp_path):
    both = MultiPolygon([square(4), Polygon([(10, 0), (12, 0), (12, 2)])])
    features, faults = checked(tmp_path, both, kind="building", height_m=4)
    assert faults == []
    assert [one.geometry.area for one in features] == [16, 2]


@pytest.mark.parametrize(
    ("geometry", "fields", "field", "word"),
    [
        (Point(0, 0), {"kind": "tapp"}, "kind", "'tap'"),
        (Point(0, 0), {}, "kind", "filling in the kind"),
        (Point(0, 0), {"kind": 7}, "kind", "kind"),
        (Point(0, 0), {"kind": "tank"}, "capacity_l", "capacity_l"),
        (Point(0, 0), {"kind": "tap", "height_m": 3}, "height_m", "leaving it out"),
        (Point(0, 0), {"kind": "gate", "widht_m": 3}, "widht_m", "'width_m'"),
        (square(2), {"kind": "tap"}, "geometry", "drawing"),
        (Point(), {"kind": "tap"}, "geometry", "drawing"),
        (Point(np.inf, 0), {"kind": "tap"}, "geometry", "coordinates"),
        (Point(1e9, 0), {"kind": "tap"}, "geometry", "order"),
        (LineString([(0, 0), (0, 0.001)]), {"kind": "path", "width_m": 1}, "geometry", "end"),
        (
            Polygon([(0, 0), (9, 9), (9, 0), (0, 9)]),
            {"kind": "keep_clear", "reason": "x"},
            "geometry",
            "corners",
        ),
        (
            Polygon([(0, 0), (0.01, 0), (0, 0.01)]),
            {"kind": "keep_clear", "reason": "x"},
            "geometry",
            "corners",
        ),
        (
            MultiPolygon([square(2), Polygon([(10, 0), (12, 0), (12, 2)])]),
            {"kind": "boundary"},
            "geometry",
            "keeping the part",
        ),
        (
            Point(0, 0),
            {"kind": "view", "bearing_deg": 0, "width_deg": 9, "wish": "keep", "high_deg": -9},
            "low_deg",
            "exchanging",
        ),
    ],
)
def test_what_is_wrong_is_named(tmp_path, geometry, fields, field, word):
    features, [fault] = checked(tmp_path, geometry, **fields)
    assert features == ()
    assert (fault.file, fault.row, fault.field) == ("features.csv", 4, field)
    assert word in fault.mend


def test_numbers_and_blanks_that_a_gis_adds_do_no_harm(tmp_path):
    [tap], faults = checked(tmp_path, Point(0, 0), kind="tap", fid=3, id="x", height_m=None, use="")
    assert faults == []
    assert tap.attributes == {}
