"""Alternatives, what would overturn the recommendation, and by what weights it was reached."""

from collections.abc import Mapping, Sequence

import numpy as np

from dashboard.report.findings import Findings, Spot
from dashboard.report.reasons import points
from dashboard.report.tags import bullets, paragraphs, table, tag, words
from dashboard.theme import family_label
from dashboard.units import spoken
from model.comparison import points as lost
from model.decision import weights as shares
from model.language import _
from model.opening import STUDY_FILE
from model.planting.candidates import place_name, placing_scores
from model.planting.placement import Planted
from model.results import TIE
from model.robustness import NEAR, SURVEY, Robustness
from model.robustness.words import hundred
from model.study import Study
from model.study_file import read_study_file

SAME = 0.002  # share of weight within which two sets of weights are the same
NEXT = 2  # other trees and pegs named beside each


def alternatives(found: Findings, *, feet: bool) -> str:
    """Other plans of nearly the same worth, and what else could stand at each place."""
    plan = found.plan
    said = tag("h3", _("Alternatives"))
    if plan:
        others = [
            _("{number}: {total} points in place of {best}. {how}").format(
                number=number, total=points(other.total), best=points(plan.placement.total),
                how=" ".join(other.notes),
            )
            for number, other in enumerate(plan.others, start=1)
        ]  # fmt: skip
        none = _("No other plan of nearly the same worth was sought for this report.")
        said += bullets([spoken(one, feet) for one in others]) or tag("p", none)
    columns = (_("Place"), _("Here now"), _("Else here"), _("Its other pegs"))
    rows = [
        [spoken(cell, feet) for cell in _else_row(found, spot)]
        for spot in found.spots
        if spot.tree is not None
    ]
    return said + table(_("What else could stand there, and where else it could stand"), columns,
                        rows)  # fmt: skip


def _else_row(found: Findings, spot: Spot) -> tuple[str, ...]:
    study, tree = found.study, spot.tree
    if tree is None:
        return (spot.label, "", "", "")
    label = lambda option: study.options[option].label  # noqa: E731 -- one line
    scores = scores_at(found, [spot.place])[:, 0]
    order = [int(one) for one in np.argsort(-np.nan_to_num(scores), kind="stable")]
    others = [one for one in order if one != tree.option and np.isfinite(scores[one])]
    ties = [one for one in others if abs(scores[one] - tree.score) < TIE]
    said = [
        f"{label(one)} ({points(scores[one])}{', ' + _('a tie') if one in ties else ''})"
        for one in others[: max(NEXT, len(ties))]
    ]
    places = study.ground.places
    pegs = list(range(places.cells, places.x.size))
    there = scores_at(found, pegs)[tree.option] if pegs else np.empty(0)
    best = np.argsort(-np.nan_to_num(there, nan=-1.0), kind="stable")
    elsewhere = [
        f"{place_name(study, pegs[one])} ({points(there[one])})"
        for one in best
        if pegs[one] != tree.place and np.isfinite(there[one])
    ][:NEXT]
    now = f"{label(tree.option)} ({points(tree.score)})"
    none = _("nothing")
    return f"{spot.label} {spot.name}", now, "; ".join(said) or none, "; ".join(elsewhere) or none


def scores_at(found: Findings, at: Sequence[int]) -> np.ndarray:
    """Scores (option, place), NaN where ruled out; in a plan each tree has its partners."""
    if found.plan is not None:
        return placing_scores(found.study, np.asarray(at, dtype=int))
    study = found.study
    return np.stack([study.shown_scores(option)[at] for option in range(len(study.options))])


def overturning(found: Findings, *, feet: bool) -> str:
    """At which weights another tree would lead, and how far the survey's errors matter."""
    items = []
    for spot in found.spots:
        said = [spot.verdict, _behind(found, spot)]
        items.append(spoken(" ".join(one for one in said if one), feet))
    tie = _("Scores nearer than {points} point of 100 are ties: taste may choose.")
    text = tag("h3", _("What would overturn it"))
    alone = _("The sentences on weights judge each place on its own, without the partners that a "
              "plan brings.") if found.plan else ""  # fmt: skip
    text += tag("p", f"{tie.format(points=points(TIE))} {alone}".strip())
    text += bullets(items)
    return text + _sure(found, feet)


