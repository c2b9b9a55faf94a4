"""A dovetailed corner: tails on one board, pins on the other.

Both boards stand with their face sides inside and their face edges the same way. A corner is told
from the ends that meet: L from the tail board's end, or from where the pin board's end would be
without a lip beyond it; w from the pin board's near edge, where tails and pins begin; t from the
face side. A through corner shows pins and tails outside; a lapped one has the tails' ends
covered by what the sockets leave of the pin board.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.joints.board_edge import rabbet_role
from layout.joints.section import Terms
from layout.joints.spacing import Member, Spacing, tail_share
from layout.joints.worked import Span, Worked, box_cut
from layout.mark import (
    Cut,
    Hull,
    Mark,
    Spot2,
    Sum,
    Surface,
    Tool,
    Witness,
    add,
    face_of,
    high_of,
    low_of,
)
from layout.part import Face, Part

ZERO = Fraction(0)
End = Literal["A", "B"]
_END_FACE: dict[End, Face] = {"A": "end A", "B": "end B"}


class EdgeRabbet(NamedTuple):
    """A rabbet along an edge of both boards, in mm: how wide, from the edge, and how deep, from
    the face side. `joint` is the name that its cuts go by, in both boards.
    """

    edge: Literal["near", "far"]
    wide: Fraction
    deep: Fraction
    joint: str


class Corner(NamedTuple):
    """Two boards that meet in dovetails. Lengths in mm.

    `lip` is the pin board's wood beyond the tail board's outside (a lipped drawer front), `low`
    where the joint begins on the pin board's width. `open_far` says that the tail board is sawn
    out to its far edge, above a lower pin board (with half pins); else wood beyond the pin board
    stays.
    """

    name: str
    letter: str
    tails: Part
    tail_end: End
    pins: Part
    pin_end: End
    spacing: Spacing
    lip: Fraction = ZERO
    low: Fraction = ZERO
    open_far: bool = False
    rabbet: EdgeRabbet | None = None

    @property
    def depth(self) -> Fraction:
        """How long the tails are, in mm."""
        return self.spacing.depth

    @property
    def high(self) -> Fraction:
        """Where the joint ends on the pin board's width, in mm from its face edge."""
        return self.low + self.spacing.width

    @property
    def through(self) -> bool:
        """True where the tails come out at the pin board's outside."""
        return self.depth == self.pins.thickness

    @property
    def shift(self) -> Fraction:
        """Where the joint begins on the tail board's width, in mm from its face edge."""
        start = self.pins.placement.to_piece((ZERO, self.low, ZERO))
        return self.tails.placement.to_part(start)[1]

    @property
    def tail_face(self) -> Face:
        """The tail board's end that meets."""
        return _END_FACE[self.tail_end]

    @property
    def pin_face(self) -> Face:
        """The pin board's end that meets."""
        return _END_FACE[self.pin_end]

    def on_tails(self, l: Fraction) -> Fraction:  # noqa: E741
        """A length from the tail board's end, along its L."""
        return l if self.tail_end == "A" else self.tails.length - l

    def on_pins(self, l: Fraction) -> Fraction:  # noqa: E741
        """A length from where the pins' end stands, along the pin board's L."""
        return self.lip + l if self.pin_end == "A" else self.pins.length - self.lip - l

    def sides(self) -> Iterator[tuple[Literal["near", "far"], Member, Fraction, Fraction]]:
        """Every sloping side: near or far side of which tail, its place at the end and at the
        baseline, in mm from the near edge of the joint.
        """
        members = self.spacing.members
        for index, tail in enumerate(members):
            if tail.kind != "tail":
                continue
            end, base = self.spacing.at_end(index), self.spacing.at_base(index)
            if index > 0:
                yield "near", tail, end[0], base[0]
            if index < len(members) - 1:
                yield "far", tail, end[1], base[1]


def work(corner: Corner) -> Worked:
    """Cuts, marks and sums of one corner, for both boards."""
    cuts = (*_waste(corner), *_sockets(corner))
    found = {cut.role: cut for cut in cuts}
    return Worked(
        cuts,
        (*_tail_marks(corner), *_pin_marks(corner)),
        tuple(_Told(corner, found).sums()),
    )


