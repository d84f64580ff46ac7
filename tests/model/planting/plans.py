"""Plans set by hand for the tests: trees at given points or pegs, no placing done."""

from functools import cache

from model.opening import open_study
from model.planting.placement import Placement, Planted
from model.study import Study
from tests.model.demo import DEMO

SORRELHAY = (
    ("Shed nook", "Discovery on M9"),
    ("Top field", "Egremont Russet on MM106"),
    ("Thin soil", "Ashmead's Kernel on MM111"),
    ("Hollow", "Conference on Quince C"),
    ("Middle field", "Victoria on St Julien A"),
    ("Lane corner", "Stella on Gisela 5"),
    ("Far bank", "Vranja on Quince A"),
    ("Cable", "Czar on Pixy"),
)
SALLOWBEND = (
    ("Verandah", "Canino on Apricot seedling"),
    ("Bench", "Granny Smith on MM111"),
    ("Ridge", "Marjorie's Seedling on Myrobalan B"),
    ("Far corner", "Chandler on Walnut seedling"),
)


def planted(study: Study, place: int, name: str, option: int) -> Planted:
    """One tree of a plan."""
    x, y = float(study.ground.places.x[place]), float(study.ground.places.y[place])
    return Planted(place, name, x, y, option, "as wished", 0.5, ())


def placement(*trees: Planted) -> Placement:
    """A plan of these trees."""
    return Placement(trees, 0.0, 0.0, 0.0, True, (), {})


def plan(study: Study, *trees: tuple[float, float, int]) -> Placement:
    """A plan of trees at points: x, y and the option's number, named A, B, C in turn."""
    nearest = study.ground.places.nearest
    return placement(
        *(
            planted(study, nearest(x, y, 0.01), chr(ord("A") + number), option)
            for number, (x, y, option) in enumerate(trees)
        )
    )


@cache
def demo_plan(name: str = "sorrelhay") -> tuple[Study, Placement]:
    """An invented demo site with trees at some of its pegs; do not change its choices."""
    study = open_study(DEMO.parent / name)
    places, labels = study.ground.places, [option.label for option in study.options]
    pegs = SORRELHAY if name == "sorrelhay" else SALLOWBEND
    return study, placement(
        *(
            planted(study, places.cells + places.spots.index(peg), peg, labels.index(label))
            for peg, label in pegs
        )
    )
