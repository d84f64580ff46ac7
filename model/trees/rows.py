"""Rows of a catalogue file, read and checked against the vocabulary."""

import csv
from collections.abc import Iterator
from pathlib import Path

from model.csv_text import armed
from model.trees.faults import Fault
from model.trees.value import STATUSES, Value
from model.trees.vocabulary import KEYS, VOCABULARY, Trait

MOST_COLUMNS = 40  # those there must be, and room for one's own
LARGEST = 5_000_000  # bytes; the whole catalogue is a tenth of it
MOST_FAULTS = 100  # after so many a file is not read on, as nobody would read them
VALUE_COLUMNS = ("trait", "value", "unit", "source", "status", "note")

Rows = dict[tuple[tuple[str, ...], str], Value]
"""A table's values by key and trait."""


def table_rows(path: Path, table: str, faults: list[Fault]) -> Rows:
    """The values of one catalogue file; what is wrong with it is added to `faults`."""
    found: Rows = {}
    for number, row in _numbered(path, (*KEYS[table], *VALUE_COLUMNS), faults):
        problems = list(_problems(row, table))
        if not problems and (_key(row, table), row["trait"]) in found:
            problems = [("trait", row["trait"], "each trait once", "leaving out one of the rows")]
        if problems:
            faults.extend(Fault(path.name, number, *problem) for problem in problems)
            continue
        trait = VOCABULARY[table][row["trait"]]
        found[_key(row, table), trait.name] = Value(
            value=float(row["value"]) if trait.numeric else row["value"],
            unit=row["unit"],
            source=row["source"],
            status=row["status"],
            note=row["note"],
            of=row["cultivar"] if table == "cultivars" else row[KEYS[table][0]],
        )
    return found


def source_rows(path: Path, faults: list[Fault]) -> Iterator[dict[str, str]]:
    """The rows of a sources file: source, kind, citation, where."""
    for number, row in _numbered(path, ("source", "kind", "citation", "where"), faults):
        if row["source"] and row["citation"]:
            yield row
        else:
            faults.append(
                Fault(
                    path.name,
                    number,
                    "source",
                    "a blank",
                    "a short name and a citation",
                    "filling both in",
                )
            )


def _numbered(
    path: Path, columns: tuple[str, ...], faults: list[Fault]
) -> Iterator[tuple[int, dict[str, str]]]:
    """The file's rows with their line numbers as a spreadsheet shows them."""
    text = _text(path, faults)
    if text is None:
        return
    reader = csv.DictReader(text.splitlines())
    try:
        reader.fieldnames  # noqa: B018 -- read here, so that a broken first row is told as one
    except csv.Error as error:
        faults.append(_broken(path, 1, error))
        return
    if len(reader.fieldnames or ()) > MOST_COLUMNS:
        found = f"{len(reader.fieldnames or ()):,} columns"
        mend = "leaving the others out"
        faults.append(Fault(path.name, 1, "columns", found, ",".join(columns), mend))
        return
    missing = [column for column in columns if column not in (reader.fieldnames or ())]
    if missing:
        faults.append(
            Fault(
                path.name,
                1,
                "columns",
                f"no {', '.join(missing)}",
                ",".join(columns),
                "adding the missing columns to the first row",
            )
        )
        return
    try:
        for row in reader:
            cells = {column: armed((row[column] or "").strip()) for column in columns}
            if any(cells.values()):
                yield reader.line_num, cells
            if len(faults) >= MOST_FAULTS:
                return
    except csv.Error as error:
        faults.append(_broken(path, reader.line_num, error))


def _text(path: Path, faults: list[Fault]) -> str | None:
    """The file's text; None when it cannot be read, with the fault added."""
    try:
        size = path.stat().st_size
        if size > LARGEST:
            wrong = f"{size:,} bytes", f"at most {LARGEST:,}", "leaving rows out"
        else:
            return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        wrong = "letters in another encoding", "UTF-8", "saving the file as CSV UTF-8"
    except OSError as error:
        wrong = error.strerror or "no file", "a readable file", "checking its rights"
    faults.append(Fault(path.name, 0, "text", *wrong))
    return None


def _broken(path: Path, row: int, error: csv.Error) -> Fault:
    """What a row is that cannot be taken apart into cells."""
    mend = "checking the quotation marks"
    return Fault(path.name, row, "text", str(error), "cells separated by commas", mend)


def _key(row: dict[str, str], table: str) -> tuple[str, ...]:
    return tuple(row[column] for column in KEYS[table])


Problem = tuple[str, str, str, str]
"""Field, found, expected, mend."""


def _problems(row: dict[str, str], table: str) -> Iterator[Problem]:
    """What is wrong with one row."""
    for column in KEYS[table]:
        if not row[column] and (table, column) != ("rootstocks", "species"):
            yield column, "nothing", f"the name of the {column}", "filling it in"
    trait = VOCABULARY[table].get(row["trait"])
    if trait is None:
        yield (
            "trait",
            repr(row["trait"]),
            f"one of {', '.join(VOCABULARY[table])}",
            "naming one of these",
        )
        return
    yield from _value_problems(row, trait)
    if not row["source"]:
        yield "source", "nothing", "where the value comes from", "naming the source"
    if row["status"] not in STATUSES:
        yield "status", repr(row["status"]), f"one of {', '.join(STATUSES)}", "writing one of these"


def _value_problems(row: dict[str, str], trait: Trait) -> Iterator[Problem]:
    found = repr(row["value"])
    if row["unit"] != trait.unit:
        unit = repr(trait.unit) if trait.unit else "no unit"
        yield "unit", repr(row["unit"]), f"{unit} for {trait.name}", "converting to that unit"
    if trait.numeric:
        bounds = f"a number from {trait.low:g} to {trait.high:g}"
        try:
            number = float(row["value"])
        except ValueError:
            yield "value", found, bounds, f"writing one number for {trait.name}"
            return
        if not trait.low <= number <= trait.high:
            yield "value", found, bounds, f"correcting {trait.name}"
    elif trait.choices and row["value"] not in trait.choices:
        yield "value", found, f"one of {', '.join(trait.choices)}", "writing one of these"
    elif not row["value"]:
        yield "value", "nothing", "words", "filling it in or deleting the row"
