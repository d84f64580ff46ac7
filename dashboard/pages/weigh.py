"""Weigh: the page a group looks at together, where weights move and consequences follow."""

from collections.abc import Callable, Mapping
from typing import Any

import numpy as np
import panel as pn
import panel_material_ui as pmui
import param

from dashboard import links, theme
from dashboard.pages.change import CurveCard, TippingStrip
from dashboard.pages.ground import GroundMap
from dashboard.pages.here import HereList
from dashboard.pages.layout import LAYOUT, cautions
from dashboard.pages.moment import Moment
from dashboard.pages.page import Page
from dashboard.pages.undo import Undo, alike
from dashboard.pages.weights import TRADE_OFF, Weights
from dashboard.session import Session
from model.opening import save_choices
from model.study import Study


class Weigh(Page):
    """One study on one screen; the only place that moves its weights and redraws."""

    path = "weigh"
    label = "Weigh"
    about = "Tap a place, move what counts, and see which tree should stand there and why."

    touched = param.String(
        "", doc="The slider last touched: a factor's name or 'family:' and a family."
    )
    factor = param.Integer(0, bounds=(0, None), doc="The factor whose curve is shown.")

    def __init__(self, session: Session, **choices: Any) -> None:
        study = session.study
        first = nearest_to_tip(study)
        defaults = {"touched": study.factors[first].name, "factor": first}
        super().__init__(session, **defaults | choices)
        self.study, self.undo, self._showing, self._named = study, Undo(), False, ""
        self.take_back_button = pmui.Button(
            label="Undo", variant="outlined", size="small", sx=theme.BUTTON
        )
        self.tools = (self.take_back_button,)
        self.weights = Weights(study, self._slider_moved)
        self.side = self.weights.view
        self.weights.sliders.opened = [family_of(study, self.touched)]
        self.ground = GroundMap(study, self._tapped)
        self.here = HereList(study, self._option_chosen, self._factor_chosen)
        self.tipping = TippingStrip(study, self.touched)
        self.curve = CurveCard(study, self._curve_moved)
        names = [factor.name for factor in study.factors]
        self.main = pn.Column(
            self.ground.view,
            *self.here.view,
            self.tipping.view,
            self.curve.view,
            pn.pane.HTML(cautions("services" in names), css_classes=["cautions"], margin=0),
            sizing_mode="stretch_both",
            stylesheets=[LAYOUT],
            css_classes=["weigh"],
            margin=0,
        )
        self._listen()
        self.draw()

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
        self.take_back_button.on_click(lambda _event: self.take_back())
        weights.equal.on_click(lambda _event: self.act(self.study.equal_weights))
        weights.sets.param.watch(lambda event: self._use(event.new), "value")
        weights.save.on_click(lambda _event: self._save())

    def refresh(self) -> None:
        """Draw what other pages may have changed meanwhile."""
        self.draw()

    def draw(self) -> None:
        """Write the study as it now is into everything that shows it."""
        self._showing = True
        try:
            with pn.io.hold():
                moment = Moment(self.study)
                self.weights.show(moment, self.touched)
                self.take_back_button.disabled = not len(self.undo)
                self.ground.show()
                self.here.show(moment, self.factor)
                self.tipping.show(moment, self.touched)
                self.curve.show(moment, self.factor)
        finally:
            self._showing = False
        pn.io.push_notebook(self.main)

    def act(self, change: Callable[[], Any], drag: str = "", settled: bool = True) -> None:
        """Make a change that can be taken back, and show what follows from it."""
        before = self.snapshot()
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
            self.param.update(touched=kept["touched"], factor=kept["factor"])
        self.draw()
        self.session.settled()

    def snapshot(self) -> dict[str, Any]:
        """All choices of study and page as plain values."""
        return {"study": self.study.snapshot(), "touched": self.touched, "factor": self.factor}

    def query(self) -> dict[str, str]:
        """The settings as words of a link."""
        shown = {"touched": self.touched, "factor": self.study.factors[self.factor].name}
        return links.query(self.study) | shown

    def follow(self, words: Mapping[str, str]) -> list[str]:
        """Set the page as a link says; sentences for what it asks and this site has not."""
        notes = links.follow(self.study, words)
        names = [factor.name for factor in self.study.factors]
        if words.get("touched") in self.study.blocks:
            self.touched = words["touched"]
        if words.get("factor") in names:
            self.factor = names.index(words["factor"])
        self.draw()
        return notes

    def _slider_moved(self, block: str, value: float, settled: bool) -> None:
        def move() -> None:
            if block == TRADE_OFF:
                self.study.trade_off = value
                return
            self.touched = block
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
        self.act(lambda: setattr(self.study, "place", place))

    def _option_chosen(self, option: int) -> None:
        self.act(lambda: setattr(self.study, "option", option))

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

    def _save(self) -> None:
        name = (self.weights.name.value_input or "").strip()
        if not name:
            return self.weights.say("Give the weights a name first.")
        self.study.save_weight_set(name)
        self.draw()
        try:
            said = f"Kept in {save_choices(self.study).name}."
        except (OSError, ValueError) as error:
            said = f"Kept for this visit only: {error}."
        return self._name(name, said)


def nearest_to_tip(study: Study) -> int:
    """The factor whose weight is nearest to changing the leader: the one to look at first."""

    def way_to_go(number: int) -> float:
        tip = study.tipping(study.factors[number].name)
        ends = ((tip.low, tip.below), (tip.high, tip.above))
        return min((abs(share - tip.now) for share, taker in ends if taker >= 0), default=np.inf)

    if not study.here().allowed.size:
        return 0
    return min(range(len(study.factors)), key=way_to_go)


def family_of(study: Study, block: str) -> str:
    """Slider of the family to which a factor or family belongs."""
    groups = {factor.name: f"family:{factor.group}" for factor in study.factors}
    return groups.get(block, block)
