"""Reading lengths and counts as makers write them.

The number is read by a grammar of our own in which every character counts: what the grammar
does not foresee is refused, never guessed at. Units come from layout.measure.units.
"""

from __future__ import annotations

import re
import unicodedata
from decimal import Decimal
from fractions import Fraction

from layout.errors import BadMeasure
from layout.measure.units import AT_ONCE, FOOT, INCH, unit_length

MOST_CHARACTERS = 60
MOST_DIGITS = 12
LONGEST = Fraction(100_000)
"""Mm. Nothing that is built of boards is longer than 100 m."""

_LIKE = """write it like 2 3/8, 2.375, 60 mm or 1' 2 1/2\""""

# -- characters: what word processors and other keyboards put for the plain ones

_SPACES = (
    "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"
    "\u202f\u205f\u3000"
)
_DASHES = "‐‑‒–−"  # hyphen, unbreaking hyphen, figure dash, en dash, minus sign
_PLAIN = str.maketrans(
    dict.fromkeys(_SPACES, " ")
    | dict.fromkeys(_DASHES, "-")
    | dict.fromkeys("′’‘", "'")
    | dict.fromkeys("″”“", '"')
    | dict.fromkeys("⁄∕", "/")
)
# Controls, invisible marks, line and paragraph ends, half characters, and what is not assigned.
_UNSEEN = {"Cc", "Cf", "Cn", "Co", "Cs", "Zl", "Zp"}

_GLYPHS = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅐": Fraction(1, 7),
    "⅑": Fraction(1, 9),
    "⅒": Fraction(1, 10),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "↉": Fraction(0),  # 0/3
}

# -- the grammar

# (++ takes all the digits there are, so that a slip isn't looked for in half a number)
_TYPED = "[0-9]+/[0-9]++"  # 3/8
_GLYPH = f"(?:[{''.join(_GLYPHS)}]|⅟[0-9]++)"  # ⅜, or ⅟ with a denominator after it
_PART = f"(?:{_TYPED}|{_GLYPH})"
# 2.375, .5; 2, 2 3/8, 2-3/8, 2⅜, 2 ⅜, 2-⅜; 3/8, ⅜
_NUMBER = f"(?:[0-9]*[.][0-9]+|[0-9]+(?:(?: +|-){_TYPED}|(?: *|-){_GLYPH})?|{_PART})"
_UNIT = """(?:'|"|[A-Za-zµμ]+[.]?)"""  # both micro signs
_LENGTH = re.compile(
    f"(?P<sign>-?)(?P<number>{_NUMBER})"
    f"(?: *(?P<unit>{_UNIT})"
    f"(?: *-? *(?P<number2>{_NUMBER}) *(?P<unit2>{_UNIT}))?)?"
)
_LAST_PART = re.compile(f"{_PART}$")
_EXPONENT = re.compile("[0-9.][eE][+-]?[0-9]")
_COUNT = re.compile("-?[0-9]+")

# Why a text is no length, the likeliest reason first: pattern, what is wrong, what to do.
_SLIPS = tuple(
    (re.compile(pattern), what, cure)
    for pattern, what, cure in (
        (f"^[^0-9⅟{''.join(_GLYPHS)}]*$", "has no number in it", _LIKE),
        ("°", "is an angle or a temperature, not a length", _LIKE),
        ("_", "has an underscore in it", "leave it out"),
        ("[+]", "has a plus sign in it", f"leave it out; {_LIKE}"),
        ("^- *-", "has two minus signs", "write one, or none"),
        ("/ *[0-9]+ */", "has more than one fraction bar", "write one fraction, like 2 3/8"),
        (
            f"[.][0-9]+[ -]*{_PART}|/ *[0-9]*[.][0-9]",
            "mixes a decimal and a fraction",
            "write one or the other, like 2 3/8 or 2.375",
        ),
        (
            f"{_PART}[ -]*[0-9⅟{''.join(_GLYPHS)}]",
            "has a number after its fraction",
            "write one fraction, and last, like 2 3/8",
        ),
        ("[0-9] +/|/ +[0-9]", "has spaces in its fraction", "write it close up, like 2 3/8"),
        ("[0-9](?: +-|- +)", "has a space beside its hyphen", "write 2-3/8 close up, or 2 3/8"),
        (
            "[0-9][ -]+[0-9]+(?![0-9/])",
            "is two numbers side by side",
            "write a fraction like 2 3/8, a decimal like 2.375",
        ),
        ("[0-9][.](?![0-9])", "has a point with no digit after it", _LIKE),
        (
            f"^-?{_NUMBER} *{_UNIT} *-? *{_NUMBER}$",
            "has no unit at its end",
            """write feet and inches like 1' 2 1/2\"""",
        ),
    )
)


