"""Tenons that meet in a corner leg: how long each may be, mitred or passing, and what can't be.

Legs 2 1/2 in square, rails 2 x 1 1/8 in with tenons 3/8 in thick in the middle: a mortise lies
3/8 to 3/4 from the leg's outside. Glue room 1/8, least wall 3/16.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from layout.builds import corner
from layout.builds.choices import LegChoice, RailChoice
from layout.builds.corner import Sectioned, tenon_ends
from layout.builds.frame import SIDES, stand
from layout.builds.tenoned import sectioned
from layout.checks import check, meetings
from layout.errors import BadPiece
from layout.joints.choices import TenonChoice, TwinChoice
from layout.joints.rail_end import TenonSizes
from layout.kit import usual_kit
from layout.piece import Piece
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    cross,
    frame,
    haunch,
    inch,
    key,
    measured,
    piece,
    rail,
    tenon,
    through,
    total,
)

OPEN = tenon(length=None)
GAP = inch("1/16")


def narrow(name: str = "rail", **changes: object) -> RailChoice:
    return rail(name, **{"width": inch(2), "below_top": inch(2), "tenon": OPEN, **changes})


def ends(*rails: RailChoice, leg: str = "2 1/2", **changes: object) -> dict[str, TenonSizes]:
    """The tenon at end A of every rail, by part id, from sections alone."""
    choice = frame(*rails, leg=LegChoice(inch(leg), inch(leg)), **changes)
    stood = stand(choice).rails
    found = tenon_ends([Sectioned(one, sectioned(one, (), None, usual_kit("in"))) for one in stood])
    return {name: pair[0] for name, pair in found.items()}


def of(p: Piece, part: str, end: int = 0) -> TenonSizes:
    (one,) = [rail for rail in p.rails if rail.rail.part.id == part]
    return one.sizes[end]


# -- left open: the shortest of what each rule allows


def test_alone_three_quarters_of_the_leg() -> None:
    size = ends(narrow())["front-rail"]
    # 1 7/8; what is behind allows 2 1/2 - 3/16 - 1/8 = 2 3/16
    assert size.length == inch("1 7/8")
    assert size.length_terms == ((+1, "3/4 of the leg width", inch("1 7/8")),)
    assert size.depth == inch(2)
    assert size.could_mitre is None


def test_alone_in_a_thin_leg_the_wood_behind_it_counts() -> None:
    # 1 1/8: three quarters are 27/32; 1 1/8 - 3/16 - 1/8 = 13/16
    size = ends(narrow(), leg="1 1/8")["front-rail"]
    assert size.length_terms == (
        (+1, "leg width", inch("1 1/8")),
        (-1, "least wood behind the mortise", inch("3/16")),
        (-1, "room for glue", inch("1/8")),
    )
    assert size.length == inch("13/16")


def test_a_stub_is_a_third_of_the_leg() -> None:
    size = ends(narrow(tenon=tenon(length=None, stub=True)))["front-rail"]
    assert size.length == inch("5/6")
    assert size.length_terms[0][1] == "1/3 of the leg width"


def test_kept_clear_of_the_next_rail() -> None:
    found = ends(narrow(sides=("front",)), narrow("end", sides=("left",)))
    # 2 1/2 - 3/4 - 3/16 - 1/8 = 1 7/16
    for part, word, other in (
        ("front-rail", "leg width", "end"), ("left-end", "leg thickness", "rail")
    ):  # fmt: skip
        # the left rail meets the front left leg with its end B
        sizes = found[part] if part == "front-rail" else of(kept_clear(), part, 1)
        assert sizes.length == inch("1 7/16")
        assert sizes.length_terms == (
            (+1, word, inch("2 1/2")),
            (-1, f"far mortise wall of the {other}", inch("3/4")),
            (-1, "least wood between the mortises", inch("3/16")),
            (-1, "room for glue", inch("1/8")),
        )


def kept_clear(**changes: object) -> Piece:
    return agreed(
        frame(narrow(sides=("front",), **changes), narrow("end", sides=("left",), **changes))
    )


def test_kept_clear_at_the_end_that_meets_another_only() -> None:
    p = kept_clear()
    # the front rail has the side rail at its left end, the left rail the front one at its front
    assert [of(p, "front-rail", end).length for end in (0, 1)] == [inch("1 7/16"), inch("1 7/8")]
    assert [of(p, "left-end", end).length for end in (0, 1)] == [inch("1 7/8"), inch("1 7/16")]
    # 43 + 1 7/16 + 1 7/8
    assert p.part("front-rail").length == inch("46 5/16")
    assert total(p, "front-rail", "tenon length (end A)") == inch("1 7/16")
    assert total(p, "front-rail", "tenon length (end B)") == inch("1 7/8")
    assert total(p, "front-rail", "cut length") == inch("46 5/16")
    assert not any(one.rule == meetings.MORTISES for one in check(p))


@pytest.mark.parametrize(
    ("below", "length"),
    # rail 2 to 4 below the top, its tenon 2 1/4 to 3 3/4. The other's, 1 1/2 high, comes down to
    # 1 3/4 lower than its rail's edge: 3/16 above it, 11/64, level, into it; and so at its foot
    [
        ("5/16", "1 7/8"), ("21/64", "1 7/16"), ("1/2", "1 7/16"), ("33/64", "1 7/16"),
        ("3 31/64", "1 7/16"), ("3 1/2", "1 7/16"), ("3 43/64", "1 7/16"), ("3 11/16", "1 7/8"),
    ],
)  # fmt: skip
def test_tenons_that_would_leave_too_thin_a_wall_are_kept_clear(below: str, length: str) -> None:
    found = ends(narrow(), narrow("end", sides=("left",), below_top=inch(below)))
    assert found["front-rail"].length == inch(length)


@pytest.mark.parametrize("below", ["5/16", "21/64", "1/2", "33/64", "2", "3 1/2", "3 11/16"])
def test_left_open_at_any_height_the_wall_is_sound(below: str) -> None:
    p = agreed(frame(narrow(), narrow("end", sides=("left",), below_top=inch(below))))
    assert [one.text for one in check(p) if one.rule == meetings.MORTISES] == []


def test_the_other_s_set_in_and_thickness_count() -> None:
    other = narrow("end", sides=("left",), set_in=inch("1/8"), tenon=tenon(
        length=None, thickness=inch("1/2"), outer_shoulder=inch("1/4")))  # fmt: skip
    # its far wall: 1/8 + 1/4 + 1/2 = 7/8; 2 1/2 - 7/8 - 3/16 - 1/8
    assert ends(narrow(), other)["front-rail"].length == inch("1 5/16")


def test_of_twins_the_inner_one_counts() -> None:
    # 2 thick: twins 3/8 to 3/4 and 1 1/4 to 1 5/8; 2 1/2 - 1 5/8 - 3/16 - 1/8 = 9/16
    other = narrow("end", sides=("left",), thickness=inch(2), tenon=tenon(
        length=None, twin=TwinChoice(inch("1/2"))))  # fmt: skip
    assert ends(narrow(), other)["front-rail"].length == inch("9/16")


def test_a_rail_behind_another_on_the_same_side_is_no_corner() -> None:
    """Their tenons go in side by side: neither is in the other's way."""
    behind = narrow("inner", set_in=inch("1 1/4"))
    found = ends(narrow(), behind)
    assert found["front-rail"].length == found["front-inner"].length == inch("1 7/8")
    assert found["front-rail"].could_mitre is None


