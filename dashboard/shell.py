"""What stands round every page: the row of pages, the drawers, what is being done and said."""

from collections.abc import Callable
from html import escape
from typing import Any

import panel as pn
import panel_material_ui as pmui
from panel.util import edit_readonly

from dashboard import theme
from dashboard.book import FIRST, PAGES
from dashboard.pages.navigation import Navigation, Screen
from dashboard.pages.page import Page
from dashboard.pages.preferences import Preferences
from dashboard.session import Session
from model.language import _

NARROW = f"@media (max-width: {theme.NARROW - 1}px)"
WIDE = f"@media (min-width: {theme.NARROW}px)"
TITLE: dict[str, Any] = {"fontSize": "1.05rem", "fontWeight": 600, "whiteSpace": "nowrap"}
TITLE |= {"maxWidth": "24vw", "overflow": "hidden", "textOverflow": "ellipsis"}
FILLING: dict[str, Any] = {"sizing_mode": "stretch_both", "margin": 0}
UNSEEN = {"position": "absolute", "width": "1px", "height": "1px", "clipPath": "inset(50%)"}
TITLE |= {NARROW: UNSEEN | {"overflow": "hidden"}}
LOOK = {
    "palette": {"primary": {"main": theme.INK}, "background": {"default": theme.PAPER}},
    "typography": {"fontFamily": theme.FONT, "h3": TITLE, "fontSize": 13},
    "breakpoints": {"values": {"xs": 0, "sm": theme.NARROW, "md": 1100, "lg": 1300, "xl": 1700}},
    "mixins": {"toolbar": {"minHeight": 44}},
    "components": {
        "MuiToolbar": {"styleOverrides": {"root": {"minHeight": "44px !important"}}},
        # Parts of the ready-made page that hold nothing: an empty heading, a bar that never moves.
        "MuiTypography": {"styleOverrides": {"h5": {"display": "none"}}},
        "MuiLinearProgress": {"styleOverrides": {"root": {"display": "none"}}},
        # Dark in either light; on a narrow screen the row of pages could not leave a filtered bar.
        "MuiAppBar": {"styleOverrides": {"root": {WIDE: {"filter": "var(--as-is, none)"}}}},
    },
}


