"""Up to three trees side by side, trait by trait, what differs said in words."""

from html import escape

from dashboard.pages.trees_card import trait_line, trait_values, value_words
from dashboard.pages.trees_meanings import STATUS
from dashboard.pages.trees_rows import (
    about_size,
    bloom_days,
    land_words,
    picking_days,
)
from dashboard.pages.trees_work import TreesWork
from model.language import _
from model.trees import Option
from model.trees.card import CARD
from model.trees.vocabulary import VOCABULARY


def comparison(work: TreesWork, options: tuple[Option, ...]) -> str:
    """The table of the trees compared, or what to do to compare."""
    title = f"<h2>{escape(_('Side by side'))}</h2>"
    if len(options) < 2:
        said = _("Press Compare beside two or three trees of the table to see how they differ.")
        chosen = _("Chosen so far: {tree}.").format(tree=options[0].label) if options else ""
        return f"{title}<p>{escape(said)}</p><p>{escape(chosen)}</p>"
    rows = [*_first_rows(work, options), *_trait_rows(work, options)]
    differing = [row for row in rows if len(set(row[1])) > 1]
    alike = [row for row in rows if len(set(row[1])) == 1]
    said = _("{differ} of {count} traits differ.").format(differ=len(differing), count=len(rows))
    body = "".join(_row(*row, differs=True) for row in differing)
    body += "".join(_row(*row, differs=False) for row in alike)
    heads = "".join(f"<th scope='col'>{escape(option.label)}</th>" for option in options)
    first = f"<th scope='col'>{escape(_('Trait'))}</th>"
    label = escape(_("Traits side by side"), quote=True)
    return (
        f"{title}<p>{escape(said)}</p>"
        f"<div class='scroll' tabindex='0' role='region' aria-label='{label}'>"
        f"<table><caption>{escape(_('What differs stands first'))}</caption>"
        f"<thead><tr>{first}{heads}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _row(label: str, cells: list[str], *, differs: bool) -> str:
    said = _("differs") if differs else _("the same")
    made = "".join(f"<td>{escape(cell)}</td>" for cell in cells)
    return (
        f"<tr class='{'differs' if differs else ''}'><th scope='row'>{escape(label)}"
        f"<span class='small'>{escape(said)}</span></th>{made}</tr>"
    )


def _first_rows(work: TreesWork, options: tuple[Option, ...]) -> list[tuple[str, list[str]]]:
    """What matters first: size, weeks and fit on this land."""
    numbers = [work.number[option] for option in options]
    height, spread = work.here.size.height[:, :, 0], work.here.size.spread[:, :, 0]
    shown = work.session.shown
    return [
        (_("Full height here"), [shown(about_size(*height[:, n])) for n in numbers]),
        (_("Full spread here"), [shown(about_size(*spread[:, n])) for n in numbers]),
        (_("In flower here"), [bloom_days(work, n) for n in numbers]),
        (_("Picked"), [picking_days(work, n) for n in numbers]),
        (_("On this land"), [land_words(work, n) or _("fits") for n in numbers]),
    ]


def _trait_rows(work: TreesWork, options: tuple[Option, ...]) -> list[tuple[str, list[str]]]:
    values = [trait_values(work, option) for option in options]
    rows = []
    for place in CARD:
        if not any(place in known for known in values):
            continue
        table, trait = place
        cells = []
        for known in values:
            if place not in known:
                cells.append(_("not known"))
                continue
            made = trait_line(work, table, trait, known[place])
            words = work.session.shown(value_words(made))
            cells.append(f"{words} ({_(STATUS[made.status][1])})")
        label = VOCABULARY[table][trait].label.removesuffix(", northern hemisphere")
        whose = _("rootstock: {label}").format(label=_(label))
        rows.append((whose if table == "rootstocks" else _(label), cells))
    return rows
