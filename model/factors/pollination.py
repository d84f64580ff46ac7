"""Pollination: do partners in flower stand within the bees' usual reach?"""

import numpy as np
import param

from model.decision.desirability import Curve
from model.factors.factor import Factor, Settings
from model.ground import Ground
from model.ground.partners import KIN
from model.language import _, marked
from model.trees import Traits, traits

NEAR = 18.0  # [m] RHS, Pollination of fruit trees: the effective distance, a rule of thumb
FADE = 30.0  # [m] beyond which the pollen brought falls to a third (common practice, no source)
UNKNOWN = 0.5  # worth of a partner whose cultivar is not known (common practice, no source)
OWN = {"yes": 1.0, "partly": 0.5, "no": 0.0}
SAID = {"yes": marked("self-fertile"), "partly": marked("partly self-fertile")}


class PollinationSettings(Settings):
    """The curve over the partners found; mild, since the trees of an order serve one another."""

    curve = param.ClassSelector(class_=Curve, default=Curve((0.0, 0.5, 1.0), (0.45, 0.8, 1.0)))


def nearness(distance: np.ndarray) -> np.ndarray:
    """Share of a partner's pollen that bees bring over a distance [m], same shape [1]."""
    return np.exp(-np.maximum(distance - NEAR, 0) / FADE)


def fits(taker: Traits, giver: Traits) -> np.ndarray:
    """Whether one option (the only one of `giver`) pollinates others (option,) [0 or 1].

    Flowering groups no more than one apart, not of one clone, pollen not a triploid's, not an
    incompatible pair and, where both are known, not the same incompatibility alleles.
    Source: RHS, Pollination of fruit trees; National Fruit Collection's cherry groups.
    """
    other = giver.options[0]
    together = np.abs(taker.flower_group - giver.flower_group[0]) <= 1
    known = np.isfinite(taker.flower_group) & np.isfinite(giver.flower_group[0])
    clone = np.array([option.cultivar == other.cultivar for option in taker.options])
    refused = np.array([other.cultivar in names for names in taker.incompatible_with])
    alike = np.array([bool(s) and s == giver.s_alleles[0] for s in taker.s_alleles])
    barred = clone | refused | alike | giver.triploid[0]
    return np.where(barred, 0.0, np.where(known, together, UNKNOWN))


def _worth(ground: Ground, options: Traits) -> np.ndarray:
    """Worth of every tree that stands there as a partner (partner, option) [0 to 1]."""
    partners = ground.partners
    kin = np.array([KIN.get(option.species, "") for option in options.options])
    worth = np.zeros((len(partners.kin), kin.size))
    for number, (of_kin, cultivar) in enumerate(zip(partners.kin, partners.cultivars, strict=True)):
        giver = [o for o in ground.catalogue.options() if o.cultivar == cultivar][:1]
        given = fits(options, traits(ground.catalogue, giver)) if giver else UNKNOWN
        worth[number] = np.where(kin == of_kin, given, 0.0)
    return worth


def _own(options: Traits) -> np.ndarray:
    """What each option does by itself (option,) [1]."""
    alone = np.array([OWN.get(word, 0.0) for word in options.self_fertile])
    none_needed = np.array([word == "none needed" for word in options.pollination])
    return np.where(none_needed, 1.0, alone)


def _measure(ground: Ground, traits: Traits) -> np.ndarray:
    reach = nearness(ground.partners.distance)
    brought = np.einsum("po,pn->on", _worth(ground, traits), reach)
    needed = np.where(traits.triploid, 2.0, 1.0)
    return np.minimum((_own(traits)[:, None] + brought) / needed[:, None], 1.0)


def _explain(ground: Ground, traits: Traits, option: int, place: int) -> str:
    share = 100 * _measure(ground, traits)[option, place]
    itself = SAID.get(traits.self_fertile[option], marked("not self-fertile"))
    said = _(
        "{share:.0f} % of the pollen it needs is at hand: {itself}; {partner}. Trees planted with "
        "it are not counted: two that flower together near by serve each other."
    ).format(share=share, itself=_(itself), partner=_partner(ground, traits, option, place))
    if traits.triploid[option]:
        return f"{said} {_('A triploid: it needs two partners and serves none.')}"
    return said


def _partner(ground: Ground, traits: Traits, option: int, place: int) -> str:
    """The tree that serves an option best at a place, in words."""
    away = ground.partners.distance[:, place]
    worth = _worth(ground, traits)[:, option] * nearness(away)
    if not worth.size or worth.max() < 0.05:
        return _("no partner stands near")
    best = int(worth.argmax())
    said = _("{tree}, {away:.0f} m away, may serve it")
    return said.format(tree=ground.partners.labels[best], away=away[best])


POLLINATION = Factor(
    name="pollination",
    label="Pollination",
    question="Does a partner in flower stand within reach of bees?",
    group="room",
    quantity="pollen_at_hand",
    unit="of need met",
    decimals=2,
    needs=(),
    settings=PollinationSettings,
    measure=_measure,
    explain=_explain,
    sources=(
        "Groups no more than one apart, triploids, effective distance of 18 m: RHS, Pollination.",
        "Groups, fertility and incompatible pairs: the catalogue, value by value.",
        "Fall of pollen with distance, worth of an unknown cultivar: common practice, no source.",
    ),
)
