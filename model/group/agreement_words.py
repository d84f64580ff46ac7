"""An agreement in plain words."""

from collections import Counter
from collections.abc import Iterable

import numpy as np

from model.group.agreement import Agreement, Voice
from model.language import _, any_of, figure, listed, marked, ngettext

# Mean rank correlation of the groups, which unlike W does not rise with fewer groups (common
# practice, no source).
CLOSELY, SOMEWHAT = 0.7, 0.3
NAMED = 3  # of several, so many are named and the others counted


def all_points(found: Agreement) -> tuple[str, ...]:
    """What the groups agree on, first the choice, then where they part and whether it matters."""
    if not found.allowed.size:
        nothing = _("At {place}: nothing that the groups want considered can stand here.")
        return (nothing.format(place=found.place_name), *found.notes)
    several = len(found.voices) > 1
    said = (
        _common_choice(found),
        *((_own_choices(found), _order(found), _matters(found)) if several else ()),
        *((_least_minded(found), _parts(found), _turns(found)) if several else ()),
        _pegs(found),
        *_without_choice(found),
        *found.notes,
    )
    return tuple(sentence for sentence in said if sentence)


def points(found: Agreement) -> tuple[str, ...]:
    """What a table of the choices does not show: order, whether it matters, what it rests on."""
    if not found.allowed.size or len(found.voices) < 2:
        return all_points(found)
    choices = (_order(found), _matters(found), _least_minded(found))
    said = (*choices, _parts(found), _turns(found))
    return tuple(sentence for sentence in said if sentence)


def closeness(correlation: float) -> str:
    """Agreement on an order in a word, from the mean rank correlation of those who ordered.

    >>> closeness(0.75), closeness(0.3), closeness(-0.2)
    ('closely', 'somewhat', 'hardly')
    """
    if correlation >= CLOSELY:
        return marked("closely")
    return marked("somewhat") if correlation >= SOMEWHAT else marked("hardly")


def shortened(names: Iterable[str]) -> str:
    """Names in a sentence, the last of many only counted.

    >>> shortened("abcd"), shortened("abcdef")
    ('a, b, c and d', 'a, b, c and 3 more')
    """
    several = list(names)
    spare = len(several) - NAMED
    more = _("{count} more").format(count=spare)
    return listed(several if spare < 2 else [*several[:NAMED], more])


def choice(found: Agreement, voice: Voice) -> str:
    """What a ballot chooses, ties together; 'nothing' where it has no choice."""
    if not voice.winners:
        return _("nothing")
    return shortened(found.options[one] for one in voice.winners)


def groups(count: int) -> str:
    """So many groups.

    >>> groups(1), groups(3)
    ('1 group', '3 groups')
    """
    return ngettext("{count} group", "{count} groups", count).format(count=count)


def _common_choice(found: Agreement) -> str:
    common = found.consensus
    score = 100 * common.scores[common.winners[0]]
    leads = _("{options} leads with {score:.0f} of 100")
    if len(common.winners) > 1:
        leads = _("{options} are a tie at {score:.0f} of 100")
    told = leads.format(options=choice(found, common), score=score)
    if len(found.voices) == 1:
        said = _("At {place}, by the one ballot so far: {leads}.")
        return said.format(place=found.place_name, leads=told)
    return _(
        "At {place}, by the weights that {groups} have in common (their geometric mean; trade-off "
        "{trade_off}, the median): {leads}."
    ).format(
        place=found.place_name,
        groups=groups(len(found.voices)),
        trade_off=figure(common.trade_off, ".1f"),
        leads=told,
    )


def _own_choices(found: Agreement) -> str:
    order = [one for one in np.argsort(-found.chosen, kind="stable") if found.chosen[one]]
    chosen = [_choose(found.chosen[one], found.options[one]) for one in order]
    spare = len(order) - NAMED
    if spare > 1:
        most = int(found.chosen[order[NAMED]])
        others = ngettext(
            "at most {count} group chooses each of {others} others",
            "at most {count} groups choose each of {others} others",
            most,
        )
        chosen = [*chosen[:NAMED], others.format(count=most, others=spare)]
    said = _("By their own weights {choices}.")
    if any(len(voice.winners) > 1 for voice in found.voices):
        said = _("By their own weights {choices} (a tie counts for each of its options).")
    return said.format(choices=listed(chosen))


def _choose(count: int, option: str) -> str:
    said = ngettext("{count} group chooses {option}", "{count} groups choose {option}", int(count))
    return said.format(count=count, option=option)


def _order(found: Agreement) -> str:
    count = found.allowed.size
    if count < 2:
        only = _("Only {option} can stand here, so there is no order.")
        return only.format(option=found.options[found.allowed[0]])
    measured = found.concordance
    if np.isnan(measured.w):
        return _("To every group the {count} options are level.").format(count=count)
    return _(
        "The groups agree {closely} on the order of the {count} options (Kendall's W {w:.2f}, from "
        "0 to 1)."
    ).format(closely=_(closeness(measured.correlation)), count=count, w=measured.w)


def _matters(found: Agreement) -> str:
    if found.matters:
        return _(
            "No option is every group's choice: here the disagreement decides what is planted."
        )
    said = _(
        "The disagreement does not matter here: {options} suits every group, alone or in a tie."
    )
    return said.format(options=any_of([found.options[one] for one in found.settled]))


def _parts(found: Agreement) -> str:
    factor = found.rests_on
    if factor is None:
        return _("All groups give the same weights.")
    shares = 100 * found.shares[:, factor]
    low, high = int(np.nanargmin(shares)), int(np.nanargmax(shares))
    return _(
        "They part furthest over {factor}, which carries {share:.0f} % of the disagreement: its "
        "weight runs from {low:.0f} % ({low_group}) to {high:.0f} % ({high_group})."
    ).format(
        factor=_(found.factors[factor].lower()),
        share=100 * found.disagreement[factor],
        low=shares[low],
        low_group=found.voices[low].group,
        high=shares[high],
        high_group=found.voices[high].group,
    )


def _turns(found: Agreement) -> str:
    if not found.matters:
        return ""
    factor = found.turns_on
    if factor is None:
        return _("No single factor, weighed alike by all, would bring more groups to one choice.")
    return _(
        "If all gave {factor} its common weight, {count} of {choosing} groups would choose alike "
        "(now {now})."
    ).format(
        factor=_(found.factors[factor].lower()),
        count=found.levelled[factor],
        choosing=found.choosing,
        now=found.most_chosen,
    )


def _least_minded(found: Agreement) -> str:
    option = found.least_minded
    if option is None:
        return ""
    lost = 100 * found.regret[option]
    said = _("The least pleased group would mind {option} least: none loses.")
    if lost >= 0.5:
        said = _(
            "The least pleased group would mind {option} least: no group loses more than "
            "{lost:.0f} of 100 by it."
        )
    return said.format(option=found.options[option], lost=lost)


def _pegs(found: Agreement) -> str:
    pairs = Counter(voice.best for voice in found.voices if voice.best)
    if not pairs:
        return ""
    (place, option), count = min(pairs.items(), key=lambda pair: (-pair[1], pair[0]))
    where = found.peg_names[place]
    return _("Over all pegs, {count} of {groups} would plant {option} at {place} first.").format(
        count=count,
        groups=groups(len(found.voices)),
        option=found.options[option],
        place=where,
    )


def _without_choice(found: Agreement) -> list[str]:
    said = _("Nothing that {group} wants considered can stand here.")
    return [said.format(group=voice.group) for voice in found.voices if not voice.winners]
