"""Each check, seen to speak where it should and to keep silent where it should."""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.choices import LegChoice
from layout.builds.frame import SIDES
from layout.checks import (
    check,
    folded,
    gauges,
    meetings,
    panels,
    places,
    shoulders,
    solids,
    sums,
    tenons,
    walls,
)
from layout.checks.bodies import around, left_of
from layout.joints.choices import TwinChoice
from layout.mark import Finding
from layout.piece import Piece
from layout.solid.convex import block, common, volume
from tests.pieces import agreed, frame, inch, low_rail, panel, piece, rail, seat, tenon


def levels(p: Piece, rule: str) -> list[str]:
    return [f.level for f in check(p) if f.rule == rule]


def only(p: Piece, rule: str) -> Finding:
    (found,) = [f for f in check(p) if f.rule == rule and f.level != "note"][:1]
    return found


# 2 1/4 wide: as wide as one tenon 3/8 thick may be
NARROW = tenon(top_shoulder=inch("7/8"), bottom_shoulder=inch("7/8"))


def good() -> Piece:
    return agreed(
        frame(rail(tenon=NARROW), low_rail(tenon=NARROW)), panel(seat(), "front under rail")
    )


def test_a_sound_piece_has_notes_only() -> None:
    assert {f.level for f in check(good())} == {"note"}


def test_a_sum_that_the_parts_deny_is_a_stop() -> None:
    p = good()
    first = p.sums[0]
    wrong = first._replace(total=first.total + inch("1/64"))
    bent = p._replace(sums=(wrong, *p.sums[1:]))
    assert levels(bent, sums.RULE) == ["stop"]
    (found,) = [f for f in check(bent) if f.rule == sums.RULE]
    assert dict(found.figures) == {
        "shoulder distance of front-rail, sum": first.total + inch("1/64"),
        "shoulder distance of front-rail, placed": first.total,
    }


def test_every_sum_adds_up() -> None:
    for one in good().sums:
        assert sum((t.sign * t.value for t in one.terms), Fraction(0)) == one.total


@pytest.mark.parametrize(
    ("length", "level"), [("2 3/8", "stop"), ("2 1/4", "caution"), ("2", None)]
)
def test_tenon_longer_than_the_leg_allows(length: str, level: str | None) -> None:
    # leg 2 1/2, room 1/8: 2 3/8 comes through, 2 1/4 leaves 1/8, 2 leaves 3/8; least 3/16
    p = agreed(frame(rail(tenon=tenon(length=inch(length)))))
    assert set(levels(p, walls.DEPTH)) == ({level} if level else set())


@pytest.mark.parametrize(("top", "level"), [("0", "stop"), ("1/8", "caution"), ("1/4", None)])
def test_top_shoulder_gone(top: str, level: str | None) -> None:
    p = agreed(frame(rail(tenon=tenon(top_shoulder=inch(top)))))
    assert set(levels(p, walls.TOP)) == ({level} if level else set())


def test_thin_wall_outside_the_mortise() -> None:
    p = agreed(frame(rail(tenon=tenon(outer_shoulder=inch("1/8")))))
    assert set(levels(p, walls.RULE)) == {"caution"}


@pytest.mark.parametrize(
    ("outer", "level"), [("7/16", "caution"), ("5/8", "stop"), ("3/8", None)]
)
def test_web_between_tenon_and_rabbet(outer: str, level: str | None) -> None:
    # wood 7/8, tenon 3/8: web 7/8 - outer - 3/8 is 1/16, -1/8, 1/8
    choice = tenon(outer_shoulder=inch(outer))
    p = agreed(frame(rail(tenon=choice), low_rail()), panel(seat(), "front under rail"))
    assert set(levels(p, tenons.WEB)) == ({level} if level else set())


def test_tenon_thicker_than_its_rail() -> None:
    p = piece(frame(rail(tenon=tenon(thickness=inch("1 1/2")))))
    assert levels(p, tenons.ROOM) == ["stop"]


