"""Dovetails, drawers and chests with what is usual filled in.

Shared by the keys of a piece file and the options of the commands. Lengths in mm; None is what
the maker left open. What is usual, and its source: layout/defaults.toml.
"""

from __future__ import annotations

from fractions import Fraction

from layout.builds.box_choices import BottomChoice, SlipChoice, SlotChoice
from layout.defaults import Unit, default_length, default_ratio
from layout.joints.slide import SlideChoice
from layout.joints.spacing import DovetailChoice
from layout.joints.tongue import TongueChoice
from layout.measure.slope import Slope


def dovetail(unit: Unit) -> DovetailChoice:
    """Through dovetails of which nothing has been said."""
    return DovetailChoice(
        slope=Slope(default_ratio("dovetail_run"), rounded=False, degrees_asked=None),
        pin=default_length("pin", unit),
        tail_width=default_length("tail_width", unit),
    )


def slide(unit: Unit) -> SlideChoice:
    """A sliding dovetail of which nothing has been said."""
    return SlideChoice(
        depth=None,
        slope=Slope(default_ratio("dovetail_run"), rounded=False, degrees_asked=None),
        room=default_length("slide_room", unit),
        depth_share=default_ratio("slide_share"),
        open_slope=True,
    )


def tongue(unit: Unit) -> TongueChoice:
    """The usual tongue along a board's edge."""
    return TongueChoice(
        None,
        default_length("tongue_length", unit),
        default_length("tongue_room", unit),
        Fraction(0),
        default_ratio("tongue_share"),
    )


def lap(board: Fraction) -> Fraction:
    """The usual lap on a board of this thickness (mm)."""
    return board * default_ratio("lap_share")


def bottom(unit: Unit, kind: str = "plywood") -> BottomChoice:
    """A drawer's bottom of which only its kind has been said."""
    return BottomChoice(
        kind="solid" if kind == "solid" else "plywood",
        thickness=default_length("bottom_thickness", unit),
        up=default_length("groove_up", unit),
        usual_deep=default_length("groove_depth", unit),
        deep=None,
        tongue=None,
        room=default_length("bottom_room", unit),
        clear=default_length("groove_clear", unit),
        slots=slots(unit) if kind == "solid" else None,
    )


def slots(unit: Unit) -> SlotChoice:
    """The usual screw slots."""
    return SlotChoice(
        None,
        default_length("slot_width", unit),
        default_length("slot_play", unit),
        default_length("slot_every", unit),
    )


def slips(unit: Unit) -> SlipChoice:
    """The usual slips."""
    return SlipChoice(default_length("slip_thickness", unit), default_length("slip_above", unit))
