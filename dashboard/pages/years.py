"""Years: the site from planting to full size, on the map and as an eye will see it."""

import math
from collections.abc import Mapping
from html import escape
from typing import Any

import panel as pn

from dashboard import theme
from dashboard.live import Drawing
from dashboard.pages import years_words as words
from dashboard.pages.page import Page
from dashboard.pages.years_choices import TREES, Choices, trees_shown
from dashboard.pages.years_clock import Clock
from dashboard.pages.years_layout import LAYOUT, TEXT
from dashboard.plots import side_elevation, years_map
from dashboard.session import Session
from model.growth import GROWTHS, stand_of
from model.growth.elevation import in_order, person_shape, still_shapes, tree_shapes
from model.growth.eyes import Eye
from model.growth.year import Growth, Year
from model.language import _

WIDER = 1.8  # times the eye's field that is drawn, since the page may be wider than it
FIRST_YEAR = 12.0


class Years(Page):
    """One slider of years over a map, a side elevation and what they say."""

    path = "years"
    label = "Years"
    about = "Move the years from planting to full size. Tap the map to look from there."

    def __init__(self, session: Session, **choices: Any) -> None:
        super().__init__(session, **choices)
        self.study = session.study
        self.year = float(session.memory.get("years", {}).get("year", FIRST_YEAR))
        self.choices = Choices(session, self._chosen)
        self.clock = Clock(self._moved, css_classes=["clock"])
        self.grow()
        self.look()
        self.map = Drawing(
            "years",
            years_map.plot(
                self._map_columns(),
                self.study.site.features,
                self.study.ground.places,
                session.feet,
            ),
            self._map_columns(),
            sizing_mode="stretch_both",
            min_height=200,
            stylesheets=[theme.AS_IS],
        )
        self.map.on_tap("shade", self._tapped)
        self.side_view = Drawing(
            "elevation",
            side_elevation.plot(self._elevation_columns()),
            self._elevation_columns(),
            sizing_mode="stretch_both",
            min_height=150,
            stylesheets=[theme.AS_IS],
        )
        self.said = pn.pane.HTML("", stylesheets=[TEXT], css_classes=["said"], margin=0)
        self.table = pn.pane.HTML("", stylesheets=[TEXT], css_classes=["trees"], margin=0)
        self.seen = pn.pane.HTML("", stylesheets=[TEXT], css_classes=["seen"], margin=0)
        self.main = self._layout()
        self.draw()

    def _layout(self) -> pn.Column:
        title = f"<h1 class='unseen'>{escape(_(self.label))}</h1>"
        head = pn.pane.HTML(title, stylesheets=[TEXT], css_classes=["head"], margin=0)
        signs = pn.pane.HTML(key(), stylesheets=[TEXT], css_classes=["key"], margin=0)
        ground = pn.Column(self.map.view, css_classes=["map"], margin=0)
        seen = pn.Column(self.side_view.view, css_classes=["elevation"], margin=0)
        text = pn.Column(
            self.choices.view,
            self.said,
            self.table,
            css_classes=["text"],
            margin=0,
        )
        return pn.Column(
            head, self.clock, ground, signs, self.seen, seen, text,
            sizing_mode="stretch_both", stylesheets=[LAYOUT], css_classes=["years"], margin=0,
        )  # fmt: skip

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        self.grow()
        self.look()
        self.choices.show()
        self.draw()

    def grow(self) -> None:
        """Set the trees that are shown growing from their whips."""
        shown, self.fault = trees_shown(self.session, self.choices.trees)
        self.growth = Growth(self.study, stand_of(self.study, shown), self.choices.growth)
        self.clock.last = int(self.growth.last)
        self.year = min(self.year, self.growth.last)

    def look(self) -> None:
        """Take up the eye of the side elevation, and what it sees that does not grow."""
        self.eye = self.choices.eye(self.growth.stand)
        wide = min(self.eye.width * WIDER, 360.0)
        self.wide = Eye(
            self.eye.label, self.eye.x, self.eye.y, self.eye.height, self.eye.bearing, wide
        )
        grown = tree_shapes(self.growth.stand, self.growth.grown, self.wide)
        self.grown = grown
        near = [s for s in grown if s.kind == "crown" and self._is_in_field(s)]
        near = near or [s for s in grown if s.kind == "neighbour" and self._is_in_field(s)]
        beside = min(near, key=lambda shape: shape.distance) if near else None
        person = person_shape(self.wide, beside, self.study, self.growth.stand)
        self.still = still_shapes(self.study, self.wide) + ((person,) if person else ())

    def _is_in_field(self, shape: Any) -> bool:
        return abs(float(shape.across.mean())) < 0.45 * self.eye.width

    @property
    def now(self) -> Year:
        """The year that is shown."""
        return self.growth.at(self.year)

    def draw(self, settled: bool = True) -> None:
        """Write the year as it now is into everything that shows it."""
        now = self.now
        with pn.io.hold():
            self.clock.year = self.year
            self.map.write(self._map_columns())
            self.side_view.write(self._elevation_columns())
            self.seen.object = f"<h2>{escape(self._seen())}</h2>"
            if not settled:
                return  # a drag moves the pictures; the words follow when it comes to rest
            said = [self.session.shown(one) for one in words.sentences(now)]
            faults = [self.fault] if self.fault else []
            self.said.object = _paragraphs([*faults, *said, self.choices.light_words()])
            self.table.object = words.table(now, self.session.shown)
            self.clock.said = " ".join(said)
            self.session.memory["years"] = self.choices.kept() | {"year": self.year}

    def _seen(self) -> str:
        return _("Seen from {eye}, year {year}").format(
            eye=self.eye.label, year=int(self.year + 1e-6)
        )

    def _map_columns(self) -> dict[str, Any]:
        now, study = self.now, self.study
        share, sun = self.growth.light.shadows(now.crowns, study.day, study.hour)
        self.choices.sun = sun
        met = now.met
        said = [words.meeting_words(one) for one in met]
        stand = self.growth.stand
        return {
            **years_map.light(share, study.ground.places),
            **years_map.layers(stand, now.crowns, self.growth.grown),
            **years_map.met(stand, now.crowns, met, said),
            **years_map.gaze(self.eye),
        }

    def _elevation_columns(self) -> dict[str, Any]:
        now, stand = self.now, self.growth.stand
        trees = tree_shapes(stand, now.crowns, self.wide)
        named = [
            (s, self.session.shown(f"{s.label} {now.crowns.height[s.tree]:.1f} m"))
            for s in trees
            if s.kind in ("crown", "neighbour") and self._is_in_field(s)
        ]
        person = next((s for s in self.still if s.kind == "person"), None)
        width = self.eye.width
        covered = {view.label: share for view, share in now.covered}
        window = ""
        if self.eye.view is not None:
            window = _("the view: {share:.0f} % covered").format(
                share=100 * covered[self.eye.view.label]
            )
        return {
            **side_elevation.scene(in_order(self.still + trees)),
            **side_elevation.still(self.eye, self.grown),
            **side_elevation.labels(named, width),
            **side_elevation.person_words(person, self.session.shown("1.7 m"), width),
            **side_elevation.window_words(self.eye, window),
        }

    def _moved(self, year: float, settled: bool) -> None:
        self.year = year
        self.draw(settled)
        if settled:
            self.session.settled()

    def _chosen(self, name: str) -> None:
        """Follow a choice: the trees and their growth, the eye, or the moment of the shade."""
        if name in ("trees", "growth"):
            self.grow()
        if name != "moment":
            self.look()
        self.draw()
        self.session.settled()

    def _tapped(self, x: float, y: float) -> None:
        if self.study.ground.places.inside[self.study.ground.places.nearest(x, y)]:
            self.choices.stand_at(x, y)

    def query(self) -> dict[str, str]:
        """The page's own settings as words of a link."""
        kept = self.choices.kept()
        return {
            "year": f"{self.year:g}",
            "trees": kept["trees"],
            "growth": GROWTHS[self.choices.growth],
            "moment": f"{self.study.day}@{self.study.hour:g}",
        }

    def follow(self, words: Mapping[str, str]) -> list[str]:
        """Set the page as a link says; sentences for what it asks and this site has not."""
        notes = []
        if words.get("trees") in TREES:
            self.choices.trees = words["trees"]
        if words.get("growth") in GROWTHS:
            self.choices.growth = GROWTHS.index(words["growth"])
        try:
            year = float(words.get("year", self.year))
        except ValueError:
            year = math.nan
        if math.isnan(year):
            notes.append(_("The link's year was left out: it is no number."))
        else:
            self.year = min(max(year, 0.0), 50.0)
        self.refresh()
        return notes


def _paragraphs(said: list[str]) -> str:
    first, *rest = said
    return f"<p class='first'>{escape(first)}</p>" + "".join(f"<p>{escape(s)}</p>" for s in rest)


def key() -> str:
    """What the marks of the map mean."""
    signs = (
        ("ours", _("planted tree")),
        ("theirs", _("tree that stands there")),
        ("full", _("full grown")),
        ("roots", _("feeding roots")),
        ("shade", _("shade")),
        ("tight", _("no room left")),
    )
    items = "".join(f"<li><i class='{sign}'></i>{escape(word)}</li>" for sign, word in signs)
    hint = f"<li class='hint'>{escape(_('Tap the map to look from there.'))}</li>"
    return f"<ul aria-label='{escape(_('Key to the map'))}'>{items}{hint}</ul>"