@pytest.mark.parametrize(("shoulder", "told"), [("1/8", 1), ("23/64", 1), ("3/8", 0)])
def test_groove_that_cuts_the_tenon(shoulder: str, told: int) -> None:
    # 3/8 deep
    grooved = seat(kind="groove", in_legs="groove")
    choice = tenon(bottom_shoulder=inch(shoulder))
    p = agreed(frame(rail(tenon=choice), low_rail()), panel(grooved, "front under rail"))
    assert levels(p, tenons.GROOVE) == ["stop"] * told


# longest clear tenon = leg - (outer + thickness) - room: 2 1/2 - 3/4 - 1/8 = 1 5/8
@pytest.mark.parametrize(
    ("length", "level"),
    [("1 3/4", "caution"), ("1 5/8", "caution"), ("1 3/8", None), ("2", "stop")],
)
def test_two_mortises_meeting_in_a_leg(length: str, level: str | None) -> None:
    p = agreed(frame(rail(sides=SIDES, tenon=tenon(length=inch(length)))))
    assert set(levels(p, meetings.MORTISES)) == ({level} if level else set())


def test_the_longest_tenon_to_try() -> None:
    p = agreed(frame(rail(sides=SIDES, tenon=tenon(length=inch("1 5/8")))))
    # and least wall 3/16 besides: 1 5/8 - 3/16 = 1 7/16
    assert "1 7/16 in" in only(p, meetings.MORTISES).cure


def test_meeting_mortises_open_but_tenons_clear() -> None:
    # mortise 1 7/8 deep reaches 1/8 past the neighbour's far wall, the tenon stops level with it
    p = agreed(frame(rail(sides=SIDES, tenon=tenon(length=inch("1 3/4")))))
    found = only(p, meetings.MORTISES)
    assert "open into each other" in found.text
    assert dict(found.figures)["between the tenons"] == 0


def test_rabbet_running_into_a_mortise() -> None:
    # the tenon behind the rabbet's plane: 5/8 + 3/8 = 1 against 7/8, and no bottom shoulder
    choice = tenon(outer_shoulder=inch("5/8"), bottom_shoulder=Fraction(0))
    p = agreed(frame(rail(tenon=choice), low_rail()), panel(seat(), "front under rail"))
    assert "stop" in levels(p, meetings.SEATS)


def test_two_rabbets_at_an_inside_corner_do_no_harm_until_one_takes_the_others_plane() -> None:
    def cornered(leg: str) -> Piece:
        rails = (rail(sides=SIDES), low_rail(sides=SIDES))
        both = panel(seat(), "front under rail", "left under rail")
        return agreed(frame(*rails, leg=LegChoice(inch(leg), inch(leg))), both)

    assert "stop" not in levels(cornered("2 1/2"), meetings.SEATS)
    # plane at 7/8, lip 3/8: in a leg of 1 1/8 the other rabbet starts at 3/4
    assert "stop" in levels(cornered("1 1/8"), meetings.SEATS)


def test_rail_wider_than_the_leg_is_long() -> None:
    p = agreed(frame(rail(width=inch(31))))
    assert levels(p, places.RULE) == ["stop"]


def test_rails_over_one_another() -> None:
    p = agreed(frame(rail(), rail("other", below_top=inch(3))))
    found = only(p, places.RULE)
    assert dict(found.figures)["overlap"] == inch(1)


def test_rail_proud_of_the_leg() -> None:
    p = agreed(frame(rail(set_in=inch("1 1/2"))))
    assert levels(p, places.RULE) == ["caution"]


@pytest.mark.parametrize("thickness", ["1 1/8", "1 1/4", "3"])
def test_panel_as_thick_as_its_rail(thickness: str) -> None:
    p = piece(
        frame(rail(), low_rail()),
        panel(seat(panel_thickness=inch(thickness)), "front under rail"),
    )
    assert "stop" in levels(p, panels.THICKNESS)


