"""What is asked and told beside the plan's map: the order, its settings, a tree, alternatives."""

from typing import Any

import numpy as np

from dashboard.pages import survey_form as form
from dashboard.pages.plan_work import PlanWork
from dashboard.pages.survey_form import Field
from dashboard.pages.trees_list import button
from dashboard.pages.trees_order import MOST, OrderRow, meeting
from model.language import _, marked
from model.planting.candidates import place_name
from model.planting.order import USES, matching, use_of
from model.planting.placement import Placement, Planted
from model.planting.plan_words import CAUTION, partners, total_words

PLACES_LISTED = 12
REASONS = ("pipe or cable", "rock", "standing water", "old roots or rubble", "something else")
STOP = marked(
    "A pipe or cable found: stop digging, do not touch it, keep people away and call its operator. "
    "Smell of gas: no flame, no switch, leave and call the emergency number. Local rules come "
    "first."
)
CHANGED = {
    "weights": marked("the weights"),
    "survey": marked("the survey"),
    "order": marked("the order"),
}


def order_blocks(work: PlanWork) -> list[dict[str, Any]]:
    """The order line by line, with steppers."""
    rows = work.rows()
    count = sum(row.count for row in rows)
    said = _("{count} trees in {lines} lines.").format(count=count, lines=len(rows))
    if not rows:
        said = _("Nothing is ordered yet: add a line, then place the order.")
    lines = [_line(work, number, row) for number, row in enumerate(rows)]
    return [{"heading": _("Order"), "said": [said], "lines": lines, "acts": []}]


def _line(work: PlanWork, number: int, row: OrderRow) -> dict[str, Any]:
    met = meeting(work.study, row)
    wrong = _("Nothing on the short list meets this.")
    note = "" if row.cultivar else ", ".join(work.study.options[n].cultivar for n in met[:4])
    more = "\N{HORIZONTAL ELLIPSIS}" if len(met) > 4 and note else ""
    return {
        "id": str(number),
        "label": row.label,
        "note": note + more if met else wrong,
        "bad": not met,
        "count": row.count,
        "buttons": [
            button(
                "fewer", "\N{MINUS SIGN}", _("One fewer {what}").format(what=row.label),
                disabled=row.count <= 1,
            ),
            button(
                "more", "+", _("One more {what}").format(what=row.label), disabled=row.count >= MOST
            ),
            button(
                "drop", "\N{MULTIPLICATION SIGN}",
                _("Remove the line {what}").format(what=row.label),
            ),
        ],
    }  # fmt: skip


def wishes(work: PlanWork) -> list[tuple[str, str]]:
    """What may be ordered: any of a fruit, any for a use, each tree of the short list."""
    study = work.study
    asked = []
    for species in dict.fromkeys(option.species for option in study.options):
        asked.append((species, "", "", ""))
        uses = {use_of(study, option) for option in matching(study, species)}
        asked += [(species, "", "", use) for use in USES if uses & set(USES[use])]
    asked += [(one.species, one.cultivar, one.rootstock, "") for one in study.options]
    return [("|".join(names), OrderRow(1, *names).label) for names in asked]


def order_fields(work: PlanWork, wish: str) -> list[Field]:
    """Adding a line, the settings, and the button that places the order."""
    asked, prices = work.settings, work.prices()
    money = f" [{prices.currency}]" if prices.currency else ""
    add = [
        form.choice("wish", _("Add"), wishes(work), wish),
        form.buttons("order", ("line", _("Add this line"))),
    ]
    spread = [
        ("0", _("as it comes")), ("2", _("early and late")), ("3", _("early, middle, late")),
        ("4", _("in four parts of the season")),
    ]  # fmt: skip
    numbers = {"kind": "number"}
    settings: list[Field] = [
        {**numbers, "name": "budget", "label": _("Budget for the trees") + money,
         "value": "" if asked.budget is None else form.plain(asked.budget),
         "help": _("left blank: no limit")},
        {**numbers, "name": "bee_range", "label": _("Bees serve as far as [m]"),
         "value": form.plain(asked.bee_range),
         "help": _("18 m after the RHS; farther where hives stand near")},
        form.choice("parts", _("Picking spread"), spread, str(asked.parts)),
        {**numbers, "name": "at_once", "label": _("Ripe in one fortnight, at most [trees]"),
         "value": "" if asked.at_once is None else str(asked.at_once),
         "help": _("left blank: as it comes")},
        {"kind": "check", "name": "pegs_only", "label": _("At the survey's pegs only"),
         "value": asked.pegs_only},
    ]  # fmt: skip
    if work.kept.planted:
        settings.append({
            "kind": "check", "name": "planted_stay", "value": asked.planted_stay,
            "label": _("Trees that are planted stay"),
        })  # fmt: skip
    free = bool(work.rows()) and not work.busy
    label = _("Place the order again") if work.trees else _("Place the order")
    place = form.buttons("place", form.main_button("place", label, disabled=not free))
    fold = {"kind": "fold", "label": _("Budget, bees, picking, pegs"), "fields": settings}
    return [*add, place, fold]


