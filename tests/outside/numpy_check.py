"""Planes by least squares, drops and volumes by integration, with NumPy."""

import math

import numpy
from shapely.geometry import Polygon, box

import cases
from outlines import TOLERANCE, arcs_length, polygon

# Gauss's points and weights on a triangle, exact up to the second degree.
CORNERS = numpy.array([[4, 1, 1], [1, 4, 1], [1, 1, 4]]) / 6.0

# How much clay grows when it is dug: 40 %, as projectengineer.net's table
# of swell has it.
CLAY_LOOSE = 1.4


def integral(shape, level, east, north):
    """The integral of level + east x + north y over a polygon, by a fan of
    triangles round its first corner, holes taken off."""

    def ring(points):
        points = numpy.array(points)
        first, seconds, thirds = points[0], points[1:-1], points[2:]
        a, b = seconds - first, thirds - first
        areas = (a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]) / 2.0
        total = 0.0
        for weights in CORNERS:
            places = weights[0] * first + weights[1] * seconds + weights[2] * thirds
            total += numpy.sum(areas * (level + places @ [east, north])) / 3.0
        return total * math.copysign(1.0, areas.sum())

    parts = getattr(shape, "geoms", [shape])
    total = 0.0
    for part in parts:
        if not isinstance(part, Polygon) or part.is_empty:
            continue
        total += ring(part.exterior.coords[:-1])
        total -= sum(ring(hole.coords[:-1]) for hole in part.interiors)
    return total


def above(shape, level, east, north):
    """The volume over level 0 and under a plane that may cross it."""
    slope = math.hypot(east, north)
    reach = 1e3
    if slope < 1e-12:
        return max(0.0, level) * shape.area
    up = numpy.array([east, north]) / slope
    side = numpy.array([-up[1], up[0]])
    zero = -up * level / slope
    half = Polygon([zero - side * reach, zero - side * reach + up * reach, zero + side * reach + up * reach, zero + side * reach])
    return integral(shape.intersection(half), level, east, north)


def differs(name, found, wanted, close):
    if abs(found - wanted) > close:
        yield f"{name} {found}, by NumPy {wanted}"


def plane(case):
    points = numpy.array(case["points"])
    matrix = numpy.column_stack([numpy.ones(3), points[:, 0], points[:, 1]])
    (level, east, north), _, rank, sizes = numpy.linalg.lstsq(matrix, points[:, 2])
    if rank < 3:
        yield "three points in one line made a plane"
        return
    # Points nearly in one line lose figures; so many are to be left.
    close = 1e-11 * sizes[0] / sizes[-1] * (1.0 + abs(level) + abs(east) + abs(north)) * 10.0
    x, y = case["probe"]
    yield from differs("level", case["level"], level + east * x + north * y, close)
    yield from differs("slope", case["slope"], math.hypot(east, north), close)


def volume(case):
    shape = polygon(case["a"])
    upper, lower = numpy.array(case["upper"]), numpy.array(case["lower"])
    corners = [point for line in [shape.exterior, *shape.interiors] for point in line.coords]
    levels = upper[0] + numpy.array(corners) @ upper[1:]
    close = TOLERANCE * (1.0 + arcs_length(case["a"])) + 1e-9
    yield from differs("lowest", case["lowest"], levels.min(), close)
    yield from differs("highest", case["highest"], levels.max(), close)
    height = upper - lower
    heights = height[0] + numpy.array(corners) @ height[1:]
    close *= 1.0 + numpy.abs(heights).max()
    yield from differs("above", case["above"], above(shape, *height), close)
    yield from differs("below", case["below"], above(shape, *-height), close)


def job(case):
    found = case["found"]
    width, depth, beyond = case["width"], case["depth"], case["beyond"]
    # Against the building on its north side, wider on the other three.
    base = box(-beyond, -depth - beyond, width + beyond, 0.0)
    yield from differs("area", found["area"], base.area, 1e-9)
    yield from differs("volume", found["volume"], base.area * case["base"], 1e-9)
    # Falls south by `fall` and east by `cross`.
    east, north = -case["cross"], case["fall"]
    yield from differs("steepest", found["steepest"], math.hypot(east, north), 1e-12)
    yield from differs("drop", found["drop"], width * case["cross"] + depth * case["fall"], 1e-9)
    lowest = case["level"] - width * case["cross"] - depth * case["fall"]
    yield from differs("lowest", found["lowest"], lowest, 1e-9)
    bearing = math.radians(case["bearing"])
    ground_east = -case["slope"] * math.sin(bearing)
    ground_north = -case["slope"] * math.cos(bearing)
    ground = case["ground"] - ground_east * 1.0 + ground_north * 1.0
    under = case["level"] - case["layers"]
    height = (ground - under, ground_east - east, ground_north - north)
    bank = above(base, *height)
    # The ground's levels are written with nine decimals.
    close = 1e-8 * base.area
    yield from differs("dig", found["bank"], bank, close)
    yield from differs("to cart away", found["loose"], CLAY_LOOSE * bank, close)
    yield from differs("fill", found["fill"], above(base, *(-part for part in height)), close)


def readings(case):
    points = numpy.array(case["points"])
    matrix = numpy.column_stack([numpy.ones(len(points)), points[:, 0], points[:, 1]])
    (level, east, north), _, _, sizes = numpy.linalg.lstsq(matrix, points[:, 2])
    # Levels are written with nine decimals.
    close = 1e-8 * sizes[0] / sizes[-1]
    yield from differs("level", case["level"], level + east * 3.0 - north * 2.0, close)
    yield from differs("east", case["east"], east, close)
    yield from differs("north", case["north"], north, close)
    # Designed at -150 mm along its north side, 1 in 50 down from there.
    off = points[:, 2] - (-0.15 + points[:, 1] / 50.0)
    yield from differs("mean", case["mean"], off.mean(), 1e-8)
    yield from differs("worst", case["worst"], numpy.abs(off).max(), 1e-8)


CHECKS = {"plane": plane, "volume": volume, "job": job, "readings": readings}


def check(case):
    yield from CHECKS[case["kind"]](case)


cases.run(check)
