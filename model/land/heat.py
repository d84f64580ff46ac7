"""Growing degree hours: the warmth that drives bloom and ripening."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def growing_degree_hours(
    hourly: ArrayLike, base: float = 4.0, optimum: float = 25.0, critical: float = 36.0
) -> NDArray[np.float64]:
    """Sum of the degree hours over the first axis, (hour, ...) [degrees C] to (...) [K h].

    Parameters and source as in `degree_hours`; an unknown hour makes the sum NaN.
    """
    return degree_hours(hourly, base, optimum, critical).sum(axis=0)


def degree_hours(
    hourly: ArrayLike, base: float = 4.0, optimum: float = 25.0, critical: float = 36.0
) -> NDArray[np.float64]:
    """Worth of each hour for growth, same shape as `hourly` [K h].

    It rises along half a cosine from the base to the optimum and falls along a quarter of one to
    nothing at the critical temperature.

    Parameters
    ----------
    hourly : array [degrees C]
        Temperature of each hour.
    base, optimum, critical : float [degrees C]
        Where growth starts, is fastest, and stops.

    References
    ----------
    Anderson, Richardson & Kesner (1986), Validation of chill unit and flower bud phenology models
    for 'Montmorency' sour cherry, Acta Horticulturae 184:71-78.

    Examples
    --------
    >>> degree_hours([3.0, 14.5, 25.0, 40.0]).round(2).tolist()
    [0.0, 10.5, 21.0, 0.0]

    """
    temperature = np.asarray(hourly, dtype=float)
    amplitude = optimum - base
    rising = amplitude / 2 * (1 - np.cos(np.pi * (temperature - base) / amplitude))
    fall = np.pi / 2 * (1 + (temperature - optimum) / (critical - optimum))
    falling = amplitude * (1 + np.cos(fall))
    worth = np.where(temperature <= optimum, rising, falling)
    outside = (temperature < base) | (temperature > critical)
    return np.where(outside, 0.0, worth)
