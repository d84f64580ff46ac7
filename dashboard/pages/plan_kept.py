"""What a visitor's plan is made of, and how it outlives a rebuild of the pages and a reload."""

import json
import math
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from dashboard.keeping.opened import survey_digest
from dashboard.session import Session
from model.planting.order import Order
from model.planting.partnership import standing_partners
from model.planting.placement import Placement
from model.planting.placement_file import PLACEMENT_FILE, read_plan
from model.planting.serving import served
from model.study import Study
from model.survey.faults import SurveyFaults

PLAN_FILE = "plan.json"
LARGEST = 2_000_000  # bytes
WIDEST = 1e12
ORDER_FILES = ("order.csv", "options.csv")


@dataclass(frozen=True)
class Settings:
    """What is asked of a placement beside its order."""

    budget: float | None = None
    bee_range: float = 18.0
    parts: int = 0
    at_once: int | None = None
    pegs_only: bool = False
    planted_stay: bool = False


@dataclass(frozen=True)
class Kept:
    """A plan: its trees, what was closed to it, which trees are set, and what it was made by.

    `made_by` are digests of the weights, the survey and the order, empty for a plan that was only
    read. `before` is the plan before the last change, `change` what that change was, in sentences.
    """

    placement: Placement | None = None
    planted: Mapping[int, str] = field(default_factory=dict)
    blocked: Mapping[int, str] = field(default_factory=dict)
    stays: frozenset[int] = frozenset()
    others: tuple[Placement, ...] = ()
    made_by: Mapping[str, str] = field(default_factory=dict)
    before: Placement | None = None
    change: tuple[str, ...] = ()


def digests(session: Session, settings: Settings) -> dict[str, str]:
    """Digests of what a plan follows from: weights, survey, order."""
    choices = {
        name: value
        for name, value in session.study.snapshot().items()
        if name in ("weights", "trade_off", "settings")
    }
    folder = session.folder
    order = repr(settings).encode()
    for name in ORDER_FILES:
        path = folder / name if folder else None
        order += path.read_bytes() if path and path.is_file() else b""
    return {
        "weights": sha256(_plain(choices).encode()).hexdigest()[:16],
        "survey": survey_digest(folder)[:16] if folder else "",
        "order": sha256(order).hexdigest()[:16],
    }


def _plain(value: Any) -> str:
    """A value in words that are the same for the same value, to three figures."""
    if isinstance(value, Mapping):
        return "{" + ",".join(f"{k}:{_plain(value[k])}" for k in sorted(value, key=str)) + "}"
    if isinstance(value, float):
        return f"{value:.3g}"
    if hasattr(value, "tolist"):
        return _plain(value.tolist())
    if isinstance(value, list | tuple):
        return "[" + ",".join(map(_plain, value)) + "]"
    return _plain(vars(value)) if hasattr(value, "__dict__") else repr(value)


def weighing(study: Study) -> tuple[Any, ...]:
    """What the scores of a study follow from, as a value to compare."""
    kept = study.snapshot()
    return tuple(kept["weights"].tolist()), kept["trade_off"], repr(kept["settings"])


def still_planted(kept: Kept, placement: Placement) -> dict[int, str]:
    """The planting days of trees that stay where they were."""
    old = kept.placement.trees if kept.placement else ()
    were = {(tree.place, tree.option) for tree in old}
    return {
        tree.place: kept.planted[tree.place]
        for tree in placement.trees
        if (tree.place, tree.option) in were and tree.place in kept.planted
    }