class Shell:
    """The frame of one session; it builds a page when it is opened and shows it again later."""

    def __init__(self, session: Session, demo: bool = False) -> None:
        self.session = session
        self.built: dict[str, Page] = {}
        # A page's own layout says how it is displayed, so it is put away by what stands round it.
        self.frames: dict[str, pn.Column] = {}
        self.settled: Callable[[], None] = lambda: None
        self.screen = Screen()
        self.navigation = Navigation(
            [(page.path, _(page.label)) for page in PAGES], self._chosen, label=_("Pages")
        )
        self.preferences = Preferences(session, self.screen, demo)
        self.said = pn.pane.HTML("", stylesheets=[SAID], margin=0, sizing_mode="stretch_width")
        bar = f"<progress aria-label='{escape(_('Under way'))}'></progress>"
        self.bar = pn.pane.HTML(bar, stylesheets=[BAR], margin=0, visible=False)
        self.stack = pn.Column(stylesheets=[STACK], **FILLING)
        self.side = pn.Column(sizing_mode="stretch_width", margin=0)
        self.tools = pn.Row(margin=0, stylesheets=[ON_INK])
        self.drawer = pmui.Drawer(anchor="right", size=320, open=False)
        self.view = self._view()
        self._listen()
        self.open(session.page if session.page in self._paths() else FIRST)

    def _view(self) -> pmui.Page:
        title = self._title()
        settings = pmui.Button(
            label=_("Settings"), variant="outlined", size="small", sx=theme.BUTTON
        )
        settings.on_click(lambda _event: self._settings())
        shell = pmui.Page(
            title=title,
            meta_title=escape(title),  # the template writes it into the page's head as it is
            header=[self._head(settings)],
            sidebar=[self.side],
            main=[self.bar, self.said, self.stack, self.drawer],
            sidebar_width=310,
            sidebar_resizable=False,
            theme_toggle=False,
            busy_indicator=None,
            theme_config=LOOK,
        )
        # Telling the page that it is busy, twice a move, takes longer than the move itself; and the
        # server's own state, which it listened to, would hold the page when its visitor has left.
        with edit_readonly(shell):
            shell.busy = pn.rx(False)
        return shell

    def _title(self) -> str:
        return f"Treestead \N{MIDDLE DOT} {self.session.study.site.name}"

    def _head(self, settings: pmui.Button) -> pn.Row:
        parts = (self.navigation, pn.HSpacer(), self.tools, link_button(), settings, self.screen)
        return pn.Row(*parts, sizing_mode="stretch_width", margin=0, stylesheets=[ON_INK])

    def _listen(self) -> None:
        # What is set before the page has loaded would be lost on its way to the browser.
        self.screen.param.watch(lambda _event: pn.state.onload(self._fit), "narrow")
        session = self.session
        session.param.watch(lambda _event: self._say(), ["doing", "said"])
        session.param.watch(lambda _event: self._anew(), ["study", "feet"])
        session.param.watch(lambda event: self.open(event.new), "page")
        session.settled = self._settled
        self.preferences.save.on_click(lambda _event: self._save())
        self.preferences.back.on_click(lambda _event: self._back())

    def _paths(self) -> list[str]:
        return [page.path for page in PAGES]

    @property
    def page(self) -> Page:
        """The page that is open."""
        return self.built[self.navigation.current]

    def open(self, path: str) -> None:
        """Bring a page into view, built now if it was not."""
        if path not in self._paths():
            return
        if path not in self.built:
            self.built[path] = next(page for page in PAGES if page.path == path)(self.session)
            named = ["framed", f"of-{path}"]
            self.frames[path] = pn.Column(self.built[path].main, css_classes=named, **FILLING)
            self.stack.append(self.frames[path])
        page = self.built[path]
        self.navigation.current = self.session.page = path
        for other, frame in self.frames.items():
            frame.visible = other == path
        self.side.objects = [page.side if page.side is not None else about(page)]
        self.tools.objects = list(page.tools)
        page.refresh()
        self._fit()
        self._settled()

    def query(self) -> dict[str, str]:
        """The page and its settings as words of a link."""
        return {"page": self.session.page} | self.page.query()

    def _chosen(self, path: str) -> None:
        """A person goes to another page; what was said on the one before is behind them."""
        self.session.said = ""
        self.open(path)

    def _anew(self) -> None:
        """Build the pages anew, since what all of them show has changed."""
        self.view.title = self._title()
        self.built.clear()
        self.frames.clear()
        self.stack.clear()
        self.open(self.session.page)

    def _fit(self) -> None:
        wanted = self.page.side is not None and not self.screen.narrow
        if self.view.sidebar_open != wanted:
            self.view.sidebar_open = wanted

    def _settings(self) -> None:
        self.preferences.show()
        if not len(self.drawer):  # sent when it is first wanted
            self.drawer.append(self.preferences.view)
        self.drawer.open = not self.drawer.open

    def _say(self) -> None:
        doing, said = escape(self.session.doing), escape(self.session.said)
        # Two panes: words written anew must not start the bar's fading in from the beginning.
        self.bar.visible = bool(doing)
        words = f"<div class='doing'>{doing}</div>" if doing else ""
        self.said.object = f"<div role='status'>{words}{f'<p>{said}</p>' if said else ''}</div>"

    def _settled(self) -> None:
        self.preferences.show()
        self.settled()

    def _save(self) -> None:
        self.session.save()
        self._settled()

    def _back(self) -> None:
        self.session.give_up()
        self._settled()


def about(page: Page) -> pn.pane.HTML:
    """What to do on a page, for the drawer of a page that puts nothing else there."""
    said = f"<h2>{escape(_(page.label))}</h2><p>{escape(_(page.about))}</p>"
    return pn.pane.HTML(said, stylesheets=[SAID], margin=(8, 12), sizing_mode="stretch_width")


def link_button() -> pmui.Button:
    """Button that copies the address, which carries the settings."""
    button = pmui.Button(label=_("Link"), variant="outlined", size="small", sx=theme.BUTTON)
    button.js_on_click(code="navigator.clipboard?.writeText(window.location.href)")
    return button


def shown(session: Session, demo: bool = False) -> Any:
    """The app for one session, to be displayed."""
    return Shell(session, demo).view


ON_INK = ":host { color: #ffffff; align-items: center; }"
SAID = f"""
:host {{ font: 14px/1.4 {theme.FONT}; color: inherit; }}
h2 {{ font-size: 17px; margin: 4px 0; }}
p {{ margin: 2px 14px; padding: 4px 10px; border-left: 3px solid {theme.ACCENT}; }}
.doing {{ margin: 2px 14px; }}
"""
BAR = f"""
:host {{ opacity: 0; animation: appear 0.2s linear 0.5s forwards; }}
progress {{ width: 160px; margin: 4px 14px 0; accent-color: {theme.ACCENT}; }}
@keyframes appear {{ to {{ opacity: 1; }} }}
"""
STACK = f"{NARROW} {{ :host {{ padding-bottom: 48px; box-sizing: border-box; }} }}"
