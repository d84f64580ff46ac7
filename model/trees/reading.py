"""Reading the catalogue: the package's own rows, and a site folder's over them."""

from pathlib import Path

from model.trees.catalogue import Catalogue
from model.trees.faults import CatalogueFaults, Fault
from model.trees.gaps import gaps
from model.trees.rows import Rows, source_rows, table_rows
from model.trees.value import Source
from model.trees.vocabulary import KEYS

SHIPPED = Path(__file__).parent / "data"


def read_catalogue(folder: Path | str | None = None) -> Catalogue:
    """The catalogue shipped with the package, with the rows of a site folder over it.

    A row of the folder's species.csv, rootstocks.csv, cultivars.csv or neighbours.csv replaces the
    shipped value of the same trait or adds a new one; sources.csv adds citations. Raises
    CatalogueFaults listing every fault of the folder's files at once.
    """
    faults: list[Fault] = []
    tables: dict[str, Rows] = {table: {} for table in KEYS}
    sources: dict[str, Source] = {}
    for place in (SHIPPED, *([Path(folder)] if folder is not None else [])):
        for table in KEYS:
            if (place / f"{table}.csv").is_file():
                tables[table] |= table_rows(place / f"{table}.csv", table, faults)
        if (place / "sources.csv").is_file():
            sources |= {
                row["source"]: Source(row["source"], row["kind"], row["citation"], row["where"])
                for row in source_rows(place / "sources.csv", faults)
            }
    if not faults:
        faults.extend(gaps(Catalogue(tables, sources)))
    if faults:
        raise CatalogueFaults(faults)
    return Catalogue(tables, sources)
