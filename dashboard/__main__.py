"""The command line: serve the app, lay out a survey folder, check, assess, place or review one."""

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from importlib.resources import files
from pathlib import Path

from dashboard.commands.layers import add_layers, written_layers
from dashboard.commands.place import add_place, asked_of, coming_winter
from dashboard.commands.report import add_report, write_report
from dashboard.commands.serve import add_serve, served
from dashboard.keeping.working_copy import written
from dashboard.version import VERSION
from model.assessment import write_tables
from model.opening import folder_faults, open_study
from model.planting.order_file import ORDER_FILE
from model.planting.planning import folder_plan, said_of, write_plan
from model.planting.year_after.review import folder_review, write_review
from model.survey.faults import SurveyFaults
from model.survey.reading import read_site
from model.survey.starter import new_folder
from model.translations import locale_of, translations, use_language

CLEAN, FAULTS, USAGE = 0, 1, 2
DEMO = Path(str(files("demo_data"))) / "sorrelhay"


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; 0 when all is well, 1 for faults of a folder or disk, 2 for wrong usage."""
    parser = _parser()
    try:
        given = parser.parse_args(arguments)
    except SystemExit as stop:
        return int(stop.code or 0)
    try:
        return given.command(given)
    except OSError as error:  # a full disk, a folder that may not be written
        where = f"{error.filename}: " if error.filename else ""
        print(f"{where}{error.strerror or error}", file=sys.stderr)
        return FAULTS


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        "treestead",
        description="Which fruit tree, on which rootstock, should stand where, and why.",
    )
    parser.add_argument("--version", action="version", version=f"Treestead {VERSION}")
    commands = parser.add_subparsers(required=True, metavar="COMMAND")
    add_serve(commands, _serve, DEMO)
    new = commands.add_parser("new", help="lay out a starter folder whose files explain themselves")
    new.add_argument("folder", type=Path)
    new.set_defaults(command=_new)
    check = commands.add_parser("check", help="report every fault of a survey folder")
    check.add_argument("folder", type=Path)
    check.set_defaults(command=_check)
    assess = commands.add_parser(
        "assess", help="judge every option at every peg, as two CSV tables"
    )
    assess.add_argument("folder", type=Path)
    assess.add_argument("--spots", type=Path, metavar="CSV", help="in place of spots.csv")
    assess.add_argument("--options", type=Path, metavar="CSV", help="in place of options.csv")
    assess.add_argument("--study", type=Path, metavar="TOML", help="in place of study.toml")
    assess.add_argument("--out", type=Path, metavar="DIR", required=True)
    assess.set_defaults(command=_assess)
    add_place(commands, _place)
    _add_later(commands)
    add_layers(commands, _layers)
    language = commands.add_parser(
        "language", help="write every text of the app into a file for a translator to fill in"
    )
    language.add_argument("file", type=Path, metavar="PO", help="new, or to be brought up to date")
    language.set_defaults(command=_language)
    return parser


def _add_later(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """The commands for what follows a plan: the year after, and the client's document."""
    year_on = commands.add_parser(
        "review", help="a year on: keep or move each tree, as two CSV tables and in sentences"
    )
    year_on.add_argument("folder", type=Path)
    year_on.add_argument("--out", type=Path, metavar="DIR", required=True)
    year_on.add_argument("--placement", type=Path, metavar="CSV", help="in place of placement.csv")
    year_on.add_argument(
        "--observations", type=Path, metavar="CSV", help="in place of observations.csv"
    )
    year_on.add_argument(
        "--on", type=date.fromisoformat, metavar="DATE", help="the day (that of the last one seen)"
    )
    year_on.set_defaults(command=_review)
    add_report(commands, _report)


def _serve(given: argparse.Namespace) -> int:
    if _said_faults(given.folder):
        return FAULTS
    try:
        use_language(given.language)
    except SurveyFaults as error:
        print(error, file=sys.stderr)
        return FAULTS
    said = served(given)
    if said:
        print(said, file=sys.stderr)
    return USAGE if said else CLEAN


