"""Areas, perimeters, booleans and moved outlines by Shapely.

Arcs are flattened to a millionth of a metre, and figures may differ by what
that comes to. What is moved out or in is built here from its definition: the
strip of each side, the mitre of each corner, cut square where it is long.
"""

import math

import shapely
from shapely.geometry import LineString, Polygon

import cases
from outlines import TOLERANCE, arcs_length, polygon, sides

# Sides that fall together may be off by this much, in metres.
WELD = 1e-7
# A seam between two strips that is left open is narrower than this.
SEAM = 1e-6
# A mitre reaches this many times the distance, at most.
MITRE_LIMIT = 4.0


def is_thread(area, length):
    """Whether a piece is too narrow to be told from none."""
    return area <= 40.0 * (TOLERANCE + WELD) * length


def pieces(shape):
    """Area and length of each piece of a result."""
    parts = getattr(shape, "geoms", [shape])
    return [(part.area, part.length) for part in parts if isinstance(part, Polygon)]


def is_near_touch(shape, count):
    """Whether a shape comes to so many pieces when it is a hair smaller or
    larger: where an arc is tangent, its chords leave a gap or close one."""
    hair = 10.0 * TOLERANCE
    return any(len(pieces(shape.buffer(by))) == count for by in (-hair, hair))


def compare(shape, found, arcs):
    """The differences of a result and the figures found for it."""
    if found.get("touching"):
        # Parts that meet in a point only: one piece or several, as one takes it.
        return
    parts = [part for part in pieces(shape) if not is_thread(*part)]
    if "pieces" in found:
        ours = [part for part in found["pieces"] if not is_thread(*part)]
    count = len(ours) if "pieces" in found else found["count"]
    if len(parts) != count and not is_near_touch(shape, count):
        yield f"{count} pieces, by Shapely {len(parts)}"
    if "pieces" not in found:
        return
    area, length = (sum(figures) for figures in zip((0.0, 0.0), *parts))
    our_area, our_length = (sum(figures) for figures in zip((0.0, 0.0), *ours))
    close = 2.0 * (TOLERANCE + WELD) * (arcs + length) + 1e-9
    if abs(area - our_area) > close:
        yield f"area {our_area}, by Shapely {area}"
    if abs(length - our_length) > 1e-5 * (length + arcs) + 1e-4:
        yield f"perimeter {our_length}, by Shapely {length}"


def boolean(case):
    a, b = polygon(case["a"]), polygon(case["b"])
    arcs = arcs_length(case["a"]) + arcs_length(case["b"])
    # Sides that fall together in figures are brought together here too.
    a, b = shapely.set_precision(a, WELD / 100), shapely.set_precision(b, WELD / 100)
    yield from compare(getattr(a, case["kind"])(b), case["found"], arcs)


def unit(x, y):
    length = math.hypot(x, y)
    return x / length, y / length


def directions(start, end, shape, at_end):
    """The direction of a side at one of its ends."""
    x, y = unit(end[0] - start[0], end[1] - start[1])
    if not shape:
        return x, y
    turn = shape[2] / 2.0 if at_end else -shape[2] / 2.0
    return (
        x * math.cos(turn) - y * math.sin(turn),
        x * math.sin(turn) + y * math.cos(turn),
    )


def along(point, direction, distance):
    return point[0] + direction[0] * distance, point[1] + direction[1] * distance


def strip(start, end, points, shape, by, out):
    """What a side sweeps when it is moved to its right, or to its left."""
    if not shape:
        x, y = unit(end[0] - start[0], end[1] - start[1])
        normal = (y * out, -x * out)
        moved = [along(start, normal, by), along(end, normal, by)]
        return Polygon([start, end, moved[1], moved[0]])
    centre, radius, sweep = shape
    moved = radius + by * out * math.copysign(1.0, sweep)
    line = [start, *points]
    if moved <= 0.0:
        return Polygon([*line, centre]).buffer(0)
    scaled = [
        (
            centre[0] + (x - centre[0]) * moved / radius,
            centre[1] + (y - centre[1]) * moved / radius,
        )
        for x, y in line
    ]
    return Polygon([*line, *reversed(scaled)]).buffer(0)


def mitre(corner, arriving, leaving, by, out):
    """The piece between the strips of two sides, if they leave a gap."""
    turn = math.atan2(
        arriving[0] * leaving[1] - arriving[1] * leaving[0],
        arriving[0] * leaving[0] + arriving[1] * leaving[1],
    )
    if turn * out <= 1e-9:
        return None
    first = (arriving[1] * out, -arriving[0] * out)
    last = (leaving[1] * out, -leaving[0] * out)
    middle = unit(first[0] + last[0], first[1] + last[1])
    reach = 1.0 / math.cos(turn / 2.0)
    tip = along(corner, middle, by * reach)
    piece = Polygon([corner, along(corner, first, by), tip, along(corner, last, by)])
    if reach <= MITRE_LIMIT:
        return piece
    # Everything up to `by` past the corner, seen along its middle.
    side = (-middle[1], middle[0])
    wide = 1e3
    near = [along(along(corner, middle, by), side, wide), along(along(corner, middle, by), side, -wide)]
    far = [along(point, middle, -wide) for point in reversed(near)]
    return piece.intersection(Polygon(near + far))


