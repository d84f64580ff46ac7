"""What lies under and hangs over the trees of a plan, and what that asks of those who work."""

from collections.abc import Sequence

import numpy as np

from model.language import _, marked
from model.planting.placement import Planted
from model.study import Study

NEAR = 15.0  # [m] within which a service is named; not a safe distance (common practice)
BEFORE_DIGGING = marked(
    "Get plans from every network operator, trace with a locator and dig trial holes by hand; "
    "assume that services are there. A plan is no proof; local codes and the operator decide."
)
UNDER_A_LINE = marked(
    "Overhead line near: no ladder, pole or long stake under or beside it; the operator decides "
    "what may stand and be done there, and only authorised people cut."
)
DIGGING_SOURCE = marked("HSE HSG47, Avoiding danger from underground services; our words")


def services_near(study: Study, trees: Sequence[Planted], overhead: bool) -> list[str]:
    """Each buried service or overhead line near a tree, in words: 'Main 3.1 m from Hollow'."""
    services = study.ground.services
    if services is None:
        return []
    said = []
    for number, label in enumerate(services.labels):
        if np.isnan(services.height[number]) == overhead:
            continue
        for tree in trees:
            away = float(services.distance[number, tree.place])
            if away <= NEAR:
                near = _("{service} {away:.1f} m from {place}")
                said.append(near.format(service=label, away=away, place=tree.name))
    return said


def line_caution(study: Study, trees: Sequence[Planted]) -> str:
    """The caution for work near an overhead line, an empty word where none is near."""
    near = services_near(study, trees, overhead=True)
    return f"{_(UNDER_A_LINE)} ({'; '.join(near)})" if near else ""
