"""The files that a report is handed over with: pegs for a receiver or a map, lists for a desk."""

from collections.abc import Callable

from dashboard.report import Findings
from model.csv_text import csv_text
from model.peg_files import peg_table, pegs_csv, pegs_geojson, pegs_geopackage, pegs_gpx
from model.planting.dates.ical import ical
from model.planting.placement_file import placement_table

PEGS = ("pegs.csv", "pegs.geojson", "pegs.gpkg", "pegs.gpx")
LISTS = ("placement.csv", "shopping_list.csv", "calendar.csv", "calendar.ics", "effort.csv")


def content(found: Findings, name: str) -> bytes | None:
    """One of the files; None where there is no such file, or no plan that it could tell of."""
    plan = found.plan
    if name in PEGS:
        study = found.study
        pegs = peg_table(study, plan.placement if plan else None)
        made: dict[str, Callable[[], str | bytes]] = {
            "pegs.csv": lambda: pegs_csv(pegs),
            "pegs.geojson": lambda: pegs_geojson(pegs),
            "pegs.gpkg": lambda: pegs_geopackage(study, pegs),
            "pegs.gpx": lambda: pegs_gpx(study, pegs),
        }
        written = made[name]()
        return written.encode() if isinstance(written, str) else written
    if plan is None or name not in LISTS:
        return None
    if name == "calendar.ics":
        return ical(found.calendar, found.study.site.name, found.winter)
    tables = {
        "placement.csv": lambda: placement_table(found.study, plan.placement, plan.planted),
        "shopping_list.csv": lambda: found.needs,
        "calendar.csv": lambda: found.calendar,
        "effort.csv": lambda: found.effort,
    }
    return csv_text(tables[name]()).encode()