# -- what the plan comes to ------------------------------------------------------------------------


def plan_fields(work: PlanWork) -> list[Field]:
    """How the plan stands: out of date, its worth, what is unmet, what changed, what else."""
    kept = work.kept
    if work.faults:
        return [
            form.heading(_("The plan cannot be read")),
            *(form.note(one, "bad") for one in work.faults),
        ]
    if kept.placement is None or not kept.placement.trees:
        return _empty(work)
    return [
        form.heading(_("The plan")),
        *_outdated(work),
        *_worth(work),
        *_change(work),
        *_blocked(work),
        *_others(work),
        form.note(CAUTION, "caution"),
    ]


def _empty(work: PlanWork) -> list[Field]:
    said = _(
        "Set out the order, then press Place the order: each tree is put where it does best, with "
        "room at full size and its partners in reach of the bees."
    )
    placement = work.kept.placement
    unmet = placement.unmet if placement else ()
    return [
        form.heading(_("No plan yet")),
        *(form.note(work.session.shown(one), "bad") for one in unmet),
        form.note(said),
        form.note(CAUTION, "caution"),
    ]


def _outdated(work: PlanWork) -> list[Field]:
    changed = [_(CHANGED[name]) for name in work.outdated()]
    if not changed:
        return []
    said = _("Out of date: {what} changed since this was placed.")
    again = form.buttons("place", ("again", _("Place it again")))
    return [form.note(said.format(what=_(" and ").join(changed)), "bad"), again]


def _worth(work: PlanWork) -> list[Field]:
    kept, shown = work.kept, work.session.shown
    placement = kept.placement
    assert placement is not None  # noqa: S101 -- for the type checker; plan_fields asked
    if not kept.made_by:
        said = _("{count} trees, read from placement.csv. Place the order for a plan of your own.")
        return [form.note(said.format(count=len(placement.trees)))]
    told = (
        _("Trees were moved by hand, so this is no longer the best placement there is.")
        if kept.stays and not placement.proven and kept.change
        else total_words(work.order(), placement)
    )
    fields = [form.note(shown(told))]
    fields += [form.note(_("Not met: ") + shown(one), "bad") for one in placement.unmet]
    return fields + [form.note(shown(one), "help") for one in _beside(work)]


def _beside(work: PlanWork) -> list[str]:
    """Notes that are not the sentences of the change, which stand below."""
    placement = work.kept.placement
    notes = placement.notes if placement else ()
    return [one for one in notes if one not in work.kept.change]


def _change(work: PlanWork) -> list[Field]:
    kept = work.kept
    back = form.buttons("step", ("undo", _("Undo")))
    if not kept.change:
        return [back] if work.steps else []
    lines = [form.note(work.session.shown(one)) for one in kept.change]
    return [form.subheading(_("What changed")), *lines, back]


def _blocked(work: PlanWork) -> list[Field]:
    blocked = work.kept.blocked
    if not blocked:
        return []
    fields = [form.subheading(_("Blocked holes"))]
    if any(why == REASONS[0] for why in blocked.values()):
        fields.append(form.note(_(STOP), "caution"))
    for place, why in blocked.items():
        name = place_name(work.study, place)
        fields.append(form.note(f"{work.session.shown(name)}: {_(why)}"))
        opens = _("Open {place} again").format(place=work.session.shown(name))
        fields.append(form.buttons("open", (str(place), opens)))
    return fields


