"""Temperature through the day and with height above the weather station."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Upper limb on the horizon, seen through a refracting atmosphere: 50 minutes of arc.
RISING_ALTITUDE = -50 / 60

# International Standard Atmosphere; FAO Irrigation and Drainage Paper 56, equation 7.
LAPSE_RATE = 0.0065

NIGHT_AT_LEAST = 0.1  # [h] keeps the evening's logarithm finite under a midnight sun


def declination(day_of_year: ArrayLike) -> NDArray[np.float64]:
    """Sun's declination by day of the year (1 to 366), same shape [degrees].

    Source: Spencer (1971), Fourier series representation of the position of the sun, Search 2:172.
    """
    angle = 2 * np.pi * (np.asarray(day_of_year, dtype=float) - 1) / 365
    return np.degrees(
        0.006918
        - 0.399912 * np.cos(angle)
        + 0.070257 * np.sin(angle)
        - 0.006758 * np.cos(2 * angle)
        + 0.000907 * np.sin(2 * angle)
        - 0.002697 * np.cos(3 * angle)
        + 0.00148 * np.sin(3 * angle)
    )


def sunrise_sunset(
    latitude: ArrayLike, day_of_year: ArrayLike, altitude: float = RISING_ALTITUDE
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Sunrise and sunset, broadcast shape [h, solar time: noon is 12].

    `latitude` [degrees, north positive], `day_of_year` (1 to 366), `altitude` [degrees] of the
    sun's centre at rising: 0 for geometry alone. The midnight sun gives 0 and 24, the polar night
    12 and 12.

    Source: Almorox, Hontoria & Benito (2005), Statistical validation of daylength definitions,
    Energy Conversion and Management 46:1465-1471.
    """
    north = np.radians(np.asarray(latitude, dtype=float))
    sun = np.radians(declination(day_of_year))
    at_rising = np.sin(np.radians(altitude)) - np.sin(north) * np.sin(sun)
    cosine = np.clip(at_rising / np.maximum(np.cos(north) * np.cos(sun), 1e-12), -1, 1)
    half_day = np.degrees(np.arccos(cosine)) / 15
    return 12 - half_day, 12 + half_day


def hourly_from_daily(
    tmin: ArrayLike, tmax: ArrayLike, latitude: float, day_of_year: ArrayLike
) -> NDArray[np.float64]:
    """Temperature at the hours 0 to 23, solar time, of consecutive days.

    By day a sine that peaks two hours after noon, by night a logarithmic fall to the next day's
    minimum at sunrise. Both logarithms take one hour more than the time since sunset, so that the
    curve is continuous at sunset and ends exactly at the minimum. The first night is taken to
    start from the first day's own evening, the last to end at the last day's own minimum. In the
    polar night the day stays at its minimum.

    Parameters
    ----------
    tmin, tmax : arrays (day,) [degrees C]
        Lowest and highest temperature of each day.
    latitude : float [degrees]
        North positive.
    day_of_year : array (day,)
        1 to 366.

    Returns
    -------
    array (day, 24) [degrees C]

    References
    ----------
    Linvill (1990), Calculating chilling hours and chill units from daily maximum and minimum
    temperature observations, HortScience 25:14-16.

    """
    low, high = np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float)
    rise, sunset = sunrise_sunset(latitude, day_of_year)
    day_length = sunset - rise
    at_sunset = low + (high - low) * np.sin(np.pi * day_length / (day_length + 4))
    hour = np.arange(24.0)
    phase = np.pi * (hour - rise[:, None]) / (day_length + 4)[:, None]
    daytime = low[:, None] + (high - low)[:, None] * np.sin(phase)
    next_rise = _next(rise) + 24
    evening = _fall(at_sunset, _next(low), hour - sunset[:, None], next_rise - sunset)
    since_sunset = hour + 24 - _previous(sunset)[:, None]
    morning = _fall(_previous(at_sunset), low, since_sunset, rise + 24 - _previous(sunset))
    by_day = np.where(hour > sunset[:, None], evening, daytime)
    return np.where(hour < rise[:, None], morning, by_day)


def station_to_place(altitude_difference: ArrayLike) -> NDArray[np.float64]:
    """Warming of a place against the weather station, same shape [K]; higher is colder.

    `altitude_difference` [m] is the place's height less the station's. It is the mean over days
    and nights; on a calm clear night a hollow is colder than the slope above it instead.
    Source: International Standard Atmosphere, 6.5 K/km.

    >>> station_to_place(100).item()
    -0.65
    """
    return -LAPSE_RATE * np.asarray(altitude_difference, dtype=float)


def _next(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Value of the following day (day,); the last day's own at the end."""
    return np.append(values[1:], values[-1:])


def _previous(values: NDArray[np.float64]) -> NDArray[np.float64]:
    """Value of the day before (day,); the first day's own at the start."""
    return np.append(values[:1], values[:-1])


def _fall(
    start: NDArray[np.float64],
    end: NDArray[np.float64],
    elapsed: NDArray[np.float64],
    night: NDArray[np.float64],
) -> NDArray[np.float64]:
    """Night temperature (day, hour) falling from `start` to `end` (day,) [degrees C]."""
    length = np.maximum(night, NIGHT_AT_LEAST)[:, None]
    share = np.log1p(np.clip(elapsed, 0, length)) / np.log1p(length)
    return start[:, None] - (start - end)[:, None] * share
