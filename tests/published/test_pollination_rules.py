"""Which fruit trees serve one another in flower, against published rules and pairs.

Sources: Royal Horticultural Society, "Fruit: choosing cultivars and pollination" (groups the same
or one apart; triploids are no partners and need two; effective distance of about 18 m);
Schuster (2012), incompatible (S-)genotypes of sweet cherry, Scientia Horticulturae
148:59 (Van S1S3 and Regina S1S3 do not serve one another; Kordia S3S6 does), alleles from memory.
"""

import numpy as np
import pytest

from model.factors.pollination import fits, nearness
from model.trees import Option, traits
from tests.model.small_site import CATALOGUE


def serves(giver: tuple[str, str], taker: tuple[str, str]) -> float:
    def of(species: str, cultivar: str):
        options = [o for o in CATALOGUE.options() if (o.species, o.cultivar) == (species, cultivar)]
        return traits(CATALOGUE, options[:1])

    return float(fits(of(*taker), of(*giver))[0])


def apple(name: str) -> tuple[str, str]:
    return "apple", CATALOGUE.option("apple", name, "M26").cultivar


def test_a_clone_does_not_serve_itself_rhs():
    assert serves(apple("Discovery"), apple("Discovery")) == 0


@pytest.mark.parametrize("triploid", ["Bramley", "Blenheim Orange", "Ribston Pippin"])
def test_a_triploid_serves_nobody_rhs(triploid):
    assert serves(apple(triploid), apple("Cox")) == 0


def test_groups_serve_when_the_same_or_one_apart_and_not_when_farther_rhs():
    groups = {}
    for cultivar in CATALOGUE.cultivars_of("apple"):
        option = Option("apple", cultivar, CATALOGUE.rootstocks_for("apple")[0])
        known = traits(CATALOGUE, [option])
        if np.isfinite(known.flower_group[0]) and not known.triploid[0]:
            groups.setdefault(int(known.flower_group[0]), cultivar)
    taker = ("apple", groups[3])
    for group, cultivar in groups.items():
        if group != 3:
            assert serves(("apple", cultivar), taker) == float(abs(group - 3) <= 1), group


def test_sweet_cherries_of_one_allele_group_do_not_serve_one_another_schuster2012():
    assert serves(("sweet_cherry", "Van"), ("sweet_cherry", "Regina")) == 0


def test_bees_bring_most_within_eighteen_metres_rhs_and_little_from_a_hundred():
    assert nearness(np.array([5.0, 18.0])).tolist() == [1.0, 1.0]
    assert nearness(np.array([100.0]))[0] < 0.1
