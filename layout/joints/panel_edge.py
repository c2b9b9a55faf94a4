"""The edges of a solid panel: plain, raised, or flat with a tongue.

The tongue goes into the groove of the frame; it lies `back` in front of the panel's back. A
raised panel is worked from the field down to the tongue, a flat one rabbeted in front of it. The
tongue is as long as the groove is deep and of one thickness, so that it is as tight in every
season. (Edges bevelled until they just fit the groove: Edwin W. Foster, Carpentry and Woodwork,
1911, ch. XL.)
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.worked import Worked, box_cut
from layout.kit import Kit
from layout.mark import Cut, Hull, Mark, Sum, Witness, add, face_of, high_of, low_of
from layout.part import FACE_NORMAL, Face, Part, Point

ZERO = Fraction(0)
Kind = Literal["plain", "raised", "tongue"]
Edge = Literal["edge", "far edge", "end A", "end B"]
EDGES: tuple[Edge, ...] = ("edge", "far edge", "end A", "end B")


class Profile(NamedTuple):
    """A panel's edge, in mm: the tongue's thickness; on a raised panel the `border` from the
    panel's edge to its field, and the `step` down from the field; the wood behind the tongue.
    """

    kind: Kind
    tongue: Fraction
    border: Fraction = ZERO
    step: Fraction = ZERO
    back: Fraction = ZERO

    def front(self, thickness: Fraction) -> Fraction:
        """How deep the tongue lies under the panel's face side, in mm."""
        return thickness - self.back - self.tongue


def work(part: Part, joint: str, profile: Profile, long: Fraction, kit: Kit) -> Worked:
    """Cuts, marks and sums of all four edges; the tongue is `long` mm."""
    if profile.kind == "plain":
        return Worked()
    cuts: list[Cut] = []
    marks: list[Mark] = []
    for edge in EDGES:
        cuts += _cuts(part, joint, profile, long, edge)
        marks += _marks(part, joint, profile, long, edge, kit)
    return Worked(tuple(cuts), tuple(marks), tuple(_sums(part, profile, long, cuts)))


def _cuts(
    part: Part, joint: str, profile: Profile, long: Fraction, edge: Edge
) -> Iterator[Cut]:
    """What is taken off in front of the tongue at one edge, and behind it."""
    front = profile.front(part.thickness)
    if profile.kind == "raised":
        yield Cut(part.id, joint, f"raise {edge}", _raise(part, profile, long, edge))
    else:
        cut = _along(part, joint, f"tongue waste {edge}", long, (ZERO, front), edge)
        if cut is not None:
            yield cut
    behind = (part.thickness - profile.back, part.thickness)
    cut = _along(part, joint, f"back waste {edge}", long, behind, edge)
    if cut is not None:
        yield cut


def _along(
    part: Part, joint: str, role: str, wide: Fraction, through: tuple[Fraction, Fraction],
    edge: Edge,
) -> Cut | None:
    axis, far = FACE_NORMAL[edge]
    whole = part.size(axis)
    spans = {"L": (ZERO, part.length), "W": (ZERO, part.width)}
    spans[axis] = (whole - wide, whole) if far else (ZERO, wide)
    return box_cut(part, joint, role, spans["L"], spans["W"], through)


def _raise(part: Part, profile: Profile, long: Fraction, edge: Edge) -> Hull:
    """From the panel's edge along the tongue, up to under the field, and up to the field."""
    front = profile.front(part.thickness)
    outline = ((ZERO, ZERO), (ZERO, front), (long, front), (profile.border, profile.step),
               (profile.border, ZERO))
    axis, far = FACE_NORMAL[edge]
    whole = part.size(axis)
    run = part.width if axis == "L" else part.length

    def spot(along: Fraction, off: Fraction, deep: Fraction) -> Point:
        across = whole - off if far else off
        return (across, along, deep) if axis == "L" else (along, across, deep)

    points = (spot(along, off, deep) for along in (ZERO, run) for off, deep in outline)
    return Hull(tuple(sorted(dict.fromkeys(points))))


def _marks(
    part: Part, joint: str, profile: Profile, long: Fraction, edge: Edge, kit: Kit
) -> Iterator[Mark]:
    """The tongue on the edge itself, and on the faces the lines that the waste ends at.

    Every line is gauged from the edge it belongs to: one stand goes round all four.
    """
    axis, far = FACE_NORMAL[edge]
    source = {"edge": "face edge"}.get(edge, edge)
    run = part.width if axis == "L" else part.length
    front = profile.front(part.thickness)
    sides = (front, front + profile.tongue)
    both = kit.gauge == "mortise gauge" and front > 0 and profile.back > 0
    for at, role in zip(sides, ("near side of the tongue", "far side of the tongue"), strict=True):
        if 0 < at < part.thickness:
            yield Mark(part.id, joint, edge, "mortise gauge" if both else "marking gauge", role,
                       "face side", at, ((ZERO, at), (run, at)), pair=sides if both else None)
    faces: list[tuple[Face, str, Fraction]] = []
    if profile.kind == "raised":
        faces.append(("face", "field", profile.border))
    elif front > 0:
        faces.append(("face", "tongue shoulder", long))
    if profile.back > 0:
        faces.append(("back", "tongue shoulder", long))
    whole = part.size(axis)
    for face, role, off in faces:
        at = whole - off if far else off
        line = ((at, ZERO), (at, run)) if axis == "L" else ((ZERO, at), (run, at))
        yield Mark(part.id, joint, face, "marking gauge", role, source, off, line)


def _sums(
    part: Part, profile: Profile, long: Fraction, cuts: list[Cut]
) -> Iterator[Sum]:
    """Where the tongue lies, and what the bevel falls."""
    face = face_of(part.id, "face")
    front = profile.front(part.thickness)
    first = next((cut for cut in cuts if cut.role in ("raise edge", "tongue waste edge")), None)
    behind = next((cut for cut in cuts if cut.role == "back waste edge"), None)
    if first is not None:
        terms = [(+1, "thickness of the panel", part.thickness)]
        if profile.back:
            terms.append((-1, "wood behind the tongue", profile.back))
        yield add("near side of the tongue from the face side", part.id,
                  Witness(face, high_of(first, "T")), *terms,
                  (-1, "thickness of the tongue", profile.tongue))
    if behind is not None:
        yield add("far side of the tongue from the face side", part.id,
                  Witness(face, low_of(behind, "T")),
                  (+1, "near side of the tongue", front),
                  (+1, "thickness of the tongue", profile.tongue))
    if profile.kind == "raised" and first is not None:
        yield add("bevel, tongue to field", part.id,
                  Witness(face_of(part.id, "edge"), high_of(first, "W"), plus=-long),
                  (+1, "border, edge to field", profile.border),
                  (-1, "length of the tongue", long))


def pin(
    bearer: Part, joint: str, across: tuple[Fraction, Fraction], told: Sum
) -> Worked:
    """Where the pin that holds a panel in the middle goes through the frame: a pencil line on the
    bearer's back, over the seat's reach across it (mm); the sum says how far from end A.
    """
    line = ((told.total, across[0]), (told.total, across[1]))
    mark = Mark(bearer.id, joint, "back", "pencil", "panel pin", "end A", told.total, line)
    return Worked(marks=(mark,), sums=(told,))
