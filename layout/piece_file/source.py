"""Opening a piece file: whatever is wrong with it is one BadPiece with its file and line."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from pathlib import Path

from layout.errors import BadPiece, Where
from layout.piece_file.lines import MOST_FIGURES, MOST_LEVELS, Scan, scan
from layout.piece_file.table import Source, Table
from layout.piece_file.words import cut, one_line, shown_key

MOST_BYTES = 1_000_000
"""A piece file is a few kilobytes; anything near this is some other file."""


def read_toml(path: str | Path, kind: str = "piece file") -> Table:
    """The root table of a TOML file. BadPiece where the file can't be opened, read or parsed.

    `kind` is what messages call it.
    """
    file = str(path)
    try:
        with open(path, "rb") as opened:
            written = opened.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise _bad_file(file, "there is no such file", "check the name and the folder") from None
    except IsADirectoryError:
        raise _bad_file(file, "this is a folder", f"name the {kind} in it") from None
    except PermissionError:
        raise _bad_file(
            file, "this file may not be read", "change its permissions, or copy it"
        ) from None
    except (OSError, ValueError) as error:  # ValueError: a zero byte in the name
        reason = getattr(error, "strerror", None) or str(error)
        raise _bad_file(file, f"this file can't be read ({reason})", "check the name") from None
    if len(written) > MOST_BYTES:
        raise _too_large(file, kind)
    try:
        text = written.decode("utf-8")
    except UnicodeDecodeError as error:
        line = written.count(b"\n", 0, error.start) + 1
        raise _bad_file(
            file, "this is not a text file in UTF-8", "save it as plain text in UTF-8", line
        ) from None
    return parse_toml(text, file)


def parse_toml(text: str, file: str) -> Table:
    """The root table of a TOML text; `file` is the name that errors give. BadPiece if it can't be.

    Numbers with a point come as Decimal, so that nothing is rounded on the way in. Besides what
    TOML itself refuses, so are keys more than MOST_LEVELS deep and bare numbers of more than
    MOST_FIGURES characters: tomllib would take very long over the first and fail on the second.
    """
    if len(text) > MOST_BYTES:
        raise _too_large(file)
    file = one_line(file)  # a file's name may hold a line end; a message may not
    text = text.removeprefix("\ufeff")  # the byte order mark that some editors put first
    seen = scan(text)
    if seen.deep is not None:
        raise _bad_file(
            file,
            f"more than {MOST_LEVELS} levels of lists and tables, one inside another",
            "write it flatter",
            seen.deep,
        )
    if seen.long is not None:
        raise _bad_file(
            file,
            f"a value without quotes that is longer than {MOST_FIGURES} characters",
            "put text in quotes, and write a size with fewer figures",
            seen.long,
        )
    try:
        values = tomllib.loads(text, parse_float=_decimal)
    except tomllib.TOMLDecodeError as error:
        raise _bad_syntax(str(error), text, file, seen) from None
    except (ValueError, ArithmeticError, RecursionError):
        # The scan above has refused what is known to lead here; this is for what isn't known.
        raise _bad_file(
            file, "this can't be read as TOML", "look for a very long number or deep brackets"
        ) from None
    return Table(values, Source(file, seen.lines))


def _decimal(written: str) -> Decimal:
    """A TOML number with a point or a power, unrounded.

    Decimal itself fails on a power of some twenty figures. Such a number is no size either way,
    so it becomes one that every reader of a size refuses, there where the key and line are known.
    """
    try:
        return Decimal(written)
    except ArithmeticError:
        return Decimal("Infinity")


def _bad_file(file: str, what: str, cure: str, line: int | None = None) -> BadPiece:
    return BadPiece(one_line(what), one_line(cure), Where(one_line(file), line))


def _too_large(file: str, kind: str = "piece file") -> BadPiece:
    return _bad_file(
        file, f"more than {MOST_BYTES // 1000} kB is no {kind}", "check the name of the file"
    )


# What tomllib says, at the start of its message, and what a maker is told instead.
_SYNTAX = (
    (
        "Expected newline or end of document after a statement",
        "something follows the value on this line",
        'put a size with a fraction, a comma or a unit in quotes, e.g. "2 1/2"',
    ),
    (
        "Invalid value",
        "no value that can be read stands here",
        "put text and fractions in quotes; write 0.5, not .5; true and false have small letters",
    ),
    ("Expected '=' after a key", "an = is missing after the key", "write key = value"),
    (
        "Invalid statement",
        "this line is no key = value",
        "write key = value, the key in letters from a to z; put # before a remark",
    ),
    (
        "Invalid initial character for a key",
        "a key is missing here",
        "keys are letters, figures and _; no comma goes before a closing }",
    ),
    ("Expected ']]'", "the ]] is missing", "write the heading as [[name]]"),
    ("Expected ']'", "the ] is missing", "write the heading as [name]"),
    ("Unclosed array", "the list isn't closed", "put a comma between its items and ] at its end"),
    (
        "Unclosed inline table",
        "the { is not closed on its own line",
        "put a comma between its keys and } at its end, all on one line",
    ),
    ("Unterminated string", "the closing quote is missing", "end the text with the same quote"),
    ("Expected \"'''\"", "the closing ''' is missing", "end the text with the same quotes"),
    ('Expected \'"""\'', 'the closing """ is missing', "end the text with the same quotes"),
    ('Expected "\'"', "the closing quote is missing", "end the text with the same quote"),
    (
        "Illegal character '\\n'",
        "the closing quote is missing on this line",
        "end the text with the same quote",
    ),
    ("Illegal character", "a control character stands in the text", "take it out"),
    ("Found invalid character", "a control character or line end is in the way", "take it out"),
    ("Unescaped '\\'", "a \\ stands alone in the text", "write \\\\, or use single quotes"),
    ("Invalid hex value", "a \\u needs four hexadecimal figures", "write the character itself"),
    ("Escaped character", "this \\u stands for no character", "write the character itself"),
    ("Cannot overwrite", "this key or heading is used twice", "keep one of the two"),
    ("Duplicate inline table key", "this key is used twice", "keep one of the two"),
    (
        "Cannot declare",
        "this heading is used twice, or is a key already",
        "keep one; where several are meant, write each with double brackets, e.g. [[frame.rail]]",
    ),
    ("Cannot ", "this adds to a table that is closed already", "write all its keys in one place"),
    ("Invalid date", "there is no such date or time", "put text in quotes"),
)
_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_CURLY = "“”„‟‘’‚‛″′"


