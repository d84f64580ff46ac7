"""From measures in many draws to scores: the curves, the weights and the trade-off as chosen."""

from dataclasses import dataclass

import numpy as np
from scipy import stats

from model.decision import power_mean
from model.decision.desirability import Curve, desirability
from model.study import Study


@dataclass(frozen=True)
class Judgement:
    """What the study's user chose: a curve a factor, weights (factor,) and the trade-off."""

    curves: tuple[Curve, ...]
    weights: np.ndarray
    trade_off: float

    def space(self, measures: np.ndarray, ruled: np.ndarray) -> np.ndarray:
        """Box-Cox space (draw, factor, option) of measures, NaN where ruled out (draw, option)."""
        worth = np.stack(
            [desirability(measures[:, n], curve) for n, curve in enumerate(self.curves)], axis=1
        )
        space = power_mean.box_cox(worth, self.trade_off)
        return np.where(ruled[:, None], np.nan, space)

    def scores(self, space: np.ndarray, weights: np.ndarray | None = None) -> np.ndarray:
        """Scores as people read them (draw, option) [0 to 1], NaN where ruled out.

        `weights` (draw, factor) are the study's own unless said; either may have a single draw. A
        factor that never weighs anything is passed over, so that nothing unknown of it harms.
        """
        own = self.weights[None] if weights is None else weights
        weighed = np.flatnonzero(own.max(axis=0) > 0)
        linear = np.einsum("df,dfo->do", *self._as_many(own[:, weighed], space[:, weighed]))
        return power_mean.inverse_box_cox(linear, self.trade_off)

    @staticmethod
    def _as_many(one: np.ndarray, other: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        draws = max(len(one), len(other))
        return (
            np.broadcast_to(one, (draws, *one.shape[1:])),
            np.broadcast_to(other, (draws, *other.shape[1:])),
        )


def judgement(study: Study) -> Judgement:
    """The choices of a study, as they stand now."""
    curves = tuple(study.settings[factor.name].curve for factor in study.factors)
    return Judgement(curves, np.array(study.weights, dtype=float), float(study.trade_off))


def standard_scores(count: int, doubts: int, seed: int) -> np.ndarray:
    """Standard scores (draw, doubt), the same for the same seed.

    A Latin hypercube: of n draws each figure has one in every nth part of its range, so that
    shares are surer than by plain chance. Source: McKay, Beckman & Conover (1979), Technometrics
    21(2):239.
    """
    if not doubts:
        return np.zeros((count, 0))
    cube = stats.qmc.LatinHypercube(doubts, rng=np.random.default_rng(seed))
    return np.asarray(stats.norm.ppf(cube.random(count)))


def lead(scores: np.ndarray, leader: int) -> np.ndarray:
    """How far an option is ahead of the best other one (draw,) [score]; ruled out counts as 0."""
    known = np.nan_to_num(scores)
    others = np.delete(known, leader, axis=1)
    return known[:, leader] - (others.max(axis=1) if others.shape[1] else 0.0)
