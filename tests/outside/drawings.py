"""Reads drawings with other programs, and holds each format to the SVG.

    drawings.py FOLDER TOOLS PLACE

For each NAME.svg of the folder there are NAME.pdf, .png and .dxf. The SVG is
read as XML and drawn by a browser, which lies at PLACE; the PDF's words are read and its page drawn
by Poppler; the DXF is read by ezdxf. The scale bar is measured in the picture
that Poppler drew, and all three pictures are compared blurred: ink may lie a
fraction of a millimetre off, and no more.
"""

import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml
from pathlib import Path

import ezdxf
import numpy as np
from PIL import Image, ImageFilter

FOLDER, TOOLS, PLACE = (Path(word).absolute() for word in sys.argv[1:])
SVG = "{http://www.w3.org/2000/svg}"
DOTS = 10.0  # to a millimetre
FOOT, METRE = 304.8, 1000.0


def run(*words, **more):
    return subprocess.run([str(word) for word in words], check=True, capture_output=True, **more)


def picture_of_browser(path, width, height):
    size = (round(width * DOTS), round(height * DOTS))
    home = Path(tempfile.mkdtemp())
    page = home / "page.html"
    page.write_text(
        f'<body style="margin:0;background:white"><img src="{path.as_uri()}" '
        f'style="display:block;width:{size[0]}px;height:{size[1]}px">'
    )
    shot = home / "shot.png"
    script = Path(__file__).parent / "picture.mjs"
    run(PLACE / "bin/node", script, PLACE, *size, page.as_uri(), shot)
    return Image.open(shot).convert("L")


def picture_of_pdf(path):
    stem = path.with_suffix(".page")
    run(TOOLS / "pdftoppm", "-r", DOTS * 25.4, "-gray", "-singlefile", path, stem)
    return Image.open(stem.with_suffix(stem.suffix + ".pgm")).convert("L")


def blurred(picture, size):
    picture = picture.resize(size, Image.LANCZOS)
    return np.asarray(picture.filter(ImageFilter.GaussianBlur(DOTS * 0.5)), dtype=float)


def check_pictures(name, svg, width, height):
    size = (round(width * DOTS), round(height * DOTS))
    pictures = {
        "svg": picture_of_browser(svg, width, height),
        "pdf": picture_of_pdf(svg.with_suffix(".pdf")),
        "png": Image.open(svg.with_suffix(".png")).convert("L"),
    }
    drawn = {kind: blurred(picture, size) for kind, picture in pictures.items()}
    ink = (255 - drawn["svg"]).mean()
    assert ink > 2, f"{name}: the browser drew next to nothing ({ink:.2f})"
    for kind in ("pdf", "png"):
        off = np.abs(drawn[kind] - drawn["svg"])
        assert off.mean() < 0.2 * ink, f"{name}.{kind}: {off.mean():.2f} off on average, of {ink:.2f}"
        assert off.max() < 60, f"{name}.{kind}: {off.max():.0f} off somewhere"
    return np.asarray(pictures["pdf"].resize(size, Image.LANCZOS), dtype=float)


def texts(root):
    return [text for text in root.iter(f"{SVG}text")]


def check_scale_bar(name, root, picture, height):
    """The bar's length in the PDF's picture is the length that it says."""
    units = [text for text in texts(root) if text.text in ("m", "ft") and text.get("x")]
    assert len(units) == 1, f"{name}: the scale bar names no unit"
    y = float(units[0].get("y"))
    figures = [t for t in texts(root) if t.get("y") == units[0].get("y") and t is not units[0]]
    figures = [t for t in figures if re.fullmatch(r"[0-9.]+", t.text or "")]
    longest = max(float(figure.text) for figure in figures)
    title = next(root.iter(f"{SVG}title")).text
    scale = ratio(root)
    wanted = longest * (METRE if units[0].text == "m" else FOOT) / scale
    # A row of dots in the bar, under the figures: from its first ink to its last.
    row = picture[round((y + 1.4 + 0.6) * DOTS)]
    middle = [float(f.get("x")) + float(f.get("textLength")) / 2 for f in figures]
    low, high = round((min(middle) - 3) * DOTS), round((max(middle) + 3) * DOTS)
    dark = np.flatnonzero(row[low:high] < 128)
    found = (dark[-1] - dark[0] + 1) / DOTS
    assert abs(found - wanted) < 0.3, f"{name} ({title}): the bar is {found:.2f} mm and not {wanted:.2f}"


