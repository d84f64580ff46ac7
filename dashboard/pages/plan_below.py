"""Below the map: trees, shopping list with its prices, calendar, effort, cautions; as files too."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from html import escape
from typing import Any

import pandas as pd
import panel as pn

from dashboard.commands.place import coming_winter
from dashboard.pages import plan_tables
from dashboard.pages import survey_form as form
from dashboard.pages.plan_forms import STOP
from dashboard.pages.plan_tables import TABLES
from dashboard.pages.plan_work import PlanWork
from dashboard.pages.survey_form import Field, Form
from dashboard.pages.weigh_tabs import Tabs
from model.csv_text import csv_text
from model.language import _, marked
from model.planting.buying.needs import needs
from model.planting.buying.prices import CURRENCY, PRICES_FILE, Prices, folded
from model.planting.dates.calendar import calendar
from model.planting.dates.ical import ical
from model.planting.effort.effort import effort
from model.planting.moving_peg import PegMoves
from model.planting.placement import Placement
from model.planting.placement_file import placement_table
from model.planting.plan_words import CAUTION
from model.survey.table import table_text

TABS = {
    "trees": marked("Trees"),
    "list": marked("Shopping list"),
    "calendar": marked("Calendar"),
    "effort": marked("Effort"),
    "cautions": marked("Cautions"),
}
MOST = 1_000_000


@dataclass(frozen=True)
class Reckoned:
    """The tables of one placement with one set of prices."""

    placement: Placement
    prices: Prices
    needs: pd.DataFrame
    calendar: pd.DataFrame
    effort: pd.DataFrame
    winter: int
    moves: PegMoves


class Below:
    """The tabs and what stands under them; reckoned off the server's loop after each step."""

    def __init__(self, work: PlanWork, changed: Callable[[], None]) -> None:
        self.work, self._changed = work, changed
        self.made: Reckoned | None = None
        self._asked: Any = None
        self.tabs = Tabs(
            [(name, _(tab)) for name, tab in TABS.items()], label=_("The plan in lists")
        )
        self.tabs.param.watch(lambda _event: self.show(), "open")
        self.text = pn.pane.HTML("", stylesheets=[TABLES], margin=0, sizing_mode="stretch_width")
        self.form = Form(self._told)
        self.view = pn.Column(
            self.tabs, self.form, self.text, sizing_mode="stretch_width", margin=0
        )

    def reckon(self) -> None:
        """Reckon the tables anew where the plan or the prices have changed."""
        work, placement = self.work, self.work.kept.placement
        if placement is None or not placement.trees:
            self.made = None
            self.show()
            return
        prices = work.prices()
        asked = (placement, prices)
        if self._asked == asked:
            self.show()
            return
        self._asked = asked
        self.show()
        study = work.session.twin()
        winter = coming_winter(date.today(), north=study.site.latitude >= 0)

        order = work.order()

        def reckoned(_progress: Any) -> Reckoned:
            moves = PegMoves(study, order, placement)
            tasks = calendar(study, placement, winter)
            bought = needs(study, placement, prices)
            rounds = effort(study, placement)
            return Reckoned(placement, prices, bought, tasks, rounds, winter, moves)

        def then(made: Reckoned) -> None:
            if self._asked == asked:
                self.made = made
                work.opened(placement, made.moves)
            self.show()
            self._changed()

        work.session.run(_("Reckoning list, calendar and effort"), reckoned, then)

    def show(self) -> None:
        """Write the open tab."""
        with pn.io.hold():
            self.text.object = self._text()
            self.form.fill(self.tabs.open, self._fields())

    def _text(self) -> str:
        work, tab = self.work, self.tabs.open
        placement, shown = work.kept.placement, work.session.shown
        heading = f"<h2>{escape(_(TABS[tab]))}</h2>"
        if placement is None or not placement.trees:
            said = _("Here stand the list of trees, what to buy and what it costs, and what to do "
                     "when: as soon as the order is placed.")  # fmt: skip
            return f"{heading}<p>{escape(said)}</p>"
        if tab == "trees":
            return heading + plan_tables.trees_table(work.study, work.order(), placement, shown)
        made = self.made
        if made is None or made.placement is not placement:
            return f"{heading}<p>{escape(_('Being reckoned.'))}</p>"
        texts = {
            "list": lambda: plan_tables.shopping_table(made.needs, shown),
            "calendar": lambda: plan_tables.calendar_text(made.calendar, shown),
            "effort": lambda: plan_tables.effort_table(made.effort, shown),
            "cautions": lambda: plan_tables.cautions_text(
                (_(CAUTION), _(STOP)), made.calendar, shown
            ),
        }
        return heading + texts[tab]()

    def _fields(self) -> list[Field]:
        if not self.work.trees:
            return []
        files = {
            "trees": [("placement.csv", _("Download placement.csv"))],
            "list": [("shopping_list.csv", _("Download shopping_list.csv"))],
            "calendar": [
                ("calendar.ics", _("Download calendar.ics")),
                ("calendar.csv", _("Download calendar.csv")),
            ],
            "effort": [("effort.csv", _("Download effort.csv"))],
        }.get(self.tabs.open, [])
        ready = self.made is not None and self.made.placement is self.work.kept.placement
        files = files if ready or self.tabs.open == "trees" else []
        fields = [form.buttons("file", *files)] if files else []
        if self.tabs.open == "list" and self.made is not None:
            fields.append({"kind": "fold", "label": _("Your prices"), "fields": self._prices()})
        return fields

    # -- prices ----------------------------------------------------------------------------------

    def _prices(self) -> list[Field]:
        made = self.made
        assert made is not None  # noqa: S101 -- for the type checker; _fields asked
        currency = made.prices.currency or "EUR"
        fields: list[Field] = [
            form.note(_("Kept in prices.csv; left blank: named as having no price."), "help"),
            {"kind": "text", "name": "currency", "label": _("Currency (three letters)"),
             "value": currency},
        ]  # fmt: skip
        names = made.needs.attrs.get("price_names", ())
        for item, row in zip(names, made.needs.to_dict("records"), strict=True):
            each = "" if math.isnan(row["each"]) else form.plain(float(row["each"]))
            label = f"{row['item']}, {row['unit']} [{currency}]"
            fields.append(
                {"kind": "number", "name": f"price {item}", "label": label, "value": each}
            )
        return fields

    def _priced(self, item: str, value: str) -> None:
        prices = self.work.prices()
        items, currency = dict(prices.items), prices.currency or "EUR"
        text = value.strip().replace(",", ".")
        if item == "currency":
            currency = text.upper()
        else:
            try:
                price = float(text) if text else math.nan
            except ValueError:
                price = -1.0
            if price < 0 or price > MOST:
                said = _("{item}: found {found}, expected a price from 0, mend by typing a number")
                self.work.session.said = said.format(item=item, found=value)
                return
            items[folded(item)] = price
        if not CURRENCY.fullmatch(currency):
            said = _("Currency: found {found}, expected three letters such as EUR")
            self.work.session.said = said.format(found=value)
            return
        rows = [(name, "" if math.isnan(one) else one, currency, "") for name, one in items.items()]
        text = table_text(("item", "price", "currency", "note"), rows)
        self.work.session.keep(PRICES_FILE, text)
        self.reckon()
        self._changed()

    # -- files -----------------------------------------------------------------------------------

    def _told(self, name: str, value: Any) -> None:
        if name == "file" and isinstance(value, str):
            content = self.file(value)
            if content is None:
                self.work.session.said = _("Still being reckoned: try again in a moment.")
            else:
                self.form.download(value, content)
        elif name == "currency" or name.startswith("price "):
            self._priced(name.removeprefix("price "), str(value))

    def file(self, name: str) -> bytes | None:
        """One of the plan's files; None while it is being reckoned."""
        work, made, placement = self.work, self.made, self.work.kept.placement
        if placement is None:
            return None
        if name == "placement.csv":
            return csv_text(placement_table(work.study, placement, work.kept.planted)).encode()
        if made is None or made.placement is not placement:
            return None
        if name == "calendar.ics":
            return ical(made.calendar, work.study.site.name, made.winter)
        tables = {
            "shopping_list.csv": made.needs,
            "calendar.csv": made.calendar,
            "effort.csv": made.effort,
        }
        return csv_text(tables[name]).encode() if name in tables else None