def test_panel_thicker_than_its_rabbet() -> None:
    thick = seat(panel_thickness=inch("1/4"), depth=inch("3/16"))
    p = agreed(frame(rail(), low_rail()), panel(thick, "front under rail"))
    assert set(levels(p, panels.PLANE)) == {"caution"}


def test_rabbet_that_misses_the_lower_rail() -> None:
    thin = low_rail(thickness=inch("3/4"))
    p = agreed(frame(rail(), thin), panel(seat(), "front under rail"))
    assert "stop" in levels(p, panels.PLANE)


def test_lip_that_cuts_right_through() -> None:
    p = piece(frame(rail(), low_rail()), panel(seat(lip=inch(4)), "front under rail"))
    assert "stop" in levels(p, panels.LIP)


def test_panel_that_can_slip_out() -> None:
    p = agreed(
        frame(rail(), low_rail()), panel(seat(), "front under rail", room=inch("3/8"))
    )
    assert levels(p, panels.COVER) == ["stop"]


def test_parts_in_one_place() -> None:
    p = agreed(frame(rail(), rail("other", below_top=inch(3))))
    assert "stop" in levels(p, solids.RULE)
    assert levels(good(), solids.RULE) == ["note"]


def test_overlap_is_exact() -> None:
    one = block(((Fraction(0), Fraction(2)),) * 3)
    other = block(((Fraction(1), Fraction(3)),) * 3)
    corner = ((Fraction(1), Fraction(2)),) * 3
    shared = common(one, other)
    assert shared is not None
    assert shared.spans == corner
    assert left_of(shared, [block(corner)]) == ()
    tiny = Fraction(1, 10**9)
    almost = block((*corner[:2], (Fraction(1), Fraction(2) - tiny)))
    left = left_of(shared, [almost])
    assert around(left) == (*corner[:2], (Fraction(2) - tiny, Fraction(2)))
    assert sum(map(volume, left)) == tiny


@pytest.mark.parametrize("into", [Fraction(1, 10**9), Fraction(0), Fraction(-1, 10**9)])
def test_a_shoulder_in_the_leg_is_an_overlap_however_little(into: Fraction) -> None:
    p = agreed(frame(rail(tenon=NARROW)))
    leg = p.part("front-left-leg")
    x, y, z = leg.placement.origin
    placement = leg.placement._replace(origin=(x + into, y, z))
    moved_in = leg._replace(placement=placement)
    bent = p._replace(parts=tuple(moved_in if one == leg else one for one in p.parts))
    (found,) = solids.findings(bent)
    if into <= 0:
        assert found.level == "note"
        return
    assert (found.level, set(found.parts)) == ("stop", {"front-left-leg", "front-rail"})
    # the whole shoulder: 4 x 1 1/8 less the mortise, 2 1/4 x 3/8
    area = inch(4) * inch("1 1/8") - inch("2 1/4") * inch("3/8")
    assert dict(found.figures)["overlap in cubic mm"] == area * into
    assert dict(found.figures)["overlap along X"] == into


def test_set_in_is_said() -> None:
    flush = [f.text for f in check(agreed(frame(rail()))) if f.rule == gauges.SET_IN]
    assert flush == ["the front rail is flush: 3/8 in and 3/4 in serve on rail and leg alike"]
    behind = agreed(frame(rail(set_in=inch("1/8"))))
    told = [f.text for f in check(behind) if f.rule == gauges.SET_IN]
    assert told == [
        "the front rail is set in 1/8 in: 3/8 in and 3/4 in on the rail, "
        "1/2 in and 7/8 in on the leg"
    ]


def test_settings_nearly_alike_are_pointed_out() -> None:
    other = rail("other", sides=("back",), tenon=tenon(outer_shoulder=inch("25/64")))
    p = agreed(frame(rail(), other))
    assert levels(p, "settings nearly alike") == ["note"]
    far = rail("other", sides=("back",), tenon=tenon(outer_shoulder=inch("13/32")))
    assert levels(agreed(frame(rail(), far)), "settings nearly alike") == []


