"""Robustness in sentences: counts out of 100, ties said as ties."""

import numpy as np

from model.language import _, listed, marked, ngettext
from model.results import TIE
from model.robustness.measuring import worthwhile
from model.robustness.standing import NEAR, SURVEY, WEIGHTS, Robustness

NAMED = 3  # options named by their share; the rest go unnamed
TOLD = 0.1  # share of weightings from which an option's own weights are told
HEAVIER = 1.1  # times its usual weight from which a factor is said to weigh more
HOPEFUL = 0.2  # of draws in which what is ruled out might stand, from which it is said
OPERATOR = marked("Ask the service's operator before anything is planted or dug.")
OFTEN = 0.02  # of draws in which an option is ruled out, from which it is said
HOLDS = 0.9  # of draws in which a leader is best, from which its lead holds
MATTERS = 0.1  # share of the lead's variance from which a factor or figure is named


def sentences(told: Robustness) -> tuple[str, ...]:
    """Everything worth saying, the most telling first."""
    if told.leader < 0:
        nothing = _("At {place} nothing on the short list can stand, as surveyed.")
        return (nothing.format(place=told.name), *_ruled(told))
    parts = (_leads(told), _weightings(told), *_central(told), *_ruled(told), *_hangs(told))
    return (*parts, *_measure(told))


def hundred(share: float) -> str:
    """A share as a count out of 100.

    >>> hundred(0.34), hundred(0.001), hundred(0.0)
    ('34 of 100', 'fewer than 1 of 100', 'none of 100')
    """
    if share <= 0:
        return _("none of 100")
    if share < 0.005:
        return _("fewer than 1 of 100")
    if 0.995 <= share < 1:
        return _("nearly all of 100")
    return _("{count:.0f} of 100").format(count=100 * share)


def points(score: float) -> str:
    """A difference of score in points of 100, to the tenth below two."""
    if score < 0.001:
        return _("less than a tenth of a point")
    number = f"{100 * score:.0f}" if score >= 0.0195 else f"{100 * score:.1f}".removesuffix(".0")
    # A part of a point takes the form of many.
    count = int(number) if number.isdigit() else 0
    return ngettext("{number} point", "{number} points", count).format(number=number)


def _leads(told: Robustness) -> str:
    """Who leads, and whether the survey is good enough to say so."""
    best = told.options[told.leader]
    share = told.best_share(SURVEY)[told.leader]
    if told.second < 0:
        alone = _("At {place} {best} is all that can stand, as surveyed.")
        return alone.format(place=told.name, best=best)
    names = {
        "place": told.name,
        "best": best,
        "other": told.options[told.second],
        "count": hundred(share),
        "lead": points(told.lead),
        "off": points(told.lead_off),
    }
    if told.lead < TIE:
        said = _(
            "At {place} {best} and {other} are a tie already; {best} is best in {count} surveys "
            "that might be true."
        )
    elif told.is_tied:
        said = _(
            "At {place} {best} leads {other} by {lead}, but what is not known may take {off} from "
            "that: a tie within the survey's error, and taste may choose. {best} is best in "
            "{count} surveys that might be true."
        )
    elif share < HOLDS:
        return _yet(told, names)
    else:
        said = _(
            "At {place} {best} leads {other} by {lead}; what is not known may take {off} from "
            "that, so it holds: best in {count} surveys that might be true."
        )
    return said.format(**names)


def _yet(told: Robustness, names: dict[str, str]) -> str:
    """Who leads but not in most surveys, and who else is best most often in the survey's doubt."""
    share = told.best_share(SURVEY).copy()
    share[told.leader] = 0.0
    rival = int(share.argmax())
    said = _(
        "At {place} {best} leads {other} by {lead}; what is not known may take {off} from that, "
        "yet {best} is best in {count} surveys that might be true."
    )
    if share[rival] > 0:
        said = _(
            "At {place} {best} leads {other} by {lead}; what is not known may take {off} from "
            "that, yet {best} is best in {count} surveys that might be true, and {rival} in "
            "{rival_count}."
        )
    return said.format(rival=told.options[rival], rival_count=hundred(share[rival]), **names)