def _new(given: argparse.Namespace) -> int:
    if given.folder.exists() and (not given.folder.is_dir() or any(given.folder.iterdir())):
        print(
            f"{given.folder}: found something there, expected a new or empty folder",
            file=sys.stderr,
        )
        return USAGE
    new_folder(given.folder)
    print(
        f"{given.folder}: a starter folder; read its README.txt, then: "
        f"treestead check {given.folder}"
    )
    return CLEAN


def _check(given: argparse.Namespace) -> int:
    if _said_faults(given.folder):
        return FAULTS
    site = read_site(given.folder)
    for sentence in site.absent.values():
        print(f"note: {sentence}")
    print(f"{given.folder}: no faults")
    return CLEAN


def _assess(given: argparse.Namespace) -> int:
    for path in (given.spots, given.options, given.study):
        if path is not None and not path.is_file():
            print(f"{path}: found no such file, expected a file to read", file=sys.stderr)
            return USAGE
    if _said_faults(given.folder):
        return FAULTS
    try:
        study = open_study(given.folder, given.spots, given.options, given.study)
        if not study.site.spots:
            print(f"{given.folder}: found no spots, expected spots.csv or --spots", file=sys.stderr)
            return FAULTS
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTS
    for path in write_tables(study, given.out):
        print(path)
    for label, sentence in study.unjudged:
        print(f"note: {label} is not judged: {sentence}")
    return CLEAN


def _place(given: argparse.Namespace) -> int:
    for path in (given.order, given.placement):
        if path is not None and not path.is_file():
            print(f"{path}: found no such file, expected a file to read", file=sys.stderr)
            return USAGE
    if _said_faults(given.folder):
        return FAULTS
    order = given.order or given.folder / ORDER_FILE
    try:
        planned = folder_plan(given.folder, order, given.placement, asked_of(given))
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTS
    north = planned.study.site.latitude >= 0
    winter = given.winter or coming_winter(date.today(), north=north)
    for path in write_plan(planned, given.out, winter):
        print(path)
    for sentence in said_of(planned):
        print(sentence)
    return CLEAN if planned.placement.trees else FAULTS


def _review(given: argparse.Namespace) -> int:
    for path in (given.placement, given.observations):
        if path is not None and not path.is_file():
            print(f"{path}: found no such file, expected a file to read", file=sys.stderr)
            return USAGE
    if _said_faults(given.folder):
        return FAULTS
    try:
        made = folder_review(given.folder, given.placement, given.observations, given.on)
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTS
    for path in write_review(made, given.out):
        print(path)
    for sentence in (*made.sentences, *made.corrections, made.caution):
        print(sentence)
    return CLEAN


def _report(given: argparse.Namespace) -> int:
    if given.placement is not None and not given.placement.is_file():
        print(f"{given.placement}: found no such file, expected a file to read", file=sys.stderr)
        return USAGE
    if _said_faults(given.folder):
        return FAULTS
    try:
        paths, sentences = write_report(given)
    except ValueError as error:
        print(error, file=sys.stderr)
        return FAULTS
    for line in (*paths, *sentences):
        print(line)
    return CLEAN


def _layers(given: argparse.Namespace) -> int:
    if _said_faults(given.folder):
        return FAULTS
    try:
        paths, notes = written_layers(given)
    except ValueError as error:
        print(error, file=sys.stderr)
        return USAGE
    for path in paths:
        print(path)
    for sentence in notes:
        print(f"note: {sentence}")
    return CLEAN


def _language(given: argparse.Namespace) -> int:
    from dashboard.language_file import language_file  # noqa: PLC0415 - it reads all pages

    if given.file.exists():
        try:
            translations(given.file)
        except SurveyFaults as error:
            print(error, file=sys.stderr)
            return FAULTS
    before = given.file.read_bytes() if given.file.exists() else b""
    print(written(given.file, language_file(before, locale_of(given.file))))
    return CLEAN


def _said_faults(folder: Path) -> bool:
    """Whether the folder has faults; each is said on its own line."""
    faults = folder_faults(folder)
    for fault in faults:
        print(fault, file=sys.stderr)
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main())
