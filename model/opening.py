"""A survey folder opened as a study: site, catalogue, short list and saved choices together."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from model.study import Study
from model.study_file import StudyFile, read_study_file, write_study_file
from model.survey.faults import Fault, SurveyFaults
from model.survey.folder import Folder
from model.survey.lists import OPTIONS_FILE, options, spots
from model.survey.reading import read_site, site_faults
from model.trees import Catalogue, CatalogueFaults, Option, read_catalogue

STUDY_FILE = "study.toml"
Listed = TypeVar("Listed")


def open_study(
    folder: str | Path,
    spots_file: Path | None = None,
    options_file: Path | None = None,
    study_file: Path | None = None,
) -> Study:
    """The study of a site's folder; other files may stand in for its spots, short list and choices.

    Raises SurveyFaults or CatalogueFaults, both ValueErrors that list every fault of a file.
    """
    site = read_site(folder)
    catalogue = read_catalogue(folder)
    if spots_file is not None:
        site = replace(site, spots=tuple(spot for spot, _ in _listed(spots, spots_file)))
    named = site.options if options_file is None else _listed(options, options_file)
    short_list = _short_list(catalogue, named, (options_file or Path(OPTIONS_FILE)).name)
    choices = read_study_file(study_file or Path(folder) / STUDY_FILE)
    return Study(site, catalogue, short_list, choices)


def folder_faults(folder: str | Path) -> list[str]:
    """Every fault of a folder's files, in sentences; empty when the study can be opened."""
    faults = [str(fault) for fault in site_faults(folder)]
    for read in (read_catalogue, lambda path: read_study_file(Path(path) / STUDY_FILE)):
        try:
            read(folder)
        except (SurveyFaults, CatalogueFaults) as error:
            faults += str(error).splitlines()
    if not faults:
        try:
            _short_list(read_catalogue(folder), read_site(folder).options, OPTIONS_FILE)
        except SurveyFaults as error:
            faults += str(error).splitlines()
    return faults


def save_choices(study: Study) -> Path:
    """Write a study's weights, curves, figures and weight sets to its folder's study.toml.

    Raises OSError when the folder cannot be written, ValueError when the study has no folder.
    """
    if study.site.folder is None:
        raise ValueError("the study was not opened from a folder, so there is none to save it in")
    path = study.site.folder / STUDY_FILE
    shares = {f.name: float(share) for f, share in zip(study.factors, study.weights, strict=True)}
    settings = {n: s.figures() | {"curve": s.curve} for n, s in study.settings.items()}
    write_study_file(path, StudyFile(shares, study.trade_off, settings, study.weight_sets))
    return path


def _listed(read: Callable[[Folder, str], Listed], file: Path) -> Listed:
    """What a list file holds, wherever it lies; its faults are raised."""
    folder = Folder(file.parent)
    listed = read(folder, file.name)
    if folder.faults:
        raise SurveyFaults(folder.faults)
    return listed


def _short_list(
    catalogue: Catalogue, named: tuple[tuple[str, str, str], ...], file: str
) -> list[Option]:
    """The options of a short list; without one, one of each species to begin with."""
    if not named:
        first = {option.species: option for option in reversed(catalogue.options())}
        return [first[species] for species in catalogue.species() if species in first]
    faults, chosen = [], []
    for row, names in enumerate(named, start=2):
        try:
            chosen.append(catalogue.option(*names))
        except ValueError as error:
            faults.append(
                Fault(
                    file,
                    row,
                    "species, cultivar, rootstock",
                    " ".join(names),
                    str(error),
                    "choosing one of those",
                )
            )
    if faults:
        raise SurveyFaults(faults)
    return chosen
