"""The wall view: a vote in big type, readable from the back of a room, without any control."""

from html import escape
from typing import Any

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.join.door import join_address, picture
from dashboard.join.reach import base_of
from dashboard.join.voting import Voting
from dashboard.pages.group_results import LOOK, Results
from dashboard.pages.navigation import Screen
from dashboard.votes.ballots import Refused, Session
from model.language import _

EVERY = 1000  # ms between two looks at the store


class Wall:
    """A vote as everyone sees it: how to join and who has sent, then what the groups agree on."""

    def __init__(self, voting: Voting, code: str, base: str) -> None:
        self.voting, self.code, self.base = voting, code, base
        self.version = 0
        self.head = pn.pane.HTML("", stylesheets=[LOOK, LARGE], **STRETCH)
        self.joining = pn.pane.HTML("", stylesheets=[LOOK, LARGE], **STRETCH)
        self.results = Results(size=17, brief=True)
        for pane in (self.results.choices, self.results.said, self.results.caption):
            pane.stylesheets = [LOOK, LARGE]
        right = pn.Column(self.results.choices, self.results.said, css_classes=["right"], **BOTH)
        self.revealed = pn.Row(
            self.results.spread, right, visible=False, stylesheets=[BESIDE], **BOTH
        )
        self.view = pn.Column(self.head, self.joining, self.revealed, stylesheets=[FRAME], **BOTH)

    def begin(self) -> None:
        """Look at the store from now on, until the page is closed."""
        look: Any = self.look  # a coroutine function, which Panel's types do not foresee
        pn.state.add_periodic_callback(look, period=EVERY)

    async def look(self) -> None:
        """Show what changed since the last look, if anything did."""
        try:
            session = await self.voting.off(
                self.voting.store.changed_since, self.code, self.version
            )
            if session is None:
                return
            shown = await self.voting.off(self._found, session)
        except (Refused, ValueError) as error:
            self._say(str(error))
            self.version = 0  # what was shown is not there any more
            return
        self.version = session.version
        with pn.io.hold():
            self.show(session, *shown)

    def show(self, session: Session, place: str, names: list[str], results: Any) -> None:
        """Show a session: the names of those who sent, and the results once they are revealed."""
        self.head.object = headline(session, place, len(names))
        revealed = results is not None
        self.joining.visible = not revealed
        self.revealed.visible = revealed
        if revealed:
            self.results.show(*results)
        else:
            self.joining.object = joining(session, self.base, names)

    def _found(self, session: Session) -> tuple[str, list[str], Any]:
        """Place, names of those who sent, and the results once they are shown; off the loop."""
        voting = self.voting
        names = [ballot.group for ballot in voting.store.ballots(session.code)]
        place, study = voting.judge(session).place_name, voting.study(session)
        if session.state != "revealed" or not names:
            return place, names, None
        found = voting.agreement(session, session.round)
        return place, names, (study, found, voting.movement(session))

    def _say(self, words: str) -> None:
        self.head.object = f"<h1>{escape(words)}</h1>"
        self.joining.object = ""


def headline(session: Session, place: str, count: int) -> str:
    """What is voted on, and how it stands."""
    asked = _("What should stand at {place}?").format(place=place)
    state = {
        "open": _("Vote {round} is open"),
        "frozen": _("Vote {round} is closed"),
        "revealed": _("Vote {round}: what came of it"),
    }[session.state].format(round=session.round)
    sent = _("1 ballot") if count == 1 else _("{count} ballots").format(count=count)
    said = f"{state} \N{MIDDLE DOT} {sent} \N{MIDDLE DOT} {session.code}"
    words = f'<h1>{escape(asked)}</h1><p class="state" role="status">{escape(said)}</p>'
    return f'<div class="head">{words}</div>'


def joining(session: Session, base: str, names: list[str]) -> str:
    """How to join, and who has sent already."""
    chips = "".join(f"<li>{escape(name)}</li>" for name in names)
    none = f"<p>{escape(_('No ballot has arrived yet.'))}</p>"
    arrived = f'<h2>{escape(_("Arrived"))}</h2><ul class="names">{chips}</ul>' if names else none
    if session.state != "open":
        closed = _("Voting is closed. The results come when the teacher reveals them.")
        return f'<div class="arrived"><p>{escape(closed)}</p>{arrived}</div>'
    how = _("Take a picture of this with your phone, or open")
    address = join_address(base, session.code)
    plain = f"{base}/join".removeprefix("http://").removeprefix("https://")
    return f"""<div class="join"><div class="qr">{picture(address)}</div>
<div><p>{escape(how)}</p><p class="address">{escape(plain)}</p>
<p>{escape(_("and type the code"))}</p><p class="code">{escape(session.code)}</p></div></div>
<div class="arrived">{arrived}</div>"""


def wall(voting: Voting) -> Any:
    """The wall view of the vote whose code stands in the address, to be displayed."""
    asked = pn.state.session_args
    code, base = (
        (asked.get(name) or [b""])[0].decode("utf-8", "replace")[:200] for name in ("code", "join")
    )
    shown = Wall(voting, code, voting.reach.public or base_of(base) or "")
    page = pmui.Page(
        title=_("Vote"),
        main=[Screen(), shown.view],
        theme_toggle=False,
        busy_indicator=None,
        theme_config={
            "palette": {"primary": {"main": theme.INK}, "background": {"default": theme.PAPER}},
            "typography": {"fontFamily": theme.FONT},
            "components": {
                "MuiAppBar": {"styleOverrides": {"root": {"display": "none"}}},
                # The room under the bar, which is made of an empty heading.
                "MuiTypography": {"styleOverrides": {"h5": {"display": "none"}}},
            },
            "mixins": {"toolbar": {"minHeight": 0}},
        },
    )
    pn.state.onload(shown.begin)
    return page


STRETCH: dict[str, Any] = {"sizing_mode": "stretch_width", "margin": 0}
BOTH: dict[str, Any] = {"sizing_mode": "stretch_both", "margin": 0}
FRAME = ":host { padding: 0 28px 16px; box-sizing: border-box; }"
BESIDE = f"""
:host {{ gap: 36px; min-height: 0; }}
.spread {{ flex: 1.05 1 0 !important; }} .right {{ flex: 1 1 0 !important; overflow-y: auto; }}
@media (max-width: {theme.NARROW - 1}px) {{
  :host {{ flex-direction: column !important; }}
  .spread {{ min-height: 620px; }}
}}
"""
LARGE = f"""
:host {{ font-size: 19px; }}
.head {{ display: flex; flex-wrap: wrap; align-items: baseline; gap: 0 28px; }}
h1 {{ font-size: 38px; line-height: 1.15; margin: 0; }}
h2 {{ font-size: 23px; }}
.state {{ color: {theme.QUIET}; font-size: 24px; }}
.join {{ display: flex; flex-wrap: wrap; gap: 40px; align-items: center; font-size: 28px; }}
.qr {{ width: min(44vh, 80vw); filter: var(--as-is, none); }}
.qr svg {{ display: block; width: 100%; }}
.address {{ font-size: 34px; font-weight: 600; }}
.code {{ font-size: 110px; line-height: 1.1; font-weight: 700; letter-spacing: 0.08em; }}
.arrived {{ margin-top: 18px; font-size: 24px; }}
.names {{ list-style: none; display: flex; flex-wrap: wrap; gap: 8px 12px; padding: 0; }}
.names li {{ border: 2px solid {theme.QUIET}; border-radius: 8px; padding: 2px 14px; margin: 0; }}
"""
