"""Strength of the sun's beam and of the sky's light under a cloudless sky."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

SOLAR_CONSTANT = 1361.0  # [W/m2] Kopp & Lean (2011), Geophysical Research Letters 38:L01706
HAZE = 0.1  # aerosol optical depth at 700 nm of clear country air; Ineichen (2008)


def clear_sky(
    elevation: ArrayLike, above: ArrayLike, haze: float = HAZE
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Beam on a surface that faces it, and diffuse light on the level, broadcast shape [W/m2].

    At sea level and for 1 cm of water in the air, at which many of the paper's terms are 0.

    Parameters
    ----------
    elevation : array [degrees]
        Of the sun, above 0.
    above : array [W/m2]
        The beam above the air.
    haze : float
        Aerosol optical depth at 700 nm, 0.05 to 0.45.

    References
    ----------
    Ineichen (2008), A broadband simplified version of the Solis clear sky model, Solar Energy
    82:758-762.

    """
    height = np.sin(np.radians(elevation))
    strength = (1.08 + 0.97 * haze + 0.12 * haze**2) * np.asarray(above, dtype=float)
    beam_depth = 0.33 + 1.82 * haze
    beam_power = 0.4557 + 0.5057 * haze - 0.7565 * haze**2
    sky_depth = 2.9457 - 5.6546 * haze + 15.366 * haze**2 - 20.43 * haze**3 + 11.39 * haze**4
    sky_power = 0.116 + 0.63 * haze - 0.337 * haze**2
    beam = strength * np.exp(-beam_depth / height**beam_power)
    return beam, strength * np.exp(-sky_depth / height**sky_power)


def extraterrestrial(day: ArrayLike) -> NDArray[np.float64]:
    """Beam above the air by day of the year (1 to 365), same shape [W/m2].

    Source: Spencer (1971), Fourier series representation of the position of the sun, Search 2:172.
    """
    angle = 2 * np.pi * (np.asarray(day, dtype=float) - 1) / 365
    once = 0.034221 * np.cos(angle) + 0.00128 * np.sin(angle)
    twice = 0.000719 * np.cos(2 * angle) + 0.000077 * np.sin(2 * angle)
    return SOLAR_CONSTANT * (1.00011 + once + twice)
