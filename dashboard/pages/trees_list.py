"""Lines with buttons: the short list, the order and one's own trees."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from dashboard.pages.trees_order import OrderRow, meeting
from dashboard.pages.trees_rows import fruit, ident
from dashboard.pages.trees_work import LONGEST_LIST, TreesWork
from model.language import _
from model.planting.buying.prices import read_prices
from model.planting.order import USES, matching, use_of
from model.survey.faults import SurveyFaults

HERE = Path(__file__).parent


class Lines(JSComponent):
    """Blocks of lines. `told(act, id)` is called when a button of a line is pressed."""

    blocks = param.List(default=[], doc="Headings, sentences and lines as plain values.")
    focus = param.String(default="", doc="The button that had the focus before a rebuild.")

    _esm = HERE / "trees_list.js"
    _stylesheets = [(HERE / "trees_list.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, told: Callable[[str, str], None], **settings: Any) -> None:
        super().__init__(**{"sizing_mode": "stretch_width", "margin": 0} | settings)
        self._told = told

    def _handle_msg(self, data: Any) -> None:
        act, value = data.get("name"), data.get("value")
        if isinstance(act, str) and isinstance(value, str):
            self._told(act, value)


def button(act: str, sign: str, label: str, **more: Any) -> dict[str, Any]:
    """A button of a line: its sign, and what it does in words."""
    return {"act": act, "sign": sign, "label": label, **more}


def list_blocks(work: TreesWork) -> list[dict[str, Any]]:
    """The short list, in order, with what it does."""
    options = work.study.options
    said = _(
        "{count} of at most {most} trees. All pages weigh these; their letters follow the order."
    )
    lines = []
    for number, option in enumerate(options):
        best, _place, _on_peg, peg = work.score(option)
        where = work.study.ground.places.name(peg) if peg >= 0 else _("no peg")
        score = (
            _("best {score} of 100, best at {where}").format(score=f"{100 * best:.0f}", where=where)
            if best == best  # noqa: PLR0124 -- NaN is the one value that differs from itself
            else _("ruled out everywhere")
        )
        up = _("Move {tree} up").format(tree=option.label)
        down = _("Move {tree} down").format(tree=option.label)
        gone = _("Remove {tree}").format(tree=option.label)
        lines.append(
            {
                "id": ident(option),
                "label": option.label,
                "note": f"{fruit(option.species)}; {score}",
                "opens": True,
                "buttons": [
                    button("up", "\N{UPWARDS ARROW}", up, disabled=number == 0),
                    button(
                        "down", "\N{DOWNWARDS ARROW}", down, disabled=number == len(options) - 1
                    ),
                    button("remove", "\N{MULTIPLICATION SIGN}", gone),
                ],
            }
        )
    return [
        {
            "heading": _("Short list"),
            "said": [said.format(count=len(options), most=LONGEST_LIST)],
            "lines": lines,
            "acts": _undo(work),
        }
    ]


def _undo(work: TreesWork) -> list[dict[str, Any]]:
    off = not len(work.look.undo)
    return [button("undo", _("Take back"), _("Take back the last step"), disabled=off)]


def order_blocks(work: TreesWork) -> list[dict[str, Any]]:
    """The order line by line, with steppers; and what it comes to."""
    rows = work.order()
    count = sum(row.count for row in rows)
    said = [_("Nothing is ordered yet: add a line below. The Plan page places what stands here.")]
    if rows:
        said = [
            _("{count} trees in {lines} lines, for the Plan page.").format(
                count=count, lines=len(rows)
            ),
            *_costs(work, rows),
        ]
    return [
        {
            "heading": _("Order"),
            "said": said,
            "lines": [_order_line(work, number, row) for number, row in enumerate(rows)],
            "acts": _undo(work),
        }
    ]


def _order_line(work: TreesWork, number: int, row: OrderRow) -> dict[str, Any]:
    met = meeting(work.study, row)
    names = ", ".join(work.study.options[option].label for option in met[:4])
    note = names + (_(" and {more} more").format(more=len(met) - 4) if len(met) > 4 else "")
    wrong = _("Nothing on the short list meets this: add such a tree, or remove this line.")
    return {
        "id": str(number),
        "label": row.label,
        "note": "; ".join(part for part in (note if met else wrong, row.note) if part),
        "bad": not met,
        "count": row.count,
        "buttons": [
            button(
                "fewer",
                "\N{MINUS SIGN}",
                _("One fewer {what}").format(what=row.label),
                disabled=row.count <= 1,
            ),
            button("more", "+", _("One more {what}").format(what=row.label)),
            button(
                "drop",
                "\N{MULTIPLICATION SIGN}",
                _("Remove the line {what}").format(what=row.label),
            ),
        ],
    }


def _costs(work: TreesWork, rows: tuple[OrderRow, ...]) -> list[str]:
    """What the trees cost by prices.csv, from the cheapest to the dearest that meet each line."""
    if work.session.folder is None:
        return []
    try:
        prices = read_prices(work.session.folder, work.study.catalogue)
    except SurveyFaults as error:
        return [str(error)]
    low = high = 0.0
    for row in rows:
        known = [prices.of_tree(work.study.options[option]) for option in meeting(work.study, row)]
        known = [price for price in known if price == price]  # noqa: PLR0124 -- NaN
        if not known:
            return [
                _("Not every price is known: prices.csv has none for {what}.").format(
                    what=row.label
                )
            ]
        low, high = low + row.count * min(known), high + row.count * max(known)
    total = f"{low:.0f}" if round(low) == round(high) else f"{low:.0f} to {high:.0f}"
    return [
        _("The trees alone cost {total} {currency} by your prices.").format(
            total=total, currency=prices.currency
        )
    ]


def wishes(work: TreesWork) -> list[tuple[str, str]]:
    """What may be ordered: each tree of the short list, any of a fruit, any for a use."""
    study = work.study
    found = []
    for species in dict.fromkeys(option.species for option in study.options):
        found.append((f"{species}|||", _("any {fruit}").format(fruit=fruit(species))))
        uses = {use_of(study, option) for option in matching(study, species)}
        for use in USES:
            if use in uses or (use in ("dessert", "cooking") and "dual" in uses):
                label = _("any {use} {fruit}").format(use=_(use), fruit=fruit(species))
                found.append((f"{species}|||{use}", label))
    found += [(f"{ident(option)}|", option.label) for option in study.options]
    return found
