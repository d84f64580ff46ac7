"""TOML read so that no text takes long: the library's time grows with the depth of its keys."""

import re
import tomllib
from typing import Any

DEEPEST = 40  # keys within keys; our own files have two
KEY = r"""(?:[\w-]{1,60}|"[^"\n]{0,60}"|'[^'\n]{0,60}')"""
DEEP = re.compile(rf"(?:\.\s*{KEY}\s*){{{DEEPEST}}}")


def toml_tables(text: str) -> dict[str, Any]:
    """The tables of a TOML text; ValueError or RecursionError when it is none."""
    deep = DEEP.search(text)
    if deep is not None:
        line = text.count("\n", 0, deep.start()) + 1
        raise ValueError(f"keys within keys within keys (at line {line})")
    return tomllib.loads(text)
