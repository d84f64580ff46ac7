"""The review in sentences that a grower accepts."""

import math

from model.planting.year_after.evidence import Evidence
from model.planting.year_after.expected import MONTH
from model.planting.year_after.keep_or_move import OLD, Judged
from model.planting.year_after.transplanting import figure
from model.planting.year_after.watched import WATCHED
from model.study import Study

CAUTION = (
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
    return "; ".join(f"{_label(one)}: {one.words}" for one in judged.evidence)


def reason(study: Study, judged: Judged) -> str:
    """Why the tree is kept, moved or watched, in one sentence."""
    return _seen(judged) + _why(study, judged) + _doubt(judged) + _poor_growth(judged) + "."


def _why(study: Study, judged: Judged) -> str:
    """The reason itself, as it follows on what was seen."""
    if judged.there is None:
        return "no free peg would take it"
    there = study.ground.places.name(judged.there.place)
    if judged.compared is None:
        return f"it may not stand here at all, and {there} would take it"
    scores = f"({_points(judged.there.score)} of 100 against {_points(judged.here.score)} here)"
    said = {"move": _move, "wait": _wait}.get(judged.advice, _keep)
    return said(judged, there, scores)


def _move(judged: Judged, there: str, scores: str) -> str:
    slack = "; most of that was on the map before, so ask first why the plan left that place"
    return (
        f"{there} is worth more to it {scores} in {_tens(judged.surer)}: {_parts(judged)}; "
        f"{_age(judged)} a move costs it about {_years(judged)}, and "
        f"{100 * judged.chances.survival:.0f} of 100 such trees live ({_needed(judged)})"
        f"{slack if judged.mostly_mapped else ''}"
    )


def _parts(judged: Judged) -> str:
    """Which part of the gain was on the map before, and which comes from what was seen."""
    there, here = judged.there.score if judged.there else math.nan, judged.here.score
    mapped = _points(judged.gain_mapped)
    seen = _points(there) - _points(here) - mapped  # so that the figures shown add up
    adds = {True: f"what was seen adds {seen}", False: f"what was seen takes {-seen} of them away"}
    if mapped > 0:
        told = adds[seen > 0] if seen else "what was seen adds nothing"
        return f"the map already put it {_pointed(mapped)} higher, {told}"
    if mapped < 0:
        return f"the map put it {_pointed(-mapped)} lower, and what was seen turns that round"
    return "the map saw no difference, all of it comes from what was seen"


def _points(score: float) -> int:
    """A score or a difference of scores in points of 100."""
    return round(100 * score)


def _pointed(points: int) -> str:
    return "1 point" if points == 1 else f"{points} points"


def _wait(judged: Judged, there: str, scores: str) -> str:
    if any(one.doubted for one in judged.evidence):
        return f"{there} may be worth more to it {scores}: {_parts(judged)}"
    return (
        f"{there} may be worth more to it {scores}, in {_tens(judged.surer)}: "
        f"{_parts(judged)}; another year of watching is worth more than the year that it costs"
    )


def _keep(judged: Judged, there: str, scores: str) -> str:
    if abs(judged.gain) <= judged.terms.margin:
        return f"{there} is worth as much to it {scores}: a tie, and a tie is no reason to move"
    if judged.gain > 0 and judged.surer < SURE:
        return (
            f"{there} comes out ahead {scores}, but only in {_tens(judged.surer)}: a tie within "
            "the survey's error"
        )
    if judged.gain < 0:
        return f"no free peg is better: the next best is {there} {scores}"
    if judged.seasons >= OLD:
        return (
            f"{there} would be better {scores}, but after {judged.seasons} seasons only "
            f"{100 * judged.chances.survival:.0f} of 100 trees live through a move and it would "
            f"lose about {_years(judged)}"
        )
    return f"{there} would be better {scores}, by too little to pay for the check of a move"


def sentence(study: Study, judged: Judged) -> str:
    """The advice on one tree in full."""
    told = reason(study, judged)
    do = {"keep": "keep it", "wait": "wait a year"}.get(judged.advice, "move it")
    if judged.advice == "move" and judged.there is not None:
        place, window = study.ground.places.name(judged.there.place), judged.window
        do = f"move it to {place} {window}"
    name = f"{study.options[judged.tree.option].label} at {judged.tree.spot}"
    return f"{name}: {do}. {told[:1].upper()}{told[1:]}"


def _doubt(judged: Judged) -> str:
    """What must be looked at again, where map and eye are too far apart."""
    doubted = [_label(one) for one in judged.evidence if one.doubted and _speaks_of_place(one)]
    if not doubted:
        return ""
    before = " before it is moved" if judged.advice == "wait" else ""
    return (
        f"; map and eye are so far apart on {' and '.join(doubted)} that one of the two is wrong: "
        f"look again{before}"
    )


def _poor_growth(judged: Judged) -> str:
    """What poor growth asks for, where nothing seen of the place explains it."""
    grown = [one for one in judged.evidence if one.what == "leader_growth"]
    if not grown or grown[0].seen >= figure("leader", "poor"):
        return ""
    if any(one.what == "drought_stress" and one.seen > 0 for one in judged.evidence):
        return "; it grew poorly for want of water: water and mulch it, that is care and not place"
    harm = [one for one in judged.evidence if _harmful(one)]
    if harm:
        return f"; it grew poorly, which agrees with {_label(harm[0])}"
    return (
        "; it grew poorly and nothing seen of the place says why: look at roots, tie, grass about "
        "its foot and voles, and measure again next autumn"
    )


def _harmful(one: Evidence) -> bool:
    worse = {"sun_hours": -1, "wet_days": 1, "browsed": 1, "soil_depth": -1}
    return worse.get(one.what, 0) * one.surprise >= 1


def _seen(judged: Judged) -> str:
    """What differs from the map, as the beginning of a sentence."""
    of_place = [one for one in judged.evidence if _speaks_of_place(one)]
    if not of_place:
        return "nothing was seen of the place, so the map stands: "
    parts = [_difference(one) for one in of_place if abs(one.surprise) >= 1]
    if not parts:
        return "all is as the map said, and "
    lost = judged.advice != "keep" and judged.gain_seen > max(judged.gain_mapped, 0)
    return f"{' and '.join(parts)}{', so' if lost else ';'} "


def _difference(one: Evidence) -> str:
    if one.prior.years:
        return one.words.split(":")[0]
    there = evidence_figure(one, one.prior.mean)
    return f"{_label(one)} was {evidence_figure(one, one.seen)} where the map said {there}"


def _speaks_of_place(one: Evidence) -> bool:
    """Whether it was seen at the peg itself and is of the place, not of the tree."""
    return one.own and math.isfinite(one.surprise) and one.what != "leader_growth"


def _where(one: Evidence) -> str:
    return "" if one.own else " (at another peg in the same soil)"


def _label(one: Evidence) -> str:
    return WATCHED[one.what].label if one.what in WATCHED else one.what.replace("_", " ")


def evidence_figure(one: Evidence, value: float) -> str:
    """A figure as people say it."""
    if math.isnan(value):
        return "not foretold"
    if one.what in ("browsed", "blossom_frost"):
        if value in (0.0, 1.0):
            return "yes" if value else "no"
        return f"in {100 * value:.0f} of 100 years"
    if one.what == "drought_stress":
        return f"{value:.0f} days"
    if one.what == "wet_days":
        return f"{value:.0f} days ({value / MONTH:.1f} months)"
    units = {"sun_hours": "h", "leader_growth": "cm", "ph": "", "soil_depth": "cm"}
    digits = 0 if one.what in ("leader_growth", "soil_depth") else 1
    return f"{value:.{digits}f} {units.get(one.what, '')}".strip()


def _tens(share: float) -> str:
    return f"{round(OF_TEN * share)} of 10 surveys that might be true"


def _years(judged: Judged) -> str:
    lost = judged.chances.lost
    return "a year" if round(lost) == 1 else f"{lost:.1f} years"


def _age(judged: Judged) -> str:
    return "after one season" if judged.seasons == 1 else f"after {judged.seasons} seasons"


def _needed(judged: Judged) -> str:
    needed = judged.compared.needed if judged.compared else math.inf
    return f"it pays from {100 * max(needed, 0):.0f} on" if needed > 0 else "it pays in any case"