# -- cuts


def waste_role(pin: Member) -> str:
    """What the waste on the tail board is called where a pin will stand."""
    return f"waste of {pin.name}"


def socket_role(tail: Member) -> str:
    """What the socket of a tail is called."""
    return f"socket {tail.number}"


def _waste(corner: Corner) -> Iterator[Cut]:
    """What is cut away between the tails, through the tail board's thickness."""
    shift = corner.shift
    whole = corner.tails.thickness
    for index, pin in enumerate(corner.spacing.members):
        if pin.kind == "tail":
            continue
        end, base = corner.spacing.at_end(index), corner.spacing.at_base(index)
        far = corner.open_far and index == len(corner.spacing.members) - 1
        top = corner.tails.width if far else None
        end, base = _moved(end, shift, top), _moved(base, shift, top)
        stop = _stop(corner, index)
        if stop is not None:
            assert corner.rabbet is not None
            near = corner.rabbet.edge == "near"
            line = end[0] + corner.rabbet.wide if near else end[1] - corner.rabbet.wide
            beyond = (end[0], line) if near else (line, end[1])
            reach = sorted((corner.on_tails(ZERO), corner.on_tails(stop)))
            cut = box_cut(
                corner.tails, corner.name, f"{waste_role(pin)} at the rabbet",
                (reach[0], reach[1]), beyond, (ZERO, whole),
            )
            if cut is not None:
                yield cut
            end = (line, end[1]) if near else (end[0], line)
            base = (line, base[1]) if near else (base[0], line)
        points = tuple(
            (corner.on_tails(l), w, t)
            for l, span in ((ZERO, end), (corner.depth, base))  # noqa: E741
            for w in span
            for t in (ZERO, whole)
        )
        yield Cut(corner.tails.id, corner.name, waste_role(pin), Hull(points))


def _moved(span: Span, shift: Fraction, top: Fraction | None) -> Span:
    return (span[0] + shift, span[1] + shift if top is None else top)


def _stop(corner: Corner, index: int) -> Fraction | None:
    """How far from its end the tail board is cut away beside a rabbet: the pin board is so much
    thinner there. None where no rabbet runs through this half pin.
    """
    rabbet = corner.rabbet
    last = len(corner.spacing.members) - 1
    if rabbet is None or index != (0 if rabbet.edge == "near" else last):
        return None
    return corner.depth - rabbet.deep


def _sockets(corner: Corner) -> Iterator[Cut]:
    """What the tails take out of the pin board."""
    reach = sorted((corner.on_pins(ZERO), corner.on_pins(corner.tails.thickness)))
    for index, tail in enumerate(corner.spacing.members):
        if tail.kind != "tail":
            continue
        end = _moved(corner.spacing.at_end(index), corner.low, None)
        base = _moved(corner.spacing.at_base(index), corner.low, None)
        points = tuple(
            (l, w, t)
            for t, span in ((ZERO, base), (corner.depth, end))
            for w in span
            for l in reach  # noqa: E741
        )
        yield Cut(corner.pins.id, corner.name, socket_role(tail), Hull(points))


# -- marks


def side_role(which: str, tail: Member) -> str:
    """What a sloping side is called, on both boards."""
    return f"{which} side of tail {tail.number}"


