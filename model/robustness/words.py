"""Robustness in sentences: counts out of 100, ties said as ties."""

import numpy as np

from model.results import TIE
from model.robustness.measuring import worthwhile
from model.robustness.standing import NEAR, SURVEY, WEIGHTS, Robustness

NAMED = 3  # options named by their share; the rest go unnamed
TOLD = 0.1  # share of weightings from which an option's own weights are told
HEAVIER = 1.1  # times its usual weight from which a factor is said to weigh more
HOPEFUL = 0.2  # of draws in which what is ruled out might stand, from which it is said
OPERATOR = " Ask the service's operator before anything is planted or dug."
OFTEN = 0.02  # of draws in which an option is ruled out, from which it is said
HOLDS = 0.9  # of draws in which a leader is best, from which its lead holds
MATTERS = 0.1  # share of the lead's variance from which a factor or figure is named


def sentences(told: Robustness) -> tuple[str, ...]:
    """Everything worth saying, the most telling first."""
    if told.leader < 0:
        return (f"At {told.name} nothing on the short list can stand, as surveyed.", *_ruled(told))
    parts = (_leads(told), _weightings(told), *_central(told), *_ruled(told), *_hangs(told))
    return (*parts, *_measure(told))


def hundred(share: float) -> str:
    """A share as a count out of 100.

    >>> hundred(0.34), hundred(0.001), hundred(0.0)
    ('34 of 100', 'fewer than 1 of 100', 'none of 100')
    """
    if share <= 0:
        return "none of 100"
    if share < 0.005:
        return "fewer than 1 of 100"
    return "nearly all of 100" if 0.995 <= share < 1 else f"{100 * share:.0f} of 100"


def points(score: float) -> str:
    """A difference of score in points of 100, to the tenth below two."""
    if score < 0.001:
        return "less than a tenth of a point"
    number = f"{100 * score:.0f}" if score >= 0.0195 else f"{100 * score:.1f}".removesuffix(".0")
    return f"{number} point{'' if number == '1' else 's'}"


def _leads(told: Robustness) -> str:
    """Who leads, and whether the survey is good enough to say so."""
    best = told.options[told.leader]
    share = told.best_share(SURVEY)[told.leader]
    if told.second < 0:
        return f"At {told.name} {best} is all that can stand, as surveyed."
    other = told.options[told.second]
    best_in = f"best in {hundred(share)} surveys that might be true"
    if told.lead < TIE:
        return f"At {told.name} {best} and {other} are a tie already; {best} is {best_in}."
    ahead = f"At {told.name} {best} leads {other} by {points(told.lead)}"
    off = f"what is not known may take {points(told.lead_off)} from that"
    if told.is_tied:
        return (
            f"{ahead}, but {off}: a tie within the survey's error, and taste may choose. "
            f"{best} is {best_in}."
        )
    if share < HOLDS:
        return f"{ahead}; {off}, yet {best} is {best_in}{_else(told)}."
    return f"{ahead}; {off}, so it holds: {best_in}."


def _else(told: Robustness) -> str:
    """Who else is best most often in the survey's doubt, as a rider; empty where nobody is."""
    share = told.best_share(SURVEY).copy()
    share[told.leader] = 0.0
    other = int(share.argmax())
    return f", and {told.options[other]} in {hundred(share[other])}" if share[other] > 0 else ""


def _weightings(told: Robustness) -> str:
    """Who is best over all weightings, and over those near the present one."""
    kept = " that keep what you fixed or ordered" if told.has_rules else ""
    every, near = told.best_share(WEIGHTS), told.best_share(NEAR)
    order = [n for n in np.argsort(-every, kind="stable")[:NAMED] if every[n] >= 0.005]
    said = ", ".join(f"{told.options[n]} in {hundred(every[n])}" for n in order)
    return (
        f"Over all weightings{kept}, best: {said}. With weights near yours "
        f"{told.options[told.leader]} is best in {hundred(near[told.leader])}."
    )


