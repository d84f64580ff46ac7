"""The features of a folder, whichever of the open formats they are written in."""

from model.survey.drafts import Draft, checked_features
from model.survey.feature import Feature
from model.survey.features_csv import FILE as CSV_FILE
from model.survey.features_csv import csv_drafts
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.geojson import geojson_drafts
from model.survey.layers import layer_drafts

GEOJSON_FILE = "features.geojson"
GEOPACKAGE_FILE = "features.gpkg"
# a shapefile holds one type of geometry, so a site may need three
SHAPEFILES = ("features.shp", "features_points.shp", "features_lines.shp", "features_areas.shp")


def feature_files(folder: Folder) -> list[str]:
    """The files that hold the features: one, or several shapefiles (each holds one geometry)."""
    shapefiles = folder.present(SHAPEFILES)
    one = folder.one_of([GEOJSON_FILE, CSV_FILE, GEOPACKAGE_FILE, *shapefiles[:1]], "features")
    return shapefiles if one in shapefiles else [one] if one else []


def read_features(folder: Folder, frame: Frame | None) -> tuple[Feature, ...]:
    """The features in local metres; without a frame (site.toml is at fault) only a CSV is read."""
    drafts: list[Draft] = []
    for name in feature_files(folder):
        if name == CSV_FILE:
            drafts += csv_drafts(folder, name)
        elif frame is not None and name == GEOJSON_FILE:
            drafts += geojson_drafts(folder, name, frame)
        elif frame is not None:
            drafts += layer_drafts(folder, name, frame)
    return checked_features(folder, drafts)
