"""What a maker wrote, put into messages: shortened, on one line, and named in plain words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

MOST_SHOWN = 40
"""Characters of a maker's value that a message repeats."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def one_line(text: str) -> str:
    """The text with every line end, control and other unprintable character written as escape."""
    return "".join(
        char if char.isprintable() else char.encode("unicode_escape").decode() for char in text
    )


def cut(text: str) -> str:
    """A text on one line, and no longer than a message repeats."""
    text = one_line(text[: MOST_SHOWN + 1])
    return text if len(text) <= MOST_SHOWN else text[: MOST_SHOWN - 1] + "…"


def quoted(value: object) -> str:
    """A value as the maker wrote it, near enough to be found again, and never long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        whole = repr(value[:MOST_SHOWN])
        if len(whole) <= MOST_SHOWN:
            return whole
        return f"{whole[: MOST_SHOWN - 2]}…{whole[-1]}"
    return cut(str(value))


def shown_key(key: str) -> str:
    """A key in a path: bare if it can be, in quotes otherwise."""
    return cut(key) if _BARE.fullmatch(key) else quoted(key)


def kind_of(value: object) -> str:
    """What a maker calls a value of this type."""
    if isinstance(value, bool):
        return "true/false"
    if isinstance(value, str):
        return f"text ({quoted(value)})"
    if isinstance(value, (int, Decimal)):
        return f"a number ({quoted(value)})"
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "a table"
    return "a date"  # of the kinds of value in TOML only dates and times are left


def nearest(word: str, words: Sequence[str]) -> str | None:
    """The one of `words` that `word` was probably meant to be, whatever its capitals."""
    from difflib import get_close_matches

    by_small = {known.lower(): known for known in words}
    # no word of ours is as long as this; comparing a very long one takes very long
    close = get_close_matches(word[:MOST_SHOWN].lower(), by_small, n=1)
    return by_small[close[0]] if close else None
