"""The drawer at the right: units, the working copy and the way back to the folder as it was."""

from html import escape

import panel as pn
import panel_material_ui as pmui

from dashboard import theme
from dashboard.pages.navigation import Screen
from dashboard.session import Session
from model.language import _

WIDE = {"sizing_mode": "stretch_width", "margin": (6, 8)}


class Preferences:
    """What a visitor may set for themselves, and what becomes of what they changed."""

    def __init__(self, session: Session, screen: Screen, demo: bool) -> None:
        self.session = session
        self.dark = pmui.Switch(label=_("Light on dark"), value=screen.dark, **WIDE)
        self.feet = pmui.Switch(label=_("Lengths in feet and inches"), value=session.feet, **WIDE)
        self.save = pmui.Button(label=_("Save into the folder"), variant="outlined", **WIDE)
        back = _("Back to the demo") if demo else _("Back to the folder as saved")
        self.back = pmui.Button(label=back, variant="outlined", **WIDE)
        self.state = pn.pane.HTML("", stylesheets=[WORDS], **WIDE)
        self.save.visible = session.saves and not demo
        self.feet.param.watch(lambda event: setattr(session, "feet", event.new), "value")
        self.dark.param.watch(lambda event: setattr(screen, "dark", event.new), "value")
        screen.param.watch(lambda event: setattr(self.dark, "value", event.new), "dark")
        self.view = pn.Column(
            pn.pane.HTML(f"<h2>{escape(_('Settings'))}</h2>", stylesheets=[WORDS], **WIDE),
            self.feet,
            self.dark,
            self.state,
            self.save,
            self.back,
            sizing_mode="stretch_width",
        )
        self.show()

    def show(self) -> None:
        """Say whether the visitor has changed anything, and offer what can be done about it."""
        copy = self.session.copy
        changed = copy is not None and copy.changed
        said = _(
            "Your changes are kept as you go, in a copy of your own; a reload finds them again."
        )
        if not changed:
            said = _("Nothing in the survey, the trees or the plan has been changed yet.")
        self.state.object = f"<p>{escape(said)}</p>"
        self.save.disabled = self.back.disabled = not changed


WORDS = f"""
:host {{ font: 14px/1.4 {theme.FONT}; color: inherit; }}
h2 {{ font-size: 17px; margin: 4px 0; }}
p {{ margin: 2px 0; }}
"""
