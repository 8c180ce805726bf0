"""Vim with ALE and the files that a user copies, on a spec of ours."""

import shutil
import sys

from screen import REPOSITORY, Screen

screen = Screen("specs/bakehouse-yard.patio")
screen.change("fall          2 %", "fall   1/2 %")
plugins = screen.home / ".vim" / "pack"
shutil.copytree(REPOSITORY / "editors" / "vim", plugins / "drylay" / "start" / "drylay")
(plugins / "ale" / "start").mkdir(parents=True)
installed = REPOSITORY / "target" / "test-env" / "debian" / "usr" / "share" / "vim-ale"
(plugins / "ale" / "start" / "ale").symlink_to(installed)
shutil.copy(REPOSITORY / "editors" / "vim" / "vimrc", screen.home / ".vimrc")
fall, base, let = (screen.line_of(start) for start in ("  fall ", "  base ", "let "))


def command(text):
    screen.keys("Escape")
    screen.type(f":{text}")
    screen.keys("Enter")


def at(line, word):
    command(f"{line}")
    screen.keys("z", "z", "0")
    screen.type(f"/{word}")
    screen.keys("Enter")
    command("nohlsearch")


screen.start("vim", "-i", "NONE", str(screen.spec))
screen.expect("the spec is shown", r"Fennel Street bakehouse yard")
command("set ruler number")

colours = {
    "# The yard": "Comment",
    "job": "Section",
    '"FB-14': "Text",
    "imperial": "Choice",
    "2027": "Date",
    "tree-pit": "Name",
    "24'": "Number",
    "meets": "Key",
    "away": "Joining",
    "herringbone": "Choice",
    "angle 45": "Joining",
    "called": "Key",
    "\\$4.35": "Money",
}
names = screen.home / "names"
words = ", ".join("'" + word.replace("'", "''") + "'" for word in colours)
command(
    f"call writefile(map([{words}], {{_, word -> synIDattr(call('synID', searchpos(word, 'cw') + [1]), 'name')}}), '{names}')"
)
screen.wait(names.exists)
for (word, colour), found in zip(colours.items(), names.read_text().split()):
    screen.say(f"`{word}` has the colour of its kind", found == f"patio{colour}", found)

screen.keys("Enter")
at(fall, "fall")
screen.expect("a finding is marked beside its line", rf"(?m)^(W|E|>|-)+ *{fall} +fall")
screen.expect("and its message is drawn", r"too flat: 0\.5 %")
at(base, "base")
screen.type("K")
screen.expect("a hover shows the working", r"volume in place = area × thickness")
at(base, "margin")
screen.type("gd")
screen.expect("the definition of a let is gone to", rf"\b{let},5\b")
at(fall, "1.2")
command("ALECodeAction")
screen.expect("a fix is offered", r"1[).] +Make the fall")
screen.type("1")
screen.keys("Enter")
screen.expect("its fix mends it", r"fall +1:\d+ away")
screen.expect("and its finding goes", r"too flat: 0\.5 %", gone=True)
at(let, "margin")
command("ALERename")
screen.expect("a new name is asked for", r"(?i)new name")
screen.keys("C-u")
screen.type("overhang")
screen.keys("Enter")
screen.expect("the let has its new name", r"let overhang = 6 in")
at(base, "base")
screen.expect("and so has its use", r"beyond overhang")
command("ALEFix")
at(fall, "fall")
screen.expect("the spec is laid out", r"fall {10}1:\d+ away")
screen.keys("o")
screen.type("iso")
screen.expect("a key is completed", r"isolation-joint")
screen.keys("Escape", "u")
command("write")
screen.expect("it is saved", r"written")
text = screen.spec.read_text()
screen.say("the file holds the changes", "beyond overhang" in text and "1/2 %" not in text, text)
sys.exit(screen.end())
