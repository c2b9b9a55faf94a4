"""The hollows of a part: every mortise, socket, seat and hole, with what it is called.

A cut that shapes a part from outside (the waste round a tenon, a mitre, a taper) is no hollow:
no wood lies beyond it.
"""

from __future__ import annotations

from typing import NamedTuple

from layout.checks.bodies import shape_body
from layout.joints.rail_end import is_mortise
from layout.mark import Cut
from layout.part import Part
from layout.piece import Piece
from layout.solid.convex import Body
from layout.solid.rounds import Round

# (a saw cut is closed again by its wedge, and lies in the tenon's own wood; a bottom's groove
# means to run into sockets, and checks/dovetails.py says where it may)
SHAPING = ("waste", "notch", "mitre", "key taper", "moulding", "saw cut", "edge rabbet",
           "bottom groove", "tongue groove")
SEATS = ("rabbet", "groove")


class Hollow(NamedTuple):
    """A hollow of a part in the part's own coordinates; `of` is its joint."""

    cut: Cut
    body: Body | Round
    words: str

    @property
    def of(self) -> str:
        """The joint that it belongs to."""
        return self.cut.joint

    @property
    def is_seat(self) -> bool:
        """True for a rabbet or groove that holds a panel."""
        return self.cut.role in SEATS

    @property
    def is_mortise(self) -> bool:
        """True for a mortise proper."""
        return is_mortise(self.cut.role)


def names(piece: Piece) -> dict[str, str]:
    """What every joint is told by: its rail, or its panel."""
    told = {joint.name: joint.rail.name for joint in piece.joints}
    told |= {panel.joint: panel.part.name for panel in piece.panels}
    told |= {corner.name: f"corner {corner.letter}" for corner in piece.corners}
    told |= {slide.name: slide.slider.name for slide in piece.slides}
    told |= {case.joint: "back" for case in piece.carcases}  # (and the tongues of its boards)
    told |= {drawer.joint: "bottom" for drawer in piece.drawers}
    told |= {chest.joint: "bottom" for chest in piece.chests}
    told |= {dogs.joint: dogs.part.name for dogs in piece.dogs}
    for laid in piece.tops:
        name = laid.top.choice.name
        told |= {cap.joint: cap.part.name for cap in laid.top.caps}
        if laid.fixings is not None:
            told |= {one.joint: name for one, _ in laid.fixings.found}
    return {cut.joint: "panel" for cut in piece.cuts} | told


def hollows(piece: Piece, part: Part, told: dict[str, str]) -> list[Hollow]:
    """All hollows of a part."""
    found = []
    for cut in piece.cuts_of(part.id):
        if any(word in cut.role for word in SHAPING):
            continue
        role = cut.role.removesuffix(" A").removesuffix(" B")
        article = "for" if cut.role in SEATS else "of"
        words = f"the {role} {article} the {told[cut.joint]}"
        found.append(Hollow(cut, shape_body(cut.shape), words))
    return found
