"""What a visitor looks for among the trees, and what of it stands on the short list and order."""

from dataclasses import dataclass, field
from typing import Any
from weakref import WeakKeyDictionary

import numpy as np

from dashboard.pages.trees_order import ORDER_FILE, OrderRow, order_rows, order_text
from dashboard.pages.undo import Undo, alike
from dashboard.session import Session
from model.ground import Ground
from model.language import _
from model.study import Study
from model.survey.faults import SurveyFaults
from model.survey.lists import OPTIONS_FILE, options_text
from model.trees import CatalogueFaults, Option
from model.trees.choosing import named, no_taller, of_use, ordered, ripe_in
from model.trees.own_rows import own_in
from model.trees_here import (
    Judged,
    TreesHere,
    is_served,
    judged_all,
    judged_best,
    partners_among,
    trees_here,
)

MEMORY = "trees"
LONGEST_LIST = 26  # a letter each on the maps
MOST_COMPARED = 3
A_PAGE = 12
FULL_GROWN = 40  # years after which a tree is drawn full grown


MONTHS = tuple(str(month) for month in range(1, 13))
SETTINGS = ("climate_fit", "drainage")  # by whose figures a tree fits a land
_HERE: WeakKeyDictionary[Ground, dict[tuple[str, ...], TreesHere]] = WeakKeyDictionary()


@dataclass
class Look:
    """What is looked for and at; it outlives a rebuild of the pages."""

    asked: dict[str, str] = field(default_factory=dict)
    sort: str = "tree"
    falling: bool = False
    page: int = 0
    chosen: Option | None = None
    compared: tuple[Option, ...] = ()
    panel: str = "list"
    in_front: bool = False
    years: int = 0
    own: dict[str, Any] = field(default_factory=dict)
    undo: Undo = field(default_factory=Undo)
    ground: Any = None
    judged: dict[Option, tuple[float, int, float, int]] = field(default_factory=dict)
    judged_by: Any = None
    focus: str = ""


