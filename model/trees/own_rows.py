"""One's own cultivar or rootstock: asked for, checked, written into a catalogue file's text."""

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from model.csv_text import armed, disarmed
from model.trees.catalogue import Catalogue
from model.trees.rows import VALUE_COLUMNS
from model.trees.value import STATUSES
from model.trees.vocabulary import KEYS, VOCABULARY, Trait

LONGEST = 300  # letters in one cell
SIZES = tuple(
    f"{size}_{part}" for size in ("height", "spread") for part in ("low", "typical", "high")
)
ASKED = {
    "cultivars": (
        *("use", "flower_group", "self_fertile", "ploidy", "pick_first", "pick_last", "vigour"),
        *("chill_need", "bloom_day", "site_remark"),
    ),
    "rootstocks": (
        *("serves", *SIZES, "growth_rate", "growth_power", "years_to_crop", "waterlog"),
        *("poor_soil", "rich_soil", "stake", "remark"),
    ),
}
"""Traits that a short form asks for; the rest is the species', or not known."""
NEEDED = {
    "cultivars": ("use", "self_fertile"),
    "rootstocks": ("serves", *SIZES, "growth_rate", "growth_power"),
}
"""Traits without which a tree could not be judged or found."""
SUGGESTED = {"growth_rate": "0.2", "growth_power": "1.3"}
UNSAID = ("x", "1", "group", "day of year", "class 1-5")  # units that a number goes without
USES = ("dessert", "cooking", "dual", "nut")


@dataclass(frozen=True)
class OwnRows:
    """What one knows of a tree of one's own.

    `key`: species and cultivar, or rootstock and a blank; `values`: words by trait, blank where
    not known; all of it from one `source`, of one `status`.
    """

    table: str
    key: tuple[str, str]
    values: Mapping[str, str]
    source: str
    status: str

    @property
    def name(self) -> str:
        """What it is called."""
        return self.key[1] if self.table == "cultivars" else self.key[0]


def on_one_line(words: str) -> str:
    r"""Words without breaks and signs that cannot be printed, as one cell of a table holds them.

    >>> on_one_line(" Early\n  Plum\x00 ")
    'Early Plum'
    """
    return "".join(sign for sign in " ".join(words.split()) if sign.isprintable()).strip()


def own_faults(own: OwnRows, catalogue: Catalogue) -> dict[str, str]:
    """What is wrong, a sentence by field: a trait, or name, species, source and status."""
    faults = dict(_name_faults(own, catalogue))
    for trait in ASKED[own.table]:
        wrong = _wrong(own, VOCABULARY[own.table][trait], on_one_line(own.values.get(trait, "")))
        if wrong:
            faults[trait] = wrong
    faults |= {} if own.table == "cultivars" else _rootstock_faults(own, catalogue, faults)
    if not on_one_line(own.source):
        faults["source"] = _said("nothing", "where you have it from", "naming a book or a label")
    if own.status not in STATUSES:
        faults["status"] = _said(repr(own.status), f"one of {', '.join(STATUSES)}", "choosing one")
    for field, words in (("source", own.source), ("name", own.name)):
        if len(words) > LONGEST:
            faults[field] = _said(f"{len(words)} letters", f"at most {LONGEST}", "shortening it")
    return faults


def _name_faults(own: OwnRows, catalogue: Catalogue) -> list[tuple[str, str]]:
    """What is wrong with the name: nothing there, or taken by the catalogue already."""
    faults = []
    name = on_one_line(own.name)
    if own.table == "cultivars" and own.key[0] not in catalogue.species():
        expected = f"one of {', '.join(catalogue.species())}"
        faults.append(("species", _said(repr(own.key[0]), expected, "choosing one")))
    if not name:
        mend = "writing what it is called"
        return [*faults, ("name", _said("nothing", "a name", mend))]
    if not name[0].isalnum() or "|" in name:
        expected = "a name that begins with a letter or figure and has no | in it"
        faults.append(("name", _said(repr(name), expected, "writing it another way")))
    taken = (
        catalogue.cultivars_of(own.key[0]) if own.table == "cultivars" else catalogue.rootstocks()
    )
    if name.casefold() in {other.casefold() for other in taken}:
        mend = "another name, or removing the one that is there if it is your own"
        faults.append(("name", _said(name, "a name the catalogue has not yet", mend)))
    return faults


def _wrong(own: OwnRows, trait: Trait, words: str) -> str:
    """What is wrong with one value, in a sentence; empty when it will do."""
    needed = trait.name in NEEDED[own.table]
    if not words:
        expected = expected_of(trait)
        return _said("nothing", expected, "filling it in") if needed else ""
    if trait.name == "use" and words not in USES:
        return _said(repr(words), f"one of {', '.join(USES)}", "choosing one")
    if trait.choices and words not in trait.choices:
        return _said(repr(words), f"one of {', '.join(trait.choices)}", "choosing one")
    if trait.numeric:
        try:
            within = trait.low <= float(words) <= trait.high
        except ValueError:
            within = False
        if not within:
            return _said(repr(words), expected_of(trait), "writing one number")
    return "" if len(words) <= LONGEST else _said("a long text", f"{LONGEST} letters", "shortening")