def _weightings(told: Robustness) -> str:
    """Who is best over all weightings, and over those near the present one."""
    every, near = told.best_share(WEIGHTS), told.best_share(NEAR)
    order = [n for n in np.argsort(-every, kind="stable")[:NAMED] if every[n] >= 0.005]
    each = _("{option} in {count}")
    shares = [each.format(option=told.options[n], count=hundred(every[n])) for n in order]
    said = _(
        "Over all weightings, best: {shares}. With weights near yours {best} is best in {count}."
    )
    if told.has_rules:
        said = _(
            "Over all weightings that keep what you fixed or ordered, best: {shares}. With weights "
            "near yours {best} is best in {count}."
        )
    return said.format(
        shares=", ".join(shares),
        best=told.options[told.leader],
        count=hundred(near[told.leader]),
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
        names = [_(told.factors[n].lower()) for n in heavy]
        if names:
            leads = ngettext(
                "{option} leads where {factors} weighs most, and then in {count} surveys.",
                "{option} leads where {factors} weigh most, and then in {count} surveys.",
                len(names),
            )
            sure = hundred(told.confidence[option])
            named = {"option": told.options[option], "factors": listed(names), "count": sure}
            said.append(leads.format(**named))
    return said


def _ruled(told: Robustness) -> list[str]:
    """Options that stand or fall with the survey's doubt."""
    share = told.ruled_share
    falls = np.flatnonzero(~told.ruled_now & (share >= OFTEN))
    # A doubt about a wire or a pipe gives nobody leave to plant beside it.
    stands = np.flatnonzero(told.ruled_now & ~told.too_near_service & (1 - share >= HOPEFUL))
    said = []
    if falls.size:
        may = _("May have to be ruled out, if things lie or grow otherwise: {options}.")
        ask = [_(OPERATOR)] if _of_service(told, falls) else []
        said.append(" ".join([may.format(options=_shares(told, falls, share)), *ask]))
    if stands.size:
        might = _("Ruled out as surveyed, but might stand after all: {options}.")
        said.append(might.format(options=_shares(told, stands, 1 - share)))
    return said


def _of_service(told: Robustness, options: np.ndarray) -> bool:
    """Whether the figure that decides any of them is one that an operator knows."""
    labels = {told.ruled_by[option] for option in options}
    return any("operator" in doubt.by for doubt in told.doubts if doubt.label in labels)


def _shares(told: Robustness, options: np.ndarray, share: np.ndarray) -> str:
    """Options with their shares, the likeliest first."""
    order = sorted(options.tolist(), key=lambda n: -share[n])
    each = _("{option} in {count} (by the {figure})")
    named = ", ".join(
        each.format(option=told.options[n], count=hundred(share[n]), figure=told.ruled_by[n])
        for n in order[:NAMED]
    )
    if len(order) <= NAMED:
        return named
    return _("{names} and {count} more").format(names=named, count=len(order) - NAMED)


def _hangs(told: Robustness) -> list[str]:
    """The factor and the figure that the lead varies with most."""
    if told.second < 0 or told.lead_off < TIE / 2:
        return []
    factor = int(np.argmax(told.factor_shares))
    parts = []
    if told.factor_shares[factor] >= MATTERS:
        on = _("on {factor} ({count} parts of how it varies)")
        of = hundred(min(told.factor_shares[factor], 1.0))
        parts.append(on.format(factor=_(told.factors[factor].lower()), count=of))
    if len(told.hangs_on) and told.hangs_on["lead_together"][0] >= MATTERS:
        row = told.hangs_on.iloc[0]
        on = _("on the {figure} ({count} parts), which nobody can measure beforehand")
        if row["doubt"] in set(told.measure_next["doubt"]):
            on = _("on the {figure} ({count} parts)")
        parts.append(on.format(figure=row["doubt"], count=hundred(row["lead_together"])))
    if len(parts) == 2:
        said = _("The lead hangs most {factor}, and {figure}.")
        return [said.format(factor=parts[0], figure=parts[1])]
    return [_("The lead hangs most {on}.").format(on=one) for one in parts]


def _measure(told: Robustness) -> list[str]:
    """What to measure next, or that nothing is worth it."""
    worth = worthwhile(told.measure_next)
    if worth.empty:
        return [_nothing(told)]
    first = _(
        "Measure the {figure} next, {how}: it changes the choice in {count} cases, and brings "
        "{points} of score when it does."
    )
    then = _(
        "Then the {figure}, {how}: it changes the choice in {count} cases, and brings {points} of "
        "score when it does."
    )
    return [
        (then if n else first).format(
            figure=row["doubt"],
            how=_(row["by"]),
            count=hundred(row["change"]),
            points=points(row["gain_if"]),
        )
        for n, row in enumerate(worth.head(NAMED).to_dict("records"))
    ]


def _nothing(told: Robustness) -> str:
    """Why nothing is worth measuring."""
    table = told.measure_next
    if len(table) and table["change"].max() >= 0.05:
        row = table.iloc[int(table["change"].to_numpy().argmax())]
        return _(
            "Nothing is worth measuring: the {figure} would change the choice most often, in "
            "{count} cases, but only between near equals ({points})."
        ).format(figure=row["doubt"], count=hundred(row["change"]), points=points(row["gain_if"]))
    return _(
        "Nothing is worth measuring here: no figure that can be measured would change the choice."
    )
