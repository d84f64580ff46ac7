"""The invented demo, opened once for all tests that only read it."""

from functools import cache
from pathlib import Path

import demo_data
from model.opening import open_study
from model.study import Study

DEMO = Path(demo_data.__file__).parent / "sorrelhay"


@cache
def demo_study() -> Study:
    """The demo as it comes. Do not change its choices: open a study of your own for that."""
    return open_study(DEMO)