def read_length(written: object, unit: str, *, signed: bool = False) -> Fraction:
    """A length in mm, exactly, from what the maker wrote.

    `written` is text, an int or a Decimal; `unit` ("in" or "mm") is meant where the text names
    none. Below zero is refused unless `signed`; zero is not refused. BadMeasure, without a
    place, for everything that is no length of at most 100 m either way.
    """
    if unit not in ("in", "mm"):
        raise BadMeasure(f"bare numbers can't be in {unit!r}", 'write "in" or "mm"')
    if isinstance(written, bool) or not isinstance(written, (str, int, Decimal)):
        raise BadMeasure(f"a length can't be {_kind(written)}", _LIKE)
    if isinstance(written, str):
        length = _from_text(written, unit)
    else:
        length = _from_number(written) * AT_ONCE[unit]
    if length < 0 and not signed:
        raise BadMeasure(f"{quoted(written)} is below zero", "write it without the minus sign")
    if abs(length) > LONGEST:
        raise BadMeasure(f"{quoted(written)} is more than 100 m", "check the number and its unit")
    return length


def read_count(written: object, least: int = 1, most: int = 200) -> int:
    """A whole number from `least` to `most`, from an int or from digits in text.

    BadMeasure, without a place, for anything else.
    """
    cure = f"write a whole number from {least} to {most}"
    if isinstance(written, bool) or not isinstance(written, (str, int, Decimal)):
        raise BadMeasure(f"a count can't be {_kind(written)}", cure)
    if isinstance(written, str):
        _refuse_unreadable(written, "count", cure)
        text = written.translate(_PLAIN).strip(" ")
        if _COUNT.fullmatch(text) is None:
            raise BadMeasure(f"{quoted(written)} is not a whole number", cure)
        count = int(text)
    elif isinstance(written, Decimal):
        raise BadMeasure(f"{quoted(written)} is not a whole number", cure)
    else:
        count = written
    if not least <= count <= most:
        raise BadMeasure(f"{quoted(written)} is not from {least} to {most}", cure)
    return count


def quoted(written: str | int | Decimal) -> str:
    """What the maker wrote, short enough for a message: text in quotes, a number bare."""
    if isinstance(written, str):
        short = written if len(written) <= MOST_CHARACTERS else f"{written[:20]}…"
        return "'" + "".join(char if char.isprintable() else " " for char in short) + "'"
    if isinstance(written, int) and abs(written) >= 10**MOST_DIGITS:
        return "this number"  # writing a very long one out takes long, or fails
    return _short(str(written))


def _short(text: str) -> str:
    return text if len(text) <= 20 else f"{text[:19]}…"


