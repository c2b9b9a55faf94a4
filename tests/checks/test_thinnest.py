"""The thinnest wall and the least wood between two joints, told for each kind of part.

Rails 2 x 1 1/8 in, 4 in below the top of legs 2 1/2 in square; tenons 1 1/4 in long, 3/8 thick in
the middle (3/8 to 3/4 from the outside), 1 1/2 in wide (4 1/4 to 5 3/4 from the top).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.choices import RailChoice
from layout.checks import thinnest
from layout.joints.choices import PairChoice
from layout.mark import Finding
from layout.piece import Piece
from tests.pieces import agreed, cross, frame, inch, inches, piece, rail, tenon


def one_rail(name: str = "rail", **changes: object) -> RailChoice:
    return rail(name, **{"width": inch(2), "below_top": inch(4), **changes})


def of(p: Piece, rule: str) -> list[Finding]:
    found = [one for one in thinnest.findings(p) if one.rule == rule]
    assert all(one.level == "note" for one in found)
    return found


def size(p: Piece, rule: str, kind: str) -> Fraction | None:
    """The figure that is told for a kind of part; None where nothing is."""
    found = [one for one in of(p, rule) if f"in a {kind} is" in one.text]
    if not found:
        return None
    (one,) = found
    ((_, value),) = one.figures
    return value


@pytest.mark.parametrize(
    ("changes", "wall", "where"),
    [
        # behind 1 1/8, outside 3/8, inside 1 3/4, above 4 1/4: the outside
        ({}, "3/8", "outside the mortise"),
        ({"tenon": tenon(outer_shoulder=inch("3/4"))}, "3/4", "outside the mortise"),
        ({"tenon": tenon(length=inch("2 1/8"))}, "1/4", "behind the mortise"),
        ({"below_top": Fraction(0)}, "1/4", "above the mortise"),
        ({"below_top": None, "above_floor": inch("1/16")}, "5/16", "below the mortise"),
        # 2 1/2 - 3/4 - 1 1/2
        ({"set_in": inch("1 1/2")}, "1/4", "inside the mortise"),
    ],
)
def test_the_thinnest_wall(changes: dict[str, object], wall: str, where: str) -> None:
    p = agreed(frame(one_rail(**changes)))
    (found,) = of(p, thinnest.WALL)
    assert dict(found.figures) == {"wall": inch(wall)}
    assert f"{where} for the front rail in the front left leg" in found.text


def test_the_thinnest_of_all_legs() -> None:
    p = agreed(
        frame(one_rail(), one_rail("end", sides=("right",), tenon=tenon(length=inch(2))))
    )
    # 2 1/2 - 2 - 1/8 is as thin as the outside, and comes second; with 1/64 more it counts
    assert size(p, thinnest.WALL, "leg") == inch("3/8")
    longer = agreed(
        frame(one_rail(), one_rail("end", sides=("right",), tenon=tenon(length=inch("2 1/64"))))
    )
    (found,) = of(longer, thinnest.WALL)
    assert dict(found.figures) == {"wall": inch("23/64")}
    assert "behind the mortise for the right end" in found.text


def test_a_mortise_that_comes_out_is_for_other_checks() -> None:
    p = piece(frame(one_rail(tenon=tenon(outer_shoulder=Fraction(0)))))
    assert of(p, thinnest.WALL) == []


def test_rails_that_bear_rails_are_told_by_themselves() -> None:
    p = agreed(
        frame(
            one_rail(sides=("left", "right")),
            crosses=(cross("stretcher", "left rail", "right rail"),),
        )
    )
    # a rail 1 1/8 thick with a mortise 3/4 + 1/8 deep: 1/4 behind it, and 1/4 above and below
    assert size(p, thinnest.WALL, "rail") == inch("1/4")
    assert size(p, thinnest.WALL, "leg") == inch("3/8")


# the side rail's mortise is 1 7/8 deep and reaches past the front one's far wall
LONG_END = one_rail("end", sides=("left",), tenon=tenon(length=inch("1 3/4")))


@pytest.mark.parametrize(
    ("length", "web"),
    # from its wall at 3/4: 2 1/2 - 3/4 - 1/8 less the tenon
    [("1 1/4", "3/8"), ("1 3/8", "1/4"), ("1 7/16", "3/16"), ("1 39/64", "1/64")],
)
def test_between_two_rails_in_one_leg(length: str, web: str) -> None:
    p = agreed(frame(one_rail(tenon=tenon(length=inch(length))), LONG_END))
    (found,) = of(p, thinnest.WEB)
    assert dict(found.figures) == {"web": inch(web)}
    assert "the mortise of the front rail and the mortise of the left end" in found.text
    assert "in the front left leg" in found.text


def test_from_edge_to_edge() -> None:
    # 3/16 apart along one side of the leg, 1/4 along the other: 5/16 from edge to edge
    front, end = tenon(length=inch("1 7/16")), tenon(length=inch("1 3/8"))
    p = agreed(frame(one_rail(tenon=front), one_rail("end", sides=("left",), tenon=end)))
    assert size(p, thinnest.WEB, "leg") == inch("5/16")


@pytest.mark.parametrize("length", ["1 5/8", "1 11/16"])
def test_no_wood_between_them_is_for_other_checks(length: str) -> None:
    p = agreed(frame(one_rail(tenon=tenon(length=inch(length))), LONG_END))
    assert of(p, thinnest.WEB) == []


@pytest.mark.parametrize(("apart", "told"), [("2 1/2", True), ("2 33/64", False)])
def test_far_apart_nothing_is_thin(apart: str, told: bool) -> None:
    # one over the other, 2 - 1 1/2 of shoulders between them besides: the leg is 2 1/2 thick
    lower = one_rail("low", below_top=inch(6) + inch(apart) - inch("1/2"))
    p = agreed(frame(one_rail(), lower))
    assert size(p, thinnest.WEB, "leg") == (inch(apart) if told else None)


def test_one_joint_has_no_other() -> None:
    assert of(agreed(frame(one_rail())), thinnest.WEB) == []
    # nor have the two mortises of a pair, with or without a socket between them
    for web_haunch in inches("0 | 1/4"):
        pair = tenon(pair=PairChoice(haunch=web_haunch))
        assert of(agreed(frame(one_rail(width=inch(3), tenon=pair))), thinnest.WEB) == []


def test_between_two_muntins_in_a_rail() -> None:
    p = agreed(
        frame(
            one_rail(),
            one_rail("low", below_top=inch(20)),
            crosses=(
                cross("left muntin", "front rail", "front low", places=(inch(20), None, None)),
                # 2 wide and 1/2 apart: 1/4 + 1/2 + 1/4 between their mortises
                cross("right muntin", "front rail", "front low",
                      places=(inch("22 1/2"), None, None)),
            ),
        )
    )  # fmt: skip
    assert size(p, thinnest.WEB, "rail") == inch(1)
