"""Names on the map: set where there is room, beside what they belong to, none over another."""

import math
from collections.abc import Iterable, Iterator

import shapely
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from dashboard.report.tags import words

SIZE = 2.35  # mm, height of the letters
LETTER = 0.56  # of the height, width of a letter on average
STEPS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)  # along a line, where its name is tried


class Names:
    """Names within a frame [mm]."""

    def __init__(self, frame: BaseGeometry) -> None:
        self.frame, self._full = frame.buffer(-0.8), list[BaseGeometry]()

    def taken(self, shape: BaseGeometry) -> None:
        """Keep a part of the paper free of names."""
        self._full.append(shape)

    def written(self, named: Iterable[tuple[str, BaseGeometry]]) -> str:
        """The names as texts; one that finds no room anywhere is left out."""
        drawn = []
        for name, shape in sorted(named, key=lambda one: -one[1].length):
            for x, y, angle in _tries(shape, name):
                box = rotate(_box(name, x, y), angle, origin=(x, y))
                if self.frame.contains(box) and not any(box.intersects(o) for o in self._full):
                    self.taken(box)
                    drawn.append(_text(name, x, y, angle))
                    break
        return "".join(drawn)


def _box(name: str, x: float, y: float) -> BaseGeometry:
    wide = SIZE * LETTER * len(name)
    return shapely.box(x - wide / 2, y - SIZE * 0.6, x + wide / 2, y + SIZE * 0.6)


def _text(name: str, x: float, y: float, angle: float) -> str:
    turned = f' transform="rotate({angle:.1f} {x:.2f} {y:.2f})"' if angle else ""
    return cased(name, x, y + 0.35 * SIZE, SIZE, turned)


def cased(text: str, x: float, y: float, size: float, more: str = "") -> str:
    """A text on a white casing, written twice since not all printers know the order of painting."""
    look = f'x="{x:.2f}" y="{y:.2f}" font-size="{size}" text-anchor="middle"{more}'
    return (
        f'<text {look} fill="#ffffff" stroke="#ffffff" stroke-width="0.7" aria-hidden="true">'
        f'{words(text)}</text><text {look} fill="#1f2428">{words(text)}</text>'
    )


def _tries(shape: BaseGeometry, name: str) -> Iterator[tuple[float, float, float]]:
    """Places and angles for a name, the best first."""
    if shape.geom_type in ("LineString", "MultiLineString"):
        line = max(shapely.get_parts(shape), key=lambda one: one.length)
        for aside in (SIZE * 0.8, -SIZE * 0.8, SIZE * 1.6, -SIZE * 1.6):
            for share in STEPS:
                yield _along(line, share, aside)
        return
    middle = shape.representative_point() if shape.area else shape.centroid
    yield middle.x, middle.y, 0.0
    west, north, east, south = shape.bounds
    x, y = (west + east) / 2, (north + south) / 2
    wide = SIZE * LETTER * len(name) / 2
    for gap in (SIZE * 0.9, SIZE * 1.8):
        yield from (
            (x, south + gap, 0.0), (x, north - gap, 0.0),
            (east + wide + gap, y, 0.0), (west - wide - gap, y, 0.0),
            (east + wide, south + gap, 0.0), (west - wide, north - gap, 0.0),
            (east + wide, north - gap, 0.0), (west - wide, south + gap, 0.0),
        )  # fmt: skip


def _along(line: BaseGeometry, share: float, aside: float) -> tuple[float, float, float]:
    """A place beside a line with the line's own angle, read from the left."""
    before, at, after = (
        line.interpolate(min(max(share + step, 0), 1), normalized=True)
        for step in (-0.03, 0.0, 0.03)
    )
    angle = math.degrees(math.atan2(after.y - before.y, after.x - before.x))
    if abs(angle) > 90:
        angle -= math.copysign(180, angle)
    turned = math.radians(angle)
    return at.x + aside * math.sin(turned), at.y - aside * math.cos(turned), angle
