"""The cut list: every part at its finished size, tenons included, like parts on one row, grouped as
a maker reads it: by assembly, then by timber and thickness.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from layout.joints.worked import Loose
from layout.measure import show
from layout.part import Part
from layout.piece import Piece
from layout.stock.assemblies import DRIVEN, LOOSE, assembly_of, base_name, ordered

if TYPE_CHECKING:
    from layout.builds.door import Door


@dataclass(frozen=True)
class Row:
    """One row of the cut list; sizes in mm, `parts` the ids that it counts, `letter` the one that
    the drawing shows, `assembly` what the parts belong to (assemblies.py), `left` what a part is
    left longer by until it is glued up: horns, tenons left proud.
    """

    name: str
    count: int
    timber: str
    thickness: Fraction
    width: Fraction
    length: Fraction
    note: str
    parts: tuple[str, ...]
    letter: str
    assembly: str = ""
    left: Fraction = Fraction(0)

    @property
    def cut_length(self) -> Fraction:
        """How long it is cut at first, in mm: with what is left until it is glued up."""
        return self.length + self.left


def cut_list(piece: Piece) -> tuple[Row, ...]:
    """The rows, grouped and lettered in that order. Parts alike in assembly, kind, timber and
    finished size share one; loose stuff has no letter, for no drawing shows it.
    """
    named = assembly_of(piece)
    groups: dict[tuple[str, str, str, Fraction, Fraction, Fraction, str], list[Part]] = {}
    for part in piece.parts:
        key = (
            named[part.id],
            part.kind,
            part.timber,
            part.length,
            part.width,
            part.thickness,
            base_name(piece, part),
        )
        groups.setdefault(key, []).append(part)
    bases = [key[-1] for key in groups]
    rows = [
        Row(
            base,
            len(parts),
            timber,
            thickness,
            width,
            length,
            _note(piece, parts, bases.count(base) > 1),
            tuple(part.id for part in parts),
            "",
            assembly,
            _left(piece, parts[0]),
        )
        for (assembly, _, timber, length, width, thickness, base), parts in groups.items()
    ]
    found = ordered(piece, [*rows, *_loose_rows(piece)])
    lettered = (letter(number) for number in range(len(rows)))
    return tuple(replace(row, letter=next(lettered)) if row.parts else row for row in found)


def _loose_rows(piece: Piece) -> tuple[Row, ...]:
    """Wedges and pegs: like ones together, with the rails they belong to."""
    groups: dict[tuple[str, Fraction, Fraction, Fraction, str], list[Loose]] = {}
    for item in piece.loose:
        key = (item.name, item.thickness, item.width, item.length, item.note)
        groups.setdefault(key, []).append(item)
    found = []
    for (name, thickness, width, length, note), items in groups.items():
        rails = dict.fromkeys(base_name(piece, piece.part(item.rail)) for item in items)
        found.append(
            Row(
                name,
                sum(item.many for item in items),
                "",
                thickness,
                width,
                length,
                f"for the {' and the '.join(rails)}; {note}",
                (),
                "",
                LOOSE,
            )
        )
    return tuple(found)


def letter(index: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _glued(piece: Piece, boards: tuple[Fraction, ...]) -> str:
    """What a wide part is glued up of."""
    if len(set(boards)) == 1:
        return f"glued up of {len(boards)} boards {show(boards[0], piece.rule).text} wide"
    widths = ", ".join(show(board, piece.rule).text for board in boards)
    return f"glued up of {len(boards)} boards from the lower edge: {widths} wide"


def _strips(piece: Piece, part: Part) -> Iterator[str]:
    """What a top's part is glued up of."""
    for laid in piece.tops:
        top = laid.top
        if top.strips is None or part not in top.slabs:
            continue
        front = part.placement.origin[1] - top.origin[1]
        many = sum(front <= one.low < front + part.width for one in top.strips.strips)
        if many > 1:
            width = show(part.width / many, piece.rule).text
            way = "wide" if top.strips.choice.lay == "flat" else "thick, on edge"
            yield f"glued up of {many} strips {width} {way}"


def _note(piece: Piece, parts: list[Part], not_alone: bool) -> str:
    """What else to know: hands, tenons, grain, and which parts they are where another row has
    the same name.
    """
    words = []
    glued = [chest.glued[part.id] for part in parts for chest in piece.chests
             if part.id in chest.glued]
    if not_alone or parts[0].kind.endswith(" long side"):
        words.append(", ".join(part.name for part in parts))
    hands = [part.hand for part in parts]
    if any(hands):
        words.append(", ".join(f"{hands.count(hand)} {hand} hand" for hand in ("left", "right")
                               if hand in hands))
    words += dict.fromkeys(_glued(piece, boards) for boards in glued if len(boards) > 1)
    ids = {part.id for part in parts}
    words += [told for part in parts for told in _strips(piece, part)]
    if any(one.rail.part.id in ids for one in piece.rails):
        words.append("length includes both tenons")
    if any(slide.slider.id in ids for slide in piece.slides):
        words.append("length includes what goes into the boards at its ends")
    if parts[0].kind == DRIVEN:
        joints = {cut.joint for part in parts for cut in piece.cuts_of(part.id)}
        rails = dict.fromkeys(base_name(piece, one.rail.part) for one in piece.rails
                              if {f"{one.rail.part.id}.A", f"{one.rail.part.id}.B"} & joints)
        words.append(f"for the {' and the '.join(rails)}")
        words.append("width at the thick end; tapered along one edge")
    for door in piece.doors:
        words += _door_words(piece, door, ids)
    grains = {panel.choice.grain for panel in piece.panels if panel.part.id in ids}
    grains |= {door.choice.panel.grain for door in piece.doors for bay in door.bays
               if bay.part.id in ids and bay.part.timber != "glass"}
    words += [f"grain {grain}, along the length" for grain in sorted(grains)]
    return "; ".join(dict.fromkeys(words))


def _left(piece: Piece, part: Part) -> Fraction:
    """What a door's stile or through rail is left longer by, at both ends together, in mm."""
    for door in piece.doors:
        if part in door.stiles:
            return 2 * door.choice.horn
        if any(one.size.through and one.rail.part.id == part.id for one in door.rails):
            return 2 * door.choice.trim
    return Fraction(0)


def _door_words(piece: Piece, door: Door, ids: set[str]) -> Iterator[str]:
    """What a door's stiles and rails are cut to before it is glued up."""
    horn, trim = door.choice.horn, door.choice.trim
    if horn and any(stile.id in ids for stile in door.stiles):
        long = show(door.height + 2 * horn, piece.rule).text
        yield f"cut {long} long, with a horn of {show(horn, piece.rule).text} at each end"
    for one in door.rails:
        if trim and one.size.through and one.rail.part.id in ids:
            long = show(one.rail.part.length + 2 * trim, piece.rule).text
            yield f"cut {long} long, {show(trim, piece.rule).text} left proud at each end"
