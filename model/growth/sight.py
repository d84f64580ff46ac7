"""What a stand of growing trees covers of a valued view, all of them together."""

import numpy as np

from model.ground.views import View
from model.growth.stand import Crowns, Stand
from model.land.skyline import crown_outline
from model.land.window import elevation_angle, half_width, offset_and_distance

RAYS, LEVELS = 240, 160  # of the window's angles that are tried


def share_covered(view: View, stand: Stand, crowns: Crowns) -> float:
    """Share of a view's window that the planted trees fill together, 0 to 1.

    As the views factor counts it: leafy to the ground, what stands nearer (neighbours full grown)
    hides its part of a crown; but where two of the trees stand one behind the other, once.
    """
    window, new = view.window, slice(0, stand.new)
    offsets = ((np.arange(RAYS) + 0.5) / RAYS - 0.5) * window.width
    levels = window.low + (np.arange(LEVELS) + 0.5) / LEVELS * (window.high - window.low)
    offset, distance = offset_and_distance(window, stand.x[new], stand.y[new])
    covered = np.zeros((RAYS, LEVELS), dtype=bool)
    trees = zip(
        offset, distance, crowns.spread[new] / 2, crowns.height[new], stand.ground[new], strict=True
    )
    for aside, away, radius, height, ground in trees:
        if away > window.range:
            continue
        if away <= radius:
            covered |= ground + height > window.eye
            continue
        turn = (offsets - aside + 180) % 360 - 180
        edge = half_width(radius, away)
        met = np.abs(turn) < edge
        top = height * crown_outline(turn, edge)
        upper = elevation_angle(ground + top - window.eye, away)
        foot = float(elevation_angle(ground - window.eye, away))
        lower = np.maximum(foot, view.skyline.before(offsets, np.full(RAYS, away)))
        inside = (levels > lower[:, None]) & (levels < upper[:, None])
        covered |= inside & met[:, None]
    return float(covered.mean())
