"""The order as lines on the page: how many of what, and what of the short list meets each."""

from dataclasses import dataclass, replace
from pathlib import Path

from model.planting.order import USES, matching, wish_label
from model.planting.order_file import COLUMNS, MOST, ORDER_FILE
from model.study import Study
from model.survey.folder import Folder
from model.survey.table import checked_rows, table_text

__all__ = ["MOST", "ORDER_FILE", "OrderRow", "counted", "meeting", "order_rows", "order_text"]


@dataclass(frozen=True)
class OrderRow:
    """One line of order.csv; blank words are any."""

    count: int
    species: str = ""
    cultivar: str = ""
    rootstock: str = ""
    use: str = ""
    note: str = ""

    @property
    def names(self) -> dict[str, str]:
        """What the line asks for."""
        return {name: getattr(self, name) for name in ("species", "cultivar", "rootstock", "use")}

    @property
    def label(self) -> str:
        """The line in words; a tree that is not named to the last is 'any'."""
        words = wish_label(**self.names)
        return words if self.cultivar else f"any {words}"


def order_rows(folder: Path | None) -> tuple[OrderRow, ...]:
    """The lines of a folder's order that can be read; none where it has no order."""
    if folder is None or not (folder / ORDER_FILE).is_file():
        return ()
    rows = checked_rows(Folder(folder), ORDER_FILE, COLUMNS)
    columns = ("species", "cultivar", "rootstock", "use", "note")
    return tuple(
        OrderRow(int(row.number_of("count")), *(row.text_of(name) for name in columns))
        for row in rows
    )


def order_text(rows: tuple[OrderRow, ...]) -> str:
    """The text of order.csv."""
    cells = [(r.count, r.species, r.cultivar, r.rootstock, r.use, r.note) for r in rows]
    return table_text([column.name for column in COLUMNS], cells)


def counted(rows: tuple[OrderRow, ...], number: int, step: int) -> tuple[OrderRow, ...]:
    """The lines with one's count moved, from 1 to the most a line may hold."""
    count = min(max(rows[number].count + step, 1), MOST)
    return (*rows[:number], replace(rows[number], count=count), *rows[number + 1 :])


def meeting(study: Study, row: OrderRow) -> tuple[int, ...]:
    """Numbers of the short list's options that meet a line."""
    if row.use and row.use not in USES:
        return ()
    return matching(study, **row.names)
