"""What one ballot comes to, in a sentence for the group that fills it in."""

import numpy as np

from model.decision import merit, power_mean
from model.group.agreement import Agreement, Voice
from model.group.agreement_words import choice, shortened
from model.language import _
from model.results import TIE

NAMED = 3  # factors over which a group differs that are named
ALIKE = 0.02  # of all weight: shares nearer than this are as good as the same


def own_result(
    worth: np.ndarray,
    allowed: np.ndarray,
    weights: np.ndarray,
    trade_off: float,
    labels: tuple[str, ...],
    place: str,
    whose: str = "",
) -> str:
    """What leads at a place by a group's own weights, and by how much.

    `worth` (factor, option) [0 to 1] is the desirability there, `allowed` (option,) bool what may
    stand there and is wanted, `weights` (factor,) 0 or more in any unit; `whose` begins the
    sentence in place of 'With your weights'.
    """
    if not np.sum(weights) > 0:
        return _("Nothing counts yet: move at least one slider up.")
    if not np.any(allowed):
        return _("Nothing that you want considered can stand at {place}.").format(place=place)
    scores = power_mean.power_mean(worth, weights / np.sum(weights), trade_off)
    ranks = merit.order(np.where(allowed, scores, np.nan)[:, None], TIE)[:, 0]
    best = np.flatnonzero(ranks == 1)
    order = [one for one in np.argsort(-scores, kind="stable") if allowed[one]]
    whose = whose or _("With your weights")
    said = {"whose": whose, "place": place, "score": f"{100 * scores[order[0]]:.0f}"}
    if len(order) == 1:
        only = _("{whose}: {option}, {score} of 100, is all that can stand at {place}.")
        return only.format(option=labels[order[0]], **said)
    if best.size > 1:
        tied = shortened(labels[one] for one in order if ranks[one] == 1)
        tie = _("{whose}: {options} are a tie at {place}, {score} of 100.")
        return tie.format(options=tied, **said)
    lead = f"{100 * (scores[order[0]] - scores[order[1]]):.0f}"
    leads = _("{whose}: {option} leads at {place} with {score} of 100, by {lead} over {second}.")
    return leads.format(option=labels[order[0]], second=labels[order[1]], lead=lead, **said)


def own_differences(found: Agreement, group: str) -> tuple[str, ...]:
    """Where a group stands beside the others, in sentences; none where it sent no ballot."""
    voice = next((one for one in found.voices if one.group == group), None)
    if voice is None:
        return ()
    chose = _("Your weights choose {options}.").format(options=choice(found, voice))
    return (chose, *_parts(found, voice))


def _parts(found: Agreement, voice: Voice) -> tuple[str, ...]:
    """The factors over which a voice is furthest from the common weights, in points."""
    apart = np.nan_to_num(voice.shares - found.consensus.shares)
    furthest = [one for one in np.argsort(-np.abs(apart), kind="stable") if abs(apart[one]) > ALIKE]
    if not furthest:
        return (_("Your weights are close to those in common."),)
    said = _("You give {factor} {own} %, the groups in common {common} %.")
    return tuple(
        said.format(
            factor=_(found.factors[one].lower()),
            own=f"{100 * voice.shares[one]:.0f}",
            common=f"{100 * found.consensus.shares[one]:.0f}",
        )
        for one in furthest[:NAMED]
    )
