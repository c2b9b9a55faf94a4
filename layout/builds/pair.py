"""One rail between two legs: a single joint (and its twin) without a frame around it.

The rail's top edge is flush with the legs' tops, so mortise positions count from there. A
panel's seat, if any, runs along the rail's lower edge and down the legs from it.
"""

from __future__ import annotations

from fractions import Fraction

from layout.builds import frame as frames
from layout.builds.choices import FrameChoice
from layout.builds.frame import Frame, Lengths, StandingRail
from layout.builds.tenoned import LongShoulder
from layout.joints import seat
from layout.joints.section import SeatInRail
from layout.joints.worked import Worked, together
from layout.kit import Kit
from layout.mark import Sum, Witness, face_of, low_of

JOINT = "panel.seat"


def stand(choice: FrameChoice, lengths: Lengths | None = None) -> Frame:
    """The two front legs and the rails between them. BadPiece where nothing is left between."""
    frame = frames.stand(choice, lengths)
    return Frame(choice, frame.legs[:2], frame.rails, ())


def seat_in_rail(choice: seat.SeatChoice, size: seat.SeatSizes, set_in: Fraction) -> (
    SeatInRail
):
    """What of the seat the rail carries."""
    return SeatInRail(
        choice.kind,
        "far edge",
        size.plane - set_in,
        size.lip,
        choice.panel_thickness,
        choice.run == "through",
    )


def long_shoulder(choice: seat.SeatChoice, size: seat.SeatSizes) -> LongShoulder | None:
    """What a rabbet run through the legs asks of the rail."""
    through = choice.run == "through" and choice.kind == "rabbet"
    return LongShoulder(size.lip, size.plane, JOINT) if through else None


def work_seat(
    standing: StandingRail,
    choice: seat.SeatChoice,
    size: seat.SeatSizes,
    leg_length: Fraction,
    kit: Kit,
) -> Worked:
    """The seat along the rail's lower edge and down both legs, with its sums."""
    rail, set_in = standing.part, standing.choice.set_in
    in_rail = seat.work_rail(rail, "far edge", JOINT, choice, size, set_in, kit)
    reach = (leg_length - standing.bottom - size.lip, leg_length)
    face = standing.meetings[0].face
    in_legs = [
        seat.work_leg(meeting.bearer, face, JOINT, choice, size, reach, kit)
        for meeting in standing.meetings
    ]
    sums: list[Sum] = []
    leg_cuts = [cut for worked in in_legs for cut in worked.cuts]
    if in_rail.cuts and len(leg_cuts) == len(standing.meetings):
        first = standing.meetings[0].bearer
        own = Witness(face_of(rail.id, "edge"), low_of(in_rail.cuts[0], "W"))
        sums += seat.rail_sums(
            rail, "far edge", choice, size, set_in, leg_cuts[0], first, (set_in, rail), own
        )
        for meeting, cut in zip(standing.meetings, leg_cuts, strict=True):
            wall = Witness(face_of(meeting.bearer.id, "edge"), low_of(cut, "W"))
            sums += seat.leg_sums(
                meeting.bearer, choice, size, rail, in_rail.cuts[0], set_in, face, "panel", wall
            )
    return together([in_rail, *in_legs, Worked(sums=tuple(sums))])
