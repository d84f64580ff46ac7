"""Agreement within a group against published examples and independent libraries."""

from math import log, sqrt

import numpy as np
import pytest
from composition_stats import center, clr
from kendall_w.kendall_w import compute_w

from model.decision.group import (
    consensus,
    departures,
    disagreement,
    distances,
    kendall_w,
    variances,
)

pytestmark = pytest.mark.published

# Invented ballots; what they must give is worked out below by hand or by composition-stats.
WEIGHTS = np.array([(0.5, 0.3, 0.2), (0.2, 0.3, 0.5), (0.4, 0.4, 0.2)])

# Siegel (1956), Nonparametric Statistics, from memory; the data, W and significance are printed in
# the NAG Library Manual, g08daf, example program results: three judges, ten objects, many ties.
TIED = [
    (1.0, 4.5, 2.0, 4.5, 3.0, 7.5, 6.0, 9.0, 7.5, 10.0),
    (2.5, 1.0, 2.5, 4.5, 4.5, 8.0, 9.0, 6.5, 10.0, 6.5),
    (2.0, 1.0, 4.5, 4.5, 4.5, 4.5, 8.0, 8.0, 8.0, 10.0),
]


def test_concordance_of_four_judges_proofwiki() -> None:
    """ProofWiki, 'Kendall's coefficient of concordance', its example: X, Y, Z by each judge."""
    found = kendall_w([(1, 3, 2), (1, 2, 3), (2, 3, 1), (3, 1, 2)])
    assert found.w == pytest.approx(1 / 16, abs=1e-15)
    assert found.chi_square == pytest.approx(4 * 2 / 16, abs=1e-15)  # m (n - 1) W


def test_concordance_corrected_for_ties_siegel_1956() -> None:
    found = kendall_w(TIED)
    assert found.w == pytest.approx(0.828, abs=5e-4)
    assert found.chance == pytest.approx(0.008, abs=5e-4)


def test_ranks_of_tied_measures_zar_2010() -> None:
    """Zar (2010), Biostatistical Analysis, example 20.5: wings, tails and bills of twelve birds.

    The measures are from memory; the rank sums are printed in the manual of Unistat, 6.5.6. They
    give W by its definition.
    """
    wing = [10.4, 10.8, 11.1, 10.2, 10.3, 10.2, 10.7, 10.5, 10.8, 11.2, 10.6, 11.4]
    tail = [7.4, 7.6, 7.9, 7.2, 7.4, 7.1, 7.4, 7.2, 7.8, 7.7, 7.8, 8.3]
    bill = [17.0, 17.0, 20.0, 14.5, 15.5, 13.0, 19.5, 16.0, 21.0, 20.0, 18.0, 22.0]
    sums = np.array([14.5, 21, 30.5, 6, 11, 3.5, 20, 11.5, 29, 28.5, 22.5, 36])
    squares = ((sums - 19.5) ** 2).sum()
    ties = 6 * (2**3 - 2) + (3**3 - 3)  # two pairs in each, and three tails alike
    expected = 12 * squares / (3**2 * (12**3 - 12) - 3 * ties)
    assert kendall_w([wing, tail, bill]).w == pytest.approx(expected, abs=1e-12)


def test_concordance_agrees_with_the_kendall_w_package() -> None:
    """Without ties, which the package does not correct for; the first is its own example."""
    assert kendall_w([(1, 2, 3)] * 3 + [(2, 3, 1)]).w == pytest.approx(0.4375, abs=1e-12)
    ranks = np.argsort(np.random.default_rng(5).random((7, 9)), axis=1) + 1
    assert kendall_w(ranks).w == pytest.approx(compute_w(ranks.T.tolist()), abs=1e-12)


