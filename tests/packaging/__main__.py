"""Install the wheel with the lowest releases that it allows, use it, and run a part of the tests.

python -m tests.packaging [--tests]
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.packaging.lowest import ROOT, environment, tests_apart, with_tools

# Each library is asked something: pages, PDF, survey files, calendar, language, sparse equations.
PART = (
    "tests/dashboard/test_weigh.py",
    "tests/dashboard/test_report_pdf.py",
    "tests/model/survey/test_layers.py",
    "tests/model/survey/test_heights_tif.py",
    "tests/model/planting/test_calendar.py",
    "tests/model/test_language.py",
    "tests/published/test_topographic_wetness.py",
)


def main() -> int:
    """0 when all passed."""
    with tempfile.TemporaryDirectory(prefix="treestead-wheel-") as made:
        folder = Path(made)
        programs = environment(folder)
        used = [sys.executable, "-m", "pytest", "-q", "tests/packaging/installed.py"]
        ended = subprocess.run(used, cwd=ROOT, env=own(folder, programs), check=False).returncode  # noqa: S603 - our own words
        if ended or "--tests" not in sys.argv:
            return ended
        with_tools(programs, folder / "lowest.txt")
        part = [programs / "python", "-m", "pytest", "-q", "-n", "auto", *PART]
        apart = tests_apart(folder)
        return subprocess.run(part, cwd=apart, env=own(folder, programs), check=False).returncode  # noqa: S603 - our own words


def own(folder: Path, programs: Path) -> dict[str, str]:
    """The environment's variables: a data folder of its own, and no other checkout on the path."""
    left = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    return left | {"TREESTEAD_PROGRAMS": str(programs), "TREESTEAD_CACHE": f"{folder}/cache"}


if __name__ == "__main__":
    sys.exit(main())
