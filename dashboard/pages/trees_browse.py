"""The table of what can be planted: search, filters, columns to sort by, one page of rows."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

from model.language import _

HERE = Path(__file__).parent


class Browse(JSComponent):
    """Search and table. `told(name, value)` is called with what was filled in or pressed."""

    fields = param.List(default=[], doc="Search and filters as plain values.")
    columns = param.List(default=[], doc="Heads of the columns, with their way of sorting.")
    rows = param.List(default=[], doc="The rows of this page as plain values.")
    caption = param.String(default="", doc="How many were found, in words.")
    empty = param.String(default="", doc="What to do when nothing was found.")
    pages = param.List(default=[0, 1], doc="Number of this page from 0, and of pages.")
    acts = param.List(default=[], doc="Buttons under the table, each id and label.")
    focus = param.String(default="", doc="The control that had the focus before a rebuild.")
    words = param.Dict(default={}, doc="Words on the controls.")

    _esm = HERE / "trees_browse.js"
    _stylesheets = [(HERE / "trees_browse.css").read_text(encoding="utf-8")]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, told: Callable[[str, Any], None], **settings: Any) -> None:
        super().__init__(
            **{"words": words(), "sizing_mode": "stretch_both", "margin": 0} | settings
        )
        self._told = told

    def _handle_msg(self, data: Any) -> None:
        name = data.get("name")
        if isinstance(name, str):
            self._told(name, data.get("value"))


def words() -> dict[str, str]:
    """Words on the controls, in the language in use."""
    return {
        "filters": _("Filters"),
        "before": _("Page before"),
        "after": _("Next page"),
        "page": _("Page {page} of {pages}"),
        "add": _("Add"),
        "remove": _("Remove"),
        "compare": _("Compare"),
        "add_long": _("Add {tree} to the short list"),
        "remove_long": _("Remove {tree} from the short list"),
        "compare_long": _("Compare {tree}"),
        "act": _("Do"),
        "listed": _("on the short list"),
    }
