"""Bringing water: how often, how long it takes to carry, and what runs through a hose."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

CAN = 20.0  # [l] two cans of ten litres, what a person carries on one way: common practice
FILLING, POURING = 60.0, 30.0  # [s] on each way, common practice, no source
SMOOTH_HOSE = 140.0  # [1] roughness coefficient of Hazen and Williams for plastic


def portions(watered: ArrayLike, portion: float) -> NDArray[np.int_]:
    """Days on which another portion is due, (..., day) to (..., day): how many fall on each day.

    `watered` [mm or l a day] is the least need of each day, brought together into portions [same
    unit]: one is due on the day on which the need first passes the last. The sum over a summer
    is the number of waterings.

    >>> portions([0, 4, 4, 4, 0, 9], portion=10).tolist()
    [0, 1, 0, 1, 0, 1]
    """
    need = np.cumsum(np.asarray(watered, dtype=float), axis=-1)
    begun = np.ceil(need / portion - 1e-9).astype(int)
    return np.diff(begun, axis=-1, prepend=0)


def busiest(watered: ArrayLike, days: int = 7) -> NDArray[np.float64]:
    """Most that any run of days calls for, (..., day) to (...), unit of `watered` times day.

    What a tank must hold to last that long without rain or refilling.

    >>> busiest([0, 1, 5, 5, 0], days=2).item()
    10.0
    """
    need = np.cumsum(np.asarray(watered, dtype=float), axis=-1)
    start = np.zeros((*need.shape[:-1], 1))
    since = np.concatenate([start, need], axis=-1)
    span = min(days, need.shape[-1])
    return (since[..., span:] - since[..., :-span]).max(axis=-1)


def carrying_time(litres: ArrayLike, out: ArrayLike, back: ArrayLike) -> NDArray[np.float64]:
    """Time to carry water to a tree by hand, broadcast shape [s].

    `litres` in all, and the seconds that the way from tap or tank to the tree takes `out`, laden,
    and `back`. Every way brings 20 litres; the last may bring less.

    >>> carrying_time(50, out=60, back=40).item()
    570.0
    """
    ways = np.ceil(np.asarray(litres, dtype=float) / CAN - 1e-9)
    way = np.asarray(out, dtype=float) + np.asarray(back, dtype=float) + FILLING + POURING
    return np.where(ways > 0, ways * way, 0.0)


def hose_flow(head: ArrayLike, length: ArrayLike, bore: ArrayLike) -> NDArray[np.float64]:
    """Water that runs through a hose, broadcast shape [l/min]; none uphill of its source.

    Losses at joints and taps are left out, so that it is the most to hope for.

    Parameters
    ----------
    head : array [m]
        Height of the water's surface above the hose's end; for a mains tap its pressure too, at
        10.2 m for each bar.
    length : array [m]
        Of the hose.
    bore : array [m]
        Inner width.

    References
    ----------
    Williams & Hazen (1905), Hydraulic tables; in metres as 10.67 L (Q / C)^1.852 / d^4.87.

    """
    falling = np.maximum(np.asarray(head, dtype=float), 0)
    way = np.maximum(np.asarray(length, dtype=float), 1.0)
    width = np.asarray(bore, dtype=float) ** (4.8704 / 1.852)
    return 60_000 * SMOOTH_HOSE * width * (falling / (10.67 * way)) ** (1 / 1.852)
