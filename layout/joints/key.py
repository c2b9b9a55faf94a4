"""A tapered key through a tenon that stands beyond its bearer: it draws the shoulder up.

The key's hole reaches in under the bearer's face, so that the key bears on the bearer and never
on the hole's inner end (William Noyes, Handwork in Wood, 1910, ch. VII no. 39: 1/16 in).
"""

from __future__ import annotations

from fractions import Fraction

from layout.joints.choices import KeyChoice
from layout.joints.rail_end import Joint, Tenon, Told
from layout.joints.worked import Span, Worked, together
from layout.mark import Cut, Hull, Mark, Sum, Surface, Witness, add, face_of
from layout.part import Direction, Face, Part, Placement

ZERO = Fraction(0)


def projection(choice: KeyChoice) -> Fraction:
    """How far a keyed tenon must stand beyond its bearer, in mm: the key, and wood beyond it."""
    return choice.wide + choice.beyond


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """The key's hole in each tenon, the key itself, their lines and sums."""
    del mortises
    choice = joint.choice.key
    if choice is None:
        return Worked()
    return together(_keyed(joint, choice, tenon, told.length) for tenon in joint.tenons())


def _keyed(joint: Joint, choice: KeyChoice, tenon: Tenon, told: str | None) -> Worked:
    size = joint.size
    driven, held = (
        (tenon.through, tenon.across) if choice.way == "thickness" else
        (tenon.across, tenon.through)
    )
    high = driven[1] - driven[0]
    width = (held[1] - held[0]) / 3 if choice.width is None else choice.width
    middle = (held[0] + held[1]) / 2
    across: Span = (middle - width / 2, middle + width / 2)
    inner = size.projection + choice.pull  # u of the hole's end under the bearer's face
    wide, narrow = choice.wide, choice.wide - choice.taper * high
    outline = [  # (u, along the way that the key is driven)
        (inner, driven[0]),
        (size.projection - wide, driven[0]),
        (inner, driven[1]),
        (size.projection - narrow, driven[1]),
    ]

    def corner(u: Fraction, down: Fraction, side: Fraction) -> tuple[Fraction, Fraction, Fraction]:
        return (u, side, down) if choice.way == "thickness" else (u, down, side)

    hole = joint.on_rail(
        tenon.called("key hole"),
        joint.hull(corner(u, down, side) for u, down in outline for side in across),
    )
    marks = _lines(joint, choice, tenon, outline, across)
    part, waste = _key(joint, choice, tenon, driven, across)
    sums = [] if told is None else _sums(joint, choice, tenon, hole, (wide, narrow, high), told)
    return Worked((hole, waste), tuple(marks), tuple(sums), parts=(part,))


def _lines(
    joint: Joint,
    choice: KeyChoice,
    tenon: Tenon,
    outline: list[tuple[Fraction, Fraction]],
    across: Span,
) -> list[Mark]:
    """The hole's four sides on both surfaces that the key passes."""
    faces: tuple[Face, Face] = (
        ("face", "back") if choice.way == "thickness" else ("edge", "far edge")
    )
    source = "face edge" if choice.way == "thickness" else "face side"
    marks: list[Mark] = []
    for face, (inner, outer) in zip(
        faces, ((outline[0][0], outline[1][0]), (outline[2][0], outline[3][0])), strict=True
    ):
        low, high = joint.span((outer, inner))
        for at in (low, high):
            line = ((at, across[0]), (at, across[1]))
            end = "inner" if at == joint.at(inner) else "outer"
            marks.append(
                joint.rail_mark(face, "knife", tenon.called(f"key hole, {end} end"), "end A", at,
                                line)
            )
        tool, pair = joint.pair_tool(*across)
        for at, role in zip(across, ("near side", "far side"), strict=True):
            line = ((low, at), (high, at))
            marks.append(
                joint.rail_mark(face, tool, tenon.called(f"key hole, {role}"), source, at, line,
                                pair)
            )
    return marks


def _key(
    joint: Joint, choice: KeyChoice, tenon: Tenon, driven: Span, across: Span
) -> tuple[Part, Cut]:
    """The key in its hole, its plain side against the bearer, and the taper taken off it.

    The key's length runs the way it is driven, from its thick end; its face edge is the plain
    side, its width runs outward along the rail.
    """
    rail, size = joint.rail, joint.size
    high = driven[1] - driven[0]
    length = high + 2 * choice.proud
    head = choice.wide + choice.taper * choice.proud  # its size at the thick end
    place = rail.placement
    way = place.T if choice.way == "thickness" else place.W
    side = place.W if choice.way == "thickness" else place.T
    outward = place.L if joint.meeting.end == "B" else _turned(place.L)
    u = joint.at(size.projection)
    start = driven[0] - choice.proud
    corner = (u, across[0], start) if choice.way == "thickness" else (u, start, across[0])
    named = "key" if not tenon.name else f"{tenon.name} key"
    name = f"{rail.name} {named}, end {joint.meeting.end}"
    part = Part(
        "-".join(name.replace(",", "").split()),
        name,
        "key",
        length,
        head,
        across[1] - across[0],
        Placement(place.to_piece(corner), way, outward, side),
        rail.timber,
    )
    foot = head - choice.taper * length
    waste = Cut(
        part.id,
        joint.name,
        "key taper",
        Hull(
            tuple(
                (along, width, thick)
                for along, width in ((ZERO, head), (length, head), (length, foot))
                for thick in (ZERO, part.thickness)
            )
        ),
    )
    return part, waste


def _turned(direction: Direction) -> Direction:
    return ("-" if direction[0] == "+" else "+") + direction[1]  # type: ignore[return-value]


def _sums(
    joint: Joint,
    choice: KeyChoice,
    tenon: Tenon,
    hole: Cut,
    sizes: tuple[Fraction, Fraction, Fraction],
    told: str,
) -> list[Sum]:
    size = joint.size
    wide, narrow, high = sizes
    word = {"L": "length", "W": "width", "T": "thickness"}[joint.meeting.into]
    bearer = f"{joint.bearer.kind} {word}"
    label = f" of the {tenon.name} tenon" if tenon.name else ""
    at_a = joint.meeting.end == "A"
    inner = Surface(hole.part, cut=hole.key, axis="L", high=at_a)
    outer = Surface(hole.part, cut=hole.key, axis="L", high=not at_a)
    shoulder = face_of(joint.bearer.id, joint.meeting.face)
    return [
        add(
            f"key hole from the shoulder{label}",
            joint.rail.id,
            Witness(shoulder, inner),
            (+1, bearer, size.bearer),
            (-1, "pull", choice.pull),
            where=told,
        ),
        add(
            f"outer end of the key hole from the shoulder{label}",
            joint.rail.id,
            Witness(shoulder, outer),
            (+1, bearer, size.bearer),
            (+1, "key where it enters", wide),
            where=told,
        ),
        add(
            f"key where it leaves the tenon{label}",
            joint.rail.id,
            Witness(shoulder, outer, plus=-size.bearer - choice.taper * high),
            (+1, "key where it enters", wide),
            (-1, "taper over the tenon", choice.taper * high),
            where=told,
        ),
    ] if narrow > 0 else []
