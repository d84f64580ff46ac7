"""The site that dashboard/serving.md sets up, from the page's own blocks, on ports of this test."""

import os
import re
import shlex
import shutil
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import AbstractContextManager, ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.request import Request, urlopen

import psycopg

from tests.dashboard.postgresql import Missing, server
from tests.model.demo import DEMO
from tests.packaging.lowest import ROOT
from tests.ports import free_ports, wait_for

PAGE = (ROOT / "dashboard" / "serving.md").read_text(encoding="utf-8")
PATIENCE = 120  # s until a server must listen
AROUND = """
daemon off; pid {folder}/nginx.pid; error_log {folder}/error.log; {user}
events {{}}
http {{
log_format way '$treestead_way $upstream_addr $status $uri';
access_log {folder}/access.log way;
client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy; fastcgi_temp_path {folder}/f;
uwsgi_temp_path {folder}/u; scgi_temp_path {folder}/s;
{block}
}}
"""


@dataclass
class Site:
    """What was set up: its address, nginx's own account of whom it sent where, the database."""

    address: str
    log: Path
    database: str

    def sent(self) -> list[list[str]]:
        """Way, process, status and path of each request that was answered."""
        return [line.split(" ", 3) for line in self.log.read_text().splitlines()]

    def process_of(self, way: str) -> str:
        """The process to which a visitor of a way is sent."""
        asked = Request(f"{self.address}join", headers={"Cookie": f"treestead_way={way}"})  # noqa: S310 - our own
        trusting = ssl._create_unverified_context()  # noqa: S323 - a certificate made for this test
        urlopen(asked, context=trusting, timeout=PATIENCE).close()  # noqa: S310 - our own
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = [process for one, process, *_ in self.sent() if one == way]
            if found:
                return found[-1]
            time.sleep(0.05)
        raise AssertionError(f"nginx did not log the visitor {way}")


@contextmanager
def site(folder: Path) -> Iterator[Site]:
    """The site while it runs. Raises Missing, with the reason."""
    missing = [name for name in ("nginx", "openssl") if not program(name)]
    if missing:
        raise Missing(f"no {' and no '.join(missing)} on this machine")
    front, *ports = free_ports(3)
    with server() as socket_of, ExitStack() as running:
        database = made_database(socket_of)
        for port in ports:  # one by one: the second finds the ground computed
            running.enter_context(app(folder, port, front, database))
            wait_for(port, PATIENCE)
        running.enter_context(nginx(folder, front, ports))
        wait_for(front, PATIENCE)
        yield Site(f"https://localhost:{front}/", folder / "access.log", database)


def block(language: str, beginning: str) -> str:
    """The page's block in a language that begins with some words."""
    found = re.findall(rf"^```{language}\n({beginning}.*?)^```", PAGE, re.S | re.M)
    assert len(found) == 1, (language, beginning)
    return found[0]


def made_database(address: str) -> str:
    """User and database as the page has them made, and the page's address for them."""
    if "host=/" not in address:
        raise Missing("the page's way into PostgreSQL is its socket")
    with connected(address) as connection:
        connection.execute("CREATE ROLE treestead LOGIN")  # what createuser asks for
        connection.execute("CREATE DATABASE treestead OWNER treestead")  # and createdb
    return settings()["TREESTEAD_BALLOTS"].replace("/var/run/postgresql", address.split("host=")[1])


def connected(address: str) -> psycopg.Connection:
    """A way into a server that may still be starting up."""
    end = time.monotonic() + PATIENCE
    while True:
        try:
            return psycopg.connect(address, autocommit=True)
        except psycopg.OperationalError:
            if time.monotonic() > end:
                raise
            time.sleep(0.2)


def settings() -> dict[str, str]:
    """The page's settings of a process."""
    lines = block("sh", "TREESTEAD_SECRET=").splitlines()
    return dict(line.split("=", 1) for line in lines)


def app(folder: Path, port: int, front: int, database: str) -> AbstractContextManager[None]:
    """A process by the page's own command and settings."""
    survey = folder / "survey"
    if not survey.exists():
        shutil.copytree(DEMO, survey)
        told = (survey / "site.toml").read_text(encoding="utf-8")
        coarse, changed = re.subn(r"^grid_m = .*$", "grid_m = 5.0", told, flags=re.M)
        assert changed == 1
        (survey / "site.toml").write_text(coarse, encoding="utf-8")
    unit = block("ini", r"\[Unit\]")
    command = re.search(r"^ExecStart=(.*)$", unit, re.M)[1]
    places = {
        "/srv/treestead/app/bin/treestead": str(Path(sys.executable).with_name("treestead")),
        "/srv/treestead/survey": str(survey),
        "https://trees.example.org": f"https://localhost:{front}",
        "%i": str(port),
    }
    words = [places.get(word, word) for word in shlex.split(command)]
    own = settings() | {"TREESTEAD_SECRET": "s" * 40, "TREESTEAD_BALLOTS": database}
    own |= {"TREESTEAD_DATA": f"{folder}/data", "TREESTEAD_CACHE": os.environ["TREESTEAD_CACHE"]}
    return stopped_after(words, os.environ | own)


def nginx(folder: Path, front: int, ports: list[int]) -> AbstractContextManager[None]:
    """The front by the page's own block, with a certificate made for it."""
    key, certificate = folder / "own.key", folder / "own.pem"
    make = f"openssl req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=localhost -keyout {key}"
    subprocess.run([*make.split(), "-out", certificate], check=True, capture_output=True)  # noqa: S603 - our own words
    text = block("nginx", "map ")
    for written, here in (
        ("listen 443 ssl;", f"listen 127.0.0.1:{front} ssl;"),
        ("server_name trees.example.org;", "server_name localhost;"),
        ("/etc/ssl/certs/trees.example.org.pem", str(certificate)),
        ("/etc/ssl/private/trees.example.org.key", str(key)),
        ("127.0.0.1:5010;", f"127.0.0.1:{ports[0]};"),
        ("127.0.0.1:5011;", f"127.0.0.1:{ports[1]};"),
    ):
        assert text.count(written) == 1, written
        text = text.replace(written, here)
    user = "user root;" if os.geteuid() == 0 else ""  # pytest's folders are their owner's alone
    told = folder / "nginx.conf"
    told.write_text(AROUND.format(folder=folder, user=user, block=text), encoding="utf-8")
    return stopped_after([program("nginx"), "-p", str(folder), "-c", str(told)], dict(os.environ))


@contextmanager
def stopped_after(
    words: list[str], variables: dict[str, str]
) -> Iterator["subprocess.Popen[bytes]"]:
    """A program that runs meanwhile."""
    with subprocess.Popen(words, env=variables) as running:  # noqa: S603 - our own words
        try:
            yield
        finally:
            running.terminate()


def program(name: str) -> str:
    """Where a program is; that of a server is not on everybody's path."""
    return shutil.which(name, path=f"{os.environ['PATH']}:/usr/sbin:/usr/local/sbin") or ""
