"""Measured parts: the size over the legs held, or the shoulder distances held.

The frame is 48 x 24 x 30 in as drawn, legs 2 1/2 in square, rails 2 x 1 1/8 in with tenons 1 1/4 in
long; two parts came off the machines otherwise.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given, settings

from layout.builds.choices import AsMilled, Milled, RailChoice
from layout.builds.frame import SIDES
from layout.checks import check, panels, places, stopped, tenons
from layout.checks.placed import part_box
from layout.checks.sums import wrong
from layout.errors import BadPiece
from layout.joints.choices import PairChoice, TenonChoice
from layout.piece import Piece
from tests.drawn import fractions
from tests.pieces import (
    agreed,
    frame,
    haunch,
    hull,
    inch,
    inches,
    low_rail,
    marks_of,
    measured,
    panel,
    piece,
    rail,
    reach,
    seat,
    tenon,
    through,
    total,
)

Held = Literal["overall", "shoulders"]
ALL = rail(sides=SIDES, width=inch(2))
# 1/8 off its width, 1/16 off its thickness
THIN = {"front_left_leg": "2 3/8 x 2 7/16"}


def milled(held: Held, *rails: RailChoice, **parts: str) -> Piece:
    return agreed(frame(*(rails or (ALL,)), milled=measured(held, **parts)))


# -- legs


def test_a_thin_leg_with_the_overall_size_held() -> None:
    p = milled("overall", **THIN)
    # its outside stays at the corner, its inside moves out
    assert part_box(p.part("front-left-leg")) == (
        inches("0 | 2 3/8"), inches("0 | 2 7/16"), inches("0|30")
    )  # fmt: skip
    # 48 - 2 3/8 - 2 1/2 and 24 - 2 7/16 - 2 1/2, and 2 x 1 1/4
    assert total(p, "front-rail", "shoulder distance") == inch("43 1/8")
    assert total(p, "left-rail", "shoulder distance") == inch("19 1/16")
    assert p.part("front-rail").length == inch("45 5/8")
    assert p.part("left-rail").length == inch("21 9/16")
    assert part_box(p.part("front-rail"))[0] == inches("1 1/8 | 46 3/4")
    # the sides without it are as drawn
    assert total(p, "back-rail", "shoulder distance") == inch(43)
    assert total(p, "right-rail", "shoulder distance") == inch(19)


def test_a_thin_leg_with_the_shoulders_held() -> None:
    p = milled("shoulders", **THIN)
    # its inside stays at 2 1/2, its outside moves in
    assert part_box(p.part("front-left-leg")) == (
        inches("1/8 | 2 1/2"), inches("1/16 | 2 1/2"), inches("0|30")
    )  # fmt: skip
    for part, distance in (("front", 43), ("back", 43), ("left", 19), ("right", 19)):
        assert total(p, f"{part}-rail", "shoulder distance") == inch(distance)
    assert part_box(p.part("front-rail"))[0] == inches("1 1/4 | 46 3/4")
    # the rail's face stands where it was drawn, so 1/16 before the thin leg's
    assert part_box(p.part("front-rail"))[1] == inches("0 | 1 1/8")
    mortise = hull(p, "front-left-leg", "front-rail.A", "mortise")
    # 3/8 - 1/16 to 3/4 - 1/16 from its own face; 1 3/8 deep from its inside at 2 3/8
    assert reach(mortise)[1:] == (inches("1 | 2 3/8"), inches("5/16 | 11/16"))
    plain = hull(p, "front-right-leg", "front-rail.B", "mortise")
    assert reach(plain)[1:] == (inches("1 1/8 | 2 1/2"), inches("3/8 | 3/4"))
    name = "near mortise wall from the face side (front rail, end {})"
    assert total(p, "front-left-leg", name.format("A")) == inch("5/16")
    assert total(p, "front-right-leg", name.format("B")) == inch("3/8")


@pytest.mark.parametrize("held", ["overall", "shoulders"])
@pytest.mark.parametrize(
    ("leg", "x", "y"),
    [
        ("front left", (0, "in"), (0, "in")),
        ("front right", (48, "out"), (0, "in")),
        ("back left", (0, "in"), (24, "out")),
        ("back right", (48, "out"), (24, "out")),
    ],
)
def test_every_leg_keeps_its_outside_or_its_inside(
    held: Held, leg: str, x: tuple[int, str], y: tuple[int, str]
) -> None:
    name = f"{leg} leg".replace(" ", "_")
    p = milled(held, **{name: "2 3/8 x 2 7/16"})
    found = part_box(p.part(name.replace("_", "-")))
    for (corner, way), size, thin, span in (
        (x, "2 3/8", "1/8", found[0]), (y, "2 7/16", "1/16", found[1])
    ):  # fmt: skip
        inward = 1 if way == "in" else -1
        outside = inch(corner) + (inward * inch(thin) if held == "shoulders" else 0)
        assert set(span) == {outside, outside + inward * inch(size)}


def test_terms_say_what_was_drawn_and_what_was_measured() -> None:
    overall = milled("overall", **THIN)
    (one,) = [s for s in overall.sums if (s.part, s.name) == ("front-rail", "shoulder distance")]
    assert [(term.label, term.value) for term in one.terms] == [
        ("over the legs", inch(48)),
        ("left leg width", inch("2 3/8")),
        ("right leg width", inch("2 1/2")),
    ]
    held = milled("shoulders", **THIN)
    (one,) = [s for s in held.sums if (s.part, s.name) == ("front-rail", "shoulder distance")]
    assert [(term.label, term.value) for term in one.terms] == [
        ("over the legs as drawn", inch(48)),
        ("left leg width as drawn", inch("2 1/2")),
        ("right leg width as drawn", inch("2 1/2")),
    ]


def test_a_through_tenon_is_as_long_as_the_leg_that_came_out() -> None:
    choice = rail(width=inch(2), below_top=inch(2), tenon=through())
    p = milled("overall", choice, **THIN)
    # 43 1/8 + 2 3/8 + 2 1/2: from outside to outside
    assert p.part("front-rail").length == inch(48)
    assert total(p, "front-rail", "tenon length (end A)") == inch("2 3/8")
    assert total(p, "front-rail", "tenon length (end B)") == inch("2 1/2")
    held = milled("shoulders", choice, **THIN)
    assert held.part("front-rail").length == inch("47 7/8")


# -- rails


def test_a_rail_that_came_out_thin_keeps_its_face_and_its_upper_edge() -> None:
    p = milled("overall", front_rail="1 15/16 x 1 1/16")
    assert part_box(p.part("front-rail"))[1:] == (inches("0 | 1 1/16"), inches("28 1/16 | 30"))
    # every line is gauged from there: tenon and mortise as drawn
    for part, joint in (("front-left-leg", "front-rail.A"), ("front-right-leg", "front-rail.B")):
        assert reach(hull(p, part, joint, "mortise")) == (
            inches("1/4 | 1 3/4"), inches("1 1/8 | 2 1/2"), inches("3/8 | 3/4")
        )  # fmt: skip
    assert total(p, "front-rail", "inner shoulder") == inch("5/16")
    bottom = hull(p, "front-rail", "front-rail.A", "bottom shoulder waste A")
    assert reach(bottom)[1] == inches("1 3/4 | 1 15/16")
    # its fellows are as drawn
    assert part_box(p.part("back-rail"))[2] == inches("28|30")


@pytest.mark.parametrize(
    ("place", "top"),
    [
        ({"below_top": inch(3)}, "27"),
        ({"below_top": None, "above_floor": inch(6)}, "8"),
        # (30 + 2) / 2
        ({"below_top": None, "centred": True}, "16"),
    ],
)
@pytest.mark.parametrize("width", ["1 15/16", "2 1/16"])
def test_its_upper_edge_stays_where_it_was_drawn(
    place: dict[str, object], top: str, width: str
) -> None:
    p = milled("overall", rail(width=inch(2), **place), front_rail=f"{width} x 1 1/8")
    assert part_box(p.part("front-rail"))[2] == (inch(top) - inch(width), inch(top))
    # the leg's lines: from its top to the rail's edges, and to the mortise
    down = inch(30) - inch(top)
    on_leg = "from end A (front rail, end A)"
    assert total(p, "front-left-leg", f"rail's top edge {on_leg}") == down
    assert total(p, "front-left-leg", f"rail's bottom edge {on_leg}") == down + inch(width)
    assert total(p, "front-left-leg", f"mortise top {on_leg}") == down + inch("1/4")
    assert total(p, "front-left-leg", f"mortise bottom {on_leg}") == down + inch("1 3/4")
    (line,) = marks_of(p, "front-left-leg", "front-rail.A", "rail bottom edge")
    assert line.distance == down + inch(width)


def test_only_one_of_its_sizes_measured() -> None:
    p = agreed(
        frame(ALL, milled=AsMilled((Milled("left rail", thickness=inch(1)),)))
    )
    part = p.part("left-rail")
    assert (part.width, part.thickness) == inches("2|1")


def test_a_part_that_is_not_there() -> None:
    with pytest.raises(BadPiece, match="no part 'front apron' to have been measured") as caught:
        piece(frame(ALL, milled=measured(front_apron="2 x 1")))
    assert "front rail" in caught.value.cure


legs = fractions(Fraction(58), Fraction(67), 16)
widths = fractions(Fraction(47), Fraction(54), 16)
thicknesses = fractions(Fraction(26), Fraction(31), 16)


@pytest.mark.parametrize("held", ["overall", "shoulders"])
@given(legs, legs, widths, thicknesses, fractions(Fraction(0), Fraction(6), 8))
@settings(max_examples=15, deadline=None)
def test_whatever_came_off_the_machines_sums_agree(
    held: Held,
    leg_width: Fraction,
    leg_thickness: Fraction,
    width: Fraction,
    thickness: Fraction,
    set_in: Fraction,
) -> None:
    own = AsMilled(
        (
            Milled("front left leg", leg_width, leg_thickness),
            Milled("back right leg", leg_thickness, leg_width),
            Milled("left rail", width, thickness),
        ),
        held,
    )
    p = agreed(frame(rail(sides=SIDES, width=inch(2), set_in=set_in + 5), milled=own))
    clear = {"overall": inch(48) - leg_width - inch("2 1/2"), "shoulders": inch(43)}[held]
    assert total(p, "front-rail", "shoulder distance") == clear
    # rails stay where they were drawn, whatever the legs do
    assert part_box(p.part("front-rail"))[1] == (set_in + 5, set_in + 5 + inch("1 1/8"))
    assert part_box(p.part("left-rail"))[0] == (set_in + 5, set_in + 5 + thickness)


# -- what hangs on a measured rail


@pytest.mark.parametrize(
    "choice",
    [
        tenon(),
        tenon(pair=PairChoice()),
        tenon(haunch=haunch()),
        tenon(haunch=haunch(edge="far edge")),
        tenon(barefaced="face"),
    ],
    ids=["plain", "pair", "haunch", "haunch below", "bare face"],
)
@pytest.mark.parametrize("size", ["2 15/16 x 1 3/32", "3 1/16 x 1 5/32"])
def test_sums_agree_with_every_tenon(choice: TenonChoice, size: str) -> None:
    """Sums that the parts deny stop a piece that there is nothing wrong with."""
    one = rail(width=inch(3), set_in=inch("1/4"), below_top=inch(4), tenon=choice)
    p = piece(frame(one, milled=measured(front_rail=size)))
    assert [s.full_name for s, _ in wrong(p)] == []
    assert not stopped(check(p))


@pytest.mark.parametrize("choice", [tenon(bottom_shoulder=Fraction(0)), tenon(barefaced="back")])
def test_a_rail_that_lost_wood_of_its_tenon_is_stopped(choice: TenonChoice) -> None:
    """Without a shoulder there the machines took 1/16 or 1/32 off the tenon itself."""
    one = rail(width=inch(3), set_in=inch("1/4"), below_top=inch(4), tenon=choice)
    p = piece(frame(one, milled=measured(front_rail="2 15/16 x 1 3/32")))
    assert stopped(check(p))
    # as drawn, or with more wood, it is sound
    for size in ("3 x 1 1/8", "3 1/16 x 1 5/32"):
        whole = piece(frame(one, milled=measured(front_rail=size)))
        assert not stopped(check(whole))


@pytest.mark.parametrize("barefaced", [None, "back"])
def test_a_thicker_rail_without_a_seat_is_not_said_to_have_one(barefaced: str | None) -> None:
    one = rail(width=inch(2), below_top=inch(4), tenon=tenon(barefaced=barefaced))
    p = piece(frame(one, milled=measured(front_rail="2 x 1 3/16")))
    assert [f.text for f in check(p) if f.rule == tenons.WEB] == []


@pytest.mark.parametrize("which", ["front_rail", "front_low_rail"])
@pytest.mark.parametrize("size", ["1 15/16 x 1 1/8", "2 1/16 x 1 1/8", "2 x 1 1/16"])
@pytest.mark.parametrize("kind", ["rabbet", "groove"])
def test_a_panel_fits_the_opening_that_came_out(
    which: str, size: str, kind: Literal["rabbet", "groove"]
) -> None:
    """The upper rail's lower edge bounds the opening where it really is."""
    p = piece(
        frame(rail(width=inch(2)), low_rail(width=inch(2)), milled=measured(**{which: size})),
        panel(seat(kind=kind, in_legs=kind), "front under rail"),
    )
    assert [s.full_name for s, _ in wrong(p)] == []
    assert [f.text for f in check(p) if f.rule == panels.SEATED] == []
    # the low rail's upper edge is at 8; 30 - its width the upper one's lower edge
    width = inch(size.split(" x ")[0]) if which == "front_rail" else inch(2)
    assert p.part("front-panel").length == inch(22) - width + inch("3/4") - inch("1/16")


