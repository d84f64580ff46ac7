"""Two choices side by side as a table: one diverging bar a factor, and the figures of both."""

from collections.abc import Callable
from html import escape

import numpy as np

from dashboard import theme
from model.comparison import Choice, Comparison, points
from model.language import _
from model.study import Study

Shown = Callable[[str], str]
TOLD = 6  # factors with a row of their own; the others are folded
LEAST = 3  # of them, however small
SMALL = 0.005  # score below which a difference is folded too


def title(study: Study, choice: Choice) -> str:
    """An option at a place, with its letter."""
    label = study.options[choice.option].label
    where = study.ground.places.name(choice.place)
    return f"{theme.letter(choice.option)} {label}, {where}"


def titles(study: Study, found: Comparison) -> tuple[str, str]:
    """What tells two choices apart: their places, their options, or both."""
    names = [title(study, choice) for choice in (found.one, found.other)]
    if found.one.option == found.other.option:
        names = [study.ground.places.name(choice.place) for choice in (found.one, found.other)]
    elif found.one.place == found.other.place:
        names = [
            f"{theme.letter(choice.option)} {study.options[choice.option].label}"
            for choice in (found.one, found.other)
        ]
    return names[0], names[1]


def summary(study: Study, found: Comparison, shown: Shown) -> str:
    """Both scores and what lies between them, and what rules either out."""
    one, other = titles(study, found)
    scores = [f"{100 * score:.0f}" for score in found.scores]
    said = [
        _("{one} {score}, {other} {other_score} of 100.").format(
            one=one, score=scores[0], other=other, other_score=scores[1]
        )
    ]
    for name, reason in zip((one, other), found.reasons, strict=True):
        if reason:
            said.append(_("{name} is ruled out: {why}.").format(name=name, why=shown(reason)))
    if any(found.reasons):
        said.append(_("The bars show how they would score were nothing ruled out."))
    return " ".join(capital(sentence) for sentence in said)


def difference_table(study: Study, found: Comparison, shown: Shown) -> str:
    """Diverging bars by size of difference, the small ones folded into one line."""
    order = np.argsort(-np.abs(found.parts), kind="stable")
    told = [
        int(n)
        for rank, n in enumerate(order[:TOLD])
        if abs(found.parts[n]) >= SMALL or (rank < LEAST and found.parts[n] != 0)
    ]
    rest = [int(n) for n in order if int(n) not in told]
    one, other = (escape(name) for name in titles(study, found))
    widest = float(np.abs(found.parts).max()) or 1.0
    head = (
        f'<thead><tr><th scope="col">{escape(_("Factor"))}</th>'
        f'<th scope="col">{one}</th><th scope="col" class="ends">'
        f"<span>\N{LEFTWARDS ARROW} {escape(_('less'))}</span>"
        f"<span>{escape(_('more'))} \N{RIGHTWARDS ARROW}</span></th>"
        f'<th scope="col">{other}</th></tr></thead>'
    )
    caption = escape(
        _("What each factor adds to the lead of {one}, in points of 100").format(
            one=titles(study, found)[0]
        )
    )
    body = "".join(row(study, found, number, widest, shown) for number in told)
    total = f"{100 * found.lead:+.0f}".replace("-", "\N{MINUS SIGN}")
    foot = ""
    if rest:
        others = found.parts[rest].sum()
        label = escape(_("{count} others").format(count=len(rest)))
        foot = f'<tr><th scope="row">{label}</th><td></td>{bar(others, widest)}<td></td></tr>'
    foot += (
        f'<tr class="total"><th scope="row">{escape(_("Together"))}</th><td></td>'
        f"<td><b>{total}</b></td><td></td></tr>"
    )
    folded = ""
    if rest:
        rows = "".join(row(study, found, number, widest, shown) for number in rest)
        more = escape(_("The {count} others").format(count=len(rest)))
        folded = (
            f"<details><summary>{more}</summary><table><caption class='unseen'>{more}</caption>"
            f"{head}<tbody>{rows}</tbody></table></details>"
        )
    return (
        f"<table><caption>{caption}</caption>{head}<tbody>{body}</tbody>"
        f"<tfoot>{foot}</tfoot></table>{folded}"
    )


def row(study: Study, found: Comparison, number: int, widest: float, shown: Shown) -> str:
    """One factor: the figures of both and the bar between them."""
    factor = study.factors[number]
    one, other = (
        escape(shown(theme.figure_text(float(figure), factor.decimals, factor.unit)))
        for figure in found.figures[number]
    )
    tone = theme.family_colour(factor.group)
    return (
        f'<tr><th scope="row">{escape(_(factor.label))}</th><td>{one}</td>'
        f"{bar(float(found.parts[number]), widest, tone)}<td>{other}</td></tr>"
    )


def bar(part: float, widest: float, tone: str = theme.CONTENDER) -> str:
    """A bar to the right where the factor speaks for the first choice, else to the left."""
    length = 42 * min(abs(part) / widest, 1.0)
    side = "left" if part >= 0 else "right"
    figure = f"{100 * part:+.0f}".replace("-", "\N{MINUS SIGN}")
    if figure in ("+0", "\N{MINUS SIGN}0"):
        figure = "0"
    place = f"{side}:calc(50% + {length:.1f}% + 3px)"
    return (
        f'<td class="bar"><i style="{side}:50%;width:{length:.1f}%;background:{tone}"></i>'
        f'<span style="{place}">{figure}</span></td>'
    )


def capital(sentence: str) -> str:
    """A sentence with its first letter large, unless it begins with an option's letter."""
    first, _space, _rest = sentence.partition(" ")
    return sentence if len(first) < 3 else sentence[:1].upper() + sentence[1:]


def lead_words(study: Study, found: Comparison) -> str:
    """Which of the two scores more, and by how much."""
    one, other = titles(study, found)
    if abs(found.lead) < SMALL:
        said = _("{one} and {other} score the same.").format(one=one, other=other)
        return capital(said)
    best, least = (one, other) if found.lead > 0 else (other, one)
    said = _("{best} is {points} ahead of {least}.").format(
        best=best, points=points(abs(found.lead)), least=least
    )
    return capital(said)
