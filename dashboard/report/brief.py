"""What is typed in for a report: for whom and by whom, the job, paper, units and parts."""

from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

import tomli_w

from model.language import marked
from model.survey.toml_text import toml_tables

BRIEF_FILE = "report.toml"
PAPERS = {"A4": marked("A4"), "Letter": marked("US Letter")}
# What may be left out. Head, cautions, map, recommendation and signature always stand.
PARTS = {
    "reasons": marked("Reasons, tree by tree"),
    "overturn": marked("Alternatives and what would overturn it"),
    "weights": marked("What was weighed"),
    "list": marked("Shopping list"),
    "calendar": marked("Calendar"),
    "effort": marked("Walking and watering"),
    "assumptions": marked("Assumptions"),
    "sources": marked("Figures of the trees, and sources"),
}
LONGEST = 2000  # letters of anything typed in
LARGEST = 100_000  # bytes of the file
TYPED = ("title", "prepared_for", "prepared_by", "reference", "job")


@dataclass(frozen=True)
class Brief:
    """What the report's reader is told beside what was computed."""

    title: str = ""
    prepared_for: str = ""
    prepared_by: str = ""
    reference: str = ""
    job: str = ""
    paper: str = "A4"
    left_out: tuple[str, ...] = ()
    feet: bool = False

    def has(self, part: str) -> bool:
        """Whether a part is wanted."""
        return part not in self.left_out


def changed(brief: Brief, name: str, value: Any) -> Brief:
    """The brief with one thing typed or chosen otherwise; what cannot be is left as it was."""
    if name in TYPED:
        typed: dict[str, Any] = {name: str(value).strip()[:LONGEST]}
        return replace(brief, **typed)
    if name == "paper" and value in PAPERS:
        return replace(brief, paper=value)
    if name in PARTS:
        rest = tuple(one for one in brief.left_out if one != name)
        return replace(brief, left_out=rest if value else (*rest, name))
    return brief


def brief_text(brief: Brief) -> str:
    """The text of report.toml. Feet or metres are the reader's own setting and stand elsewhere."""
    kept = {one.name: getattr(brief, one.name) for one in fields(brief) if one.name != "feet"}
    return tomli_w.dumps(kept | {"left_out": list(brief.left_out)}, multiline_strings=True)


def read_brief(folder: Path | None, *, feet: bool = False) -> Brief:
    """The brief of a folder's report.toml; what of it cannot be read is left empty."""
    brief = Brief(feet=feet)
    path = folder / BRIEF_FILE if folder else None
    if path is None or not path.is_file() or path.stat().st_size > LARGEST:
        return brief
    try:
        found = toml_tables(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return brief
    for name in (*TYPED, "paper"):
        if isinstance(found.get(name), str):
            brief = changed(brief, name, found[name])
    gone = found.get("left_out")
    for part in gone if isinstance(gone, list) else []:
        if isinstance(part, str) and part in PARTS:
            brief = changed(brief, part, value=False)
    return brief
