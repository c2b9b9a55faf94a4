"""What a setting strikes, told the way a maker works: like parts and like work together."""

from __future__ import annotations

from typing import NamedTuple

from layout.checks.words import listed
from layout.part import Part
from layout.piece import Piece
from layout.settings import Setting
from layout.sheets.groups import base_name

_WORK = {
    "near cheek": "tenon cheeks",
    "far cheek": "tenon cheeks",
    "near wall": "mortise walls",
    "far wall": "mortise walls",
    "tenon top": "top of the tenon",
    "tenon bottom": "bottom of the tenon",
    "rabbet": "rabbet depth",
    "rabbet lip": "rabbet lip",
    "near groove wall": "groove walls",
    "far groove wall": "groove walls",
}


class Struck(NamedTuple):
    """One entry to tick: which parts, what work, on which faces, from where, how many lines."""

    parts: tuple[Part, ...]
    work: str
    faces: tuple[str, ...]
    source: str
    lines: int

    def words(self, piece: Piece) -> str:
        """The entry as it reads on the card."""
        count = len(self.parts)
        name = base_name(piece, self.parts)
        who = f"{count} × {name}" if count > 1 else self.parts[0].name
        return f"{who}: {self.work} on {listed(self.faces)}, from the {self.source}"


def struck(piece: Piece, setting: Setting) -> tuple[Struck, ...]:
    """What a setting strikes."""
    groups: dict[tuple[str, str, str], tuple[list[Part], list[str], list[int]]] = {}
    for strike in setting.strikes:
        part = piece.part(strike.part)
        work = _WORK.get(strike.role, strike.role)
        key = (part.kind, work, strike.source)
        parts, faces, counts = groups.setdefault(key, ([], [], []))
        if part not in parts:
            parts.append(part)
        face = "ends" if strike.face in ("end A", "end B") else strike.face
        if face not in faces:
            faces.append(face)
        counts.append(strike.lines)
    return tuple(
        Struck(tuple(parts), work, tuple(faces), source, sum(counts))
        for (_, work, source), (parts, faces, counts) in groups.items()
    )

