"""Invented orders of any size, with every kind of rule, from a seed."""

import numpy as np

from model.planting.solver.programme import Programme


def programme(
    seed: int,
    *,
    positions: int = 5,
    options: int = 4,
    counts: tuple[int, ...] = (2, 1),
    width: float = 14.0,
    depth: float = 10.0,
    budget_share: float = 1.05,
    bee_range: float = 9.0,
) -> Programme:
    """A random order: overlapping wishes, a clone on two stocks, a triploid, half-worth pollen."""
    r = np.random.default_rng(seed)
    x, y = r.uniform(0, width, positions), r.uniform(0, depth, positions)
    scores = r.uniform(0.3, 0.9, (positions, options)) + _lie(r, x, y, options)
    scores[r.random(scores.shape) < 0.08] = np.nan
    cultivar = np.arange(options)
    cultivar[-1] = 0
    kinds = np.arange(options) % len(counts)
    wishes = kinds == np.arange(len(counts))[:, None]
    wishes[0, 1] = True
    worths = np.where(r.random((options, options)) < 0.6, 1.0, r.choice([0.0, 0.5]))
    trees = sum(counts)
    window = r.integers(0, 2, options) == np.arange(2)[:, None]
    prices = r.uniform(20, 60, options).round(2)
    return Programme(
        scores=scores,
        x=x,
        y=y,
        radius=np.linspace(1.0, 3.0, options) * r.uniform(0.8, 1.2, (positions, 1)),
        wishes=wishes,
        counts=np.array(counts),
        gap=0.3,
        prices=prices,
        budget=float(prices.mean() * trees * budget_share),
        cultivar=cultivar,
        needs=np.where(np.arange(options) % 3 == 2, 2.0, r.choice([0.0, 1.0], options)),
        partners=worths[:, cultivar],
        served=np.where(x[:, None] < width / 3, 1.0, 0.0) * np.ones(options),
        bee_range=bee_range,
        seasons=window,
        season_counts=np.array([[0, trees - 1], [1, trees]]),
        at_most=np.full(options, max(2, trees // 3)),
    )


def _lie(r: np.random.Generator, x: np.ndarray, y: np.ndarray, options: int) -> np.ndarray:
    """Smooth differences from place to place of up to 0.1 (position, option)."""
    phase, length = r.uniform(0, 6, options), r.uniform(8, 20, options)
    return 0.05 * (1 + np.sin((x[:, None] + y[:, None]) / length + phase))