@pytest.mark.parametrize(("thickness", "level"), [("1 3/4", "caution"), ("1 1/8", None)])
def test_a_rabbet_under_the_next_rail_s_shoulder(thickness: str, level: str | None) -> None:
    # the side panel's rabbet starts 2 1/2 - 3/8 = 2 1/8 behind the leg's face
    front = rail("front rail", set_in=inch("1/2"), thickness=inch(thickness), below_top=inch(8))
    sides = ("left",)
    p = agreed(
        frame(rail(sides=sides), low_rail(sides=sides), front),
        panel(seat(), "left under rail"),
    )
    assert set(levels(p, shoulders.RULE)) == ({level} if level else set())
    if level:
        # 1/2 + 1 3/4 - 2 1/8 = 1/8 of it, over the rail's width of 4
        assert dict(only(p, shoulders.RULE).figures) == {
            "along the leg": inch(4),
            "across it": inch("1/8"),
        }


def wrong_sums(p: Piece) -> bool:
    return "stop" in levels(p, sums.RULE)


def moved(p: Piece, part: str, **changes: Fraction) -> Piece:
    """The same piece with one part made to another size."""
    parts = tuple(
        one._replace(**changes) if one.id == part else one for one in p.parts
    )
    return p._replace(parts=parts)


def test_sums_object_when_the_wood_is_not_what_they_say() -> None:
    p = good()
    assert not wrong_sums(p)
    assert wrong_sums(moved(p, "front-panel", width=p.part("front-panel").width + 1))
    assert wrong_sums(moved(p, "front-panel", length=p.part("front-panel").length - 1))
    assert wrong_sums(moved(p, "front-left-leg", width=p.part("front-left-leg").width + 1))
    assert wrong_sums(moved(p, "front-rail", thickness=p.part("front-rail").thickness + 1))


@pytest.mark.parametrize(
    "role", ["mortise", "rabbet", "front cheek waste A", "top shoulder waste A"]
)
def test_sums_object_when_a_cut_is_moved(role: str) -> None:
    p = good()
    cuts = []
    for cut in p.cuts:
        if cut.role == role and cut.part in ("front-left-leg", "front-rail"):
            points = tuple((l + 1, w + 1, t + 1) for l, w, t in cut.shape.points)  # noqa: E741
            cuts.append(cut._replace(shape=cut.shape._replace(points=points)))
        else:
            cuts.append(cut)
    assert wrong_sums(p._replace(cuts=tuple(cuts)))


def test_a_panel_off_its_seats() -> None:
    p = good()
    (fitted,) = p.panels
    x, y, z = fitted.part.placement.origin
    placement = fitted.part.placement._replace(origin=(x, y, z + 1))
    bent = p._replace(panels=(fitted._replace(part=fitted.part._replace(placement=placement)),))
    assert levels(bent, panels.SEATED) == ["stop"]
    assert levels(p, panels.SEATED) == []


@pytest.mark.parametrize(
    ("lip", "level"), [("1 1/4", "stop"), ("1 1/2", "stop"), ("1 3/16", None)]
)
def test_a_lip_as_long_as_the_tenon_run_through(lip: str, level: str | None) -> None:
    p = piece(
        frame(rail(), low_rail()), panel(seat(run="through", lip=inch(lip)), "front under rail")
    )
    assert set(levels(p, shoulders.LONG)) == ({level} if level else set())


def thin_leg(thickness: str, **changes: object) -> Piece:
    return agreed(
        frame(rail(), low_rail(), leg=LegChoice(inch("2 1/2"), inch(thickness))),
        panel(seat(**changes), "front under rail"),
    )


def test_a_leg_too_thin_for_the_seat() -> None:
    grooved = {"kind": "groove", "in_legs": "groove", "depth": inch("7/8")}
    # groove 7/8 to 1 1/8 in a leg of 1
    assert "stop" in levels(thin_leg("1", **grooved), panels.THICKNESS)
    # the rabbet's plane at 7/8 in a leg of 7/8: no wood for it
    assert "stop" in levels(thin_leg("7/8"), panels.THICKNESS)
    # 1/16 of rabbet for a panel of 1/4
    assert "caution" in levels(thin_leg("15/16"), panels.PLANE)


