"""What rows together still lack: a cultivar without its species, a rootstock without a size."""

from collections.abc import Iterator

from model.trees.catalogue import Catalogue
from model.trees.faults import Fault

REQUIRED = tuple(
    f"{size}_{part}" for size in ("height", "spread") for part in ("low", "typical", "high")
)
"""Traits without which a rootstock cannot be judged."""


def gaps(catalogue: Catalogue) -> Iterator[Fault]:
    """What a species, rootstock or cultivar lacks to be judged at all."""
    known = catalogue.species()
    for species in dict.fromkeys(key[0] for key, _ in catalogue.tables["cultivars"]):
        if species not in known:
            mend = "adding it to species.csv or correcting its name"
            yield Fault(
                "cultivars.csv", 0, "species", repr(species), f"one of {', '.join(known)}", mend
            )
    for rootstock in catalogue.rootstocks():
        yield from _rootstock_gaps(catalogue, rootstock)


def _rootstock_gaps(catalogue: Catalogue, rootstock: str) -> Iterator[Fault]:
    served = catalogue.value("rootstocks", rootstock, "serves")
    if served is None:
        yield _missing(rootstock, "serves", "the species it serves, split by semicolons")
        return
    for species in served.words:
        if species not in catalogue.species():
            expected = f"one of {', '.join(catalogue.species())}"
            mend = f"correcting the serves row of {rootstock}"
            yield Fault("rootstocks.csv", 0, "serves", repr(species), expected, mend)
    for trait in REQUIRED:
        lacking = [
            species
            for species in served.words
            if catalogue.value("rootstocks", (rootstock, species), trait) is None
        ]
        if lacking:
            yield _missing(rootstock, trait, f"a size in metres for {', '.join(lacking)}")


def _missing(rootstock: str, trait: str, expected: str) -> Fault:
    mend = f"adding a row for {rootstock} with the trait {trait}"
    return Fault("rootstocks.csv", 0, trait, f"no row for {rootstock}", expected, mend)
