"""Findings on doors: each speaks past its limit and is silent at it. In mm.

The door is that of test_door.py, of flat-sawn white oak: 396 x 593, stiles 50, frame 20 thick. Its
two stiles together are 100 wide, so that 2 % of moisture makes 100 x 2 x 0.00365 = 0.73 of them
(Wood Handbook, FPL-GTR-190, 2010, Table 13-5). A wall is at least 4 1/2, a gap at least 0.4.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import check, doors
from layout.errors import ShoulderlineError
from layout.mark import Finding
from layout.piece import Piece
from tests.builds.test_door import CASE, read

F = Fraction
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 10\n"
MOVES = 100 * 2 * F("0.00365")


def found(p: Piece, rule: str) -> list[Finding]:
    return [one for one in doors.findings(p) if one.rule == rule]


def told(p: Piece, rule: str) -> list[tuple[str, dict[str, Fraction]]]:
    """Level and figures of a rule's findings; all but notes say what to do."""
    assert all(one.cure for one in found(p, rule) if one.level != "note")
    return [(one.level, dict(one.figures)) for one in found(p, rule)]


def sheet(keys: str) -> str:
    return f'panel = {{ timber = "plywood", {keys} }}\n'


# -- wood beside the seat


@pytest.mark.parametrize(
    ("groove", "level"), [("4.5", None), ("4.4", "caution"), ("0.1", "caution")]
)
def test_wood_in_front_of_a_groove(groove: str, level: str | None) -> None:
    p = read(panel=sheet(f"thickness = 6, lip = 10, groove_from_face = {groove}"))
    assert told(p, doors.GROOVE) == (
        [] if level is None else [(level, {"wood": F(groove), "least": F(9, 2)})]
    )
    if level:
        assert "in front of the groove" in found(p, doors.GROOVE)[0].text


def test_wood_behind_a_groove() -> None:
    # 20 - 9 1/2 - 6 = 4 1/2
    assert told(read(panel=sheet("thickness = 6, lip = 10, groove_from_face = 9.5")),
                doors.GROOVE) == []
    p = read(panel=sheet("thickness = 6, lip = 10, groove_from_face = 9.6"))
    assert told(p, doors.GROOVE) == [("caution", {"wood": F("4.4"), "least": F(9, 2)})]
    assert "behind the groove" in found(p, doors.GROOVE)[0].text


def test_wood_in_front_of_a_rabbet_has_none_behind_it() -> None:
    rabbet = 'thickness = 3, lip = 10, seat = "rabbet", rabbet_depth = '
    assert told(read(panel=sheet(f"{rabbet}15.5")), doors.GROOVE) == []
    assert told(read(panel=sheet(f"{rabbet}15.6")), doors.GROOVE) == [
        ("caution", {"wood": F("4.4"), "least": F(9, 2)})
    ]


def test_grooves_that_leave_too_little_of_a_part_s_width() -> None:
    # lip 20: of a muntin 44 1/2 wide 4 1/2 is left, of 44 less; stiles and rails have one groove
    keys = "[[door.muntin]]\nwidth = WIDE\n"
    wide = sheet("thickness = 6, lip = 20")
    assert told(read(keys.replace("WIDE", "44.5"), panel=wide), doors.GROOVE) == []
    p = read(keys.replace("WIDE", "44"), panel=wide)
    assert told(p, doors.GROOVE) == [("caution", {"left": 4, "width": 44})]
    assert found(p, doors.GROOVE)[0].parts == ("door-muntin-1-1",)


def test_stiles_top_and_bottom_rail_have_one_groove_only() -> None:
    # lip 28: two would leave 60 - 56 = 4 of the top rail, and nothing of the stiles
    assert told(read(panel=sheet("thickness = 6, lip = 28")), doors.GROOVE) == []
    p = read("[[door.middle]]\nwidth = 60\ntenon = { top_shoulder = 28, bottom_shoulder = 28 }\n",
             panel=sheet("thickness = 6, lip = 28"))
    assert told(p, doors.GROOVE) == [("caution", {"left": 4, "width": 60})]
    assert found(p, doors.GROOVE)[0].parts == ("door-middle-rail",)


# -- panels against the door


def test_a_panel_that_can_slip_out() -> None:
    assert told(read(panel=sheet("thickness = 6, lip = 10, room = 9.9")), doors.COVER) == []
    p = read(panel=sheet("thickness = 6, lip = 10, room = 10"))
    assert told(p, doors.COVER) == [("stop", {"lip": 10, "room": 10})]


def test_a_panel_proud_of_the_face() -> None:
    # groove 7 from the face, the tongue 6: 7 in front of it is flush
    keys = 'lip = 10, edge = "tongue", tongue = 6, solid = {}'
    assert told(read(panel=f"panel = {{ thickness = 13, {keys} }}\n"), doors.PROUD) == []
    p = read(panel=f"panel = {{ thickness = 13.1, {keys} }}\n")
    assert told(p, doors.PROUD) == [("caution", {"proud": F("0.1")})]


