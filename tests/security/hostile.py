"""A survey folder in which every text that a person may write tries to become more than text."""

import csv
import json
from pathlib import Path

from model.survey.starter import new_folder

# What a browser would make of it, were it ever taken for HTML: an element that is looked for, a
# picture fetched from elsewhere, and a script that leaves a mark. Forms of attack as OWASP's
# "Cross Site Scripting Prevention" cheat sheet lists them, from memory.
MARKUP = (
    "\"'><struck-by></struck-by><img src=//evil.invalid/x onerror=window.struck=1>"
    "<svg onload=window.struck=1></svg><script>window.struck=1</script>"
)
CLOSING = "</script></style></title></textarea></svg><struck-by onclick=window.struck=1>"
TEMPLATE = "{{7*'7'}} ${7*7} {% raw %} $$\\int_0^1$$"
LINK = "[see](javascript:window.struck=1) javascript:window.struck=1 <javascript:struck()>"
FORMULA = '=HYPERLINK("//evil.invalid","see")'
CULTIVAR = "Zest" + MARKUP
ROOTSTOCK = "MM106"
SPOT = "A" + MARKUP
BREAKS = "ends here\r\nEND:VEVENT\nATTENDEE:mailto:evil@evil.invalid"


def hostile_folder(folder: Path) -> Path:
    """The folder, laid out as a starter and filled in by someone of ill will."""
    new_folder(folder)
    for name in ("heights.example.csv", "weather_monthly.example.csv"):
        (folder / name).unlink()
    site = (folder / "site.toml").read_text(encoding="utf-8")
    (folder / "site.toml").write_text(
        site.replace('"New site"', _quoted(f"Farm{MARKUP}{TEMPLATE}")), encoding="utf-8"
    )
    _features(folder)
    _catalogue(folder)
    _plan(folder)
    return folder


def _quoted(text: str) -> str:
    return json.dumps(text)  # what TOML takes for a string too


def _write(path: Path, *rows: tuple[object, ...]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)


def _features(folder: Path) -> None:
    square = ((0, 0), (60, 0), (60, 40), (0, 40))
    house = ((15, 30), (25, 30), (25, 38), (15, 38))
    _write(
        folder / "features.csv",
        ("feature", "kind", "name", "x_m", "y_m", "height_m", "width_m", "species"),
        *((1, "boundary", MARKUP, *point, "", "", "") for point in square),
        *((2, "hedge", CLOSING, x, 0, 2, 1.5, "hawthorn") for x in (0, 60)),
        *((3, "building", TEMPLATE, *point, 6, "", "") for point in house),
        (4, "gate", LINK, 30, 0, "", 1.2, ""),
    )
    _write(
        folder / "spots.csv",
        ("spot", "x_m", "y_m", "note"),
        (SPOT, 40, 20, MARKUP),
        (FORMULA, 48, 12, CLOSING),
        ("B" + CLOSING, 30, 12, LINK),
        ("C" + TEMPLATE, 52, 28, FORMULA),
    )


def _catalogue(folder: Path) -> None:
    values = {"use": "dessert", "self_fertile": "yes", "site_remark": MARKUP, "flower_group": "3"}
    units = {"flower_group": "group"}
    _write(
        folder / "cultivars.csv",
        ("species", "cultivar", "trait", "value", "unit", "source", "status", "note"),
        *(
            ("apple", CULTIVAR, trait, value, units.get(trait, ""), "EVIL", "memory", CLOSING)
            for trait, value in values.items()
        ),
    )
    _write(
        folder / "sources.csv",
        ("source", "kind", "citation", "where"),
        ("EVIL", "society", MARKUP + LINK, "javascript:window.struck=1"),
    )
    _write(
        folder / "options.csv",
        ("species", "cultivar", "rootstock"),
        ("apple", CULTIVAR, ROOTSTOCK),
        ("apple", "Discovery", ROOTSTOCK),
        ("pear", "Conference", "Quince A"),
    )
    _write(
        folder / "order.csv",
        ("count", "species", "cultivar", "rootstock", "use", "note"),
        (1, "apple", CULTIVAR, ROOTSTOCK, "", MARKUP),
        (1, "apple", "Discovery", ROOTSTOCK, "", FORMULA),
    )
    _write(
        folder / "prices.csv",
        ("item", "price", "currency", "note"),
        ("tree", 20, "EUR", MARKUP),
        ("stake", 4, "EUR", FORMULA),
    )


def _plan(folder: Path) -> None:
    _write(
        folder / "placement.csv",
        ("spot", "x_m", "y_m", "species", "cultivar", "rootstock", "wish", "score", "planted"),
        (SPOT, 40, 20, "apple", CULTIVAR, ROOTSTOCK, "", "", "2026-02-13"),
        (FORMULA, 48, 12, "apple", "Discovery", ROOTSTOCK, "", "", "2026-02-13"),
    )
    _write(
        folder / "observations.csv",
        ("spot", "date", "what", "value", "plus_minus", "unit", "note"),
        (SPOT, "2026-06-20", "sun_hours", 6.6, 1, "h/day", MARKUP),
        (FORMULA, "2026-10-24", "leader_growth", 24, 2, "cm", CLOSING),
    )
    sets = "".join(
        f"[[weight_sets]]\nname = {_quoted(name)}\nabout = {_quoted(about)}\ntrade_off = -1.0\n"
        f"[weight_sets.weights]\nsunlight = 0.5\nspacing = 0.5\n"
        for name, about in ((MARKUP, CLOSING), (FORMULA, TEMPLATE))
    )
    (folder / "study.toml").write_text(
        f"trade_off = -1.0\n[weights]\nsunlight = 0.5\nspacing = 0.5\n{sets}", encoding="utf-8"
    )
    brief = {"title": MARKUP, "prepared_for": CLOSING, "prepared_by": TEMPLATE, "reference": LINK}
    brief["job"] = MARKUP + BREAKS
    lines = "".join(f"{name} = {_quoted(text)}\n" for name, text in brief.items())
    (folder / "report.toml").write_text(lines, encoding="utf-8")
