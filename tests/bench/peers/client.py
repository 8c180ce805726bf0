"""The language server protocol from the editor's side, over standard input and
output. One thread: what is not waited for is heard while something is."""

import json
import os
import re
import select
import signal
import subprocess
import time

# Refusals after which an editor asks again: cancelled by a change, or by the
# server itself.
ASK_AGAIN = (-32800, -32801, -32802)


class Failure(Exception):
    """Why a server has no figure, for the table."""


class Client:
    """A server that was started, and what it has said."""

    def __init__(self, command, folder, settings):
        self.settings = settings
        self.heard = bytearray()
        self.answers = {}
        self.published = {}
        self.asked = 0
        self.started = time.perf_counter()
        try:
            self.process = subprocess.Popen(
                command,
                cwd=folder,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                bufsize=0,
                start_new_session=True,
            )
        except OSError:
            raise Failure("not installed") from None
        self.to, self.of = self.process.stdin.fileno(), self.process.stdout.fileno()
        os.set_blocking(self.to, False)
        os.set_blocking(self.of, False)

    def request(self, method, params):
        """The number of a request, and its bytes to send."""
        self.asked += 1
        return self.asked, message(method=method, params=params, id=self.asked)

    def send(self, content, patience=20):
        """Sends bytes, hearing what comes meanwhile. Gives when it began."""
        began, left = time.perf_counter(), memoryview(content)
        while left:
            self._in_time(began, patience, "took no more input")
            hears, takes, _ = select.select([self.of], [self.to], [], 1)
            if hears:
                self._hear()
            if takes:
                try:
                    left = left[os.write(self.to, left) :]
                except OSError:
                    raise Failure("ended") from None
        return began

    def answer(self, number, patience=20):
        """When a request's answer came, and the answer."""
        began = time.perf_counter()
        while number not in self.answers:
            self._in_time(began, patience, "did not answer")
            if select.select([self.of], [], [], 1)[0]:
                self._hear()
        return self.answers.pop(number)

    def wait_published(self, address, version, patience):
        """Waits for findings of a version that were sent unasked; for a while."""
        until = time.perf_counter() + patience
        while self.published.get(address, 0) < version and time.perf_counter() < until:
            if select.select([self.of], [], [], 0.05)[0]:
                self._hear()

    def close(self):
        """Ends the server, and whatever it started, without ado."""
        try:
            os.killpg(self.process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        self.process.wait()
        self.process.stdin.close()
        self.process.stdout.close()

    def _in_time(self, began, patience, complaint):
        if time.perf_counter() - began > patience:
            raise Failure(f"{complaint} within {patience} s")

    def _hear(self):
        content = os.read(self.of, 1 << 20)
        now = time.perf_counter()
        if not content:
            raise Failure("ended")
        self.heard += content
        while head := re.match(rb"(?s).*?content-length: *(\d+).*?\r\n\r\n", self.heard, re.I):
            end = head.end() + int(head[1])
            if len(self.heard) < end:
                return
            said = json.loads(self.heard[head.end() : end])
            del self.heard[:end]
            self._take(said, now)

    def _take(self, said, now):
        method, params = said.get("method"), said.get("params") or {}
        if method is None:
            self.answers[said["id"]] = (now, said)
        elif "id" in said:
            result = None
            if method == "workspace/configuration":
                result = [self._setting(item.get("section")) for item in params["items"]]
            self.send(message(id=said["id"], result=result))
        elif method == "textDocument/publishDiagnostics":
            self.published[params["uri"]] = params.get("version") or float("inf")

    def _setting(self, section):
        found = self.settings
        for name in (section or "").split("."):
            found = found.get(name) if name and isinstance(found, dict) else found
        return found


def message(**parts):
    """A message's bytes."""
    body = json.dumps({"jsonrpc": "2.0", **parts}, separators=(",", ":")).encode()
    return b"Content-Length: %d\r\n\r\n%s" % (len(body), body)
