"""Twelve monthly normals as a table to fill in, or to paste from a spreadsheet."""

from typing import Any

from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from model.language import _, marked, month_name
from model.survey.site import Site
from model.survey.table import table_text
from model.survey.weather_csv import MONTHLY_COLUMNS

COLUMNS = MONTHLY_COLUMNS[1:8]
NEEDED = 6  # of the columns; the spread from year to year may be left blank
HEADS = (
    marked("Month"),
    marked("min °C"),
    marked("max °C"),
    marked("min sd"),
    marked("max sd"),
    marked("rain mm"),
    marked("rain days"),
    marked("year sd"),
)
MONTHS = range(1, 13)


def months_of(site: Site) -> list[list[str]]:
    """The cells of a site's monthly normals; blank where it has none."""
    weather = site.weather
    if weather is None or weather.kind != "monthly":
        return [[""] * len(COLUMNS) for _month in MONTHS]
    table = weather.table
    figures = table.reindex(columns=[one.name for one in COLUMNS]).to_numpy(float).tolist()
    return [[form.plain(figure) for figure in row] for row in figures]


def months_text(cells: list[list[str]]) -> str:
    """The cells as the text of weather_monthly.csv."""
    names = ["month", *(column.name for column in COLUMNS)]
    return table_text(names, [[number, *row] for number, row in enumerate(cells, start=1)])


def months_fields(cells: list[list[str]], pasted: str, fault: str) -> list[Field]:
    """The table, the field to paste into, and what the columns mean."""
    rows = [
        [month_name(month, "abbreviated"), *row] for month, row in zip(MONTHS, cells, strict=True)
    ]
    meanings = "; ".join(
        f"{_(head)}: {_(one.meaning)}" for head, one in zip(HEADS[1:], COLUMNS, strict=True)
    )
    example = "1, 2.0, 8.0, 3.5, 3.0, 100, 16\n2, …"
    shown = [
        form.table(_("Monthly normals"), [_(head) for head in HEADS], rows, name="month"),
        form.note(meanings, "help"),
        form.area(
            "months", _("Paste all twelve"), pasted, rows=3, example=example,
            help=_("month, then the columns above; tabs, commas or semicolons between"),
        ),
    ]  # fmt: skip
    return [*shown, form.note(fault, "bad")] if fault else shown


def filled(cells: list[list[str]], value: Any) -> list[list[str]]:
    """The cells with one of them as typed; unchanged when there is no such cell."""
    if not (
        isinstance(value, list) and len(value) == 3 and all(isinstance(n, int) for n in value[:2])
    ):
        return cells
    row, column = value[0], value[1] - 1
    if not (0 <= row < 12 and 0 <= column < len(COLUMNS)):
        return cells
    new = [list(one) for one in cells]
    new[row][column] = str(value[2]).strip()[:20]
    return new


def is_full(cells: list[list[str]]) -> bool:
    """Whether every cell that is needed holds something."""
    return all(cell for row in cells for cell in row[:NEEDED])
