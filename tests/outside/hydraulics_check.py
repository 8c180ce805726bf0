"""Pipes by adding up strips, channels by stepping the depth of the water
itself, soakaways storm by storm, with NumPy."""

import math

import numpy

import cases

GRAVITY = 9.80665


def differs(name, found, wanted, share):
    if abs(found - wanted) > share * abs(wanted) + 1e-12:
        yield f"{name} {found}, by NumPy {wanted}"


def manning(area, wetted, n, slope):
    return area * (area / wetted) ** (2.0 / 3.0) * math.sqrt(slope) / n


def pipe(case):
    """The water's area in level strips, its edge in short chords."""
    radius = case["bore"] / 2.0
    for name, depth in [("part_full", case["depth"]), ("full", case["bore"])]:
        half = math.acos((radius - depth) / radius)
        turns = numpy.linspace(-half, half, 200_001)
        x, y = radius * numpy.sin(turns), -radius * numpy.cos(turns)
        wetted = numpy.hypot(numpy.diff(x), numpy.diff(y)).sum()
        area = numpy.sum((depth - radius - (y[1:] + y[:-1]) / 2.0) * numpy.diff(x))
        flow = manning(area, wetted, case["n"], case["slope"])
        yield from differs(name, case["found"][name], flow, 1e-6)


def surface(case, flow, steps=3000):
    """The depth of the water from the outlet to the head, by
    dy/dx = (S - Sf - 2Qq/(gA²)) / (1 - Q²/(gb²y³)), from just above the
    critical depth; x counts from the head, L - x = L u²."""
    length, width, n, slope = (case[key] for key in ("length", "width", "n", "slope"))
    gain = flow / length

    def change(u, y):
        x = length * (1.0 - u * u)
        own = gain * x
        area, wetted = width * y, width + 2.0 * y
        friction = (own * n / area) ** 2 / (area / wetted) ** (4.0 / 3.0)
        above = slope - friction - 2.0 * own * gain / (GRAVITY * area * area)
        below = 1.0 - own * own / (GRAVITY * width * width * y**3)
        return above / below * (-2.0 * length * u)

    critical = (flow**2 / (GRAVITY * width**2)) ** (1.0 / 3.0)
    area, wetted = width * critical, width + 2.0 * critical
    friction = (flow * n / area) ** 2 / (area / wetted) ** (4.0 / 3.0)
    lacking = friction + 2.0 * critical / length - slope
    u = 1e-3
    y = critical + math.sqrt(2.0 * lacking * critical * length / 3.0) * u
    step = (1.0 - u) / steps
    yield length * (1.0 - u * u), y
    for _ in range(steps):
        first = change(u, y)
        second = change(u + step / 2.0, y + first * step / 2.0)
        third = change(u + step / 2.0, y + second * step / 2.0)
        fourth = change(u + step, y + third * step)
        y += (first + 2.0 * second + 2.0 * third + fourth) * step / 6.0
        u += step
        yield length * (1.0 - u * u), y


def channel(case):
    found = case["found"]
    length, width, head, outlet = (case[key] for key in ("length", "width", "head", "outlet"))
    clear = lambda x: head + (outlet - head) * x / length
    critical = width * math.sqrt(GRAVITY * outlet**3)
    radius = width * outlet / (width + 2.0 * outlet)
    velocity = critical / (width * outlet)
    lost = (velocity * case["n"]) ** 2 / radius ** (4.0 / 3.0) + 2.0 * outlet / length
    if found["steep"] != (case["slope"] > lost):
        yield f"steep {found['steep']}, by NumPy critical at {lost}"
    if not found["steep"]:
        over = max(y - clear(x) for x, y in surface(case, found["flow"]))
        if abs(over) > 2e-3 * head:
            yield f"flow {found['flow']}, by NumPy {over} over the top"
        return
    # Where slope, friction and what joins are in balance, nowhere deeper
    # than the channel.
    x = numpy.linspace(length / 48.0, length, 48)
    depth = clear(x)
    area, wetted = width * depth, width + 2.0 * depth
    flow = numpy.full_like(x, found["flow"]) * x / length
    lost = (flow * case["n"] / area) ** 2 / (area / wetted) ** (4.0 / 3.0)
    lost += 2.0 * flow * (found["flow"] / length) / (GRAVITY * area**2)
    yield from differs("slope used", lost.max(), case["slope"], 1e-6)


def soakaway(case):
    found = case["found"]
    length, width, depth = case["length"], case["width"], case["depth"]
    sides = 2.0 * (length + width) * depth / 2.0
    base = length * width
    area = {"Sides": sides, "SidesAndBase": sides + base, "Base": base}[case["method"]]
    storms = numpy.array(case["storms"])
    soaks = area * case["infiltration"]
    comes = case["weighted"] * storms[:, 0]
    leaves = soaks * storms[:, 1] if case["method"] != "Base" else 0.0 * comes
    needs = comes - leaves
    need = max(0.0, needs.max())
    share = 1.0 if case["method"] == "Base" else 0.5
    yield from differs("need", found["need"], need, 1e-9)
    is_open = case["method"] != "Base" and need > 0.0 and int(needs.argmax()) == len(needs) - 1
    if found["open"] != is_open:
        yield f"open {found['open']}, by NumPy {is_open}"
    yield from differs("empties", found["empties_need"], share * need / soaks, 1e-9)
    held = base * depth * case["voids"]
    yield from differs("built empties", found["empties_built"], share * held / soaks, 1e-9)


CHECKS = {"pipe": pipe, "channel": channel, "soakaway": soakaway}


def check(case):
    yield from CHECKS[case["kind"]](case)


cases.run(check)
