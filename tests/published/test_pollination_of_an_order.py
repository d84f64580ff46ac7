"""Whole orders placed in the light of published pollination charts and rules.

Sources, read unless said otherwise:
- RHS, Fruit pollination (rhs.org.uk): the same group or one either side; about 18 m; triploids.
- Habitat Aid, Pollination Groups (habitataid.co.uk): RHS numbers; group 1 serves 1 and 2, group 2
  serves 1 to 3, and so on; within 18 m; triploids need two others that are none.
- BBC Gardeners' World Magazine, 23 September 2021, Know your apples: Blenheim Orange (3) with Gala
  (4) and Lord Lambourne (2); Egremont Russet (2) unlikely with Newton Wonder (5).
- Sussex Fruit Trees, Flower Groups: Spartan (3) by 2, 3 and 4; Bramley cannot serve in return, so
  that a third tree is required; quince, fig and peach need no partner.
- The Independent, Cuttings: Williams and Louise Bonne do not serve one another.
- ANFIC, Sweet cherry compatibility and bloom timing, table 1 (2014): groups by alleles, partners
  from another group that bloom at the same time; Lapins, Stella, Sunburst, Sweetheart self-fertile.
  Which cultivar is in which group: Schuster's tables of S-genotypes, from memory.
The first magazine also calls two trees of one variety good partners; that is a slip: they are one
clone (common practice, no source), and this project does not follow it.
"""

import numpy as np
import pytest

from model.planting.partnership import pollen_needs, pollen_worths
from model.planting.placing import place_order
from model.study import Study
from model.trees import Option
from tests.model.planting.orders import field, order, pegs_of, row_of_pegs
from tests.model.small_site import CATALOGUE, site, spot

GROUPS = {  # as those sources print them
    "Egremont Russet": 2, "Lord Lambourne": 2, "Cox's Orange Pippin": 3, "James Grieve": 3,
    "Spartan": 3, "Ashmead's Kernel": 4, "Lord Derby": 4, "Gala": 4, "Newton Wonder": 5,
    "Crawley Beauty": 6,
}  # fmt: skip
TRIPLOIDS = ("Bramley", "Blenheim Orange", "Ribston Pippin")
ALLELES = {
    "Summit": "S1S2", "Early Rivers": "S1S2", "Van": "S1S3", "Regina": "S1S3",
    "Napoleon": "S3S4", "Kordia": "S3S6", "Burlat": "S3S9", "Merchant": "S4S9",
}  # fmt: skip


def kinds(species: str, names: tuple[str, ...]) -> list[Option]:
    options = CATALOGUE.options()
    return [next(o for o in options if (o.species, o.cultivar) == (species, n)) for n in names]


def ordered(*species_and_name: tuple[str, str], apart: float = 9.0):
    """One of each, on pegs in a row; the placement."""
    options = [CATALOGUE.option(s, n, stock_of(s)) for s, n in species_and_name]
    made = field(options, row_of_pegs(*[apart] * (len(options) - 1), start=4))
    return place_order(made, order(made, *[1] * len(options)), pegs_of(made))


def stock_of(species: str) -> str:
    return {"apple": "M9", "pear": "Pyrodwarf", "sweet_cherry": "Gisela 5"}.get(
        species, CATALOGUE.rootstocks_for(species)[0]
    )


def unserved(placed) -> set[str]:
    return {said.removeprefix("Give up ").split(" on ")[0] for said in placed.unmet}


def apples(*names):
    return tuple(("apple", name) for name in names)


def test_the_whole_chart_of_flowering_groups_is_reproduced_rhs():
    made = Study(site(spots=(spot("A", 9, 9),)), CATALOGUE, kinds("apple", tuple(GROUPS)))
    group = np.array(list(GROUPS.values()))
    chart = (np.abs(group[:, None] - group) <= 1) & ~np.eye(len(group), dtype=bool)
    assert (pollen_worths(made) == chart).all()
    assert made.traits.flower_group.tolist() == group.tolist()


