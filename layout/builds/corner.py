"""Tenons that meet in a leg: how long each may be, and what becomes of their ends.

Two rails come to a corner leg from two sides. Where their tenons stand at one height, each must
end short of the other's mortise, or both are mitred, or one is notched and the other passes
through it. The meeting test itself is geometry; no book prints it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from layout.builds.frame import StandingRail
from layout.defaults import default_ratio
from layout.errors import BadPiece
from layout.joints import haunch, key
from layout.joints.choices import TenonChoice
from layout.joints.rail_end import End, Meeting, Mitre, Notch, TenonSizes
from layout.joints.section import Section, Terms

ZERO = Fraction(0)


class Sectioned(NamedTuple):
    """A standing rail with its section; `groove` is how deep a groove its haunch would fill,
    `rebate` how wide one is on the far side of what bears an end, in mm.
    """

    rail: StandingRail
    section: Section
    groove: Fraction = ZERO
    rebate: Fraction = ZERO


class Neighbour(NamedTuple):
    """Another rail at the same leg and height: where its mortise lies on this tenon's way.

    `near` and `far` are its walls from the leg's outside, in mm. `meets` is False where the two
    only pass so close above one another that too thin a web would be left.
    """

    one: Sectioned
    meeting: Meeting
    near: Fraction
    far: Fraction
    meets: bool


def tenon_ends(rails: Sequence[Sectioned]) -> dict[str, tuple[TenonSizes, TenonSizes]]:
    """The tenons at both ends of every rail, by part id. BadPiece where the choices at a corner
    don't go together.
    """
    lengths = {
        (one.rail.part.id, meeting.end): _length(one, meeting, _neighbours(one, meeting, rails))
        for one in rails
        for meeting in one.rail.meetings
    }
    found = {}
    for one in rails:
        a, b = (
            _end(one, meeting, _neighbours(one, meeting, rails), lengths)
            for meeting in one.rail.meetings
        )
        found[one.rail.part.id] = (a, b)
    return found


def _neighbours(one: Sectioned, meeting: Meeting, rails: Sequence[Sectioned]) -> list[Neighbour]:
    """The rails whose tenons meet this one's in the leg, or would leave too thin a web there."""
    found = []
    for other in rails:
        if other is one or other.rail.side is None or one.rail.side is None:
            continue
        for theirs in other.rail.meetings:
            if theirs.bearer.id != meeting.bearer.id or theirs.into == meeting.into:
                continue
            apart = _apart_in_height(one, other)
            if apart >= max(one.rail.choice.tenon.wall_least, ZERO) and apart >= 0:
                continue
            outside = _total(theirs.thickness.near)
            spans = other.section.spans("T")
            found.append(
                Neighbour(
                    other, theirs, outside + spans[0][0], outside + spans[-1][1], apart < 0
                )
            )
    return found


def _heights(one: Sectioned) -> list[tuple[Fraction, Fraction]]:
    """The reach of a rail's tenons above the floor."""
    top = one.rail.top
    return [(top - high, top - low) for low, high in one.section.spans("W")]


def _apart_in_height(one: Sectioned, other: Sectioned) -> Fraction:
    """How far the tenons of two rails are apart in height, in mm; negative where they overlap."""
    return min(
        max(a_low - b_high, b_low - a_high)
        for a_low, a_high in _heights(one)
        for b_low, b_high in _heights(other)
    )


def _meeting_ones(neighbours: list[Neighbour]) -> list[Neighbour]:
    """The neighbours whose tenons stand at one height with this one."""
    return [neighbour for neighbour in neighbours if neighbour.meets]


def _total(terms: Terms) -> Fraction:
    return sum((sign * value for sign, _, value in terms), ZERO)


