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


# A part much wider than it is thick is broken off this many thicknesses from the edge that counts.
SHOWN_THICKNESSES = 5


class Section(NamedTuple):
    """Where a section stands on the sheet: its upper left corner, its scale and its sizes; what
    of the part's width it shows.
    """

    at: Spot
    scale: Fraction
    part: Part
    low: Fraction
    high: Fraction

    def spot(self, w: Fraction, t: Fraction) -> Spot:
        """A place (W, T) of the part, in mm on the sheet."""
        return (self.at[0] + (w - self.low) * self.scale, self.at[1] - t * self.scale)

    @property
    def right(self) -> Fraction:
        """The far edge, or where it is broken off, on the sheet."""
        return self.spot(self.high, ZERO)[0]

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


def stretch(
    piece: Piece, part: Part, along: Fraction, far: bool, reach: Fraction
) -> tuple[Fraction, Fraction]:
    """What of a part's width a section shows: all, or of a wide one a stretch at its far or its
    face edge that holds all that is cut in that half, and `reach` from the edge.
    """
    width, half = part.width, part.width / 2
    shown = max(SHOWN_THICKNESSES * part.thickness, reach + part.thickness)
    for cut in waste_at(piece, part, along):
        for w, _ in _cut_at(cut, part, along):
            if (w > half) == far and 0 < w < width:
                shown = max(shown, (width - w if far else w) + part.thickness)
    if shown * 4 > width * 3:
        return ZERO, width
    return (width - shown, width) if far else (ZERO, shown)


def draw(
    board: Easel,
    piece: Piece,
    part: Part,
    along: Fraction,
    at: Spot,
    scale: Fraction,
    cuts: Sequence[Cut] | None = None,
    shown: tuple[Fraction, Fraction] | None = None,
) -> Section:
    """The section with its waste hatched and its reference surfaces marked.

    All the waste there is at this distance from end A, or only the cuts given; the whole width, or
    what is shown of it, broken off at a dashed line.
    """
    low, high = shown or (ZERO, part.width)
    section = Section(at, scale, part, low, high)
    for cut in waste_at(piece, part, along) if cuts is None else cuts:
        outline = [(min(max(w, low), high), t) for w, t in _cut_at(cut, part, along)]
        if len({w for w, _ in outline}) > 1:
            corners = [section.spot(w, t) for w, t in outline]
            board.hatch_polygon(corners)
            board.polygon(corners, Pen.NARROW)
    face, back = ((section.spot(low, t), section.spot(high, t)) for t in (ZERO, part.thickness))
    board.line(*face, Pen.WIDE)
    board.line(*back, Pen.WIDE)
    for index, ends in enumerate((low == 0, high == part.width)):
        board.line(face[index], back[index], Pen.WIDE if ends else Pen.HIDDEN)
    if (high - low) * scale >= LEAST_MARKED:
        board.face_mark(section.spot(high, ZERO), mm(4))
    if low == 0:
        board.caret(section.spot(ZERO, part.thickness / 2), mm(2), "left")
    return section


def _cut_at(cut: Cut, part: Part, along: Fraction) -> list[Spot]:
    """The outline of a cut here, drawn back to the part's surfaces where it goes beyond them."""
    return [
        (min(max(w, ZERO), part.width), min(max(t, ZERO), part.thickness))
        for w, t in section_at(cut.shape, "L", along)
    ]


def fitting_scale(part: Part, shown: Fraction, width: Fraction, height: Fraction) -> Fraction:
    """The largest standard scale at which what is shown of the section fits this space, in mm."""
    for scale in SCALES:
        if shown * scale <= width and part.thickness * scale <= height:
            return scale
    return SCALES[-1]
