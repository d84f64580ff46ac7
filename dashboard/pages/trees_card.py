"""The card of one tree: its size by a person, who flowers with it, every trait and its source."""

from html import escape

import numpy as np

from dashboard.pages.trees_drawing import size_drawing
from dashboard.pages.trees_meanings import GROUPS, MEANING, REST, STATUS
from dashboard.pages.trees_rows import (
    bloom_days,
    fruit,
    land_words,
    picking_days,
)
from dashboard.pages.trees_work import FULL_GROWN, TreesWork
from model.language import _
from model.trees import Option, size_at_age
from model.trees.card import CARD, Line, day_in_words, line
from model.trees.choosing import HALF_A_YEAR, YEAR
from model.trees.value import Value
from model.trees.vocabulary import VOCABULARY
from model.trees_here import partners_of_one

WHIP = np.array([[1.2], [0.4]])  # [m] height and spread on planting (common practice)
NAMED = 10  # partners named before 'and so many more'


def head(work: TreesWork, option: Option) -> str:
    """What one wants to know first, in sentences."""
    number = work.number[option]
    low, typical, high = work.here.size.height[:, number, 0]
    wide = work.here.size.spread[1, number, 0]
    wrong = land_words(work, number)
    by = "" if work.here.bloom_is_here else _(" (by the catalogue, no weather is known here)")
    said = [
        _("{fruit}, for {use}.").format(
            fruit=fruit(option.species).capitalize(),
            use=work.here.uses[number] or _("a use not known"),
        ),
        _(
            "Full grown here about {h:.1f} m tall ({low:.1f} to {high:.1f} m), {wide:.1f} m across."
        ).format(h=typical, low=low, high=high, wide=wide),
        _("In flower {bloom}{by}; picked {picked}.").format(
            bloom=bloom_days(work, number), by=by, picked=picking_days(work, number)
        ),
        _("On this land: {wrong}.").format(wrong=wrong)
        if wrong
        else _("Its needs fit the usual climate and soil of this land."),
    ]
    body = "".join(f"<p>{escape(work.session.shown(one))}</p>" for one in said)
    return f"<h2>{escape(option.label)}</h2>{body}"


def drawing(work: TreesWork, option: Option, years: int) -> str:
    """Small, usual and large as they stand so many years after planting; 0 is full grown."""
    number = work.number[option]
    full = np.array([work.here.size.height[:, number, 0], work.here.size.spread[:, number, 0]])
    now = full
    if 0 < years < FULL_GROWN:
        traits = work.here.traits
        rate, power = traits.growth_rate[number], traits.growth_power[number]
        grown = size_at_age(full, years, rate, power, planted=WHIP)
        now = np.where(np.isfinite(grown), grown, full)
    return size_drawing(now, full, (_("small"), _("usual"), _("large")), work.session.shown)


def partners(work: TreesWork, option: Option) -> str:
    """Who flowers with it: on the short list, on the land, in the catalogue."""
    number = work.number[option]
    if work.here.traits.pollination[number] == "none needed":
        return f"<h3>{_('Partners in flower')}</h3><p>{_('It needs no pollen.')}</p>"
    able = partners_of_one(work.study, option)
    listed = [one for one in able if one in {o.cultivar for o in work.study.options}]
    standing = [one for one in work.study.ground.partners.cultivars if one in able]
    rest = [one for one in able if one not in listed]
    rows = [
        (_("On the short list"), listed),
        (_("Standing on or by the land"), standing),
        (_("Others in the catalogue"), rest),
    ]
    body = "".join(
        f"<dt>{escape(label)}</dt><dd>{escape(_named(names))}</dd>" for label, names in rows
    )
    return f"<h3>{escape(_('Partners in flower'))}</h3><dl>{body}</dl>"


def _named(names: list[str]) -> str:
    if not names:
        return _("none")
    more = len(names) - NAMED
    end = _(" and {more} more").format(more=more) if more > 0 else ""
    return ", ".join(names[:NAMED]) + end


def trait_values(work: TreesWork, option: Option) -> dict[tuple[str, str], Value]:
    """Every value known of an option, by table and trait."""
    keys: dict[str, tuple[str, ...]] = {
        "cultivars": (option.species, option.cultivar),
        "rootstocks": (option.rootstock, option.species),
    }
    found = {
        (table, trait): work.study.catalogue.value(table, keys[table], trait)
        for table, trait in CARD
    }
    return {place: value for place, value in found.items() if value is not None}


def trait_line(work: TreesWork, table: str, trait: str, value: Value) -> Line:
    """A value in words; days of the year in the site's hemisphere."""
    made = line(table, trait, value, work.study.catalogue.citation(value))
    if VOCABULARY[table][trait].unit != "day of year":
        return made
    shift = 0 if work.here.north else HALF_A_YEAR
    day = day_in_words((value.number + shift - 1) % YEAR + 1)
    return made._replace(label=made.label.removesuffix(", northern hemisphere"), value=day)


def value_words(made: Line) -> str:
    """A value with its unit as one says it.

    >>> value_words(Line("wind", "3", "class 1-5", "", "memory"))
    '3 of 5'
    """
    if made.unit == "class 1-5":
        return _("{value} of 5").format(value=made.value)
    if made.unit == "x":
        return _("{value} times").format(value=made.value)
    unit = "" if made.unit in ("group", "1") else made.unit.replace("C", "\N{DEGREE SIGN}C", 1)
    return f"{made.value} {unit}".strip()


def traits_table(work: TreesWork, option: Option) -> str:
    """Every trait with its unit, source and status."""
    values = trait_values(work, option)
    placed = {trait for traits in GROUPS.values() for trait in traits}
    groups = {**GROUPS, REST: tuple(trait for _table, trait in values if trait not in placed)}
    parts = [f"<p class='key'>{_key()}</p>"]
    for label, traits in groups.items():
        rows = [
            _trait_row(work, table, trait, value)
            for wanted in dict.fromkeys(traits)
            for (table, trait), value in values.items()
            if trait == wanted
        ]
        if rows:
            heads = "".join(
                f"<th scope='col'>{escape(word)}</th>"
                for word in (_("Trait"), _("Value"), _("How sure, and source"))
            )
            parts.append(
                f"<table><caption>{escape(_(label))}</caption><thead><tr>{heads}</tr></thead>"
                f"<tbody>{''.join(rows)}</tbody></table>"
            )
    return f"<h3>{escape(_('Every trait and its source'))}</h3>" + "".join(parts)


def _key() -> str:
    words = [f"{sign} {_(word)}: {_(meaning)}" for sign, word, meaning in STATUS.values()]
    return "<br>".join(map(escape, words))


def _trait_row(work: TreesWork, table: str, trait: str, value: Value) -> str:
    made = trait_line(work, table, trait, value)
    sign, word, _about = STATUS[made.status]
    meaning = MEANING.get(trait, "")
    small = f"<span class='small'>{escape(_(meaning))}</span>" if meaning else ""
    shown = work.session.shown(value_words(made))
    return (
        f"<tr><th scope='row'>{escape(_(made.label).removeprefix('rootstock: '))}{small}</th>"
        f"<td>{escape(shown)}</td>"
        f"<td><b class='{made.status}'>{sign} {escape(_(word))}</b> "
        f"<span class='small'>{escape(made.source)}</span></td></tr>"
    )
