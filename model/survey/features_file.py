"""The features of a folder, whichever of the open formats they are written in."""

from model.survey.drafts import Draft, checked_features
from model.survey.feature import Feature
from model.survey.features_csv import csv_drafts
from model.survey.folder import Folder
from model.survey.frame import Frame
from model.survey.geojson import geojson_drafts

GEOJSON_FILE = "features.geojson"
CSV_FILE = "features.csv"
GEOPACKAGE_FILE = "features.gpkg"


def feature_files(folder: Folder) -> list[str]:
    """The files that hold the features: one, or several shapefiles (each holds one geometry)."""
    one = folder.one_of([GEOJSON_FILE, CSV_FILE, GEOPACKAGE_FILE], "features")
    return [one] if one else []


def read_features(folder: Folder, frame: Frame | None) -> tuple[Feature, ...]:
    """The features in local metres; without a frame (site.toml is at fault) only a CSV is read."""
    drafts: list[Draft] = []
    for name in feature_files(folder):
        if name == CSV_FILE:
            drafts += csv_drafts(folder, name)
        elif frame is not None:
            drafts += geojson_drafts(folder, name, frame)
    return checked_features(folder, drafts)
