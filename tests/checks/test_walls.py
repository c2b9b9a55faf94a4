"""Wood round each mortise: behind it, on its four sides, between two of one rail; at the limit of
3/16 in, just inside and just outside.

Unless a test says otherwise: rail 2 x 1 1/8 in, 4 in below the top of a leg 2 1/2 in square and 30
long; tenon 1 1/4 in long, 3/8 thick in the middle (3/8 to 3/4), glue room 1/8.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.choices import LegChoice, RailChoice
from layout.checks import walls
from layout.checks.walls import joint_mortises
from layout.joints.choices import PairChoice, TenonChoice, TwinChoice
from layout.mark import Finding
from layout.piece import Piece
from tests.pieces import (
    agreed,
    cross,
    frame,
    inch,
    inches,
    joint_of,
    piece,
    rail,
    side_wedge,
    tenon,
    through,
    wedges,
)

LEAST = inch("3/16")
# the wall, and what is said of it
LIMITS = [
    ("13/64", None),
    ("3/16", None),
    ("11/64", "caution"),
    ("1/64", "caution"),
    ("0", "stop"),
    ("-1/64", "stop"),
]


def one_rail(choice: TenonChoice, **changes: object) -> RailChoice:
    return rail(**{"width": inch(2), "below_top": inch(4), "tenon": choice, **changes})


def of(p: Piece, rule: str) -> list[Finding]:
    return [one for one in walls.findings(p) if one.rule == rule]


def holds(p: Piece, rule: str, wall: Fraction, level: str | None, words: str) -> None:
    """Both ends of the rail tell the same, or neither tells anything."""
    found = of(p, rule)
    assert [one.level for one in found] == ([] if level is None else [level] * 2)
    for one in found:
        assert (dict(one.figures)["wall"], dict(one.figures)["least"]) == (wall, LEAST)
        assert words in one.text
    assert [one for one in walls.findings(p) if one.rule != rule] == []


@pytest.mark.parametrize(("wall", "level"), LIMITS)
def test_behind_the_mortise(wall: str, level: str | None) -> None:
    # leg 2 1/2 less the glue room less the wall
    long = inch("2 1/2") - inch("1/8") - inch(wall)
    p = agreed(frame(one_rail(tenon(length=long))))
    holds(p, walls.DEPTH, inch(wall), level, "behind the mortise")
    for one in of(p, walls.DEPTH):
        figures = dict(one.figures)
        assert (figures["tenon length"], figures["mortise depth"]) == (long, long + inch("1/8"))


def test_a_through_mortise_has_nothing_behind_it() -> None:
    p = agreed(frame(one_rail(through())))
    assert walls.findings(p) == []


# A sum is told by its size: where the tenon comes out of the leg the parts can't agree with it.
@pytest.mark.parametrize(("wall", "level"), LIMITS[:-1])
def test_outside_the_mortise(wall: str, level: str | None) -> None:
    p = agreed(frame(one_rail(tenon(outer_shoulder=inch(wall)))))
    holds(p, walls.RULE, inch(wall), level, "outside the mortise")
    # a set-in is wood there too
    deeper = agreed(
        frame(one_rail(tenon(outer_shoulder=Fraction(0)), set_in=inch(wall)))
    )
    holds(deeper, walls.RULE, inch(wall), level, "outside the mortise")


@pytest.mark.parametrize(("wall", "level"), LIMITS)
def test_inside_the_mortise(wall: str, level: str | None) -> None:
    # the far cheek stands at 3/4
    leg = LegChoice(inch("2 1/2"), inch("3/4") + inch(wall))
    p = agreed(frame(one_rail(tenon()), leg=leg))
    holds(p, walls.RULE, inch(wall), level, "inside the mortise")


@pytest.mark.parametrize(("wall", "level"), LIMITS[:-1])
def test_above_the_mortise(wall: str, level: str | None) -> None:
    p = agreed(frame(one_rail(tenon(top_shoulder=inch(wall)), below_top=Fraction(0))))
    holds(p, walls.TOP, inch(wall), level, "above the mortise")
    # a rail set lower has wood above it
    lower = agreed(frame(one_rail(tenon(top_shoulder=Fraction(0)), below_top=inch(wall))))
    holds(lower, walls.TOP, inch(wall), level, "above the mortise")


@pytest.mark.parametrize(("wall", "level"), LIMITS[:-1])
def test_below_the_mortise(wall: str, level: str | None) -> None:
    low = one_rail(tenon(bottom_shoulder=inch(wall)), below_top=None, above_floor=Fraction(0))
    p = agreed(frame(low))
    holds(p, walls.TOP, inch(wall), level, "below the mortise")
    higher = one_rail(tenon(bottom_shoulder=Fraction(0)), below_top=None, above_floor=inch(wall))
    holds(agreed(frame(higher)), walls.TOP, inch(wall), level, "below the mortise")


# -- between two mortises of one rail


@pytest.mark.parametrize(("web", "level"), [one for one in LIMITS if one[0][0] != "-"])
def test_between_a_pair(web: str, level: str | None) -> None:
    choice = tenon(pair=PairChoice(inch(web)))
    p = piece(frame(one_rail(choice, width=inch(4))))
    found = of(p, walls.WEB)
    assert [one.level for one in found] == ([] if level is None else [level] * 2)
    assert all(dict(one.figures) == {"web": inch(web), "least": LEAST} for one in found)
    assert all("(web)" in one.text for one in found)


@pytest.mark.parametrize(("gap", "level"), [one for one in LIMITS if one[0][0] != "-"])
def test_between_twins(gap: str, level: str | None) -> None:
    choice = tenon(twin=TwinChoice(inch(gap)))
    p = piece(frame(one_rail(choice, thickness=inch("1 1/2"))))
    found = of(p, walls.WEB)
    assert [one.level for one in found] == ([] if level is None else [level] * 2)
    assert all("gap between the twins" in one.text for one in found)


# -- in rails


HIGH = rail(sides=("front", "back", "left", "right"), width=inch(2))
FOOT = rail("low", sides=("front", "left", "right"), width=inch(2), below_top=inch(20))


@pytest.mark.parametrize(("wall", "level"), LIMITS[:-1])
@pytest.mark.parametrize(("side", "words"), [("top", "above"), ("bottom", "below")])
def test_above_and_below_in_a_rail(side: str, words: str, wall: str, level: str | None) -> None:
    """A stretcher as wide as the rails that bear it: its shoulders are the wood there."""
    choice = tenon(length=inch("1/2"), **{f"{side}_shoulder": inch(wall)})
    p = agreed(
        frame(HIGH, FOOT, crosses=(cross("stretcher", "left low", "right low", tenon=choice),))
    )
    holds(p, walls.RULE, inch(wall), level, f"{words} the mortise")


@pytest.mark.parametrize(("wall", "level"), LIMITS)
def test_behind_a_mortise_in_a_rail(wall: str, level: str | None) -> None:
    # the rails are 1 1/8 thick
    long = inch("1 1/8") - inch("1/8") - inch(wall)
    p = agreed(
        frame(
            HIGH, FOOT,
            crosses=(cross("stretcher", "left low", "right low", tenon=tenon(length=long)),),
        )
    )  # fmt: skip
    holds(p, walls.DEPTH, inch(wall), level, "behind the mortise")


@pytest.mark.parametrize(("wall", "level"), LIMITS[:-1])
def test_outside_and_inside_in_a_rail(wall: str, level: str | None) -> None:
    """A muntin as thick as its rails and flush with them."""
    for shoulder, words in (("outer", "outside"), ("inner", "inside")):
        choice = tenon(length=inch("3/4"), **{f"{shoulder}_shoulder": inch(wall)})
        p = agreed(
            frame(HIGH, FOOT, crosses=(cross("muntin", "front rail", "front low", tenon=choice),))
        )
        holds(p, walls.RULE, inch(wall), level, f"{words} the mortise")


@pytest.mark.parametrize(("end", "words"), [("A", "before"), ("B", "beyond")])
def test_along_a_rail_its_own_ends_count(end: str, words: str) -> None:
    # a muntin whose mortise comes out over the rail's end, 1 1/4 past the leg's face at 2 1/2
    at = inch("1 1/4") - inch("1/8") if end == "A" else inch("46 3/4") + inch("1/8") - inch(2)
    choice = tenon(length=inch("3/4"), top_shoulder=Fraction(0), bottom_shoulder=Fraction(0))
    p = piece(
        frame(HIGH, FOOT, crosses=(
            cross("muntin", "front rail", "front low", tenon=choice, places=(at, None, None)),
        ))
    )  # fmt: skip
    found = of(p, walls.TOP)
    assert [one.level for one in found] == ["stop"] * 2
    assert all(f"{words} the mortise" in one.text for one in found)
    assert all(dict(one.figures)["wall"] == -inch("1/8") for one in found)


# -- what there is of walls


def test_every_mortise_with_its_joint() -> None:
    choice = tenon(pair=PairChoice(), twin=TwinChoice(inch("1/4")))
    p = agreed(frame(one_rail(choice, width=inch(4), thickness=inch(2))))
    found = [(joint.name, cut.role) for joint, cut in joint_mortises(p)]
    assert found == [
        (f"front-rail.{end}", f"{row} {column} mortise")
        for end in ("A", "B")
        for row in ("upper", "lower")
        for column in ("outer", "inner")
    ]


def test_the_walls_of_one_mortise() -> None:
    p = agreed(frame(one_rail(tenon())))
    joint = joint_of(p, "front-rail.A")
    ((_, mortise),) = [one for one in joint_mortises(p) if one[0].name == joint.name]
    # 2 1/2 - 1 3/8; 3/8; 2 1/2 - 3/4; 4 1/4 from the top; 30 - 5 3/4
    assert [(wall.where, wall.left) for wall in walls.walls(joint, mortise)] == list(
        zip(
            ("behind the mortise", "outside the mortise", "inside the mortise",
             "above the mortise", "below the mortise"),
            inches("1 1/8 | 3/8 | 1 3/4 | 4 1/4 | 24 1/4"),
            strict=True,
        )
    )  # fmt: skip


def test_the_maker_s_own_least_wall() -> None:
    p = agreed(frame(one_rail(tenon())), wall_least=inch("7/16"))
    # outside 3/8: too thin now, at both ends
    assert [dict(one.figures)["least"] for one in of(p, walls.RULE)] == [inch("7/16")] * 2
    assert walls.findings(agreed(frame(one_rail(tenon())), wall_least=inch("3/8"))) == []


# -- flares and wedges open the mortise further


@pytest.mark.parametrize(
    ("shoulder", "level"),
    # two wedges of 7/32 flare it by 3/16
    [("3/8", None), ("23/64", "caution"), ("13/64", "caution"), ("3/16", "stop"),
     ("5/32", "stop")],
)  # fmt: skip
@pytest.mark.parametrize(("end", "words"), [("top", "above"), ("bottom", "below")])
def test_a_flare_needs_its_wood_at_the_leg_s_end(
    end: str, words: str, shoulder: str, level: str | None
) -> None:
    at_end = {"below_top": Fraction(0)} if end == "top" else {
        "below_top": None, "above_floor": Fraction(0)}  # fmt: skip
    choice = through(
        wedges=wedges(thickness=inch("7/32")), **{f"{end}_shoulder": inch(shoulder)}
    )
    p = piece(frame(one_rail(choice, **at_end)))
    wall = inch(shoulder) - inch("3/16")
    holds(p, walls.TOP, wall, level, f"{words} the mortise")


@pytest.mark.parametrize(
    # 7/16 at the outer face
    ("below", "level"),
    [("5/8", None), ("39/64", "caution"), ("7/16", "stop"), ("1/4", "stop")],
)
def test_a_wedge_above_the_tenon_needs_wood_above_it(below: str, level: str | None) -> None:
    choice = through(side_wedge=side_wedge(), top_shoulder=Fraction(0))
    p = piece(frame(one_rail(choice, below_top=inch(below))))
    holds(p, walls.TOP, inch(below) - inch("7/16"), level, "above the mortise")


@pytest.mark.parametrize(
    # 7/16 at the outer face, and a splay of 1/8 across from it
    ("above", "level"),
    [("5/16", None), ("19/64", "caution"), ("1/8", "stop")],
)
def test_a_splay_below_the_tenon_needs_wood_below_it(above: str, level: str | None) -> None:
    # the shoulder of 1/8 is all splay; the rail stands so much above the floor
    choice = through(
        side_wedge=side_wedge(splay=inch("1/8")), top_shoulder=inch("1/2"),
        bottom_shoulder=inch("1/8"),
    )  # fmt: skip
    p = piece(frame(one_rail(choice, below_top=None, above_floor=inch(above) - inch("1/8"))))
    holds(p, walls.TOP, inch(above) - inch("1/8"), level, "below the mortise")


@pytest.mark.parametrize(
    # each of two flares takes 3/32 of it
    ("web", "level"),
    [("3/8", None), ("23/64", "caution"), ("3/16", "stop"), ("1/8", "stop")],
)
def test_flares_of_a_pair_leave_a_web_between_them(web: str, level: str | None) -> None:
    choice = through(pair=PairChoice(inch(web)), wedges=wedges())
    p = piece(frame(one_rail(choice, width=inch(4))))
    found = of(p, walls.WEB)
    assert [one.level for one in found] == ([] if level is None else [level] * 2)
    assert all(dict(one.figures)["web"] == inch(web) - inch("3/16") for one in found)


def test_flares_take_nothing_from_the_gap_between_twins() -> None:
    choice = through(thickness=inch("3/8"), twin=TwinChoice(inch("3/16")), wedges=wedges(many=1))
    p = piece(frame(one_rail(choice, thickness=inch("1 1/2"))))
    assert of(p, walls.WEB) == []
