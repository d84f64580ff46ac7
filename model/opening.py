"""A survey folder opened as a study: site, catalogue, short list and saved choices together."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

from model.ground import Ground
from model.study import Study
from model.study_file import StudyFile, read_study_file, write_study_file
from model.survey.faults import Fault, SurveyFaults, shown
from model.survey.folder import MOST_FAULTS, Folder
from model.survey.lists import OPTIONS_FILE, options, spots
from model.survey.reading import read_site, site_as_before, site_faults
from model.survey.site import Site
from model.trees import Catalogue, CatalogueFaults, Option, neighbour, read_catalogue

STUDY_FILE = "study.toml"
Listed = TypeVar("Listed")


def open_study(
    folder: str | Path,
    spots_file: Path | None = None,
    options_file: Path | None = None,
    study_file: Path | None = None,
    ground: Ground | None = None,
) -> Study:
    """The study of a site's folder; other files may stand in for its spots, short list and choices.

    A `ground` computed before from the same files saves reading and computing them again.

    Raises SurveyFaults or CatalogueFaults, both ValueErrors that list every fault of a file.
    """
    site = read_site(folder) if ground is None else site_as_before(folder, ground.site)
    catalogue = read_catalogue(folder) if ground is None else ground.catalogue
    if spots_file is not None:
        site = replace(site, spots=tuple(spot for spot, _ in _listed(spots, spots_file)))
    if options_file is not None:
        site = replace(site, options=_listed(options, options_file))
    short_list = _agreed(site, catalogue, (options_file or Path(OPTIONS_FILE)).name)
    chosen = read_study_file(study_file or Path(folder) / STUDY_FILE)
    return Study(site, catalogue, short_list, chosen, ground)


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
            _agreed(read_site(folder), read_catalogue(folder), OPTIONS_FILE)
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
    write_study_file(path, choices(study))
    return path


def choices(study: Study) -> StudyFile:
    """A study's weights, curves, figures and weight sets as a study file has them."""
    shares = {f.name: float(share) for f, share in zip(study.factors, study.weights, strict=True)}
    settings = {n: s.figures() | {"curve": s.curve} for n, s in study.settings.items()}
    return StudyFile(shares, study.trade_off, settings, study.weight_sets)


def with_weight_sets(folder: Path, study: Study) -> StudyFile:
    """A folder's study file with the study's weight sets and otherwise as it was.

    Raises SurveyFaults when the file there has faults.
    """
    return replace(read_study_file(folder / STUDY_FILE), weight_sets=study.weight_sets)


def _listed(read: Callable[[Folder, str], Listed], file: Path) -> Listed:
    """What a list file holds, wherever it lies; its faults are raised."""
    folder = Folder(file.parent)
    listed = read(folder, file.name)
    if folder.faults:
        raise SurveyFaults(folder.faults)
    return listed


def _agreed(site: Site, catalogue: Catalogue, options_file: str) -> list[Option]:
    """The short list; SurveyFaults name every tree of the survey that the catalogue does not have.

    Without a short list, one of each species to begin with.
    """
    faults, chosen = _unknown_neighbours(site, catalogue), []
    for row, names in enumerate(site.options, start=2):
        try:
            chosen.append(catalogue.option(*names))
        except ValueError as error:
            where = "species, cultivar, rootstock"
            mend = "choosing one of those"
            faults.append(Fault(options_file, row, where, shown(" ".join(names)), str(error), mend))
            if len(faults) >= MOST_FAULTS:
                break
    if faults:
        raise SurveyFaults(faults)
    if chosen:
        return chosen
    first = {option.species: option for option in reversed(catalogue.options())}
    return [first[species] for species in catalogue.species() if species in first]


def _unknown_neighbours(site: Site, catalogue: Catalogue) -> list[Fault]:
    """Faults for trees, woods and hedges whose species the catalogue does not have."""
    faults: list[Fault] = []
    unknown: dict[str, str] = {"": ""}
    for feature in site.features:
        for name in map(str.strip, str(feature.attributes.get("species", "")).split(";")):
            if name not in unknown:
                unknown[name] = _why_unknown(catalogue, name)
            if unknown[name]:
                mend = "choosing one of those, or adding it to neighbours.csv"
                place = feature.origin, None, "species"
                faults.append(Fault(*place, shown(name), unknown[name], mend))
        if len(faults) >= MOST_FAULTS:
            break
    return faults[:MOST_FAULTS]


def _why_unknown(catalogue: Catalogue, name: str) -> str:
    """Why the catalogue has no neighbouring tree of that name, empty where it has."""
    try:
        neighbour(catalogue, name)
    except ValueError as error:
        return str(error)
    return ""
