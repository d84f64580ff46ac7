"""What is recommended, and why: the trees in a table, then what speaks for and against each."""

import numpy as np

from dashboard.report.findings import Findings, Plan, Spot
from dashboard.report.tags import paragraphs, table, tag, words
from dashboard.units import spoken
from model.decision.contributions import contributions
from model.decision.desirability import desirability
from model.language import _
from model.planting.buying.tree_names import tree_name
from model.planting.partnership import pollen_at_least, pollen_needs
from model.planting.placement import Planted
from model.planting.plan_words import partners, total_words
from model.study import Study
from model.trees import full_size

BEST, WORST = 3, 2
COSTS = 0.005  # of score, from which what a factor costs is told
POLLEN = "pollination"


def points(score: float) -> str:
    """A score in points of 100."""
    return f"{100 * score:.0f}"


def metres(value: float) -> str:
    """A distance on the map to the centimetre that a tape can tell.

    >>> metres(3.456)
    '3.46 m'
    """
    return f"{value:.2f} m"


def in_short(found: Findings) -> list[str]:
    """The recommendation in a few sentences."""
    study, plan = found.study, found.plan
    if plan is None:
        said = [_("No placement was made: this report tells what leads at each peg.")]
        said += [spot.verdict for spot in found.spots[:1]] if len(found.spots) == 1 else []
        return said
    trees = plan.placement.trees
    said = [
        _("{count} trees are recommended: {trees}.").format(
            count=len(trees),
            trees=", ".join(tree_name(study, one) for one in trees),
        )
    ]
    said.append(worth(found))
    said += [_("Not met: {what}").format(what=one) for one in plan.placement.unmet]
    alone = [tree_name(study, one) for one in lonely(study, plan)]
    if alone:
        lacking = _(
            "Without a partner in flower within {reach}, though they need one: {trees}. Their "
            "scores take it for granted that one is planted or stands there."
        )
        said.append(lacking.format(reach=f"{plan.order.bee_range:g} m", trees=", ".join(alone)))
    said += plan.placement.notes
    if plan.outdated:
        said.append(
            _("Since the plan was made, these have changed: {what}. Place it anew before you rely "
              "on it.").format(what=", ".join(plan.outdated))
        )  # fmt: skip
    return said


def lonely(study: Study, plan: Plan) -> list[Planted]:
    """Trees that need a partner in flower and have none in reach."""
    needs = pollen_needs(study.traits)
    return [one for one in plan.placement.trees if needs[one.option] > 0 and not one.partners]


def worth(found: Findings) -> str:
    """What the trees score together, and how sure it is that no other placement scores more."""
    plan = found.plan
    if plan is None:
        return ""
    if plan.computed and plan.placement.offered:
        return total_words(plan.order, plan.placement)
    total, number = plan.placement.total, len(plan.placement.trees)
    said = _("Together {total} points, {mean} of 100 each. The places were given, not sought: "
             "whether others would score more was not asked.")  # fmt: skip
    return said.format(total=points(total), mean=points(total / number))


def trees_table(found: Findings, *, feet: bool) -> str:
    """The placement, or the leader at each peg."""
    plan, study = found.plan, found.study
    columns = [_("Place"), _("East"), _("North"), _("Tree"), _("Score of 100"), _("Full crown")]
    columns += [_("Partners in flower"), _("Planted")] if plan else [_("Ties with, then next")]
    rows = []
    for spot in found.spots:
        tree = spot.tree
        at = (f"{spot.label} {spot.name}", metres(spot.x), metres(spot.y))
        if tree is None:
            rows.append((*at, _("nothing can stand here"), "", "", spot.verdict))
            continue
        label, wide = study.options[tree.option].label, crown(study, tree.option, spot.place)
        said = (label, points(tree.score), wide)
        more: tuple[str, ...] = (next_words(study, spot),)
        if plan:
            day = plan.planted.get(tree.place, "\N{EN DASH}")
            more = (partners(study, plan.order, tree), day)
        rows.append((*at, *said, *more))
    caption = _("The placement, signs as on the map") if plan else _("What leads at each peg")
    shown = [[spoken(cell, feet) for cell in row] for row in rows]
    return table(caption, columns, shown, "placement")


def crown(study: Study, option: int, place: int) -> str:
    """How wide a tree grows there."""
    low, usual, high = full_size(study.traits, study.ground.soils.fertility[[place]]).spread[
        :, option, -1
    ]
    return _("{usual} m ({low} m to {high} m)").format(
        usual=f"{usual:.1f}", low=f"{low:.1f}", high=f"{high:.1f}"
    )


