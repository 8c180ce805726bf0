"""What a terminal shows, drawn as SVG: characters with their colours and
grounds, as the terminal was told them."""

import re
from html import escape

ADVANCE, LINE, MARGIN = 8.4, 18, 12
INK, PAPER = "#d0d7de", "#161b22"
NAMED = ["#484f58", "#ff7b72", "#7ee787", "#e3b341", "#79c0ff", "#d2a8ff", "#76e3ea", "#d0d7de",
         "#6e7681", "#ffa198", "#aff5b4", "#f8e3a1", "#a5d6ff", "#e2c5ff", "#b3f0ff", "#ffffff"]


class Look:
    """How characters are drawn from here on."""

    def __init__(self):
        self.ink = self.paper = None
        self.bold = self.italic = self.line = self.reversed = self.dim = False

    def told(self, code):
        """After one code of the terminal."""
        words = [word.replace(":", ";").split(";") for word in re.sub(r"(4):\d", r"\1", code).split(";")]
        words = [int(number or 0) for word in words for number in word]
        while words:
            word = words.pop(0)
            if word == 0:
                self.__init__()
            elif word in (38, 48, 58):
                colour = self.colour(words)
                if word == 38:
                    self.ink = colour
                elif word == 48:
                    self.paper = colour
            elif 30 <= word <= 37 or 90 <= word <= 97:
                self.ink = NAMED[word - 30 if word < 90 else word - 82]
            elif 40 <= word <= 47 or 100 <= word <= 107:
                self.paper = "#000000" if word == 40 else NAMED[word - 40 if word < 100 else word - 92]
            elif word == 39:
                self.ink = None
            elif word == 49:
                self.paper = None
            elif word in (1, 22):
                self.bold = word == 1
                self.dim = False
            elif word == 2:
                self.dim = True
            elif word in (3, 23):
                self.italic = word == 3
            elif word in (4, 24):
                self.line = word == 4
            elif word in (7, 27):
                self.reversed = word == 7

    @staticmethod
    def colour(words):
        if words.pop(0) == 2:
            red, green, blue = (words.pop(0) for _ in range(3))
            return f"#{red:02x}{green:02x}{blue:02x}"
        number = words.pop(0)
        if number < 16:
            return NAMED[number]
        if number > 231:
            return "#" + f"{8 + 10 * (number - 232):02x}" * 3
        steps = (0, 95, 135, 175, 215, 255)
        number -= 16
        return "#" + "".join(f"{steps[part]:02x}" for part in (number // 36, number // 6 % 6, number % 6))

    def state(self):
        ink, paper = self.ink or INK, self.paper
        if self.reversed:
            ink, paper = paper or PAPER, ink
        more = ' font-weight="bold"' * self.bold + ' font-style="italic"' * self.italic
        more += ' text-decoration="underline"' * self.line + ' opacity="0.65"' * self.dim
        return ink, paper, more


def drawing(shown, size, ground=PAPER):
    """The picture of what `capture-pane -e` gave of a terminal of that size."""
    width, height = size[0] * ADVANCE + 2 * MARGIN, size[1] * LINE + 2 * MARGIN
    grounds, texts = [], []
    look = Look()
    for row, line in enumerate(shown.split("\n")[: size[1]]):
        column, top = 0, MARGIN + row * LINE
        for code, text in re.findall(r"\x1b\[([0-9;:]*)m|([^\x1b]+)", line):
            if not text:
                look.told(code)
                continue
            ink, paper, more = look.state()
            left = MARGIN + column * ADVANCE
            if paper and paper != ground:
                grounds.append(f'<rect x="{left:.1f}" y="{top}" width="{len(text) * ADVANCE:.1f}" height="{LINE}" fill="{paper}"/>')
            for run in re.finditer(r"\S+(?: \S+)*", text):
                at, words = left + run.start() * ADVANCE, run[0]
                fill = f' fill="{ink}"' if ink != INK else ""
                texts.append(f'<text x="{at:.1f}" y="{top + LINE - 5}" textLength="{len(words) * ADVANCE:.1f}"{fill}{more}>{escape(words)}</text>')
            column += len(text)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {height:.0f}" width="{width:.0f}" height="{height:.0f}">\n'
        f'<rect width="100%" height="100%" rx="6" fill="{ground}"/>\n'
        + "\n".join(grounds)
        + f'\n<g font-family="ui-monospace, Menlo, Consolas, \'DejaVu Sans Mono\', monospace" font-size="14" fill="{INK}" xml:space="preserve">\n'
        + "\n".join(texts)
        + "\n</g>\n</svg>\n"
    )
