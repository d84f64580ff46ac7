"""Two choices set side by side, an option at a place each: what one loses to the other, and why."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from model.decision.contributions import difference
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
        return (f"{places.name(place)} lies outside the boundary, so nothing is judged there.",)
    here, choice = study.here(place), Choice(option, place)
    reason, best = here.reason[option], best_place(study, option)
    said = []
    if reason:
        said.append(f"{label} is ruled out at {places.name(place)}: {reason}.")
    said.append(_elsewhere(study, choice, best, bool(reason)))
    if here.allowed.size:
        said.append(_here(study, choice, Choice(int(here.allowed[0]), place), bool(reason)))
    elif not reason:
        said.append(f"Nothing on the short list can stand at {places.name(place)}.")
    return tuple(sentence for sentence in said if sentence)


def _elsewhere(study: Study, choice: Choice, best: int | None, ruled_out: bool) -> str:
    """What a choice loses to the option's best place."""
    label, places = study.options[choice.option].label, study.ground.places
    if best is None:
        return f"{label} can stand nowhere on this site."
    if best == choice.place:
        return f"There is no better place for {label} than {places.name(best)}."
    found = comparison(study, choice, Choice(choice.option, best))
    where, score = places.name(best), 100 * found.scores[1]
    if ruled_out:
        return f"Its best place is {where}, with {score:.0f} of 100."
    lost = loss(study, found, places.name(choice.place), where)
    return f"{lost} That is the best place for {label}, with {score:.0f} of 100."


def _here(study: Study, choice: Choice, leader: Choice, ruled_out: bool) -> str:
    """What a choice loses to the leader at the same place, or its lead if it is the leader."""
    labels = [option.label for option in study.options]
    if leader == choice:
        return _lead(study, choice)
    if ruled_out:
        score = 100 * study.here(choice.place).score[leader.option]
        return f"What leads there is {labels[leader.option]}, with {score:.0f} of 100."
    return loss(study, comparison(study, choice, leader), labels[choice.option],
                f"{labels[leader.option]}, which leads here")  # fmt: skip


def _lead(study: Study, choice: Choice) -> str:
    here, label = study.here(choice.place), study.options[choice.option].label
    if here.allowed.size < 2:
        return f"{label} is all that can stand here."
    second = Choice(int(here.allowed[1]), choice.place)
    ahead = comparison(study, choice, second)
    other = study.options[second.option].label
    if ahead.lead < SMALL:
        return f"{label} leads here, level with {other}."
    return f"{label} leads here, {points(ahead.lead)} before {other}: {gains(study, ahead.parts)}."


def loss(study: Study, found: Comparison, one: str, other: str) -> str:
    """What `one` loses to `other` in a sentence, worst first, and what it wins back.

    'Hollow loses 14 points to Top field: late frost 8, drainage 4.'
    """
    subject = one[:1].upper() + one[1:]
    if found.lead > -SMALL:
        level = f"{subject} scores the same as {other}"
        if found.lead >= SMALL:
            level = f"{subject} is {points(found.lead)} ahead of {other}"
        return (
            f"{level}: {gains(study, found.parts)}." if gains(study, found.parts) else f"{level}."
        )
    back = gains(study, found.parts)
    won = f"; it wins back {back}" if back else ""
    return f"{subject} loses {points(-found.lead)} to {other}: {gains(study, -found.parts)}{won}."


def gains(study: Study, parts: np.ndarray) -> str:
    """The factors that add most, with their points of 100: 'late frost 8, drainage 4'."""
    order = [int(n) for n in np.argsort(-parts, kind="stable") if parts[n] >= SMALL]
    named = [f"{study.factors[n].label.lower()} {100 * parts[n]:.0f}" for n in order[:LISTED]]
    rest = order[LISTED:]
    if rest:
        named.append(f"{len(rest)} other{'s' * (len(rest) > 1)} {100 * parts[rest].sum():.0f}")
    return ", ".join(named)


def points(score: float) -> str:
    """A difference of score in points of 100.

    >>> points(0.141), points(0.012)
    ('14 points', '1 point')
    """
    number = f"{100 * score:.0f}"
    return f"{number} point{'' if number == '1' else 's'}"
