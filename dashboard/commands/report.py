"""The command `report`: a survey folder's document as HTML and as PDF."""

import argparse
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

from dashboard.keeping.working_copy import written
from dashboard.report import document, findings, folder_plan, pdf, read_brief
from dashboard.report.brief import PAPERS, changed
from model.opening import open_study

HTML_FILE, PDF_FILE = "report.html", "report.pdf"
TYPED = {"title": "title", "prepared_for": "for", "prepared_by": "by", "reference": "reference"}


def add_report(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]",
    run: Callable[[argparse.Namespace], int],
) -> None:
    """Add the command and its words."""
    report = commands.add_parser(
        "report", help="the client's document as HTML and PDF, of the plan or of each peg's leader"
    )
    report.add_argument("folder", type=Path)
    report.add_argument("--out", type=Path, metavar="DIR", required=True)
    report.add_argument("--placement", type=Path, metavar="CSV", help="in place of placement.csv")
    for field, word in TYPED.items():
        report.add_argument(
            f"--{word}", dest=field, metavar="WORDS", help="in place of report.toml's"
        )
    report.add_argument("--paper", choices=list(PAPERS), help="(A4)")
    report.add_argument("--feet", action="store_true", help="lengths in feet and inches")
    report.add_argument(
        "--sure", action="store_true", help="try other weights and surveys; takes minutes"
    )
    report.add_argument(
        "--on", type=date.fromisoformat, metavar="DATE", help="the report's day (today)"
    )
    report.set_defaults(command=run)


def write_report(given: argparse.Namespace) -> tuple[list[Path], list[str]]:
    """Write the document; the files and what is to be said. ValueError where a file has faults."""
    study = open_study(given.folder)
    brief = read_brief(given.folder, feet=given.feet)
    for field in (*TYPED, "paper"):
        if getattr(given, field) is not None:
            brief = changed(brief, field, getattr(given, field))
    plan = folder_plan(study, given.folder, given.placement)
    found = findings(study, plan, given.on or date.today(), sure=given.sure)
    html = document(found, replace(brief, feet=given.feet))
    given.out.mkdir(parents=True, exist_ok=True)
    paths = [written(given.out / HTML_FILE, html)]
    try:
        paths.append(written(given.out / PDF_FILE, pdf(html)))
    except ValueError as error:
        return paths, [str(error)]
    return paths, []