def test_a_length_that_is_given_stays() -> None:
    found = ends(narrow(tenon=tenon(length=inch(2))), narrow("end", sides=("left",)))
    assert (found["front-rail"].length, found["front-rail"].length_terms) == (inch(2), ())


def test_no_length_left() -> None:
    # 1 1/16 - 3/4 - 3/16 - 1/8 is nothing, and 1/64 more is that
    both = (narrow(), narrow("end", sides=("left",)))
    with pytest.raises(BadPiece, match="no length is left for the tenon of the front rail"):
        ends(*both, leg="1 1/16")
    assert ends(*both, leg="1 5/64")["front-rail"].length == inch("1/64")


@given(
    fractions(Fraction(40), Fraction(90), 8),
    fractions(Fraction(0), Fraction(8), 8),
    fractions(Fraction(6), Fraction(14), 8),
)
@settings(max_examples=15, deadline=None)
def test_tenons_left_open_leave_the_least_wall(
    leg: Fraction, set_in: Fraction, thick: Fraction
) -> None:
    """Whatever the sizes: no finding on the mortises, and no stop at all."""
    choice = tenon(length=None, thickness=thick)
    p = agreed(
        frame(
            narrow(sides=SIDES, set_in=set_in, tenon=choice),
            leg=LegChoice(leg, leg),
        )
    )
    found = check(p)
    assert [one for one in found if one.rule == meetings.MORTISES] == []
    assert [one for one in found if one.level == "stop"] == []
    # 1/8 of room, 3/16 of wood; the other's far wall in the middle of 1 1/8 and half of it
    clear = leg - (set_in + (inch("1 1/8") + thick) / 2) - inch("5/16")
    assert of(p, "front-rail").length == min(leg * 3 / 4, clear)


