"""Print how fast the slow-looking things are: python -m tests.speed, or --only NAME for a part.

Every module of this folder with a function `comparisons() -> list[Comparison]` adds its lines.
"""

import argparse
import sys
from collections.abc import Sequence
from importlib import import_module
from pathlib import Path

from .comparison import Comparison

HEADINGS = ("what", "against", "ms", "ratio", "target")


def parts() -> list[str]:
    """Names of the modules that add lines, in alphabetical order."""
    return [
        path.stem
        for path in sorted(Path(__file__).parent.glob("*.py"))
        if "def comparisons()" in path.read_text(encoding="utf-8") and path.stem != "__main__"
    ]


def comparisons(only: Sequence[str] = ()) -> list[Comparison]:
    """All lines of the table, in order of the modules' names; only those of some when named."""
    return [
        line
        for name in only or parts()
        for line in import_module(f"tests.speed.{name}").comparisons()
    ]


def table(lines: list[Comparison]) -> str:
    """Lines as a table in plain text."""
    rows = [HEADINGS, *(_cells(line) for line in lines)]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if k < 2 else cell.rjust(width)
            for k, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    )


def _cells(line: Comparison) -> tuple[str, ...]:
    target = "" if line.target is None else f"{line.target:.1f}"
    return line.name, line.against, f"{line.measured:.2f}", f"{line.ratio:.2f}", target


if __name__ == "__main__":
    asked = argparse.ArgumentParser("python -m tests.speed")
    asked.add_argument("--only", action="append", choices=parts(), help="this part, or these")
    sys.stdout.write(table(comparisons(asked.parse_args().only or ())) + "\n")
