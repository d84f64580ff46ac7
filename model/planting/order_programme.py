"""An order at some places as a programme, with the trees that stand there already set in it."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from model.factors.spacing import SIZES
from model.planting.candidates import placing_scores
from model.planting.order import Order, wish_matrix
from model.planting.partnership import Tree, clone_of, pollen_needs, pollen_worths
from model.planting.picking import Window
from model.planting.solver.programme import Array, Programme
from model.study import Study
from model.trees import full_size


def ordered(study: Study, order: Order, at: Array) -> Programme:
    """The order at its candidates, as if nothing stood there."""
    scores = placing_scores(study, at).T
    prices = np.array([order.price(option) for option in range(len(study.options))])
    if order.budget is not None:
        scores[:, np.isnan(prices)] = np.nan
    return Programme(
        scores=scores,
        x=study.ground.places.x[at],
        y=study.ground.places.y[at],
        radius=crown_radius(study, at).T,
        wishes=wish_matrix(order.wishes, len(study.options)),
        counts=np.array([wish.count for wish in order.wishes], dtype=int),
        gap=order.walk,
        prices=np.nan_to_num(prices),
        budget=order.budget,
        needs=pollen_needs(study.traits),
        partners=pollen_worths(study),
        bee_range=order.bee_range,
    )


def with_standing(
    alone: Programme, study: Study, trees: Sequence[Tree], ripe: Sequence[Window]
) -> Programme:
    """The programme with the trees that stand there already as trees that are set.

    They score nothing, need nothing, cost nothing, and crowd nobody: the spacing factor has ruled
    out every place that is too near to them.
    """
    places, options, more = len(alone.x), len(study.options), len(trees)
    scores = np.full((places + more, options + more), np.nan)
    scores[:places, :options] = alone.scores
    radius = np.full(scores.shape, -np.inf)
    radius[:places, :options] = alone.radius
    stands = tuple((places + number, options + number) for number in range(more))
    for stand in stands:
        scores[stand] = 0.0
    partners = np.zeros((options + more, options + more))
    partners[:options, :options] = alone.partners
    partners[:options, options:] = np.array([tree.worth for tree in trees]).reshape(more, options).T
    clones = [clone_of(one.species, one.cultivar) for one in study.options]
    clones += [tree.clone for tree in trees]
    seasons = np.array([window.options for window in ripe], dtype=bool)
    limits = np.array([(window.least, window.most) for window in ripe], dtype=float)
    return replace(
        alone,
        scores=scores,
        radius=radius,
        x=np.concatenate([alone.x, [tree.x for tree in trees]]),
        y=np.concatenate([alone.y, [tree.y for tree in trees]]),
        wishes=_block(np.asarray(alone.wishes), np.eye(more, dtype=bool)),
        counts=np.concatenate([alone.counts, np.ones(more, dtype=int)]),
        prices=np.concatenate([np.asarray(alone.prices), np.zeros(more)]),
        cultivar=np.unique(clones, return_inverse=True)[1],
        needs=np.concatenate([np.asarray(alone.needs), np.zeros(more)]),
        partners=partners,
        seasons=_widened(seasons, more) if ripe else None,
        season_counts=limits if ripe else None,
        fixed=stands,
    )


def crown_radius(study: Study, places: Array) -> Array:
    """Radius of every full-grown crown at some places (option, place) [m].

    Taken at the end of the size range that the spacing factor is set to.
    """
    size = SIZES[study.settings["spacing"].figures()["size"]]
    spread = full_size(study.traits, study.ground.soils.fertility[places]).spread[size]
    return np.broadcast_to(spread, (len(study.options), len(places))) / 2


def _block(first: Array, second: Array) -> Array:
    """Two matrices as blocks of one."""
    right = np.zeros((len(first), second.shape[1]), dtype=first.dtype)
    left = np.zeros((len(second), first.shape[1]), dtype=first.dtype)
    return np.block([[first, right], [left, second]])


def _widened(matrix: Array, more: int) -> Array:
    return np.hstack([matrix, np.zeros((len(matrix), more), dtype=matrix.dtype)])
