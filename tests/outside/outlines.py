"""Outlines as polygons: their arcs flattened, and how far that is off."""

import math

from shapely.geometry import Polygon

# The greatest height of an arc over one of its chords, in metres.
TOLERANCE = 1e-6


def arc(start, end, bulge):
    """The points of an arc after its start: its centre and radius decide."""
    if bulge == 0.0:
        return [end], None
    (x0, y0), (x1, y1) = start, end
    sweep = 4.0 * math.atan(bulge)
    chord = math.hypot(x1 - x0, y1 - y0)
    radius = chord / 2.0 / abs(math.sin(sweep / 2.0))
    # The centre lies on the left of the way for a turn to the left.
    height = chord / 2.0 / math.tan(sweep / 2.0)
    centre = (
        (x0 + x1) / 2.0 - height * (y1 - y0) / chord,
        (y0 + y1) / 2.0 + height * (x1 - x0) / chord,
    )
    count = max(2, math.ceil(abs(sweep) / math.sqrt(8.0 * TOLERANCE / radius)))
    first = math.atan2(y0 - centre[1], x0 - centre[0])
    points = [
        (
            centre[0] + radius * math.cos(first + sweep * step / count),
            centre[1] + radius * math.sin(first + sweep * step / count),
        )
        for step in range(1, count)
    ]
    return points + [end], (centre, radius, sweep)


def sides(loop):
    """Each side of a loop: start, end, points after the start, arc or None."""
    for place, (x, y, bulge) in enumerate(loop):
        after = loop[(place + 1) % len(loop)]
        start, end = (x, y), (after[0], after[1])
        points, shape = arc(start, end, bulge)
        yield start, end, points, shape


def ring(loop):
    """A loop as the corners of a polygon."""
    return [point for _, _, points, _ in sides(loop) for point in points]


def polygon(outline):
    """An outline as a polygon."""
    return Polygon(ring(outline["outer"]), [ring(hole) for hole in outline["holes"]])


def arcs_length(outline):
    """The length of all its arcs."""
    loops = [outline["outer"], *outline["holes"]]
    return sum(
        shape[1] * abs(shape[2])
        for loop in loops
        for _, _, _, shape in sides(loop)
        if shape
    )
