"""Where water leaves an outline, by cutting it into thin strips down the
fall with Shapely: the lower end of each piece tells over which side."""

import math

import numpy
import shapely
from shapely import affinity
from shapely.geometry import LineString

import cases
from outlines import polygon, sides

STRIPS = 700


def side_lines(case):
    """Each side as a line, in the order of the tags."""
    rings = [case["a"]["outer"], *case["a"]["holes"]]
    return [LineString([start, *points]) for ring in rings for start, _, points, _ in sides(ring)]


def check(case):
    x, y = case["down"]
    turn = -math.degrees(math.atan2(y, x))
    turned = lambda shape: affinity.rotate(shape, turn, origin=(0, 0))
    shape = turned(polygon(case["a"]))
    lines = [turned(line) for line in side_lines(case)]
    west, south, east, north = shape.bounds
    width = (north - south) / STRIPS
    levels = south + width * (numpy.arange(STRIPS) + 0.5)
    sums = {}
    for level in levels:
        beam = LineString([(west - 1.0, level), (east + 1.0, level)])
        pieces = shape.intersection(beam)
        for piece in getattr(pieces, "geoms", [pieces]):
            if not isinstance(piece, LineString) or piece.is_empty:
                continue
            low = shapely.Point(max(piece.coords))
            nearest = min(range(len(lines)), key=lambda index: lines[index].distance(low))
            tag = case["tags"][nearest]
            sums[tag] = sums.get(tag, 0.0) + piece.length * width
    found = dict((tag, area) for tag, area in case["found"])
    # Each end of a side may be a strip off.
    close = 4.0 * width * (east - west) + 1e-3
    for tag in sorted(set(sums) | set(found)):
        ours, theirs = found.get(tag, 0.0), sums.get(tag, 0.0)
        if abs(ours - theirs) > close:
            yield f"side {tag}: {ours}, by Shapely {theirs}"


cases.run(check)
