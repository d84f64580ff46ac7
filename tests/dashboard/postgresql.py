"""A PostgreSQL server for one run of the tests, where its programs are on the machine."""

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import sleep

URL = "TREESTEAD_TEST_POSTGRES"  # a server that is running already: its database is written to
SERVANTS = ("postgres", "nobody")  # the server refuses to run as root


class Missing(Exception):  # noqa: N818 - what the tests are skipped for
    """Why there is no server to test with."""


@contextmanager
def server() -> Iterator[str]:
    """The address of a running server. Raises Missing."""
    if URL in os.environ:
        yield os.environ[URL]
        return
    programs = _programs()
    user = _servant()
    # Not pytest's folder: a socket's path must be short, and the folder another user's to enter.
    with tempfile.TemporaryDirectory(prefix="pg-", ignore_cleanup_errors=True) as folder:
        if user:
            shutil.chown(folder, user)
        begin = ["runuser", "-u", user, "--"] if user else []
        data = f"{folder}/data"
        make = ["--auth=trust", "--username=tester", "--encoding=UTF8", "--no-sync", "-D", data]
        run = ["-D", data, "-k", folder, "-c", "listen_addresses=", "-c", "fsync=off"]
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL, "cwd": folder}
        subprocess.run([*begin, programs["initdb"], *make], check=True, **quiet)  # noqa: S603 - our own words
        running = subprocess.Popen([*begin, programs["postgres"], *run], **quiet)  # noqa: S603 - our own words
        try:
            _await(Path(folder, ".s.PGSQL.5432"), running)
            yield f"postgresql://tester@/postgres?host={folder}"
        finally:
            pid = int(Path(data, "postmaster.pid").read_text().split()[0])
            os.kill(pid, 2)  # SIGINT: stop at once, cleanly
            running.wait(timeout=30)


def _programs() -> dict[str, str]:
    """Where the server's programs are; the one links to the folder of the other."""
    found = shutil.which("postgres") or ""
    beside = Path(found).resolve().with_name("initdb")
    initdb = shutil.which("initdb") or (str(beside) if found and beside.exists() else "")
    if not (found and initdb):
        raise Missing(f"no postgres and initdb on this machine, and {URL} is not set")
    return {"postgres": str(Path(found).resolve()), "initdb": str(Path(initdb).resolve())}


def _servant() -> str:
    """Another user to run the server as, where we are root."""
    if os.geteuid():
        return ""
    users = {user.pw_name for user in pwd.getpwall()}
    known = [name for name in SERVANTS if name in users]
    if not known or not shutil.which("runuser"):
        raise Missing("the server does not run as root, and there is no other user to run it as")
    return known[0]


def _await(socket: Path, running: subprocess.Popen) -> None:
    for _ in range(300):
        if socket.exists():
            return
        if running.poll() is not None:
            break
        sleep(0.1)
    raise Missing("the server did not start")
