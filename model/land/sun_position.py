"""Where the sun stands, to a hundredth of a degree between the years 1950 and 2050."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

J2000 = np.datetime64("2000-01-01T12:00:00", "us")
DAY = np.timedelta64(86_400_000_000, "us")
CENTURY = 36525.0  # [days]
CLOCK_LAG = 69 / 86400  # [days] dynamical time less universal time, about 2020 (IERS Bulletin A)
PARALLAX = 8.794 / 3600  # [degrees] of the sun at the horizon; Meeus (1998), chapter 40
# The sun's upper edge at rising: its half width and the air's lift there, Reda & Andreas (2004).
SEEN_FROM = -(0.26667 + 0.5667)


def sun_position(
    time: ArrayLike, latitude: ArrayLike, longitude: ArrayLike, refracted: bool = True
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Elevation of the sun's centre above the level and its bearing, broadcast shape [degrees].

    Parameters
    ----------
    time : array of datetime64
        Universal time (UTC).
    latitude, longitude : arrays [degrees]
        North and east positive.
    refracted : bool
        Lifted by the air (at 1010 hPa and 10 degrees C), as the eye sees it.

    Returns
    -------
    elevation, bearing : arrays [degrees]
        -90 to 90, and 0 to 360 clockwise from north.

    References
    ----------
    Meeus (1998), Astronomical Algorithms, 2nd edition, chapters 12, 13, 22, 25 and 40.

    Examples
    --------
    >>> elevation, bearing = sun_position(np.datetime64("2024-06-21T12:02"), 52, 0)
    >>> elevation.round(1).item(), bearing.round(0).item()
    (61.4, 180.0)

    """
    declination, hour_angle = declination_and_hour_angle(time, longitude)
    elevation, bearing = horizontal(declination, hour_angle, latitude)
    elevation = elevation - PARALLAX * np.cos(np.radians(elevation))
    return (elevation + refraction(elevation) if refracted else elevation), bearing


def declination_and_hour_angle(
    time: ArrayLike, longitude: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Sun's apparent declination, and its angle west of the meridian (-180 to 180) [degrees].

    `time` datetime64 UTC; `longitude` [degrees, east positive]; broadcast shape.
    Source: Meeus (1998), chapters 12, 22 and 25 (low accuracy, 0.01 degrees).
    """
    since = (np.asarray(time, dtype="datetime64[us]") - J2000) / DAY
    century = (since + CLOCK_LAG) / CENTURY
    longitude_of_sun, node = _apparent_longitude(century)
    tilt = 23.439291 - 0.0130042 * century + 0.00256 * np.cos(node)
    east = np.sin(longitude_of_sun)
    right_ascension = np.arctan2(np.cos(np.radians(tilt)) * east, np.cos(longitude_of_sun))
    declination = np.degrees(np.arcsin(np.sin(np.radians(tilt)) * east))
    nutation = -0.00478 * np.sin(node) * np.cos(np.radians(tilt))
    sidereal = 280.46061837 + 360.98564736629 * since + nutation
    turned = sidereal + np.asarray(longitude, dtype=float) - np.degrees(right_ascension)
    return declination, (turned + 180) % 360 - 180


def horizontal(
    declination: ArrayLike, hour_angle: ArrayLike, latitude: ArrayLike
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Elevation and bearing of a point of the sky, broadcast shape [degrees].

    `declination`, `hour_angle` (west positive) and `latitude` [degrees].
    Source: Meeus (1998), equations 13.5 and 13.6.

    >>> elevation, bearing = horizontal(0, -90, 52)  # six hours before noon at the equinox
    >>> abs(elevation.round(6).item()), bearing.round(6).item()
    (0.0, 90.0)
    """
    sun, hour, north = (np.radians(angle) for angle in (declination, hour_angle, latitude))
    rise = np.sin(north) * np.sin(sun) + np.cos(north) * np.cos(sun) * np.cos(hour)
    to_east = -np.cos(sun) * np.sin(hour)
    to_north = np.cos(north) * np.sin(sun) - np.sin(north) * np.cos(sun) * np.cos(hour)
    bearing = np.degrees(np.arctan2(to_east, to_north)) % 360
    return np.degrees(np.arcsin(np.clip(rise, -1, 1))), bearing


def refraction(elevation: ArrayLike) -> NDArray[np.float64]:
    """How far the air lifts the sun at a true elevation, same shape [degrees].

    At 1010 hPa and 10 degrees C; nothing once the whole sun is below the horizon.
    Source: Reda & Andreas (2004), equation 42 (after Meeus 1998, chapter 16).
    """
    true = np.asarray(elevation, dtype=float)
    above = np.maximum(true, SEEN_FROM)
    lift = 1.02 / (60 * np.tan(np.radians(above + 10.3 / (above + 5.11))))
    return np.where(true >= SEEN_FROM, lift, 0.0)


def _apparent_longitude(
    century: NDArray[np.float64],
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Sun's apparent longitude and the moon's ascending node [radians]; Meeus (1998), chapter 25.

    `century` is counted from noon of 1 January 2000, dynamical time.
    """
    mean = 280.46646 + 36000.76983 * century + 0.0003032 * century**2
    anomaly = np.radians(357.52911 + 35999.05029 * century - 0.0001537 * century**2)
    centre = (
        (1.914602 - 0.004817 * century - 0.000014 * century**2) * np.sin(anomaly)
        + (0.019993 - 0.000101 * century) * np.sin(2 * anomaly)
        + 0.000289 * np.sin(3 * anomaly)
    )
    node = np.radians(125.04 - 1934.136 * century)
    return np.radians(mean + centre - 0.00569 - 0.00478 * np.sin(node)), node
