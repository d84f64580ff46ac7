"""Two choices set side by side, an option at a place each: what one loses to the other, and why."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from model.decision.contributions import difference
from model.language import _, ngettext
from model.study import Study

LISTED = 4  # factors named in a sentence, each with its points
SMALL = 0.005  # score below which a part reads as 0 points of 100


class Choice(NamedTuple):
    """An option at a place, both by their numbers in the study."""

    option: int
    place: int


@dataclass(frozen=True)
class Comparison:
    """One choice against another.

    `parts` (factor,) are what each factor adds to the lead of `one` over `other`; they sum to
    `scores[0] - scores[1]`, the scores [0 to 1] being those the choices would have if nothing ruled
    them out. `figures` (factor, 2) are the measures of both, `reasons` what rules them out, if any.
    """

    one: Choice
    other: Choice
    scores: tuple[float, float]
    parts: np.ndarray
    figures: np.ndarray
    worths: np.ndarray
    reasons: tuple[str, str]

    @property
    def lead(self) -> float:
        """Score of `one` less that of `other`."""
        return self.scores[0] - self.scores[1]


def comparison(study: Study, one: Choice, other: Choice) -> Comparison:
    """One choice against another as the study weighs them now."""
    sides = [(study.here(choice.place), choice.option) for choice in (one, other)]
    worths = np.stack([here.desirabilities[:, option] for here, option in sides], axis=1)
    parts = difference(worths[:, :1], worths[:, 1:], study.weights, study.trade_off)[:, 0]
    first, second = (float(here.score[option]) for here, option in sides)
    return Comparison(
        one=one,
        other=other,
        scores=(first, second),
        parts=parts,
        figures=np.stack([here.measures[:, option] for here, option in sides], axis=1),
        worths=worths,
        reasons=(
            study.ruling.reason(one.option, one.place),
            study.ruling.reason(other.option, other.place),
        ),
    )


def best_place(study: Study, option: int) -> int | None:
    """The place where an option scores most: a peg where it may stand at any, else ground."""
    scores = np.nan_to_num(study.scores[option], nan=-np.inf)
    cells = study.ground.places.cells
    pegs = scores[cells:]
    if pegs.size and np.isfinite(pegs).any():
        return cells + int(pegs.argmax())
    return int(scores.argmax()) if np.isfinite(scores).any() else None


def best_choice(study: Study) -> Choice | None:
    """The option and place that score most of all, pegs before ground; None where nothing may."""
    found = [(option, best_place(study, option)) for option in range(len(study.options))]
    standing = [Choice(option, place) for option, place in found if place is not None]
    return max(standing, key=lambda choice: study.scores[choice], default=None)


def why_not(study: Study, option: int, place: int) -> tuple[str, ...]:
    """Why an option should not stand at a place: what forbids it, and what it loses to the best.

    First against its own best place, then against what leads here; the largest losses first.
    """
    label, places = study.options[option].label, study.ground.places
    if not places.inside[place]:
        outside = _("{place} lies outside the boundary, so nothing is judged there.")
        return (outside.format(place=places.name(place)),)
    here, choice = study.here(place), Choice(option, place)
    reason, best = here.reason[option], best_place(study, option)
    said = []
    if reason:
        ruled = _("{option} is ruled out at {place}: {reason}.")
        said.append(ruled.format(option=label, place=places.name(place), reason=reason))
    said.append(_elsewhere(study, choice, best, bool(reason)))
    if here.allowed.size:
        said.append(_here(study, choice, Choice(int(here.allowed[0]), place), bool(reason)))
    elif not reason:
        nothing = _("Nothing on the short list can stand at {place}.")
        said.append(nothing.format(place=places.name(place)))
    return tuple(sentence for sentence in said if sentence)


def _elsewhere(study: Study, choice: Choice, best: int | None, ruled_out: bool) -> str:
    """What a choice loses to the option's best place."""
    label, places = study.options[choice.option].label, study.ground.places
    if best is None:
        return _("{option} can stand nowhere on this site.").format(option=label)
    if best == choice.place:
        said = _("There is no better place for {option} than {place}.")
        return said.format(option=label, place=places.name(best))
    found = comparison(study, choice, Choice(choice.option, best))
    where, score = places.name(best), 100 * found.scores[1]
    if ruled_out:
        said = _("Its best place is {place}, with {score:.0f} of 100.")
        return said.format(place=where, score=score)
    lost = loss(study, found, places.name(choice.place), where)
    said = _("That is the best place for {option}, with {score:.0f} of 100.")
    return f"{lost} {said.format(option=label, score=score)}"


def _here(study: Study, choice: Choice, leader: Choice, ruled_out: bool) -> str:
    """What a choice loses to the leader at the same place, or its lead if it is the leader."""
    labels = [option.label for option in study.options]
    if leader == choice:
        return _lead(study, choice)
    if ruled_out:
        score = 100 * study.here(choice.place).score[leader.option]
        said = _("What leads there is {option}, with {score:.0f} of 100.")
        return said.format(option=labels[leader.option], score=score)
    other = _("{option}, which leads here").format(option=labels[leader.option])
    return loss(study, comparison(study, choice, leader), labels[choice.option], other)


def _lead(study: Study, choice: Choice) -> str:
    here, label = study.here(choice.place), study.options[choice.option].label
    if here.allowed.size < 2:
        return _("{option} is all that can stand here.").format(option=label)
    second = Choice(int(here.allowed[1]), choice.place)
    ahead = comparison(study, choice, second)
    other = study.options[second.option].label
    if ahead.lead < SMALL:
        return _("{option} leads here, level with {other}.").format(option=label, other=other)
    said = _("{option} leads here, {points} before {other}: {factors}.")
    factors = gains(study, ahead.parts)
    return said.format(option=label, points=points(ahead.lead), other=other, factors=factors)


def loss(study: Study, found: Comparison, one: str, other: str) -> str:
    """What `one` loses to `other` in a sentence, worst first, and what it wins back.

    'Hollow loses 14 points to Top field: late frost 8, drainage 4.'
    """
    said = {"one": one[:1].upper() + one[1:], "other": other, "points": points(abs(found.lead))}
    back = gains(study, found.parts)
    if found.lead <= -SMALL:
        lost = _("{one} loses {points} to {other}: {factors}.")
        if back:
            lost = _("{one} loses {points} to {other}: {factors}; it wins back {back}.")
        return lost.format(factors=gains(study, -found.parts), back=back, **said)
    if found.lead >= SMALL:
        level = _("{one} is {points} ahead of {other}")
    else:
        level = _("{one} scores the same as {other}")
    return f"{level.format(**said)}: {back}." if back else f"{level.format(**said)}."


def gains(study: Study, parts: np.ndarray) -> str:
    """The factors that add most, with their points of 100: 'late frost 8, drainage 4'."""
    order = [int(n) for n in np.argsort(-parts, kind="stable") if parts[n] >= SMALL]
    named = [f"{_(study.factors[n].label.lower())} {100 * parts[n]:.0f}" for n in order[:LISTED]]
    rest = order[LISTED:]
    if rest:
        more = ngettext("{count} other {points:.0f}", "{count} others {points:.0f}", len(rest))
        named.append(more.format(count=len(rest), points=100 * parts[rest].sum()))
    return ", ".join(named)


def points(score: float) -> str:
    """A difference of score in points of 100.

    >>> points(0.141), points(0.012)
    ('14 points', '1 point')
    """
    number = round(100 * score)
    return ngettext("{number} point", "{number} points", number).format(number=number)