def _kind(one: Sectioned, neighbours: list[Neighbour]) -> str:
    """What was chosen for this tenon where it meets others; "" where nothing was."""
    choice = one.rail.choice.tenon
    neighbours = _meeting_ones(neighbours)
    if not neighbours or choice.meeting in (None, "clear"):
        for neighbour in neighbours:
            theirs = neighbour.one.rail.choice
            if theirs.tenon.meeting in ("mitred", "passing"):
                raise BadPiece(
                    f"the tenon of the {theirs.name} is {theirs.tenon.meeting}, that of the "
                    f"{one.rail.choice.name} it meets is not",
                    f'give both meeting = "{theirs.tenon.meeting}"',
                    one.rail.choice.where,
                )
        return choice.meeting or ""
    for neighbour in neighbours:
        theirs = neighbour.one.rail.choice
        if theirs.tenon.meeting != choice.meeting:
            raise BadPiece(
                f"the tenon of the {one.rail.choice.name} is {choice.meeting}, that of the "
                f"{theirs.name} it meets is not",
                f'give both meeting = "{choice.meeting}"',
                one.rail.choice.where,
            )
        if choice.meeting == "passing" and choice.notched == theirs.tenon.notched:
            raise BadPiece(
                f"the tenons of the {one.rail.choice.name} and the {theirs.name} pass, and "
                f"{'both' if choice.notched else 'neither'} of them carries the notch",
                "write notched = true for one of the two",
                one.rail.choice.where,
            )
    if choice.meeting == "mitred" and choice.twin is not None:
        raise BadPiece(
            f"the {one.rail.choice.name} has twin tenons, which can't be mitred",
            'use one tenon, or meeting = "clear"',
            one.rail.choice.where,
        )
    return choice.meeting or ""


def _size_word(meeting: Meeting) -> str:
    word = {"L": "length", "W": "width", "T": "thickness"}[meeting.into]
    return f"{meeting.bearer.kind} {word}"


class _Length(NamedTuple):
    length: Fraction
    terms: Terms
    could_mitre: tuple[str, Fraction] | None = None


def _length(one: Sectioned, meeting: Meeting, neighbours: list[Neighbour]) -> _Length:
    """How long the tenon is, and where it was left open the sum that it comes from."""
    choice, bearer = one.rail.choice.tenon, meeting.bearer.size(meeting.into)
    word = _size_word(meeting)
    kind = _kind(one, neighbours)
    if choice.through:
        beyond = projection(choice)
        return _Length(bearer + beyond, ((+1, word, bearer), (+1, "projection", beyond)))
    if choice.length is not None:
        return _Length(choice.length, ())
    behind: Terms = (
        (+1, word, bearer),
        (-1, "least wood behind the mortise", choice.wall_least),
        (-1, "room for glue", choice.glue_room),
    )
    # the greatest share of the leg in the drawings that were read (defaults.toml)
    share_name = "stub_length_share" if choice.stub else "tenon_length_share"
    share = default_ratio(share_name)
    usual: Terms = ((+1, f"{share} of the {word}", bearer * share),)
    open_ways = [behind, usual]
    if one.rebate:
        open_ways.append((behind[0], (-1, "meeting rebate", one.rebate), *behind[1:]))
    could = None
    meeting_ones = _meeting_ones(neighbours)
    if kind == "mitred" and meeting_ones:
        open_ways = [_long_side(one, meeting, meeting_ones[0])]
    elif kind == "passing" and meeting_ones:
        open_ways = [behind]
    else:
        for neighbour in neighbours:
            name = neighbour.one.rail.choice.name
            open_ways.append(
                (
                    (+1, word, bearer),
                    (-1, f"far mortise wall of the {name}", neighbour.far),
                    (-1, "least wood between the mortises", choice.wall_least),
                    (-1, "room for glue", choice.glue_room),
                )
            )
            if not kind and choice.twin is None and neighbour.meets:
                could = (
                    neighbour.one.rail.choice.name, _total(_long_side(one, meeting, neighbour))
                )
    terms = min(open_ways, key=_total)
    length = _total(terms)
    if length <= 0:
        raise BadPiece(
            f"no length is left for the tenon of the {one.rail.part.name} in the "
            f"{meeting.bearer.name}",
            "make the leg thicker, set the rails at different heights, or let the tenons pass",
            one.rail.choice.where,
        )
    return _Length(length, terms, could)


def projection(choice: TenonChoice) -> Fraction:
    """How far a through tenon stands beyond its bearer, in mm."""
    if choice.key is not None and choice.projection == 0:
        return key.projection(choice.key)
    return choice.projection


def _half_gap(one: Sectioned) -> Fraction:
    return one.rail.choice.tenon.mitre_gap / 2


def _long_side(one: Sectioned, meeting: Meeting, other: Neighbour) -> Terms:
    """From the shoulder to the long point of a mitre: short of the near wall of the other."""
    return (
        (+1, _size_word(meeting), meeting.bearer.size(meeting.into)),
        (-1, f"near mortise wall of the {other.one.rail.choice.name}", other.near),
        (-1, "half of the gap between the mitres", _half_gap(one)),
    )


