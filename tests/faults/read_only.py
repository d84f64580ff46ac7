"""What the app does where it can only read, as JSON: `python -m tests.faults.read_only FOLDER`."""

import json
import sys
from pathlib import Path
from typing import Any

import numpy as np

from dashboard.keeping.opened import Opened
from dashboard.keeping.working_copy import data_folder, sweep_copies
from dashboard.session import Session
from dashboard.votes.ballots import Ballots, Refused, new_token
from model import ground
from model.survey.starter import new_folder
from tests.faults.confined import mount_read_only, room
from tests.faults.full_disk import ballot, texts

ORDER = "count,species,cultivar,rootstock,use,note\n1,apple,,,,\n"


def read_only(folder: Path) -> None:
    """Let nobody write in a folder: root by a mount, everybody else by its rights."""
    if room() is not None:
        mount_read_only(folder)
    else:
        for path in (folder, *folder.rglob("*")):
            path.chmod(path.stat().st_mode & ~0o222)


def told(folder: Path) -> dict[str, Any]:
    """What happens to a session as one folder after the other can only be read."""
    field, cache, data = folder / "field", folder / "cache", folder / "data"
    new_folder(field)
    sun = Opened(field).study().ground.sun
    before = texts(field)
    read_only(field)
    read_only(cache)
    said = with_data(field, sun.strong)
    said["field unharmed"] = before == texts(field)
    session = Session.begun(Opened(field))
    session.keep("order.csv", ORDER)
    votes = Ballots(f"sqlite:///{data}/ballots.sqlite3")
    code, token = votes.new_session("Read only").code, new_token()
    votes.cast(code, token, ballot(1))
    votes.close()
    read_only(data)
    return said | without_data(field, session.copy.visitor, code)


def with_data(field: Path, strong: np.ndarray) -> dict[str, Any]:
    """A folder and a store of grounds that can only be read, a data folder that can be written."""
    sweep_copies(field)
    session = Session.begun(Opened(field))
    computing, ground.sun_of = ground.sun_of, computed_again
    try:
        found = session.study.ground.sun.strong
    finally:
        ground.sun_of = computing
    said: dict[str, Any] = {"sun from the store": np.array_equal(found, strong, equal_nan=True)}
    other = session.study.ground.climate  # not in the store: nothing can be kept in it
    said["computed"] = other is None or bool(np.isfinite(other.chill).any())
    said["kept"] = session.keep("order.csv", ORDER)
    session.save()
    said["saved"], said["copy stays"] = session.said, session.copy.changed
    session.give_up()
    said["given up"] = not session.copy.changed
    return said


def computed_again(*_given: object) -> None:
    """In the place of the physics, which must not run."""
    raise RuntimeError("what the store holds was computed again")


def without_data(field: Path, visitor: str, code: str) -> dict[str, Any]:
    """A data folder that can only be read as well."""
    sweep_copies(field)
    session = Session.begun(Opened(field), visitor)
    said: dict[str, Any] = {"found again": texts(session.folder).get("order.csv") == ORDER}
    said["kept then"], said["keep said"] = session.keep("order.csv", "count\n"), session.said
    session.give_up()
    said["back said"], said["still there"] = session.said, session.copy.changed
    fresh = Session.begun(Opened(field))
    said["fresh"], said["fresh said"] = fresh.keep("order.csv", ORDER), fresh.said
    said["opened"] = fresh.study.site.name
    try:
        votes = Ballots(f"sqlite:///{data_folder()}/ballots.sqlite3")
        votes.cast(code, new_token(), ballot(2))
        said["vote"] = "acknowledged"
    except Refused as error:
        said["vote"] = str(error)
    return said


if __name__ == "__main__":
    sys.stdout.write(f"\n{json.dumps(told(Path(sys.argv[1])))}\n")