def next_words(study: Study, spot: Spot) -> str:
    """Who ties with the leader, and who follows."""
    here = spot.here
    labels = [f"{study.options[one].label} ({points(here.score[one])})" for one in here.allowed]
    tied = [
        one for one, option in zip(labels[1:], here.allowed[1:], strict=True) if here.tied[option]
    ]
    rest = labels[1 + len(tied) : 2 + len(tied)]
    said = [_("tie with {who}").format(who=", ".join(tied))] if tied else []
    said += [_("then {who}").format(who=rest[0])] if rest else []
    return "; ".join(said) or _("nothing else can stand here")


def parts(found: Findings, spot: Spot) -> np.ndarray:
    """What each factor brings to the score of a spot's tree (factor,); they sum to its score.

    In a plan a tree has the partners that it must have, as its score has it.
    """
    study, tree = found.study, spot.tree
    if tree is None or found.plan is None:
        return spot.here.contributions[:, tree.option if tree else 0]
    worth = spot.here.desirabilities[:, tree.option].copy()
    names = [factor.name for factor in study.factors]
    number = names.index(POLLEN)
    measured = study.measure(POLLEN)[tree.option, tree.place]
    pollen = max(float(measured), float(pollen_at_least(study.traits)[tree.option]))
    worth[number] = desirability(pollen, study.settings[POLLEN].curve)
    return contributions(worth, study.weights, study.trade_off)


def for_and_against(found: Findings, spot: Spot) -> tuple[list[int], list[int]]:
    """Numbers of the factors that bring most and of those that cost most, the largest first.

    Partners in flower are told apart in a plan, since the trees of the plan serve one another.
    """
    brings = parts(found, spot)
    costs = found.study.weights - brings
    told = [
        number
        for number, factor in enumerate(found.study.factors)
        if not (found.plan and factor.name == POLLEN)
    ]
    against = [n for n in sorted(told, key=lambda n: -costs[n]) if costs[n] >= COSTS][:WORST]
    best = [n for n in sorted(told, key=lambda n: -brings[n]) if n not in against][:BEST]
    return best, against


def reasons(found: Findings, *, feet: bool) -> str:
    """Each tree with its place, its score, what speaks for it and what against."""
    return "".join(_card(found, spot, feet) for spot in found.spots)


def _card(found: Findings, spot: Spot, feet: bool) -> str:
    study, tree = found.study, spot.tree
    if tree is None:
        return (
            f'<section class="tree">{tag("h3", f"{spot.label} {spot.name}")}'
            f"{paragraphs([spoken(spot.verdict, feet)])}</section>"
        )
    label = study.options[tree.option].label
    facts = [
        _("{score} of 100 here; {x} east and {y} north of the origin.").format(
            score=points(tree.score), x=metres(spot.x), y=metres(spot.y)
        )
    ]
    if found.plan:
        served = partners(study, found.plan.order, tree)
        facts.append(f"{served[:1].upper()}{served[1:]}.")
        if tree.wish and tree.wish != label:
            facts.append(_("Ordered as: {wish}.").format(wish=_(tree.wish)))
    best, against = for_and_against(found, spot)
    return (
        f'<section class="tree">{tag("h3", f"{spot.label} {spot.name}: {label}")}'
        f"{paragraphs([spoken(' '.join(facts), feet)])}"
        f"{_factors(found, spot, best, feet, costly=False)}"
        f"{_factors(found, spot, against, feet, costly=True)}</section>"
    )


def _factors(found: Findings, spot: Spot, numbers: list[int], feet: bool, *, costly: bool) -> str:
    if not numbers or spot.tree is None:
        return ""
    study, brings = found.study, parts(found, spot)
    items = []
    for number in numbers:
        factor, most = study.factors[number], 100 * study.weights[number]
        figure = factor.shown(float(spot.here.measures[number, spot.tree.option]))
        brought = f"{100 * brings[number]:.1f}".replace("-", "\N{MINUS SIGN}")
        share = _("{points} of {most} points").format(points=brought, most=f"{most:.1f}")
        if costly:
            share = _("costs {points} points").format(points=f"{most - 100 * brings[number]:.1f}")
        said = study.explain(number, spot.tree.option, spot.place)
        head = f"{_(factor.label)}, {spoken(figure, feet)} "
        items.append(
            f"<li><b>{words(head.strip())}</b> <span>({words(share)})</span> "
            f"{words(spoken(said, feet))}</li>"
        )
    title = _("Speaks against it") if costly else _("Speaks for it")
    return f"{tag('h4', title)}<ul>{''.join(items)}</ul>"
