"""Makes the committed faces of the sheet and their width table from the static faces of Inter 4.

Needs fonttools and brotli, and a folder with Inter-Regular and Inter-SemiBold (TTF or WOFF2) and LICENSE.txt:
the npm package `inter-ui`, unpacked, will do (faces in `web/`)::

    python tools/fonts.py FACES_FOLDER LICENSE.txt

Inter's licence (SIL OFL 1.1) reserves no font name, but its name is a trademark; what is cut down and changed here
is therefore called Linewright Sans. Changed: figures, plus and minus are the tabular ones (columns of numbers
stand in line without font features), and what the sheet never prints is left out.
"""

import json
import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

FAMILY = "Linewright Sans"
FACES = {"regular": ("Inter-Regular", "Regular", 400), "semibold": ("Inter-SemiBold", "SemiBold", 600)}
OUT = Path(__file__).resolve().parent.parent / "src" / "linewright" / "draw" / "fonts"

# Latin with its extensions, Greek, and the marks of the trade and of the sheet.
RANGES = ((0x20, 0x7E), (0xA0, 0x17F), (0x218, 0x21B), (0x384, 0x3CE), (0x1E80, 0x1E85), (0x1EF2, 0x1EF3))
MARKS = (
    "\u2010\u2011\u2012\u2013\u2014\u2018\u2019\u201a\u201c\u201d\u201e\u2020\u2022\u2026\u2030\u2032\u2033\u2039\u203a"
    "\u20ac\u2116\u2122\u2126\u2150\u2151\u2153\u2154\u215b\u215c\u215d\u215e\u2190\u2191\u2192\u2193\u2194\u2195"
    "\u2202\u2205\u2206\u2211\u2212\u2215\u221a\u221e\u2248\u2260\u2264\u2265"
    "\u25a0\u25a1\u25b2\u25b3\u25b6\u25b7\u25bc\u25bd\u25c6\u25c7\u25cb\u25cf\u2713"
)
TABULAR = "0123456789+\u2212\u2013"


def characters() -> set[int]:
    """Give the code points that the faces keep."""
    return {code for first, last in RANGES for code in range(first, last + 1)} | {ord(mark) for mark in MARKS}


def freeze_tabular(font: TTFont) -> None:
    """Map figures to their tabular glyphs, as the feature `tnum` would."""
    swaps: dict[str, str] = {}
    table = font["GSUB"].table
    for record in table.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for part in table.LookupList.Lookup[index].SubTable:
                    swaps.update(getattr(part, "ExtSubTable", part).mapping)
    for cmap in font["cmap"].tables:
        for mark in TABULAR:
            name = cmap.cmap.get(ord(mark))
            if name in swaps:
                cmap.cmap[ord(mark)] = swaps[name]


def cut(font: TTFont) -> None:
    """Keep only the characters of the sheet, kerning and mark placement; drop hints and names."""
    options = subset.Options()
    options.layout_features = ["kern", "ccmp", "mark"]
    options.hinting = False
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    options.notdef_outline = True
    options.glyph_names = False
    cutter = subset.Subsetter(options=options)
    cutter.populate(unicodes=sorted(characters()))
    cutter.subset(font)


def rename(font: TTFont, style: str) -> None:
    """Give the face our own family name; the copyright stays."""
    postscript = f"{FAMILY.replace(' ', '')}-{style}"
    names = {1: FAMILY if style == "Regular" else f"{FAMILY} {style}", 2: "Regular", 3: postscript}
    names |= {4: f"{FAMILY} {style}", 6: postscript, 16: FAMILY, 17: style}
    for key, text in names.items():
        font["name"].setName(text, key, 3, 1, 0x409)


def widths(font: TTFont) -> dict[str, int]:
    """Give the advance width of each character in thousandths of the size."""
    units = font["head"].unitsPerEm
    advances = font["hmtx"].metrics
    cmap = font.getBestCmap()
    return {chr(code): round(1000 * advances[cmap[code]][0] / units) for code in sorted(characters()) if code in cmap}


def source_face(folder: Path, name: str) -> TTFont:
    """Open the face `name` in `folder`, whichever of the two file types it has."""
    for suffix in (".ttf", ".woff2"):
        if (folder / (name + suffix)).is_file():
            return TTFont(folder / (name + suffix), recalcTimestamp=False)
    raise SystemExit(f"no {name}.ttf or {name}.woff2 in {folder}")


def main(folder: Path, licence: Path) -> None:
    """Write both faces, the licence and the width table."""
    table: dict[str, object] = {"family": FAMILY, "per_em": 1000}
    for key, (name, style, weight) in FACES.items():
        font = source_face(folder, name)
        freeze_tabular(font)
        cut(font)
        rename(font, style)
        font.flavor = None
        target = OUT / f"LinewrightSans-{style}.ttf"
        font.save(target)
        table[key] = {"weight": weight, "file": target.name, "widths": widths(font)}
        print(f"{target.name}: {target.stat().st_size} bytes, {len(font.getGlyphOrder())} glyphs")
    text = json.dumps(table, ensure_ascii=True, sort_keys=True, separators=(",", ":")).replace(
        '"widths":', '\n"widths":'
    )
    (OUT / "widths.json").write_text(text + "\n", encoding="ascii", newline="\n")
    (OUT / "OFL.txt").write_text(licence.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        raise SystemExit(__doc__)
    main(Path(sys.argv[1]), Path(sys.argv[2]))