def _others(work: PlanWork) -> list[Field]:
    kept = work.kept
    if not kept.others:
        return []
    fields = [
        form.subheading(_("As good, all but the survey's error")),
        form.note(_("Choose by taste; Undo brings the other back."), "help"),
    ]
    for number, other in enumerate(kept.others, start=1):
        *moves, cost = [work.session.shown(one) for one in other.notes]
        fields.append(form.note(f"{number}. {_moving(work, other)} {cost}"))
        lines = [form.note(one) for one in moves]
        label = _("What plan {number} moves where").format(number=number)
        fields.append({"kind": "fold", "label": label, "fields": lines})
        use = _("Use plan {number}").format(number=number)
        fields.append(form.buttons("use", (str(number - 1), use)))
    return fields


def _moving(work: PlanWork, other: Placement) -> str:
    """Which trees of another plan stand elsewhere, in a sentence."""
    stands = {(tree.place, tree.option) for tree in work.trees}
    moved = [tree for tree in other.trees if (tree.place, tree.option) not in stands]
    names = dict.fromkeys(work.study.options[tree.option].cultivar for tree in moved)
    return _("{names} elsewhere.").format(names=", ".join(names))


# -- one tree --------------------------------------------------------------------------------------


def tree_fields(work: PlanWork, number: int, tree: Planted, why: str) -> list[Field]:
    """The chosen tree: what it is worth, where else it might go, and a hole that cannot be dug."""
    shown = work.session.shown
    label = work.study.options[tree.option].label
    where = _("{place}: {score} of 100; {partners}.").format(
        place=tree.name, score=points(tree.score), partners=partners(work.study, work.order(), tree)
    )
    is_set = tree.place in work.kept.stays
    stay = ("free", _("Set it free")) if is_set else ("set", _("Keep it here when placing again"))
    day = work.kept.planted.get(tree.place)
    planted = [_("Planted {day}: to move it now is to transplant it, see Review.").format(day=day)]
    there = [("", _("choose a place")), *other_places(work, tree)]
    reasons = [(one, _(one)) for one in REASONS]
    return [
        form.heading(f"{number} {label}"),
        form.note(shown(where)),
        *(form.note(one, "caution") for one in planted if day),
        form.choice("there", _("Try it elsewhere"), there, "",
                    help=_("or drag it on the map; what it costs is said before it is let go")),
        form.buttons("tree", stay),
        form.subheading(_("Something is in the way?")),
        form.note(_(STOP), "caution"),
        form.choice("why", _("What was found"), reasons, why),
        form.buttons("block", form.main_button("block", _("Block this hole"))),
    ]  # fmt: skip


def other_places(work: PlanWork, tree: Planted) -> list[tuple[str, str]]:
    """The pegs and the best of the places offered, by the tree's score there."""
    placement, moves = work.kept.placement, work.moves
    if placement is None or moves is None:
        return []
    places = work.study.ground.places
    pegs = range(places.cells, places.x.size)
    taken = {one.place for one in placement.trees}
    offered = [one for one in (*pegs, *placement.offered) if one not in taken]
    scores = moves.scores[tree.option]
    open_ = [one for one in dict.fromkeys(offered) if np.isfinite(scores[one])]
    ranked = sorted(open_, key=lambda one: -scores[one])
    listed = [one for one in ranked if one >= places.cells] + ranked[:PLACES_LISTED]
    listed = sorted(dict.fromkeys(listed), key=lambda one: -scores[one])
    said = _("{place}: {score}")
    name = lambda one: work.session.shown(place_name(work.study, one))  # noqa: E731 -- one line
    return [
        (str(one), said.format(place=name(one), score=points(float(scores[one])))) for one in listed
    ]


def points(score: float) -> str:
    """A score in points of 100; a dash where it is ruled out."""
    return "\N{EN DASH}" if np.isnan(score) else f"{100 * score:.0f}"
