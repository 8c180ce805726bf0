"""Helix with the files that a user copies, on a spec of ours."""

import os
import shutil
import subprocess
import sys

from screen import REPOSITORY, Screen

screen = Screen("specs/bakehouse-yard.patio")
screen.change("fall          2 %", "fall   1/2 %")
configuration = screen.home / ".config" / "helix"
configuration.mkdir(parents=True)
for name in ("languages.toml", "config.toml"):
    shutil.copy(REPOSITORY / "editors" / "helix" / name, configuration)
install = [REPOSITORY / "editors" / "tree-sitter" / "install", "helix"]
subprocess.run(install, check=True, env={**os.environ, "XDG_CONFIG_HOME": str(screen.home / ".config")})
fall, base, let = (screen.line_of(start) for start in ("  fall ", "  base ", "let "))


def command(text):
    screen.keys("Escape", "Escape")
    screen.type(f":{text}")
    screen.keys("Enter")


def at(line, *keys):
    command(str(line))
    screen.keys("z", "z", "g", "s", *keys)


colours = set()
screen.start("hx", str(screen.spec))
screen.expect("the spec is shown", r"Fennel Street bakehouse yard")
for colour, words in (
    ("keyword", ("job", "site", "surface")),
    ("key", ("reference", "currency", "soil")),
    ("text", ("\"FB-14\"", "\"bakehouse floor\"")),
    ("number", ("2027-03-08", "10 in", "24'")),
    ("comment", ("# the side gate",)),
):
    found = {word: screen.colour_of(word) for word in words}
    alike = len(set(found.values())) == 1 and None not in found.values()
    screen.say(f"each {colour} has the colour of its kind, {found[words[0]]}", alike, found)
    screen.say("which is that of no other kind", found[words[0]] not in colours, colours)
    colours.add(found[words[0]])
at(fall)
screen.expect("a finding is drawn under its line", r"0\.5 %")
# Helix asks for figures when nothing has been pressed for a moment.
screen.expect("a drop is drawn", r"fall +1/2 %.*15/16", again=lambda: screen.keys("l"))
at(base)
screen.expect("a tonnage is drawn", r"base .*12\.9 tons", again=lambda: screen.keys("l"))
screen.keys("Space", "k")
screen.expect("a hover shows the working", r"volume in place = area × thickness")
screen.keys("Escape")
at(base)
screen.keys("f", "y", "t", "m", "l", "g", "d")
screen.expect("the definition of a let is gone to", rf"\b{let}:5\b")
at(fall)
screen.keys("w", "Space", "a")
screen.expect("a fix is offered", r"Make the fall")
screen.keys("Enter", "Enter")
screen.expect("its fix mends it", r"fall +(1 %|2 %|1:\d+) away from north")
screen.keys("Escape")
command("format")
screen.expect("the spec is laid out", r"\n +\d+ +fall {10}\S")
at(let, "e", "e")
screen.keys("Space", "r")
screen.expect("a new name is asked for", r"rename-to:")
screen.keys("C-u")
screen.type("overhang")
screen.keys("Enter")
# Helix may still draw the hint where it was, in the middle of the value.
screen.expect("the let has its new name", r"let overhang = 6")
at(base)
screen.expect("and so has its use", r"beyond overhang")
screen.keys("Space", "s")
screen.expect("the outline lists the sections", r"sand-set")
screen.expect("and what they are", r"(?s)yard.*yard-paver")
screen.keys("Escape")
at(fall, "o")
screen.type("iso")
screen.expect("a key is completed", r"isolation-joint")
screen.keys("Escape", "Escape", "u")
at(fall)
command("w!")
screen.expect("it is saved", r"written")
text = screen.spec.read_text()
screen.say("the file holds the changes", "beyond overhang" in text and "1/2 %" not in text, text)
sys.exit(screen.end())
