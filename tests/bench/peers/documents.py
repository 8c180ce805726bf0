"""The same courts written in each language: a document of any length, alike in
its sections and lines, and a folder of small ones.

A court is a shape with a bay, a surface, a build and a material. A few courts
hold a mistake, as many in a long document as in a short one, so that every server
has something to tell."""

import json
import random
import re
from dataclasses import dataclass, field

MISTAKES = 5
ENDINGS = {"patio": ".patio", "python": ".py", "toml": ".toml", "json": ".json"}


@dataclass
class Section:
    """A heading and its entries: a key, how a spec puts the value, and what the
    other languages have there: the same text if nothing, a mistake if `MISTAKE`."""

    kind: str
    name: str
    entries: list

    @property
    def plain_name(self):
        return re.sub(r"\W+", "-", f"{self.kind}-{self.name}").strip("-")

    def plain_entries(self):
        for key, phrase, *plain in self.entries:
            yield key, plain[0] if plain else phrase


MISTAKE = object()


@dataclass
class Document:
    """A text, where the width of its middle court ends, and where the key of
    that line stands: line and column, from 0."""

    language: str
    lines: list
    number_at: tuple
    key_at: tuple
    beside: dict = field(default_factory=dict)  # further files: name and text

    @property
    def text(self):
        return "\n".join(self.lines) + "\n"

    def with_digit(self, digit):
        """The text with one more digit in that width."""
        line, column = self.number_at
        with_it = self.lines[line][:column] + digit + self.lines[line][column:]
        return "\n".join(self.lines[:line] + [with_it] + self.lines[line + 1 :]) + "\n"


def court(number, chance, mistaken):
    width, depth, east = chance.randint(30, 99) / 10, chance.randint(20, 60) / 10, number * 12
    base, own, price = 25 if mistaken else 150, f"{number:06}", chance.randint(18, 60)
    return [
        Section("shape", f"bay-{own}", [
            ("circle", f"radius 0.8 m, centre ({east + 2} m, 0 m)", 0.8),
        ]),
        Section("shape", f"court-{own}", [
            ("rectangle", f"{width} m by {depth} m, at ({east} m, 0 m)", width),
            ("add", f"bay-{own}"),
        ]),
        Section("surface", f"court-{own}", [
            ("shape", f"court-{own}"),
            ("meets", "north"),
            ("level", "-160 mm at north", -160),
            ("fall", "1:50 away from north", 0.02),
            ("build", f"stack-{own}"),
            ("laid", "running-bond, units 100 mm by 200 mm"),
            ("joint", "3 mm, filled with joint-sand"),
            ("edging", "steel-edge, along free"),
            ("water", 'to "planting bed"', "to the planting bed"),
        ]),
        Section("build", f"stack-{own}", [
            ("paving", f"flag-{own}, 60 mm, waste 6 %"),
            ("bed", "sharp-sand, 30 mm", 30),
            ("base", f"crushed-stone, {base} mm compacted, lifts 2, beyond 150 mm", MISTAKE if mistaken else base),
        ]),
        Section("material", f"flag-{own}", [
            ("like", "concrete-paver"),
            ("sold", "by m2"),
            ("price", f"£{price}/m2", price),
        ]),
    ]


OPENING = [
    Section("job", '"Row of courts"', [("units", "metric"), ("region", "uk"), ("currency", "GBP")]),
    Section("site", "", [("soil", "gravel, firm"), ("datum", '"hall floor"', "hall floor"), ("ground", "-200 mm", -200)]),
]


def in_patio(sections):
    for section in sections:
        yield f"{section.kind} {section.name}".rstrip()
        yield from (f"  {key:<13} {phrase}" for key, phrase, *_ in section.entries)
        yield ""


def in_python(sections):
    for section in sections:
        yield f"class {section.plain_name.title().replace('-', '')}:"
        for key, value in section.plain_entries():
            yield f"    {key} = {'undefined_name' if value is MISTAKE else json.dumps(value)}"
        yield ""


def in_toml(sections):
    for section in sections:
        yield f"[{section.plain_name}]"
        for key, value in section.plain_entries():
            yield f"{key} = {json.dumps('wrong' if value is MISTAKE else value)}"
        yield ""


def in_json(sections):
    for section in sections:
        yield f'  "{section.plain_name}": {{'
        for place, (key, value) in enumerate(section.plain_entries(), 1):
            comma = "," if place < len(section.entries) else ""
            yield f'    "{key}": {json.dumps("wrong" if value is MISTAKE else value)}{comma}'
        yield "  },"


WRITERS = {"patio": in_patio, "python": in_python, "toml": in_toml, "json": in_json}
# What stands before the sections, and after them.
AROUND = {"toml": (["#:schema ./schema.json", ""], []), "json": (["{"], ["}"])}


def schema():
    """What the entries may be, with a line of help each: for TOML and JSON."""
    keys = {
        key: {"type": "string" if isinstance(value, str) else "number", "description": f"The {key}."}
        for section in OPENING + court(0, random.Random(0), False)
        for key, value in section.plain_entries()
    }
    entries = {"type": "object", "properties": keys, "additionalProperties": False}
    return json.dumps({"type": "object", "additionalProperties": entries})


def document(language, lines, mistakes=MISTAKES, seed=0):
    """A document of at most so many lines, or of one court."""
    chance, write = random.Random(f"{lines} {seed}"), WRITERS[language]
    before, after = AROUND.get(language, ([], []))
    written = [*before, *write(OPENING)]
    one = len(list(write(court(0, random.Random(0), False))))
    courts = max(1, (lines - len(written) - len(after)) // one)
    mistaken = {(2 * place + 1) * courts // (2 * mistakes) for place in range(mistakes)}
    for number in range(courts):
        if number == courts // 2:
            middle = len(written)
        written += write(court(number, chance, number in mistaken))
    # Nothing follows the last section, neither a comma nor an empty line.
    written[-1] = written[-1].rstrip(",")
    written += after
    if written[-1] == "":
        written.pop()
    at = next(place for place in range(middle, len(written)) if "rectangle" in written[place])
    line = written[at]
    digit = next(place for place in range(len(line)) if line[place].isdigit())
    beside = {"schema.json": schema()} if language in ("toml", "json") else {}
    return Document(language, written, (at, digit + 3), (at, line.index("rectangle") + 1), beside)


def folder(language, place, files):
    """Fills a folder with documents of about 40 lines, a hundred to a folder;
    one in twenty has a mistake. Gives their bytes."""
    total = 0
    for number in range(files):
        inner = place / f"part-{number // 100:04}"
        inner.mkdir(parents=True, exist_ok=True)
        text = document(language, 42, 1 if number % 20 == 0 else 0, seed=number).text
        (inner / f"court-{number:06}{ENDINGS[language]}").write_text(text)
        total += len(text.encode())
    return total