def test_a_panel_out_behind_the_door() -> None:
    # 7 of wood behind a groove in the middle
    keys = 'lip = 10, edge = "tongue", tongue = 6, solid = {}, wood_behind = '
    assert told(read(panel=f"panel = {{ thickness = 14, {keys}7 }}\n"), doors.PROUD) == []
    p = read(panel=f"panel = {{ thickness = 14, {keys}7.5 }}\n")
    assert told(p, doors.PROUD) == [("caution", {"behind": F("0.5")})]


def test_a_panel_thicker_than_its_rabbet() -> None:
    rabbet = 'lip = 10, seat = "rabbet", rabbet_depth = 8, thickness = '
    assert told(read(panel=sheet(f"{rabbet}8")), doors.PROUD) == []
    p = read(panel=sheet(f"{rabbet}9"))
    assert told(p, doors.PROUD) == [("caution", {"behind": 1})]
    assert found(p, doors.PROUD)[0].cure == "use a thinner panel, or make its seat deeper"
    glass = "glass = { rabbet_depth = 8, thickness = 9 }\n"
    assert told(read(panel=glass), doors.PROUD) == [("caution", {"behind": 1})]


# -- the gap through the year


def inset(sides: str, keys: str = "", before: str = CLIMATE) -> Piece:
    return read(keys, gaps=f"gap_sides = {sides}\ngap_top = 3\ngap_bottom = 4\n", before=before)


def gaps(today: Fraction | str, moves: Fraction = MOVES) -> dict[str, Fraction]:
    return {"today": F(today), "least": F(today) - moves, "most": F(today) + moves}


@pytest.mark.parametrize(
    ("sides", "level"),
    [("2", "note"), ("1.13", "note"), ("1.12", "caution"), ("0.74", "caution"), ("0.73", "stop"),
     ("0.1", "stop")],
)
def test_the_gap_at_the_far_side_takes_both_stiles_swelling(sides: str, level: str) -> None:
    assert told(inset(sides), doors.GAP) == [(level, gaps(sides))]


def test_a_gap_as_wide_as_the_cure_says_is_wide_enough() -> None:
    (one,) = found(inset("0.9"), doors.GAP)
    assert (one.level, one.cure.startswith("leave ")) == ("caution", True)
    # 0.73 and the least of 0.4
    assert told(inset("1.13"), doors.GAP)[0][0] == "note"
    assert "at the right side" in one.text
    (other,) = found(inset("0.9", 'hinges_on = "right"\n'), doors.GAP)
    assert "at the left side" in other.text


def test_quarter_sawn_stiles_move_half_as_much() -> None:
    # 0.00180 radially
    assert told(inset("1", 'sawn = "quarter"\n'), doors.GAP) == [
        ("note", gaps("1", 100 * 2 * F("0.00180")))
    ]


def test_wood_wetter_today_than_it_will_ever_be_only_shrinks() -> None:
    p = inset("0.5", before="[climate]\nnow = 12\ndry = 6\nwet = 10\n")
    assert told(p, doors.GAP) == [("note", {
        "today": F("0.5"), "least": F("0.5"), "most": F("0.5") + 100 * 6 * F("0.00365"),
    })]


def test_no_climate_and_no_solid_panel_no_word_on_the_year() -> None:
    assert told(inset("0.1", before=""), doors.GAP) == []


def test_a_pair_takes_four_stiles_between_its_doors() -> None:
    keys = "pair = true\ngap_between = BETWEEN\n"
    for between, level in (("1.86", "note"), ("1.85", "caution"), ("1.46", "stop")):
        p = inset("2", keys.replace("BETWEEN", between))
        assert told(p, doors.GAP) == [(level, gaps(between, 2 * MOVES))]
        # told once for the two
        assert len(found(p, doors.GAP)) == 1


def test_meeting_stiles_that_come_apart_in_the_driest_season() -> None:
    keys = "pair = true\ngap_between = 3\nrebate = REBATE\n"
    note = ("note", gaps("3", 2 * MOVES))
    assert told(inset("2", keys.replace("REBATE", "1.47")), doors.GAP) == [note]
    assert sorted(told(inset("2", keys.replace("REBATE", "1.46")), doors.GAP), key=str) == [
        note, ("stop", {"rebate": F("1.46"), "driest": 0}),
    ]


@pytest.mark.parametrize(("over", "level"), [("10", "note"), ("0.74", "note"), ("0.73", "stop")])
def test_an_overlay_door_that_no_longer_covers(over: str, level: str) -> None:
    p = read(f'mount = "overlay"\nover = {over}\n', gaps="", before=CLIMATE)
    assert told(p, doors.GAP) == [(level, {"today": F(over), "driest": F(over) - MOVES})]


