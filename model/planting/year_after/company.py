"""What a move means to the other trees: room, partners in flower, and the peg that falls free."""

import math
from collections.abc import Sequence
from dataclasses import replace

from model.language import _
from model.planting.partnership import pollen_needs
from model.planting.year_after.keep_or_move import Judged, free_pegs
from model.planting.year_after.standing import StandingTree
from model.planting.year_after.worths import Worths
from model.study import Study
from model.trees import TYPICAL, full_size

FAR = 50.0  # [m] beyond which a partner is not named: bees bring a third of the pollen so far
SERVES = 0.5  # least worth of a partner that is named


def notes_on_moving(
    study: Study, judged: Judged, trees: Sequence[StandingTree], worths: Worths
) -> tuple[str, ...]:
    """Sentences on what a move brings with it; none where the tree stays.

    `trees` are the others as they will stand.
    """
    if judged.advice == "keep" or judged.there is None:
        return ()
    there = judged.there.place
    others = [one for one in trees if one.place not in (there, judged.tree.place)]
    return (
        _room(study, judged.tree.option, there, others),
        _partners(study, judged, others, worths),
        *_left_behind(study, judged, others, worths),
        _vacated(study, judged, others, worths),
    )


def _room(study: Study, option: int, place: int, others: Sequence[StandingTree]) -> str:
    """How far the nearest planted crown will be when both are grown."""
    name = study.ground.places.name(place)
    if not others:
        return _("No other tree of the plan stands near {place}.").format(place=name)
    spread = full_size(study.traits, study.ground.soils.fertility).spread[TYPICAL]
    half = spread[option, place] / 2
    free = {
        one: _apart(study, place, one.place) - half - spread[one.option, one.place] / 2
        for one in others
    }
    near = min(free, key=lambda one: free[one])
    said = _("Room at {place}: full grown, its crown ends {away:.0f} m from that of {tree}.")
    return said.format(place=name, away=max(free[near], 0), tree=_named(study, near))


def _partners(study: Study, judged: Judged, others: Sequence[StandingTree], worths: Worths) -> str:
    """Its nearest partner in flower where it goes and where it stands."""
    option = judged.tree.option
    if judged.there is None or pollen_needs(study.traits)[option] == 0:
        return _("It sets fruit without a partner.")
    near = _nearest(study, option, judged.there.place, others, worths)
    now = _nearest(study, option, judged.tree.place, others, worths)
    if near is None and now is None:
        return _("No partner in flower is known near, neither there nor here.")
    if near is None and now is not None:
        behind = _("Its partner in flower stays behind: {tree}, {away:.0f} m from where it stands.")
        return behind.format(tree=now[0], away=now[1])
    if near is None:
        return ""
    if now and now[0] == near[0]:
        return _(
            "Its nearest partner in flower there: {tree}, {away:.0f} m away ({now:.0f} m from "
            "where it stands)."
        ).format(tree=near[0], away=near[1], now=now[1])
    said = _("Its nearest partner in flower there: {tree}, {away:.0f} m away.")
    return said.format(tree=near[0], away=near[1])


def _left_behind(
    study: Study, judged: Judged, others: Sequence[StandingTree], worths: Worths
) -> tuple[str, ...]:
    """Trees whose nearest partner goes away from them, a sentence each."""
    worth, needs = worths.pollen, pollen_needs(study.traits)
    if judged.there is None:
        return ()
    said = []
    for one in others:
        if needs[one.option] == 0 or worth[one.option, judged.tree.option] < SERVES:
            continue
        was = _apart(study, judged.tree.place, one.place)
        goes = _apart(study, judged.there.place, one.place)
        rest = _nearest(study, one.option, one.place, [o for o in others if o is not one], worths)
        if was > FAR or goes <= was or (rest is not None and rest[1] <= was):
            continue
        left = _("it, {away:.0f} m").format(away=goes)
        if rest and rest[1] < goes:
            left = _("{tree}, {away:.0f} m").format(tree=rest[0], away=rest[1])
        if min(goes, rest[1] if rest else math.inf) > FAR:
            left = _("none that is known near")
        loses = _("{tree} loses its nearest partner, {away:.0f} m off; the nearest is then {left}.")
        said.append(loses.format(tree=_named(study, one), away=was, left=left))
    return tuple(said)


def _vacated(study: Study, judged: Judged, others: Sequence[StandingTree], worths: Worths) -> str:
    """Who would be worth most where it stands now, by what was seen there."""
    place, spot = judged.tree.place, judged.tree.spot
    if judged.there is None:
        return ""
    gone = replace(judged.tree, place=judged.there.place)
    scores = {}
    for option in range(len(study.options)):
        new = StandingTree("", -1, option)
        if place in free_pegs(study, new, [*others, gone]):
            scores[option] = worths.score(option, place)
    known = {option: score for option, score in scores.items() if math.isfinite(score)}
    if not known:
        nobody = _("{place} falls free; nothing on the short list could follow it there.")
        return nobody.format(place=spot)
    best = max(known, key=lambda option: known[option])
    said = _(
        "{place} falls free; by what was seen, {tree} would be worth most there ({score:.0f} of "
        "100). Fill the hole on the day."
    )
    if best == judged.tree.option:
        said = _(
            "{place} falls free; nothing else would be worth more there. Fill the hole on the day."
        )
    return said.format(place=spot, tree=study.options[best].label, score=100 * known[best])


def _nearest(
    study: Study, option: int, place: int, others: Sequence[StandingTree], worths: Worths
) -> tuple[str, float] | None:
    """The nearest tree that serves an option at a place, with its distance [m]; None beyond FAR."""
    places, worth = study.ground.places, worths.pollen
    at = (places.x[place], places.y[place])
    planted = [
        (_named(study, one), _apart(study, place, one.place))
        for one in others
        if worth[option, one.option] >= SERVES
    ]
    standing = [
        (tree.name, math.dist((tree.x, tree.y), at))
        for tree in worths.partners
        if tree.worth[option] >= SERVES
    ]
    found = planted + standing
    near = min(found, key=lambda one: one[1], default=None)
    return near if near is not None and near[1] <= FAR else None


def _named(study: Study, tree: StandingTree) -> str:
    return _("{tree} at {place}").format(tree=study.options[tree.option].label, place=tree.spot)


def _apart(study: Study, one: int, other: int) -> float:
    places = study.ground.places
    return math.dist((places.x[one], places.y[one]), (places.x[other], places.y[other]))
