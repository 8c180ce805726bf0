#!/usr/bin/env python3
"""Makes the two fonts of the drawings from the npm package that has them.

    npm pack @fontsource/barlow-semi-condensed@5.3.0 && tar xzf fontsource-*.tgz
    python -m venv made && made/bin/pip install fonttools==4.68.0 brotli==1.2.1
    made/bin/python subset.py package/files

Barlow Semi Condensed 1.408 by the Barlow Project Authors, under the SIL Open
Font License 1.1 (LICENSE.txt here); no name is reserved. The parts for Latin
and for extended Latin are joined, figures are those that stand in columns, and
hints and features go: text is set glyph by glyph, each as wide as it says.
"""

import base64
import io
import sys
import tempfile
from pathlib import Path

from fontTools.merge import Merger
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
WEIGHTS = {"regular": 400, "medium": 500}


def joined(folder, weight):
    """The parts of one weight as one font, with figures of one width."""
    parts = []
    for part in ("latin", "latin-ext"):
        font = TTFont(folder / f"barlow-semi-condensed-{part}-{weight}-normal.woff2")
        font.flavor = None
        if part == "latin":
            columns = tabular(font)
            for table in font["cmap"].tables:
                table.cmap = {letter: columns.get(name, name) for letter, name in table.cmap.items()}
        for table in ("GSUB", "GPOS", "GDEF", "fpgm", "prep", "cvt ", "gasp"):
            if table in font:
                del font[table]
        path = Path(tempfile.mkdtemp()) / f"{part}.ttf"
        font.save(path)
        parts.append(str(path))
    return Merger().merge(parts)


def tabular(font):
    """The glyphs that the feature `tnum` puts in place of others."""
    table = font["GSUB"].table
    numbers = {
        number
        for record in table.FeatureList.FeatureRecord
        if record.FeatureTag == "tnum"
        for number in record.Feature.LookupListIndex
    }
    return {
        name: other
        for number in sorted(numbers)
        for lookup in table.LookupList.Lookup[number].SubTable
        for name, other in getattr(lookup, "ExtSubTable", lookup).mapping.items()
        if name in ("zero one two three four five six seven eight nine period comma "
                    "hyphen plus minus").split()
    }


def main(folder):
    for name, weight in WEIGHTS.items():
        font = joined(folder, weight)
        options = Options()
        options.hinting = False
        options.layout_features = []
        options.notdef_outline = True
        options.glyph_names = False
        options.name_IDs = [0, 1, 2, 4, 5, 6, 13, 14]
        subsetter = Subsetter(options)
        letters = [letter for letter in font.getBestCmap() if not 0x300 <= letter < 0x370]
        subsetter.populate(unicodes=letters)
        subsetter.subset(font)
        font["head"].modified = font["head"].created
        font.recalcTimestamp = False
        font.save(HERE / f"{name}.ttf")
        font.flavor = "woff2"
        packed = io.BytesIO()
        font.save(packed)
        written = base64.b64encode(packed.getvalue()).decode()
        (HERE / f"{name}.woff2.base64").write_text(written)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
