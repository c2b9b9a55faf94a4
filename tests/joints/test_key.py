"""Keys: the hole in the tenon, the key against the leg, lines and sums.

The rail is 2 x 1 1/8 in, 4 in below the leg's top (26 in above the floor); its tenon is 1/2 in
thick (5/16 to 13/16 behind the face), 1 1/2 in wide (1/4 to 1 3/4 from the edge), right through
legs 2 1/2 in square. The key is 7/8 in where it enters and leaves 1 1/8 in beyond it: 2 in proud.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given, settings

from layout.checks.bodies import left_of, part_body, placed_body
from layout.checks.solids import findings as overlaps
from layout.joints import key as keys
from layout.joints.choices import PairChoice, TwinChoice
from layout.part import Part
from layout.piece import Piece
from layout.solid.convex import Body, common, volume
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    cubic,
    frame,
    hull,
    inch,
    inches,
    joint_of,
    key,
    marks_of,
    rail,
    reach,
    solid,
    through,
    total,
)

Way = Literal["thickness", "width"]
HALF = Fraction(1, 2)
# 43 between the shoulders, 2 1/2 and 2 at both ends
LONG = inch(52)
WAYS: tuple[Way, Way] = ("thickness", "width")


def keyed(**changes: object) -> Piece:
    choice = through(key=key(**changes))
    return agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)))


def from_tip(end: str, u: Fraction) -> Fraction:
    return u if end == "A" else LONG - u


def part_named(p: Piece, name: str) -> Part:
    (found,) = [one for one in p.parts if one.name == name]
    return found


def finished(p: Piece, part: Part) -> Body:
    """A key less its taper, where it stands: one body."""
    cuts = [placed_body(part, one.shape) for one in p.cuts_of(part.id)]  # type: ignore[arg-type]
    (left,) = left_of(part_body(part), cuts)
    return left


def test_a_keyed_tenon_stands_out_by_the_key_and_the_wood_beyond_it() -> None:
    assert keys.projection(key()) == inch(2)
    p = keyed()
    size = joint_of(p, "front-rail.A").size
    assert (size.projection, size.length, p.part("front-rail").length) == inches("2|4 1/2|52")
    # a projection of the maker's own counts
    own = through(key=key(), projection=inch("1 1/2"))
    longer = agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=own)))
    assert joint_of(longer, "front-rail.A").size.length == inch(4)


# -- the hole


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize(
    ("way", "driven", "across", "narrow"),
    [
        # driven through 1/2: loses 1/14; a third of 1 1/2 across in the middle
        ("thickness", "5/16 | 13/16", "3/4 | 1 1/4", "45/56"),
        # driven through 1 1/2: loses 3/14; a third of 1/2 across in the middle
        ("width", "1/4 | 1 3/4", "23/48 | 31/48", "37/56"),
    ],
)
def test_the_hole(end: str, way: Way, driven: str, across: str, narrow: str) -> None:
    p = keyed(way=way)
    hole = hull(p, "front-rail", f"front-rail.{end}", f"key hole {end}")
    # from 1/16 under the leg's face, 2 from the tip, out by the key's size on either side
    enters, leaves = inches(driven)
    inner = inch("2 1/16")
    outline = {
        (inner, enters), (inch(2) - inch("7/8"), enters),
        (inner, leaves), (inch(2) - inch(narrow), leaves),
    }  # fmt: skip
    order = (2, 1) if way == "thickness" else (1, 2)  # where `driven` and `across` stand
    points = set()
    for u, at in outline:
        for side in inches(across):
            point = {0: from_tip(end, u), order[0]: at, order[1]: side}
            points.add((point[0], point[1], point[2]))
    assert set(hole.points) == points
    low, high = inches(across)
    mean = (inch("7/8") + inch(narrow)) / 2 + inch("1/16")
    assert solid(hole) == cubic(mean, leaves - enters, high - low)


def test_sums_of_a_key() -> None:
    p = keyed()
    # 2 1/2 - 1/16; 2 1/2 + 7/8; 7/8 - 1/2 / 7
    assert total(p, "front-rail", "key hole from the shoulder") == inch("2 7/16")
    assert total(p, "front-rail", "outer end of the key hole from the shoulder") == inch("3 3/8")
    assert total(p, "front-rail", "key where it leaves the tenon") == inch("45/56")


def test_lines_of_the_hole_on_both_surfaces_that_the_key_passes() -> None:
    p = keyed()
    low, high = inches("3/4 | 1 1/4")
    for end in ("A", "B"):
        joint = f"front-rail.{end}"
        for role, at in (
            ("inner end", {"face": "2 1/16", "back": "2 1/16"}),
            ("outer end", {"face": "1 1/8", "back": "67/56"}),
        ):
            lines = marks_of(p, "front-rail", joint, f"key hole, {role}")
            where = {face: from_tip(end, inch(u)) for face, u in at.items()}
            assert {one.face: one.distance for one in lines} == where
            assert all(
                (one.tool, one.source) == ("knife", "end A")
                and one.line == ((one.distance, low), (one.distance, high))
                for one in lines
            )
        for role, across in (("near side", low), ("far side", high)):
            lines = marks_of(p, "front-rail", joint, f"key hole, {role}")
            assert [(one.face, one.tool, one.source, one.pair) for one in lines] == [
                (face, "mortise gauge", "face edge", (low, high)) for face in ("face", "back")
            ]
            assert {one.distance for one in lines} == {across}
    by_width = keyed(way="width")
    lines = marks_of(by_width, "front-rail", "front-rail.A", "key hole, near side")
    assert [(one.face, one.source, one.distance) for one in lines] == [
        ("edge", "face side", inch("23/48")), ("far edge", "face side", inch("23/48"))
    ]  # fmt: skip


# -- the key


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize(
    # through the tenon and 7/8 beyond it at both ends; head 7/8 + 1/7 of 7/8 = 1
    ("way", "length", "thickness"),
    [("thickness", "2 1/4", "1/2"), ("width", "3 1/4", "1/6")],
)
def test_the_key_s_sizes_and_taper(end: str, way: Way, length: str, thickness: str) -> None:
    p = keyed(way=way)
    part = part_named(p, f"front rail key, end {end}")
    assert (part.kind, part.length, part.width, part.thickness) == (
        "key", inch(length), inch(1), inch(thickness)
    )  # fmt: skip
    (taper,) = p.cuts_of(part.id)
    foot = inch(1) - inch(length) / 7
    assert reach(taper.shape) == (
        (0, inch(length)), (foot, inch(1)), (0, inch(thickness))
    )  # fmt: skip
    assert solid(taper.shape) == cubic(  # type: ignore[arg-type]
        HALF, inch(length), inch(length) / 7, inch(thickness)
    )


@pytest.mark.parametrize(("end", "beyond"), [("A", "-1 | 0"), ("B", "48 | 49")])
@pytest.mark.parametrize(
    ("way", "deep", "high"),
    [
        # 7/8 before 5/16, 7/8 behind 13/16; 3/4 and 1 1/4 below 26
        ("thickness", "-9/16 | 1 11/16", "24 3/4 | 25 1/4"),
        # 7/8 above 1/4 and below 1 3/4
        ("width", "23/48 | 31/48", "23 3/8 | 26 5/8"),
    ],
)
def test_the_key_stands_against_the_leg(
    end: str, beyond: str, way: Way, deep: str, high: str
) -> None:
    p = keyed(way=way)
    part = part_named(p, f"front rail key, end {end}")
    outside = inch(0) if end == "A" else inch(48)
    assert finished(p, part).spans == (inches(beyond), inches(deep), inches(high))
    # thick where it is driven from: in front, or on top; nothing is taken off its plain side
    body = finished(p, part)
    axis = 1 if way == "thickness" else 2
    thick_end = min(body.spans[1]) if axis == 1 else max(body.spans[2])
    thin_end = max(body.spans[1]) if axis == 1 else min(body.spans[2])
    way_out = -1 if end == "A" else 1
    for at, size in ((thick_end, inch(1)), (thin_end, inch(1) - part.length / 7)):
        here = {spot[0] for spot in body.corners if spot[axis] == at}
        assert here == {outside, outside + way_out * size}
    plain = [spot for spot in body.corners if spot[0] == outside]
    assert {spot[axis] for spot in plain} == {thick_end, thin_end}


@pytest.mark.parametrize("end", ["A", "B"])
@pytest.mark.parametrize("way", WAYS)
@given(
    fractions(Fraction(8), Fraction(30), 4),
    fractions(Fraction(1, 20), Fraction(1, 6), 40),
    fractions(Fraction(0), Fraction(5), 4),
    fractions(Fraction(0), Fraction(20), 4),
)
@settings(max_examples=6, deadline=None)
def test_the_key_fills_its_hole_but_for_the_pull(
    end: str, way: Way, wide: Fraction, taper: Fraction, pull: Fraction, proud: Fraction
) -> None:
    p = keyed(way=way, wide=wide, taper=taper, pull=pull, proud=proud)
    joint = joint_of(p, f"front-rail.{end}")
    (tenon,) = joint.tenons()
    part = part_named(p, f"front rail key, end {end}")
    whole = joint.block((Fraction(0), joint.size.length), tenon.across, tenon.through)
    inside = common(finished(p, part), placed_body(joint.rail, whole))
    assert inside is not None
    hole = placed_body(joint.rail, hull(p, "front-rail", joint.name, f"key hole {end}"))
    assert left_of(inside, [hole]) == ()
    driven = inch("1/2") if way == "thickness" else inch("1 1/2")
    across = inch("1/2") if way == "thickness" else inch("1/6")
    assert volume(inside) == cubic(wide - taper * driven / 2, driven, across)
    assert volume(hole) - volume(inside) == cubic(pull, driven, across)
    assert [one for one in overlaps(p) if one.level == "stop"] == []


def test_a_width_of_its_own() -> None:
    p = keyed(width=inch("3/4"))
    part = part_named(p, "front rail key, end A")
    assert part.thickness == inch("3/4")
    assert reach(hull(p, "front-rail", "front-rail.A", "key hole A"))[1] == inches("5/8 | 1 3/8")


def test_each_of_a_pair_has_its_key() -> None:
    # 4 wide, quarters: tenons 1/2 to 1 1/2 and 2 1/2 to 3 1/2, a third of 1 in the middle
    choice = through(pair=PairChoice(), key=key())
    p = agreed(frame(rail(width=inch(4), below_top=inch(4), tenon=choice)))
    names = {one.name for one in p.parts if one.kind == "key"}
    assert names == {
        f"front rail {which} key, end {end}" for which in ("upper", "lower") for end in "AB"
    }
    assert total(p, "front-rail", "key hole from the shoulder of the lower tenon") == (
        inch("2 7/16")
    )
    hole = hull(p, "front-rail", "front-rail.B", "lower key hole B")
    assert reach(hole)[1] == (inch("2 5/6"), inch("3 1/6"))


def test_each_of_two_twins_has_its_key_from_above() -> None:
    choice = through(
        thickness=inch("3/8"), twin=TwinChoice(inch("1/2")), key=key(way="width")
    )
    p = agreed(frame(rail(width=inch(2), thickness=inch(2), below_top=inch(4), tenon=choice)))
    for name, middle in (("outer", inch("9/16")), ("inner", inch("1 7/16"))):
        hole = hull(p, "front-rail", "front-rail.A", f"{name} key hole A")
        assert reach(hole)[2] == (middle - inch("1/16"), middle + inch("1/16"))


@pytest.mark.parametrize("way", WAYS)
def test_a_stretcher_s_keys_stand_against_the_outsides_of_its_rails(way: Way) -> None:
    low = rail("low", sides=("left", "right"), width=inch(3), below_top=inch(12))
    choice = through(key=key(way=way))
    p = agreed(
        frame(low, crosses=(cross("stretcher", "left low", "right low", tenon=choice),))
    )
    for end, beyond in (("A", "-1 | 0"), ("B", "48 | 49")):
        part = part_named(p, f"stretcher key, end {end}")
        assert finished(p, part).spans[0] == inches(beyond)
    assert [one for one in overlaps(p) if one.level == "stop"] == []