def test_a_triploid_needs_two_and_serves_nobody_rhs_habitat():
    names = (*TRIPLOIDS, *GROUPS)
    made = Study(site(spots=(spot("A", 9, 9),)), CATALOGUE, kinds("apple", names))
    assert pollen_needs(made.traits)[:3].tolist() == [2, 2, 2]
    assert set(pollen_needs(made.traits)[3:].tolist()) <= {0, 1}
    assert (pollen_worths(made)[:, :3] == 0).all()


@pytest.mark.parametrize(
    ("names", "without"),
    [
        (("Egremont Russet", "Newton Wonder"), {"Egremont Russet", "Newton Wonder"}),
        (("Gala", "Newton Wonder"), set()),
        (("Spartan", "Lord Lambourne"), set()),
        (("Spartan", "Gala"), set()),
        (("Lord Lambourne", "Gala"), {"Lord Lambourne", "Gala"}),
        (("Blenheim Orange", "Gala", "Lord Lambourne"), {"Gala", "Lord Lambourne"}),
        (("Blenheim Orange", "Gala", "Lord Lambourne", "Cox's Orange Pippin"), set()),
    ],
)
def test_orders_of_apples_stand_or_fall_as_the_magazine_and_the_nursery_say(names, without):
    assert unserved(ordered(*apples(*names), apart=5)) == without


def test_a_third_tree_is_required_beside_bramley_and_one_other_sussex():
    assert unserved(ordered(*apples("Bramley", "Spartan"), apart=6)) == {"Bramley", "Spartan"}
    assert unserved(ordered(*apples("Bramley", "Spartan", "Lord Lambourne"), apart=6)) == set()


@pytest.mark.parametrize(("apart", "served"), [(17.9, True), (18.5, False)])
def test_a_partner_serves_within_eighteen_metres_and_not_beyond_rhs(apart, served):
    placed = ordered(*apples("Spartan", "Gala"), apart=apart)
    assert (placed.unmet == ()) == served


def test_williams_and_louise_bonne_do_not_serve_one_another_independent():
    pair = (("pear", "Williams' Bon Chrétien"), ("pear", "Louise Bonne of Jersey"))
    assert unserved(ordered(*pair)) == {"Williams' Bon Chrétien", "Louise Bonne of Jersey"}


def test_conference_between_them_serves_both():
    """All three within one group of one another; groups: RHS lists, from memory."""
    two = (("pear", "Williams' Bon Chrétien"), ("pear", "Louise Bonne of Jersey"))
    assert unserved(ordered(*two, ("pear", "Conference"), apart=8)) == set()


def test_cherries_of_one_allele_group_never_serve_and_of_others_when_they_bloom_together_anfic():
    made = Study(site(spots=(spot("A", 9, 9),)), CATALOGUE, kinds("sweet_cherry", tuple(ALLELES)))
    worths, alleles = pollen_worths(made), list(ALLELES.values())
    alike = np.array([[one == other for other in alleles] for one in alleles])
    assert (worths[alike] == 0).all()
    together = np.abs(made.traits.flower_group[:, None] - made.traits.flower_group) <= 1
    assert (worths[~alike & together] == 1).all()
    assert (~alike & together).sum() >= 10


def test_van_and_regina_are_refused_and_kordia_serves_regina_anfic():
    cherries = (("sweet_cherry", "Van"), ("sweet_cherry", "Regina"), ("sweet_cherry", "Kordia"))
    assert unserved(ordered(*cherries[:2], apart=6)) == {"Van", "Regina"}
    assert unserved(ordered(*cherries[1:], apart=6)) == set()


@pytest.mark.parametrize("name", ["Lapins", "Stella", "Sunburst", "Sweetheart"])
def test_a_self_fertile_cherry_stands_alone_and_serves_others_anfic(name):
    assert unserved(ordered(("sweet_cherry", name))) == set()
    assert unserved(ordered(("sweet_cherry", name), ("sweet_cherry", "Napoleon"), apart=6)) == set()


@pytest.mark.parametrize("species", ["quince", "fig", "peach"])
def test_quince_fig_and_peach_need_no_partner_sussex(species):
    option = next(o for o in CATALOGUE.options() if o.species == species)
    made = Study(site(spots=(spot("A", 9, 9),)), CATALOGUE, [option])
    assert pollen_needs(made.traits).tolist() == [0]
