"""Small invented surveys that the tests of this folder share."""

import shutil
from pathlib import Path

import numpy as np
import pandas as pd
from shapely.geometry import LineString, Point, Polygon

from model.survey import Feature, Site, Soil, Spot, SpotHeights, Weather, new_folder
from model.survey.folder import Folder
from model.survey.wind import Wind

LATITUDE, LONGITUDE = 52.0, -3.0


def folder_with(path: Path, **files: str | bytes) -> Folder:
    """A survey folder with these files; `features_csv` names features.csv."""
    path.mkdir(exist_ok=True)
    for name, content in files.items():
        stem, _, ending = name.rpartition("_")
        data = content if isinstance(content, bytes) else content.encode()
        (path / f"{stem}.{ending}").write_bytes(data)
    return Folder(path)


def starter_with_examples(path: Path) -> Path:
    """The starter folder, its examples of weather and heights in use."""
    new_folder(path)
    shutil.move(path / "weather_monthly.example.csv", path / "weather_monthly.csv")
    shutil.move(path / "heights.example.csv", path / "heights.csv")
    return path


def square(side: float) -> Polygon:
    """A square about the origin."""
    half = side / 2
    return Polygon([(-half, -half), (half, -half), (half, half), (-half, half)])


def features() -> tuple[Feature, ...]:
    """A feature of each geometry, one of them with a hole."""
    holed = Polygon(square(90).exterior, [square(10).exterior.coords])
    return (
        Feature("boundary", "all", square(100), {"ownership": "ours"}),
        Feature("wet_ground", "", holed, {"wet_months": 3.5}),
        Feature(
            "hedge",
            'lane, "north"',
            LineString([(-50, 50), (0, 48.125), (50, 50)]),
            {"species": "hawthorn;ash", "height_m": 2.0, "width_m": 1.5},
        ),
        Feature(
            "neighbour_tree",
            "Große Linde",
            Point(12.345, -60.5),
            {
                "species": "lime",
                "cultivar": "",
                "height_m": 14.0,
                "crown_m": 9.0,
                "full_height_m": float("nan"),
                "full_crown_m": 15.0,
            },
        ),
    )


def monthly_weather() -> Weather:
    """Twelve normals."""
    month = np.arange(1, 13)
    warmth = np.round(-np.cos((month - 1) / 6 * np.pi) * 6.5, 1)
    table = pd.DataFrame(
        {
            "tmin": 6.0 + warmth,
            "tmax": 13.25 + warmth,
            "tmin_sd": 3.0,
            "tmax_sd": 3.5,
            "rain": 80.0,
            "rain_days": 13.0,
        },
        index=pd.Index(month, name="month"),
    )
    return Weather("monthly", table, 71.5, 7, 40)


def site() -> Site:
    """A site in which every part is filled."""
    return Site(
        wind=Wind(3.4, (1.0, 0.5, 0.5, 1.0, 1.5, 3.0, 2.0, 1.0)),
        name="Long Meadow (invented)",
        latitude=LATITUDE,
        longitude=LONGITUDE,
        altitude=60.0,
        timezone="Europe/London",
        cell=2.5,
        hub=(10.0, -20.5),
        soil=Soil("clay loam", "rich", 45.0, 5.8),
        features=features(),
        heights=SpotHeights(
            np.array([-50.0, 50, 50, -50, 0]),
            np.array([-50.0, -50, 50, 50, 0]),
            np.array([55.0, 57, 64, 62, 59.123]),
        ),
        weather=monthly_weather(),
        spots=(Spot("A", 1.5, 2.25), Spot('by the "gate", east', 40, -40, "wet, see note")),
        options=(("apple", "Discovery", "MM106"), ("pear", "Conference", "Quince A")),
    )
