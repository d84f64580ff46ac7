"""Shade against closed forms, a plain ray caster and a general ray-casting library."""

from types import SimpleNamespace

import numpy as np
import pytest
import shapely

from model.land.covers import Crown, Screen
from model.land.horizon import Relief, ground_slopes
from model.land.shade import Standing, beam_share, direct_hours, sky_view
from model.land.sky import whole_sky
from model.land.sun_patches import sun_hours, sun_patches
from model.land.sun_position import sun_position
from tests import ray_casting

pytestmark = pytest.mark.published

LONG = 50_000.0  # [m] as good as endless
SOUTH, MARCH, JUNE, DECEMBER = 180.0, 2, 5, 11


def wall(height, y=0.0):
    """A wall from east to west without end."""
    return Standing([Screen([(-LONG, y), (LONG, y)], height)])


def northward(distances, z=0.0):
    """Eyes in a line to the north of the origin."""
    distances = np.asarray(distances, float)
    return np.column_stack([0 * distances, distances, 0 * distances + z])


# Shadow length h / tan(e): elementary geometry; the figures are for h = 5 m.
@pytest.mark.parametrize(
    ("elevation", "length"), [(10, 28.356), (15, 18.660), (30, 8.660), (45, 5.0), (60, 2.887)]
)
def test_a_shadow_is_as_long_as_the_height_over_the_tangent(elevation, length):
    eyes = northward([length - 1e-3, length + 1e-3])
    assert beam_share(eyes, wall(5), elevation, SOUTH, JUNE).tolist() == [0, 1]


@pytest.mark.parametrize("fall", [0.1, 0.3, -0.2])
def test_a_shadow_down_a_slope_is_longer_by_the_slope(fall):
    # h / (tan e - tan s), elementary geometry.
    length = 5 / (np.tan(np.radians(30)) - fall)
    at = np.array([length - 1e-3, length + 1e-3])
    assert beam_share(northward(at, -fall * at), wall(5), 30, SOUTH, JUNE).tolist() == [0, 1]


@pytest.mark.parametrize("elevation", [15, 40, 70])
def test_a_domes_shadow_ends_at_its_tangent(elevation):
    # Half a ball of radius r, its middle c above the ground: the beam that grazes it meets the
    # ground c / tan(e) + r / sin(e) behind the middle, and the near edge of its underside throws
    # its shadow (c - r tan(e)) / tan(e) behind. Elementary geometry.
    e = np.radians(elevation)
    dome = Standing([], [Crown(0, 0, 2, 6, 8, (0.3,) * 12)])
    near, far = 6 / np.tan(e) - 2, 6 / np.tan(e) + 2 / np.sin(e)
    eyes = northward([near - 1e-3, near + 1e-3, far - 1e-3, far + 1e-3])
    assert beam_share(eyes, dome, elevation, SOUTH, JUNE).tolist() == [1, 0.3, 0.3, 1]


@pytest.mark.parametrize("bearing", [0.0, 75.0, 180.0, 311.0])
def test_a_shadow_points_away_from_the_sun(bearing):
    toward = np.radians(bearing + 180 + np.array([-20, 0, 20]))
    eyes = 10 * np.column_stack([np.sin(toward), np.cos(toward), [0, 0, 0]])
    tree = Standing([], [Crown(0, 0, 1, 8, 12)])
    assert beam_share(eyes, tree, 45, bearing, JUNE).tolist() == [1, 0, 1]


# An endless wall to the south, 2 m high, 3 m away, at latitude 51.48: minutes in shade, from the
# profile angle tan(e) / cos(azimuth - 180) < 2/3 with pvlib's sun.
@pytest.mark.parametrize(
    ("day", "shaded", "up"),
    [("2023-03-20", 14, 719), ("2023-06-21", 0, 984), ("2023-12-21", 456, 456)],
)
def test_minutes_behind_an_endless_wall(day, shaded, up):
    minutes = np.datetime64(day) + np.arange(1440).astype("timedelta64[m]")
    suns = np.transpose(sun_position(minutes, 51.48, 0, refracted=False))
    suns = suns[suns[:, 0] > 0]
    assert len(suns) == pytest.approx(up, abs=2)
    lit = [beam_share(northward([3]), wall(2), *sun, JUNE)[0] for sun in suns]
    assert len(suns) - sum(lit) == pytest.approx(shaded, abs=2)


