"""The place on the map moved by the arrow keys."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import param
from panel.custom import JSComponent

FARTHEST = 5  # cells in one step
LOOK = """
button { width: 36px; height: 36px; margin: 6px 2px 0; font-size: 18px; line-height: 1;
  padding: 0; background: none; color: inherit; border: 1px solid #c9cfd3; border-radius: 4px;
  cursor: pointer; }
button:focus-visible { outline: 2px solid currentColor; outline-offset: 1px; }
@media (pointer: coarse) { button { width: 44px; height: 44px; } }
"""


class MapKeys(JSComponent):
    """A button that takes the arrow keys; `moved(east, north)` is called with steps in cells."""

    label = param.String(default="", doc="What the button is called.")

    _esm = Path(__file__).parent / "map_keys.js"
    _stylesheets = [LOOK]  # noqa: RUF012 -- as Panel wants it

    def __init__(self, moved: Callable[[int, int], None], **settings: Any) -> None:
        super().__init__(**{"margin": 0, "width": 40, **settings})
        self._moved = moved

    def _handle_msg(self, data: Any) -> None:
        steps = data.get("east"), data.get("north")
        if all(isinstance(step, int) and abs(step) <= FARTHEST for step in steps):
            self._moved(*steps)
