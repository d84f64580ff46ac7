"""Whether a site's latitude and longitude can be right: its time zone and its seasons tell."""

import zoneinfo
from functools import cache
from pathlib import Path

import pandas as pd
from pyproj import Geod

from model.survey.attribute import Wrong
from model.survey.site import Site
from model.survey.weather import Weather

# The widest zones reach some 4,100 km from the town they are named for (China's to Kashgar).
FURTHEST = 4500.0  # km
TROPICS = 30.0  # degrees; nearer the equator the year may have another shape
CONTRADICTED = 3.0  # K between the two half years; the mildest oceans have more beyond 30 degrees
NORTHERN_SUMMER, SOUTHERN_SUMMER = (6, 7, 8), (12, 1, 2)
TABLE = "zone.tab"
MEND = (
    "checking the order of latitude and longitude in site.toml and their signs (south and west "
    "are negative)"
)


def wrong_zone(site: Site) -> Wrong | None:
    """What is wrong with a place that lies too far from the town of its time zone."""
    town = _towns().get(site.timezone)
    if town is None:
        return None
    _, _, metres = Geod(ellps="WGS84").inv(site.longitude, site.latitude, town[1], town[0])
    if metres <= FURTHEST * 1000:
        return None
    found = f"{site.latitude:g}, {site.longitude:g}, {metres / 1000:,.0f} km from {site.timezone}"
    return Wrong(found, f"a place in that time zone, within {FURTHEST:,.0f} km", MEND)


def wrong_seasons(site: Site, weather: Weather) -> Wrong | None:
    """What is wrong with a latitude on the other side of the equator than its weather."""
    is_north = site.latitude > 0
    excess = summer_excess(weather.table) * (1 if is_north else -1)
    if abs(site.latitude) < TROPICS or not excess < -CONTRADICTED:
        return None
    side, when = ("north", "January") if is_north else ("south", "July")
    found = (
        f"{site.latitude:g}, {side} of the equator, "
        f"and weather whose warmest months are about {when}"
    )
    return Wrong(found, "weather and place on the same side of the equator", MEND)


def summer_excess(table: pd.DataFrame) -> float:
    """By how much June to August are warmer than December to February [K]; NaN where not known."""
    warmth = (
        table["temperature"] if "temperature" in table else table[["tmin", "tmax"]].mean(axis=1)
    )
    months = table.index.month if isinstance(table.index, pd.DatetimeIndex) else table.index
    means = warmth.groupby(months).mean()
    return float(means.reindex(NORTHERN_SUMMER).mean() - means.reindex(SOUTHERN_SUMMER).mean())


@cache
def _towns() -> dict[str, tuple[float, float]]:
    """Latitude and longitude of the town of every time zone; none where this computer has no table.

    References
    ----------
    The IANA time zone database, zone.tab: places as ISO 6709 has them, +DDMM+DDDMM or with seconds.
    """
    paths = (Path(folder) / TABLE for folder in zoneinfo.TZPATH)
    text = next((path.read_text(encoding="utf-8") for path in paths if path.is_file()), "")
    rows = (line.split("\t") for line in text.splitlines() if line and not line.startswith("#"))
    return {row[2]: _place(row[1]) for row in rows if len(row) > 2}


def _place(written: str) -> tuple[float, float]:
    """Degrees of a place such as +5320-00615.

    >>> _place("+5320-00615")
    (53.333333333333336, -6.25)
    """
    middle = max(written.rfind("+"), written.rfind("-"))
    return _degrees(written[:middle], 2), _degrees(written[middle:], 3)


def _degrees(written: str, digits: int) -> float:
    sign = -1 if written[0] == "-" else 1
    parts = (written[1 : 1 + digits], written[1 + digits : 3 + digits], written[3 + digits :])
    whole, minutes, seconds = (int(part or 0) for part in parts)
    return sign * (whole + minutes / 60 + seconds / 3600)
