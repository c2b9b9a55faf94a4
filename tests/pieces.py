"""Small pieces for tests, in inches, built from choices without a file."""

from __future__ import annotations

from fractions import Fraction

from layout.builds.choices import FrameChoice, LegChoice, RailChoice
from layout.builds.panel import PanelChoice
from layout.joints.choices import TenonChoice
from layout.joints.seat import SeatChoice
from layout.kit import usual_kit
from layout.measure import default_rule
from layout.piece import Piece, PieceChoice, work_out

INCH = Fraction(127, 5)


def inch(text: str | int) -> Fraction:
    """`2 1/2` inches in mm, by plain fraction arithmetic."""
    return sum((Fraction(word) for word in str(text).split()), Fraction(0)) * INCH


def tenon(**changes: Fraction | None) -> TenonChoice:
    """The worked example's tenon."""
    usual = TenonChoice(
        length=inch("1 1/4"),
        glue_room=inch("1/8"),
        shoulder=inch("1/4"),
        web_least=inch("1/8"),
        wall_least=inch("3/16"),
        thickness=inch("3/8"),
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def rail(name: str = "rail", **changes: object) -> RailChoice:
    """The worked example's rail, flush with the legs' faces and tops, on the front."""
    usual = RailChoice(
        name=name,
        sides=("front",),
        width=inch(4),
        thickness=inch("1 1/8"),
        set_in=Fraction(0),
        tenon=tenon(),
        below_top=Fraction(0),
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def frame(*rails: RailChoice, **changes: object) -> FrameChoice:
    """48 x 24 x 30 in over legs 2 1/2 in square."""
    usual = FrameChoice(
        inch(48), inch(24), inch(30), LegChoice(inch("2 1/2"), inch("2 1/2")), tuple(rails)
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def seat(**changes: object) -> SeatChoice:
    """A 1/4 in panel in a rabbet 1/4 deep, lip 3/8, stopped in the legs."""
    usual = SeatChoice("rabbet", inch("1/4"), inch("3/8"), None, "rabbet", "stopped")
    return usual._replace(**changes)  # type: ignore[arg-type]


def panel(seat_choice: SeatChoice, *openings: str, **changes: object) -> PanelChoice:
    """A panel with 1/16 in of room."""
    usual = PanelChoice("panel", openings, seat_choice, inch("1/16"), "up")
    return usual._replace(**changes)  # type: ignore[arg-type]


def piece(frame_choice: FrameChoice, *panels: PanelChoice, **changes: object) -> Piece:
    """A piece in inches with usual limits."""
    usual = PieceChoice(
        "Test piece",
        "in",
        default_rule("in"),
        usual_kit("in"),
        inch("3/16"),
        inch("1/32"),
        frame_choice,
        tuple(panels),
    )
    return work_out(usual._replace(**changes))  # type: ignore[arg-type]


def low_rail(**changes: object) -> RailChoice:
    """A second rail on the front, 6 in above the floor."""
    return rail("low rail", below_top=None, above_floor=inch(6), **changes)