def _bad_syntax(message: str, text: str, file: str, seen: Scan) -> BadPiece:
    """tomllib's message as a maker's sentence, with its line."""
    place = _PLACE.search(message)
    told = message[: place.start()] if place else message
    if place and place[1]:
        line, column = int(place[1]), int(place[2])
    else:
        line, column = text.rstrip().count("\n") + 1, None
    what, cure = f"this can't be read as TOML ({cut(told)})", "see the line named here"
    for start, plain, better in _SYNTAX:
        if told.startswith(start):
            what, cure = plain, better
            break
    if told.startswith(("Cannot overwrite", "Duplicate")) and seen.twice is not None:
        path, first, line = seen.twice
        what = f"{shown_key(str(path[-1]))} is given twice"
        cure = f"keep one of the two; the first is on line {first}"
    elif column is not None and _character(text, line, column) in _CURLY:
        what, cure = "a curly quote stands here", 'use straight quotes, as in "2 1/2"'
    elif seen.unclosed is not None and (column is None or seen.unclosed < line):
        if column is None:  # the text ran out: where it began says more than where it ends
            line = seen.unclosed
            if told.startswith(("Invalid value", "Unclosed")):
                what, cure = "what is opened here is never closed", "put ] or } at its end"
        else:
            cure += f" (or close what was opened on line {seen.unclosed})"
    return _bad_file(file, what, cure, line)


def _character(text: str, line: int, column: int) -> str:
    """The character at a place that tomllib named; a space past the end of the line."""
    row = text.split("\n")[line - 1]
    return row[column - 1 : column] or " "
