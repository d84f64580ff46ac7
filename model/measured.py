"""Measures that studies over one ground share: a short list that many look at is measured once."""

from collections import OrderedDict
from collections.abc import Hashable, Mapping
from threading import Lock
from typing import Any
from weakref import WeakKeyDictionary

import numpy as np

from model.factors import Factor
from model.ground import Ground
from model.trees import Option, Traits

MOST = 200  # measures of a ground in memory: some ten short lists
_KEPT: WeakKeyDictionary[Ground, OrderedDict[Hashable, np.ndarray]] = WeakKeyDictionary()
_LOCK = Lock()


def measured(
    ground: Ground,
    factor: Factor,
    options: tuple[Option, ...],
    known: Traits,
    figures: Mapping[str, Any],
) -> np.ndarray:
    """Measure of a factor (option or 1, place) in its unit, NaN outside the site; only to be read.

    `known` are the traits of the options in the ground's own catalogue.
    """
    key = (factor.name, factor.measure, options, tuple(sorted(figures.items())))
    with _LOCK:
        kept = _KEPT.setdefault(ground, OrderedDict())
        found = kept.get(key)
    if found is None:
        measure = factor.measure(ground, known, **figures)
        found = np.where(ground.places.inside, measure, np.nan)
        found.flags.writeable = False
    with _LOCK:
        kept[key] = found
        kept.move_to_end(key)
        while len(kept) > MOST:
            kept.popitem(last=False)
    return found