def _tail_marks(corner: Corner) -> Iterator[Mark]:
    """Baselines round the tail board, slopes on both faces, lines square over its end."""
    board, shift = corner.tails, corner.shift
    faces: tuple[Face, Face] = ("face", "back")
    near, far = _tail_baseline(corner)
    for face in faces:
        yield _gauged(corner, face, "tail baseline", corner.depth, (near, far))
    for edge in _sawn_edges(corner):
        at = _stop(corner, 0 if edge == "edge" else len(corner.spacing.members) - 1)
        yield _gauged(
            corner, edge, "tail baseline" if at is None else "baseline at the rabbet",
            corner.depth if at is None else at, (ZERO, board.thickness),
        )
    if corner.rabbet is not None:
        zone = (shift, near) if corner.rabbet.edge == "near" else (far, shift + _width(corner))
        for face in faces:
            yield _gauged(
                corner, face, "baseline at the rabbet", corner.depth - corner.rabbet.deep, zone
            )
        w = near if corner.rabbet.edge == "near" else far
        ends = (corner.on_tails(corner.depth - corner.rabbet.deep), corner.on_tails(corner.depth))
        yield _mark(board, corner, "back", "knife", "step at the rabbet", w,
                    ((ends[0], w), (ends[1], w)))
    for which, tail, end, base in corner.sides():
        role = side_role(which, tail)
        w, b = end + shift, base + shift
        for face in faces:
            line = ((corner.on_tails(ZERO), w), (corner.on_tails(corner.depth), b))
            yield _mark(board, corner, face, "bevel", role, w, line)
        yield _mark(board, corner, corner.tail_face, "knife", role, w,
                    ((w, ZERO), (w, board.thickness)))
    for role, w in _square_sides(corner):
        for face in faces:
            line = ((corner.on_tails(ZERO), w), (corner.on_tails(corner.depth), w))
            yield _mark(board, corner, face, "knife", role, w, line)
        yield _mark(board, corner, corner.tail_face, "knife", role, w,
                    ((w, ZERO), (w, board.thickness)))


def _square_sides(corner: Corner) -> Iterator[tuple[str, Fraction]]:
    """Half pins that wood of the tail board stays beyond: their square sides, and where on the
    tail board's width, in mm from its face edge.
    """
    if corner.spacing.choice.edges == "half tails":
        return
    if corner.shift > 0:
        yield "square side of half pin 1", corner.shift
    far = corner.shift + _width(corner)
    if far < corner.tails.width and not corner.open_far:
        yield "square side of half pin 2", far


def _width(corner: Corner) -> Fraction:
    return corner.spacing.width


def _tail_baseline(corner: Corner) -> Span:
    """From where to where the baseline is gauged over the tail board's faces."""
    near, far = corner.shift, corner.shift + _width(corner)
    # (with half tails the outermost tail runs on to the edge, above the back too)
    if corner.open_far and corner.spacing.choice.edges == "half pins":
        far = corner.tails.width
    if corner.rabbet is not None:
        if corner.rabbet.edge == "near":
            near += corner.rabbet.wide
        else:
            far -= corner.rabbet.wide
    return near, far


def _sawn_edges(corner: Corner) -> Iterator[Face]:
    """The edges of the tail board that a half pin comes out at."""
    if corner.spacing.choice.edges == "half tails":
        return
    if corner.shift == 0:
        yield "edge"
    if corner.open_far or corner.shift + _width(corner) == corner.tails.width:
        yield "far edge"


def _gauged(
    corner: Corner, face: Face, role: str, at: Fraction, across: Span
) -> Mark:
    """A line on the tail board, gauged from its end."""
    l = corner.on_tails(at)  # noqa: E741
    line = ((l, across[0]), (l, across[1]))
    return Mark(corner.tails.id, corner.name, face, "marking gauge", role, corner.tail_face, at,
                line)


def _mark(
    part: Part,
    corner: Corner,
    face: Face,
    tool: Tool,
    role: str,
    distance: Fraction,
    line: tuple[Spot2, Spot2],
) -> Mark:
    """A line whose place is told from the face edge."""
    return Mark(part.id, corner.name, face, tool, role, "face edge", distance, line)


