"""The haunch: a short shelf of the tenon's thickness beside it, and its socket in the bearer.

A haunch keeps the whole width of the rail from twisting where the tenon has to stay clear of
the bearer's end. Square, or sloped to nothing at the rail's edge where it would show (William
Noyes, Handwork in Wood, 1910, ch. VII no. 43); or as long as a groove is deep, which it fills
(William Fairham, Woodwork Joints, 1921, Fig. 131). A pair of tenons may have one in its web.
"""

from __future__ import annotations

from fractions import Fraction

from layout.joints import wedge
from layout.joints.choices import HaunchChoice, PairChoice
from layout.joints.rail_end import Joint, Told
from layout.joints.worked import Span, Worked, together
from layout.mark import Cut, Hull, Mark, Sum, Surface, Witness, add, face_of
from layout.part import Face

ZERO = Fraction(0)


def length(choice: HaunchChoice | None, tenon: Fraction, groove: Fraction) -> Fraction:
    """How far a haunch stands out from the shoulder, in mm.

    As deep as the groove that it fills; else as given; else the usual length, but no more than
    half of the tenon.
    """
    if choice is None:
        return ZERO
    if choice.kind == "groove":
        return groove
    if choice.length is not None:
        return choice.length
    return min(choice.usual, tenon / 2)


def _gap(joint: Joint) -> int | None:
    """The number of the stretch across the width that the haunch stands in."""
    choice = joint.choice.haunch
    if choice is None:
        return None
    return 0 if choice.edge == "edge" else len(joint.size.section.widths) - 1


def shows_on(joint: Joint, face: Face) -> bool:
    """True where a haunch comes out at this edge of the rail, so that no shoulder is there."""
    choice = joint.choice.haunch
    return choice is not None and choice.edge == face and choice.kind != "sloped"


def stands_in(joint: Joint, index: int) -> bool:
    """True where a haunch stands in this gap of the section."""
    if 0 < index < len(joint.size.section.widths) - 1:
        return bool(joint.size.web_haunch)
    return index == _gap(joint) and bool(joint.size.haunch_length)


def waste(joint: Joint, index: int, across: Span, cheeks: Span) -> Hull | None:
    """What is cut away beside the tenons in one gap of the section: all but the haunch in it."""
    size = joint.size
    if wedge.splays(joint, index):
        return wedge.splay_waste(joint, across, cheeks)
    middle = 0 < index < len(size.section.widths) - 1
    if middle and size.web_haunch:
        return _until(joint, size.length - size.web_haunch, across, cheeks)
    if index != _gap(joint) or not size.haunch_length:
        return _until(joint, size.length, across, cheeks)
    choice = joint.choice.haunch
    assert choice is not None  # _gap found one
    if choice.kind != "sloped":
        return _until(joint, size.length - size.haunch_length, across, cheeks)
    edge, tenon = across if choice.edge == "edge" else reversed(across)
    return joint.hull(
        (u, w, t)
        for t in cheeks
        for u, w in (
            (ZERO, edge),
            (size.length, edge),
            (ZERO, tenon),
            (size.length - size.haunch_length, tenon),
        )
    )


def _until(joint: Joint, u: Fraction, across: Span, cheeks: Span) -> Hull | None:
    if u <= 0 or across[0] >= across[1] or cheeks[0] >= cheeks[1]:
        return None
    return joint.block((ZERO, u), across, cheeks)


def _socket(joint: Joint, choice: HaunchChoice, across: Span, cheeks: Span) -> Hull:
    """The haunch's own place in the bearer, deeper by its room where it meets the mortise."""
    size = joint.size
    deep = size.length - size.haunch_length - choice.room
    if choice.kind == "square":
        return joint.block((deep, size.length), across, cheeks)
    edge, tenon = across if choice.edge == "edge" else reversed(across)
    return joint.hull(
        (u, w, t)
        for t in cheeks
        for u, w in ((size.length, edge), (size.length, tenon), (deep, tenon))
    )


def work(joint: Joint, mortises: dict[str, Cut], told: Told) -> Worked:
    """The sockets of the haunches, their lines on both parts, and their sums.

    (The waste round a haunch is cut with the tenon's: `waste`.)
    """
    del mortises
    done = Worked()
    index, choice, size = _gap(joint), joint.choice.haunch, joint.size
    if index is not None and choice is not None and size.haunch_length:
        done = together([done, _at_edge(joint, choice, _stretch(joint, index), told.length)])
    if joint.choice.pair is not None and size.web_haunch:
        done = together([done, _in_web(joint, joint.choice.pair, _stretch(joint, 2))])
    return done


def _stretch(joint: Joint, index: int) -> Span:
    """The reach of one gap across the rail's width."""
    section = joint.size.section
    return (section.station("W", index), section.station("W", index + 1))


def _columns(joint: Joint) -> list[tuple[str, Span]]:
    """The tenons through the thickness, twins each with a name before it."""
    columns = joint.size.section.spans("T")
    names = ("",) if len(columns) == 1 else ("outer ", "inner ")
    return list(zip(names, columns, strict=True))