@pytest.mark.parametrize(("over", "level"), [("20", None), ("20.5", "caution")])
def test_an_overlay_door_wider_than_its_carcase(over: str, level: str | None) -> None:
    # the case is of 20 mm boards: what covers more of them than that stands out beyond
    p = read(f'mount = "overlay"\nover = {over}\n', gaps="",
             place='openings = ["inside case"]\n', before=CASE)
    assert told(p, doors.BEYOND) == ([] if level is None else [(level, {"beyond": F(1, 2)})])


def test_stiles_of_a_wood_that_the_tables_don_t_have() -> None:
    p = inset("2", 'timber = "qqqq"\n')
    assert told(p, doors.GAP) == [("caution", {})]
    assert "qqqq" in found(p, doors.GAP)[0].text


# -- a haunch, and a solid panel in a rabbet


@pytest.mark.parametrize(("thick", "level"), [("6", None), ("6.5", "stop")])
def test_a_haunch_thicker_than_the_groove_it_fills(thick: str, level: str | None) -> None:
    p = read(f"tenon = {{ thickness = {thick} }}\n", panel=sheet("thickness = 6, lip = 10"))
    # both rails have one
    assert told(p, doors.HAUNCH) == (
        [] if level is None else [(level, {"tenon": F(thick), "groove": 6})] * 2
    )


def test_what_holds_a_solid_panel_in_a_rabbet() -> None:
    p = read(panel='panel = { thickness = 8, seat = "rabbet", solid = {}, timber = "cherry" }\n',
             before=CLIMATE)
    (note,) = [one for one in doors.findings(p) if one.rule == "panel free to move"]
    assert "beads hold a panel in its rabbet" in note.text
    assert "tongue" not in note.text


# -- horns


def test_horns_are_told() -> None:
    p = read("horns = 15\n")
    assert told(p, doors.HORNS) == [("note", {"horn": 15})]
    assert found(p, doors.HORNS)[0].parts == ("door-left-stile", "door-right-stile")
    assert told(read(), doors.HORNS) == []


# -- nothing wrong with a sound door


def test_a_sound_door_has_neither_stop_nor_caution() -> None:
    frame = "thickness = 22\nstiles = 55\nbottom = { width = 60 }\n"
    p = read('openings = ["inside case"]\nhorns = 20\n'
             "hinges = { length = 50 }\nlock = { length = 40 }\n",
             place="", before=CLIMATE + CASE, frame=frame,
             panel="panel = { thickness = 8, solid = {} }\n")
    mine = {part.id for part in p.doors[0].parts}
    assert [one for one in check(p) if one.level != "note" and set(one.parts) & mine] == []
    told_of = {one.rule for one in doors.findings(p)}
    assert told_of >= {doors.GAP, doors.HORNS, doors.WEIGHT, doors.HINGE}


# -- the rebate of a pair


def test_a_meeting_rebate_that_runs_into_the_mortises_is_told() -> None:
    # mortises are 37 1/2 + 2 deep in stiles of 50, 7 to 13 behind the face: 10 1/2 of wood is left
    # behind them; the rebates are 10 deep, and 3 + 9 = 12 wide
    p = read("pair = true\ngap_between = 3\nrebate = 9\ntenon = { length = 37.5 }\n")
    hurt = ["left-door-right-stile", "right-door-left-stile"]
    told_of = [(one.level, *one.parts) for one in found(p, doors.REBATE)]
    assert told_of == [("stop", each) for each in hurt]
    assert told(p, doors.REBATE) == [("stop", {"web": F(-3, 2), "least": F(9, 2)})] * 2


@pytest.mark.parametrize(("length", "level"), [("32.5", "caution"), ("31.5", None)])
def test_least_wood_between_a_meeting_rebate_and_the_mortises(
    length: str, level: str | None
) -> None:
    # 50 - 12 - 2 - length: 3.5, 4.5
    p = read(f"pair = true\ngap_between = 3\nrebate = 9\ntenon = {{ length = {length} }}\n")
    assert [one.level for one in found(p, doors.REBATE)] == ([] if level is None else [level] * 2)


def test_tenons_left_open_keep_clear_of_a_meeting_rebate() -> None:
    p = read("pair = true\ngap_between = 3\nrebate = 9\n")
    assert found(p, doors.REBATE) == []
    # 50 - 12 - 4.5 - 2 = 31.5, at both ends
    for one in p.doors[0].rails:
        assert {size.length for size in one.sizes} == {F(63, 2)}
    wide = 'pair = true\ngap_between = 3\nrebate = 60\n'
    with pytest.raises(ShoulderlineError, match="takes all of its stile"):
        read(wide)
