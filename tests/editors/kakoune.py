"""Kakoune with the files that a user copies, on a spec of ours. Its colours are
looked at; where kak-lsp is on the path, what the server shows is too."""

import shutil
import sys

from screen import REPOSITORY, Screen

screen = Screen("specs/bakehouse-yard.patio")
screen.change("fall          2 %", "fall   1/2 %")
place = screen.home / ".config" / "kak"
(place / "autoload").mkdir(parents=True)
shutil.copy(REPOSITORY / "editors" / "kakoune" / "patio.kak", place / "autoload")
system = REPOSITORY / "target" / "test-env" / "debian" / "usr" / "share" / "kak" / "autoload"
(place / "autoload" / "system").symlink_to(system)
served = shutil.which("kak-lsp") is not None
if served:
    shutil.copy(REPOSITORY / "editors" / "kakoune" / "kakrc", place)


def command(text):
    screen.keys("Escape")
    screen.type(f":{text}")
    screen.keys("Enter")


screen.start("kak", str(screen.spec))
screen.expect("the spec is shown", r"Fennel Street bakehouse yard")
screen.expect("it is a spec", r"job \"Fennel", again=lambda: screen.keys("Escape"))
colours = set()
for colour, words in (
    ("keyword", ("job", "site", "surface")),
    ("key", ("reference", "currency", "soil", "fall")),
    ("text", ("\"FB-14\"", "\"bakehouse floor\"")),
    ("number", ("2027-03-08", "10 in", "imperial")),
    ("comment", ("# the side gate",)),
    ("name", ("tree-pit",)),
):
    found = {word: screen.colour_of(word) for word in words}
    alike = len(set(found.values())) == 1 and None not in found.values()
    screen.say(f"each {colour} has the colour of its kind", alike, found)
    screen.say("which is that of no other kind", found[words[0]] not in colours, colours)
    colours.add(found[words[0]])

if served:
    screen.expect("a finding is drawn", r"too flat: 0\.5 %")
    screen.expect("a figure is drawn", r"96' 0\"")
    command(f"execute-keys {screen.line_of('  base ')}glll")
    command("lsp-hover")
    screen.expect("a hover shows the working", r"area pushed out")
    command(f"execute-keys {screen.line_of('  fall ')}gglll")
    command("lsp-formatting-sync")
    screen.expect("the spec is laid out", r"fall {10}1/2 %")

command("buffer *debug*")
screen.expect("nothing is complained of", r"(?i)error", gone=True)
sys.exit(screen.end())
