"""Pegs opened by readers that are not ours: GeoPandas, pandas and gpxpy."""

import io

import geopandas
import gpxpy
import numpy as np
import pandas as pd
import pytest
from pyproj import Geod

from model import peg_files
from model.opening import open_study
from tests.model.demo import DEMO


@pytest.fixture(scope="module")
def study():
    return open_study(DEMO)


@pytest.fixture(scope="module")
def table(study):
    return peg_files.peg_table(study)


def test_every_peg_is_in_every_file(study, table, tmp_path):
    names = [spot.name for spot in study.site.spots]
    geopackage = tmp_path / "pegs.gpkg"
    geopackage.write_bytes(peg_files.pegs_geopackage(study, table))
    waypoints = gpxpy.parse(peg_files.pegs_gpx(study, table)).waypoints
    geojson = geopandas.read_file(io.StringIO(peg_files.pegs_geojson(table)))
    assert [point.name for point in waypoints] == names
    assert list(geojson["peg"]) == names
    assert list(geopandas.read_file(geopackage, layer="pegs")["peg"]) == names
    assert list(pd.read_csv(io.StringIO(peg_files.pegs_csv(table)))["peg"]) == names


def test_places_in_degrees_lie_as_far_from_the_origin_as_in_metres(study, table):
    """Against the geodesic on the ellipsoid, Karney (2013), by pyproj's Geod."""
    waypoints = gpxpy.parse(peg_files.pegs_gpx(study, table)).waypoints
    for point, row in zip(waypoints, table.to_dict("records"), strict=True):
        bearing, _, away = Geod(ellps="WGS84").inv(
            study.site.longitude, study.site.latitude, point.longitude, point.latitude
        )
        assert away == pytest.approx(np.hypot(row["x_m"], row["y_m"]), abs=0.02)
        east = away * np.sin(np.radians(bearing))
        assert east == pytest.approx(row["x_m"], abs=0.02)


def test_the_geopackage_holds_the_survey_too(study, table, tmp_path):
    path = tmp_path / "pegs.gpkg"
    path.write_bytes(peg_files.pegs_geopackage(study, table))
    survey = geopandas.read_file(path, layer="survey")
    assert len(survey) == len(study.site.features)
    assert survey.geometry.iloc[0].equals_exact(study.site.features[0].geometry, 1e-6)


def test_words_of_people_are_text_in_every_file(study, table):
    evil = table.assign(peg='=1+1</name><wpt lat="0">', note="<script>&")
    point = gpxpy.parse(peg_files.pegs_gpx(study, evil)).waypoints[0]
    assert point.name == '=1+1</name><wpt lat="0">'
    assert pd.read_csv(io.StringIO(peg_files.pegs_csv(evil)))["peg"][0].startswith("'=")
