"""The plan as it is worked on: placed, blocked, dragged, undone, and kept in the working copy."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from dashboard.pages.plan_kept import (
    PLAN_FILE,
    Kept,
    Settings,
    digests,
    kept_text,
    read_kept,
    still_planted,
    weighing,
)
from dashboard.pages.trees_order import ORDER_FILE, OrderRow, meeting, order_rows, order_text
from dashboard.session import Progress, Session
from model.csv_text import csv_text
from model.language import _
from model.planting.buying.prices import PRICES_FILE, Prices, read_prices
from model.planting.candidates import candidate_places, place_name
from model.planting.changes import what_changed
from model.planting.moving_peg import PegMoves
from model.planting.order import Order, Wish
from model.planting.partnership import standing_partners
from model.planting.picking import PickingSpread
from model.planting.placement import Placement, Planted
from model.planting.placement_file import PLACEMENT_FILE, placement_table
from model.planting.placing import alternatives, place_order, replaced
from model.planting.serving import served
from model.survey.faults import SurveyFaults

MEMORY = "plan"
SECONDS = 60.0
STEPS = 50


class PlanWork:
    """The session's plan. `told` is called after every step that changes it."""

    def __init__(self, session: Session, told: Callable[[], None]) -> None:
        self.session, self.study, self.told = session, session.study, told
        self.faults: list[str] = []
        self.busy = False  # an order is being placed, or a plan changed
        memory = session.memory.setdefault(MEMORY, {"steps": []})
        self.steps: list[Kept] = memory["steps"]
        if (
            memory.get("ground") is not self.study.ground
            or memory.get("options") != self.study.options
        ):
            self.steps.clear()  # places and options are other numbers now
            memory["kept"], memory["settings"], self.faults = read_kept(self.study, session.folder)
            memory["ground"], memory["options"] = self.study.ground, self.study.options
        self._moves: tuple[Any, PegMoves] | None = None
        self._prices: tuple[Any, Prices] | None = None

    @property
    def kept(self) -> Kept:
        """The plan as it stands."""
        return self.session.memory[MEMORY]["kept"]

    @property
    def settings(self) -> Settings:
        """What is asked beside the order."""
        return self.session.memory[MEMORY]["settings"]

    @property
    def trees(self) -> tuple[Planted, ...]:
        """The trees of the plan."""
        return self.kept.placement.trees if self.kept.placement else ()

    # -- the order -------------------------------------------------------------------------------

    def rows(self) -> tuple[OrderRow, ...]:
        """The lines of the order; none, and the faults said, where its file cannot be read."""
        return order_rows(self.session.folder)

    def reorder(self, rows: tuple[OrderRow, ...]) -> None:
        """Write the order; one that asks for nothing has no file."""
        self.session.keep_all({ORDER_FILE: order_text(rows) if rows else None})

    def set(self, **settings: Any) -> None:
        """Change settings; they are kept with the plan."""
        memory = self.session.memory[MEMORY]
        memory["settings"] = replace(memory["settings"], **settings)
        self._write()

    def prices(self) -> Prices:
        """The visitor's prices, none where their file has faults."""
        file = self.session.folder / PRICES_FILE if self.session.folder else None
        if file is None or not file.is_file():
            return Prices()
        stat = file.stat()
        state = (file, stat.st_ino, stat.st_mtime_ns, stat.st_size)
        if self._prices is None or self._prices[0] != state:
            self._prices = (state, self._read_prices(file.parent))
        return self._prices[1]

    def _read_prices(self, folder: Path) -> Prices:
        try:
            return read_prices(folder, self.study.catalogue)
        except SurveyFaults as error:
            self.session.said = str(error)
            return Prices()

    def order(self) -> Order:
        """The order that can be placed: its lines that something on the short list meets."""
        asked, prices = self.settings, self.prices()
        wishes = [
            Wish(row.label.removeprefix("any "), row.count, met)
            for row in self.rows()
            if (met := meeting(self.study, row))
        ]
        return Order(
            tuple(wishes),
            budget=asked.budget,
            prices=tuple(prices.of_tree(option) for option in self.study.options),
            bee_range=asked.bee_range,
            picking=PickingSpread(asked.at_once, asked.parts),
        )

    # -- what is out of date ---------------------------------------------------------------------

    def outdated(self) -> list[str]:
        """What has changed since the plan was made: weights, survey, order."""
        if not self.kept.made_by:
            return []
        now = digests(self.session, self.settings)
        return [name for name, digest in now.items() if self.kept.made_by.get(name) != digest]

    # -- placing ---------------------------------------------------------------------------------

    def place(self) -> None:
        """Place the order anew, off the server's loop; blocked places and set trees stay so."""
        study, order, kept = self.session.twin(), self.order(), self.kept
        made_by, asked = digests(self.session, self.settings), self.settings
        stays = set(kept.stays) | (set(kept.planted) if asked.planted_stay else set())
        sets = [(tree.place, tree.option) for tree in self.trees if tree.place in stays]

        def work(progress: Progress) -> tuple[Placement, tuple[Placement, ...]]:
            said = _("Placing {count} trees: looking for the best places")
            progress(said.format(count=order.count))
            offered = candidate_places(study, order, between=not asked.pegs_only)
            progress(
                _("Placing {count} trees among {places} places").format(
                    count=order.count, places=len(offered)
                )
            )
            found = place_order(study, order, offered, tuple(kept.blocked), sets, SECONDS)
            progress(_("Looking for other plans of nearly the same worth"))
            return found, alternatives(study, order, found, seconds=SECONDS / 2)

        def then(found: tuple[Placement, tuple[Placement, ...]]) -> None:
            placement, others = found
            if not placement.trees:
                self.session.said = _("Nothing was placed: {why}").format(
                    why=" ".join([*placement.unmet, *placement.notes])
                )
            self._step(replace(
                kept, placement=placement, planted=still_planted(kept, placement), others=others,
                stays=frozenset(p for p, _o in placement.kept if p in kept.stays),
                made_by=made_by, before=kept.placement if kept.made_by else None, change=(),
            ))  # fmt: skip

        self.busy = True
        self.session.run(_("Placing the order"), work, then)

    def block(self, tree: Planted, why: str) -> None:
        """Close a tree's place and find the plan that moves the fewest trees."""
        study, order, kept = self.session.twin(), self.order(), self.kept
        before = kept.placement
        if before is None:
            return
        blocked = {**kept.blocked, tree.place: why}
        stays = [place for place in kept.stays if place != tree.place]
        made_by, asked = digests(self.session, self.settings), self.settings

        def work(_progress: Progress) -> Placement:
            rest = None
            if not before.offered:
                rest = candidate_places(study, order, between=not asked.pegs_only)
            return replaced(study, order, before, tuple(blocked), stays, rest, SECONDS)

        def then(found: Placement) -> None:
            self._step(replace(
                kept, placement=found, planted=still_planted(kept, found), blocked=blocked,
                stays=frozenset(stays), others=(), made_by=made_by, before=before,
                change=tuple(what_changed(self.study, before, found)),
            ))  # fmt: skip

        self.busy = True
        said = _("Looking for the least change without {place}")
        self.session.run(said.format(place=tree.name), work, then)

    def unblock(self, place: int) -> None:
        """Open a place again; the plan stays as it is until it is placed anew."""
        blocked = {one: why for one, why in self.kept.blocked.items() if one != place}
        self._step(replace(self.kept, blocked=blocked))

    def use(self, number: int) -> None:
        """Take an alternative in place of the plan."""
        kept = self.kept
        if kept.placement is None or number >= len(kept.others):
            return
        chosen = kept.others[number]
        rest = [one for one in kept.others if one is not chosen]
        self._step(replace(
            kept, placement=chosen, planted=still_planted(kept, chosen), before=kept.placement,
            others=tuple(rest), change=tuple(what_changed(self.study, kept.placement, chosen)),
        ))  # fmt: skip

    # -- dragging --------------------------------------------------------------------------------

    @property
    def moves(self) -> PegMoves | None:
        """The plan open for dragging, made anew when it or the weights have changed."""
        placement = self.kept.placement
        if placement is None:
            return None
        state = self._state(placement)
        if self._moves is None or self._moves[0] != state:
            self._moves = (state, PegMoves(self.study, self.order(), placement))
        return self._moves[1]

    def opened(self, placement: Placement, moves: PegMoves) -> None:
        """Take up a plan that was opened for dragging off the server's loop."""
        if placement is self.kept.placement:
            self._moves = (self._state(placement), moves)

    def _state(self, placement: Placement) -> Any:
        return id(placement), weighing(self.study), self.settings.bee_range

    def move(self, tree: Planted, place: int) -> None:
        """Let a tree stand at another place; it is a set tree from then on."""
        kept, moves = self.kept, self.moves
        if kept.placement is None or moves is None or place in {one.place for one in self.trees}:
            return
        places = self.study.ground.places
        score = float(moves.scores[tree.option, place])
        against = [f"{why[:1].upper()}{why[1:]}." for why in moves.moved(tree, place).reasons]
        gone = replace(
            tree, place=place, name=place_name(self.study, place),
            x=float(places.x[place]), y=float(places.y[place]), score=score,
        )  # fmt: skip
        trees = [gone if one == tree else one for one in self.trees]
        trees = served(self.study, self.order(), trees, standing_partners(self.study))
        total = float(np.nansum([one.score for one in trees]))
        bound = max(kept.placement.bound, total)
        placement = replace(
            kept.placement, trees=tuple(trees), total=total, bound=bound, proven=False,
        )  # fmt: skip
        stays = frozenset({*(one for one in kept.stays if one != tree.place), place})
        planted = {at: day for at, day in kept.planted.items() if at != tree.place}
        self._step(replace(
            kept, placement=placement, planted=planted, stays=stays, before=kept.placement,
            others=(), change=(*what_changed(self.study, kept.placement, placement), *against),
        ))  # fmt: skip

    def keep(self, tree: Planted, *, is_set: bool) -> None:
        """Set a tree, so that nothing moves it, or set it free."""
        others = frozenset(one for one in self.kept.stays if one != tree.place)
        self._step(replace(self.kept, stays=others | {tree.place} if is_set else others))

    # -- steps -----------------------------------------------------------------------------------

    def undo(self) -> None:
        """Take back the last step."""
        if not self.steps:
            self.session.said = _("Nothing to take back.")
            return
        self.session.memory[MEMORY]["kept"] = self.steps.pop()
        self._write()
        self.told()

    def _step(self, kept: Kept) -> None:
        self.busy = False
        self.steps.append(self.kept)
        del self.steps[:-STEPS]
        self.session.memory[MEMORY]["kept"] = kept
        self._write()
        self.told()

    def _write(self) -> None:
        """Write the plan into the working copy, where Years, Review and a reload find it."""
        kept, placed = self.kept, None
        if kept.placement is not None and kept.placement.trees:
            placed = csv_text(placement_table(self.study, kept.placement, kept.planted))
        noted = kept_text(self.study, kept, self.settings)
        self.session.keep_all({PLAN_FILE: noted, PLACEMENT_FILE: placed})
