"""What of an order cannot be met, in sentences that say what else would help."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from model.factors.pollination import OWN
from model.language import _, each, either
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


def _short(made: Layout, one: Relaxation, _seconds: float) -> str:
    wish = made.order.wishes[one.which]
    asked = {"number": one.by, "count": wish.count, "wish": _(wish.label)}
    scores = np.asarray(made.programme.scores)[: len(made.candidates), list(wish.options)]
    if np.isfinite(scores).any():
        return _(
            "Leave out {number:.0f} of {count} of “{wish}”, or offer more places: of those where "
            "it may stand too few are left with room for the grown crown, {walk:g} m to walk round "
            "it and the rest of the order."
        ).format(walk=made.order.walk, **asked)
    if made.order.budget is not None and np.isnan([*map(made.order.price, wish.options)]).all():
        return _(
            "Leave out {number:.0f} of {count} of “{wish}”: it may stand at none of the places "
            "offered, since it has no price that a budget could count."
        ).format(**asked)
    reason = _commonest_reason(made, wish.options)
    said = _(
        "Leave out {number:.0f} of {count} of “{wish}”: it may stand at none of the places offered."
    )
    if reason:
        said = _(
            "Leave out {number:.0f} of {count} of “{wish}”: it may stand at none of the places "
            "offered ({reason})."
        )
    return said.format(reason=reason, **asked)


def _commonest_reason(made: Layout, options: Sequence[int]) -> str:
    """Why these options may stand nowhere, the most frequent reason."""
    study = made.study
    offered = [one.place for one in made.candidates]
    places = np.array(offered) if offered else np.flatnonzero(study.ground.places.inside)
    told = study.ruling.first[np.ix_(np.array(options, dtype=int), places)]
    counts = np.bincount(told[told >= 0], minlength=1)
    return study.ruling.reasons[int(counts.argmax())] if counts.any() else ""


def _lonely(made: Layout, one: Relaxation, seconds: float) -> str:
    study, order = made.study, made.order
    needs, names = np.asarray(made.programme.needs), _servers(made, one.which)
    told = {"tree": study.options[one.which].label, "range": order.bee_range}
    if sum(_each_clone(made, one.which)) < needs[one.which]:
        two = _("two partners") if needs[one.which] > 1 else _("a partner")
        said = _(
            "Give up {tree}, or plant it without the partners it needs, or {helps}: it needs "
            "{partners} of its kind in flower with it, and nothing in this order or near on this "
            "land serves it."
        )
        if names:
            said = _(
                "Give up {tree}, or plant it without the partners it needs, or {helps}: it needs "
                "{partners} of its kind in flower with it, and nothing in this order or near on "
                "this land serves it but {names}."
            )
        known = each(names) if names else ""
        return said.format(helps=_helpers(made, one.which), partners=two, names=known, **told)
    wider = _wide_enough(made, seconds)
    said = _(
        "Give up {tree}, or plant it without the partners it needs: no place that is left for it "
        "lies within {range:g} m of enough of those that serve it ({names})."
    )
    if wider:
        said = _(
            "Give up {tree}, or plant it without the partners it needs, or widen the bee range to "
            "{wider:g} m: no place that is left for it lies within {range:g} m of enough of those "
            "that serve it ({names})."
        )
    return said.format(wider=wider, names=", ".join(names), **told)


def _servers(made: Layout, option: int) -> list[str]:
    """Who of the order and the land serves an option, with who counts half."""
    study, worths = made.study, pollen_worths(made.study)[option]
    found = {study.options[n].cultivar: worths[n] for n in made.order.options}
    found |= {tree.name: tree.worth[option] for tree in made.standing}
    half = _("{name} (half, since it is not known when it flowers)")
    return [
        half.format(name=name) if worth < 1 else name for name, worth in found.items() if worth > 0
    ]


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
        first = list(dict.fromkeys(cultivars))[:3]
        return _("order {cultivars} with it").format(cultivars=either(first))
    fertile = _self_fertile(made, study.options[option])
    if fertile:
        return _("choose a self-fertile kind such as {cultivar}").format(cultivar=fertile)
    return _("order a partner with it")


def _self_fertile(made: Layout, option: Option) -> str:
    catalogue = made.study.catalogue
    for cultivar in catalogue.cultivars_of(option.species):
        value = catalogue.value("cultivars", (option.species, cultivar), "self_fertile")
        if value is not None and OWN.get(str(value.value), 0.0) >= 1:
            return cultivar
    return ""


def _wide_enough(made: Layout, seconds: float) -> float | None:
    """The least of the wider bee ranges at which the whole order can be met."""
    for bee_range in WIDER:
        if bee_range > made.order.bee_range:
            programme = replace(made.programme, bee_range=bee_range)
            if solution(programme, seconds / len(WIDER), gap=1.0).chosen:
                return bee_range
    return None


def _dear(made: Layout, one: Relaxation, _seconds: float) -> str:
    budget = made.order.budget or 0.0
    return _(
        "Raise the budget for trees by {more:.2f} to {budget:.2f}, or order cheaper or fewer trees."
    ).format(more=one.by, budget=budget + one.by)


def _bunched(made: Layout, one: Relaxation, _seconds: float) -> str:
    window = made.windows[one.which]
    if window.least > 0:
        return _(
            "Do without a tree ripe from {dates}: none of the order's kinds that are ripe then can "
            "be fitted in with the rest."
        ).format(dates=window.label)
    return _(
        "Allow {more:.0f} trees ripe from {dates}, not {most:.0f}, or order kinds that ripen at "
        "other times."
    ).format(more=window.most + one.by, dates=window.label, most=window.most)


def _misplaced(made: Layout, one: Relaxation, _seconds: float) -> str:
    place = made.candidates[one.which]
    options = [o for position, o in made.programme.fixed if position == one.which]
    name = made.study.options[options[0]].label
    reason = made.study.ruling.reason(options[0], place.place)
    if options[0] not in made.order.options:
        reason = _("no line of the order asks for it")
    because = reason or _("with it there the rest of the order cannot be met")
    said = _("Lift {tree} at {place}: {reason}.")
    return said.format(tree=name, place=place.name, reason=because)
