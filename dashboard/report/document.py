"""The whole document as one HTML file that asks for nothing outside itself."""

import tomllib
from functools import cache
from importlib.resources import files
from pathlib import Path

from dashboard.report import grounds, lists, overturn, reasons, the_site
from dashboard.report.brief import PARTS, Brief
from dashboard.report.cautions import cautions
from dashboard.report.findings import Findings
from dashboard.report.site_map import key, map_picture, sheet_of
from dashboard.report.tags import clean, paragraphs, tag, words
from dashboard.units import spoken
from dashboard.version import VERSION
from model.language import DAY_AND_YEAR, _, dated, language_code, marked
from model.study import Study

HERE = Path(__file__).parent
INVENTED = marked(
    "Invented for teaching: there is no such land, and no figure here may be used for a decision "
    "about real land."
)
SHEETS = {"A4": "A4", "Letter": "letter"}


def document(found: Findings, brief: Brief) -> str:
    """The report as HTML: for a screen of any width, and for paper."""
    title = title_of(found.study, brief)
    parts = [(name, heading, html) for name, heading, html in sections(found, brief) if html]
    body = "".join(
        f'<section id="{name}"><h2>{number}. {words(heading)}</h2>{html}</section>'
        for number, (name, heading, html) in enumerate(parts, start=1)
    )
    contents = "".join(
        f'<li><a href="#{name}">{number}. {words(heading)}</a></li>'
        for number, (name, heading, _html) in enumerate(parts, start=1)
    )
    policy = "default-src 'none'; img-src data:; style-src 'unsafe-inline'"
    return (
        f'<!DOCTYPE html>\n<html lang="{language_code()}"><head><meta charset="utf-8">'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<meta name="generator" content="{words(maker())}">'
        f"<title>{words(title)}</title><style>{styles(brief, title)}</style></head><body><main>"
        f"{head(found, brief)}{summary(found, brief)}{cautions(found, feet=brief.feet)}"
        f'<nav aria-label="{words(_("Contents"))}"><h2>{words(_("Contents"))}</h2>'
        f"<ul>{contents}</ul></nav>{body}{end(brief)}</main></body></html>\n"
    )


def sections(found: Findings, brief: Brief) -> list[tuple[str, str, str]]:
    """Name, heading and HTML of every numbered part; empty ones are left out."""
    feet, planned = brief.feet, found.plan is not None
    wanted = lambda part, html: html() if brief.has(part) else ""  # noqa: E731 -- one line
    why = wanted("reasons", lambda: reasons.reasons(found, feet=feet))
    recommended = reasons.trees_table(found, feet=feet)
    if why:
        about = _(
            "For each tree the three factors that bring most to its score, with the points each "
            "brings of those it could bring, and the two that cost it most."
        )
        why = tag("p", about) + why
    overturned = wanted(
        "overturn",
        lambda: overturn.alternatives(found, feet=feet) + overturn.overturning(found, feet=feet),
    )
    sources = wanted("sources", lambda: grounds.tree_figures(found) + grounds.factor_sources(found))
    return [
        ("site", _("The job and the site"), site(found, brief)),
        ("recommendation", _("The recommendation"), recommended),
        ("reasons", _("Reasons, tree by tree"), why),
        ("overturn", _("Alternatives, and what would overturn it"), overturned),
        ("weights", _("What was weighed"), wanted("weights", lambda: overturn.weighing(found))),
        ("list", _("Shopping list"),
         wanted("list", lambda: lists.shopping(found, feet=feet) if planned else "")),
        ("calendar", _("Calendar"),
         wanted("calendar", lambda: lists.tasks(found, feet=feet) if planned else "")),
        ("effort", _("Walking and watering"),
         wanted("effort", lambda: lists.effort_table(found, feet=feet) if planned else "")),
        ("assumptions", _("Assumptions"),
         wanted("assumptions", lambda: grounds.assumptions(found, feet=feet))),
        ("sources", _("Figures of the trees, and sources"), sources),
    ]  # fmt: skip


def title_of(study: Study, brief: Brief) -> str:
    """What the report is called: as typed in, else after the site."""
    return brief.title or _("Where to plant: {site}").format(site=study.site.name)