@pytest.mark.parametrize(
    ("start", "level"), [("1/8", "caution"), ("3/4", "caution"), ("7/16", None), ("7/8", "stop")]
)
def test_thin_walls_beside_a_groove(start: str, level: str | None) -> None:
    # rail 1 1/8, groove 1/4 wide: 1/8 in front; 1/8 behind; 7/16 both; 0 behind
    grooved = seat(kind="groove", in_legs="groove", depth=inch(start))
    choice = tenon(bottom_shoulder=inch("3/8"), top_shoulder=inch("3/8"))
    p = agreed(
        frame(rail(tenon=choice), low_rail(tenon=choice)), panel(grooved, "front under rail")
    )
    assert (level or "note") in (set(levels(p, panels.THICKNESS)) or {"note"})
    assert (level is None) == (levels(p, panels.THICKNESS) == [])


def test_two_lips_that_leave_nothing_of_a_rail() -> None:
    middle = rail("middle", below_top=inch(10), width=inch("7/8"))
    p = agreed(
        frame(rail(), middle, low_rail()),
        panel(seat(), "front under rail"),
        panel(seat(), "front under middle", name="other"),
    )
    # 7/8 - 2 x 3/8 = 1/8 left, least 3/16
    assert "caution" in levels(p, panels.LIP)


@pytest.mark.parametrize(
    ("changes", "level"),
    [
        ({"length": inch("1/2")}, "caution"),  # a fifth of 2 1/2
        ({"length": inch("3/4")}, None),
        ({"top_shoulder": inch("1 7/8"), "bottom_shoulder": inch("1 7/8")}, "caution"),  # 1/4 wide
    ],
)
def test_tenons_too_slight_to_hold(changes: dict[str, Fraction], level: str | None) -> None:
    p = agreed(frame(rail(tenon=tenon(**changes))))
    assert set(levels(p, tenons.STOUT)) == ({level} if level else set())


def test_tenon_that_comes_out_of_the_back() -> None:
    p = piece(frame(rail(tenon=tenon(outer_shoulder=inch("7/8")))))
    assert levels(p, tenons.ROOM) == ["stop"]


def test_walls_inside_and_below() -> None:
    # leg 1 thick: 1 - 3/4 leaves 1/4; 7/8 leaves 1/8
    thin = frame(rail(), leg=LegChoice(inch("2 1/2"), inch("7/8")))
    assert "caution" in levels(agreed(thin), walls.RULE)
    foot = rail(below_top=None, above_floor=Fraction(0), tenon=tenon(bottom_shoulder=inch("1/8")))
    assert set(levels(agreed(frame(foot)), walls.TOP)) == {"caution"}


def test_a_tenon_in_line_with_its_rabbet_has_nothing_thin_beside_it() -> None:
    # as in Ross, Elementary Course in Woodwork, 1901, Exercise 6, Fig. 87: wood, tenon, rebate
    choice = tenon(outer_shoulder=inch("1/2"))
    p = agreed(frame(rail(tenon=choice), low_rail()), panel(seat(), "front under rail"))
    assert tenons.WEB not in {f.rule for f in check(p)}
    assert meetings.SEATS not in {f.rule for f in check(p) if f.level != "note"}
    nearly = tenon(outer_shoulder=inch("31/64"))
    p = agreed(frame(rail(tenon=nearly), low_rail()), panel(seat(), "front under rail"))
    assert {"caution"} == set(levels(p, tenons.WEB)) == set(levels(p, meetings.SEATS))


def test_a_chisel_s_choice_is_told() -> None:
    p = agreed(frame(rail(tenon=tenon(thickness=None))))
    assert levels(p, tenons.CHISEL) == ["note"]
    assert levels(good(), tenons.CHISEL) == []


