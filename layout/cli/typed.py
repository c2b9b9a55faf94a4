"""Options as the keys of a piece file: one code reads both, and what it objects to comes back in
the words of the options.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from layout.errors import BadPiece, BadRequest, Where
from layout.mark import Finding
from layout.piece_file.table import Source, Table

# What a piece file is told to say, and what is typed instead; before the keys themselves.
IN_WORDS = (
    ('run = "stopped" under the bottom', "--stopped"),
    ("slips = {}", "--slips"),
    ('edges = "half tails"', "--half-tails"),
    ("said twice, by tails too", "said twice, by --tails too"),
    ("leave out graduated, or pins_at", "leave out --graduated, or --pins-at"),
    ("the file's unit", "--unit"),
    ("give taper too", "give --taper too"),
    ("say how wide a vise opens, or make them holdfast holes", "give --vise"),
    ("or give its figures under [[wood]]", "or give its figures in a piece file, under [[wood]]"),
    ('name it, e.g. timber = "white oak"',
     'name it with --timber, e.g. "white oak"; a sheet is --plywood'),
)
# Keys by themselves are known by their underscores, or by the value that is given to them.
_KEY = re.compile(r"""(?<!['"\w.])([a-z]+(?:_[a-z]+)*)(?: = (?:"([^"]*)"|(\w+)))?(?!['"\w])""")
_NUMBERED = re.compile(r" [0-9]+(?=[.]|$)")
_ONE_OF = re.compile("keep one of ([a-z_, ]+)")
_GOES = re.compile("^([a-z_]+) does not go with")

Values = Mapping[str, object]


def table(values: Values) -> Table:
    """What was typed, as a table of a piece file; None, what was not typed, counts as absent."""
    return Table(values, Source("", {}))


@contextmanager
def as_options(flags: Mapping[str, str]) -> Iterator[None]:
    """BadPiece at a key becomes BadRequest at its option. `flags` names the option of each key;
    keys of an inner table are written with a point.
    """
    try:
        yield
    except BadPiece as error:
        key = error.where.key or ""
        # an item of a list is told by its number: its option is the list's
        flag = key if key.startswith("--") else flags.get(_NUMBERED.sub("", key))
        raise BadRequest(
            in_options(error.what, flags), in_options(error.cure, flags), Where(key=flag)
        ) from None


def in_options(text: str, flags: Mapping[str, str]) -> str:
    """A message with options where it names keys of a piece file."""
    for written, typed in IN_WORDS:
        text = text.replace(written, typed)
    named = {key.rpartition(".")[2]: flag for key, flag in flags.items()}

    def flags_of(found: re.Match[str]) -> str:
        keys = found[1].split(", ")
        return found[0].replace(found[1], ", ".join(named[key] for key in keys if key in named))

    text = _ONE_OF.sub(flags_of, text)
    text = _GOES.sub(flags_of, text)

    def typed_as(found: re.Match[str]) -> str:
        key, text, bare = found[1], found[2], found[3]
        value = text or bare
        if key not in named or ("_" not in key and value is None):
            return found[0]
        if value is None:
            return named[key]
        return f'{named[key]} "{value}"' if " " in value else f"{named[key]} {value}"

    return _KEY.sub(typed_as, text)


def found_in_options(found: tuple[Finding, ...], flags: Mapping[str, str]) -> tuple[Finding, ...]:
    """Findings whose cures name options."""
    return tuple(one._replace(cure=in_options(one.cure, flags)) for one in found)
