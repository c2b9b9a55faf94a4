"""What belongs together: the frame, each box, door and top of a piece, and its loose stuff.

A cut list is read by assembly, then by timber, then from thick to thin, as the boards are taken
from the rack (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from layout.checks.words import listed
from layout.part import Part
from layout.piece import Piece

if TYPE_CHECKING:
    from layout.stock.cut_list import Row

FRAME = "frame"
LOOSE = "loose stuff"
# A part that a joint brings with it, and that is driven in: it goes with the pegs and wedges.
DRIVEN = "key"


class Assembly(NamedTuple):
    """Parts that make one thing: what it is called, and the parts' ids."""

    name: str
    parts: tuple[str, ...]


def assemblies(piece: Piece) -> tuple[Assembly, ...]:
    """The assemblies of a piece in the order that it has them, the loose stuff last."""
    found: dict[str, list[str]] = {}
    named = assembly_of(piece)
    for part in piece.parts:
        found.setdefault(named[part.id], []).append(part.id)
    loose = found.pop(LOOSE, [])
    if loose or piece.loose:
        found[LOOSE] = loose
    return tuple(Assembly(name, tuple(parts)) for name, parts in found.items())


def assembly_of(piece: Piece) -> dict[str, str]:
    """The name of the assembly that each part belongs to, by part id."""
    named = {part.id: LOOSE if part.kind == DRIVEN else FRAME for part in piece.parts}
    for case in piece.carcases:
        named |= dict.fromkeys(_ids(case.parts), titled("carcase", case.choice.name))
    for chest in piece.chests:
        named |= dict.fromkeys(_ids(chest.parts), titled("chest", chest.choice.name))
    for laid in piece.tops:
        named |= dict.fromkeys(_ids(laid.parts), titled("top", laid.top.choice.name))
    for word, boxes in (("drawer", piece.drawers), ("door", piece.doors)):
        # all that one entry of the maker's list makes are one assembly: their parts are made in
        # one go, and like ones share a row
        for choice in dict.fromkeys(box.choice.name for box in boxes):
            same = [box for box in boxes if box.choice.name == choice]
            title = _titled_all(word, choice, [box.name for box in same])
            for box in same:
                named |= dict.fromkeys(_ids(box.parts), title)
    for divider in piece.dividers:  # each stands in what is set up before it
        named[divider.part.id] = named[divider.slides[0].bearer.id]
    return named


def _ids(parts: Iterable[Part]) -> list[str]:
    return [part.id for part in parts]


def titled(word: str, name: str) -> str:
    """What an assembly is called: `top`, `cupboard door`, `carcase cabinet`."""
    return name if name.split()[-1] == word else f"{word} {name}"


def _titled_all(word: str, name: str, names: Sequence[str]) -> str:
    """What several alike are called: `drawers 1 to 4`, `doors: left door and right door`."""
    one = titled(word, name)
    if len(names) == 1:
        return titled(word, names[0])
    many = f"{one}s" if one.split()[-1] == word else f"{word}s {name}"
    if list(names) == [f"{name} {number}" for number in range(1, len(names) + 1)]:
        return f"{many} 1 {'and' if len(names) == 2 else 'to'} {len(names)}"
    if list(names) == [f"left {name}", f"right {name}"]:
        return f"{many}, left and right"
    return f"{many}: {listed(names)}"


def ordered(piece: Piece, rows: Sequence[Row]) -> tuple[Row, ...]:
    """Rows by assembly in the order that the piece has them, then by timber as each assembly first
    has it, then from thick to thin, then as they come.
    """
    places = [one.name for one in assemblies(piece)]
    timbers: dict[str, list[str]] = {}
    for row in rows:
        here = timbers.setdefault(row.assembly, [])
        if row.timber not in here:
            here.append(row.timber)
    return tuple(sorted(rows, key=lambda row: (
        places.index(row.assembly), timbers[row.assembly].index(row.timber), -row.thickness
    )))


def base_name(piece: Piece, part: Part) -> str:
    """A part's name in the maker's list, without the side."""
    for one in piece.rails:
        if one.rail.part.id == part.id:
            return one.rail.choice.name
    for panel in piece.panels:
        if panel.part.id == part.id:
            return panel.choice.name
    return part.kind
