"""Lime, sulphur and soil tests for a plan."""

from collections.abc import Sequence

from model.factors.soil_acidity import HOLE
from model.language import _, marked
from model.planting.buying.need import PRACTICE, Need
from model.planting.buying.soil_mending import mending
from model.planting.placement import Planted
from model.study import Study


def soil_needs(study: Study, trees: Sequence[Planted]) -> list[Need]:
    """What the ground of each tree needs against its acidity, with a test before it is bought."""
    found = {tree: mended for tree in trees if (mended := mending(study, tree)) is not None}
    if not found:
        return []
    hopeless = [f"{tree.name}: {mended.why}" for tree, mended in found.items() if not mended.item]
    why = "; ".join([_("one a tree, before lime or sulphur is bought"), *hopeless])
    needs = [Need("soil test", _("soil test"), list(found), len(found), why, _(PRACTICE))]
    for item in (marked("lime"), marked("sulphur")):
        doses = {tree: mended for tree, mended in found.items() if mended.item == item}
        if doses:
            said = "; ".join(f"{t.name} {m.amount:.2f} kg ({m.why})" for t, m in doses.items())
            amount = round(sum(mended.amount for mended in doses.values()), 2)
            why = _("for a round {across:g} m across at each, dug in: {doses}")
            why = why.format(across=HOLE, doses=said)
            source = next(iter(doses.values())).source
            needs.append(Need(item, _(item), list(doses), amount, why, source))
    return needs
