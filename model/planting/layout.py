"""An order on a study's land as a programme to be solved, and its answers told as a placement."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from model.planting.candidates import Candidate, place_name
from model.planting.order import Order
from model.planting.order_programme import ordered, with_standing
from model.planting.partnership import Tree, standing_partners
from model.planting.picking import Window, windows
from model.planting.placement import Placement, Planted
from model.planting.serving import served
from model.planting.solver.programme import Array, Programme, Solution
from model.study import Study

Set = tuple[int, int]


@dataclass(frozen=True, eq=False)
class Layout:
    """An order, the places it may use, and both as a programme.

    The programme's positions are the candidates, then the trees that stand there already; its
    options are the study's, then one for each of those trees: a tree that stands is a tree that is
    set, so that no cultivar counts twice, as one that stands and as one that is ordered.
    """

    study: Study
    order: Order
    candidates: tuple[Candidate, ...]
    kept: tuple[Set, ...]
    standing: tuple[Tree, ...]
    windows: tuple[Window, ...]
    programme: Programme

    def positions(self, trees: Sequence[Planted]) -> tuple[Set, ...]:
        """Planted trees as (position, option) of the programme, those at its candidates."""
        number = {one.place: position for position, one in enumerate(self.candidates)}
        return tuple((number[t.place], t.option) for t in trees if t.place in number)

    @property
    def standing_set(self) -> tuple[Set, ...]:
        """The trees that stand there already, as (position, option) of the programme."""
        first = len(self.candidates), len(self.study.options)
        return tuple((first[0] + n, first[1] + n) for n in range(len(self.standing)))


def layout(
    study: Study,
    order: Order,
    candidates: Sequence[Candidate],
    kept: Sequence[Set] = (),
) -> Layout:
    """The programme of an order; kept are trees (place, option) that are set."""
    at = np.array([one.place for one in candidates], dtype=int)
    near = _near(study, at, order.bee_range)
    ripe = windows(
        study.traits.pick_first,
        study.traits.pick_last,
        np.isin(np.arange(len(study.options)), order.options),
        order.picking,
        north=study.site.latitude >= 0,
    )
    programme = with_standing(ordered(study, order, at), study, near, ripe)
    position = {one.place: number for number, one in enumerate(candidates)}
    fixed = (*((position[place], option) for place, option in kept), *programme.fixed)
    programme = replace(programme, fixed=fixed)
    return Layout(study, order, tuple(candidates), tuple(kept), near, ripe, programme)


def placed(
    made: Layout, solution: Solution, unmet: Sequence[str] = (), notes: Sequence[str] = ()
) -> Placement:
    """A solution as a placement, its trees in the order of the wishes."""
    own = [tree for tree in solution.chosen if tree[0] < len(made.candidates)]
    own.sort(key=lambda tree: (tree[2], tree[1], tree[0]))
    trees = [_planted(made, position, option, wish) for position, option, wish in own]
    trees = served(made.study, made.order, trees, made.standing)
    total = float(sum(tree.score for tree in trees))
    return Placement(
        trees=tuple(trees),
        total=total,
        bound=total if solution.status == "proven" else max(solution.bound, total),
        seconds=solution.seconds,
        proven=solution.status == "proven",
        unmet=tuple(unmet),
        choices=made.study.snapshot(),
        notes=tuple(notes),
        offered=tuple(one.place for one in made.candidates),
        kept=made.kept,
    )


def _planted(made: Layout, position: int, option: int, wish: int) -> Planted:
    study, place = made.study, made.candidates[position].place
    return Planted(
        place=place,
        name=place_name(study, place),
        x=float(study.ground.places.x[place]),
        y=float(study.ground.places.y[place]),
        option=option,
        wish=made.order.wishes[wish].label,
        score=float(made.programme.scores[position, option]),
        partners=(),
    )


def _near(study: Study, at: Array, bee_range: float) -> tuple[Tree, ...]:
    """Standing trees within the bees' range of some candidate."""
    x, y = study.ground.places.x[at], study.ground.places.y[at]
    return tuple(
        tree
        for tree in standing_partners(study)
        if (np.hypot(x - tree.x, y - tree.y) <= bee_range).any()
    )
