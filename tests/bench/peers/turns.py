"""Servers that take turns, some samples each, so that whatever else the machine
does meanwhile falls on all alike."""

import tempfile
import time
from pathlib import Path

from .client import Failure
from .documents import document
from .session import Session


class Turns:
    """Some servers, each with its own document of so many lines open. One that
    fails is ended, and why is kept in `failures`."""

    def __init__(self, servers, lines):
        self.servers, self.lines = servers, lines
        self.sessions, self.failures = {}, {}

    def __enter__(self):
        self.folder = tempfile.TemporaryDirectory(prefix="courts-")
        for server in self.servers:
            self._trying(server.name, self._open, server)
        return self

    def __exit__(self, *_):
        for session in self.sessions.values():
            session.close()
        self.folder.cleanup()

    def samples(self, take, count, together, seconds):
        """What `take` gives of each session, so many times, `together` at a
        turn, after two for nothing. What takes longer than so many seconds is
        done fewer times, by all alike."""
        self._turn(take, 2)
        taken, until = {name: [] for name in self.sessions}, time.perf_counter() + seconds
        for _ in range(0, count, together):
            for name, some in self._turn(take, together).items():
                taken[name] += some
            if time.perf_counter() > until:
                break
        return {name: samples for name, samples in taken.items() if name in self.sessions}

    def each(self, take):
        """What `take` gives of each session, once."""
        return {name: some[0] for name, some in self._turn(take, 1).items()}

    def _turn(self, take, times):
        taken = {}
        for name, session in list(self.sessions.items()):
            some = self._trying(name, lambda session: [take(session) for _ in range(times)], session)
            if some is not None:
                taken[name] = some
        return taken

    def _open(self, server):
        place = Path(self.folder.name) / server.name
        place.mkdir()
        session = Session(server, document(server.language, self.lines), place)
        self.sessions[server.name] = session
        time.sleep(0.3)  # what a server does at first belongs to no sample
        session.open()

    def _trying(self, name, act, given):
        try:
            return act(given)
        except Failure as why:
            self.failures[name] = str(why)
            gone = self.sessions.pop(name, None)
            if gone:
                gone.close()
            return None
