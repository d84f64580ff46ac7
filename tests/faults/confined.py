"""Disks that are full or can only be read, in a room of their own that goes when its program ends.

`tmpfs` and read-only mounts are made in a namespace of mounts (unshare), which only root, or a
system that lets anyone have one, can do; `room()` says how, or None. Everywhere a limit on the size
of files stands in for a full disk.
"""

import json
import os
import resource
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
ROOMS = (("unshare", "--mount"), ("unshare", "--user", "--map-root-user", "--mount"))
SMALL = 3_000_000  # bytes of a disk that is filled


@cache
def room() -> tuple[str, ...] | None:
    """The command that begins a room in which disks can be mounted, None where there is none."""
    trial = "mount -t tmpfs -o size=1m tmpfs /mnt && mount -o remount,ro /mnt"
    for begin in ROOMS if shutil.which("unshare") else ():
        tried = subprocess.run([*begin, "sh", "-c", trial], capture_output=True, check=False)  # noqa: S603 - our own words
        if tried.returncode == 0:
            return begin
    return None


def told_by(module: str, folder: Path, *, in_room: bool) -> dict[str, Any]:
    """What a module of these tests tells of a folder, run in a process of its own."""
    begin = room() if in_room else ()
    command = [*(begin or ()), sys.executable, "-m", f"tests.faults.{module}", str(folder)]
    own = {"TREESTEAD_CACHE": str(folder / "cache"), "TREESTEAD_DATA": str(folder / "data")}
    done = subprocess.run(  # noqa: S603 - our own words
        command, cwd=ROOT, env=os.environ | own, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-3000:]
    return json.loads(done.stdout.splitlines()[-1])


def mount_small(folder: Path) -> None:
    """Put a small disk in the place of a folder, within the room."""
    folder.mkdir(exist_ok=True)
    _mount("-t", "tmpfs", "-o", f"size={SMALL}", "tmpfs", str(folder))


def mount_read_only(folder: Path) -> None:
    """Let nobody write in a folder, within the room."""
    _mount("--bind", str(folder), str(folder))
    _mount("-o", "remount,ro,bind", str(folder))


def _mount(*words: str) -> None:
    subprocess.run(["mount", *words], check=True)  # noqa: S603, S607 - our own words


class FullDisk:
    """A small disk that is filled to the last byte, and emptied again."""

    def __init__(self, folder: Path) -> None:
        self._ballast = folder / "ballast"

    def fill(self) -> None:
        """Leave no room for anything."""
        with self._ballast.open("wb", buffering=0) as file:
            for size in (65_536, 4096, 1):
                try:
                    while file.write(b"x" * size):
                        pass
                except OSError:
                    continue

    def empty(self) -> None:
        """Make room again."""
        self._ballast.unlink()


class SizeLimit:
    """A limit that lets no file grow, as a full disk does, and none."""

    def fill(self) -> None:
        """Let no file be longer than it is."""
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))

    def empty(self) -> None:
        """Let files grow again."""
        resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY,) * 2)