def _pin_marks(corner: Corner) -> Iterator[Mark]:
    """Baseline, slopes on the end, lines square down to the baseline."""
    board, low = corner.pins, corner.low
    span = (low, corner.high)
    at = corner.lip + corner.tails.thickness
    l = corner.on_pins(corner.tails.thickness)  # noqa: E741
    faces: tuple[Face, ...] = ("face", "back") if corner.through else ("face",)
    for face in faces:
        yield Mark(board.id, corner.name, face, "marking gauge", "pin baseline", corner.pin_face,
                   at, ((l, span[0]), (l, span[1])))
    if not corner.through:
        yield Mark(
            board.id, corner.name, corner.pin_face, "marking gauge", "lap", "face side",
            corner.depth, ((span[0], corner.depth), (span[1], corner.depth)),
        )
    for which, tail, end, base in corner.sides():
        role = side_role(which, tail)
        e, b = end + low, base + low
        yield _mark(board, corner, corner.pin_face, "bevel", role, b,
                    ((b, ZERO), (e, corner.depth)))
        for face in faces:
            w = b if face == "face" else e
            yield _mark(board, corner, face, "knife", role, w,
                        ((corner.on_pins(ZERO), w), (l, w)))


# -- sums


def _next_inward(spacing: Spacing, tail: Member) -> Member | None:
    """The tail nearer the middle that a graduated one is a share of; None where it is in the
    middle, or where all tails are alike, or where half tails stand at the edges.
    """
    choice, tails = spacing.choice, spacing.tails
    if choice.graduated == 1 or choice.edges == "half tails":
        return None
    index, last = tail.number - 1, len(tails) - 1
    inward = min(index, last - index) < last // 2
    return tails[index + 1 if index * 2 < last else index - 1] if inward else None


