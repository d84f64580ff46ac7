"""sketch.json: a sketch with faults, kept as drawn until it can be written as a survey."""

import json
import math
from typing import Any

from model.survey.editing import MARKS, Mark, Sketch
from model.survey.faults import shown
from model.survey.measuring import Place
from model.survey.site import Site

FILE = "sketch.json"
MOST_MARKS = 20_000
LARGEST = 20_000_000  # letters


def sketch_text(sketch: Sketch) -> str:
    """The marks of a sketch as text."""
    marks = [
        {
            "kind": mark.kind,
            "name": mark.name,
            "points": mark.points,
            "holes": mark.holes,
            "fields": {name: _plain(value) for name, value in mark.fields.items()},
        }
        for mark in sketch.marks
    ]
    return json.dumps({"marks": marks}, ensure_ascii=False, indent=1) + "\n"


def sketch_from(text: str, site: Site) -> Sketch:
    """The sketch of sketch.json's text over a site; ValueError in words when it holds none."""
    if len(text) > LARGEST:
        raise ValueError(f"{FILE}: found {len(text):,} letters, expected at most {LARGEST:,}")
    try:
        raw = json.loads(text)["marks"][:MOST_MARKS]
        marks = tuple(_mark(number, one) for number, one in enumerate(raw, start=1))
    except (
        *(LookupError, TypeError, ValueError, AttributeError),
        *(ArithmeticError, RecursionError),
    ) as error:
        found = shown(str(error))
        raise ValueError(f"{FILE}: found {found}, expected marks; mend by deleting it") from error
    return Sketch(site, marks)


def _mark(number: int, raw: dict[str, Any]) -> Mark:
    kind, fields = str(raw["kind"]), raw["fields"]
    if kind not in MARKS:
        raise ValueError(f"the kind {kind!r}")
    values = {str(name): _plain(value) for name, value in fields.items()}
    holes = tuple(_places(hole) for hole in raw["holes"])
    return Mark(number, kind, _places(raw["points"]), str(raw["name"]), values, holes)


def _places(raw: list[list[float]]) -> tuple[Place, ...]:
    places = tuple((float(x), float(y)) for x, y in raw)
    if not all(math.isfinite(figure) for place in places for figure in place):
        raise ValueError("a place off the map")
    return places


def _plain(value: Any) -> Any:
    return value if isinstance(value, int | float | str | bool) else str(value)