def test_a_wall_that_takes_all_december_takes_nothing_of_june():
    # The same wall through whole months: the profile angle is 33.7 degrees, the December sun
    # stays below 17 and the June sun's profile angle above 61.
    hours = direct_hours(northward([3]), wall(2), 51.48)[:, 0]
    open_hours = sun_hours(sun_patches(51.48)).sum(axis=1)
    assert hours[DECEMBER] < 0.5
    assert hours[JUNE] == pytest.approx(open_hours[JUNE], rel=1e-3)


def test_the_horizon_over_a_wall_and_over_a_step_in_the_ground():
    # atan(3/5) = 30.9638 degrees; GRASS r.horizon gives 0.540419 radians for the same.
    angle = np.degrees(np.arctan(3 / 5))
    assert angle == pytest.approx(np.degrees(0.540419), abs=1e-4)
    beside = Standing([Screen([(5, -LONG), (5, LONG)], 3)])
    eye = np.zeros((1, 3))
    shares = [beam_share(eye, beside, angle + d, 90, JUNE)[0] for d in (-1e-6, 1e-6)]
    assert shares == [0, 1]
    axis = np.arange(-20, 20.5, 0.5)
    step = Relief(np.where(axis >= 5, 3.0, 0.0) * np.ones((len(axis), 1)), axis, axis)
    slope = ground_slopes(step, eye, np.array([90.0]))
    assert np.degrees(np.arctan(slope[0, 0])) == pytest.approx(angle, abs=1.5)  # between steps


# One side of the sky hidden up to an angle a all along: the loss is (1 - cos a) / 2; the figures
# are also pvlib's `shading.sky_diffuse_passias`.
@pytest.mark.parametrize(("angle", "loss"), [(30, 0.066987), (45, 0.146447), (60, 0.250000)])
def test_an_endless_walls_share_of_the_sky(angle, loss):
    sky, shares = whole_sky(720, 180)
    seen = sky_view(northward([1]), wall(np.tan(np.radians(angle))), sky, shares, JUNE)
    assert 1 - seen[0] == pytest.approx(loss, abs=5e-4)


@pytest.mark.parametrize("rim", [20, 45, 70])
def test_the_sky_from_the_bottom_of_a_round_pit(rim):
    # cos^2 of the rim's angle, exact for a circular horizon.
    around = np.radians(np.linspace(0, 360, 361))
    pit = Screen(
        10 * np.column_stack([np.sin(around), np.cos(around)]), 10 * np.tan(np.radians(rim))
    )
    sky, shares = whole_sky(72, 180)
    line = Standing([Screen(pit.corners[:-1], pit.top), Screen(pit.corners[-2:], pit.top)])
    seen = sky_view(np.zeros((1, 3)), line, sky, shares, JUNE)
    assert seen[0] == pytest.approx(np.cos(np.radians(rim)) ** 2, abs=1e-3)


def surface(x, y):
    return 0.05 * y + 2 * np.sin(x / 12)


