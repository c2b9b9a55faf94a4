"""How much room words take: widths of text, measured from the fonts that ship with this package.

Every height is that of a capital letter (ISO 3098), in mm. A width here is the sum of the advance
widths in the font, which is also what the writers put on paper, so a text that fits here fits
there.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from importlib import resources

from layout.measure.exact import nearest

REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
ELLIPSIS = "\u2026"
_UNKNOWN = "?"
NO_BREAK = "\u00a0"
_COUNT = re.compile(r"(?<=[0-9]) × (?=\S)")
_BREAKS = re.compile(r"[^\S\u00a0]+")


@dataclass(frozen=True)
class Face:
    """One font: its name, its file, and its widths in font units by character.

    `em` is the number of font units to the em, `capital` the height of a capital H in font
    units, `depth` how far the deepest usual letters (g, p, y) reach below the baseline.
    """

    name: str
    data: bytes
    em: int
    capital: int
    depth: int
    widths: dict[str, int]


@cache
def face(bold: bool = False) -> Face:
    """The shipped font, read once."""
    import io

    from reportlab.pdfbase.ttfonts import TTFontFile

    name = BOLD if bold else REGULAR
    data = resources.files("layout.scene").joinpath("fonts", f"{name}.ttf").read_bytes()
    font = TTFontFile(io.BytesIO(data))
    # The reader gives widths in thousandths of an em, though fonts hold whole units. Only what
    # lies in the basic plane is taken: the PDF writer can't say which letter a glyph stands for
    # beyond it.
    per_mille = Fraction(font.unitsPerEm, 1000)
    widths = {
        chr(code): nearest(Fraction(font.charWidths.get(code, font.defaultWidth)) * per_mille)
        for code in font.charToGlyph
        if code <= 0xFFFF
    }
    # These fonts carry an old OS/2 table without a capital height, and the reader then gives
    # the ascender in its place: so the height is taken from the outline of the H itself.
    capital = _reach(font, "H")[1]
    depth = -min(_reach(font, letter)[0] for letter in "gpqyj,;")
    return Face(name, data, font.unitsPerEm, capital, depth, widths)


def _reach(font: object, letter: str) -> tuple[int, int]:
    """Lowest and highest point of a letter's outline, in font units (glyf table)."""
    glyph = font.charToGlyph[ord(letter)]  # type: ignore[attr-defined]
    start = font.glyphPos[glyph]  # type: ignore[attr-defined]
    table = font.get_table("glyf")  # type: ignore[attr-defined]
    # a glyph opens with its number of contours, then xMin, yMin, xMax, yMax: 16 bits each
    low = int.from_bytes(table[start + 4 : start + 6], "big", signed=True)
    high = int.from_bytes(table[start + 8 : start + 10], "big", signed=True)
    return low, high


def em_size(height: Fraction, bold: bool = False) -> Fraction:
    """The font size in mm (the em) at which a capital is `height` mm high."""
    font = face(bold)
    return height * font.em / font.capital


def depth(height: Fraction, bold: bool = False) -> Fraction:
    """How far letters such as g reach below the baseline, in mm."""
    font = face(bold)
    return height * font.depth / font.capital


@lru_cache(maxsize=20_000)  # the same words are measured, placed and written
def clean(words: str) -> str:
    """The words as they can be set: what can't be set becomes a question mark.

    That is control and format characters, characters the fonts lack, and letters that run from
    right to left, which no writer here could set in order.
    """
    return "".join(_settable(letter) for letter in unicodedata.normalize("NFC", words))


@cache
def _settable(letter: str) -> str:
    category = unicodedata.category(letter)
    wrong = (
        category[0] == "C"
        or category in ("Zl", "Zp")
        or unicodedata.bidirectional(letter) in ("R", "AL", "AN")
        or letter not in face(False).widths
        or letter not in face(True).widths
    )
    return _UNKNOWN if wrong else letter


def text_width(words: str, height: Fraction, bold: bool = False) -> Fraction:
    """How wide the words come out, in mm; `height` is that of a capital, in mm."""
    font = face(bold)
    # whole font units are added up before anything becomes a Fraction: this is asked very often
    return Fraction(_units(words, bold) * height.numerator, font.capital * height.denominator)


@lru_cache(maxsize=20_000)
def _units(words: str, bold: bool) -> int:
    """How wide the words are in font units."""
    return sum(map(face(bold).widths.__getitem__, clean(words)))


def fit(words: str, height: Fraction, width: Fraction, bold: bool = False) -> str:
    """The words, shortened with an ellipsis where they are wider than `width` mm.

    Where not even the ellipsis fits, nothing is left.
    """
    words = clean(words)
    if text_width(words, height, bold) <= width:
        return words
    room = width - text_width(ELLIPSIS, height, bold)
    if room < 0:
        return ""
    return words[: _fitting(words, height, room, bold)].rstrip() + ELLIPSIS


def wrap(words: str, height: Fraction, width: Fraction, bold: bool = False) -> list[str]:
    """The words on as many lines as they need, none wider than `width` mm.

    Breaks at spaces, but not at a NO_BREAK, which comes back as a space; a single word wider than
    the line is broken where it must be, but every line carries at least one letter. No words give
    no lines.
    """
    lines: list[str] = []
    line = ""
    for word in _BREAKS.split(clean(words).strip()):
        word = word.replace(NO_BREAK, " ")
        tried = f"{line} {word}" if line else word
        if text_width(tried, height, bold) <= width:
            line = tried
            continue
        if line:
            lines.append(line)
        while text_width(word, height, bold) > width and len(word) > 1:
            count = max(1, _fitting(word, height, width, bold))
            lines.append(word[:count])
            word = word[count:]
        line = word
    return [*lines, line] if line else lines


def wrap_counts(words: str, height: Fraction, width: Fraction, bold: bool = False) -> list[str]:
    """As `wrap`; a count stays with what it counts: `2 × leg`."""
    return wrap(_COUNT.sub(f"{NO_BREAK}×{NO_BREAK}", words), height, width, bold)


def wrap_at_most(
    words: str, count: int, height: Fraction, width: Fraction, bold: bool = False
) -> list[str]:
    """As `wrap`, but on so many lines at most, the last shortened where more would be needed."""
    lines = wrap(words, height, width, bold)
    if len(lines) <= count:
        return lines
    # a word broken over lines is put together again with a blank too many, which is cut off anyway
    return [*lines[: count - 1], fit(" ".join(lines[count - 1 :]), height, width, bold)]


def _fitting(words: str, height: Fraction, room: Fraction, bold: bool) -> int:
    """How many letters from the front fit into `room` mm."""
    font = face(bold)
    units = room * font.capital // height
    for count, letter in enumerate(words):
        units -= font.widths[letter]
        if units < 0:
            return count
    return len(words)