def expected_of(trait: Trait) -> str:
    """What a trait accepts, in words.

    >>> expected_of(VOCABULARY["rootstocks"]["height_low"])
    'a number from 0.1 to 40 m'
    """
    if trait.numeric:
        unit = "" if trait.unit in UNSAID else f" {trait.unit}"
        return f"a number from {trait.low:g} to {trait.high:g}{unit}"
    return f"one of {', '.join(trait.choices)}" if trait.choices else "words"


def _rootstock_faults(
    own: OwnRows, catalogue: Catalogue, known: Mapping[str, str]
) -> dict[str, str]:
    """Species that there are not, and sizes in the wrong order."""
    faults = {}
    served = [word.strip() for word in own.values.get("serves", "").split(";") if word.strip()]
    unknown = [word for word in served if word not in catalogue.species()]
    if unknown:
        expected = f"of {', '.join(catalogue.species())}"
        faults["serves"] = _said(", ".join(unknown), expected, "correcting it")
    for size in ("height", "spread"):
        fields = [f"{size}_{part}" for part in ("low", "typical", "high")]
        if any(field in known for field in fields):
            continue
        numbers = [float(own.values[field]) for field in fields]
        if numbers != sorted(numbers):
            found = ", ".join(f"{number:g}" for number in numbers)
            mend = "putting the three in order"
            faults[fields[1]] = _said(found, "low, typical and high from small to large", mend)
    return faults


def with_own(text: str, own: OwnRows) -> str:
    """The text of a catalogue file with one's own rows in it, in the place of any of that name."""
    first, second = map(on_one_line, own.key)
    key = (first, second)
    columns, rows = _table(without_own(text, own.table, key), own.table)
    for trait in ASKED[own.table]:
        words = on_one_line(own.values.get(trait, ""))
        if words:
            found = VOCABULARY[own.table][trait]
            row = dict(zip(KEYS[own.table], key, strict=True))
            row |= {"trait": trait, "value": words, "unit": found.unit}
            row |= {
                "source": on_one_line(own.source),
                "status": own.status,
                "note": "one's own row",
            }
            rows.append(row)
    return _text(columns, rows)


def without_own(text: str, table: str, key: tuple[str, str]) -> str:
    """The text of a catalogue file without the rows of a name."""
    columns, rows = _table(text, table)
    kept = [row for row in rows if _key(row, table)[: _parts(table)] != key[: _parts(table)]]
    return _text(columns, kept)


def own_keys(text: str, table: str) -> tuple[tuple[str, str], ...]:
    """The names a catalogue file holds rows of, each once."""
    _, rows = _table(text, table)
    keys = [_key(row, table) for row in rows]
    if table == "rootstocks":
        keys = [(name, "") for name, _ in keys]
    return tuple(dict.fromkeys(keys))


def own_in(folder: Path | None) -> tuple[tuple[str, tuple[str, str]], ...]:
    """Table and name of every cultivar and rootstock that a folder's own files hold rows of."""
    return tuple(
        (table, key) for table in ASKED for key in own_keys(file_text(folder, table), table)
    )


def file_text(folder: Path | None, table: str) -> str:
    """The text of a folder's catalogue file, empty where it has none."""
    path = folder / f"{table}.csv" if folder else None
    return path.read_text(encoding="utf-8-sig") if path and path.is_file() else ""


def _parts(table: str) -> int:
    return 2 if table == "cultivars" else 1


def _key(row: Mapping[str, str], table: str) -> tuple[str, str]:
    first, second = ((row.get(column) or "").strip() for column in KEYS[table])
    return first, second


def _table(text: str, table: str) -> tuple[list[str], list[dict[str, str]]]:
    """Columns and rows of a file's text; those of an empty file are the catalogue's."""
    reader = csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""))
    columns = [*KEYS[table], *VALUE_COLUMNS]
    extra = [one for one in reader.fieldnames or () if one and one not in columns]
    names = [*columns, *extra]
    return names, [{name: armed(row.get(name) or "") for name in names} for row in reader]


def _text(columns: list[str], rows: list[dict[str, str]]) -> str:
    """A file's text, its words safe for a spreadsheet."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows([{name: disarmed(cell) for name, cell in row.items()} for row in rows])
    return text.getvalue()


def _said(found: str, expected: str, mend: str) -> str:
    return f"found {found}, expected {expected}, mend by {mend}"
