"""Where the sun falls at one moment of one day, for drawing the shadows."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np

from model.ground import Ground
from model.land.shade import beam_share
from model.land.sun_position import sun_position
from model.language import dated

YEAR = 2025  # any year without a leap day: the sun's course hardly differs between years
EYE = 0.1  # [m] above the ground, where shadows are seen


@dataclass(frozen=True)
class Shadows:
    """Share of the sun's beam that reaches each place (place,) [0 to 1]; NaN while it is down.

    `when` says the day and clock time, `elevation` and `bearing` [degrees] where the sun stands.
    """

    share: np.ndarray
    when: str
    elevation: float
    bearing: float


@dataclass(frozen=True)
class SunAt:
    """Where the sun stands at a moment: `when` in words, `month` 0 to 11, angles [degrees]."""

    when: str
    month: int
    elevation: float
    bearing: float


def sun_at(ground: Ground, day: int, hour: float) -> SunAt:
    """The sun on a day of the year (1 to 365) at an hour of the site's clock (0 to 24)."""
    zone = ZoneInfo(ground.site.timezone)
    clock = datetime(YEAR, 1, 1, tzinfo=zone) + timedelta(days=day - 1)
    moment = clock.replace(hour=int(hour) % 24, minute=round(hour % 1 * 60) % 60)
    utc = np.datetime64(moment.astimezone(UTC).replace(tzinfo=None))
    elevation, bearing = sun_position(utc, ground.latitude, ground.site.longitude)
    when = f"{dated(moment)}, {moment:%H:%M}"
    return SunAt(when, moment.month - 1, float(elevation), float(bearing))


def shadows(ground: Ground, day: int, hour: float) -> Shadows:
    """Shadows on a day of the year (1 to 365) at an hour of the site's clock (0 to 24).

    Everything that stands throws them, neighbours at their full size and in that month's leaf.
    """
    sun = sun_at(ground, day, hour)
    share = np.full(ground.places.x.size, np.nan)
    if sun.elevation > 0:
        eyes = np.column_stack([ground.places.x, ground.places.y, ground.altitude + EYE])
        share = beam_share(eyes, ground.standing, sun.elevation, sun.bearing, sun.month)
    return Shadows(share, sun.when, sun.elevation, sun.bearing)