class _Told(NamedTuple):
    """A corner with its cuts by role, to be told in sums."""

    corner: Corner
    cuts: dict[str, Cut]

    def sums(self) -> Iterator[Sum]:
        yield from self.lengths()
        yield from self.pin_sizes()
        yield from self.tail_sizes()
        yield from self.chains()

    def side_at_end(self, which: str, tail: Member) -> Surface:
        """A sloping side's place at the end: where the socket is widest."""
        socket = self.cuts[socket_role(tail)]
        return low_of(socket, "W") if which == "near" else high_of(socket, "W")

    def side_at_base(self, which: str, tail: Member) -> Surface:
        """A sloping side's place at the baseline: where the waste beside the tail is widest."""
        members = self.corner.spacing.members
        at = members.index(tail)
        if which == "near":
            return high_of(self.cuts[waste_role(members[at - 1])], "W")
        return low_of(self.cuts[waste_role(members[at + 1])], "W")

    def lengths(self) -> Iterator[Sum]:
        """Both baselines, and the slope."""
        tails, pins, spacing = self.corner.tails, self.corner.pins, self.corner.spacing
        socket = self.cuts[socket_role(spacing.tails[0])]
        lap = spacing.choice.lap
        yield add(
            "tail length", tails.id,
            Witness(face_of(pins.id, "face"), high_of(socket, "T")),
            (+1, f"thickness of the {pins.kind}", pins.thickness),
            *([(-1, "lap", lap)] if lap else []),
            where=pins.name,
        )
        yield add(
            "baseline of the pins", pins.id,
            Witness(face_of(tails.id, "face"), face_of(pins.id, self.corner.pin_face)),
            (+1, f"thickness of the {tails.kind}", tails.thickness),
            *([(+1, "lip", self.corner.lip)] if self.corner.lip else []),
            where=tails.name,
        )
        which, tail, _, _ = next(self.corner.sides())
        yield add(
            "slope over the tail", tails.id,
            Witness(self.side_at_base(which, tail), self.side_at_end(which, tail)),
            (+1, f"tail length sloped {spacing.choice.slope.ratio_text}", spacing.offset),
            where=pins.name,
        )
        rabbet = self.corner.rabbet
        if rabbet is not None and rabbet.deep < self.corner.depth:
            role = rabbet_role("edge" if rabbet.edge == "near" else "far edge")
            floor = Surface(pins.id, cut=(pins.id, rabbet.joint, role), axis="T", high=True)
            yield add(
                "baseline at the rabbet", tails.id,
                Witness(face_of(tails.id, self.corner.tail_face), floor),
                (+1, "tail length", self.corner.depth),
                (-1, "depth of the rabbet", rabbet.deep),
                where=pins.name,
            )

    def pin_sizes(self) -> Iterator[Sum]:
        """Half pins and pins, at the end where that was worked out, and at the baseline."""
        corner, tails, spacing = self.corner, self.corner.tails, self.corner.spacing
        offset, first, last = spacing.offset, spacing.members[0], spacing.members[-1]
        edges = (
            (first, 0, "near", spacing.tails[0], self.edge("edge"), corner.low),
            (last, 1, "far", spacing.tails[-1], self.edge("far edge"),
             corner.pins.width - corner.high),
        )
        seen: set[tuple[Fraction, Fraction]] = set()
        alike = first.end == last.end
        for pin, index, which, tail, edge, lip in edges:
            if pin.kind != "half pin" or (pin.end, pin.base) in seen:
                continue
            seen.add((pin.end, pin.base))
            name = "half pin" if alike else pin.name
            if len(spacing.halves[index]) > 1:
                at_end = Witness(edge, self.side_at_end(which, tail), plus=-lip)
                yield add(f"{name} at the end", tails.id, at_end, *spacing.halves[index],
                          where=corner.pins.name)
            yield add(
                f"{name} at the baseline", tails.id,
                Witness(edge, self.side_at_base(which, tail), plus=-lip),
                (+1, f"{name} at the end", pin.end), (+1, "slope over the tail", offset),
                where=corner.pins.name,
            )
        for pin in (one for one in spacing.members if one.kind == "pin"):
            waste = self.cuts[waste_role(pin)]
            yield add(
                "pin at the baseline", tails.id, Witness(low_of(waste, "W"), high_of(waste, "W")),
                (+1, "pin at the end", pin.end),
                (+1, "slope over the tail, on both sides", 2 * offset),
                where=corner.pins.name,
            )
            break

    def tail_sizes(self) -> Iterator[Sum]:
        """Every width of tail that there is, at the end and at the baseline; the divider step."""
        spacing, where = self.corner.spacing, self.corner.pins.name
        seen: set[tuple[Fraction, Fraction]] = set()
        for tail in spacing.tails:
            if (tail.end, tail.base) in seen:
                continue
            seen.add((tail.end, tail.base))
            socket = self.cuts[socket_role(tail)]
            name = "tail" if len({one.end for one in spacing.tails}) == 1 else tail.name
            yield add(
                f"{name} at the end", self.corner.tails.id,
                Witness(low_of(socket, "W"), high_of(socket, "W")),
                *self.tail_terms(tail), where=where,
            )
            slopes = (tail.end - tail.base) / spacing.offset
            words = "slope over the tail" + (", on both sides" if slopes > 1 else "")
            yield add(
                f"{name} at the baseline", self.corner.tails.id, self.base_of(tail),
                (+1, f"{name} at the end", tail.end), (-1, words, tail.end - tail.base),
                where=where,
            )
        if spacing.step is not None:
            one, other = (self.cuts[socket_role(tail)] for tail in spacing.tails[:2])
            yield add(
                "divider step", self.corner.tails.id,
                Witness(high_of(one, "W"), high_of(other, "W")),
                (+1, "tail at the end", spacing.tails[0].end),
                (+1, "pin at the end", spacing.choice.pin),
                where=where,
            )

    def base_of(self, tail: Member) -> Witness:
        """A tail's width at the baseline, as the waste beside it leaves it."""
        corner, members = self.corner, self.corner.spacing.members
        plus = ZERO
        if members[0] == tail:
            low, plus = self.edge("edge"), plus - corner.low
        else:
            low = self.side_at_base("near", tail)
        if members[-1] == tail:
            high, plus = self.edge("far edge"), plus - (corner.pins.width - corner.high)
        else:
            high = self.side_at_base("far", tail)
        return Witness(low, high, plus=plus)

    def edge(self, face: Literal["edge", "far edge"]) -> Surface:
        """An edge of the pin board."""
        return face_of(self.corner.pins.id, face)

    def tail_terms(self, tail: Member) -> Terms:
        """How a tail's width at the end comes about: between two pins, or a share of the width."""
        spacing = self.corner.spacing
        choice, index = spacing.choice, tail.number - 1
        if choice.pins_at:
            terms: list[tuple[int, str, Fraction]] = []
            last = index == len(choice.pins_at)
            if last:
                terms.append((+1, "width", spacing.width))
                if spacing.members[-1].kind == "half pin":
                    terms.append((-1, "half pin", spacing.members[-1].end))
            else:
                terms.append((+1, f"middle of pin {tail.number}", choice.pins_at[index]))
            if index > 0:
                terms.append((-1, f"middle of pin {index}", choice.pins_at[index - 1]))
            elif spacing.members[0].kind == "half pin":
                terms.append((-1, "half pin", spacing.members[0].end))
            pins = (0 if last else 1) + (1 if index > 0 else 0)
            if pins:
                words = "half of the pin" if pins == 1 else "half of both pins"
                terms.append((-1, words, choice.pin * pins / 2))
            return tuple(terms)
        inner = _next_inward(spacing, tail)
        if inner is not None:
            ratio = choice.graduated
            return ((+1, f"{ratio} of {inner.name}", inner.end * ratio),)
        share = tail_share(spacing, tail.number)
        part = "" if share == 1 else f"{share} of "
        found: list[tuple[int, str, Fraction]] = [(+1, f"{part}the width", spacing.width * share)]
        ends = [one.end for one in spacing.members if one.kind == "half pin"]
        if ends:
            found.append((-1, f"{part}both half pins", sum(ends, ZERO) * share))
        count = len(spacing.tails) - 1
        if count:
            words = "the pin" if count == 1 else f"{count} pins"
            found.append((-1, f"{part}{words}", choice.pin * count * share))
        return tuple(found)

    def chains(self) -> Iterator[Sum]:
        """The whole width, member by member: what is struck, and what must come out."""
        corner = self.corner
        tails, pins = corner.tails, corner.pins
        rest = tails.width - corner.shift - corner.spacing.width
        before: Terms = ()
        if corner.shift:
            before = ((+1, f"{tails.kind} below the {pins.kind}", corner.shift),)
        after: Terms = ((+1, f"{tails.kind} above the {pins.kind}", rest),) if rest else ()
        yield self.chain("at the end", tails, before, after, pins.name)
        yield self.chain("at the baseline", tails, before, after, pins.name)
        before = ((+1, "lip", corner.low),) if corner.low else ()
        lip = pins.width - corner.high
        after = ((+1, "lip", lip),) if lip else ()
        if corner.through:
            yield self.chain("at the end", pins, before, after, tails.name)
        yield self.chain("at the baseline", pins, before, after, tails.name)

    def chain(self, place: str, board: Part, before: Terms, after: Terms, where: str) -> Sum:
        """One chain across a board, each running total with its witness."""
        corner, spacing = self.corner, self.corner.spacing
        at_end = place == "at the end"
        start = face_of(board.id, "edge")
        sized: Terms = tuple(
            (+1, one.name, one.end if at_end else one.base) for one in spacing.members
        )
        along: list[Witness] = []
        if before:
            near = self.edge("edge")
            if board.id == corner.pins.id:
                near = face_of(corner.tails.id, "edge")  # the side's edge stands in by the lip
            along.append(Witness(start, near))
        side = self.side_at_end if at_end else self.side_at_base
        for index, one in enumerate(spacing.members):
            if one.kind == "tail":
                if index < len(spacing.members) - 1:
                    along.append(Witness(start, side("far", one)))
            elif index < len(spacing.members) - 1:
                nearer = spacing.members[index + 1]
                along.append(Witness(start, side("near", nearer)))
        if after:
            far = self.edge("far edge")
            if board.id == corner.pins.id:
                far = face_of(corner.tails.id, "far edge")
            along.append(Witness(start, far))
        return add(
            f"tails and pins {place}", board.id, Witness(start, face_of(board.id, "far edge")),
            *before, *sized, *after, where=where, along=tuple(along),
        )
