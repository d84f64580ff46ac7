"""Which figure, and which factor, the outcome at a place hangs on."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pandas as pd
from scipy import stats

from model.robustness.doubt import Doubt
from model.robustness.outcome import Judgement, lead
from model.robustness.response import Response

SOBOL_DRAWS = 512  # a power of two, as the sequence wants
COLUMNS = ["doubt", "value", "plus_minus", "unit", "given", "lead_alone", "lead_together"]
COLUMNS += ["choice_alone", "choice_together"]


def hanging(
    response: Response,
    judgement: Judgement,
    doubts: tuple[Doubt, ...],
    place: int,
    leader: int,
    seed: int,
) -> pd.DataFrame:
    """First-order and total Sobol indices of the lead and of the choice, most telling first.

    `lead_alone` is the share of the variance of the leader's lead that one figure explains by
    itself, `lead_together` with all it shares with others; `choice_*` the same of whether the
    leader is still the best. Source: Sobol' (1993), Saltelli et al. (2010), as SciPy has them.
    """
    moving = response.moving(place)

    def outcome(z: np.ndarray) -> np.ndarray:
        scores = np.zeros((z.shape[1], len(doubts)))
        scores[:, moving] = z.T
        measures, ruled = response.at(place, scores)
        ahead = lead(judgement.scores(judgement.space(measures, ruled)), leader)
        return np.stack([ahead, (ahead > 0).astype(float)])

    first, total = _indices(outcome, moving.size, seed)
    rows = [
        (
            *(d.label, d.value, 2 * d.sd, d.unit, d.given),
            *(first[0, n], total[0, n], first[1, n], total[1, n]),
        )
        for n, d in enumerate(doubts[number] for number in moving)
    ]
    table = pd.DataFrame(rows, columns=COLUMNS)
    return table.sort_values("lead_together", ascending=False, kind="stable", ignore_index=True)


def _indices(
    outcome: Callable[[np.ndarray], np.ndarray], size: int, seed: int
) -> tuple[np.ndarray, np.ndarray]:
    """First-order and total indices (outcome, figure); 0 of what never varies."""
    if not size:
        return np.zeros((2, 0)), np.zeros((2, 0))
    normal: Any = [stats.norm()] * size
    with np.errstate(all="ignore"):  # an outcome that never varies is told by its zeros
        found = stats.sobol_indices(
            func=outcome, n=SOBOL_DRAWS, dists=normal, rng=np.random.default_rng(seed)
        )
    first, total = (
        np.clip(np.nan_to_num(np.reshape(part, (2, size)), posinf=0, neginf=0), 0, 1)
        for part in (found.first_order, found.total_order)
    )
    return first, total


def factor_shares(space: np.ndarray, weights: np.ndarray, leader: int, second: int) -> np.ndarray:
    """Share of each factor (factor,) in how the leader's margin over the second varies.

    `space` (draw, factor, option). Weighted differences add up to the margin in Box-Cox space, so
    their covariances with it sum to its variance: shares sum to 1 (one may be below 0).
    """
    parts = np.where(weights > 0, weights, 0) * (space[..., leader] - space[..., second])
    parts = parts[np.isfinite(parts).all(axis=1)]
    if len(parts) < 2:
        return np.zeros(weights.size)
    apart = parts - parts.mean(axis=0)
    with_margin = (apart * apart.sum(axis=1, keepdims=True)).mean(axis=0)
    return with_margin / with_margin.sum() if with_margin.sum() > 0 else np.zeros(weights.size)
