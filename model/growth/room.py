"""Room between growing crowns: how much is left, and in which year it runs out."""

from dataclasses import dataclass

import numpy as np

from model.ground.obstacles import described
from model.growth.stand import Stand
from model.study import Study

STEP = 0.25  # [yr] between the years that are tried


@dataclass(frozen=True)
class Meeting:
    """Two crowns that touch, or a crown that reaches something fixed, and the year of it [yr].

    `first` is the number of the tree in the stand, `second` that of the other tree or -1; `label`
    says what is met. `year` is 0 where they touch from the start.
    """

    year: float
    first: int
    second: int
    label: str


@dataclass(frozen=True)
class Fixed:
    """Distance from every tree that is planted to what does not grow, (thing, tree) [m]."""

    labels: tuple[str, ...]
    distance: np.ndarray


def fixed_of(study: Study, stand: Stand) -> Fixed:
    """Buildings, walls, ways, water and the boundary about the trees that are planted."""
    obstacles = study.ground.obstacles
    at = [tree.place for tree in stand.shown]
    trees = {described(f) for f in study.site.of_kind("neighbour_tree")}
    kept = [n for n, label in enumerate(obstacles.labels) if label not in trees]
    labels = tuple(obstacles.labels[n] for n in kept)
    return Fixed(labels, np.asarray(obstacles.distance[kept][:, at], dtype=float))


def gaps(stand: Stand, spread: np.ndarray) -> np.ndarray:
    """Clear room between crowns (new, tree) [m], negative where they overlap, infinite for itself.

    `spread` (tree,) [m].
    """
    new = stand.new
    east = stand.x[:new, None] - stand.x
    north = stand.y[:new, None] - stand.y
    clear = np.hypot(east, north) - (spread[:new, None] + spread) / 2
    clear[np.arange(new), np.arange(new)] = np.inf
    return clear


def room_left(stand: Stand, fixed: Fixed, spread: np.ndarray) -> list[tuple[float, str]]:
    """Room between each planted tree and what is nearest [m], and what that is."""
    between = gaps(stand, spread)
    beside = fixed.distance - spread[: stand.new] / 2
    found = []
    for tree in range(stand.new):
        labels = (*stand.labels, *fixed.labels)
        room = np.concatenate([between[tree], beside[:, tree]])
        nearest = int(room.argmin())
        found.append((float(room[nearest]), labels[nearest]))
    return found


def meetings(stand: Stand, fixed: Fixed, growth: int, last: float) -> tuple[Meeting, ...]:
    """Where room runs out up to a last year, soonest first; a pair is told once."""
    years = np.arange(0, last + STEP, STEP)
    spreads = stand.sizes(years, growth)[1]
    between = np.stack([gaps(stand, spread) for spread in spreads])
    found = []
    for first in range(stand.new):
        for second in range(len(stand.labels)):
            if second >= stand.new or second > first:
                year = first_year(years, between[:, first, second])
                found.append(Meeting(year, first, second, stand.labels[second]))
        for thing, label in enumerate(fixed.labels):
            clear = fixed.distance[thing, first] - spreads[:, first] / 2
            found.append(Meeting(first_year(years, clear), first, -1, label))
    return tuple(sorted((m for m in found if m.year <= last), key=lambda met: met.year))


def first_year(years: np.ndarray, clear: np.ndarray) -> float:
    """Year in which room (year,) [m] is first used up, infinite where it never is.

    >>> first_year(np.array([0.0, 1.0, 2.0]), np.array([1.0, 0.5, -0.5]))
    1.5
    """
    met = np.flatnonzero(clear <= 0)
    if not met.size:
        return float("inf")
    n = int(met[0])
    if n == 0:
        return float(years[0])
    share = clear[n - 1] / (clear[n - 1] - clear[n])
    return float(years[n - 1] + share * (years[n] - years[n - 1]))
