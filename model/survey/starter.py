"""A starter folder: a small invented survey that passes the check and explains itself."""

from pathlib import Path

from model.survey import features_csv, heights_csv, lists, settings, weather_csv
from model.survey.attribute import Wrong
from model.survey.faults import SurveyFaults
from model.survey.folder import Folder
from model.survey.readme import readme_text
from model.survey.site import Spot
from model.survey.table import table_text

README_FILE = "README.txt"
EXAMPLE = "example, put your own in its place"
PREFACE = """\
# A new survey. The values are examples: the place is in open sea. Put your own in their place.
# README.txt explains every file of this folder.

"""
SETTINGS: settings.Settings = {
    "": {
        "name": "New site",
        "latitude": 51.0,
        "longitude": -7.5,
        "altitude_m": 50.0,
        "timezone": "Europe/London",
        "grid_m": 2.0,
    },
    "hub": {"x_m": 20.0, "y_m": 30.0},
    "soil": {"texture": "loam", "fertility": "ordinary", "depth_cm": 60.0, "ph": 6.5},
}
FEATURE_COLUMNS = ("feature", "kind", "name", "x_m", "y_m", "height_m", "width_m", "species")
FEATURES = (
    (1, "boundary", EXAMPLE, 0, 0, "", "", ""),
    (1, "", "", 60, 0, "", "", ""),
    (1, "", "", 60, 40, "", "", ""),
    (1, "", "", 0, 40, "", "", ""),
    (2, "hedge", EXAMPLE, 0, 0, 2, 1.5, "hawthorn"),
    (2, "", "", 60, 0, "", "", ""),
    (3, "building", EXAMPLE, 15, 30, 6, "", ""),
    (3, "", "", 25, 30, "", "", ""),
    (3, "", "", 25, 38, "", "", ""),
    (3, "", "", 15, 38, "", "", ""),
    (4, "gate", EXAMPLE, 30, 0, "", 1.2, ""),
)
SPOTS = (Spot("A", 40.0, 20.0, EXAMPLE),)
OPTIONS = (("apple", "Discovery", "MM106"),)
HEIGHTS = ((0.0, 0.0, 50.0), (60.0, 0.0, 49.0), (0.0, 40.0, 52.0), (60.0, 40.0, 51.5))
MONTHS = (
    (1, 2.0, 8.0, 3.5, 3.0, 100, 16),
    (2, 2.0, 8.5, 3.5, 3.0, 75, 13),
    (3, 3.0, 10.5, 3.5, 3.0, 75, 13),
    (4, 4.5, 13.0, 3.0, 3.0, 65, 12),
    (5, 7.5, 16.0, 3.0, 3.0, 65, 12),
    (6, 10.0, 18.5, 2.5, 3.0, 65, 11),
    (7, 12.0, 20.5, 2.5, 3.0, 65, 11),
    (8, 12.0, 20.0, 2.5, 3.0, 75, 12),
    (9, 10.0, 18.0, 3.0, 2.5, 80, 12),
    (10, 7.5, 14.5, 3.5, 2.5, 105, 15),
    (11, 4.5, 11.0, 3.5, 2.5, 105, 16),
    (12, 3.0, 8.5, 3.5, 3.0, 110, 16),
)


def new_folder(folder: str | Path) -> tuple[str, ...]:
    """Lay out a starter folder and say which files it has.

    Raises
    ------
    SurveyFaults
        When something stands at that place already; it is left as it was.
    """
    path = Path(folder)
    if path.exists() and (not path.is_dir() or any(path.iterdir())):
        there = Folder(path)
        found = "a folder with files in it" if path.is_dir() else "a file"
        wrong = Wrong(found, "a new or an empty folder", "choosing another name")
        there.fault(path.name, None, "", wrong)
        raise SurveyFaults(there.faults)
    path.mkdir(parents=True, exist_ok=True)
    files = starter_files()
    for name, text in files.items():
        (path / name).write_text(text, encoding="utf-8", newline="\n")
    return tuple(files)


def starter_files() -> dict[str, str]:
    """The text of every file of the starter folder by name."""
    months = [column.name for column in weather_csv.MONTHLY_COLUMNS[: len(MONTHS[0])]]
    spot_heights = [column.name for column in heights_csv.COLUMNS]
    return {
        README_FILE: readme_text(),
        settings.FILE: PREFACE + settings.settings_text(SETTINGS),
        features_csv.FILE: table_text(FEATURE_COLUMNS, FEATURES),
        lists.SPOTS_FILE: lists.spots_text(SPOTS),
        lists.OPTIONS_FILE: lists.options_text(OPTIONS),
        # examples that are not read until renamed: invented weather must never judge real land
        "weather_monthly.example.csv": table_text(months, MONTHS),
        "heights.example.csv": table_text(spot_heights, HEIGHTS),
    }
