"""What is measured: figures by name, of each server a number in SI or the words
that say why it has none."""

import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from . import servers
from .client import Failure
from .documents import ENDINGS, document, folder
from .processes import processor_time_between
from .session import Session
from .turns import Turns


@dataclass(frozen=True)
class Extent:
    """How much is measured: documents of so many lines, a folder of so many
    files, so many samples, and for how many seconds at most."""

    lines: tuple = (2_000, 20_000, 100_000)
    files: int = 10_000
    edits: int = 400
    answers: int = 100
    bursts: int = 9
    in_a_burst: int = 200
    starts: int = 20
    runs: int = 5
    seconds: float = 30


WHOLE = Extent()
TRIAL = Extent(lines=(80, 160, 320), files=5, edits=10, answers=3, bursts=1, starts=2, runs=1)


def percentile_99(samples):
    """The least sample that 99 of 100 do not exceed."""
    return sorted(samples)[-(-99 * len(samples) // 100) - 1]


class Measures:
    """Our server, the peers unless it is alone, and what was found of them."""

    def __init__(self, program, extent, alone=False):
        self.extent, self.alone = extent, alone
        self.own = servers.drylay(program)
        self.figures = {}

    def all(self):
        for lines in self.extent.lines:
            print(f"documents of {lines:,} lines", file=sys.stderr)
            self.edits(lines)
        print("answers, and starting", file=sys.stderr)
        self.answers(servers.JSON, "hover", "completion", "formatting")
        self.answers(servers.TY, "hints of 60 lines")
        self.tokens()
        self.starts()
        print("checking", file=sys.stderr)
        self.checks()
        return self.figures

    def edits(self, lines):
        """From an edit to its findings, in time and in the processor's time,
        what the memory came to, and many edits at once."""
        extent = self.extent
        with self._beside(servers.RUFF, lines) as turns:
            before = turns.each(Session.processor_time)
            taken = turns.samples(Session.seconds_to_findings, extent.edits, 10, extent.seconds)
            after = turns.each(Session.processor_time)
            used = {
                name: processor_time_between(before[name], after[name]) / (len(samples) + 2)
                for name, samples in taken.items()
            }
            self._put(f"edit, median, {lines}", turns, _medians(taken))
            self._put(f"edit, 99th, {lines}", turns, {name: percentile_99(one) for name, one in taken.items()})
            self._put(f"edit, processor, {lines}", turns, used)
            self._put(f"memory, {lines}", turns, turns.each(Session.peak_memory))
            if lines == extent.lines[0]:
                burst = partial(Session.seconds_to_findings, edits=extent.in_a_burst)
                self._put("burst", turns, _medians(turns.samples(burst, extent.bursts, 1, extent.seconds)))

    def answers(self, peer, *requests):
        """From an edit to the answer of a request right behind it."""
        with self._beside(peer, self.extent.lines[0]) as turns:
            for what in requests:
                self._put(what, turns, self._answers(turns, what))

    def tokens(self):
        """Of ours the tokens in view, and those that an edit changed; of the
        peer, which knows neither, those of the whole document."""
        with self._beside(servers.TOMBI, self.extent.lines[0]) as turns:
            turns.each(lambda session: session.seconds_to_answer("tokens"))
            for what in ("tokens of 60 lines", "tokens that changed"):
                self._put(what, turns, self._answers(turns, what, of_peers="tokens"))

    def starts(self):
        """From starting a server to its first answer."""
        with tempfile.TemporaryDirectory(prefix="courts-") as place:
            takes = {
                server.name: partial(_seconds_to_start, server, Path(place))
                for server in self._servers(servers.RUFF)
            }
            self.figures["start"] = _in_turn(takes, self.extent.starts)

    def checks(self):
        """Files a second of a folder, and bytes a second of one long file."""
        with tempfile.TemporaryDirectory(prefix="courts-") as place:
            folders, files = {}, {}
            for server in self._servers(servers.RUFF):
                within, language = Path(place) / server.name, server.language
                folder(language, within / "small", self.extent.files)
                long = within / f"long{ENDINGS[language]}"
                long.write_text(document(language, self.extent.lines[-1]).text)
                folders[server], files[server] = (within / "small", self.extent.files), (long, long.stat().st_size)
            self._check("files a second", folders)
            self._check("bytes a second", files)

    def _check(self, what, checked):
        """How much a second each checks; `checked` is what, and how much."""
        takes = {
            server.name: partial(_seconds_to_run, [server.command[0], *CHECKS[server.name], path])
            for server, (path, _) in checked.items()
        }
        much = {server.name: amount for server, (_, amount) in checked.items()}
        self.figures[what] = {
            name: found if isinstance(found, str) else much[name] / found
            for name, found in _in_turn(takes, self.extent.runs).items()
        }

    def _servers(self, peer):
        return [self.own] if self.alone else [self.own, peer]

    def _beside(self, peer, lines):
        return Turns(self._servers(peer), lines)

    def _answers(self, turns, what, of_peers=None):
        def take(session):
            ours = session.server is self.own
            return session.seconds_to_answer(what if ours else of_peers or what)

        return _medians(turns.samples(take, self.extent.answers, 5, self.extent.seconds))

    def _put(self, name, turns, found):
        self.figures[name] = found | turns.failures


# How each program is told to check, with nothing kept from the last time.
CHECKS = {"drylay": ["check"], "ruff": ["check", "--no-cache", "--isolated", "--quiet"]}


def _medians(taken):
    return {name: statistics.median(samples) for name, samples in taken.items()}


def _in_turn(takes, times):
    """The median of what each gives, once around for nothing and then so many
    times; or why one gives nothing."""
    taken = {name: [] for name in takes}
    for _ in range(times + 1):
        for name, take in takes.items():
            if isinstance(taken[name], list):
                try:
                    taken[name].append(take())
                except Failure as why:
                    taken[name] = str(why)
    return {
        name: statistics.median(samples[1:]) if isinstance(samples, list) else samples
        for name, samples in taken.items()
    }


def _seconds_to_start(server, place):
    session = Session(server, document(server.language, 40), place)
    session.close()
    return session.seconds_to_start


def _seconds_to_run(command, patience=60):
    began = time.perf_counter()
    try:
        done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=patience, check=False)
    except OSError:
        raise Failure("not installed") from None
    except subprocess.TimeoutExpired:
        raise Failure(f"did not end within {patience} s") from None
    seconds = time.perf_counter() - began
    # 0: nothing found; 1: something.
    if done.returncode not in (0, 1):
        raise Failure(f"ended with status {done.returncode}")
    return seconds