def head(found: Findings, brief: Brief) -> str:
    """The site, for whom and by whom, when and by what."""
    lines = [
        (_("Site"), found.study.site.name),
        (_("Prepared for"), brief.prepared_for or "\N{EN DASH}"),
        (_("Prepared by"), brief.prepared_by or "\N{EN DASH}"),
        (_("Reference"), brief.reference),
        (_("Date"), dated(found.day, DAY_AND_YEAR)),
        (_("Computed by"), maker()),
    ]
    rows = "".join(
        f"<div><dt>{words(name)}</dt><dd>{words(said)}</dd></div>" for name, said in lines if said
    )
    invented = tag("p", _(INVENTED), "invented") if is_invented(found.study) else ""
    title = words(title_of(found.study, brief))
    return f"<header><h1>{title}</h1><dl>{rows}</dl>{invented}</header>"


def summary(found: Findings, brief: Brief) -> str:
    """The recommendation in short."""
    said = [spoken(one, brief.feet) for one in reasons.in_short(found)]
    return f'<section class="short"><h2>{words(_("In short"))}</h2>{paragraphs(said)}</section>'


def site(found: Findings, brief: Brief) -> str:
    """The job, the site in lines, the map."""
    job = brief.job or _("Asked was which fruit tree, on which rootstock, should stand where.")
    about = _(
        "1 : {scale} when printed at full size. North is up; coordinates are in metres from the "
        "origin of the survey."
    ).format(scale=sheet_of(found.study, found.spots).scale)
    signs = {spot.name: f" ({spot.label})" for spot in found.spots if found.plan}
    pegs = [
        f"{number} {spot.name}{signs.get(spot.name, '')}"
        for number, spot in enumerate(found.study.site.spots, start=1)
    ]
    named = _("Pegs: {pegs}.").format(pegs=", ".join(pegs)) if pegs else ""
    caption = f"<figcaption>{words(about)} {words(named)}</figcaption>"
    return (
        f"{paragraphs(job.splitlines())}{the_site.the_site(found, feet=brief.feet)}"
        f"<figure>{map_picture(found, feet=brief.feet)}{key(found)}{caption}</figure>"
    )


def end(brief: Brief) -> str:
    """What was left out, and where to sign."""
    gone = [_(said) for name, said in PARTS.items() if not brief.has(name)]
    left = _("Left out of this report: {parts}.").format(parts=", ".join(gone)) if gone else ""
    said = _(
        "I have read this report against the site. It advises on where trees would do well, under "
        "the weights and assumptions stated, and is no survey of services, structures or slopes."
    )
    lines = "".join(
        f"<div><dt>{words(name)}</dt><dd>{words(value)}</dd></div>"
        for name, value in ((_("Name"), brief.prepared_by), (_("Signed"), ""), (_("Date"), ""))
    )
    return (
        f'<footer>{tag("p", left) if left else ""}<section class="sign">'
        f"<h2>{words(_('Signature'))}</h2><p>{words(said)}</p><dl>{lines}</dl></section></footer>"
    )


def maker() -> str:
    """By what it was computed."""
    return f"Treestead {VERSION}"


def is_invented(study: Study) -> bool:
    """Whether the land is that of a demo: by its name, or because its origin is a demo's."""
    site = study.site
    return "invented" in site.name.lower() or (site.latitude, site.longitude) in _demo_origins()


@cache
def _demo_origins() -> frozenset[tuple[float, float]]:
    found = []
    for folder in Path(str(files("demo_data"))).iterdir():
        if (folder / "site.toml").is_file():
            read = tomllib.loads((folder / "site.toml").read_text(encoding="utf-8"))
            found.append((float(read["latitude"]), float(read["longitude"])))
    return frozenset(found)


def styles(brief: Brief, title: str) -> str:
    """The style sheet, with the paper and what is printed in the margins."""
    sheet = (HERE / "report.css").read_text(encoding="utf-8")
    paper = SHEETS.get(brief.paper, next(iter(SHEETS)))
    page, of = _css(_("Page") + " "), _css(" " + _("of") + " ")
    return (
        f"@page {{ size: {paper}; margin: 18mm 17mm 18mm 17mm; "
        f"@top-left {{ content: {_css(title)}; }} "
        f"@bottom-left {{ content: {_css(maker())}; }} "
        f"@bottom-right {{ content: {page} counter(page) {of} counter(pages); }} }}\n{sheet}"
    )


def _css(text: str) -> str:
    r"""A text as a string of CSS: every sign but letters and digits by its number.

    Blanks as well, since CSS takes one after a number for the number's end.

    >>> print(_css("a <b"))
    "a\000020\00003cb"
    """
    signs = (one if one.isascii() and one.isalnum() else f"\\{ord(one):06x}" for one in clean(text))
    return f'"{"".join(signs)}"'
