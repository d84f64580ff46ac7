"""One session of the app: the page in its shell, and the server that gives each visitor one."""

from collections.abc import Callable
from html import escape
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

import panel as pn
import panel_material_ui as pmui
import param
from panel.custom import JSComponent
from panel.util import edit_readonly

from dashboard import theme
from dashboard.opened import Opened
from dashboard.pages.weigh import Weigh

TITLE = {
    "fontSize": "1.15rem",
    "fontWeight": 600,
    f"@media (max-width: {theme.NARROW - 1}px)": {"fontSize": "0.9rem"},
}
SHELL = {
    "palette": {"primary": {"main": theme.INK}, "background": {"default": theme.PAPER}},
    "typography": {"fontFamily": theme.FONT, "h3": TITLE, "fontSize": 13},
    "breakpoints": {"values": {"xs": 0, "sm": theme.NARROW, "md": 1100, "lg": 1300, "xl": 1700}},
    "mixins": {"toolbar": {"minHeight": 44}},
    "components": {"MuiToolbar": {"styleOverrides": {"root": {"minHeight": "44px !important"}}}},
}


class Screen(JSComponent):
    """Tells whether the window is too narrow to show the weights beside the map."""

    narrow = param.Boolean(default=False, doc="Whether the window is narrow.")

    _esm = f"""
    export function render({{model}}) {{
      const query = window.matchMedia("(max-width: {theme.NARROW - 1}px)")
      const tell = () => model.send_msg({{narrow: query.matches}})
      query.addEventListener("change", tell)
      tell()
    }}
    """

    def _handle_msg(self, data: Any) -> None:
        self.narrow = bool(data.get("narrow"))


def page(weigh: Weigh) -> pmui.Page:
    """The page in its shell: weights in the drawer, everything else in the main part."""
    screen = Screen()
    title = f"Treestead \N{MIDDLE DOT} {weigh.study.site.name}"
    shell = pmui.Page(
        title=title,
        meta_title=escape(title),  # the template writes it into the page's head as it is
        header=[pn.HSpacer(), weigh.take_back_button, link_button(), screen],
        sidebar=[weigh.weights.view],
        main=[weigh.main],
        sidebar_width=310,
        sidebar_resizable=False,
        theme_toggle=False,
        busy_indicator=None,
        theme_config=SHELL,
        sidebar_open="Mobi" not in (pn.state.headers or {}).get("User-Agent", ""),
    )
    # Telling the page that it is busy, twice a move, takes longer than the move itself.
    with edit_readonly(shell):
        shell.busy = False

    def fit() -> None:
        shell.sidebar_open = not screen.narrow

    # What is set before the page has loaded would be lost on its way to the browser.
    screen.param.watch(lambda _event: pn.state.onload(fit), "narrow")
    return shell


def link_button() -> pmui.Button:
    """Button that copies the address, which carries the settings."""
    button = pmui.Button(label="Link", variant="outlined", size="small", sx=theme.BUTTON)
    button.js_on_click(code="navigator.clipboard?.writeText(window.location.href)")
    return button


def session(opened: Opened) -> pmui.Page:
    """A visitor's own study of a folder, set as the link asks, and the page for it."""
    weigh = Weigh(opened.study())
    location = pn.state.location
    if location is not None:
        notes = weigh.follow({key: str(value) for key, value in location.query_params.items()})
        weigh.weights.say(*notes)
        weigh.settled = lambda: setattr(location, "search", f"?{address(weigh.query())}")
    return page(weigh)


def address(query: dict[str, str]) -> str:
    """Settings as the part of an address after the question mark, still readable."""
    return urlencode(query, safe=":~,", quote_via=quote)


def serve(
    folder: str | Path, port: int = 5010, show: bool = True, say: Callable[[str], None] = print
) -> None:
    """Serve the app on a folder until it is stopped; OSError when the port is taken."""
    opened = Opened(folder)
    opened.prepare(say)
    pn.serve(
        {"/": lambda: session(opened)},
        port=port,
        show=show,
        title="Treestead",
        websocket_origin=[f"localhost:{port}", f"127.0.0.1:{port}"],
    )