def test_stands_that_share_one_line_only_are_not_alike() -> None:
    wide = rail("other", sides=("back",), tenon=tenon(
        outer_shoulder=inch("3/8"), thickness=inch("1/2")))
    assert levels(agreed(frame(rail(), wide)), "settings nearly alike") == []


def test_findings_of_one_kind_are_told_once() -> None:
    p = agreed(frame(rail(sides=SIDES, tenon=tenon(length=inch("2 1/4")))))
    found = check(p)
    told = folded(found)
    assert len(told) < len(found)
    (depth,) = [f for f in told if f.rule == walls.DEPTH]
    assert depth.text.endswith("likewise in 7 more places")
    assert len(depth.parts) == 8


def test_every_size_that_is_struck_has_its_sum_or_was_chosen() -> None:
    for run, kind in (("stopped", "rabbet"), ("through", "rabbet"), ("stopped", "groove")):
        chosen = seat(run=run, kind=kind, in_legs=kind)
        p = agreed(
            frame(rail(sides=SIDES, set_in=inch("1/8")), low_rail(sides=SIDES)),
            panel(chosen, "front under rail", "left under rail"),
        )
        size = p.rails[0].size
        known = {chosen.lip, size.top, size.outer, size.length}
        known |= {one.size.outer for one in p.rails}
        summed = {s.total for s in p.sums}
        for mark in p.marks:
            assert mark.distance in summed | known, (kind, run, mark.part, mark.role)


def test_a_thin_rabbet_and_a_proud_panel_are_both_told() -> None:
    # rail 1 1/8: 1/8 in front of a rabbet 1 deep, panel 1 1/16
    both = seat(panel_thickness=inch("1 1/16"), depth=inch(1))
    p = piece(frame(rail(), low_rail()), panel(both, "front under rail"))
    assert "caution" in levels(p, panels.THICKNESS)
    assert "caution" in levels(p, panels.PLANE)


def test_a_lip_that_leaves_a_sliver_of_leg() -> None:
    p = agreed(frame(rail(), low_rail()), panel(seat(lip=inch("2 3/8")), "front under rail"))
    assert "caution" in levels(p, panels.LIP)


def test_a_stub_is_meant_to_be_short() -> None:
    # 1/2 is a fifth of the leg
    short = {"length": inch("1/2"), "top_shoulder": inch(1), "bottom_shoulder": inch(1)}
    assert levels(agreed(frame(rail(tenon=tenon(**short)))), tenons.STOUT) == ["caution"]
    assert levels(agreed(frame(rail(tenon=tenon(stub=True, **short)))), tenons.STOUT) == []


@pytest.mark.parametrize(
    ("start", "told"),
    # twins 7/16 to 13/16 and 1 3/16 to 1 9/16 in a rail 2 thick, shoulders 1/8 below; a groove
    # 1/4 wide and 3/8 deep: over the outer one, between them, over the inner one
    [("1/2", True), ("7/8", False), ("1 1/4", True)],
)
def test_a_groove_cuts_either_of_two_twins(start: str, told: bool) -> None:
    choice = tenon(twin=TwinChoice(), top_shoulder=inch("3/8"), bottom_shoulder=inch("1/8"))
    thick = {"width": inch(2), "thickness": inch(2), "tenon": choice}
    grooved = seat(kind="groove", in_legs="groove", depth=inch(start))
    p = agreed(frame(rail(**thick), low_rail(**thick)), panel(grooved, "front under rail"))
    assert ("stop" in levels(p, tenons.GROOVE)) == told


@pytest.mark.parametrize(("wide", "level"), [("1/8", "stop"), ("3/16", "caution"), ("1/2", None)])
def test_a_tenon_less_than_half_as_wide_as_thick_is_none(wide: str, level: str | None) -> None:
    # a rail of 4, tenon 3/8 thick: half is 3/16
    choice = tenon(bottom_shoulder=inch("1"), top_shoulder=inch("3") - inch(wide))
    p = agreed(frame(rail(width=inch("4"), tenon=choice)))
    assert set(levels(p, tenons.STOUT)) == ({level} if level else set())