class TreesWork:
    """The session's trees: found, listed, ordered. `said` is a sentence for the page."""

    def __init__(self, session: Session) -> None:
        self.session, self.study = session, session.study
        self.look: Look = session.memory.setdefault(MEMORY, Look())
        if self.look.ground is not self.study.ground:
            self.look.ground, self.look.judged = self.study.ground, {}
        self.here = kept_here(self.study)
        self.own = own_in(session.folder)
        self.number = {option: number for number, option in enumerate(self.here.options)}
        partners = partners_among(self.here, self.study, self.study.options)
        self.partners, self.served = partners, is_served(self.here, partners)
        if self.look.chosen not in self.number:
            self.look.chosen = self.study.options[self.study.option]
        self.look.compared = tuple(one for one in self.look.compared if one in self.number)

    # -- looking ---------------------------------------------------------------------------------

    def found(self) -> np.ndarray:
        """Numbers of the options that meet what is asked, in order."""
        asked, here = self.look.asked, self.here
        which = named(here.words, asked.get("text", ""))
        if asked.get("species"):
            which &= np.array([o.species == asked["species"] for o in here.options])
        if asked.get("use"):
            which &= of_use(here.uses, asked["use"])
        if (most := figure(asked.get("height", ""))) is not None:
            which &= no_taller(here.size.height[1, :, 0], most)
        if asked.get("month") in MONTHS:
            first, last = here.traits.pick_first, here.traits.pick_last
            which &= ripe_in(first, last, int(asked["month"]), north=here.north)
        which &= self._pollen(asked.get("pollen", ""))
        if asked.get("land") in ("climate", "both"):
            which &= here.fits_climate
        if asked.get("land") in ("soil", "both"):
            which &= here.bears_soil
        if asked.get("kept") == "list":
            which &= np.array([o in self.study.options for o in here.options])
        order = ordered(self._key(), falling=self.look.falling)
        return order[which[order]]

    def _pollen(self, asked: str) -> np.ndarray:
        words = self.here.traits.self_fertile
        if asked == "yes":
            return np.array([word == "yes" for word in words])
        if asked == "partly":
            return np.array([word in ("yes", "partly") for word in words])
        return self.served if asked == "served" else np.ones(len(words), dtype=bool)

    def _key(self) -> list[Any]:
        here, sort = self.here, self.look.sort
        if sort == "height":
            return here.size.height[1, :, 0].tolist()
        if sort == "flowers":
            return here.bloom.tolist()
        if sort == "picked":
            shift = 0 if here.north else 182
            return ((here.traits.pick_first + shift - 1) % 365).tolist()
        if sort == "score":
            return [self.score(option)[0] for option in here.options]
        return [f"{o.species} {o.cultivar} {o.rootstock}".casefold() for o in here.options]

    # -- judging ---------------------------------------------------------------------------------

    def _choices(self) -> dict[str, Any]:
        kept = self.study.snapshot()
        return {key: kept[key] for key in ("weights", "trade_off", "settings")}

    def judge_list(self) -> None:
        """Take up the scores of the short list; those of others go when the weights moved."""
        if not self.look.judged or not alike(self.look.judged_by, self._choices()):
            self.look.judged, self.look.judged_by = {}, self._choices()
        missing = [o for o in self.study.options if o not in self.look.judged]
        if missing:
            self._take(self.study.options, judged_best(self.study))

    def _take(self, options: tuple[Option, ...], judged: Judged) -> None:
        columns = (judged.best, judged.place, judged.peg_score, judged.peg)
        for option, *row in zip(options, *columns, strict=True):
            self.look.judged[option] = (float(row[0]), int(row[1]), float(row[2]), int(row[3]))

    def judge_all(self, numbers: np.ndarray, then: Any) -> None:
        """Judge these options over the land, off the server's loop."""
        options = tuple(self.here.options[number] for number in numbers)
        study, choices = self.session.twin(), self._choices()

        def work(progress: Any) -> Judged:
            said = _("Judging trees on this land: {done} of {count}")
            tell = lambda done: progress(said.format(done=done, count=len(options)))  # noqa: E731 -- one line
            return judged_all(study, options, tell)

        def done(judged: Judged) -> None:
            if alike(choices, self._choices()):
                self._take(options, judged)
            then()

        self.session.run(_("Judging trees on this land"), work, done)

    def score(self, option: Option) -> tuple[float, int, float, int]:
        """Best score and place, best score and place among the pegs; NaN where not judged."""
        return self.look.judged.get(option, (float("nan"), -1, float("nan"), -1))

    # -- listing ---------------------------------------------------------------------------------

    def is_own(self, option: Option) -> bool:
        """Whether its cultivar or rootstock is one that the visitor added."""
        cultivar = ("cultivars", (option.species, option.cultivar))
        return cultivar in self.own or ("rootstocks", (option.rootstock, "")) in self.own

    def listed(self, option: Option) -> bool:
        """Whether an option is on the short list."""
        return option in self.study.options

    def add(self, option: Option) -> None:
        """Put an option on the short list."""
        now = self.study.options
        if option in now:
            return
        if len(now) >= LONGEST_LIST:
            self.session.said = _(
                "The short list is full at {count} trees, a letter each: remove one first."
            ).format(count=LONGEST_LIST)
            return
        self._relist(
            (*now, option), _("Added: {tree}. Every page now weighs {count} trees."), option
        )

    def remove(self, option: Option) -> None:
        """Take an option off the short list."""
        rest = tuple(one for one in self.study.options if one != option)
        if not rest:
            self.session.said = _("The short list keeps at least one tree: add another one first.")
            return
        said = _("Removed: {tree}. Every page now weighs {count} trees.")
        self._relist(rest, said, option)

    def move(self, option: Option, step: int) -> None:
        """Move an option up or down the short list."""
        now = list(self.study.options)
        at = now.index(option)
        to = min(max(at + step, 0), len(now) - 1)
        if at != to:
            now.insert(to, now.pop(at))
            self._relist(tuple(now), _("Moved: {tree}, of {count} trees."), option)

    def _relist(self, options: tuple[Option, ...], said: str, option: Option) -> None:
        self._remember()
        text = options_text(tuple((o.species, o.cultivar, o.rootstock) for o in options))
        looked_at = self.study.options[self.study.option]
        if self._reopened({OPTIONS_FILE: text}, looked_at):
            self.session.said = said.format(tree=option.label, count=len(options))

    def _reopened(self, files: dict[str, str | None], looked_at: Option) -> bool:
        """Write files and open them anew, looking at the same option; on faults all stays."""
        session, before = self.session, self._files()
        if not self._written(files):
            return False
        try:
            session.reopen()
        except (SurveyFaults, CatalogueFaults, ValueError) as error:
            self._written(before)
            session.said = str(error)
            return False
        if looked_at in session.study.options:
            session.study.option = session.study.options.index(looked_at)
        session.settled()
        return True

    def _written(self, files: dict[str, str | None]) -> bool:
        """Write files into the working copy; one without a text is not there."""
        return self.session.keep_all(files)

    # -- ordering --------------------------------------------------------------------------------

    def order(self) -> tuple[OrderRow, ...]:
        """The lines of the order."""
        return order_rows(self.session.folder)

    def reorder(self, rows: tuple[OrderRow, ...]) -> None:
        """Write the order; one that asks for nothing has no file."""
        self._remember()
        self._written({ORDER_FILE: order_text(rows) if rows else None})

    def _files(self) -> dict[str, str | None]:
        folder = self.session.folder
        found: dict[str, str | None] = {}
        for name in (OPTIONS_FILE, ORDER_FILE):
            path = folder / name if folder else None
            is_there = path is not None and path.is_file()
            found[name] = path.read_text(encoding="utf-8-sig") if path and is_there else None
        return found

    def _remember(self) -> None:
        self.look.undo.keep(self._files())

    def take_back(self) -> None:
        """Take back the last step on the short list or the order."""
        files = self.look.undo.last(self._files())
        if files is None:
            self.session.said = _("Nothing to take back.")
            return
        if self._reopened(files, self.study.options[self.study.option]):
            self.session.said = _("Taken back.")


def kept_here(study: Study) -> TreesHere:
    """The catalogue on a study's land, found once for all visitors of that land."""
    figures = tuple(
        repr(study.settings[name].figures()) for name in SETTINGS if name in study.settings
    )
    of_land = _HERE.setdefault(study.ground, {})
    if figures not in of_land:
        of_land.clear()
        of_land[figures] = trees_here(study)
    return of_land[figures]


def figure(words: str) -> float | None:
    """A number as one types it, None where it is none.

    >>> figure("3,5"), figure("tall")
    (3.5, None)
    """
    try:
        number = float(words.strip().replace(",", "."))
    except ValueError:
        return None
    return number if np.isfinite(number) else None