def _at_edge(
    joint: Joint, choice: HaunchChoice, across: Span, told: str | None
) -> Worked:
    """The haunch at the rail's edge and its socket; a groove is its own socket."""
    size = joint.size
    cuts: list[Cut] = []
    marks = _haunch_lines(joint, choice, across)
    sums = [_end_sum(joint, "haunch", size.haunch_length)]
    if choice.kind == "groove":
        return Worked((), tuple(marks), tuple(sums))
    for name, column in _columns(joint):
        cut = joint.in_bearer(f"{name}haunch socket", _socket(joint, choice, across, column))
        cuts.append(cut)
        edge = across[0] if choice.edge == "edge" else across[1]
        marks += _socket_lines(joint, across, edge, column)
    where = f"{joint.rail.name}, end {joint.meeting.end}"
    sums.append(
        add("haunch socket depth", joint.bearer.id, _depth(joint, cuts[0], ZERO),
            (+1, "haunch length", size.haunch_length), (+1, "room in the socket", choice.room),
            where=where)
    )
    half = choice.length is None and size.haunch_length * 2 == size.length
    if told is not None and half:
        sums.append(
            add("haunch length", joint.rail.id, _depth(joint, cuts[0], -choice.room),
                (+1, "half of the tenon length", size.length / 2), where=told)
        )
    return Worked(tuple(cuts), tuple(marks), tuple(sums))


def _in_web(joint: Joint, pair: PairChoice, across: Span) -> Worked:
    """The haunch between a pair of tenons."""
    size = joint.size
    cuts: list[Cut] = []
    marks = _end_lines(joint, size.web_haunch, across, ("face", "back"))
    deep = size.length - size.web_haunch - pair.room
    for name, column in _columns(joint):
        cuts.append(
            joint.in_bearer(
                f"{name}web socket", joint.block((deep, size.length), across, column)
            )
        )
        marks += _socket_lines(joint, across, None, column)
    sums = (
        _end_sum(joint, "web haunch", size.web_haunch),
        add("web socket depth", joint.bearer.id, _depth(joint, cuts[0], ZERO),
            (+1, "web haunch length", size.web_haunch), (+1, "room in the socket", pair.room),
            where=f"{joint.rail.name}, end {joint.meeting.end}"),
    )
    return Worked(tuple(cuts), tuple(marks), sums)


def _socket_lines(
    joint: Joint, across: Span, edge: Fraction | None, cheeks: Span
) -> list[Mark]:
    """The socket's two walls on the bearer, and its end where that lies on the wood."""
    entry = joint.meeting.face
    marks = [
        joint.bearer_line(entry, "T", value, across, role, cheeks)
        for value, role in zip(cheeks, _walls(joint), strict=True)
    ]
    if edge is not None:
        at = joint.on_bearer("W", edge)
        axis = joint.meeting.width.axis
        if 0 < at < joint.bearer.size(axis):
            marks.append(joint.bearer_line(entry, "W", edge, cheeks, "haunch edge"))
    return marks


def _walls(joint: Joint) -> tuple[str, str]:
    """Which wall the outer and the inner cheek are, from the bearer's reference surface."""
    if joint.meeting.thickness.forward:
        return ("near wall", "far wall")
    return ("far wall", "near wall")


def _haunch_lines(joint: Joint, choice: HaunchChoice, across: Span) -> list[Mark]:
    """Where the haunch ends on the rail: square across, or sloping to the shoulder."""
    size = joint.size
    if choice.kind != "sloped":
        faces: tuple[Face, ...] = ("face", "back")
        marks = _end_lines(joint, size.haunch_length, across, faces)
        at = joint.at(size.length - size.haunch_length)
        near, far = size.section.spans("T")[0][0], size.section.spans("T")[-1][1]
        line = ((at, near), (at, far))
        marks.append(
            joint.rail_mark(choice.edge, "knife", "haunch end", "end A", at, line)
        )
        return marks
    edge, tenon = across if choice.edge == "edge" else reversed(across)
    at = joint.at(size.length - size.haunch_length)
    line = ((at, tenon), (joint.at(size.length), edge))
    return [
        joint.rail_mark(face, "bevel", "haunch slope", "end A", at, line)
        for face in ("face", "back")
    ]


def _end_lines(
    joint: Joint, long: Fraction, across: Span, faces: tuple[Face, ...]
) -> list[Mark]:
    at = joint.at(joint.size.length - long)
    line = ((at, across[0]), (at, across[1]))
    return [
        joint.rail_mark(face, "knife", "haunch end", "end A", at, line) for face in faces
    ]


def _end_sum(joint: Joint, what: str, long: Fraction) -> Sum:
    """Where a haunch ends, as the knife line is measured."""
    size = joint.size
    terms = ((+1, "tenon length", size.length), (-1, f"{what} length", long))
    return add(
        f"{what} at end {joint.meeting.end} from end A",
        joint.rail.id,
        _end_witness(joint, joint.at(size.length - long) - joint.at(size.length)),
        *joint.from_end_a(terms),
    )


def _end_witness(joint: Joint, plus: Fraction) -> Witness:
    """From the rail's end A to the bearer's face, and on to where the haunch ends."""
    return Witness(
        face_of(joint.rail.id, "end A"),
        face_of(joint.bearer.id, joint.meeting.face),
        plus=plus,
    )


def _depth(joint: Joint, cut: Cut, plus: Fraction) -> Witness:
    """From the bearer's face to the bottom of a socket, plus what is given."""
    into = joint.meeting.into
    face = joint.place(joint.size.length, ZERO, ZERO)["LWT".index(into)]
    deep_is_low = cut.shape.reach(into)[0] < face
    bottom = Surface(cut.part, cut=cut.key, axis=into, high=not deep_is_low)
    return Witness(face_of(joint.bearer.id, joint.meeting.face), bottom, plus=plus)
