"""A year's direct sun against an hourly loop with pvlib's sun and rays cast from every place."""

import sys

import numpy as np

from model.land.covers import Crown, Screen
from model.land.kept_shade import kept_shade
from model.land.shade import Standing, direct_hours
from model.land.sun_patches import sun_path
from tests import ray_casting

from .comparison import Comparison, times

LATITUDE = 52.0
WIDE = 150.0  # [m]
EVERY = 150  # one hour in so many is cast for the time: the whole loop takes minutes
SAMPLE = 200  # places at which the answers are compared
MOST_APART = 0.02  # of the hours of an open place


def scene(places: int, crowns: int, buildings: int) -> tuple[np.ndarray, Standing]:
    """An invented site: places in a square grid 2 m above level ground, crowns and buildings."""
    rng = np.random.default_rng(3)
    side = int(np.sqrt(places))
    x, y = np.meshgrid(*[(np.arange(side) + 0.5) * WIDE / side] * 2)
    eyes = np.column_stack([x.ravel(), y.ravel(), np.full(side**2, 2.0)])
    leaves = np.array([0.65] * 3 + [0.5] + [0.2] * 6 + [0.65] * 2)
    trees = [
        Crown(*rng.uniform(0, WIDE, 2), rng.uniform(1.5, 5), 2, rng.uniform(4, 15), leaves)
        for _ in range(crowns)
    ]
    square = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)])
    houses = [
        Screen(square * rng.uniform(2, 6, 2) + rng.uniform(0, WIDE, 2), rng.uniform(2.5, 7))
        for _ in range(buildings)
    ]
    return eyes, Standing(houses, trees)


def outdoors(eyes: np.ndarray, standing: Standing) -> np.ndarray:
    """Indices of the places that no building stands on."""
    free = np.ones(len(eyes), bool)
    for house in standing.screens:
        low, high = np.min(house.corners, axis=0), np.max(house.corners, axis=0)
        free &= ((eyes[:, :2] < low) | (eyes[:, :2] > high)).any(axis=1)
    return np.flatnonzero(free)


def apart(eyes: np.ndarray, standing: Standing) -> float:
    """Greatest difference of a year's hours at a sample of places, as a share of open hours.

    The rays are cast every ten minutes: an hourly loop itself misses by up to 3 %.
    """
    free = outdoors(eyes, standing)
    some = eyes[np.random.default_rng(5).choice(free, SAMPLE, replace=False)]
    suns = ray_casting.hourly_suns(LATITUDE, freq="10min", every=5)
    theirs = ray_casting.hours(some, standing, suns, 5 / 6).sum(axis=0)
    ours = direct_hours(some, standing, LATITUDE).sum(axis=0)
    return float(np.abs(ours - theirs).max() / theirs.max())


def comparisons() -> list[Comparison]:
    """A year's sun for a large site and for one of a hectare, both cold, and a crown moved."""
    large, small = scene(10_000, 60, 12), scene(7_000, 20, 6)
    difference = apart(*large)
    if difference > MOST_APART:
        sys.exit(f"direct sun differs by {difference:.1%} of the hours from the rays cast")
    suns = [part[::EVERY] for part in ray_casting.hourly_suns(LATITUDE)]
    kept, crown = kept_shade(*small, LATITUDE), small[1].crowns[0]
    taken = times(
        {
            "suns": lambda: ray_casting.hourly_suns(LATITUDE),
            "rays": lambda: ray_casting.hours(*large, suns),
            "large": lambda: _cold(*large),
            "small": lambda: _cold(*small),
            "change": lambda: kept.change(crown, crown),
        },
        rounds=5,
    )
    loop = taken["suns"] + EVERY * taken["rays"]
    against = f"a 50th of an hourly loop of rays, {difference:.1%} apart at worst"
    return [
        Comparison("year's sun: 10,000 places, 60 crowns", against, taken["large"], loop / 50, 1.0),
        Comparison("year's sun: 7,000 places, 20 crowns", "the same", taken["small"], loop / 50),
        Comparison(
            "one of the 20 crowns moved", "that year's sun", taken["change"], taken["small"]
        ),
    ]


def _cold(eyes: np.ndarray, standing: Standing) -> None:
    """The year's sun as if no latitude had been asked for before."""
    sun_path.cache_clear()
    direct_hours(eyes, standing, LATITUDE)
