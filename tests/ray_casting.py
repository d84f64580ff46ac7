"""Shade hour by hour, by casting a ray from every place to the sun: slow, plain and independent.

Takes the sun from pvlib and shares no code with the model, only its descriptions of what stands.
"""

import numpy as np
import pandas as pd
from pvlib.solarposition import get_solarposition


def hourly_suns(latitude, longitude=0.0, year=2023, freq="1h", every=1):
    """Times (local mean), apparent elevation and azimuth [degrees] of the sun while it is up.

    Of every day, or of every so many days only.
    """
    step = pd.Timedelta(freq)
    utc = (
        pd.date_range(f"{year}-01-01", f"{year + 1}-01-01", freq=freq, inclusive="left") + step / 2
    )
    utc = utc[utc.day_of_year % every == 0]
    sun = get_solarposition(utc, latitude, longitude)
    up = (sun.apparent_elevation > 0).to_numpy()
    return utc[up], sun.apparent_elevation.to_numpy()[up], sun.azimuth.to_numpy()[up]


def toward(elevation, azimuth):
    """Unit vector to the sun."""
    e, a = np.radians(elevation), np.radians(azimuth)
    return np.array([np.cos(e) * np.sin(a), np.cos(e) * np.cos(a), np.sin(e)])


def meets_crown(eyes, sun, crown):
    """Whether rays meet a dome: the stretch of ray within the ellipsoid reaches above its base."""
    stretch = np.array([1, 1, crown.radius / (crown.top - crown.base)])
    from_middle = (eyes - np.array([crown.x, crown.y, crown.base])) * stretch
    ray = sun * stretch
    a, b = ray @ ray, from_middle @ ray
    inside = b**2 - a * ((from_middle**2).sum(axis=1) - crown.radius**2)
    last = (-b + np.sqrt(np.maximum(inside, 0))) / a
    # The sun is up: the ray's last point in the ellipsoid is its highest.
    return (inside > 0) & (last > 0) & (eyes[:, 2] + last * sun[2] > crown.base)


def meets_screen(eyes, sun, screen):
    """Whether rays pass below the top of any of a screen's faces: two segments in the plan."""
    corners = np.asarray(screen.corners, float)
    tops = np.broadcast_to(screen.top, len(corners) - 1)
    met = np.zeros(len(eyes), bool)
    for a, b, top in zip(corners[:-1], corners[1:], tops, strict=True):
        # eye + t * sun = a + s * (b - a) in the plan
        matrix = np.array([[sun[0], a[0] - b[0]], [sun[1], a[1] - b[1]]])
        if abs(np.linalg.det(matrix)) < 1e-12:
            continue
        t, s = np.linalg.solve(matrix, (a - eyes[:, :2]).T)
        met |= (t > 0) & (s >= 0) & (s <= 1) & (eyes[:, 2] + t * sun[2] < top)
    return met


def meets_ground(eyes, sun, surface, reach, step=1.0):
    """Whether rays run into the ground `surface(x, y)`, looked at every step."""
    distance = np.arange(step, reach, step)[:, None] / np.hypot(*sun[:2])
    x, y, z = (eyes[:, axis] + sun[axis] * distance for axis in range(3))
    return (z < surface(x, y)).any(axis=0)


def beam(eyes, sun, standing, month, surface=None, reach=0.0):
    """Share of the beam that reaches each place with the sun at one point."""
    share = np.ones(len(eyes))
    for screen in standing.screens:
        share *= np.where(meets_screen(eyes, sun, screen), screen.transmission[month], 1)
    for crown in standing.crowns:
        share *= np.where(meets_crown(eyes, sun, crown), crown.transmission[month], 1)
    if surface is not None:
        share[meets_ground(eyes, sun, surface, reach)] = 0
    return share


def hours(eyes, standing, suns, step=1.0, surface=None, reach=0.0):
    """Hours of direct sun by month (month, place), added up sun by sun."""
    total = np.zeros((12, len(eyes)))
    for time, elevation, azimuth in zip(*suns, strict=True):
        sun = toward(elevation, azimuth)
        month = time.month - 1
        total[month] += step * beam(eyes, sun, standing, month, surface, reach)
    return total
