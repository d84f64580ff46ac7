"""An empty environment with the wheel in it, and the lowest releases that it says it works with."""

import shutil
import subprocess
import sys
import tomllib
import venv
from pathlib import Path

ROOT = Path(__file__).parents[2]
TOOLS = (
    "axe-playwright-python", "hypothesis", "pypdf", "pytest", "pytest-playwright", "pytest-xdist",
)  # fmt: skip


def wheel(folder: Path) -> Path:
    """The wheel of this working copy, built into a folder."""
    build = [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory"]
    subprocess.run([*build, folder], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)  # noqa: S603 - our own words
    return next(folder.glob("*.whl"))


def environment(folder: Path) -> Path:
    """A new environment with the wheel in it; its programs' folder.

    Every library is taken at its lower bound, and none is built: nobody needs a compiler.
    """
    venv.create(folder / "venv", with_pip=False)
    programs = folder / "venv" / "bin"
    lowest, extras = folder / "lowest.txt", [f"--extra={one}" for one in extras_for_people()]
    bounds = ["--quiet", "--resolution", "lowest-direct", "--python", programs / "python"]
    uv("pip", "compile", *bounds, "--no-build", *extras, ROOT / "pyproject.toml", "-o", lowest)
    install(programs, "--requirement", lowest)
    install(programs, "--no-deps", wheel(folder))
    return programs


def with_tools(programs: Path, lowest: Path) -> None:
    """Add what the tests need, and leave every library where it is."""
    install(programs, *TOOLS, "--constraint", lowest)


def tests_apart(folder: Path) -> Path:
    """The tests in a folder without the code, so that they find what is installed."""
    apart = folder / "apart"
    left = shutil.ignore_patterns("__pycache__")
    shutil.copytree(ROOT / "tests", apart / "tests", ignore=left)
    shutil.copy(ROOT / "pyproject.toml", apart)
    return apart


def install(programs: Path, *words: str | Path) -> None:
    """Install into an environment, from wheels alone."""
    uv("pip", "install", "--quiet", "--python", programs / "python", "--no-build", *words)


def uv(*words: str | Path) -> None:
    """Run the installer."""
    subprocess.run([sys.executable, "-m", "uv", *words], check=True, cwd=ROOT)  # noqa: S603 - our own words


def extras_for_people() -> list[str]:
    """The extras that are not for developers."""
    told = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return [name for name in told["project"]["optional-dependencies"] if name != "test"]
