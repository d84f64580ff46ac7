"""The survey as files: load and save the folder as a zip, and file by file."""

import shutil
import tempfile
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from dashboard.keeping.drafts import written
from dashboard.pages import survey_form as form
from dashboard.pages.survey_form import Field
from dashboard.pages.survey_work import Work
from model.language import _
from model.opening import folder_faults
from model.survey import Plane, Site, SurveyFaults, read_site, write_site
from model.survey.archive import LARGEST_ZIP, folder_zip, is_own_file, zip_files
from model.survey.reading import FILES
from model.survey.sketch_file import FILE as SKETCH_FILE
from model.survey.writing import PARTS

LARGEST = 8_000_000  # bytes of a single file
HEIGHTS = PARTS[2]
MOST_FAULTS = 30
ENDINGS = ",".join(sorted({Path(name).suffix for name in FILES}))


class FilesPanel:
    """Download all or one, upload all or one; what has faults is not taken, and they are said."""

    path = "files"
    label = "Files"
    key = "files"

    def __init__(self, work: Work) -> None:
        self.work = work
        self.faults: list[str] = []
        self.ready: tuple[str, bytes] | None = None

    def fields(self) -> list[Field]:
        """The form."""
        most = LARGEST_ZIP // 10**6
        whole = _("at most {most} MB; it replaces what is drawn, and Undo brings that back")
        whole = whole.format(most=most)
        shown = [
            form.heading(_("Load and save")),
            form.buttons("zip", form.main_button("zip", _("Download the folder as a zip"))),
            {"kind": "fold", "label": _("Single files"), "fields": [self._files()]},
            form.upload(
                "folder", _("Load a folder from a zip"), ".zip,application/zip", LARGEST_ZIP,
                whole,
            ),
            form.upload(
                "single", _("Load one file of a survey"), ENDINGS, LARGEST,
                _("features, heights, weather, spots or site, by its own name such as spots.csv"),
            ),
        ]  # fmt: skip
        if self.faults:
            shown.append(form.subheading(_("Not loaded: to be mended first")))
            shown += [form.note(one, "bad") for one in self.faults[:MOST_FAULTS]]
            if len(self.faults) > MOST_FAULTS:
                shown.append(
                    form.note(_("and {count} more").format(count=len(self.faults) - MOST_FAULTS))
                )
        return shown

    def _files(self) -> Field:
        names = [file.name for file in self._standing()]
        items = [
            {"id": name, "label": name, "sign": "\N{DOWNWARDS ARROW}", "tone": "inherit"}
            for name in names
        ]
        return {"kind": "list", "name": "one", "label": _("Download one file"), "items": items}

    def _standing(self) -> list[Path]:
        folder = self.work.session.folder
        if folder is None:
            return []
        files = (file for file in sorted(folder.iterdir()) if file.is_file())
        return [file for file in files if not file.name.startswith(".")]

    def told(self, name: str, value: Any) -> None:
        """Take what was pressed or sent."""
        session = self.work.session
        if name == "zip" and session.folder is not None:
            self.ready = ("survey.zip", folder_zip(session.folder))
        elif name == "one":
            found = [file for file in self._standing() if file.name == value]
            self.ready = (found[0].name, found[0].read_bytes()) if found else None
        elif name in ("folder", "single"):
            self._load(name, value)
        self.work.told()

    def _load(self, name: str, value: Any) -> None:
        self.faults = []
        try:
            limit = LARGEST_ZIP if name == "folder" else LARGEST
            file, data = form.uploaded(value, limit)
            self._take_folder(zip_files(data, file)) if name == "folder" else self._take_one(
                file, data
            )
        except SurveyFaults as error:
            self.faults = [str(fault) for fault in error.faults]
        except (ValueError, OSError) as error:
            self.faults = [str(error)]

    def _take_folder(self, files: Mapping[str, bytes]) -> None:
        """Read a whole folder aside; take it when it has no fault."""
        with tempfile.TemporaryDirectory(prefix="treestead-") as beside:
            folder = Path(beside)
            for name, content in files.items():
                (folder / name).write_bytes(content)
            faults = folder_faults(folder)
            if faults:
                self.faults = faults
                return
            copy = self.work.session.copy
            if copy is not None:
                with copy.together() as mine:
                    for file in filter(is_own_file, list(mine.iterdir())):
                        file.unlink()
                    for name, content in files.items():
                        written(mine / name, content)
            self._taken(read_site(folder))

    def _take_one(self, name: str, data: bytes) -> None:
        """Put one file in the place of its part of the survey, read aside; take it if right."""
        part = next((one for one in PARTS if name in one.files), None)
        if part is None or name not in FILES:
            known = ", ".join(FILES)
            raise ValueError(
                _("{name}: expected one of {known}; mend by renaming it").format(
                    name=name[:60], known=known
                )
            )
        with tempfile.TemporaryDirectory(prefix="treestead-") as beside:
            folder = Path(beside)
            for file in self._standing():
                if file.name != SKETCH_FILE:
                    shutil.copyfile(file, folder / file.name)
            standing = read_site(folder)
            if part is HEIGHTS and isinstance(standing.heights, Plane):
                write_site(replace(standing, heights=None), folder)
            for other in part.files:
                (folder / other).unlink(missing_ok=True)
            (folder / name).write_bytes(data)
            self._taken(read_site(folder))

    def _taken(self, site: Site) -> None:
        self.work.replaced(site)
        self.work.session.said = _("Loaded: {name}.").format(name=site.name)
