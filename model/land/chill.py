"""Winter chill from hourly temperature, by three models.

Every function takes hours along the first axis and keeps all other axes (winters, altitudes), so
that one pass over the hours serves all of them. An hour that is not known makes its sum NaN.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike, NDArray

# Dynamic Model: Fishman, Erez & Couvillon (1987), J. theor. Biol. 124:473 and 126:309; constants
# and the 273 K offset as in Erez et al. (1990), Acta Horticulturae 276:165.
ZERO_CELSIUS = 273.0
FORMATION_ENERGY, FORMATION_RATE = 4153.5, 1.395e5
DESTRUCTION_ENERGY, DESTRUCTION_RATE = 12888.8, 2.567e18
TRANSITION_SLOPE, TRANSITION_TEMPERATURE = 1.6, 277.0

# Upper bounds [degrees C] of the classes and the worth of an hour in each, Richardson, Seeley &
# Walker (1974), HortScience 9:331; the last class is open.
UTAH_BOUNDS = (1.4, 2.4, 9.1, 12.4, 15.9, 18.0)
UTAH_WORTH = np.array([0.0, 0.5, 1.0, 0.5, 0.0, -0.5, -1.0])


def chill_portions(hourly: ArrayLike, *, cumulative: bool = False) -> NDArray[np.float64]:
    """Chill portions of the Dynamic Model.

    An intermediate forms in the cold and is destroyed by warmth; each time it is complete, part
    of it is fixed as chill that later warmth cannot undo. The first hour only sets the start.

    Parameters
    ----------
    hourly : array (hour, ...) [degrees C]
        Consecutive hours of one cold season.
    cumulative : bool
        True gives the sum up to each hour, (hour, ...), instead of the sum at the end, (...).

    Returns
    -------
    array (...) or (hour, ...) [portions]

    References
    ----------
    Fishman, Erez & Couvillon (1987), J. theor. Biol. 124:473-483 and 126:309-321.

    >>> chill_portions([6.0] * 720).round(4).item()  # thirty days at 6 degrees
    24.4326
    """
    temperature = np.asarray(hourly, dtype=float)
    if cumulative:
        return np.cumsum(np.stack(list(_fixed(temperature))), axis=0)
    return sum(_fixed(temperature), start=np.zeros(temperature.shape[1:]))


def utah_units(hourly: ArrayLike) -> NDArray[np.float64]:
    """Chill units of the Utah model, (hour, ...) [degrees C] to (...) [units]; warmth takes away.

    Source: Richardson, Seeley & Walker (1974), HortScience 9:331-332, in degrees C.

    >>> utah_units([6.0, 6.0, 17.0]).item()
    1.5
    """
    temperature = np.asarray(hourly, dtype=float)
    worth = UTAH_WORTH[np.searchsorted(UTAH_BOUNDS, temperature)]
    return np.where(np.isnan(temperature), np.nan, worth).sum(axis=0)


def chill_hours(hourly: ArrayLike) -> NDArray[np.float64]:
    """Hours from 0 to 7.2 degrees, both included, (hour, ...) [degrees C] to (...) [h].

    Source: Weinberger (1950), Proc. Am. Soc. Hort. Sci. 56:122-128 (45 F; with a floor at 0).

    >>> chill_hours([-1.0, 0.0, 7.2, 8.0]).item()
    2.0
    """
    temperature = np.asarray(hourly, dtype=float)
    counted = (temperature >= 0) & (temperature <= 7.2)
    return np.where(np.isnan(temperature), np.nan, counted).sum(axis=0)


def _fixed(temperature: NDArray[np.float64]) -> Iterator[NDArray[np.float64]]:
    """Portions fixed in each hour, one array (...) after another."""
    intermediate = kept = np.zeros(temperature.shape[1:])
    for number, hour in enumerate(temperature):
        kelvin = hour + ZERO_CELSIUS
        balance = (FORMATION_RATE / DESTRUCTION_RATE) * np.exp(
            (DESTRUCTION_ENERGY - FORMATION_ENERGY) / kelvin
        )
        decay = np.exp(-DESTRUCTION_RATE * np.exp(-DESTRUCTION_ENERGY / kelvin))
        if number:
            intermediate = balance - (balance - kept) * decay
        share = _fixed_share(kelvin)
        complete = intermediate >= 1
        fixed = np.where(complete, intermediate * share, 0.0)
        kept = intermediate - fixed
        yield np.where(np.isnan(hour), np.nan, fixed)


def _fixed_share(kelvin: NDArray[np.float64]) -> NDArray[np.float64]:
    """Share of the complete intermediate that becomes fixed at a temperature [K], 0 to 1."""
    exponent = (
        TRANSITION_SLOPE * TRANSITION_TEMPERATURE * (kelvin - TRANSITION_TEMPERATURE) / kelvin
    )
    return 1 / (1 + np.exp(-exponent))
