"""CSV files as rows of checked values."""

import csv
import io
import math
from collections.abc import Sequence
from dataclasses import dataclass

from model.csv_text import armed, disarmed
from model.survey.attribute import Attribute, Required, Value, Wrong, is_blank
from model.survey.faults import listed, nearest_name, shown
from model.survey.folder import Folder

MOST_ROWS = 100_000  # 270 years of days; each row takes its time and memory
MOST_CELLS = 2_000_000  # of a whole file, filled or blank


@dataclass(frozen=True)
class RawRow:
    """A row as written: its line in the file and its filled cells by column."""

    number: int
    cells: dict[str, str]


@dataclass(frozen=True)
class Row:
    """A row whose every value has passed its check."""

    number: int
    values: dict[str, Value]

    def number_of(self, column: str) -> float:
        """A numeric value."""
        return float(self.values[column])

    def text_of(self, column: str) -> str:
        """A text value."""
        return str(self.values[column])


def raw_rows(
    folder: Folder, name: str, columns: Sequence[Attribute], most: int = MOST_ROWS
) -> list[RawRow] | None:
    """The rows of a CSV file, None (faults noted) when its header or its quoting is wrong."""
    text = folder.text(name)
    if text is None:
        return None
    wrong = _wrong_size(text, most)
    if wrong is not None:
        folder.fault(name, None, "", wrong)
        return None
    try:
        reader = csv.reader(io.StringIO(text, newline=""), strict=True)
        lines = [(reader.line_num, [armed(cell.strip()) for cell in line]) for line in reader]
    except csv.Error as error:
        wrong = Wrong(str(error), "cells separated by commas", "checking the quotation marks")
        folder.fault(name, reader.line_num, "", wrong)
        return None
    filled = [(number, line) for number, line in lines if any(line)]
    if not filled:
        folder.fault(name, 1, "", Wrong("blank rows only", "a header", "filling it in"))
        return None
    header_row, header = filled[0]
    if not _header_is_right(folder, name, header_row, header, columns):
        return None
    rows = []
    for number, line in filled[1:]:
        if any(line[len(header) :]):
            wrong = Wrong(f"{len(line)} cells", f"{len(header)} as in the header", "quoting commas")
            folder.fault(name, number, header[-1], wrong)
        named = zip(header, line, strict=False)
        rows.append(RawRow(number, {column: cell for column, cell in named if not is_blank(cell)}))
    return rows


def checked_rows(
    folder: Folder, name: str, columns: Sequence[Attribute], most: int = MOST_ROWS
) -> list[Row]:
    """The rows of a CSV file that are right; every fault of the others is noted."""
    rows = []
    for raw in raw_rows(folder, name, columns, most) or []:
        values: dict[str, Value] = {}
        for column in columns:
            value = folder.value(name, raw.number, column, raw.cells.get(column.name))
            if value is not None:
                values[column.name] = value
        if len(values) == len(columns):
            rows.append(Row(raw.number, values))
    return rows


def table_text(columns: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """A CSV file's text: header and rows, numbers with all the digits they need."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([[_cell(value) for value in row] for row in rows])
    return text.getvalue()


def _wrong_size(text: str, most: int) -> Wrong | None:
    """What is wrong with a text of more rows or cells than are taken apart."""
    rows = text.count("\n") + text.count("\r") - text.count("\r\n")
    if rows > most + 1:
        return Wrong(f"{rows:,} rows", f"at most {most:,}", "leaving some out")
    cells = rows + text.count(",")
    if cells > MOST_CELLS:
        return Wrong(f"{cells:,} cells", f"at most {MOST_CELLS:,}", "leaving out blank columns")
    return None


def _cell(value: object) -> str:
    """A cell's text; not known is blank, a whole number loses its '.0'."""
    if isinstance(value, float):
        return "" if math.isnan(value) else repr(float(value)).removesuffix(".0")
    return disarmed(str(value))


def _header_is_right(
    folder: Folder, name: str, row: int, header: list[str], columns: Sequence[Attribute]
) -> bool:
    known = [column.name for column in columns]
    before = len(folder.faults)
    for column in dict.fromkeys(header):
        if column not in known:
            wrong = Wrong(f"the column {shown(column)}", listed(known), _header_mend(column, known))
            folder.fault(name, row, column, wrong)
        elif header.count(column) > 1:
            wrong = Wrong(f"{header.count(column)} columns of it", "one", "deleting the others")
            folder.fault(name, row, column, wrong)
    for attribute in columns:
        if isinstance(attribute.default, Required) and attribute.name not in header:
            wrong = Wrong("no such column", f"a column {attribute.name}", "adding it to the header")
            folder.fault(name, row, attribute.name, wrong)
    return len(folder.faults) == before


def _header_mend(column: str, known: list[str]) -> str:
    if ";" in column or "\t" in column:
        return "saving the file with commas between the cells"
    return nearest_name(column, known) + " or deleting the column"
