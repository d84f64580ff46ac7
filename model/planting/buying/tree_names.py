"""How the trees of a plan are called on a list: each by what and where it is."""

from collections.abc import Sequence

from model.language import _
from model.planting.placement import Placement, Planted
from model.study import Study


def tree_name(study: Study, tree: Planted) -> str:
    """One tree: its option and its place."""
    return _("{tree} at {place}").format(tree=study.options[tree.option].label, place=tree.name)


def tree_names(study: Study, placement: Placement, trees: Sequence[Planted]) -> str:
    """Several trees in a cell of a table, separated by semicolons."""
    if len(trees) == len(placement.trees) and len(trees) > 1:
        return _("all {count} trees").format(count=len(trees))
    return "; ".join(tree_name(study, tree) for tree in trees)


def by_species(study: Study, trees: Sequence[Planted]) -> dict[str, list[Planted]]:
    """The trees of each species, species in the order of the plan."""
    groups: dict[str, list[Planted]] = {}
    for tree in trees:
        groups.setdefault(study.options[tree.option].species, []).append(tree)
    return groups


def species_name(study: Study, species: str) -> str:
    """A species as people call it."""
    value = study.catalogue.value("species", species, "label")
    return str(value.value) if value else species.replace("_", " ")