def _kind(value: object) -> str:
    """What a maker calls a value of a type that is never right."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if value is None:
        return "left empty"
    if isinstance(value, float):
        return "a binary float"
    return {"list": "a list", "dict": "a table"}.get(type(value).__name__, "of this kind")


def _from_number(written: int | Decimal) -> Fraction:
    """A TOML number, bare. Checked by its digits and exponent, which cost nothing to look at."""
    if isinstance(written, int):
        if abs(written) >= 10**MOST_DIGITS:
            raise _too_many_digits()
        return Fraction(written)
    if not written.is_finite():
        raise BadMeasure(f"{quoted(written)} is no number", _LIKE)
    _, digits, exponent = written.as_tuple()
    if not isinstance(exponent, int) or exponent > 0:
        raise _exponent(written)
    # 0.001 has the one digit 1 and the exponent -3, but is written with four digits
    if max(len(digits), 1 - exponent) > MOST_DIGITS:
        raise _too_many_digits()
    return Fraction(written)


def _from_text(written: str, unit: str) -> Fraction:
    _refuse_unreadable(written, "length", _LIKE)
    text = written.translate(_PLAIN).strip(" ")
    if _EXPONENT.search(text) is not None:  # 1e5 mm would else be 1 of a unit e, and 5 mm
        raise _exponent(written)
    found = _LENGTH.fullmatch(text)
    if found is None:
        raise _slip(written, text)
    one = _number(found["number"], written)
    if found["number2"] is None:
        length = one * unit_length(found["unit"] or unit)
    else:
        length = _feet_and_inches(found, written)
    return -length if found["sign"] else length


def _refuse_unreadable(written: str, noun: str, cure: str) -> None:
    """Text that is not worth reading: empty, too long, with hidden characters or endless digits."""
    if len(written) > MOST_CHARACTERS:
        raise BadMeasure(
            f"{quoted(written)} is too long for a {noun}",
            f"write at most {MOST_CHARACTERS} characters",
        )
    for char in written:
        if unicodedata.category(char) in _UNSEEN:
            raise BadMeasure(
                f"a character that can't be seen (U+{ord(char):04X}) stands in this {noun}",
                "take it out",
            )
    if not written.translate(_PLAIN).strip(" "):
        raise BadMeasure(f"this {noun} is empty", cure)
    for run in re.findall("[0-9.]+", written):
        if len(run.replace(".", "")) > MOST_DIGITS:
            raise _too_many_digits()


def _too_many_digits() -> BadMeasure:
    return BadMeasure(f"a number here has more than {MOST_DIGITS} digits", "write fewer digits")


def _exponent(written: str | Decimal) -> BadMeasure:
    return BadMeasure(f"{quoted(written)} has an exponent", "write the number out")


def _number(token: str, written: str) -> Fraction:
    """The value of what _NUMBER matched."""
    if "." in token:
        return Fraction(token)
    found = _LAST_PART.search(token)
    if found is None:
        return Fraction(int(token))
    part = _part(found[0], written)
    whole = token[: found.start()].strip(" -")
    if not whole:
        return part
    if part >= 1:
        raise BadMeasure(
            f"the fraction in {quoted(written)} is one or more",
            "beside a whole number write a fraction under one, like 2 3/8",
        )
    return int(whole) + part


def _part(token: str, written: str) -> Fraction:
    """The value of what _PART matched."""
    if token in _GLYPHS:
        return _GLYPHS[token]
    over, under = ("1", token[1:]) if token[0] == "⅟" else token.split("/")
    if int(under) == 0:
        raise BadMeasure(f"{quoted(written)} has 0 under its fraction bar", "write it like 3/8")
    return Fraction(int(over), int(under))


def _feet_and_inches(found: re.Match[str], written: str) -> Fraction:
    """1' 2 1/2": whole feet, then inches under twelve. No other two units go together."""
    units = (unit_length(found["unit"]), unit_length(found["unit2"]))
    if units != (FOOT, INCH):
        raise BadMeasure(
            f"{quoted(written)} is two lengths",
            "write one number and one unit; only feet and inches go together",
        )
    feet, inches = found["number"], _number(found["number2"], written)
    if not feet.isdigit():
        raise BadMeasure(f"the feet in {quoted(written)} are not whole", """write it like 1' 6\"""")
    if inches >= 12:
        raise BadMeasure(
            f"the inches in {quoted(written)} are a foot or more",
            "after feet write inches under 12",
        )
    return int(feet) * FOOT + inches * INCH


def _slip(written: str, text: str) -> BadMeasure:
    """Why a text is no length."""
    if "," in text:
        return BadMeasure(f"{quoted(written)} has a comma in it", _comma_cure(text))
    for pattern, what, cure in _SLIPS:
        if pattern.search(text):
            return BadMeasure(f"{quoted(written)} {what}", cure)
    return BadMeasure(f"{quoted(written)} can't be read as a length", _LIKE)


def _comma_cure(text: str) -> str:
    pointed, plain = text.replace(",", "."), text.replace(",", "")
    if re.search("[0-9],[0-9]{3}(?![0-9])", text):
        return f"write {plain} for thousands, {pointed} for a decimal"
    if re.fullmatch("[^,]*,[0-9][^,]*", text):
        return f"write {pointed}"
    return "leave it out; " + _LIKE