def _behind(found: Findings, spot: Spot) -> str:
    """What the plan's tree gives up to the one that would lead at its place, if it is another."""
    tree, study = spot.tree, found.study
    scores = scores_at(found, [spot.place])[:, 0]
    if tree is None or found.plan is None or not np.isfinite(scores).any():
        return ""
    mine = study.options[tree.option].label
    if np.isnan(scores[tree.option]):
        said = _("The plan has {tree} here, which is ruled out: {reason}.")
        return said.format(tree=mine, reason=spot.here.reason[tree.option])
    leader = int(np.nanargmax(scores))
    behind = float(scores[leader] - scores[tree.option])
    if leader == tree.option:
        return _("With the partners it needs, the plan's {tree} leads here.").format(tree=mine)
    if behind < TIE:
        said = _("With the partners it needs, the plan's {tree} ties here with {leader}.")
        return said.format(tree=mine, leader=study.options[leader].label)
    said = _("The plan has {tree} here, {lost} behind {leader}{why}.")
    why = _(", as the order is met best as a whole") if found.plan.computed else ""
    return said.format(tree=mine, lost=lost(behind), leader=study.options[leader].label, why=why)


def _sure(found: Findings, feet: bool) -> str:
    """What trying other weights and other surveys told."""
    title = tag("h3", _("How sure it is"))
    if not found.sure:
        said = _("Other weights and errors of the survey were not tried for this report.")
        return title + tag("p", said)
    about = _(
        "Tried with 2000 other weightings and 2000 surveys that might be true as well; counts are "
        "out of 100."
    )
    parts = []
    trees = {spot.place: spot.tree for spot in found.spots}
    for told in found.sure:
        sentences = [spoken(one, feet) for one in (*told.sentences, _planned_words(told, trees))]
        name = found.study.ground.places.short_name(told.place)
        parts.append(tag("h4", name[:1].upper() + name[1:]) + bullets(sentences))
    return title + tag("p", about) + "".join(parts)


def _planned_words(told: Robustness, trees: Mapping[int, Planted | None]) -> str:
    """How often the tree recommended is best, where it is not the one that leads alone."""
    tree = trees.get(told.place)
    if tree is None or tree.option == told.leader:
        return ""
    near, survey = (hundred(told.best_share(view)[tree.option]) for view in (NEAR, SURVEY))
    said = _("{tree}, which the plan has here, is best in {near} weightings near yours and in "
             "{survey} surveys, judged on its own.")  # fmt: skip
    return said.format(tree=told.options[tree.option], near=near, survey=survey)


def weighing(found: Findings) -> str:
    """Every weight as a bar, by family, and how the weights were come by."""
    study = found.study
    most = float(study.weights.max()) or 1.0
    rows = []
    for family in study.families:
        members = [n for n, factor in enumerate(study.factors) if factor.group == family]
        for number in sorted(members, key=lambda n: -study.weights[n]):
            factor, share = study.factors[number], float(study.weights[number])
            wide = 60 * share / most
            bar = f'<span class="bar" style="width:{wide:.1f}mm"></span>'
            rows.append(
                (_(factor.label), words(_(family_label(family))), f"{100 * share:.1f} %", bar,
                 words(_(factor.question)))
            )  # fmt: skip
    columns = (_("Factor"), _("Family"), _("Weight"), _("As a bar"), _("It asks"))
    return paragraphs(come_by(study)) + table(
        _("Weights, together 100 %"), columns, rows, "weights", raw=(1, 2, 3, 4)
    )


def come_by(study: Study) -> list[str]:
    """Where the weights come from, and how strengths and weaknesses are set off."""
    said = _(
        "The score is a weighted mean of how good each figure is, with trade-off {trade_off} "
        "(1: strengths make up for weaknesses; the lower, the more the weakest point decides). It "
        "is a judgement under these weights, no forecast of a crop."
    )
    return [
        origin(study),
        said.format(trade_off=f"{study.trade_off:g}".replace("-", "\N{MINUS SIGN}")),
    ]


def origin(study: Study) -> str:
    """The weight set that is in use by its name, or what else the weights are."""
    for one in study.weight_sets:
        wanted = [one.weights.get(factor.name, 0.0) for factor in study.factors]
        if _same(study, wanted) and abs(one.trade_off - study.trade_off) < SAME:
            about = f" {one.about}" if one.about else ""
            return _("The weights are the set “{name}”.{about}").format(name=one.name, about=about)
    if _same(study, np.ones(len(study.factors))):
        return _("Every factor weighs the same.")
    folder = study.site.folder
    begun = read_study_file(folder / STUDY_FILE).weights if folder else {}
    if begun and _same(study, [begun.get(factor.name, 0.0) for factor in study.factors]):
        return _("The weights are those that the folder's study.toml begins with.")
    if _same(study, [factor.usual_weight for factor in study.factors]):
        return _("The weights are the usual ones of Treestead; nobody has set others.")
    return _("The weights were set by hand for this report and have no name.")


def _same(study: Study, wanted: Sequence[float] | np.ndarray) -> bool:
    wanted = np.asarray(wanted, dtype=float)
    if wanted.sum() <= 0:
        return False
    return bool(np.allclose(shares.normalised(wanted), study.weights, atol=SAME))