def test_distances_between_compositions_by_hand() -> None:
    """Aitchison (1986): the square root of the sum of squared differences of centred logs."""
    found = distances(WEIGHTS)
    assert found[0, 1] == pytest.approx(sqrt(2) * log(2.5), abs=1e-12)
    by_library = np.linalg.norm(clr(WEIGHTS)[:, None] - clr(WEIGHTS)[None], axis=2)
    assert found == pytest.approx(by_library, abs=1e-12)


def test_the_common_weights_are_the_centre_of_composition_stats() -> None:
    assert consensus(WEIGHTS) == pytest.approx(center(WEIGHTS), abs=1e-12)
    assert consensus(WEIGHTS) == pytest.approx((0.362425, 0.349918, 0.287657), abs=5e-7)


def test_centred_logs_composition_stats() -> None:
    """Its manual: clr of .1, .3, .4, .2 is -.79451346, .30409883, .5917809, -.10136628."""
    even = np.full(4, 0.25)
    assert distances([(0.1, 0.3, 0.4, 0.2), even])[0, 1] == pytest.approx(
        np.linalg.norm([-0.79451346, 0.30409883, 0.5917809, -0.10136628]), abs=1e-8
    )


def test_total_variance_is_half_the_mean_squared_distance() -> None:
    """Aitchison (1986), chapter 4: both sides of the identity, over all pairs of ballots."""
    total = variances(WEIGHTS).sum()
    assert total == pytest.approx((distances(WEIGHTS) ** 2).mean() / 2, abs=1e-12)
    assert total == pytest.approx((departures(WEIGHTS) ** 2).sum(axis=1).mean(), abs=1e-12)
    by_library = clr(WEIGHTS).var(axis=0)
    assert total == pytest.approx(by_library.sum(), abs=1e-12)
    assert disagreement(WEIGHTS) == pytest.approx(by_library / by_library.sum(), abs=1e-12)


def test_judgements_combine_by_the_geometric_mean_aczel_saaty_1983() -> None:
    """Three judge an apple 2, 3 and 4 times an orange: the cube root of 24, and its reciprocal.

    A worked example from an account of the theorem for practitioners (Decision Lens, June 2007).
    """
    apple, orange = consensus([(2, 1), (3, 1), (4, 1)])
    assert apple / orange == pytest.approx(24 ** (1 / 3), abs=1e-12)
    orange, apple = consensus([(1 / 2, 1), (1 / 3, 1), (1 / 4, 1)])[::-1]
    assert orange / apple == pytest.approx(24 ** (1 / 3), abs=1e-12)


def test_common_weights_keep_reciprocity_and_homogeneity_aczel_saaty_1983() -> None:
    """The two conditions from which the geometric mean follows."""
    rng = np.random.default_rng(8)
    ballots, stretch = rng.uniform(1, 3, (6, 5)), rng.uniform(0.7, 1.4, 5)
    common = consensus(ballots)
    turned = consensus(1 / ballots)
    assert turned * common == pytest.approx(np.full(5, (turned * common)[0]), abs=1e-12)
    stretched = common * stretch / (common * stretch).sum()
    assert consensus(ballots * stretch) == pytest.approx(stretched, abs=1e-12)


def test_judgements_or_priorities_may_be_combined_forman_peniwati_1998() -> None:
    """Row geometric means of the combined matrix are the combined row geometric means.

    Forman and Peniwati (1998), Eur. J. Op. Res. 108, 165-169; Barzilai and Golany (1994), INFOR 32.
    """
    upper = np.exp(np.random.default_rng(2).uniform(-1, 1, (4, 5, 5)))
    above = np.triu(np.ones((5, 5), dtype=bool), 1)
    matrices = np.where(above, upper, np.where(above.T, 1 / upper.transpose(0, 2, 1), 1.0))
    priorities = np.exp(np.log(matrices).mean(axis=2))
    combined = np.exp(np.log(matrices).mean(axis=0))
    rows = np.exp(np.log(combined).mean(axis=1))
    assert consensus(priorities) == pytest.approx(rows / rows.sum(), abs=1e-12)
