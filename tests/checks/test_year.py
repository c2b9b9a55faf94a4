"""Findings on solid panels through the year: each speaks past its limit and is silent at it. In mm.

The door is that of test_door.py, of flat-sawn white oak: its opening is 296 wide and 463 high. For
each 1 % white oak moves 0.00365 of its width tangentially and 0.00180 radially (Wood Handbook,
FPL-GTR-190, 2010, Table 13-5); a panel covers at least 3 and has 1 1/2 of play.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import doors, panels, year
from layout.checks.words import said
from layout.errors import ShoulderlineError
from layout.mark import Finding
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.builds.test_door import HEAD, LEGS, read

F = Fraction
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 10\n"
STILL = "[climate]\nnow = 8\ndry = 8\nwet = 8\n"
SWELL, SHRINK = 1 + 2 * F("0.00365"), 1 - 2 * F("0.00365")


def door(solid: str = "", panel: str = "thickness = 6", before: str = CLIMATE,
         keys: str = "", **changes: str) -> Piece:
    """A door with one solid panel."""
    infill = f"panel = {{ {panel}, solid = {{ {solid} }} }}\n"
    return read(keys, panel=infill, before=before, **changes)


def judged(p: Piece) -> list[Finding]:
    """What is found of panels and of moisture; the other checks take longer."""
    return [*doors.findings(p), *panels.findings(p), *year.findings(p)]


def found(p: Piece, rule: str = year.YEAR) -> list[Finding]:
    return [one for one in judged(p) if one.rule == rule]


def one_of(p: Piece, rule: str = year.YEAR) -> tuple[str, dict[str, Fraction]]:
    """Level and figures of the one finding of a rule."""
    (told,) = found(p, rule)
    assert told.cure or told.level == "note"
    return told.level, dict(told.figures)


# -- does it stay in its grooves


def test_a_panel_that_stays_is_told_with_its_year() -> None:
    p = door()
    level, figures = one_of(p)
    widest = 296 + 20 - F(3, 2)
    narrowest = widest / SWELL * SHRINK
    assert (level, figures) == ("note", {
        "narrowest": narrowest, "widest": widest, "stands in": (narrowest - 296) / 2,
        "free": F(3, 2),
    })
    text = found(p)[0].text
    assert "flat-sawn white oak" in text
    for size in (widest / SWELL, narrowest, widest, (narrowest - 296) / 2):
        assert said(p, size) in text
    assert found(p)[0].parts == ("door-panel",)


def test_quarter_sawn_moves_as_the_radial_figure_says() -> None:
    level, figures = one_of(door('sawn = "quarter"'))
    assert level == "note"
    assert figures["narrowest"] == figures["widest"] / (1 + 2 * F("0.00180")) * (
        1 - 2 * F("0.00180"))
    assert "quarter-sawn white oak" in found(door('sawn = "quarter"'))[0].text


def test_a_panel_across_moves_up_and_down() -> None:
    _, figures = one_of(door(panel='thickness = 6, grain = "across"'))
    assert figures["widest"] == 463 + 20 - F(3, 2)


@pytest.mark.parametrize(
    ("lip", "level"), [("4.5", "note"), ("4.49", "caution"), ("1.51", "caution"), ("1.5", "stop")]
)
def test_the_cover_s_own_limit(lip: str, level: str) -> None:
    # nothing moves: it stands in each groove by lip - 3/2; 3 asked
    p = door("cover = 3, play = 3", f"thickness = 6, lip = {lip}", STILL)
    assert one_of(p) == (level, {
        "narrowest": 296 + 2 * F(lip) - 3, "widest": 296 + 2 * F(lip) - 3,
        "stands in": F(lip) - F(3, 2), "free": 3,
    })


def test_a_groove_too_shallow_for_the_driest_season() -> None:
    p = door(panel="thickness = 6, lip = 4")
    level, figures = one_of(p)
    narrowest = (296 + 8 - F(3, 2)) / SWELL * SHRINK
    assert (level, figures["stands in"]) == ("caution", (narrowest - 296) / 2)
    assert 0 < figures["stands in"] < 3
    assert said(p, narrowest) in found(p)[0].text
    # left to the year it is deep enough
    assert one_of(door())[0] == "note"


@pytest.mark.parametrize(
    ("held", "space"), [("free", 400), ("pins", 1900)]
)
def test_a_groove_made_deeper_by_what_the_cure_says_is_deep_enough(held: str, space: int) -> None:
    place = f"space = {{ width = {space}, height = 600 }}\n"
    p = door(f'held = "{held}"', "thickness = 6, lip = 2", place=place)
    (told,) = found(p)
    assert told.level == "stop"
    # what a groove deeper by d gives: both edges d more of the panel at its widest, which is
    # narrower by SHRINK / SWELL when dry; a free panel may take d of it to the other side
    share = SHRINK / SWELL
    gains = share if held == "pins" else 2 * share - 1
    needed = (3 - dict(told.figures)["stands in"]) / gains
    assert f"make the grooves {said(p, needed)} deeper" in told.cure
    deeper = door(f'held = "{held}"', f'thickness = 6, lip = "{2 + needed.limit_denominator(999)}"',
                  place=place)
    assert abs(one_of(deeper)[1]["stands in"] - 3) < F(1, 100)


def test_a_free_panel_stands_in_the_groove_that_it_slid_out_of() -> None:
    pins = one_of(door('held = "pins"'))[1]
    free = one_of(door('held = "free"'))[1]
    assert free["stands in"] == 2 * pins["stands in"] - 10
    p = door('held = "free"', "thickness = 6, lip = 6")
    (told,) = found(p)
    assert told.level == "caution"
    assert "pins" in told.text
    assert "pins" not in found(door('held = "pins"', "thickness = 6, lip = 3"))[0].text


def test_no_play_at_all_fills_the_grooves() -> None:
    p = door("play = 0")
    stop, note = found(p)
    assert (stop.level, note.level) == ("stop", "note")
    assert dict(stop.figures)["free"] == 0
    assert dict(stop.figures)["widest"] == 296 + 20
    # the least play is enough
    assert [one.level for one in found(door("play = 0.01"))] == ["note"]


def test_a_sheet_has_no_year() -> None:
    p = read(before=CLIMATE)
    assert found(p) == found(p, year.HELD) == []


def test_a_frame_s_panel_is_judged_as_a_door_s_is() -> None:
    panel = ('[[panel]]\nname = "end"\nopenings = ["front under head"]\nthickness = 6\n'
             'seat = "groove"\nlip = 5\nsolid = {}\n')
    text = HEAD + CLIMATE + LEGS.replace("SIDE", "front") + panel
    p = work_out(piece_from(parse_toml(text, "frame.toml")))
    # 400 between the legs
    narrowest = (400 + 10 - F(3, 2)) / SWELL * SHRINK
    assert one_of(p) == ("caution", {
        "narrowest": narrowest, "widest": F(817, 2), "stands in": (narrowest - 400) / 2,
        "free": F(3, 2),
    })
    (held,) = found(p, year.HELD)
    assert held.parts == ("front-end",)


@pytest.mark.parametrize(("held", "room"), [("pins", "20"), ("pins", "25"), ("free", "10")])
def test_a_solid_panel_that_can_slip_out_along_its_grain(held: str, room: str) -> None:
    # along the grain it is 463 + 20 - room long: at 20 no longer than the opening even where pins
    # keep it; a free one may slide to one end, and at 10 that bares the other
    p = door(f'held = "{held}"', f"thickness = 6, lip = 10, room = {room}")
    assert [one.level for one in found(p, doors.COVER)] == ["stop"]


def test_a_solid_panel_that_can_t_slip_out_along_its_grain() -> None:
    p = door(panel="thickness = 6, lip = 10, room = 9.9")
    assert found(p, doors.COVER) == []


# -- what keeps it


@pytest.mark.parametrize(
    ("held", "words"),
    [("pins", "pin"), ("spacers", "springy spacers"), ("free", "nothing keeps a panel")],
)
def test_what_keeps_panels_in_the_middle_is_told_once(held: str, words: str) -> None:
    (told,) = found(door(f'held = "{held}"'), year.HELD)
    assert (told.level, told.parts) == ("note", ("door-panel",))
    assert words in told.text
    assert "never the door panel" in told.text
    two = door(f'held = "{held}"', keys="[[door.muntin]]\nwidth = 40\n")
    (told,) = found(two, year.HELD)
    assert told.parts == ("door-panel-1-1", "door-panel-1-2")


# -- edges

RAISED = 'thickness = 14, edge = "raised", tongue = 6, lip = 10'


def test_a_border_inside_the_groove() -> None:
    # Fractions: 10 is at the groove's mouth, 10.1 a tenth inside the opening
    p = door(panel=f"{RAISED}, border = 10")
    assert one_of(p, year.EDGE) == ("stop", {"border": 10, "lip": 10})
    assert found(door(panel=f"{RAISED}, border = 10.1"), year.EDGE) == []


def test_borders_that_leave_no_field() -> None:
    # nothing moves: 296 + 20 - 3/2 = 314 1/2 wide, half of it 157 1/4
    p = door(panel=f"{RAISED}, border = 157.25", before=STILL)
    assert one_of(p, year.EDGE) == ("stop", {"border": F("157.25")})
    assert found(door(panel=f"{RAISED}, border = 157.2", before=STILL), year.EDGE) == []


def test_a_step_as_deep_as_the_bevel_falls() -> None:
    # the tongue lies 14 - 6 = 8 under the face
    p = door(panel=f"{RAISED}, border = 40, step = 8")
    assert one_of(p, year.EDGE) == ("stop", {"step": 8, "fall": 8})
    assert found(door(panel=f"{RAISED}, border = 40, step = 7.9"), year.EDGE) == []


def test_flat_edges_have_no_border_to_judge() -> None:
    assert found(door(panel='thickness = 14, edge = "tongue", tongue = 6'), year.EDGE) == []
    assert found(door(), year.EDGE) == []


# -- the climate


def test_the_usual_climate_is_warned_of_and_a_given_one_told() -> None:
    (told,) = found(door(before=""), year.CLIMATE)
    assert (told.level, told.parts) == ("caution", ())
    for words in ("8.0 %", "6.0 %", "10.0 %"):
        assert words in told.text
    (told,) = found(door(before='[climate]\nnow = 9\ndry = "20 C, 35 %"\nwet = 12\n'),
                    year.CLIMATE)
    assert (told.level, told.cure) == ("note", "")
    assert "9.0 % today" in told.text
    assert "(20 C, 35 %) in the dry season" in told.text


def test_without_a_climate_and_a_solid_panel_nothing_is_said_of_moisture() -> None:
    assert found(read(), year.CLIMATE) == []
    assert [one.level for one in found(read(before=CLIMATE), year.CLIMATE)] == ["note"]


def test_timbers_that_the_tables_don_t_have_are_named() -> None:
    p = read('timber = "qqqq"\n', before=CLIMATE)
    note, told = sorted(found(p, year.CLIMATE), key=lambda one: one.level, reverse=True)
    assert (note.level, told.level) == ("note", "caution")
    assert told.parts == ("door-left-stile", "door-right-stile", "door-top-rail",
                          "door-bottom-rail")
    assert "4 parts" in told.text
    assert "no wood 'qqqq'" in told.text
    # one with figures of its own is known
    own = CLIMATE + '[[wood]]\ntimber = "qqqq"\nradial = "0.2"\ntangential = "0.4"\n'
    assert [one.level for one in found(read('timber = "qqqq"\n', before=own), year.CLIMATE)] == [
        "note"
    ]


@pytest.mark.parametrize(("now", "levels"), [(9, ["note"]), (5, ["caution", "note"]),
                                             (13, ["caution", "note"])])
def test_a_day_outside_the_year_is_told(now: int, levels: list[str]) -> None:
    climate = f'[climate]\nnow = {now}\ndry = 6\nwet = 12\n'
    p = read(before=climate)
    assert [one.level for one in found(p, year.CLIMATE)] == levels


def test_a_solid_panel_is_no_sheet() -> None:
    with pytest.raises(ShoulderlineError, match="can't be of plywood"):
        door(panel='thickness = 6, timber = "plywood"')


def test_a_panel_clear_of_its_groove_is_told_so() -> None:
    told = found(door('held = "free"', "thickness = 6, lip = 2"))[0]
    assert "stands clear of a groove by" in told.text