def test_a_leg_as_milled_makes_one_end_shorter() -> None:
    # the left leg 1/8 thin: three quarters of 2 3/8 and of 2 1/2
    p = agreed(frame(narrow(), milled=measured(front_left_leg="2 3/8 x 2 1/2")))
    assert [of(p, "front-rail", end).length for end in (0, 1)] == [
        inch("2 3/8") * 3 / 4, inch("1 7/8")
    ]  # fmt: skip


def test_through_tenons_reach_their_projection() -> None:
    flush = ends(narrow(tenon=through()))["front-rail"]
    assert (flush.length, flush.projection, flush.depth) == (inch("2 1/2"), 0, inch("2 1/2"))
    assert flush.glue_room == 0
    proud = ends(narrow(tenon=through(projection=inch("1/4"))))["front-rail"]
    assert proud.length_terms == (
        (+1, "leg width", inch("2 1/2")), (+1, "projection", inch("1/4"))
    )  # fmt: skip
    assert (proud.length, proud.depth) == (inch("2 3/4"), inch("2 1/2"))
    # the key and the wood beyond it; or the maker's own
    assert corner.projection(through(key=key())) == inch(2)
    assert corner.projection(through(key=key(), projection=inch(3))) == inch(3)


def test_half_of_a_short_tenon_for_its_haunch() -> None:
    # 9/16 long beside the twins: 9/32, less than the usual 1/2
    other = narrow("end", sides=("left",), thickness=inch(2), tenon=tenon(
        length=None, twin=TwinChoice(inch("1/2"))))  # fmt: skip
    mine = narrow(tenon=tenon(length=None, haunch=haunch(), bottom_shoulder=Fraction(0)))
    assert ends(mine, other)["front-rail"].haunch_length == inch("9/32")


# -- mitred


def test_mitred_long_and_short() -> None:
    choice = tenon(length=None, meeting="mitred", mitre_gap=GAP)
    size = ends(narrow(tenon=choice), narrow("end", sides=("left",), tenon=choice))["front-rail"]
    # 2 1/2 - 3/8 - 1/32, and 2 1/2 - 3/4 - 1/32
    assert size.length == inch("2 3/32")
    assert size.mitre is not None
    assert (size.mitre.outer, size.mitre.inner) == (0, inch("3/8"))
    (_, long), (_, short) = size.mitre.terms
    assert long == size.length_terms == (
        (+1, "leg width", inch("2 1/2")),
        (-1, "near mortise wall of the end", inch("3/8")),
        (-1, "half of the gap between the mitres", inch("1/32")),
    )
    assert sum(sign * value for sign, _, value in short) == inch("1 23/32")