def _central(told: Robustness) -> list[str]:
    """For whom the leading options lead: what weighs more then than it usually does."""
    said = []
    share = told.best_share(WEIGHTS)
    for option in np.argsort(-share, kind="stable")[:NAMED]:
        if share[option] < TOLD or not np.isfinite(told.central_weights[option]).all():
            continue
        usual = np.where(told.usual_weights > 0, told.usual_weights, np.inf)
        times = told.central_weights[option] / usual
        heavy = [n for n in np.argsort(-times, kind="stable")[:2] if times[n] >= HEAVIER]
        names = " and ".join(told.factors[n].lower() for n in heavy)
        if names:
            verb = "weighs" if len(heavy) == 1 else "weigh"
            sure = hundred(told.confidence[option])
            leads = f"{told.options[option]} leads where {names} {verb} most"
            said.append(f"{leads}, and then in {sure} surveys.")
    return said


def _ruled(told: Robustness) -> list[str]:
    """Options that stand or fall with the survey's doubt."""
    share = told.ruled_share
    falls = np.flatnonzero(~told.ruled_now & (share >= OFTEN))
    # A doubt about a wire or a pipe gives nobody leave to plant beside it.
    stands = np.flatnonzero(told.ruled_now & ~told.too_near_service & (1 - share >= HOPEFUL))
    said = []
    if falls.size:
        listed = _listed(told, falls, share)
        ask = OPERATOR if _of_service(told, falls) else ""
        said.append(f"May have to be ruled out, if things lie or grow otherwise: {listed}.{ask}")
    if stands.size:
        listed = _listed(told, stands, 1 - share)
        said.append(f"Ruled out as surveyed, but might stand after all: {listed}.")
    return said


def _of_service(told: Robustness, options: np.ndarray) -> bool:
    """Whether the figure that decides any of them is one that an operator knows."""
    labels = {told.ruled_by[option] for option in options}
    return any("operator" in doubt.by for doubt in told.doubts if doubt.label in labels)


def _listed(told: Robustness, options: np.ndarray, share: np.ndarray) -> str:
    """Options with their shares, the likeliest first."""
    order = sorted(options.tolist(), key=lambda n: -share[n])
    named = [
        f"{told.options[n]} in {hundred(share[n])} (by the {told.ruled_by[n]})"
        for n in order[:NAMED]
    ]
    more = f" and {len(order) - NAMED} more" if len(order) > NAMED else ""
    return ", ".join(named) + more


def _hangs(told: Robustness) -> list[str]:
    """The factor and the figure that the lead varies with most."""
    if told.second < 0 or told.lead_off < TIE / 2:
        return []
    factor = int(np.argmax(told.factor_shares))
    parts = []
    if told.factor_shares[factor] >= MATTERS:
        of = hundred(min(told.factor_shares[factor], 1.0))
        parts.append(f"on {told.factors[factor].lower()} ({of} parts of how it varies)")
    if len(told.hangs_on) and told.hangs_on["lead_together"][0] >= MATTERS:
        row = told.hangs_on.iloc[0]
        measured = row["doubt"] in set(told.measure_next["doubt"])
        never = "" if measured else ", which nobody can measure beforehand"
        parts.append(f"on the {row['doubt']} ({hundred(row['lead_together'])} parts){never}")
    return [f"The lead hangs most {', and '.join(parts)}."] if parts else []


def _measure(told: Robustness) -> list[str]:
    """What to measure next, or that nothing is worth it."""
    worth = worthwhile(told.measure_next)
    if worth.empty:
        return [_nothing(told)]
    return [
        f"{'Measure' if n == 0 else 'Then'} the {row['doubt']}{' next' if n == 0 else ''}, "
        f"{row['by']}: it changes the choice in {hundred(row['change'])} cases, and brings "
        f"{points(row['gain_if'])} of score when it does."
        for n, (_, row) in enumerate(worth.head(NAMED).iterrows())
    ]


def _nothing(told: Robustness) -> str:
    """Why nothing is worth measuring."""
    table = told.measure_next
    if len(table) and table["change"].max() >= 0.05:
        row = table.iloc[int(table["change"].to_numpy().argmax())]
        return (
            f"Nothing is worth measuring: the {row['doubt']} would change the choice most often, "
            f"in {hundred(row['change'])} cases, but only between near equals "
            f"({points(row['gain_if'])})."
        )
    return (
        "Nothing is worth measuring here: no figure that can be measured would change the choice."
    )
