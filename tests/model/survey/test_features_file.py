"""The features stand in one place only."""

from model.survey.features_file import feature_files, read_features
from model.survey.folder import Folder
from tests.model.survey.examples import folder_with


def test_two_formats_at_once_are_a_fault(tmp_path):
    folder = folder_with(tmp_path, features_csv="x", features_geojson="{}")
    feature_files(folder)
    assert "features.geojson and features.csv" in folder.faults[0].found


def test_several_shapefiles_are_one_survey(tmp_path):
    folder = folder_with(tmp_path, features_lines_shp="x", features_points_shp="x")
    assert feature_files(folder) == ["features_points.shp", "features_lines.shp"]
    assert folder.faults == []


def test_no_file_is_no_fault(tmp_path):
    folder = Folder(tmp_path)
    assert read_features(folder, None) == ()
    assert folder.faults == []


def test_a_csv_in_metres_is_checked_even_when_the_place_is_not_known(tmp_path):
    folder = folder_with(tmp_path, features_csv="feature,kind,x_m,y_m\n1,tpa,0,0\n")
    read_features(folder, None)
    assert folder.faults[0].field == "kind"
