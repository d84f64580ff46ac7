"""All that the catalogue knows of an option, each value with its source."""

from collections.abc import Callable, Iterable
from html import escape
from typing import Any

from model.language import _


def card(lines: Iterable[Any], shown: Callable[[str], str]) -> str:
    """A table of an option's traits as HTML: label, value and unit, and where it comes from."""
    rows = "".join(
        f'<tr><th scope="row">{escape(_(line.label))}</th>'
        f"<td>{escape(shown(f'{line.value} {line.unit}'.strip()))}"
        f"<small>{escape(line.source)}</small></td></tr>"
        for line in lines
    )
    caption = escape(_("What the catalogue says, and where each value comes from"))
    return (
        f'<div tabindex="0"><table><caption>{caption}</caption><tbody>{rows}</tbody></table></div>'
    )