def test_a_mitred_tenon_of_a_given_length() -> None:
    choice = tenon(length=inch(2), meeting="mitred", mitre_gap=GAP)
    size = ends(narrow(sides=SIDES, tenon=choice))["front-rail"]
    assert size.mitre is not None
    # 3/32 short of the long side, 9/32 past the short one
    assert (size.mitre.outer, size.mitre.inner) == (-inch("3/32"), inch("9/32"))
    # level with the long side is still right
    level = choice._replace(length=inch("2 3/32"))
    assert ends(narrow(sides=SIDES, tenon=level))["front-rail"].mitre is not None


def test_too_long_for_its_mitre() -> None:
    choice = tenon(length=inch("2 7/64"), meeting="mitred", mitre_gap=GAP)
    with pytest.raises(BadPiece, match="longer than its mitre allows"):
        ends(narrow(sides=SIDES, tenon=choice))


def test_a_mitred_tenon_alone_is_square() -> None:
    choice = tenon(length=None, meeting="mitred", mitre_gap=GAP)
    size = ends(narrow(tenon=choice))["front-rail"]
    assert (size.mitre, size.length) == (None, inch("1 7/8"))


def test_how_much_longer_a_mitre_would_be_is_known() -> None:
    choice = tenon(length=None, mitre_gap=GAP)
    both = (narrow(tenon=choice), narrow("end", sides=("left",), tenon=choice))
    assert ends(*both)["front-rail"].could_mitre == ("end", inch("2 3/32"))
    # not where the maker said clear, nor for twins, nor for a length that was given
    for other in (
        choice._replace(meeting="clear"),
        choice._replace(twin=TwinChoice(inch("1/8")), thickness=inch("1/4")),
        choice._replace(length=inch(1)),
    ):
        assert ends(narrow(tenon=other), narrow("end", sides=("left",), tenon=choice))[
            "front-rail"
        ].could_mitre is None  # fmt: skip


# -- passing


def passing(notched: bool, **changes: object) -> TenonChoice:
    return tenon(length=None, meeting="passing", notched=notched, **changes)


def test_passing_tenons_go_as_far_as_the_wall_behind() -> None:
    low = {"top_shoulder": inch("5/8"), "bottom_shoulder": inch("5/8")}
    found = ends(
        narrow(tenon=passing(True)), narrow("end", sides=("left",), tenon=passing(False, **low))
    )
    # 2 1/2 - 3/16 - 1/8, not three quarters
    assert found["front-rail"].length == inch("2 3/16")
    (notch,) = found["front-rail"].notches
    # the tip lies 5/16 from the outside; the other's walls at 3/8 and 3/4; 5/8 below the edge
    assert notch.along == (inch("1/16"), inch("7/16"))
    assert notch.across == (inch("5/8"), inch("1 3/8"))
    assert notch.passes == "end"


def test_one_that_passes_is_never_notched() -> None:
    low = {"top_shoulder": inch("5/8"), "bottom_shoulder": inch("5/8")}
    p = agreed(
        frame(
            narrow(tenon=passing(True)),
            narrow("end", sides=("left",), tenon=passing(False, **low)),
        )
    )
    assert [of(p, "left-end", end).notches for end in (0, 1)] == [(), ()]
    # and the front rail only where the side rail is
    assert [len(of(p, "front-rail", end).notches) for end in (0, 1)] == [1, 0]


def test_a_notch_s_sums_name_their_way() -> None:
    low = {"top_shoulder": inch("5/8"), "bottom_shoulder": inch("5/8")}
    found = ends(
        narrow(tenon=passing(True)), narrow("end", sides=("left",), tenon=passing(False, **low))
    )
    (notch,) = found["front-rail"].notches
    assert notch.start_terms == (
        (+1, "tenon length", inch("2 3/16")),
        (-1, "leg width", inch("2 1/2")),
        (+1, "near mortise wall of the end", inch("3/8")),
    )
    # 30 - 2 above the floor, the other's tenon 5/8 and 1 3/8 lower
    assert notch.top_terms == (
        (+1, "top of the front rail above the floor", inch(28)),
        (-1, "top of the tenon of the end", inch("27 3/8")),
    )
    assert notch.bottom_terms == (
        (+1, "top of the front rail above the floor", inch(28)),
        (-1, "bottom of the tenon of the end", inch("26 5/8")),
    )


