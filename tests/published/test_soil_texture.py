"""Texture classes against the USDA triangle, and soil water against Saxton & Rawls (2006)."""

import pytest

from model.land.soil_texture import CENTRES, soil_water, soil_water_of, texture_class

pytestmark = pytest.mark.published

# Points of the USDA triangle (Soil Survey Manual), as classed by the independent library
# soiltexture 1.0.4; it gives no class at the corners, which are by the manual's rules from memory.
POINTS = {
    (88, 5): "sand", (92, 3): "sand", (80, 5): "loamy sand", (82, 6): "loamy sand",
    (65, 10): "sandy loam", (58, 10): "sandy loam", (40, 20): "loam", (43, 18): "loam",
    (20, 15): "silt loam", (17, 13): "silt loam", (10, 5): "silt", (7, 6): "silt",
    (60, 25): "sandy clay loam", (58, 27): "sandy clay loam", (30, 35): "clay loam",
    (32, 34): "clay loam", (10, 35): "silty clay loam", (10, 45): "silty clay",
    (6, 47): "silty clay", (50, 40): "sandy clay", (52, 42): "sandy clay", (25, 50): "clay",
    (22, 58): "clay", (33.3, 33.3): "clay loam",
    (100, 0): "sand", (0, 100): "clay", (0, 0): "silt",
}  # fmt: skip

# Saxton & Rawls (2006), Soil Sci. Soc. Am. J. 70:1569-1578, table 3, organic matter 2.5 %: water
# [%] at the wilting point, at field capacity and when full, and conductivity [mm/h] when full.
# Sandy clay's water and all of clay's are from memory.
TABLE_3 = {
    "sand": (5, 10, 46, 108.1), "loamy sand": (5, 12, 46, 96.7), "sandy loam": (8, 18, 45, 50.3),
    "loam": (14, 28, 46, 15.5), "silt loam": (11, 31, 48, 16.1), "silt": (6, 30, 48, 22.0),
    "sandy clay loam": (17, 27, 43, 11.3), "clay loam": (22, 36, 48, 4.3),
    "silty clay loam": (22, 38, 51, 5.7), "silty clay": (27, 41, 52, 3.7),
    "sandy clay": (25, 36, 44, 1.4), "clay": (30, 42, 50, 1.1),
}  # fmt: skip


@pytest.mark.parametrize(("shares", "name"), POINTS.items())
def test_classes_of_the_usda_triangle(shares, name):
    assert texture_class(*shares) == name


@pytest.mark.parametrize(("name", "figures"), TABLE_3.items())
def test_soil_water_saxton2006_table3(name, figures):
    water = soil_water_of(name)
    held = (water.wilting_point, water.field_capacity, water.saturation)
    assert [100 * share for share in held] == pytest.approx(figures[:3], abs=0.6)
    assert water.conductivity == pytest.approx(figures[3], abs=0.06)


def test_field_capacity_of_clay_saxton2006_equation2():
    # 42.06 with the printed coefficient 1.283; 41.39 with the transposition 1.238 that is about.
    assert 100 * soil_water(25, 50).field_capacity == pytest.approx(42.06, abs=0.01)


@pytest.mark.parametrize(("name", "shares"), CENTRES.items())
def test_centres_of_table3_lie_in_their_own_class(name, shares):
    assert texture_class(*shares) == name
