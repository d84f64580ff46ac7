"""What the study's stages compute, and how one follows from another."""

from collections.abc import Callable
from typing import Any

import numpy as np
import param

from model.decision import merit, power_mean
from model.decision.desirability import desirability
from model.results import Here
from model.ruling import Ruling


def follow(stage: Callable[..., Any], *sources: Any, **figures: Any) -> Any:
    """A stage computed when read, and again only after one of its sources has changed."""
    return param.bind(stage, *sources, **figures).rx()  # type: ignore[attr-defined]


def worth_of(measure: np.ndarray, curve: Any) -> np.ndarray:
    """Desirability of a measure in single precision (option or 1, place)."""
    return desirability(measure, curve).astype(np.float32)


def spread_out(shape: tuple[int, int], *worths: np.ndarray) -> np.ndarray:
    """Desirabilities of all factors as one array (factor, option, place)."""
    return np.stack([np.broadcast_to(worth, shape) for worth in worths])


def cube_of(trade_off: float, ruled: Ruling, *worths: np.ndarray) -> np.ndarray:
    """Box-Cox space of all factors (factor, option, place), NaN where ruled out."""
    return merit.cube(worths, trade_off, ruled.bars)


def cube_at(here: Here, trade_off: float) -> np.ndarray:
    """Box-Cox space of the options allowed at a place, best first (factor, option)."""
    return power_mean.box_cox(here.desirabilities[:, here.allowed], trade_off)
