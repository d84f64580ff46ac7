"""What surveyed figures are usually off by when nobody says, and how to know them better.

A plus-minus holds 19 times in 20 (two standard deviations). These are assumptions, shown as such.
"""

from typing import NamedTuple

from model.language import marked

ASSUMED = marked("common practice, no source")


class Off(NamedTuple):
    """A plus-minus: a share of the figure and so many of its units."""

    share: float = 0.0
    fixed: float = 0.0

    def of(self, value: float) -> float:
        """The plus-minus of a figure, in its unit."""
        return self.share * abs(value) + self.fixed


class UsualError(NamedTuple):
    """How far a figure is off as surveyed, and once `by` has measured it (empty: nothing can)."""

    surveyed: Off
    measured: Off = Off()
    by: str = ""
    source: str = ASSUMED


CLINOMETER = marked(
    "height by eye: common practice, no source; by clinometer a standard deviation of 2.9 %: "
    "Luoma et al. (2017), Forests 8:38, from memory"
)
BURIED = marked(
    "as drawn from memory or a plan: common practice, no source; located with two methods within "
    "0.15 m, with one within 0.25 m: PAS 128:2014, quality levels B1 and B2"
)
NEIGHBOUR = marked("full-grown size of a neighbour: common practice, no source")
TREE_HEIGHT = UsualError(Off(0.15), Off(0.06), marked("with a clinometer"), CLINOMETER)
GROWN = UsualError(Off(0.20), source=NEIGHBOUR)
USUAL: dict[tuple[str, str], UsualError] = {
    ("neighbour_tree", "height_m"): TREE_HEIGHT,
    ("neighbour_tree", "crown_m"): UsualError(
        Off(0.15), Off(0.05), marked("with a tape on the ground")
    ),
    ("neighbour_tree", "full_height_m"): GROWN,
    ("neighbour_tree", "full_crown_m"): GROWN,
    ("woodland", "height_m"): TREE_HEIGHT,
    ("hedge", "height_m"): UsualError(Off(0.15), Off(0.05), marked("with a pole or clinometer")),
    ("building", "height_m"): UsualError(Off(0.10), Off(0.03), marked("with a clinometer")),
    ("wet_ground", "wet_months"): UsualError(
        Off(fixed=1.5), Off(fixed=0.5), marked("by watching a trial hole through a winter")
    ),
    ("soil", "ph"): UsualError(Off(fixed=0.5), Off(fixed=0.2), marked("in a laboratory")),
    ("soil", "depth_cm"): UsualError(
        Off(fixed=15), Off(fixed=5), marked("in two or three dug pits")
    ),
    ("grassland", "age_years"): UsualError(
        Off(0.3), Off(0.1), marked("from old maps or by asking")
    ),
    ("buried_service", "position"): UsualError(
        Off(fixed=1.0), Off(fixed=0.25), marked("by having its operator locate it"), BURIED
    ),
    ("overhead_line", "position"): UsualError(
        Off(fixed=0.5), Off(fixed=0.2), marked("with a tape between points under its poles")
    ),
    ("overhead_line", "height_m"): UsualError(
        Off(0.10), Off(0.02), marked("by asking its operator; keep poles and tapes away from wires")
    ),
    ("animal_run", "position"): UsualError(
        Off(fixed=3.0), Off(fixed=1.0), marked("by following tracks and droppings")
    ),
}
NOT_ASSUMED = marked(
    "Widths, walls, fences and the edges of views are taken as true unless a plus-minus says "
    "otherwise, and so are the heights of the ground, the weather and whatever was said in words "
    "(texture, fertility, species)."
)


def usual_error(kind: str, figure: str) -> UsualError | None:
    """What a figure of a kind is usually off by; None where it is taken as true."""
    return USUAL.get(("soil" if kind == "soil_patch" else kind, figure))
