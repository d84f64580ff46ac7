"""Print how fast the slow-looking things are: python -m tests.speed.

Every module of this folder with a function `comparisons() -> list[Comparison]` adds its lines.
"""

import pkgutil
import sys
from importlib import import_module
from pathlib import Path

from .comparison import Comparison

HEADINGS = ("what", "against", "ms", "ratio", "target")


def comparisons() -> list[Comparison]:
    """All lines of the table, in order of the modules' names."""
    names = [module.name for module in pkgutil.iter_modules([str(Path(__file__).parent)])]
    modules = [
        import_module(f"tests.speed.{name}")
        for name in names
        if not name.startswith(("__", "test_"))
    ]
    return [line for m in modules if hasattr(m, "comparisons") for line in m.comparisons()]


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
    sys.stdout.write(table(comparisons()) + "\n")