# -- what doesn't go together


MITRED, PASSING = tenon(meeting="mitred"), tenon(meeting="passing")


@pytest.mark.parametrize(
    ("mine", "theirs", "words", "cure"),
    [
        (MITRED, tenon(), "is mitred, that of the end it meets is not", 'meeting = "mitred"'),
        (tenon(), MITRED, "is mitred, that of the rail it meets is not", 'meeting = "mitred"'),
        (PASSING, tenon(meeting="clear"), "is passing", 'meeting = "passing"'),
        (tenon(meeting="clear"), PASSING, "is passing", 'meeting = "passing"'),
        (MITRED, PASSING, "is mitred, that of the end it meets is not", 'meeting = "mitred"'),
        (PASSING, PASSING, "neither of them carries the notch", "for one of the two"),
        (
            PASSING._replace(notched=True), PASSING._replace(notched=True),
            "both of them carries the notch", "for one of the two",
        ),
        (
            MITRED._replace(twin=TwinChoice(inch("1/8")), thickness=inch("1/4")), MITRED,
            "twin tenons, which can't be mitred", 'meeting = "clear"',
        ),
    ],
)  # fmt: skip
def test_choices_that_do_not_go_together(
    mine: TenonChoice, theirs: TenonChoice, words: str, cure: str
) -> None:
    with pytest.raises(BadPiece, match=words) as caught:
        ends(narrow(tenon=mine), narrow("end", sides=("left",), tenon=theirs))
    assert cure in caught.value.cure


def test_a_mitre_with_two_that_stand_differently() -> None:
    choice = tenon(length=None, meeting="mitred", mitre_gap=GAP)
    wide = narrow(width=inch(6), tenon=choice)
    upper = narrow("upper", sides=("left",), tenon=choice)
    lower = narrow("lower", sides=("left",), below_top=inch(5), tenon=choice)
    alike = ends(wide, upper, lower)["front-rail"]
    assert alike.mitre is not None
    assert alike.length == inch("2 3/32")
    with pytest.raises(BadPiece, match="meets two others that stand differently"):
        ends(wide, upper, lower._replace(set_in=inch("1/8")))


def test_how_long_it_may_be_is_said_in_the_maker_s_unit() -> None:
    """The longest mitre of an inch piece is told in inches: 2 3/32."""
    choice = tenon(length=inch("2 7/64"), meeting="mitred", mitre_gap=GAP)
    with pytest.raises(BadPiece) as caught:
        piece(frame(narrow(sides=SIDES, tenon=choice)))
    assert "2 3/32 in" in caught.value.cure


# -- tenons of cross rails


def test_two_muntins_in_one_rail_are_told_where_they_meet() -> None:
    """Left open, each takes three quarters of the rail's 3: 2 1/4 and 2 1/4, 1 1/2 too much."""
    middle = narrow("middle", below_top=inch(12), width=inch(3))
    tie = {"width": inch(2), "tenon": OPEN}
    p = agreed(
        frame(
            narrow(below_top=Fraction(0)),
            middle,
            narrow("low", below_top=inch(24)),
            crosses=(
                cross("upper muntin", "front rail", "front middle", **tie),
                cross("lower muntin", "front middle", "front low", **tie),
            ),
        )
    )
    assert of(p, "upper-muntin", 1).length == of(p, "lower-muntin", 0).length == inch("2 1/4")
    (found,) = [one for one in check(p) if one.rule == meetings.MORTISES]
    # 1 1/2 along them; the shortest way out is across, by their whole thickness
    assert (found.level, dict(found.figures)["between the tenons"]) == ("stop", -inch("3/8"))
