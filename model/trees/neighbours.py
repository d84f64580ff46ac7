"""Trees that already stand there: woods, hedges and single trees, by genus or species."""

from dataclasses import dataclass

from model.trees.catalogue import Catalogue


@dataclass(frozen=True)
class Neighbour:
    """A kind of neighbouring tree; its sources are in the catalogue's table of neighbours."""

    name: str
    label: str
    mature_height: float  # [m]
    crown_to_height: float  # spread for each metre of height [1]
    root_reach_per_height: float  # from the trunk, for each metre of height [1]
    root_strength: float  # competition at the trunk, 0 to 1
    root_distance_recorded: float  # [m] farthest root found in surveys; NaN where none was read
    juglone_reach: float  # [m] 0 for all but walnuts
    evergreen: bool
    mycorrhiza: str  # AM, EcM, AM and EcM, ericoid
    transmission_leaf: float  # share of light let through in leaf, 0 to 1
    transmission_bare: float  # share of light let through when bare, 0 to 1


_NUMBERS = (
    *("mature_height", "crown_to_height", "root_reach_per_height", "root_strength"),
    *("root_distance_recorded", "juglone_reach", "transmission_leaf", "transmission_bare"),
)


def neighbour(catalogue: Catalogue, name: str) -> Neighbour:
    """The neighbour of a name (or another name for it); ValueError lists the names."""
    key = _key(catalogue, name)

    def words(trait: str) -> str:
        value = catalogue.value("neighbours", key, trait)
        return "" if value is None else str(value.value)

    values = {trait: catalogue.value("neighbours", key, trait) for trait in _NUMBERS}
    return Neighbour(
        name=key,
        label=words("label") or key.replace("_", " "),
        evergreen=words("evergreen") == "yes",
        mycorrhiza=words("mycorrhiza"),
        **{trait: float("nan") if v is None else v.number for trait, v in values.items()},
    )


def _key(catalogue: Catalogue, name: str) -> str:
    """The catalogue's key for a name."""
    wanted = name.strip().casefold().replace(" ", "_")
    for key in catalogue.neighbours():
        others = catalogue.value("neighbours", key, "also_called")
        if wanted == key or (others is not None and wanted in others.words):
            return key
    raise ValueError(
        f"no neighbouring tree called {name!r}: there are {', '.join(catalogue.neighbours())}"
    )
