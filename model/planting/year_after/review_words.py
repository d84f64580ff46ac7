"""The review in sentences that a grower accepts."""

import math

from model.language import _, each, marked, ngettext
from model.planting.year_after.evidence import Evidence
from model.planting.year_after.expected import MONTH
from model.planting.year_after.keep_or_move import OLD, Judged
from model.planting.year_after.transplanting import figure
from model.planting.year_after.watched import WATCHED
from model.study import Study

CAUTION = marked(
    "Before a hole is dug: have buried services located and keep clear of overhead wires. "
    "Scores are what these weights make of the place, no forecast of crops."
)
OF_TEN = 10
SURE = 0.8  # share of draws below which what is ahead is called a tie (common practice, no source)


def expected_words(judged: Judged) -> str:
    """What was expected, thing by thing."""
    return "; ".join(
        f"{_label(one)} {evidence_figure(one, one.prior.mean)}" for one in judged.evidence
    )


def seen_words(judged: Judged) -> str:
    """What was seen, thing by thing."""
    return "; ".join(
        f"{_label(one)} {evidence_figure(one, one.seen)}{_where(one)}" for one in judged.evidence
    )


def meaning_words(judged: Judged) -> str:
    """What it means, thing by thing; empty where nothing was seen."""
    said = _("{thing}: {meaning}")
    return "; ".join(said.format(thing=_label(one), meaning=one.words) for one in judged.evidence)


def reason(study: Study, judged: Judged) -> str:
    """Why the tree is kept, moved or watched, in one sentence."""
    why = _seen(judged, _why(study, judged))
    return "; ".join([why, *_doubt(judged), *_poor_growth(judged)]) + "."


def _why(study: Study, judged: Judged) -> str:
    """The reason itself, as it follows on what was seen."""
    if judged.there is None:
        return _("no free peg would take it")
    there = study.ground.places.name(judged.there.place)
    if judged.compared is None:
        return _("it may not stand here at all, and {there} would take it").format(there=there)
    told = {
        "there": there,
        "scores": _("({there} of 100 against {here} here)").format(
            there=_points(judged.there.score), here=_points(judged.here.score)
        ),
        "tens": _tens(judged.surer),
        "parts": _parts(judged),
        "years": _years(judged),
        "alive": 100 * judged.chances.survival,
        "seasons": judged.seasons,
        "age": _age(judged),
        "pays": _needed(judged),
    }
    said = {"move": _move, "wait": _wait}.get(judged.advice, _keep)
    return said(judged).format(**told)


def _move(judged: Judged) -> str:
    """Why it is moved; here and in what follows the figures are left open."""
    said = _(
        "{there} is worth more to it {scores} in {tens}: {parts}; {age} a move costs it about "
        "{years}, and {alive:.0f} of 100 such trees live ({pays})"
    )
    slack = _("most of that was on the map before, so ask first why the plan left that place")
    return f"{said}; {slack}" if judged.mostly_mapped else said


def _parts(judged: Judged) -> str:
    """Which part of the gain was on the map before, and which comes from what was seen."""
    there, here = judged.there.score if judged.there else math.nan, judged.here.score
    mapped = _points(judged.gain_mapped)
    seen = _points(there) - _points(here) - mapped  # so that the figures shown add up
    if mapped == 0:
        return _("the map saw no difference, all of it comes from what was seen")
    said = _("the map put it {points} lower, and what was seen turns that round")
    if mapped > 0:
        said = _("the map already put it {points} higher, what was seen adds nothing")
    if mapped > 0 and seen > 0:
        said = _("the map already put it {points} higher, what was seen adds {seen}")
    if mapped > 0 and seen < 0:
        said = _("the map already put it {points} higher, what was seen takes {seen} of them away")
    points = ngettext("{number} point", "{number} points", abs(mapped))
    return said.format(points=points.format(number=abs(mapped)), seen=abs(seen))


def _points(score: float) -> int:
    """A score or a difference of scores in points of 100."""
    return round(100 * score)


def _wait(judged: Judged) -> str:
    if any(one.doubted for one in judged.evidence):
        return _("{there} may be worth more to it {scores}: {parts}")
    return _(
        "{there} may be worth more to it {scores}, in {tens}: {parts}; another year of watching is "
        "worth more than the year that it costs"
    )


def _keep(judged: Judged) -> str:
    if abs(judged.gain) <= judged.terms.margin:
        return _("{there} is worth as much to it {scores}: a tie, and a tie is no reason to move")
    if judged.gain > 0 and judged.surer < SURE:
        return _(
            "{there} comes out ahead {scores}, but only in {tens}: a tie within the survey's error"
        )
    if judged.gain < 0:
        return _("no free peg is better: the next best is {there} {scores}")
    if judged.seasons >= OLD:
        return _(
            "{there} would be better {scores}, but after {seasons} seasons only {alive:.0f} of 100 "
            "trees live through a move and it would lose about {years}"
        )
    return _("{there} would be better {scores}, by too little to pay for the check of a move")


