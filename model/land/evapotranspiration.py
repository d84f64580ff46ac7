"""Reference evapotranspiration: the water that a well-watered short grass would use in a day.

Equations are numbered as in Allen, Pereira, Raes & Smith (1998), Crop evapotranspiration, FAO
Irrigation and Drainage Paper 56.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from model.land import radiation_balance

USUAL_WIND = 2.0  # [m/s at 2 m] where none was measured; FAO-56, chapter 3, missing wind speed
LATENT_HEAT = 0.408  # [kg/MJ] water evaporated by a unit of heat, equation 20


@dataclass(frozen=True)
class Air:
    """What was measured of the air each day, beside its temperature; None or NaN where it was not.

    All arrays broadcast with those of temperature, whose last axis is the day.

    Attributes
    ----------
    humidity : array [%]
        Mean relative humidity.
    wind : array [m/s]
        Mean speed, at `wind_height`.
    radiation : array [MJ/m2/day]
        Sun and sky on level ground.
    wind_height : float [m]
        Of the instrument above the ground.

    """

    humidity: ArrayLike | None = None
    wind: ArrayLike | None = None
    radiation: ArrayLike | None = None
    wind_height: float = 10.0

    @property
    def known(self) -> bool:
        """Whether anything but the temperature was measured."""
        return any(part is not None for part in (self.humidity, self.wind, self.radiation))


def reference_evapotranspiration(
    tmin: ArrayLike,
    tmax: ArrayLike,
    latitude: float,
    day_of_year: ArrayLike,
    altitude: float,
    air: Air | None = None,
) -> NDArray[np.float64]:
    """Reference evapotranspiration by the best method that the record allows.

    Penman-Monteith when any of humidity, wind or radiation was measured; what is missing then, on
    single days too, is estimated as the paper says (dew point at the lowest temperature, radiation
    from the range of temperature, 2 m/s of wind). With temperature alone, Hargreaves.

    Parameters
    ----------
    tmin, tmax : arrays (..., day) [degrees C]
        Lowest and highest temperature of each day.
    latitude : float [degrees]
        North positive.
    day_of_year : array (day,)
        1 to 366.
    altitude : float [m]
        Of the station above the sea.
    air : Air
        What else was measured.

    Returns
    -------
    array (..., day) [mm/day]

    References
    ----------
    FAO-56, equations 6, 47, 48, 50 and 52, and chapter 3 on missing data.

    """
    if air is None or not air.known:
        return hargreaves(tmin, tmax, latitude, day_of_year)
    from_dew = saturation_pressure(tmin)
    saturated = (from_dew + saturation_pressure(tmax)) / 2
    humidity = None if air.humidity is None else saturated * np.divide(air.humidity, 100)
    vapour = _or(humidity, from_dew)
    by_range = radiation_balance.from_temperature_range(tmin, tmax, latitude, day_of_year)
    radiation = _or(air.radiation, by_range)
    wind = None if air.wind is None else wind_at_two_metres(air.wind, air.wind_height)
    clear = radiation_balance.clear_sky(latitude, day_of_year, altitude)
    longwave = radiation_balance.net_longwave(tmin, tmax, vapour, radiation, clear)
    energy = radiation_balance.net(radiation, longwave)
    return penman_monteith(tmin, tmax, vapour, energy, _or(wind, USUAL_WIND), altitude)


def penman_monteith(
    tmin: ArrayLike,
    tmax: ArrayLike,
    vapour_pressure: ArrayLike,
    energy: ArrayLike,
    wind: ArrayLike,
    altitude: ArrayLike,
) -> NDArray[np.float64]:
    """Reference evapotranspiration of Penman and Monteith, broadcast shape [mm/day].

    Parameters
    ----------
    tmin, tmax : array [degrees C]
        Lowest and highest temperature of the day.
    vapour_pressure : array [kPa]
        Actual, of the air.
    energy : array [MJ/m2/day]
        Net radiation less the heat that goes into the ground (nearly nothing over a day).
    wind : array [m/s]
        At 2 m above the ground.
    altitude : array [m]
        Above the sea.

    References
    ----------
    FAO-56, equation 6. It cannot fall below 0: dew is left out.

    """
    low, high = np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float)
    mean = (low + high) / 2
    saturated = (saturation_pressure(low) + saturation_pressure(high)) / 2
    steepness = saturation_slope(mean)
    gamma = psychrometric_constant(altitude)
    speed = np.asarray(wind, dtype=float)
    dryness = np.maximum(saturated - np.asarray(vapour_pressure, dtype=float), 0)
    by_heat = LATENT_HEAT * steepness * np.asarray(energy, dtype=float)
    by_air = gamma * 900 / (mean + 273) * speed * dryness
    return np.maximum((by_heat + by_air) / (steepness + gamma * (1 + 0.34 * speed)), 0)


def hargreaves(
    tmin: ArrayLike, tmax: ArrayLike, latitude: ArrayLike, day_of_year: ArrayLike
) -> NDArray[np.float64]:
    """Reference evapotranspiration from temperature alone, broadcast shape [mm/day].

    Good over ten days or more, rough for one. Source: FAO-56, equation 52 (Hargreaves & Samani
    1985); no less than 0 in hard frost.
    """
    low, high = np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float)
    swing = np.sqrt(np.maximum(high - low, 0))
    equivalent = LATENT_HEAT * radiation_balance.extraterrestrial(latitude, day_of_year)
    return np.maximum(0.0023 * ((low + high) / 2 + 17.8) * swing * equivalent, 0)


def saturation_pressure(temperature: ArrayLike) -> NDArray[np.float64]:
    """Pressure of saturated vapour at a temperature [degrees C], same shape [kPa].

    Source: FAO-56, equation 11.

    >>> saturation_pressure([15, 24.5]).round(3).tolist()
    [1.705, 3.075]
    """
    degrees = np.asarray(temperature, dtype=float)
    return 0.6108 * np.exp(17.27 * degrees / (degrees + 237.3))


def saturation_slope(temperature: ArrayLike) -> NDArray[np.float64]:
    """Rise of the saturated vapour's pressure with temperature [degrees C], same shape [kPa/K].

    Source: FAO-56, equation 13.
    """
    degrees = np.asarray(temperature, dtype=float)
    return 4098 * saturation_pressure(degrees) / (degrees + 237.3) ** 2


def air_pressure(altitude: ArrayLike) -> NDArray[np.float64]:
    """Usual pressure of the air at an altitude [m], same shape [kPa]. Source: FAO-56, equation 7.

    >>> air_pressure(1800).round(1).item()
    81.8
    """
    return 101.3 * ((293 - 0.0065 * np.asarray(altitude, dtype=float)) / 293) ** 5.26


def psychrometric_constant(altitude: ArrayLike) -> NDArray[np.float64]:
    """Psychrometric constant at an altitude [m], same shape [kPa/K]. Source: FAO-56, equation 8.

    >>> psychrometric_constant(1800).round(3).item()
    0.054
    """
    return 0.665e-3 * air_pressure(altitude)


def wind_at_two_metres(wind: ArrayLike, height: float) -> NDArray[np.float64]:
    """Wind speed 2 m above grass from that at another height [m], same shape [m/s].

    Source: FAO-56, equation 47.

    >>> wind_at_two_metres(3.2, 10).round(1).item()
    2.4
    """
    return np.asarray(wind, dtype=float) * 4.87 / np.log(67.8 * height - 5.42)


def _or(measured: ArrayLike | None, estimate: ArrayLike) -> NDArray[np.float64]:
    """What was measured, and the estimate where nothing was."""
    if measured is None:
        return np.asarray(estimate, dtype=float)
    given = np.asarray(measured, dtype=float)
    return np.where(np.isnan(given), estimate, given)