def _short_side(one: Sectioned, meeting: Meeting, other: Neighbour) -> Terms:
    return (
        (+1, _size_word(meeting), meeting.bearer.size(meeting.into)),
        (-1, f"far mortise wall of the {other.one.rail.choice.name}", other.far),
        (-1, "half of the gap between the mitres", _half_gap(one)),
    )


def _end(
    one: Sectioned,
    meeting: Meeting,
    neighbours: list[Neighbour],
    lengths: Mapping[tuple[str, End], _Length],
) -> TenonSizes:
    choice = one.rail.choice.tenon
    found = lengths[one.rail.part.id, meeting.end]
    length, kind = found.length, _kind(one, neighbours)
    mitre = None
    neighbours = _meeting_ones(neighbours)
    if kind == "mitred" and neighbours:
        mitre = _mitre(one, meeting, neighbours, length)
    notches: tuple[Notch, ...] = ()
    if kind == "passing" and choice.notched:
        notches = tuple(
            notch
            for neighbour in neighbours
            for notch in _notches(one, meeting, neighbour, length)
        )
    return TenonSizes(
        section=one.section,
        length=length,
        glue_room=ZERO if choice.through else choice.glue_room,
        bearer=meeting.bearer.size(meeting.into),
        through=choice.through,
        projection=projection(choice) if choice.through else ZERO,
        haunch_length=haunch.length(choice.haunch, length, one.groove),
        web_haunch=ZERO if choice.pair is None else choice.pair.haunch,
        mitre=mitre,
        notches=notches,
        length_terms=found.terms,
        could_mitre=found.could_mitre,
    )


def _mitre(
    one: Sectioned, meeting: Meeting, neighbours: list[Neighbour], length: Fraction
) -> Mitre | None:
    """Where the slope leaves the cheeks, None for a tenon that ends before it comes to it.
    BadPiece where the tenon is too long for it.
    """
    if len({(other.near, other.far) for other in neighbours}) > 1:
        raise BadPiece(
            f"the tenon of the {one.rail.part.name} meets two others that stand differently",
            "give those two one set-in and one tenon thickness, or keep the tenons clear",
            one.rail.choice.where,
        )
    other = neighbours[0]
    long, short = _long_side(one, meeting, other), _short_side(one, meeting, other)
    if length > _total(long):
        from layout.measure import default_rule, show

        most = " or ".join(
            show(_total(long), default_rule(unit)).with_unit for unit in ("in", "mm")
        )
        raise BadPiece(
            f"the tenon of the {one.rail.part.name} is longer than its mitre allows",
            f"leave its length out for the longest, {most}, or make it less",
            one.rail.choice.where,
        )
    if length <= _total(short):
        return None
    return Mitre(
        length - _total(long),
        length - _total(short),
        (("long side", long), ("short side", short)),
    )


def _notches(
    one: Sectioned, meeting: Meeting, other: Neighbour, length: Fraction
) -> list[Notch]:
    """What the passing tenons take out of this one, in its own (u, w)."""
    rail, bearer = one.rail, meeting.bearer.size(meeting.into)
    start, stop = length - bearer + other.near, length - bearer + other.far
    if stop <= 0:
        return []  # this tenon ends before it comes to the other
    word, name = _size_word(meeting), other.one.rail.choice.name
    tip: Terms = ((+1, "tenon length", length), (-1, word, bearer))
    found = []
    for low, high in _heights(other.one):
        top, bottom = rail.top - high, rail.top - low
        if bottom <= 0 or top >= rail.part.width:
            continue
        level = (+1, f"top of the {rail.part.name} above the floor", rail.top)
        found.append(
            Notch(
                (max(start, ZERO), stop),
                (max(top, ZERO), min(bottom, rail.part.width)),
                name,
                (*tip, (+1, f"near mortise wall of the {name}", other.near)) if start > 0 else (),
                (*tip, (+1, f"far mortise wall of the {name}", other.far)),
                (level, (-1, f"top of the tenon of the {name}", high)) if top > 0 else (),
                (level, (-1, f"bottom of the tenon of the {name}", low))
                if bottom < rail.part.width
                else (),
            )
        )
    return found
