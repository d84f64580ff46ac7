"""What of an order cannot be met, in sentences that say what else would help."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from model.factors.pollination import OWN
from model.planting.layout import Layout
from model.planting.partnership import pollen_worths
from model.planting.solver.programme import Relaxation
from model.planting.solver.solver import solution
from model.trees import Option

WIDER = (25.0, 35.0, 50.0, 80.0)  # [m] bee ranges that are tried, up to that usual by wind


def unmet_sentences(made: Layout, given_up: Sequence[Relaxation], seconds: float) -> list[str]:
    """One sentence for each thing to give up, with what else would help."""
    say = {
        "wish": _short,
        "partners": _lonely,
        "budget": _dear,
        "season": _bunched,
        "fixed": _misplaced,
    }
    share = seconds / max(len(given_up), 1)
    return [say[one.kind](made, one, share) for one in given_up]


def _short(made: Layout, one: Relaxation, _: float) -> str:
    wish = made.order.wishes[one.which]
    lead = f"Leave out {one.by:.0f} of {wish.count} of “{wish.label}”"
    scores = np.asarray(made.programme.scores)[: len(made.candidates), list(wish.options)]
    if np.isfinite(scores).any():
        return (
            f"{lead}, or offer more places: of those where it may stand too few are left with "
            f"room for the grown crown, {made.order.walk:g} m to walk round it and the rest of "
            "the order."
        )
    reasons = _reasons(made, wish.options)
    return f"{lead}: it may stand at none of the places offered{reasons}."


def _reasons(made: Layout, options: Sequence[int]) -> str:
    """Why these options may stand nowhere, the most frequent reason."""
    study = made.study
    if made.order.budget is not None:
        unpriced = [n for n in options if np.isnan(made.order.price(n))]
        if len(unpriced) == len(options):
            return ", since it has no price that a budget could count"
    offered = [one.place for one in made.candidates]
    places = np.array(offered) if offered else np.flatnonzero(study.ground.places.inside)
    told = study.ruling.first[np.ix_(np.array(options, dtype=int), places)]
    counts = np.bincount(told[told >= 0], minlength=1)
    return f" ({study.ruling.reasons[int(counts.argmax())]})" if counts.any() else ""


def _lonely(made: Layout, one: Relaxation, seconds: float) -> str:
    study, order = made.study, made.order
    name = study.options[one.which].label
    needs, names = np.asarray(made.programme.needs), _servers(made, one.which)
    lead = f"Give up {name}, or plant it without the partners it needs"
    helps = _helpers(made, one.which)
    if sum(_each_clone(made, one.which)) < needs[one.which]:
        two = "two partners" if needs[one.which] > 1 else "a partner"
        known = f" but {' and '.join(names)}" if names else ""
        return (
            f"{lead}, or {helps}: it needs {two} of its kind in flower with it, and nothing "
            f"in this order or near on this land serves it{known}."
        )
    wider = _wide_enough(made, seconds)
    range_ = f", or widen the bee range to {wider:g} m" if wider else ""
    return (
        f"{lead}{range_}: no place that is left for it lies within {order.bee_range:g} m of "
        f"enough of those that serve it ({', '.join(names)})."
    )


def _servers(made: Layout, option: int) -> list[str]:
    """Who of the order and the land serves an option, with who counts half."""
    study, worths = made.study, pollen_worths(made.study)[option]
    found = {study.options[n].cultivar: worths[n] for n in made.order.options}
    found |= {tree.name: tree.worth[option] for tree in made.standing}
    half = " (half, since it is not known when it flowers)"
    return [f"{name}{half if worth < 1 else ''}" for name, worth in found.items() if worth > 0]


def _each_clone(made: Layout, option: int) -> list[float]:
    """Worth of each clone of the order and the land to an option."""
    programme = made.programme
    worths, clones = np.asarray(programme.partners)[option], programme.clones
    there = np.concatenate(
        [
            np.isin(np.arange(len(made.study.options)), made.order.options),
            np.ones(len(made.standing), dtype=bool),
        ]
    )
    return [float(worths[there & (clones == clone)].max(initial=0.0)) for clone in set(clones)]


def _helpers(made: Layout, option: int) -> str:
    """What to order instead or besides."""
    study = made.study
    worths = pollen_worths(study)[option]
    cultivars = [
        study.options[n].cultivar
        for n in np.flatnonzero(worths >= 1).tolist()
        if n not in made.order.options
    ]
    if cultivars:
        return f"order {_either(cultivars)} with it"
    fertile = _self_fertile(made, study.options[option])
    return f"choose a self-fertile kind such as {fertile}" if fertile else "order a partner with it"


def _self_fertile(made: Layout, option: Option) -> str:
    catalogue = made.study.catalogue
    for cultivar in catalogue.cultivars_of(option.species):
        value = catalogue.value("cultivars", (option.species, cultivar), "self_fertile")
        if value is not None and OWN.get(str(value.value), 0.0) >= 1:
            return cultivar
    return ""


def _either(names: Sequence[str]) -> str:
    first = list(dict.fromkeys(names))[:3]
    return f"{', '.join(first[:-1])} or {first[-1]}" if len(first) > 1 else first[0]


def _wide_enough(made: Layout, seconds: float) -> float | None:
    """The least of the wider bee ranges at which the whole order can be met."""
    for bee_range in WIDER:
        if bee_range > made.order.bee_range:
            programme = replace(made.programme, bee_range=bee_range)
            if solution(programme, seconds / len(WIDER), gap=1.0).chosen:
                return bee_range
    return None


def _dear(made: Layout, one: Relaxation, _: float) -> str:
    budget = made.order.budget or 0.0
    return (
        f"Raise the budget for trees by {one.by:.2f} to {budget + one.by:.2f}, or order cheaper or "
        "fewer trees."
    )


def _bunched(made: Layout, one: Relaxation, _: float) -> str:
    window = made.windows[one.which]
    if window.least > 0:
        return (
            f"Do without a tree ripe from {window.label}: none of the order's kinds that are ripe "
            "then can be fitted in with the rest."
        )
    return (
        f"Allow {window.most + one.by:.0f} trees ripe from {window.label}, not {window.most:.0f}, "
        "or order kinds that ripen at other times."
    )


def _misplaced(made: Layout, one: Relaxation, _: float) -> str:
    place = made.candidates[one.which]
    options = [o for position, o in made.programme.fixed if position == one.which]
    name = made.study.options[options[0]].label
    reason = made.study.ruling.reason(options[0], place.place)
    if options[0] not in made.order.options:
        reason = "no line of the order asks for it"
    because = reason or "with it there the rest of the order cannot be met"
    return f"Lift {name} at {place.name}: {because}."
