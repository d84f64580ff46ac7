"""What can be planted: the catalogue, with the source of every value, and growth."""

from model.trees.catalogue import Catalogue
from model.trees.faults import CatalogueFaults, Fault
from model.trees.neighbours import Neighbour, neighbour
from model.trees.option import Option
from model.trees.reading import read_catalogue
from model.trees.size import HIGH, LOW, TYPICAL, Size, full_size, size_at_age
from model.trees.trait_arrays import Traits, traits
from model.trees.value import Source, Value

__all__ = [
    "HIGH",
    "LOW",
    "TYPICAL",
    "Catalogue",
    "CatalogueFaults",
    "Fault",
    "Neighbour",
    "Option",
    "Size",
    "Source",
    "Traits",
    "Value",
    "full_size",
    "neighbour",
    "read_catalogue",
    "size_at_age",
    "traits",
]
