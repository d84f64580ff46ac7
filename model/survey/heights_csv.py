"""heights.csv: heights measured at spots, in metres from the origin."""

import numpy as np

from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.folder import Folder
from model.survey.heights import SpotHeights
from model.survey.settings import ALTITUDES, EAST, NORTH
from model.survey.table import checked_rows, table_text

FILE = "heights.csv"
MOST = 50_000  # more are a raster, and quicker read from one
COLUMNS = (
    EAST,
    NORTH,
    Attribute("z_m", "m", REQUIRED, *ALTITUDES, (), "above sea level, as altitude_m in site.toml"),
)


def spot_heights(folder: Folder) -> SpotHeights | None:
    """The heights measured, None with the faults noted."""
    before = len(folder.faults)
    rows = checked_rows(folder, FILE, COLUMNS, MOST)
    places: dict[tuple[float, float], int] = {}
    for row in rows:
        place = (row.number_of("x_m"), row.number_of("y_m"))
        if place in places:
            wrong = Wrong(
                f"the place of row {places[place]} again", "each place once", "deleting one"
            )
            folder.fault(FILE, row.number, "x_m", wrong)
        places.setdefault(place, row.number)
    x, y, z = (np.array([row.number_of(name) for row in rows]) for name in ("x_m", "y_m", "z_m"))
    if len(folder.faults) == before and not _span_a_plane(x, y):
        wrong = Wrong(
            f"{len(rows)} heights on one line",
            "three or more that are not on one line",
            "measuring another, or giving one slope under [heights] in site.toml",
        )
        folder.fault(FILE, None, "x_m", wrong)
    return SpotHeights(x, y, z) if len(folder.faults) == before else None


def spot_heights_text(heights: SpotHeights) -> str:
    """The text of heights.csv, with every digit."""
    rows = list(zip(heights.x.tolist(), heights.y.tolist(), heights.z.tolist(), strict=True))
    return table_text([column.name for column in COLUMNS], rows)


def _span_a_plane(x: np.ndarray, y: np.ndarray) -> bool:
    """Whether the places lie on both sides of the line from their middle to the furthest of them.

    Told by sums alone: a decomposition of thousands of rows would set every core to work.
    """
    if len(x) < 3:
        return False
    east, north = x - x.mean(), y - y.mean()
    far = int(np.hypot(east, north).argmax())
    reach = float(np.hypot(east[far], north[far]))
    aside = (east * north[far] - north * east[far]) / reach if reach > 0 else np.zeros(1)
    return bool(np.sqrt((aside**2).sum()) > 0.01)
