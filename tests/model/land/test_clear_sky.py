"""The beam through clear air: stronger when the sun is high, weaker through haze."""

import numpy as np

from model.land.clear_sky import clear_sky, extraterrestrial


def test_the_beam_grows_with_the_suns_height_and_is_never_stronger_than_above_the_air():
    beam, diffuse = clear_sky(np.linspace(1, 90, 50), 1361.0)
    assert (np.diff(beam) > 0).all()
    assert (np.diff(diffuse) > 0).all()
    assert beam.max() < 1361
    assert (clear_sky(30.0, 1361.0, haze=0.3)[0] < clear_sky(30.0, 1361.0)[0]).all()


def test_the_earth_is_nearest_the_sun_in_january():
    year = extraterrestrial(np.arange(1, 366))
    assert year.argmax() < 10
    assert 180 < year.argmin() < 190
