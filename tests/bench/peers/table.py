"""The table of the README: what was found, beside which peer, and the goal."""

import math
from dataclasses import dataclass

from .servers import VERSIONS

OWN = "drylay"


@dataclass(frozen=True)
class Goal:
    """What is aimed at: a least or a most, of the ratio or of our own figure."""

    limit: float
    least: bool = False
    own: bool = False
    unit: str = "number"

    def is_met(self, own, ratio):
        """None where the figure is not there."""
        value = own if self.own else ratio
        if value is None:
            return None
        return value >= self.limit if self.least else value <= self.limit

    def __str__(self):
        sign = "≥" if self.least else "≤"
        return f"{OWN} {sign} {shown(self.limit, self.unit)}" if self.own else f"{sign} {self.limit:g}"


@dataclass(frozen=True)
class Row:
    """A line of the table: what it tells, of which figure, beside which peer."""

    what: str
    figure: str
    peer: str
    unit: str
    goal: Goal


def rows(lines):
    """The rows, for documents of so many lines."""
    short, middle, long = lines
    for size, most in ((short, 0.5), (middle, 0.15), (long, 0.08)):
        edit = f"edit to findings, {size:,} lines"
        yield Row(f"{edit}: median", f"edit, median, {size}", "ruff", "time", Goal(most))
        yield Row(f"{edit}: 99th of 100", f"edit, 99th, {size}", "ruff", "time", Goal(0.5))
        yield Row(f"{edit}: 99th ÷ median", f"edit, spread, {size}", "ruff", "number", Goal(3, own=True))
    growth = f"edit to findings, growth from {short:,} to {long:,} lines*"
    yield Row(f"{growth}: median", "edit, median, growth", "ruff", "number", Goal(0.4, own=True))
    yield Row(f"{growth}: processor", "edit, processor, growth", "ruff", "number", Goal(0.4, own=True))
    behind = f"right behind an edit, {short:,} lines"
    yield Row(f"hover {behind}", "hover", "vscode-json", "time", Goal(0.4))
    yield Row(f"completion {behind}", "completion", "vscode-json", "time", Goal(0.5))
    yield Row(f"hints of 60 lines {behind}", "hints of 60 lines", "ty", "time", Goal(0.2))
    yield Row(f"colours of 60 lines {behind}†", "tokens of 60 lines", "tombi", "time", Goal(0.1))
    yield Row(f"colours that changed {behind}†", "tokens that changed", "tombi", "time", Goal(0.1))
    yield Row(f"layout {behind}", "formatting", "vscode-json", "time", Goal(1))
    yield Row(f"200 edits at once to the findings of the last, {short:,} lines", "burst", "ruff", "time", Goal(1))
    yield Row("start to first answer", "start", "ruff", "time", Goal(0.8))
    yield Row(f"most memory, {short:,} lines", f"memory, {short}", "ruff", "memory", Goal(0.6))
    yield Row(f"most memory, {middle:,} lines", f"memory, {middle}", "ruff", "memory", Goal(0.8))
    yield Row("`check` of 10,000 files of about 40 lines", "files a second", "ruff", "files", Goal(1, least=True))
    yield Row(f"`check` of one file of {long:,} lines", "bytes a second", "ruff", "bytes", Goal(18e6, True, True, "bytes"))


def derived(figures, lines):
    """The figures, and those that follow from them."""
    every = dict(figures)
    for size in lines:
        every[f"edit, spread, {size}"] = _each(
            lambda most, median: most / median,
            figures.get(f"edit, 99th, {size}", {}),
            figures.get(f"edit, median, {size}", {}),
        )
    for what in ("median", "processor"):
        every[f"edit, {what}, growth"] = _each(
            lambda first, last: math.log(last / first) / math.log(lines[-1] / lines[0]),
            figures.get(f"edit, {what}, {lines[0]}", {}),
            figures.get(f"edit, {what}, {lines[-1]}", {}),
        )
    return every


def _each(of, one, other):
    """A figure out of two of each server; where one is missing, why."""
    found = {}
    for name in one.keys() | other.keys():
        two = (one.get(name, "not measured"), other.get(name, "not measured"))
        why = next((value for value in two if isinstance(value, str)), None)
        found[name] = why or (of(*two) if min(two) > 0 else "not known")
    return found


def table(figures, lines):
    """The rows in Markdown."""
    every = derived(figures, lines)
    written = ["| what | drylay | beside | ratio | goal |", "| --- | ---: | ---: | ---: | --- |"]
    for row in rows(lines):
        found = every.get(row.figure, {})
        own, peer = (found.get(name, "not measured") for name in (OWN, row.peer))
        both = not isinstance(own, str) and not isinstance(peer, str)
        ratio = own / peer if both and peer else None
        met = row.goal.is_met(None if isinstance(own, str) else own, ratio)
        said = {None: f"{row.goal}: not known", True: str(row.goal), False: f"{row.goal}: **missed**"}[met]
        cells = [row.what, shown(own, row.unit), f"{row.peer} {shown(peer, row.unit)}", "–" if ratio is None else f"{ratio:.2g}", said]
        written.append(f"| {' | '.join(cells)} |")
    return "\n".join(written)


def caption(machine, first):
    """What stands under the table."""
    peers = ", ".join(f"{name} {version}" for name, version in VERSIONS.items())
    return (
        "\\* The power of the length that it grows with: 0 is not at all, 1 as the length does. "
        "† tombi colours whole documents only, and is sent the whole text at each edit.\n\n"
        f"Measured in one run of `tests/bench/beside` on {machine}{', in real-time scheduling' if first else ''}, "
        f"beside {peers}: general-purpose servers and linters, which do other work on other languages. "
        "The two of a row take turns, each with a text of its own language, alike in sections and lines; "
        "a digit is typed into a number in the middle. A ratio is drylay's figure divided by the peer's, "
        "and says how long somebody waits here who knows how long it takes there."
    )


UNITS = {
    "time": [(1, "s"), (1e-3, "ms"), (1e-6, "µs")],
    "memory": [(2**20, "MB")],
    "files": [(1, "files/s")],
    "bytes": [(1e6, "MB/s")],
    "number": [(1, "")],
}


def shown(value, unit):
    """A figure with three digits, or why there is none."""
    if isinstance(value, str):
        return value
    scale, name = next(((scale, name) for scale, name in UNITS[unit] if value >= scale), UNITS[unit][-1])
    scaled = value / scale
    digits = f"{scaled:,.0f}" if scaled >= 100 else f"{scaled:.3g}"
    return f"{digits} {name}".rstrip()
