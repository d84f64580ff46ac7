"""Radiation that reaches and leaves a reference grass surface in a day, after FAO-56.

All energies are in MJ/m2 per day. Equations are numbered as in Allen, Pereira, Raes & Smith
(1998), Crop evapotranspiration, FAO Irrigation and Drainage Paper 56.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

SOLAR_CONSTANT = 0.0820  # [MJ/m2/min]
STEFAN_BOLTZMANN = 4.903e-9  # [MJ/K4/m2/day]
ALBEDO = 0.23  # of the reference grass, equation 38
INLAND = 0.16  # [K**-0.5] for equation 50; 0.19 where a coast is near
ZERO_CELSIUS = 273.16  # as printed in the paper


def extraterrestrial(latitude: ArrayLike, day_of_year: ArrayLike) -> NDArray[np.float64]:
    """Radiation at the top of the air, broadcast shape [MJ/m2/day].

    `latitude` [degrees, north positive], `day_of_year` (1 to 366). Source: FAO-56, equation 21.

    >>> extraterrestrial(-20, 246).round(1).item()
    32.2
    """
    north, sun = np.radians(np.asarray(latitude, dtype=float)), _declination(day_of_year)
    sunset = _sunset_angle(north, sun)
    nearness = 1 + 0.033 * np.cos(_year_angle(day_of_year))
    over_the_day = sunset * np.sin(north) * np.sin(sun) + np.cos(north) * np.cos(sun) * np.sin(
        sunset
    )
    return 24 * 60 / np.pi * SOLAR_CONSTANT * nearness * over_the_day


def daylight_hours(latitude: ArrayLike, day_of_year: ArrayLike) -> NDArray[np.float64]:
    """Possible hours of sun on a day, broadcast shape [h]. Source: FAO-56, equation 34.

    >>> daylight_hours(-20, 246).round(1).item()
    11.7
    """
    north = np.radians(np.asarray(latitude, dtype=float))
    return 24 / np.pi * _sunset_angle(north, _declination(day_of_year))


def from_sunshine(
    sunshine: ArrayLike, latitude: ArrayLike, day_of_year: ArrayLike
) -> NDArray[np.float64]:
    """Radiation at the ground from hours of bright sun [h], broadcast shape [MJ/m2/day].

    Source: FAO-56, equation 35, with a = 0.25 and b = 0.50.
    """
    possible = np.maximum(daylight_hours(latitude, day_of_year), 1e-9)
    bright = np.clip(np.asarray(sunshine, dtype=float) / possible, 0, 1)
    return (0.25 + 0.50 * bright) * extraterrestrial(latitude, day_of_year)


def from_temperature_range(
    tmin: ArrayLike,
    tmax: ArrayLike,
    latitude: ArrayLike,
    day_of_year: ArrayLike,
    adjustment: float = INLAND,
) -> NDArray[np.float64]:
    """Radiation at the ground from the day's range of temperature, broadcast shape [MJ/m2/day].

    Clear days warm and cool more than overcast ones. `tmin`, `tmax` [degrees C]. It is held at
    a clear sky's three quarters of the radiation above the air.
    Source: FAO-56, equation 50 (Hargreaves); the limit is equation 36.
    """
    swing = np.maximum(np.asarray(tmax, dtype=float) - np.asarray(tmin, dtype=float), 0)
    return np.minimum(adjustment * np.sqrt(swing), 0.75) * extraterrestrial(latitude, day_of_year)


def clear_sky(
    latitude: ArrayLike, day_of_year: ArrayLike, altitude: ArrayLike
) -> NDArray[np.float64]:
    """Radiation at the ground under a clear sky, broadcast shape [MJ/m2/day].

    `altitude` [m above the sea]. Source: FAO-56, equation 37.
    """
    height = np.asarray(altitude, dtype=float)
    return (0.75 + 2e-5 * height) * extraterrestrial(latitude, day_of_year)


def net_longwave(
    tmin: ArrayLike,
    tmax: ArrayLike,
    vapour_pressure: ArrayLike,
    radiation: ArrayLike,
    clear_sky_radiation: ArrayLike,
) -> NDArray[np.float64]:
    """Heat that the surface loses to the sky in a day, broadcast shape [MJ/m2/day].

    `tmin`, `tmax` [degrees C], `vapour_pressure` of the air [kPa], `radiation` at the ground as it
    was and under a clear sky [MJ/m2/day]. Source: FAO-56, equation 39.

    >>> net_longwave(19.1, 25.1, 2.1, 14.5, 18.8).round(1).item()
    3.5
    """
    low, high = (np.asarray(t, dtype=float) + ZERO_CELSIUS for t in (tmin, tmax))
    black_body = STEFAN_BOLTZMANN * (low**4 + high**4) / 2
    moist = 0.34 - 0.14 * np.sqrt(np.asarray(vapour_pressure, dtype=float))
    # Limits of 0.3 and 1 on the share of a clear sky's radiation: ASCE-EWRI (2005), equation 18.
    # In the polar night there is no share, and the sky is taken as half clear.
    brightest = np.asarray(clear_sky_radiation, dtype=float)
    share = np.divide(
        radiation,
        brightest,
        out=np.full(np.broadcast_shapes(np.shape(radiation), brightest.shape), 0.6),
        where=brightest > 0.1,
    )
    return black_body * moist * (1.35 * np.clip(share, 0.3, 1) - 0.35)


def net(radiation: ArrayLike, longwave: ArrayLike) -> NDArray[np.float64]:
    """Radiation the reference grass keeps, broadcast shape [MJ/m2/day].

    Source: FAO-56, equations 38 and 40.

    >>> net(14.5, 3.5).round(1).item()
    7.7
    """
    return (1 - ALBEDO) * np.asarray(radiation, dtype=float) - np.asarray(longwave, dtype=float)


def _year_angle(day_of_year: ArrayLike) -> NDArray[np.float64]:
    """Day of the year as an angle [rad]."""
    return 2 * np.pi * np.asarray(day_of_year, dtype=float) / 365


def _declination(day_of_year: ArrayLike) -> NDArray[np.float64]:
    """Sun's declination in the paper's own short form [rad]; equation 24."""
    return 0.409 * np.sin(_year_angle(day_of_year) - 1.39)


def _sunset_angle(north: NDArray[np.float64], sun: NDArray[np.float64]) -> NDArray[np.float64]:
    """Hour angle of sunset [rad], 0 in the polar night and pi under a midnight sun; equation 25."""
    return np.arccos(np.clip(-np.tan(north) * np.tan(sun), -1, 1))