def swept(outline, by, out, free=None):
    """All strips and mitres of an outline."""
    swept = []
    for loop in [outline["outer"], *outline["holes"]]:
        listed = list(sides(loop))
        for place, (start, end, points, shape) in enumerate(listed):
            after = listed[(place + 1) % len(listed)]
            arriving = directions(start, end, shape, True)
            leaving = directions(after[0], after[1], after[3], False)
            if free is None or free[place]:
                if free is None:
                    swept.append(strip(start, end, points, shape, by, out))
                else:
                    swept.append(ended(listed, place, by, free))
                if free is None or free[(place + 1) % len(listed)]:
                    swept.append(mitre(end, arriving, leaving, by, out))
    return [part for part in swept if part is not None and not part.is_empty]


def ended(listed, place, by, free):
    """The strip of a straight side that ends on the lines of sides that stay."""
    start, end, _, _ = listed[place]
    x, y = unit(end[0] - start[0], end[1] - start[1])
    normal = (y, -x)
    corners = [start, end]
    moved = [along(start, normal, by), along(end, normal, by)]
    count = len(listed)
    for which, neighbour in ((0, (place - 1) % count), (1, (place + 1) % count)):
        if free[neighbour]:
            continue
        other = unit(
            listed[neighbour][1][0] - listed[neighbour][0][0],
            listed[neighbour][1][1] - listed[neighbour][0][1],
        )
        # The neighbour's line, met by the side's line moved out.
        across = other[0] * normal[0] + other[1] * normal[1]
        if abs(across) > 1e-12:
            moved[which] = along(corners[which], other, by / across)
    return Polygon([start, end, moved[1], moved[0]])


def is_plain(outline, by, free):
    """Whether every strip is longer than what its ends may lean, so that its
    definition leaves nothing open."""
    listed = list(sides(outline["outer"]))
    for place, (start, end, _, _) in enumerate(listed):
        x, y = unit(end[0] - start[0], end[1] - start[1])
        after = listed[(place + 1) % len(listed)]
        u, v = unit(after[1][0] - after[0][0], after[1][1] - after[0][1])
        if free[place] == free[(place + 1) % len(listed)]:
            continue
        turn = abs(x * v - y * u)
        length = min(math.dist(start, end), math.dist(after[0], after[1]))
        if turn < 0.3 or length < 2.0 * by / turn:
            return False
    return True


def joined(parts):
    """Parts that touch become one: their corners are brought to a grid."""
    return shapely.union_all(shapely.set_precision(parts, WELD / 10), grid_size=WELD / 10)


def without_seams(shape, by):
    """A shape whose slits are closed, or whose threads are taken off."""
    # Off the grid, on which so small a distance would be lost.
    return shapely.set_precision(shape, 0).buffer(by).buffer(-by)


def moved(case):
    outline, by = case["a"], case["by"]
    whole = polygon(outline)
    arcs = 2.0 * arcs_length(outline)
    if case["kind"] == "outset":
        result = without_seams(joined([whole, *swept(outline, by, 1.0)]), SEAM)
    elif case["kind"] == "inset":
        rest = whole.difference(joined(swept(outline, by, -1.0)), grid_size=WELD / 10)
        result = without_seams(rest, -SEAM)
    elif is_plain(outline, by, case["free"]):
        result = without_seams(joined([whole, *swept(outline, by, 1.0, case["free"])]), SEAM)
    else:
        return
    yield from compare(result, case["found"], arcs)


def measure(case):
    outline = polygon(case["a"])
    if not outline.is_valid:
        yield "the outline is not valid for Shapely"
    yield from compare(outline, case["found"], arcs_length(case["a"]))


def ribbon(case):
    """What lies beside a straight line, by Shapely's own buffer."""
    line = LineString(case["line"])
    strip = line.buffer(
        case["by"], cap_style="flat", join_style="mitre", mitre_limit=1e6
    )
    if "pieces" in case["found"]:
        yield from compare(strip, case["found"], 0.0)
    elif abs(strip.area - 2.0 * case["by"] * line.length) < 1e-6:
        yield "refused, though it is nowhere too near itself"


def covered(case):
    """What outlines moved out cover together, each part of it once."""
    flags = [polygon(flag) for flag in case["all"]]
    wide = [flag.buffer(case["by"], join_style="mitre", mitre_limit=4.0) for flag in flags]
    area = shapely.union_all(wide).area
    if case["found"] is None or abs(case["found"] - area) > 1e-6:
        yield f"covers {case['found']}, by Shapely {area}"


def check(case):
    if case["kind"] == "ribbon":
        yield from ribbon(case)
    elif case["kind"] == "covered":
        yield from covered(case)
    elif case["kind"] == "measure":
        yield from measure(case)
    elif "by" in case:
        yield from moved(case)
    else:
        yield from boolean(case)


cases.run(check)
