"""A part cut square across and looked at from end A: what every gauge line means.

The face side lies on top and the face edge at the left, whatever the part's hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.mark import Cut, Mark
from layout.part import Part
from layout.piece import Piece
from layout.scene.strokes import Pen, Spot
from layout.sheets.easel import ZERO, Easel, mm
from layout.sheets.figures_of import section_at

# The face mark stands at the right of a name over the section: on a narrower one it has no room.
LEAST_MARKED = mm(17)
# A section only shows what a figure means, so it is as large as fits, at a whole ratio.
SCALES = tuple(Fraction(1, n) for n in range(1, 51))


class Section(NamedTuple):
    """Where a section stands on the sheet: its upper left corner, its scale and its sizes."""

    at: Spot
    scale: Fraction
    part: Part

    def spot(self, w: Fraction, t: Fraction) -> Spot:
        """A place (W, T) of the part, in mm on the sheet."""
        return (self.at[0] + w * self.scale, self.at[1] - t * self.scale)

    @property
    def right(self) -> Fraction:
        """The far edge, on the sheet."""
        return self.spot(self.part.width, ZERO)[0]

    @property
    def foot(self) -> Fraction:
        """The back, on the sheet."""
        return self.spot(ZERO, self.part.thickness)[1]


def waste_at(piece: Piece, part: Part, along: Fraction) -> list[Cut]:
    """The cuts that a section at this distance from end A passes through."""
    found = []
    for cut in piece.cuts_of(part.id):
        low, high = cut.shape.reach("L")
        if low < along < high:
            found.append(cut)
    return found


def place_of(piece: Piece, mark: Mark) -> Fraction:
    """How far from end A a section shows what a mark is for: the middle of its line."""
    if mark.line is not None and mark.face not in ("end A", "end B"):
        return (mark.line[0][0] + mark.line[1][0]) / 2
    # a line on an end belongs to the waste there: just inside it
    part = piece.part(mark.part)
    return Fraction(1) if mark.face == "end A" else part.length - 1


def draw(
    board: Easel,
    piece: Piece,
    part: Part,
    along: Fraction,
    at: Spot,
    scale: Fraction,
    cuts: Sequence[Cut] | None = None,
) -> Section:
    """The section with its waste hatched and its reference surfaces marked.

    All the waste there is at this distance from end A, or only the cuts given.
    """
    section = Section(at, scale, part)
    for cut in waste_at(piece, part, along) if cuts is None else cuts:
        corners = [section.spot(w, t) for w, t in _cut_at(cut, part, along)]
        board.hatch_polygon(corners)
        board.polygon(corners, Pen.NARROW)
    board.rectangle(
        section.spot(ZERO, part.thickness), section.spot(part.width, ZERO), Pen.WIDE
    )
    if part.width * scale >= LEAST_MARKED:
        board.face_mark(section.spot(part.width, ZERO), mm(4))
    edge = section.spot(ZERO, part.thickness / 2)
    board.caret(edge, mm(2), "left")
    return section


def _cut_at(cut: Cut, part: Part, along: Fraction) -> list[Spot]:
    """The outline of a cut here, drawn back to the part's surfaces where it goes beyond them."""
    return [
        (min(max(w, ZERO), part.width), min(max(t, ZERO), part.thickness))
        for w, t in section_at(cut.shape, "L", along)
    ]


def fitting_scale(part: Part, width: Fraction, height: Fraction) -> Fraction:
    """The largest standard scale at which the section fits this space, in mm."""
    for scale in SCALES:
        if part.width * scale <= width and part.thickness * scale <= height:
            return scale
    return SCALES[-1]
