"""Every assumption and every source: settings, what was not judged, plus-minuses, the catalogue."""

import math
from collections.abc import Sequence
from typing import Any

from dashboard.report.findings import Findings
from dashboard.report.tags import bullets, paragraphs, table, tag, words
from dashboard.units import spoken
from model.language import _, marked
from model.robustness import NOT_ASSUMED, Doubt, doubts
from model.study import Study
from model.survey.plus_minus import DEVIATIONS
from model.trees import Option
from model.trees.card import CARD, line
from model.trees.value import Value

POSITION = "position"
ABREAST = 5  # trees side by side in a table
# How a value came into the catalogue, and the sign that tells it on grey paper.
STATUS = {
    "verified": ("V", marked("seen in the source named")),
    "common": ("C", marked("common practice, no source")),
    "memory": ("M", marked("from memory of the source named, not checked")),
}


def assumptions(found: Findings, *, feet: bool) -> str:
    """Settings that differ from the usual, what was not judged, and how far figures may be off."""
    study = found.study
    shown = [spoken(one, feet) for one in settings(study)]
    usual = _("Every curve and setting of the factors is at its usual value.")
    text = tag("h3", _("Settings that differ from the usual"))
    text += bullets(shown) or tag("p", usual)
    text += tag("h3", _("Not judged"))
    out = [f"{_(label)}: {sentence}" for label, sentence in study.unjudged]
    text += bullets(out) or tag("p", _("Every factor could be judged."))
    text += tag("h3", _("How far figures may be off"))
    about = _(
        "The true figure lies within the plus-minus 19 times in 20. What the survey gives is "
        "marked so; the rest was assumed."
    )
    columns = (_("Figure"), _("Taken as"), _("Plus-minus"), _("Given or assumed"))
    rows = [[spoken(cell, feet) for cell in _doubt_row(one)] for one in _told(found)]
    text += paragraphs([about, _(NOT_ASSUMED)])
    return text + table(_("Figures in doubt"), columns, rows, "small")


def settings(study: Study) -> list[str]:
    """Each setting or curve of a factor that is not at its usual value, in a sentence."""
    said = []
    for factor in study.factors:
        usual, now = factor.settings(), study.settings[factor.name]
        for name, value in now.figures().items():
            if value != usual.figures()[name]:
                doc = str(usual.param[name].doc).rstrip(".")
                said.append(
                    _("{factor}: {setting}: {value} (usual: {usual}).").format(
                        factor=_(factor.label), setting=doc, value=_plain(value),
                        usual=_plain(usual.figures()[name]),
                    )
                )  # fmt: skip
        if now.curve != usual.curve:
            said.append(
                _("{factor}: the curve of how good a figure is was changed to {curve} (usual: "
                  "{usual}).").format(factor=_(factor.label), curve=_curve(now.curve, factor.unit),
                                      usual=_curve(usual.curve, factor.unit))
            )  # fmt: skip
    return said


def _plain(value: Any) -> str:
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    return f"{value:g}" if isinstance(value, float) else str(value)


def _curve(curve: Any, unit: str) -> str:
    knot = _("{worth:g} at {figure:g}")
    pairs = zip(curve.x, curve.y, strict=True)
    knots = ", ".join(knot.format(worth=y, figure=x) for x, y in pairs)
    return f"{knots} {_(unit)}"


def _told(found: Findings) -> list[Doubt]:
    """The doubts, of the rootstocks only those of trees recommended."""
    stocks = {found.study.options[tree.option].rootstock for tree in found.trees}
    return [
        one
        for one in doubts(found.study)
        if not one.subject.rootstock or one.subject.rootstock in stocks
    ]


def _doubt_row(doubt: Doubt) -> tuple[str, ...]:
    value = f"{doubt.value:.3g} {_(doubt.unit)}".strip()
    if doubt.subject.attribute == POSITION:
        value = _("as drawn")
    low, high = (f"{DEVIATIONS * side:.2g}" for side in (doubt.below, doubt.above))
    unit = _(doubt.unit)
    off = f"{high} {unit}" if low == high else f"\N{MINUS SIGN}{low}, +{high} {unit}"
    given = (
        _("given by the survey") if doubt.given else _("assumed: {why}").format(why=_(doubt.source))
    )
    if doubt.subject.rootstock:
        given = _("from the catalogue: {why}").format(why=_(doubt.source))
    return doubt.label, value, off.strip(), given


def tree_figures(found: Findings) -> str:
    """What the catalogue has of every tree recommended, each value with its standing and source."""
    study = found.study
    options = list(dict.fromkeys(study.options[tree.option] for tree in found.trees))
    sources: dict[str, int] = {}
    tables = max(1, math.ceil(len(options) / ABREAST))
    abreast = math.ceil(len(options) / tables)
    text = "".join(
        _figures(study, options[start : start + abreast], sources)
        for start in range(0, len(options), max(abreast, 1))
    )
    signs = "; ".join(f"{sign} {_(said)}" for sign, said in STATUS.values())
    about = _(
        "Each value has a letter for how it came into the catalogue ({signs}), and the number of "
        "its source in the list below, with s where it is that of the whole species."
    )
    listed = "".join(f"<li>{words(one)}</li>" for one in sources)
    return (
        tag("h3", _("Figures of the trees")) + tag("p", about.format(signs=signs)) + text
        + tag("h3", _("Sources of the trees' figures")) + f'<ol class="sources">{listed}</ol>'
    )  # fmt: skip


def _figures(study: Study, options: Sequence[Option], sources: dict[str, int]) -> str:
    columns = [_("Figure"), *(one.label for one in options)]
    rows = []
    for trait_of, trait in CARD:
        found = [study.catalogue.value(trait_of, _key(trait_of, one), trait) for one in options]
        known = [one for one in found if one is not None]
        if known:
            label = _(line(trait_of, trait, known[0], "").label)
            cells = [_value(study, trait_of, trait, one, sources) for one in found]
            rows.append([label, *cells])
    caption = ", ".join(one.label for one in options)
    return table(caption, columns, rows, "small traits", raw=range(1, len(columns)))


def _key(trait_of: str, option: Option) -> tuple[str, str]:
    if trait_of == "rootstocks":
        return option.rootstock, option.species
    return option.species, option.cultivar


def _value(
    study: Study, trait_of: str, trait: str, value: Value | None, sources: dict[str, int]
) -> str:
    if value is None:
        return "\N{EN DASH}"
    shown = line(trait_of, trait, value, study.catalogue.citation(value))
    number = sources.setdefault(shown_source(study, value), len(sources) + 1)
    sign, _said = STATUS[value.status]
    of_species = " s" if value.note.startswith("value of the species") else ""
    text = words(f"{shown.value} {shown.unit}".removesuffix(" 1").strip())
    return (
        f'{text} <span class="status {value.status}">{sign}</span> <sup>{number}{of_species}</sup>'
    )


def shown_source(study: Study, value: Value) -> str:
    """A value's source as it stands in the list."""
    return study.catalogue.citation(value) or _("none given")


def factor_sources(found: Findings) -> str:
    """Where each factor's figures and curves come from."""
    items = "".join(
        f"<div><dt>{words(_(factor.label))}</dt>"
        f"<dd>{''.join(tag('p', _(one)) for one in factor.sources)}</dd></div>"
        for factor in found.study.factors
    )
    return tag("h3", _("Sources of the factors")) + f'<dl class="sources">{items}</dl>'
