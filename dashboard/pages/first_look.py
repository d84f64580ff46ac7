"""What to show first of a study: the weight that is nearest to changing the leader."""

import numpy as np

from model.study import Study


def nearest_to_tip(study: Study) -> int:
    """The factor whose weight is nearest to changing the leader: the one to look at first."""

    def way_to_go(number: int) -> float:
        tip = study.tipping(study.factors[number].name)
        ends = ((tip.low, tip.below), (tip.high, tip.above))
        return min((abs(share - tip.now) for share, taker in ends if taker >= 0), default=np.inf)

    if not study.here().allowed.size:
        return 0
    return min(range(len(study.factors)), key=way_to_go)


def family_of(study: Study, block: str) -> str:
    """Slider of the family to which a factor or family belongs."""
    groups = {factor.name: f"family:{factor.group}" for factor in study.factors}
    return groups.get(block, block)