def scene(crowns=12, buildings=4, seed=1, places=60, leaves=(0.2, 0.6)):
    """An invented hectare: crowns, buildings, a hedge, rolling ground, places outdoors."""
    rng = np.random.default_rng(seed)
    month = np.array([leaves[1]] * 4 + [leaves[0]] * 6 + [leaves[1]] * 2)
    boxes, trees = [], []
    for _ in range(buildings):
        turn, middle = rng.uniform(0, np.pi), rng.uniform(10, 90, 2)
        half = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)]) * rng.uniform(2, 6, 2)
        spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
        boxes.append(Screen(half @ spin + middle, surface(*middle) + rng.uniform(3, 7)))
    for _ in range(crowns):
        x, y = rng.uniform(0, 100, 2)
        base = surface(x, y) + rng.uniform(0.5, 3)
        trees.append(Crown(x, y, rng.uniform(1, 5), base, base + rng.uniform(2, 9), month))
    corners = np.array([(20, 5), (40, 12), (70, 8), (85, 30)], float)
    hedge = Screen(corners, surface(*corners[:-1].T) + 2.5, month * 0.6)
    axis = np.arange(-20, 121, 2.0)
    relief = Relief(surface(axis[None, :], axis[:, None]), axis, axis)
    inside = shapely.union_all([shapely.Polygon(box.corners) for box in boxes])
    x, y = rng.uniform(0, 100, (2, 4 * places))
    x, y = (
        x[~shapely.contains_xy(inside, x, y)][:places],
        y[~shapely.contains_xy(inside, x, y)][:places],
    )
    eyes = np.column_stack([x, y, surface(x, y) + 2])
    return SimpleNamespace(
        eyes=eyes, standing=Standing([*boxes, hedge], trees, relief), boxes=boxes
    )


@pytest.mark.parametrize("latitude", [52, -36])
def test_a_years_hours_are_those_of_rays_cast_every_twenty_minutes(latitude):
    # One day in seven stands for a week; the sun is pvlib's, the ray caster shares no code.
    made = scene()
    ours = direct_hours(made.eyes, made.standing, latitude)
    suns = ray_casting.hourly_suns(latitude, freq="20min", every=7)
    theirs = ray_casting.hours(made.eyes, made.standing, suns, 7 / 3, surface, 100)
    year = theirs.sum(axis=0)
    assert np.abs(ours.sum(axis=0) - year).max() < 0.02 * year.max()
    assert ours.sum() == pytest.approx(theirs.sum(), rel=0.005)


def test_shadows_are_those_of_a_general_ray_casting_library():
    # trimesh (M. Dawson-Haggerty et al.): rays against triangles. Its domes are cut from balls of
    # 5120 faces, so that rays that graze one may differ.
    trimesh = pytest.importorskip("trimesh")
    pytest.importorskip("rtree")
    made = scene(seed=4)
    things = list(meshes(trimesh, made))
    standing = Standing(made.boxes, made.standing.crowns, made.standing.relief)
    differing = []
    for elevation, bearing in [(4, 60), (9, 250), (25, 100), (33, 300), (55, 180), (80, 20)]:
        rays = np.tile(ray_casting.toward(elevation, bearing), (len(made.eyes), 1))
        theirs = np.ones(len(made.eyes))
        for mesh, transmission in things:
            met = mesh.ray.intersects_any(made.eyes, rays)
            theirs[met] *= transmission
        ours = beam_share(made.eyes, standing, elevation, bearing, JUNE)
        differing += (np.abs(ours - theirs) > 1e-6).tolist()
    assert np.mean(differing) < 0.01


def meshes(trimesh, made):
    """The scene's ground, buildings and crowns as meshes, each with its transmission in June."""
    z, x, y = made.standing.relief.z, made.standing.relief.x, made.standing.relief.y
    index = np.arange(z.size).reshape(z.shape)
    a, b, c, d = (
        part.ravel() for part in (index[:-1, :-1], index[:-1, 1:], index[1:, 1:], index[1:, :-1])
    )
    points = np.column_stack([np.tile(x, len(y)), np.repeat(y, len(x)), z.ravel()])
    faces = np.concatenate([np.column_stack([a, b, c]), np.column_stack([a, c, d])])
    yield trimesh.Trimesh(points, faces, process=False), 0.0
    for screen in made.boxes:
        feet = np.column_stack([screen.corners[:-1], [-50] * 4])
        yield (
            trimesh.convex.convex_hull(np.vstack([feet, feet + np.array([0, 0, 50 + screen.top])])),
            0.0,
        )
    ball = trimesh.creation.icosphere(subdivisions=4)
    half = trimesh.convex.convex_hull(ball.vertices[ball.vertices[:, 2] >= -1e-9])
    for crown in made.standing.crowns:
        dome = half.copy()
        dome.apply_scale([crown.radius, crown.radius, crown.top - crown.base])
        dome.apply_translation([crown.x, crown.y, crown.base])
        yield dome, crown.transmission[JUNE]