def ratio(root):
    words = [text.text for text in texts(root)]
    # That of the title block, which is drawn last; falls read alike.
    for word in reversed(words):
        found = re.fullmatch(r"1:([0-9]+)", word or "")
        if found:
            return float(found[1])
    # 1/4 in = 1 ft: the figures over and under the bar come first.
    at = words.index(" in = 1 ft")
    return 12.0 * float(words[at - 1]) / float(words[at - 2])


def check_words(name, root, svg):
    """Every word of the SVG stands in the PDF."""
    out = run(TOOLS / "pdftotext", "-raw", svg.with_suffix(".pdf"), "-").stdout.decode()
    shown = "".join(out.split())
    lacking = []
    for text in texts(root):
        for word in (text.text or "").split():
            if word not in shown:
                lacking.append(word)
    assert len(lacking) < 3, f"{name}.pdf lacks {lacking}"


def check_dxf(name, root, path):
    document = ezdxf.readfile(path)
    assert not document.audit().has_errors, f"{name}.dxf: {document.audit().errors}"
    imperial = any(text.text == "ft" for text in texts(root))
    assert document.header["$INSUNITS"] == (1 if imperial else 4), f"{name}.dxf has other units"
    layers = {layer.dxf.name for layer in document.layers}
    for layer in ("OUTLINES", "BUILDING", "DIMENSIONS", "LEVELS", "FALLS", "SHEET"):
        assert layer in layers, f"{name}.dxf has no layer {layer}"
    space = document.modelspace()
    kinds = {}
    for entity in space:
        kinds[entity.dxftype()] = kinds.get(entity.dxftype(), 0) + 1
        assert entity.dxf.layer in layers, f"{name}.dxf: {entity.dxf.layer} is not in its table"
    assert kinds.get("LINE", 0) > 10 and kinds.get("TEXT", 0) > 10, f"{name}.dxf: {kinds}"
    # As many lines of text as the SVG has, fractions of one line counted once.
    words = [entity.dxf.text for entity in space if entity.dxftype() == "TEXT"]
    assert words, f"{name}.dxf has no text"
    return document, words


def check_hostile(root, words):
    tags = {element.tag.replace(SVG, "") for element in root.iter()}
    assert tags <= {"svg", "title", "style", "rect", "g", "path", "text"}, tags
    shown = " ".join(text.text or "" for text in texts(root))
    assert "<script>" in shown, "the title is not shown as it is written"
    for element in root.iter():
        assert not any(key.startswith("on") for key in element.attrib), element.attrib
    for word in words:
        assert "%%" not in word and "\n" not in word, word


def main():
    count = 0
    for svg in sorted(FOLDER.glob("*.svg")):
        name, root = svg.stem, xml.parse(svg).getroot()
        width, height = (float(side) for side in root.get("viewBox").split()[2:])
        picture = check_pictures(name, svg, width, height)
        check_scale_bar(name, root, picture, height)
        if name != "hostile":
            check_words(name, root, svg)
        _, words = check_dxf(name, root, svg.with_suffix(".dxf"))
        if name == "hostile":
            check_hostile(root, words)
        if name == "ferry":
            check_terrace(svg.with_suffix(".dxf"))
        count += 1
    print(f"{count} drawings agree")


def check_terrace(path):
    """The terrace's wall, 7.2 m along y = 0, lies where the spec has it."""
    space = ezdxf.readfile(path).modelspace()
    ends = [
        (line.dxf.start.x, line.dxf.start.y, line.dxf.end.x, line.dxf.end.y)
        for line in space.query('LINE[layer=="BUILDING"]')
    ]
    # Its line is parted where a shape was added to another.
    parts = [abs(a - c) for a, b, c, d in ends if b == d == 0 and -0.01 <= min(a, c) and max(a, c) <= 7200.01]
    wall = abs(sum(parts) - 7200) < 0.01
    assert wall, "the wall is not where it should be"


main()
