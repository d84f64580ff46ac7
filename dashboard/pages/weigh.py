"""Weigh: the page a group looks at together, where weights move and consequences follow."""

from collections.abc import Callable, Mapping
from typing import Any

import panel as pn
import panel_material_ui as pmui
import param

from dashboard import links, theme
from dashboard.pages.beside import NOTHING, followed, stepped, words_of
from dashboard.pages.first_look import family_of, nearest_to_tip
from dashboard.pages.ground import GroundMap
from dashboard.pages.here import HereList
from dashboard.pages.kept_sets import kept_set
from dashboard.pages.layout import LAYOUT, cautions
from dashboard.pages.moment import Moment
from dashboard.pages.page import Page
from dashboard.pages.panels import Panels
from dashboard.pages.undo import Undo, alike
from dashboard.pages.weights import TRADE_OFF, Weights
from dashboard.session import Session
from model.comparison import Choice
from model.language import _, marked

TRY = marked("Try it: tap a place on the map, or drag a slider until another tree leads.")
TRIED = "weigh tried"


class Weigh(Page):
    """One study on one screen; the only place that moves its weights and redraws."""

    path = "weigh"
    label = "Weigh"
    about = "Tap a place, move what counts, and see which tree should stand there and why."

    touched = param.String(
        "", doc="The slider last touched: a factor's name, 'family:' and a family, or trade-off."
    )
    factor = param.Integer(0, bounds=(0, None), doc="The factor whose curve is shown.")
    beside = param.Parameter(NOTHING, doc="What the choice stands beside; -1: nothing yet.")

    def __init__(self, session: Session, **choices: Any) -> None:
        study = session.study
        first = nearest_to_tip(study)
        defaults = {"touched": study.factors[first].name, "factor": first}
        super().__init__(session, **defaults | choices)
        self.study, self.undo, self._showing, self._named = study, Undo(), False, ""
        self.picking = False
        self.take_back_button = pmui.Button(
            label=_("Undo"), variant="outlined", size="small", sx=theme.BUTTON
        )
        self.tools = (self.take_back_button,)
        self.weights = Weights(session, self._slider_moved)
        self.side = self.weights.view
        self.weights.sliders.opened = [family_of(study, self.touched)]
        self.ground = GroundMap(session, self._tapped, self._stepped)
        self.here = HereList(session, self._option_chosen, self._factor_chosen)
        self.panels = Panels(session, self.touched, self._curve_moved, self._set_beside)
        self._build()
        self._listen()
        self.draw()

    def _build(self) -> None:
        names = [factor.name for factor in self.study.factors]
        self.main = pn.Column(
            self.ground.view,
            *self.here.ranking,
            self.panels.tabs,
            *self.panels.boxes.values(),
            *self.here.figures,
            pn.pane.HTML(cautions("services" in names), css_classes=["cautions"], margin=0),
            sizing_mode="stretch_both",
            stylesheets=[LAYOUT],
            css_classes=["weigh"],
            margin=0,
        )

    def __panel__(self) -> pn.viewable.Viewable:
        """Weights and page side by side, as a notebook shows them."""
        beside = pn.Column(
            self.take_back_button, self.weights.view, width=300, height=860, scroll=True
        )
        return pn.Row(beside, self.main, sizing_mode="stretch_width", height=880)

    def _listen(self) -> None:
        ground, weights = self.ground, self.weights
        for widget, name in (
            (ground.layer, "layer"),
            (ground.option, "option"),
            (ground.place, "place"),
            (ground.moment.day, "day"),
            (ground.moment.hour, "hour"),
        ):
            widget.param.watch(lambda event, name=name: self._chosen(name, event.new), "value")
        ground.beside.param.watch(lambda event: self._pick(event.new), "value")
        self.panels.tabs.param.watch(lambda _event: self.draw(), "open")
        self.take_back_button.on_click(lambda _event: self.take_back())
        weights.equal.on_click(lambda _event: self.act(self.study.equal_weights))
        weights.sets.param.watch(lambda event: self._use(event.new), "value")
        weights.save.on_click(lambda _event: self._save())
        self.panels.compared.swap.on_click(lambda _event: self._swap())

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        self.draw()

    def draw(self) -> None:
        """Write the study as it now is into everything that shows it."""
        self._showing = True
        try:
            with pn.io.hold():
                moment = Moment(self.study)
                hint = "" if self.session.memory.get(TRIED) else _(TRY)
                self.weights.show(moment, self.touched)
                self.take_back_button.disabled = not len(self.undo)
                self.ground.show(self.other, self.picking)
                self.here.show(moment, self.factor, hint)
                self.panels.show(moment, self.touched, self.factor, self.other)
        finally:
            self._showing = False
        pn.io.push_notebook(self.main)

    @property
    def other(self) -> Choice:
        """What the choice stands beside; the choice itself where nothing was asked for."""
        option, place = self.beside
        return Choice(
            self.study.option if option < 0 else option,
            self.study.place if place < 0 else place,
        )

    def act(self, change: Callable[[], Any], drag: str = "", settled: bool = True) -> None:
        """Make a change that can be taken back, and show what follows from it."""
        before = self.snapshot()
        self.session.memory[TRIED] = True
        change()
        if drag or not alike(before, self.snapshot()):
            self.undo.keep(before, drag)
        self._name("", "")
        if settled:
            self.undo.settle()
        self.draw()
        if settled:
            self.session.settled()

    def take_back(self) -> None:
        """Undo the last step."""
        kept = self.undo.last(self.snapshot())
        if kept is not None:
            self.study.restore(kept["study"])
            self.param.update(**{name: kept[name] for name in ("touched", "factor", "beside")})
        self.draw()
        self.session.settled()

    def snapshot(self) -> dict[str, Any]:
        """All choices of study and page as plain values."""
        own = {"touched": self.touched, "factor": self.factor, "beside": self.beside}
        return {"study": self.study.snapshot()} | own

    def query(self) -> dict[str, str]:
        """The settings as words of a link."""
        shown = {"touched": self.touched, "factor": self.study.factors[self.factor].name}
        return links.query(self.study) | shown | words_of(self.study, self.beside)

    def follow(self, words: Mapping[str, str]) -> list[str]:
        """Set the page as a link says; sentences for what it asks and this site has not."""
        notes = links.follow(self.study, words)
        names = [factor.name for factor in self.study.factors]
        if words.get("touched") in (*self.study.blocks, TRADE_OFF):
            self.touched = words["touched"]
        if words.get("factor") in names:
            self.factor = names.index(words["factor"])
        self.beside = followed(self.study, words)
        self.draw()
        return notes

    def _slider_moved(self, block: str, value: float, settled: bool) -> None:
        def move() -> None:
            self.touched = block
            if block == TRADE_OFF:
                self.study.trade_off = value
                return
            self.study.move_weight(block, value / 100)
            names = [factor.name for factor in self.study.factors]
            if block in names:
                self.factor = names.index(block)

        self.act(move, drag=f"slider {block}", settled=settled)

    def _curve_moved(self, curve: Any, settled: bool) -> None:
        name = self.study.factors[self.factor].name
        settings = self.study.settings[name]
        self.act(lambda: setattr(settings, "curve", curve), drag=f"curve {name}", settled=settled)

    def _tapped(self, x: float, y: float) -> None:
        place = self.study.ground.places.nearest(x, y)
        if self.picking:
            self._set_beside(Choice(self.study.option, place))
        else:
            self.act(lambda: setattr(self.study, "place", place))

    def _stepped(self, east: int, north: int) -> None:
        place = stepped(self.study, east, north)
        self.act(lambda: setattr(self.study, "place", place))

    def _option_chosen(self, option: int) -> None:
        if self.picking:
            self._set_beside(Choice(option, self.study.place))
        else:
            self.act(lambda: setattr(self.study, "option", option))

    def _pick(self, picking: bool) -> None:
        """The next tap on map or ranking says what the choice shall stand beside."""
        if self._showing:
            return
        self.picking = picking
        if picking:
            self.panels.tabs.open = "beside"
        self.draw()

    def _set_beside(self, other: Choice) -> None:
        self.picking = False
        self.act(lambda: setattr(self, "beside", other))
        self.panels.tabs.open = "beside"

    def _factor_chosen(self, factor: int) -> None:
        def look() -> None:
            self.factor, self.touched = factor, self.study.factors[factor].name

        self.act(look)

    def _chosen(self, name: str, value: Any) -> None:
        if not self._showing and value is not None and value != getattr(self.study, name):
            self.act(lambda: setattr(self.study, name, value))

    def _use(self, name: str) -> None:
        chosen = [one for one in self.study.weight_sets if one.name == name]
        if chosen and name != self._named:
            self.act(lambda: self.study.use(chosen[0]))
            self._name(name, chosen[0].about)

    def _name(self, name: str, said: str) -> None:
        self._named = name
        self.weights.name_set(name, said)

    def _swap(self) -> None:
        """Look at what stood beside the choice, with the choice beside it."""
        now, other = Choice(self.study.option, self.study.place), self.other

        def swap() -> None:
            self.study.param.update(option=other.option, place=other.place)
            self.beside = now

        self.act(swap)

    def _save(self) -> None:
        name, said = kept_set(self.session, self.weights)
        if not name:
            return self.weights.say(said)
        self.draw()
        self._name(name, said)
        return self.session.settled()
