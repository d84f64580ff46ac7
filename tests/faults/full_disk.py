"""What the app does on a full disk, told as JSON: `python -m tests.faults.full_disk FOLDER`."""

import io
import json
import os
import sys
from contextlib import redirect_stderr
from pathlib import Path
from typing import Any

import numpy as np

from dashboard.__main__ import main
from dashboard.keeping.opened import Opened
from dashboard.keeping.saving import ChangedMeanwhile
from dashboard.session import Session
from dashboard.votes.ballots import Ballots, Refused, new_token
from model.assessment import write_tables
from model.ground import Ground
from model.ground.store import Store
from model.group.ballot import Ballot
from model.survey.starter import new_folder
from tests.faults.confined import FullDisk, SizeLimit, mount_small, room
from tests.model.small_site import CATALOGUE, site, spot, study

LONG = "count\n" + "1\n" * 50_000


def texts(folder: Path) -> dict[str, str]:
    """What the files of a folder hold, and of the folders within."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {str(path.relative_to(folder)): path.read_text(encoding="utf-8") for path in files}


def told(folder: Path, disk: FullDisk | SizeLimit) -> dict[str, Any]:
    """What happens to a session's keeping and saving, a vote and a ground while a disk is full."""
    os.environ["TREESTEAD_DATA"] = str(folder / "data")
    field = folder / "field"
    new_folder(field)
    session = Session.begun(Opened(field))
    fresh = Session.begun(session.opened)  # who has no copy yet
    session.keep("order.csv", "count\n1\n")
    votes = Ballots(f"sqlite:///{folder}/ballots.sqlite3")
    code, token = votes.new_session("Full").code, new_token()
    votes.cast(code, token, ballot(1))
    before = texts(field), texts(session.copy.own)
    disk.fill()
    said: dict[str, Any] = {"kept": session.keep("order.csv", LONG), "keep": session.said}
    said["together"] = session.keep_all({"order.csv": LONG, "plan.json": "{}"})
    said["fresh"], said["fresh said"] = fresh.keep("order.csv", LONG), fresh.said
    said["fresh has a copy"] = fresh.copy.changed
    said["saved"] = saved(session)
    said["unharmed"] = before == (texts(field), texts(session.copy.own))
    said["cast"], acknowledged = cast(votes, code, token, 2, 300)
    said["lost"] = sunlight(votes, code) != [acknowledged or 1]
    land = Ground(site(), CATALOGUE, Store(folder / "cache"))
    said["ground"] = bool(np.isfinite(land.sun.strong).any())
    said["left over"] = [str(path) for path in folder.rglob("*") if is_draft(path)]
    disk.empty()
    said["kept after"] = session.keep("order.csv", LONG)
    said["saved after"] = saved(session)
    said["all saved"] = (field / "order.csv").read_text(encoding="utf-8") == LONG
    said["cast after"], _acknowledged = cast(votes, code, token, 9000, 1)
    said["sunlight after"] = sunlight(votes, code)
    return said


def tables(folder: Path, disk: FullDisk | SizeLimit) -> dict[str, Any]:
    """What the command line does on a full disk."""
    made, out = study(spots=[spot("Here", 40, 40)]), folder / "out"
    write_tables(made, out)
    before = texts(out)
    disk.fill()
    try:
        write_tables(made, out)
        failed = False
    except OSError:
        failed = True
    heard = io.StringIO()
    with redirect_stderr(heard):
        code = main(["new", str(folder / "other")])
    disk.empty()
    return {
        "tables failed": failed,
        "tables unharmed": texts(out) == before,
        "command": [code, heard.getvalue()],
    }


def is_draft(path: Path) -> bool:
    """Whether it is something half done."""
    return path.name.startswith((".treestead-", ".writing-")) or path.suffix == ".part"


def ballot(count: int) -> Ballot:
    """A ballot that can be told from others."""
    return Ballot("Growers", {"sunlight": count, "views": 1}, -1.0, ("Beth on Quince A",) * 9)


def saved(session: Session) -> str:
    """What comes of saving."""
    try:
        return ", ".join(path.name for path in session.copy.save().files)
    except (OSError, ChangedMeanwhile) as error:
        return f"{type(error).__name__}: {error}"


def cast(votes: Ballots, code: str, token: str, count: int, times: int) -> tuple[str, int]:
    """What is heard of ballots, so many as fill a disk's last gaps, and the last that was kept."""
    acknowledged = 0
    try:
        for one in range(count, count + times):
            votes.cast(code, token, ballot(one))
            acknowledged = one
    except Refused as error:
        return str(error), acknowledged
    return "acknowledged", acknowledged


def sunlight(votes: Ballots, code: str) -> list[float]:
    """The weight of sunlight in the ballots that are kept."""
    return [kept.weights["sunlight"] for kept in votes.ballots(code)]


if __name__ == "__main__":
    place = Path(sys.argv[1])
    cases: dict[str, Any] = {}
    if room() is not None:
        mount_small(place / "small")
        cases["disk"] = told(place / "small", FullDisk(place / "small"))
    (place / "limited").mkdir()
    cases["limit"] = told(place / "limited", SizeLimit())
    cases["tables"] = tables(place / "limited", SizeLimit())
    sys.stdout.write(f"\n{json.dumps(cases)}\n")
