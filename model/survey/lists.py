"""spots.csv, the pegged spots, and options.csv, the short list of trees."""

from model.survey.attribute import REQUIRED, Attribute, Wrong
from model.survey.faults import shown
from model.survey.folder import Folder
from model.survey.settings import EAST, NORTH
from model.survey.site import Spot
from model.survey.table import Row, checked_rows, table_text

SPOTS_FILE = "spots.csv"
OPTIONS_FILE = "options.csv"
MOST_SPOTS = 20_000
MOST_OPTIONS = 5_000  # a few times as many as the whole catalogue has
SPOT_COLUMNS = (
    Attribute("spot", "", REQUIRED, meaning="what the peg is called; each name once"),
    EAST,
    NORTH,
    Attribute("note", "", "", meaning="anything worth remembering"),
)
OPTION_COLUMNS = (
    Attribute("species", "", REQUIRED, meaning="as the catalogue names it, such as apple"),
    Attribute("cultivar", "", REQUIRED, meaning="as the catalogue names it"),
    Attribute("rootstock", "", REQUIRED, meaning="as the catalogue names it, such as MM106"),
)


def spots(folder: Folder, name: str = SPOTS_FILE) -> tuple[tuple[Spot, int], ...]:
    """The pegged spots of a file, each with its row."""
    rows = checked_rows(folder, name, SPOT_COLUMNS, MOST_SPOTS)
    _note_repeats(folder, name, rows, ("spot",))
    return tuple(
        (
            Spot(
                row.text_of("spot"), row.number_of("x_m"), row.number_of("y_m"), row.text_of("note")
            ),
            row.number,
        )
        for row in rows
    )


def options(folder: Folder, name: str = OPTIONS_FILE) -> tuple[tuple[str, str, str], ...]:
    """The short list of a file: species, cultivar and rootstock of each."""
    rows = checked_rows(folder, name, OPTION_COLUMNS, MOST_OPTIONS)
    _note_repeats(folder, name, rows, ("species", "cultivar", "rootstock"))
    return tuple(
        (row.text_of("species"), row.text_of("cultivar"), row.text_of("rootstock")) for row in rows
    )


def spots_text(listed: tuple[Spot, ...]) -> str:
    """The text of spots.csv, places to 0.1 mm."""
    rows = [(one.name, round(one.x, 4), round(one.y, 4), one.note) for one in listed]
    return table_text([column.name for column in SPOT_COLUMNS], rows)


def options_text(listed: tuple[tuple[str, str, str], ...]) -> str:
    """The text of options.csv."""
    return table_text([column.name for column in OPTION_COLUMNS], listed)


def _note_repeats(folder: Folder, name: str, rows: list[Row], columns: tuple[str, ...]) -> None:
    first: dict[tuple[str, ...], int] = {}
    for row in rows:
        key = tuple(row.text_of(column) for column in columns)
        if key in first:
            wrong = Wrong(
                f"{shown(' '.join(key))} again, as in row {first[key]}",
                "each once",
                "renaming or deleting one of the two",
            )
            folder.fault(name, row.number, columns[0], wrong)
        first.setdefault(key, row.number)
