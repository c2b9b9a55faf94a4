"""What a setting strikes, told the way a maker works: like parts and like work together."""

from __future__ import annotations

import re
from typing import NamedTuple

from layout.checks.words import listed
from layout.mark import Mark
from layout.part import Part
from layout.piece import Piece
from layout.settings import Setting
from layout.sheets.groups import SURFACES, base_name, told

# What the lines of a role are for. Walls and cheeks of one setting are told together, whichever
# of several tenons they belong to; a tenon's top and bottom say which.
_WORK = {
    "near cheek": "tenon cheeks",
    "far cheek": "tenon cheeks",
    "near wall": "mortise walls",
    "far wall": "mortise walls",
    "tenon top": "top of the tenon",
    "tenon bottom": "bottom of the tenon",
    "rabbet": "rabbet depth",
    "baseline at the rabbet": "baseline at the rabbet",
    "rabbet lip": "rabbet lip",
    "near groove wall": "groove walls",
    "far groove wall": "groove walls",
    "near side": "sides of the key hole",
    "far side": "sides of the key hole",
}


_NUMBER = re.compile(" [0-9]+$")


def work_of(role: str) -> str:
    """What a line of this role is for, as a card tells it."""
    if role in _WORK:
        return _WORK[role]
    for known, work in _WORK.items():
        if role.endswith(f" {known}"):
            before = role.removesuffix(known).strip().rstrip(",")
            if known in ("tenon top", "tenon bottom"):
                return work.replace("the tenon", f"the {before} tenon")
            return work
    # what there are several of is numbered; one entry serves them all
    return _NUMBER.sub("", role)


_ENDS = ("end A", "end B", "each end")


class Struck(NamedTuple):
    """One entry to tick: which parts, what work, on which faces, from where, how many lines.

    `example` is one of its marks, on a long face where it has one, for a drawing of it.
    """

    parts: tuple[Part, ...]
    work: str
    faces: tuple[str, ...]
    source: str
    lines: int
    example: Mark

    def words(self, piece: Piece) -> str:
        """The entry as it reads on the card."""
        who = told(piece, self.parts, hands=False)
        start = self.source if self.source in _ENDS else f"the {self.source}"
        return f"{who}: {self.work} on {listed(self.faces)}, from {start}"


def struck(piece: Piece, setting: Setting) -> tuple[Struck, ...]:
    """What a setting strikes: an entry for every kind of part, work and set of faces."""
    by_part: dict[tuple[str, str, str], list[Mark]] = {}
    for mark in setting.marks:
        work = work_of(mark.role)
        source = "end" if mark.source in _ENDS else mark.source
        by_part.setdefault((mark.part, work, source), []).append(mark)
    groups: dict[tuple[str, str, str, tuple[str, ...]], list[list[Mark]]] = {}
    for (part_id, work, source), marks in by_part.items():
        faces = tuple(dict.fromkeys(_face(mark) for mark in marks))
        kind = piece.part(part_id).kind
        if source == "end":
            ends = dict.fromkeys(mark.source for mark in marks)
            source = "each end" if len(ends) > 1 else next(iter(ends))
        groups.setdefault((kind, work, source, faces), []).append(marks)
    found = []
    for (_, work, source, faces), same in groups.items():
        parts = sorted((piece.part(marks[0].part) for marks in same), key=piece.parts.index)
        marks = [mark for one in same for mark in one]
        long = [mark for mark in marks if mark.face not in ("end A", "end B")]
        found.append(Struck(tuple(parts), work, faces, source, len(marks), (long or marks)[0]))
    # entries of one kind of work stay together, in the order of the parts
    return tuple(
        sorted(found, key=lambda s: min(base_order(piece, part) for part in s.parts))
    )


def base_order(piece: Piece, part: Part) -> int:
    """Where the first part of the same name in the maker's list stands in the piece."""
    names = [base_name(piece, [one]) for one in piece.parts]
    return names.index(base_name(piece, [part]))


def _face(mark: Mark) -> str:
    return "ends" if mark.face in ("end A", "end B") else SURFACES[mark.face]
