"""Root reach against recorded surveys of tree roots."""

import pytest

from model.land.roots import influence, reach

pytestmark = pytest.mark.published

# Greatest distance [m] at which roots were recorded (Kew root survey: Cutler & Richardson, Tree
# Roots and Buildings; as quoted by the Subsidence Claims Advisory Bureau, an estate agent and the
# UK Tree Care list), mature height [m] (NHBC Standards 2006, 4.2, table 12), and the zone of
# influence per height by water demand (NHBC 4.2, table 3b).
RECORDED = {
    "white willow": (40, 24, 1.25),
    "English oak": (30, 20, 1.25),
    "hybrid black poplar": (30, 28, 1.25),
    "hawthorn": (11.5, 10, 1.25),
    "apple": (10, 10, 0.75),
    "pear": (10, 12, 0.75),
    "wild cherry": (11, 17, 0.75),
    "birch": (10, 14, 0.5),
}


@pytest.mark.parametrize(("recorded", "height", "ratio"), RECORDED.values(), ids=RECORDED)
def test_reach_is_of_the_order_of_the_farthest_recorded_root(recorded, height, ratio):
    # A plausibility test: feeding roots matter over most of the farthest recorded distance, and
    # hardly beyond it.
    assert 0.6 * recorded < reach(height, ratio) < 1.25 * recorded


def test_roots_still_feed_beyond_the_dripline():
    # Gilman (1988): more than half the root system of field trees lies beyond the dripline. Here:
    # the share of all influence, counted over the ground, for a poplar's 28 m and 4 m crown.
    cells = [(d + 0.5) for d in range(35)]
    shares = influence(cells, crown_radius=4, reach=35, strength=1.0) * cells
    assert shares[4:].sum() / shares.sum() > 0.54
