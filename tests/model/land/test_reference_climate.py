"""The climate in which flowering dates are known."""

import numpy as np

from model.land.reference_climate import NORMALS, reference_hours


def test_it_is_the_same_each_time():
    assert np.array_equal(reference_hours(), reference_hours())


def test_its_months_are_those_of_lowland_england():
    # Central England temperature 1991-2020, monthly means, from memory (Met Office HadCET); the
    # days' middle stands for the mean of 24 hours.
    central = np.array([4.7, 5.0, 6.8, 9.0, 12.0, 14.8, 16.9, 16.6, 14.2, 10.8, 7.3, 5.0])
    middle = (np.array(NORMALS.tmin) + np.array(NORMALS.tmax)) / 2
    assert np.abs(middle - central).max() < 0.8
