"""Flow through a hose against Hazen and Williams by hand, and Darcy and Weisbach with Blasius."""

import numpy as np
import pytest

from model.land.watering import hose_flow

pytestmark = pytest.mark.published


def test_unit_case_williams1905():
    # 10.67 x 100 m x (0.001 m3/s / 140)^1.852 / (0.05 m)^4.8704 = 0.682 m of head, by hand.
    head = 10.67 * 100 * (0.001 / 140) ** 1.852 / 0.05**4.8704
    assert head == pytest.approx(0.682, abs=0.001)
    assert hose_flow(head, 100, 0.05) == pytest.approx(60)


@pytest.mark.parametrize("bore", [0.0127, 0.019, 0.025, 0.05])
@pytest.mark.parametrize("head", [1.0, 5.0, 30.0])
def test_smooth_pipes_of_darcy_and_blasius_agree(bore, head):
    # Blasius (1913): friction 0.316 Re^-0.25 in smooth pipes, water at 15 C (1.14e-6 m2/s).
    length, viscosity = 50.0, 1.14e-6
    # head = f L v2 / (2 g d) solved for v.
    speed = (head * 2 * 9.81 * bore**1.25 / (0.316 * length * viscosity**0.25)) ** (1 / 1.75)
    flow = 60_000 * speed * np.pi * bore**2 / 4
    assert hose_flow(head, length, bore) == pytest.approx(flow, rel=0.15)
