"""A tenon's choices with what is usual filled in, and which of them can't stand together.

Shared by the keys of a piece file (tenon_keys.py) and the options of `joint tenon`. Lengths in
mm; None is what the maker left open. What is usual, and its source: layout/defaults.toml.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.defaults import Unit, default_length, default_ratio
from layout.joints.choices import (
    HaunchChoice,
    KeyChoice,
    PairChoice,
    RailEdge,
    TenonChoice,
    WedgeChoice,
)

ZERO = Fraction(0)


def tenon(
    unit: Unit, web_least: Fraction | None = None, wall_least: Fraction | None = None
) -> TenonChoice:
    """A tenon of which nothing has been said."""
    return TenonChoice(
        glue_room=default_length("glue_room", unit),
        shoulder=default_length("top_shoulder", unit),
        web_least=_or(web_least, "web_least", unit),
        wall_least=_or(wall_least, "wall_least", unit),
        mitre_gap=default_length("mitre_gap", unit),
    )


def haunch(
    unit: Unit,
    kind: Literal["square", "sloped", "groove"],
    edge: RailEdge = "edge",
    width: Fraction | None = None,
    length: Fraction | None = None,
    room: Fraction | None = None,
) -> HaunchChoice:
    """A haunch at an edge of the rail."""
    return HaunchChoice(
        kind,
        edge,
        _or(room, "haunch_room", unit),
        default_length("haunch_length", unit),
        width,
        length,
    )


def pair(
    unit: Unit,
    web: Fraction | None = None,
    haunch: Fraction = ZERO,
    room: Fraction | None = None,
) -> PairChoice:
    """Two tenons one above the other."""
    return PairChoice(web, haunch, _or(room, "haunch_room", unit))


def wedges(
    unit: Unit,
    many: Literal[1, 2] = 2,
    thickness: Fraction | None = None,
    saw_cut: Fraction | None = None,
    from_edge: Fraction | None = None,
    length: Fraction | None = None,
) -> WedgeChoice:
    """Wedges in saw cuts of a through tenon."""
    return WedgeChoice(
        many,
        _or(thickness, "wedge_thickness", unit),
        _or(saw_cut, "kerf", unit),
        _or(from_edge, "wedge_from_edge", unit),
        length,
    )


def key(
    unit: Unit,
    way: Literal["thickness", "width"] = "thickness",
    wide: Fraction | None = None,
    taper: Fraction | None = None,
    pull: Fraction | None = None,
    beyond: Fraction | None = None,
    proud: Fraction | None = None,
    width: Fraction | None = None,
) -> KeyChoice:
    """A tapered key through a tenon that stands beyond its leg; `taper` is a ratio."""
    return KeyChoice(
        way,
        _or(wide, "key_wide", unit),
        default_ratio("key_taper") if taper is None else taper,
        _or(pull, "key_pull", unit),
        _or(beyond, "key_beyond", unit),
        _or(proud, "key_proud", unit),
        width,
    )


def _or(given: Fraction | None, name: str, unit: Unit) -> Fraction:
    return default_length(name, unit) if given is None else given


# -- what can't stand together

SHOULDERS = ("outer_shoulder", "inner_shoulder", "barefaced")
DRIVEN = ("wedges", "side_wedge", "key")
_WORDS = {"wedges": "wedges", "side_wedge": "a wedge beside the tenon", "key": "a key"}


class Clash(NamedTuple):
    """Two choices that contradict each other: the key to point at, what is wrong, the cure."""

    key: str
    what: str
    cure: str


def clash(choice: TenonChoice, named: Callable[[str], str]) -> Clash | None:
    """The first contradiction among a tenon's choices, None where there is none.

    `named` tells how the maker writes a key: `through = true` in a file, `--through` typed.
    """
    return next(_clashes(choice, named), None)


def _clashes(choice: TenonChoice, named: Callable[[str], str]) -> Iterator[Clash]:
    through = named("through")
    driven = [one for one in DRIVEN if getattr(choice, one) is not None]
    if driven and not choice.through:
        what = f"{_WORDS[driven[0]]} must come out of a through tenon"
        yield Clash(driven[0], what, f"write {through} beside it")
    if len(driven) > 1:
        both = " and ".join(_WORDS[one] for one in driven[:2])
        yield Clash(driven[1], f"the tenon has both {both}", "keep one of the two")
    if choice.projection and not choice.through:
        what = "only a through tenon can stand proud of the leg"
        yield Clash("projection", what, f"write {through}, or leave {named('projection')} out")
    if choice.through and choice.length is not None:
        yield Clash(
            "length",
            "a through tenon is as long as the leg and its projection",
            f"leave {named('length')} out; give {named('projection')} if it is to stand proud",
        )
    if choice.through and choice.stub:
        what = "a stub tenon ends inside the leg, a through tenon does not"
        yield Clash("stub", what, "keep one of the two")
    if choice.through and choice.meeting == "mitred":
        yield Clash("meeting", "a through tenon can't be mitred", 'leave out meeting = "mitred"')
    if choice.notched and choice.meeting != "passing":
        what = "a tenon is only notched where another passes through it"
        yield Clash("notched", what, 'write meeting = "passing" too, or leave notched out')
    for two in (choice.pair, choice.twin):
        if choice.side_wedge is not None and two is not None:
            yield Clash(
                "side_wedge",
                "a wedge beside the tenon needs one tenon",
                f"leave {named('pair')} and {named('twin')} out",
            )
    if choice.side_wedge is not None and choice.side_wedge.splay and choice.meeting == "passing":
        yield Clash(
            "side_wedge",
            "a tenon that widens toward its end can't pass through another's notch",
            'leave splay out, or meeting = "passing"',
        )
    key = choice.key
    if key is not None and (
        (key.way == "width" and choice.pair is not None)
        or (key.way == "thickness" and choice.twin is not None)
    ):
        yield Clash(
            "key",
            "two keys driven that way would run into each other",
            "drive them the other way"
            if choice.pair is None or choice.twin is None
            else "use one tenon",
        )
    given = [one for one in SHOULDERS if getattr(choice, one) is not None]
    if len(given) > 1:
        yield Clash(
            given[1],
            f"the tenon's place is given twice, by {named(given[0])} and {named(given[1])}",
            "keep one of them",
        )
    yield from _haunch_clashes(choice, named)


def _haunch_clashes(choice: TenonChoice, named: Callable[[str], str]) -> Iterator[Clash]:
    one = choice.haunch
    if one is None:
        return
    if one.kind == "groove" and one.length is not None:
        yield Clash(
            "haunch",
            "a haunch that fills a groove is as long as the groove is deep",
            "leave the haunch's length out",
        )
    shoulder = shoulder_beside(one)
    if getattr(choice, shoulder) is not None:
        yield Clash(
            shoulder,
            f"a haunch stands where {named(shoulder)} would be",
            f"leave {named(shoulder)} out, and give the haunch's width instead",
        )


def shoulder_beside(one: HaunchChoice) -> str:
    """The shoulder, by its key, whose place a haunch takes."""
    return "top_shoulder" if one.edge == "edge" else "bottom_shoulder"
