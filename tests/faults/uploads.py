"""What a visitor's browser sends: files, and words typed into forms, read as pages read them."""

import json
import os
import tempfile
from base64 import b64encode
from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path
from typing import Any
from unittest.mock import patch
from urllib.parse import parse_qsl

from dashboard import links
from dashboard.keeping.opened import Opened
from dashboard.pages.review_watch import Watching
from dashboard.pages.survey_feature import corners
from dashboard.pages.survey_files import FilesPanel
from dashboard.pages.survey_picture import PicturePanel
from dashboard.pages.survey_plan import places
from dashboard.pages.survey_work import Work
from dashboard.session import Session
from model.survey.site_changes import with_months
from model.survey.taping import taped_positions
from tests.faults import samples
from tests.model.demo import DEMO

HOME = tempfile.TemporaryDirectory(prefix="treestead-visitor-")  # gone when the tests end
KNOWN = {"A": (0.0, 0.0), "B": (30.0, 0.0)}


@cache
def session() -> Session:
    """A visitor on the demo, whose working copy lies in a folder of its own."""
    with patch.dict(os.environ, TREESTEAD_DATA=HOME.name):
        return Session.begun(Opened(DEMO))


def single(name: str) -> Callable[[Path], Iterable[str]]:
    """The Files panel, given a file under the name that it has in a survey."""
    return lambda path: _files("single", name, path)


def whole_folder(path: Path) -> Iterable[str]:
    """The Files panel, given a zip."""
    return _files("folder", path.name, path)


def picture(path: Path) -> Iterable[str]:
    """The Picture panel, given a picture."""
    panel = PicturePanel(Work(session()))
    return _refused(lambda: panel.told("file", _sent(path)), lambda: [panel.wrong])


def observations(path: Path) -> Iterable[str]:
    """The Review page's form, given a file of observations."""
    watching = Watching(session(), ())
    return _refused(lambda: watching.told("upload", _sent(path)), lambda: watching.faults)


def envelope(path: Path) -> Iterable[str]:
    """The Picture panel, given what is no file as a browser sends it."""
    try:
        value = json.loads(path.read_bytes())
    except (ValueError, RecursionError):  # it would not have passed the browser's connection
        return ()
    panel = PicturePanel(Work(session()))
    return _refused(lambda: panel.told("file", value), lambda: [panel.wrong])


def link(path: Path) -> list[str]:
    """The settings in an address; the study is held to be able to say its own afterwards."""
    study = samples.study()
    kept = links.query(study)
    try:
        return links.follow(study, dict(parse_qsl(words(path), max_num_fields=1000)))
    finally:
        said = links.follow(study, kept)
        assert not said, f"the study cannot say its own settings any more: {said}"


def typed_corners(path: Path) -> None:
    """The corners of a feature as typed, one a line."""
    corners(words(path))


def typed_tapes(path: Path) -> Iterable[str]:
    """Taped offsets as pasted."""
    _, faults = taped_positions(words(path), "tapes", KNOWN)
    return map(str, faults)


def typed_months(path: Path) -> None:
    """Twelve monthly normals as pasted."""
    with_months(samples.demo_site(), words(path))


def tapped_points(path: Path) -> None:
    """Points tapped on the plan, as the browser sends them."""
    try:
        raw = json.loads(path.read_bytes())
    except (ValueError, RecursionError):  # it would not have passed the browser's connection
        return
    for x, y in places(raw):
        assert abs(x) + abs(y) < 1e9


def as_sent() -> bytes:
    """A picture as a browser sends it."""
    data = samples.picture("PNG")
    return json.dumps(_value("sketch.png", data)).encode()


def _files(which: str, name: str, path: Path) -> Iterable[str]:
    panel = FilesPanel(Work(session()))
    value = _value(name, path.read_bytes())
    return _refused(lambda: panel.told(which, value), lambda: panel.faults)


def _refused(act: Callable[[], object], faults: Callable[[], Iterable[str]]) -> tuple[str, ...]:
    """What was said of an upload; the visitor's copy is held to be as it was if it was refused."""
    copy = session().copy
    assert copy is not None
    before, session().said = _contents(copy.folder), ""
    act()
    said = tuple(one for one in faults() if one)
    if not said and session().said.startswith("Not kept"):
        said = (session().said,)
    if said:
        assert _contents(copy.folder) == before, "the working copy was changed all the same"
    copy.discard()
    return said


def _contents(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}


def _sent(path: Path) -> dict[str, Any]:
    return _value(path.name, path.read_bytes())


def _value(name: str, data: bytes) -> dict[str, Any]:
    return {"name": name, "size": len(data), "data": b64encode(data).decode("ascii")}


def words(path: Path) -> str:
    """The text of a file, whatever bytes are in it."""
    return path.read_bytes().decode("utf-8", "replace")
