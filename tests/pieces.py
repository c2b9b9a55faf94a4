"""Small pieces for tests, in inches, built from choices without a file."""

from __future__ import annotations

from fractions import Fraction

from layout.builds.choices import (
    AsMilled,
    CrossChoice,
    FrameChoice,
    LegChoice,
    Milled,
    RailChoice,
)
from layout.builds.panel import PanelChoice
from layout.checks.sums import wrong
from layout.joints.choices import (
    HaunchChoice,
    KeyChoice,
    MouldChoice,
    SideWedgeChoice,
    TenonChoice,
    WedgeChoice,
)
from layout.joints.rail_end import Joint
from layout.joints.seat import SeatChoice
from layout.kit import usual_kit
from layout.mark import Cut, Cylinder, Hull, Mark
from layout.measure import default_rule
from layout.piece import Piece, PieceChoice, work_out
from layout.solid.convex import body, volume

INCH = Fraction(127, 5)


def inch(text: str | int) -> Fraction:
    """`2 1/2` inches in mm, by plain fraction arithmetic."""
    return sum((Fraction(word) for word in str(text).split()), Fraction(0)) * INCH


def inches(text: str) -> tuple[Fraction, ...]:
    """`1/4 | 3 1/2` inches, each in mm."""
    return tuple(inch(one) for one in text.split("|"))


def tenon(**changes: object) -> TenonChoice:
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


def through(**changes: object) -> TenonChoice:
    """A tenon 1/2 in thick right through the leg, flush with its outside."""
    usual = tenon(length=None, thickness=inch("1/2"), through=True)
    return usual._replace(**changes)  # type: ignore[arg-type]


def haunch(**changes: object) -> HaunchChoice:
    """A square haunch at the top, its socket 1/16 in deeper than it is long, 1/2 in where open."""
    usual = HaunchChoice("square", "edge", inch("1/16"), inch("1/2"))
    return usual._replace(**changes)  # type: ignore[arg-type]


def wedges(**changes: object) -> WedgeChoice:
    """Two wedges 1/8 in thick in saw cuts of 1/32 in, 3/16 in from the tenon's edges."""
    usual = WedgeChoice(2, inch("1/8"), inch("1/32"), inch("3/16"))
    return usual._replace(**changes)  # type: ignore[arg-type]


def side_wedge(**changes: object) -> SideWedgeChoice:
    """A wedge above the tenon, 7/16 in at the outer face and 1/4 in at the inner; no splay."""
    usual = SideWedgeChoice("edge", inch("7/16"), inch("1/4"))
    return usual._replace(**changes)  # type: ignore[arg-type]


def key(**changes: object) -> KeyChoice:
    """A key 7/8 in wide where it enters, taper 1 in 7, 1/16 in of pull, 1 1/8 in beyond it."""
    usual = KeyChoice(
        "thickness", inch("7/8"), Fraction(1, 7), inch("1/16"), inch("1 1/8"), inch("7/8")
    )
    return usual._replace(**changes)  # type: ignore[arg-type]


def mould(**changes: object) -> MouldChoice:
    """A moulding 1/4 in wide and deep along the rail's lower edge."""
    usual = MouldChoice(inch("1/4"), inch("1/4"), ("far edge",))
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


def cross(name: str, one: str, other: str, **changes: object) -> CrossChoice:
    """A cross rail 2 x 1 1/8 in on edge between two parts, its tenons 3/4 in long and 3/8 thick.

    `upright` and `places` are the cross rail's own, anything else its rail's.
    """
    own = {key: changes.pop(key) for key in ("upright", "places") if key in changes}
    usual = rail(
        name, sides=(), width=inch(2), below_top=None, tenon=tenon(length=inch("3/4"))
    )._replace(**changes)  # type: ignore[arg-type]
    return CrossChoice(usual, (one, other))._replace(**own)  # type: ignore[arg-type]


def measured(held: str = "overall", **parts: str) -> AsMilled:
    """Measured parts: `front_rail="2 x 1"` is the front rail, 2 in wide and 1 in thick."""
    found = []
    for name, size in parts.items():
        width, thickness = (inch(one) for one in size.split("x"))
        found.append(Milled(name.replace("_", " "), width, thickness))
    return AsMilled(tuple(found), held)  # type: ignore[arg-type]


def agreed(frame_choice: FrameChoice, *panels: PanelChoice, **changes: object) -> Piece:
    """A piece whose sums are all confirmed by the parts where they stand."""
    p = piece(frame_choice, *panels, **changes)
    assert wrong(p) == []
    return p


def joint_of(p: Piece, name: str) -> Joint:
    """The joint of this name: `front-rail.A`."""
    return next(joint for joint in p.joints if joint.name == name)


def hull(p: Piece, part: str, joint: str, role: str) -> Hull:
    """The flat-sided cut of this part, joint and role."""
    shape = cut(p, part, joint, role).shape
    assert isinstance(shape, Hull)
    return shape


def hole(p: Piece, part: str, joint: str, role: str) -> Cylinder:
    """The bored hole of this part, joint and role."""
    shape = cut(p, part, joint, role).shape
    assert isinstance(shape, Cylinder)
    return shape


def cut(p: Piece, part: str, joint: str, role: str) -> Cut:
    """The one cut of this part, joint and role."""
    (found,) = [one for one in p.cuts if one.key == (part, joint, role)]
    return found


def reach(shape: Hull | Cylinder) -> tuple[tuple[Fraction, Fraction], ...]:
    """A cut's reach along L, W and T."""
    return (shape.reach("L"), shape.reach("W"), shape.reach("T"))


def solid(shape: Hull) -> Fraction:
    """A cut's volume in cubic mm."""
    return volume(body(shape.points))


def cubic(*factors: Fraction | int) -> Fraction:
    """A product: a volume from its length, width and thickness, a half for a wedge, ..."""
    product = Fraction(1)
    for factor in factors:
        product *= factor
    return product


def marks_of(p: Piece, part: str, joint: str, role: str) -> list[Mark]:
    """The marks of this part, joint and role."""
    return [one for one in p.marks if (one.part, one.joint, one.role) == (part, joint, role)]


def total(p: Piece, part: str, full_name: str) -> Fraction:
    """The total of the one sum of this name on a part."""
    (found,) = [one for one in p.sums if (one.part, one.full_name) == (part, full_name)]
    return found.total
