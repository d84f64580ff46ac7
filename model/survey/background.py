"""A picture under the plan: where its pixels lie on the ground, and the file that says so."""

import math
from dataclasses import dataclass

import tomli_w

from model.survey.measuring import Place, bearing, distance
from model.survey.toml_text import toml_tables

FILE = "background.toml"
PICTURES = ("background.png", "background.jpg")
FURTHEST = 1e7  # m; the corner of a picture beyond it shows nothing of the site
SMALLEST, LARGEST = 1e-5, 1e4  # metres a pixel
LONGEST = 10_000  # letters of the file; it has five figures
LEAST_PIXELS = 10.0  # between the two known points, so that scale and turn mean something


@dataclass(frozen=True)
class Background:
    """A picture whose pixel (across, down) from its upper left corner lies on the ground.

    `origin` is where the upper left corner lies [m], `metres_a_pixel` the scale, `turn` the
    bearing [degrees] at which the picture's up points.
    """

    origin: Place
    metres_a_pixel: float
    turn: float = 0.0
    opacity: float = 0.6

    def ground(self, pixel: Place) -> Place:
        """Where a pixel lies [m]."""
        east, north = _turned(pixel[0], -pixel[1], self.turn)
        scale = self.metres_a_pixel
        return self.origin[0] + scale * east, self.origin[1] + scale * north

    def pixel(self, ground: Place) -> Place:
        """The pixel that shows a place."""
        east, north = ground[0] - self.origin[0], ground[1] - self.origin[1]
        across, up = _turned(east, north, -self.turn)
        return across / self.metres_a_pixel, -up / self.metres_a_pixel


def fitted_background(
    pixels: tuple[Place, Place], grounds: tuple[Place, Place], opacity: float = 0.6
) -> Background:
    """The picture scaled and turned so that two of its pixels lie on two known points.

    ValueError in words when the two pixels or the two points are too near to one another.
    """
    apart = distance(*pixels)
    if apart < LEAST_PIXELS:
        raise ValueError("the two points on the picture are too near to one another")
    if distance(*grounds) <= 0:
        raise ValueError("the two known points are one and the same")
    first, up = pixels[0], [(x, -y) for x, y in pixels]
    scale = distance(*grounds) / apart
    turn = (bearing(*grounds) - bearing(up[0], up[1])) % 360
    east, north = _turned(first[0], -first[1], turn)
    origin = grounds[0][0] - scale * east, grounds[0][1] - scale * north
    return Background(origin, scale, turn, opacity)


def background_text(background: Background) -> str:
    """The text of background.toml."""
    values = {
        "x_m": background.origin[0],
        "y_m": background.origin[1],
        "metres_a_pixel": background.metres_a_pixel,
        "turn_deg": background.turn,
        "opacity": background.opacity,
    }
    return (
        "# Where the picture under the plan lies: its upper left corner, the scale, and the\n"
        "# bearing that its upper edge faces.\n" + tomli_w.dumps(values)
    )


def background_from(text: str) -> Background:
    """The background of background.toml's text; ValueError in words when it says none."""
    if len(text) > LONGEST:
        raise ValueError(f"{FILE}: found {len(text):,} letters, expected at most {LONGEST:,}")
    try:
        values = toml_tables(text)
        figures = [
            float(values[key]) for key in ("x_m", "y_m", "metres_a_pixel", "turn_deg", "opacity")
        ]
    except (KeyError, TypeError, ValueError, ArithmeticError, RecursionError) as error:
        raise ValueError(f"{FILE}: found {error}, expected where the picture lies") from error
    x, y, scale, turn, opacity = figures
    far = max(map(abs, figures)) > FURTHEST
    if not all(map(math.isfinite, figures)) or far or not SMALLEST <= scale <= LARGEST:
        raise ValueError(f"{FILE}: found figures that make no scale, mend by placing it again")
    return Background((x, y), scale, turn % 360, min(max(opacity, 0.0), 1.0))


def _turned(east: float, north: float, degrees: float) -> Place:
    """A step turned clockwise."""
    turn = math.radians(degrees)
    cos, sin = math.cos(turn), math.sin(turn)
    return east * cos + north * sin, north * cos - east * sin
