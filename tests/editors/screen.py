"""An editor of the terminal, driven by keys and judged by what it draws.

It runs in tmux, on a server of its own, in a folder of its own; a spec lies in
that folder, and what an editor keeps of itself lies there too."""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

from drawing import PAPER, drawing

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
PATIENCE = float(os.environ.get("DRYLAY_PATIENCE", "30"))


class Screen:
    """A terminal with an editor in it. What does not come out is said, with
    what the screen shows instead."""

    def __init__(self, spec, size=(120, 40)):
        self.home = pathlib.Path(tempfile.mkdtemp())
        self.spec = self.home / "specs" / pathlib.Path(spec).name
        self.spec.parent.mkdir()
        shutil.copy(REPOSITORY / spec, self.spec)
        self.size = size
        self.failed = 0
        self.socket = str(self.home / "terminal")

    def tmux(self, *arguments, check=True):
        command = ["tmux", "-S", self.socket, "-f", "/dev/null", *arguments]
        done = subprocess.run(command, check=check, capture_output=True, text=True)
        return done.stdout

    def start(self, *command):
        """Starts the editor, and waits for nothing."""
        homes = {f"XDG_{kind}_HOME": f"{self.home}/.{kind.lower()}" for kind in ("CONFIG", "DATA", "STATE", "CACHE")}
        settings = {"HOME": str(self.home), "TERM": "xterm-256color", "COLORTERM": "truecolor", "LC_ALL": "C.UTF-8",
                    "PATH": os.environ["PATH"], "XDG_RUNTIME_DIR": str(self.home), **homes}
        width, height = self.size
        arguments = ["-u", "new-session", "-d", "-x", str(width), "-y", str(height), "-c", str(self.spec.parent)]
        for name, value in settings.items():
            arguments += ["-e", f"{name}={value}"]
        self.tmux(*arguments, "--", *command)
        for option, value in (("escape-time", "0"), ("remain-on-exit", "on"), ("status", "off")):
            self.tmux("set-option", "-g", option, value)
        self.tmux("set-option", "-sa", "terminal-features", "xterm-256color:RGB")

    def keys(self, *keys):
        for key in keys:
            self.tmux("send-keys", key)
            time.sleep(0.05)

    def type(self, text):
        self.tmux("send-keys", "-l", "--", text)
        time.sleep(0.1)

    def shown(self, coloured=False):
        return self.tmux("capture-pane", "-p", *(["-e"] if coloured else []))

    def say(self, what, holds, found=""):
        self.failed += not holds
        print(f"ok      {what}" if holds else f"FAILED  {what}, but found:\n{found}", flush=True)
        return holds

    def expect(self, what, pattern, gone=False, again=None):
        """Waits until the screen shows the pattern, or shows it no more.
        `again` is done every now and then meanwhile."""
        end = time.monotonic() + PATIENCE
        rounds = 0
        while True:
            shown = self.shown()
            if (re.search(pattern, shown) is None) == gone:
                return self.say(what, True)
            if time.monotonic() > end:
                return self.say(what, False, shown)
            rounds += 1
            if again and rounds % 10 == 0:
                again()
            time.sleep(0.1)

    @staticmethod
    def wait(holds):
        """Waits until something holds, or as long as patience goes."""
        end = time.monotonic() + PATIENCE
        while not holds() and time.monotonic() < end:
            time.sleep(0.1)

    def colour_of(self, word):
        """The colour that a word is drawn in where it first stands alone, as
        the terminal is told it; nothing if it is not one colour throughout."""
        for line in self.shown(coloured=True).splitlines():
            plain, colours, colour = "", [], None
            for text, code in re.findall(r"([^\x1b]+)|\x1b\[([0-9;]*)m", line):
                for character in text:
                    plain += character
                    colours.append(colour)
                if not text:
                    told = re.search(r"(?:^|;)38;[25](?:;\d+)+|(?:^|;)(?:3[0-79]|9[0-7])(?=;|$)", code)
                    if told:
                        colour = None if told[0].endswith("39") else told[0].strip(";")
                    elif code in ("", "0"):
                        colour = None
            found = re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])", plain)
            if found:
                own = {shade for at, shade in enumerate(colours[found.start():found.end()], found.start()) if plain[at] != " "}
                return own.pop() if len(own) == 1 else None
        return None

    def draw(self, name, ground=PAPER):
        """Keeps what is shown as a picture of editors/README.md."""
        path = REPOSITORY / "editors" / "pictures" / f"{name}.svg"
        path.write_text(drawing(self.shown(coloured=True), self.size, ground), newline="\n")
        print(f"drawn   {path.name}", flush=True)

    def line_of(self, start):
        """The number of the first line of the spec that begins so, from 1."""
        lines = self.spec.read_text().splitlines()
        return next(number for number, line in enumerate(lines, 1) if line.startswith(start))

    def change(self, old, new):
        """Changes the spec before the editor starts."""
        text = self.spec.read_text()
        assert text.count(old) == 1, old
        self.spec.write_text(text.replace(old, new))

    def end(self):
        self.tmux("kill-server", check=False)
        shutil.rmtree(self.home, ignore_errors=True)
        return min(self.failed, 1)