def sentence(study: Study, judged: Judged) -> str:
    """The advice on one tree in full."""
    told = reason(study, judged)
    do = {"keep": _("keep it"), "wait": _("wait a year")}.get(judged.advice, _("move it"))
    if judged.advice == "move" and judged.there is not None:
        place = study.ground.places.name(judged.there.place)
        do = _("move it to {place} {window}").format(place=place, window=judged.window)
    label = study.options[judged.tree.option].label
    return _("{tree} at {place}: {advice}. {reason}").format(
        tree=label,
        place=judged.tree.spot,
        advice=do,
        reason=f"{told[:1].upper()}{told[1:]}",
    )


def _doubt(judged: Judged) -> list[str]:
    """What must be looked at again, where map and eye are too far apart."""
    doubted = [_label(one) for one in judged.evidence if one.doubted and _speaks_of_place(one)]
    if not doubted:
        return []
    said = _("map and eye are so far apart on {things} that one of the two is wrong: look again")
    if judged.advice == "wait":
        said = _(
            "map and eye are so far apart on {things} that one of the two is wrong: look again "
            "before it is moved"
        )
    return [said.format(things=each(doubted))]


def _poor_growth(judged: Judged) -> list[str]:
    """What poor growth asks for, where nothing seen of the place explains it."""
    grown = [one for one in judged.evidence if one.what == "leader_growth"]
    if not grown or grown[0].seen >= figure("leader", "poor"):
        return []
    if any(one.what == "drought_stress" and one.seen > 0 for one in judged.evidence):
        return [
            _("it grew poorly for want of water: water and mulch it, that is care and not place")
        ]
    harm = [one for one in judged.evidence if _harmful(one)]
    if harm:
        return [_("it grew poorly, which agrees with {thing}").format(thing=_label(harm[0]))]
    return [
        _(
            "it grew poorly and nothing seen of the place says why: look at roots, tie, grass "
            "about its foot and voles, and measure again next autumn"
        )
    ]


def _harmful(one: Evidence) -> bool:
    worse = {"sun_hours": -1, "wet_days": 1, "browsed": 1, "soil_depth": -1}
    return worse.get(one.what, 0) * one.surprise >= 1


def _seen(judged: Judged, why: str) -> str:
    """What differs from the map, and the reason that follows from it."""
    of_place = [one for one in judged.evidence if _speaks_of_place(one)]
    if not of_place:
        return _("nothing was seen of the place, so the map stands: {why}").format(why=why)
    parts = [_difference(one) for one in of_place if abs(one.surprise) >= 1]
    if not parts:
        return _("all is as the map said, and {why}").format(why=why)
    lost = judged.advice != "keep" and judged.gain_seen > max(judged.gain_mapped, 0)
    said = _("{seen}, so {why}") if lost else _("{seen}; {why}")
    return said.format(seen=each(parts), why=why)


def _difference(one: Evidence) -> str:
    if one.prior.years:
        return one.difference
    return _("{thing} was {seen} where the map said {expected}").format(
        thing=_label(one),
        seen=evidence_figure(one, one.seen),
        expected=evidence_figure(one, one.prior.mean),
    )


def _speaks_of_place(one: Evidence) -> bool:
    """Whether it was seen at the peg itself and is of the place, not of the tree."""
    return one.own and math.isfinite(one.surprise) and one.what != "leader_growth"


def _where(one: Evidence) -> str:
    return "" if one.own else f" {_('(at another peg in the same soil)')}"


def _label(one: Evidence) -> str:
    return _(WATCHED[one.what].label if one.what in WATCHED else one.what.replace("_", " "))


def evidence_figure(one: Evidence, value: float) -> str:
    """A figure as people say it."""
    if math.isnan(value):
        return _("not foretold")
    if one.what in ("browsed", "blossom_frost"):
        if value in (0.0, 1.0):
            return _("yes") if value else _("no")
        return _("in {years:.0f} of 100 years").format(years=100 * value)
    if one.what == "drought_stress":
        return _("{days:.0f} days").format(days=value)
    if one.what == "wet_days":
        return _("{days:.0f} days ({months:.1f} months)").format(days=value, months=value / MONTH)
    units = {"sun_hours": "h", "leader_growth": "cm", "ph": "", "soil_depth": "cm"}
    digits = 0 if one.what in ("leader_growth", "soil_depth") else 1
    return f"{value:.{digits}f} {units.get(one.what, '')}".strip()


def _tens(share: float) -> str:
    return _("{count} of 10 surveys that might be true").format(count=round(OF_TEN * share))


def _years(judged: Judged) -> str:
    lost = judged.chances.lost
    return _("a year") if round(lost) == 1 else _("{years:.1f} years").format(years=lost)


def _age(judged: Judged) -> str:
    seasons = ngettext("after one season", "after {seasons} seasons", judged.seasons)
    return seasons.format(seasons=judged.seasons)


def _needed(judged: Judged) -> str:
    needed = judged.compared.needed if judged.compared else math.inf
    if needed > 0:
        return _("it pays from {count:.0f} on").format(count=100 * needed)
    return _("it pays in any case")
