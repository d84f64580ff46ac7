"""The teacher's controls of a vote: nothing here works without the owner's key."""

from collections.abc import Callable
from html import escape
from io import StringIO
from typing import Any, Protocol
from urllib.parse import urlencode

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.pages.group_results import LOOK
from dashboard.votes.ballots import Session as Vote
from model.language import _

WIDE: dict[str, Any] = {"sizing_mode": "stretch_width", "margin": (4, 0)}


class Steered(Protocol):
    """What the controls steer."""

    def begin(self) -> None: ...  # noqa: D102 -- as the page says
    def end(self) -> None: ...  # noqa: D102 -- as the page says
    def steer(self, act: str, *more: str) -> None: ...  # noqa: D102 -- as the page says
    def tell(self, address: str) -> None: ...  # noqa: D102 -- as the page says
    def export(self) -> str: ...  # noqa: D102 -- as the page says


class Controls:
    """Buttons in the order in which a lesson needs them; what would lose ballots asks twice."""

    def __init__(self, page: Steered) -> None:
        self.begin = _button(_("Start a session"), page.begin, "contained")
        self.begin.param.update(sizing_mode=None, width=280)
        self.address = pmui.TextInput(label=_("Address that phones are told"), **WIDE)
        self.address.param.watch(lambda event: self._told(page, event.new), "value")
        self.freeze = _button(_("Freeze"), lambda: self._turn(page))
        self.reveal = _button(_("Reveal"), lambda: page.steer("reveal"), "contained")
        self.again = _button(_("Second vote"), lambda: page.steer("next_round"))
        self.reset = Twice(
            _("Reset"), _("Delete all ballots and begin anew?"), lambda: page.steer("reset")
        )
        self.end = Twice(_("End"), _("Delete the vote and its ballots?"), page.end)
        self.who = pmui.Select(label=_("A name that is out of place"), options=[], **WIDE)
        self.strike = _button(_("Strike it"), lambda: self._strike(page))
        self.names = pn.pane.HTML("", stylesheets=[LOOK], **WIDE)
        self.wall = pn.pane.HTML("", stylesheets=[LINK], **WIDE)
        self.export = pmui.FileDownload(
            label=_("Ballots as CSV"), filename="ballots.csv", variant="outlined",
            callback=lambda: StringIO(page.export()), **WIDE,
        )  # fmt: skip
        self._open, self._shown = True, ""

    @property
    def steering(self) -> tuple[Any, ...]:
        """The controls of a vote under way."""
        head = pn.pane.HTML(f"<h2>{escape(_('The vote'))}</h2>", stylesheets=[LOOK], **WIDE)
        last = pn.Row(self.reset.button, self.end.button, **WIDE)
        return (
            head, self.wall, self.freeze, self.reveal, self.again, self.names, self.who,
            self.strike, self.export, last,
        )  # fmt: skip

    def show(self, vote: Vote | None, names: list[str], base: str) -> None:
        """Offer what can be done as the vote stands."""
        self.begin.visible = vote is None
        self.reset.calm()
        self.end.calm()
        if vote is None:
            return
        self._open = vote.state == "open"
        self.freeze.label = _("Freeze") if self._open else _("Open again")
        self.reveal.disabled = vote.state == "revealed" or not names
        self.again.label = _("Vote again (vote {round})").format(round=vote.round + 1)
        self.again.disabled = vote.state == "open"
        self.who.options = names
        self.who.visible = self.strike.visible = bool(names)
        self._shown = self.address.value = base
        self.names.object = arrived(names)
        query = urlencode({"code": vote.code, "join": base})
        said = escape(_("Open the wall view"))
        self.wall.object = f'<a href="wall?{escape(query)}" target="_blank">{said}</a>'

    def _turn(self, page: Steered) -> None:
        page.steer("freeze" if self._open else "open")

    def _strike(self, page: Steered) -> None:
        if self.who.value:
            page.steer("strike", self.who.value)

    def _told(self, page: Steered, address: str) -> None:
        if address != self._shown:
            page.tell(address)


class Twice:
    """A button that acts at the second press, since what it does cannot be taken back."""

    def __init__(self, label: str, question: str, act: Callable[[], None]) -> None:
        self._label, self._question, self._act, self._asked = label, question, act, False
        self.button = _button(label, self._pressed)

    def calm(self) -> None:
        """Ask again from the start."""
        self._asked, self.button.label = False, self._label

    def _pressed(self) -> None:
        if self._asked:
            self.calm()
            self._act()
        else:
            self._asked, self.button.label = True, self._question


def arrived(names: list[str]) -> str:
    """Who has sent; the weights stay private until they are revealed."""
    said = ", ".join(names) if names else _("None yet. Weights stay private until you reveal.")
    return f"<h2>{escape(_('Ballots'))}</h2><p>{escape(said)}</p>"


def _button(label: str, act: Callable[[], None], variant: str = "outlined") -> pmui.Button:
    button = pmui.Button(label=label, variant=variant, **WIDE)
    button.on_click(lambda _event: act())
    return button


LINK = f"""
a {{ display: block; padding: 9px; border: 1px solid {theme.INK}; border-radius: 4px;
  color: {theme.INK}; text-align: center; text-decoration: none;
  font: 600 14px/1.4 {theme.FONT}; }}
a:hover {{ background: #f1f3f4; }}
"""