def kept_text(study: Study, kept: Kept, settings: Settings) -> str:
    """The text of plan.json: what of a plan placement.csv has no column for."""
    places, placement = study.ground.places, kept.placement
    at = lambda place: [round(float(places.x[place]), 3), round(float(places.y[place]), 3)]  # noqa: E731 -- one line
    return json.dumps(
        {
            "settings": asdict(settings),
            "blocked": [[*at(place), why] for place, why in kept.blocked.items()],
            "stays": [at(place) for place in sorted(kept.stays)],
            "made_by": dict(kept.made_by),
            "proven": bool(placement and placement.proven),
            "bound": placement.bound if placement and math.isfinite(placement.bound) else None,
            "offered": [at(place) for place in placement.offered] if placement else [],
            "unmet": list(placement.unmet) if placement else [],
            "notes": list(placement.notes) if placement else [],
        },
        indent=1,
    )


def read_kept(study: Study, folder: Path | None) -> tuple[Kept, Settings, list[str]]:
    """The plan of a folder, its settings, and the faults of its files in sentences."""
    if folder is None or not (folder / PLACEMENT_FILE).is_file():
        return Kept(), _read_settings(_notes(folder)), []
    notes = _notes(folder)
    settings = _read_settings(notes)
    try:
        plan = read_plan(study, folder / PLACEMENT_FILE)
    except SurveyFaults as error:
        return Kept(), settings, [str(fault) for fault in error.faults]
    order = Order((), bee_range=settings.bee_range)
    trees = served(study, order, plan.placement.trees, standing_partners(study))
    placement = replace(plan.placement, trees=tuple(trees))
    if notes.get("made_by"):
        placement = replace(
            placement,
            proven=notes.get("proven") is True,
            bound=_number(notes.get("bound"), placement.total),
            unmet=_words(notes.get("unmet")),
            notes=_words(notes.get("notes")),
            offered=tuple(_places(study, notes.get("offered"))),
        )
    pairs = notes.get("blocked")
    pairs = pairs if isinstance(pairs, list) else []
    whys = [str(one[2]) for one in pairs if isinstance(one, list) and len(one) == 3]
    blocked = dict(zip(_places(study, pairs), whys, strict=False))
    stays = frozenset(_places(study, notes.get("stays")))
    made_by = notes.get("made_by")
    made = {str(k): str(v) for k, v in made_by.items()} if isinstance(made_by, dict) else {}
    return Kept(placement, plan.planted, blocked, stays, made_by=made), settings, []


def _notes(folder: Path | None) -> dict[str, Any]:
    """What plan.json holds; nothing where there is none or it cannot be read."""
    if folder is None or not (folder / PLAN_FILE).is_file():
        return {}
    path = folder / PLAN_FILE
    try:
        found = json.loads(path.read_text("utf-8")) if path.stat().st_size <= LARGEST else {}
    except (OSError, ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}


def _read_settings(notes: Mapping[str, Any]) -> Settings:
    raw = notes.get("settings")
    if not isinstance(raw, dict):
        return Settings()
    usual = Settings()
    budget, most = raw.get("budget"), raw.get("at_once")
    return Settings(
        budget=_number(budget, 0.0) or None,
        bee_range=_number(raw.get("bee_range"), usual.bee_range),
        parts=int(_number(raw.get("parts"), 0)),
        at_once=int(_number(most, 0)) or None,
        pegs_only=raw.get("pegs_only") is True,
        planted_stay=raw.get("planted_stay") is True,
    )


def _number(value: Any, usual: float) -> float:
    return float(value) if _is_figure(value) and value >= 0 else usual


def _is_figure(value: Any) -> bool:
    """Whether it is a number that a figure of a plan could be."""
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return plain and abs(value) <= WIDEST  # NaN is not


def _words(value: Any) -> tuple[str, ...]:
    return tuple(str(one) for one in value) if isinstance(value, list) else ()


def _places(study: Study, value: Any) -> list[int]:
    """The places of a list whose items begin with metres east and north."""
    pairs = [one[:2] for one in value if isinstance(one, list)] if isinstance(value, list) else []
    return [
        study.ground.places.nearest(float(one[0]), float(one[1]), reach=0.05)
        for one in pairs
        if len(one) == 2 and all(map(_is_figure, one))
    ]