def test_a_thin_leg_s_inside_is_where_it_was_drawn_with_shoulders_held() -> None:
    """1 3/8 + 1 1/8 = 2 1/2: the rail's back is level with the leg's inside, not proud."""
    p = milled(
        "shoulders", rail(width=inch(2), below_top=inch(4), set_in=inch("1 3/8")), **THIN
    )
    assert part_box(p.part("front-rail"))[1][1] == inch("2 1/2")
    assert part_box(p.part("front-left-leg"))[1][1] == inch("2 1/2")
    assert [f.text for f in check(p) if f.rule == places.RULE] == []


def test_a_thin_leg_s_inside_moved_out_with_the_overall_size_held() -> None:
    p = milled(
        "overall", rail(width=inch(2), below_top=inch(4), set_in=inch("1 3/8")), **THIN
    )
    (found,) = [f for f in check(p) if f.rule == places.RULE]
    assert (found.level, dict(found.figures)["proud"]) == ("caution", inch("1/16"))


def test_a_thin_leg_at_the_right_is_told_as_one_at_the_left() -> None:
    p = milled(
        "overall",
        rail(width=inch(2), below_top=inch(4), set_in=inch("1 3/8")),
        front_right_leg="2 3/8 x 2 7/16",
    )
    (found,) = [f for f in check(p) if f.rule == places.RULE]
    assert (found.level, dict(found.figures)["proud"]) == ("caution", inch("1/16"))


@pytest.mark.parametrize(("set_in", "proud"), [("0", "1/16"), ("1/64", "3/64"), ("1/16", None)])
def test_a_rail_that_stands_before_a_leg_that_came_out_thin(
    set_in: str, proud: str | None
) -> None:
    """With the shoulders held the leg's outside moved in by 1/16, the rail's face did not."""
    p = milled(
        "shoulders", rail(width=inch(2), below_top=inch(4), set_in=inch(set_in)), **THIN
    )
    found = [f for f in check(p) if f.rule == places.RULE]
    assert [dict(f.figures)["proud"] for f in found] == ([inch(proud)] if proud else [])
    assert all("outside" in f.text and f.level == "caution" for f in found)
