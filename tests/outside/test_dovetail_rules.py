"""Dovetails and drawers against the rules of joinery handbooks, in the form they are printed.

The rows used stand in reference/joinery_rules.csv, with source and place. `printed` ties each test
to its row: if the row does not say what the test is about, the test fails. Where handbooks differ
(the slope, the lap, the baseline), the test says what the default is, that it lies within what the
sources allow, and that each source's own figure can be set and comes out exactly.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from tests.outside.judge_boards import NOTHING, common, pushed
from tests.outside.judge_dovetails import Box, Corner, box_of
from tests.outside.outsider import (
    INCH,
    Numbers,
    cut_list,
    findings,
    inch,
    numbers_of,
    published,
    size,
    stands,
    the_sum,
)
from tests.outside.test_handbook_rules import RULES, printed

SLOPE = "slope of the dovetails"
GROOVE = "groove inside a tail"
PROPORTION = "tails against pins"
Work = Callable[[str], Numbers]

USED = (
    *(f"JR{n}" for n in range(118, 136)), *(f"JR{n}" for n in range(137, 141)),
    *(f"JR{n}" for n in range(151, 160)), "JR161", "JR162", "JR163", "JR167",
)


@pytest.fixture(scope="module")
def work(tmp_path_factory: pytest.TempPathFactory) -> Work:
    """What a piece file in inches says, worked out: its numbers."""
    path = tmp_path_factory.mktemp("rules") / "piece.toml"

    def worked(text: str) -> Numbers:
        path.write_text(f'piece = "Rule"\nunit = "in"\n{text}', encoding="utf-8")
        return numbers_of(path)

    return worked


def chest(dovetails: str = "", height: str = "3 1/2", thickness: str = "1/2") -> str:
    return (f'[[chest]]\nlength = 8\ndepth = 8\nheight = "{height}"\nthickness = "{thickness}"\n'
            f"dovetails = {{ {dovetails} }}\n")


def drawer(rows: str = "", space: str = 'width = 14, height = "5 1/16", depth = 18') -> str:
    return f"[[drawer]]\nspace = {{ {space} }}\n{rows}\n"


def corner(n: Numbers, letter: str = "A") -> Corner:
    (found,) = [one for one in box_of(n).corners if one.name.endswith(f".{letter}")]
    return found


def slope(one: Corner) -> Fraction:
    return one.offset / one.tail_length


def row(one: Corner, at: str) -> list[Fraction]:
    """Pins and tails from the lower edge up, in inches."""
    found = one.rows[0 if at == "end" else 1]
    return [(stop - start) / INCH for _, (start, stop) in found]


def told(n: Numbers, rule: str, level: str = "") -> list[str]:
    return [one["text"] for one in n["checks"]
            if one["rule"] == rule and level in ("", one["level"])]


# ---------------------------------------------------------------- the reference itself


def test_every_row_used_is_there_and_was_read() -> None:
    for rule in USED:
        assert RULES[rule]["source"]
        assert RULES[rule]["how"] == "read"


# ---------------------------------------------------------------- slope


# Rule, the figure as printed there, how it is written in a piece file, rise over run.
SLOPES = (
    ("JR118", "1 in 8", "1 in 8", Fraction(1, 8)),  # Fairham: preferred
    ("JR118", "1 in 6", "1 in 6", Fraction(1, 6)),  # Fairham: never steeper
    ("JR119", "3 in by 5/8 in", "5/8 in 3", Fraction(5, 24)),  # Noyes
    ("JR120", "1 in 4", "1 in 4", Fraction(1, 4)),  # Ross
    ("JR121", "1 in 6", "1:6", Fraction(1, 6)),  # Griffith
    ("JR122", "1 in 4", "1:4", Fraction(1, 4)),  # Griffith
    ("JR124", "1:6", "1:6", Fraction(1, 6)),  # softwood
    ("JR124", "1:8", "1:8", Fraction(1, 8)),  # hardwood
)


@pytest.mark.parametrize(("rule", "figure", "text", "ratio"), SLOPES)
def test_each_source_can_be_followed(
    work: Work, rule: str, figure: str, text: str, ratio: Fraction
) -> None:
    assert figure in "|".join(RULES[rule].values())
    n = work(chest(f'slope = "{text}", tails = 3', thickness="3/4"))
    for letter in "ABCD":
        assert slope(corner(n, letter)) == ratio


def test_the_default_slope_is_within_what_the_sources_allow(work: Work) -> None:
    """1 in 7: between Fairham's preferred 1 in 8 and his limit of 1 in 6 (JR118), which are also
    the two slopes of the modern rule by wood (JR124). JR123 turns that rule round: so the slope
    doesn't follow the wood here, the maker sets it."""
    printed("JR118", "1 in 8", "never steeper than 1 in 6")
    printed("JR124", "softwood 1:6", "hardwood 1:8")
    printed("JR123", "keep the slope a user setting")
    found = {slope(corner(work(f'timber = "{wood}"\n' + chest("tails = 3"))))
             for wood in ("pine", "oak")}
    assert found == {Fraction(1, 7)}
    assert Fraction(1, 8) <= found.pop() <= Fraction(1, 6)


@pytest.mark.parametrize(("text", "steep"), [
    ("1 in 8", False), ("1 in 7", False), ("1 in 6", False), ("1 in 5", True),
    ("5/8 in 3", True), ("1 in 4", True),
])
def test_steeper_than_fairhams_limit_is_told(work: Work, text: str, steep: bool) -> None:
    """JR118: never steeper than 1 in 6. Ross and Griffith draw 1 in 4 (JR120, JR122), Noyes 1 in
    4.8 (JR119): so it is told, and not stopped."""
    n = work(chest(f'slope = "{text}", tails = 3'))
    assert bool(told(n, SLOPE)) == steep
    assert told(n, SLOPE, "stop") == []


# ---------------------------------------------------------------- setting out


def test_ross_griffith_and_foster(work: Work) -> None:
    """JR125, JR126, JR127, JR132: the rows are held in test_published_dovetails; here only that
    those pieces are the ones the rules print."""
    printed("JR125", "1/2 x 7 equal parts", "3/8, 3/4, 1/4, 3/4, 1/4, 3/4, 3/8")
    assert row(corner(published("ross_three_tails")), "baseline") == [Fraction(1, 2)] * 7
    printed("JR126", "pin 3/8 at end, 5/8 at baseline", "tails 9/16, 1-1/8, 9/16")
    two = corner(published("griffith_two_pins"))
    assert row(two, "end")[1::2] == [Fraction(3, 8)] * 2
    assert row(two, "baseline")[1::2] == [Fraction(5, 8)] * 2
    printed("JR127", "pins 1/8 wide at the lap, 3/8 at the baseline",
            "half pins 1/4 at the lap, 3/8 at the baseline")
    blind = corner(published("griffith_half_blind"))
    assert row(blind, "end")[0::2] == [Fraction(1, n) for n in (4, 8, 8, 4)]
    assert row(blind, "baseline")[0::2] == [Fraction(3, 8)] * 4
    printed("JR132", "4 corners x 3 = 12 joints")
    assert sum(len(one.sockets) for one in box_of(published("toilet_box")).corners) == 12


def test_noyes_divides_the_baseline(work: Work) -> None:
    """JR128: pitch W/n, half a socket each side of the divisions and at the edges. Told by the
    pins' places and told by the number of tails it is the same corner."""
    printed("JR128", "pitch = W/n; socket half-width = s/2 each side", "W 3-1/2, n 3, s 1/2")
    places = corner(published("noyes_corner"))
    count = corner(work(chest('slope = "5/8 in 3", tails = 3, pin = "7/24", half_pin = "7/48"')))
    for one in (places, count):
        low = one.span[0]
        middles = [((a + b) / 2 - low) / INCH for role, (a, b) in one.rows[1]
                   if role.startswith("pin")]
        # "divisions 1-1/6 apart"
        assert middles == [Fraction(7, 6), 2 * Fraction(7, 6)]
        assert row(one, "baseline")[0::2] == [Fraction(n, 4) for n in (1, 2, 2, 1)]
    assert places.rows == count.rows


@pytest.mark.parametrize("height", ["3", "4", "5 1/2", "7", "9", "12"])
@pytest.mark.parametrize("thickness", ["3/8", "1/2", "3/4", "7/8"])
def test_default_layout_is_between_strong_and_neat(
    work: Work, height: str, thickness: str
) -> None:
    """JR129, Noyes: tails from as wide as the sockets to four times, and 1 3/4 at most. His
    sockets are measured at the baseline. Of 24 sizes one comes out a little over four times, as
    whole tails have it; there, and nowhere else, it is told."""
    printed("JR129", "1 <= tail/pin <= 4", "tail <= 1-3/4 in")
    n = work(chest(height=height, thickness=thickness))
    one = corner(n)
    tails = row(one, "baseline")[1::2]
    pins = row(one, "baseline")[2:-1:2]
    assert all(tail <= Fraction(7, 4) for tail in row(one, "end")[1::2])
    ratios = [tail / pin for tail in tails for pin in pins]
    assert min(ratios) >= 1
    over = max(ratios) > 4
    assert over == ((height, thickness) == ("4", "3/8"))
    assert max(ratios) < Fraction(17, 4)
    assert bool(told(n, PROPORTION)) == over


def test_outside_noyes_proportion_is_told(work: Work) -> None:
    """JR129: wider than 1 3/4, or more than four pins; told, and not stopped."""
    n = work(chest('tails = 2, pin = "1/8"', height="6"))
    one = corner(n)
    assert row(one, "end")[1] > Fraction(7, 4)
    assert row(one, "baseline")[1] > 4 * row(one, "baseline")[2]
    assert len(told(n, PROPORTION)) == 2
    assert told(n, PROPORTION, "stop") == []


def test_pins_equal_to_tails_can_be_set(work: Work) -> None:
    """JR130, Rivington, and JR131, machine-made dovetails: spaces equal to the pins."""
    printed("JR130", "pin = space")
    printed("JR131", "pin = tail")
    n = work(chest('tails = 3, pin = "1/2", half_pin = "1/2"'))
    assert row(corner(n), "end") == [Fraction(1, 2)] * 7


def test_the_half_pin_of_the_sources(work: Work) -> None:
    """Ross (JR125) and Griffith (JR127) make the half pin as wide at the baseline as a whole pin;
    so does the default. Noyes (JR128) makes it half: that can be set."""
    baseline = row(corner(work(chest("tails = 3"))), "baseline")
    assert baseline[0] == baseline[2] == baseline[-1]


# ---------------------------------------------------------------- baseline and lap


@pytest.mark.parametrize("thickness", ["3/8", "1/2", "3/4", "25/32"])
def test_the_baseline_is_the_thickness(work: Work, thickness: str) -> None:
    """JR135, Fairham: for a plain corner exactly the thickness; that is what is done. Noyes
    (JR133) takes 1/32 more, so that the ends stand proud; Fairham and Spons a shaving less for
    drawers (JR134): a maker who follows them moves the gauge by that much."""
    printed("JR135", "t")
    printed("JR133", "t + 1/32 in", "3/4 -> 25/32")
    printed("JR134", "t - (shaving)")
    n = work(chest("tails = 2", thickness=thickness))
    lines = [mark for mark in n["marks"] if mark["role"] in ("tail baseline", "pin baseline")]
    assert {Fraction(mark["distance"]) for mark in lines} == {inch(thickness)}
    assert {mark["tool"] for mark in lines} == {"marking gauge"}
    (setting,) = n["settings"]
    assert Fraction(setting["distance"]) == inch(thickness)


def test_lap_of_a_quarter_inch(work: Work) -> None:
    """JR137, Fairham and Griffith: front 3/4, side 1/2, tails 1/2, lap 1/4."""
    printed("JR137", "1/4 in", "front 3/4, side 1/2 -> tail length 1/2 -> lap 1/4")
    one = corner(work(drawer('front_dovetails = { lap = "1/4" }')))
    assert one.tail_board.size[2] == one.tail_length == inch("1/2")
    assert one.pin_board.size[2] == inch("3/4")


def test_default_lap_is_the_modern_one(work: Work) -> None:
    """JR138: 3/32 to 3/16; in a front of 3/4 the gauge stands at 9/16, the lap is 3/16: so it is by
    default. JR137's 1/4 is thicker by 1/16."""
    printed("JR138", "3/32 to 3/16 in", "front 3/4: gauge 9/16, lap 3/16")
    n = work(drawer())
    one = corner(n)
    assert one.pin_board.size[2] - one.tail_length == inch("3/16")
    (lap,) = [mark for mark in n["marks"] if (mark["role"], mark["joint"]) == ("lap", one.name)]
    assert (lap["tool"], lap["from"], Fraction(lap["distance"])) == (
        "marking gauge", "face side", inch("9/16")
    )


def test_lapped_as_deep_as_the_side_is_thick(work: Work) -> None:
    """JR139, Spons: sides of 5/8, fronts cut only 5/8 deep; 4 pins in front and 3 behind."""
    printed("JR139", "tail length = t_side = 5/8", "4 pins in the front, 3 in the back")
    n = published("kitchen_table")
    front, back = corner(n, "A"), corner(n, "C")
    assert front.tail_length == front.tail_board.size[2] == inch("5/8")
    assert (len(front.pins), len(back.pins)) == (4, 3)


# ---------------------------------------------------------------- a drawer's bottom


@pytest.mark.parametrize("style", ["flush", "set in", "lipped"])
@pytest.mark.parametrize("height", ["2", "3", "5 1/16", "8"])
def test_groove_wholly_inside_the_lowest_tail(work: Work, style: str, height: str) -> None:
    """JR140, Noyes; with nothing told of dovetails or of the bottom."""
    printed("JR140", "groove within bottom tail")
    more = 'set_in = "1/16"' if style == "set in" else ""
    n = work(drawer(f'style = "{style}"\n{more}', f'width = 14, height = "{height}", depth = 18'))
    one = corner(n)
    tail = one.tail_spread(one.sockets[0], one.tail_length)
    for board in (one.pin_board, one.tail_board):
        (groove,) = [cut for cut in board.cuts if cut.role == "bottom groove"]
        assert tail[0] < groove.stands[2][0] < groove.stands[2][1] < tail[1]
    assert findings(n, GROOVE) == []


def test_groove_across_a_pin_is_stopped(work: Work) -> None:
    """JR140 broken on purpose: a half pin so wide that the groove runs into it."""
    n = work(drawer('front_dovetails = { half_pin = "3/8" }'))
    assert [one["level"] for one in findings(n, GROOVE)] == ["stop"]


def bottom_groove(box: Box, name: str) -> tuple[Fraction, Fraction, Fraction]:
    """Near wall, width and depth of a board's groove, in inches."""
    (cut,) = [one for one in box.parts[name].cuts if one.role == "bottom groove"]
    (_, _), (near, far), (_, deep) = cut.reach
    return near / INCH, (far - near) / INCH, deep / INCH


def test_groove_of_an_ordinary_drawer(work: Work) -> None:
    """JR156, Noyes: 1/4 wide."""
    printed("JR156", "1/4 in wide")
    box = box_of(work(drawer()))
    for name in ("drawer front", "drawer left side", "drawer right side"):
        assert bottom_groove(box, name)[1] == Fraction(1, 4)


def test_groove_depth_in_thin_sides(work: Work) -> None:
    """JR157, Windsor: 1/4 deep in sides of 3/8, which leaves 1/8; the bottom 3/8 thick, 1/4 above
    the lower edge. The default goes no deeper than half the side: 3/16, 1/16 less."""
    printed("JR157", "1/4 in in 3/8 in sides (leaves 1/8)", "bottom 3/8 thick, 1/4 above")
    own = 'kind = "solid", thickness = "3/8", up = "1/4"'
    set_ = box_of(work(drawer(f'sides = "3/8"\nbottom = {{ {own}, deep = "1/4" }}')))
    name = "drawer left side"
    assert bottom_groove(set_, name) == (Fraction(1, 4), Fraction(3, 8), Fraction(1, 4))
    assert set_.parts[name].size[2] - inch("1/4") == inch("1/8")
    left = box_of(work(drawer(f'sides = "3/8"\nbottom = {{ {own} }}')))
    assert bottom_groove(left, name)[2] == Fraction(1, 4) - Fraction(1, 16)


def test_bottom_slides_in_under_the_back(work: Work) -> None:
    """JR158, Noyes and Wheeler: grain from side to side, under the back, free at the rear: pulled
    out backward it meets nothing; pushed forward it meets the front; lifted, everything."""
    printed("JR158", "back rests on bottom; bottom free at rear")
    n = work(drawer('bottom = { kind = "solid", thickness = "3/8" }'))
    box = box_of(n)
    bottom = box.parts["drawer bottom"]
    assert bottom.axes[0][0] == 0  # its length, along the grain, runs from side to side
    others = [board for board in box.parts.values() if board is not bottom]
    for axis, by, meets in ((1, Fraction(1), False), (1, Fraction(400), False),
                            (1, Fraction(-1), True), (2, Fraction(1), True)):
        moved = pushed(bottom.solid, axis, by)
        assert any(common(moved, one.solid) > NOTHING for one in others) == meets
    assert stands(n, "drawer-back", "Z")[0] == stands(n, "drawer-bottom", "Z")[1]


def test_height_of_the_back(work: Work) -> None:
    """JR159, Windsor: the front's height less the groove's and the bottom: 5 - 1/4 - 3/8 = 4 3/8;
    his stock list says 4 1/8, 1/4 low at the top: the default is that 1/4."""
    printed("JR159", "h_back = h_front - groove height - t_bottom", "5 - 1/4 - 3/8 = 4-3/8",
            "1/4 low at the top")
    own = 'bottom = { kind = "solid", thickness = "3/8", up = "1/4" }'
    level = work(drawer(f"drop = 0\n{own}"))
    assert cut_list(level)["drawer front"][1][1] == inch("5")
    assert cut_list(level)["drawer back"][1][1] == inch("4 3/8")
    low = work(drawer(own))
    assert cut_list(low)["drawer back"][1][1] == inch("4 1/8")
    terms, total = the_sum(low, "drawer-back", "back height")
    assert terms == [inch(one) for one in ("5", "-1/4", "-3/8", "-1/4")]
    assert total == inch("4 1/8")


# ---------------------------------------------------------------- a drawer's parts


def test_sewing_table_drawer(work: Work) -> None:
    """JR151, Windsor: opening 5 x 13 1/2: front 3/4 x 5 x 13 1/2, sides 3/8 x 5 x 13, back 3/8 x
    4 1/8, bottom 3/8. His front fills the opening: no room. His back is housed in the sides, and
    his bottom lies in other grooves: their lengths are not these."""
    printed("JR151", "front 3/4, sides 3/8, back 3/8, bottom 3/8",
            "front 5 x 13-1/2, sides 5 x 13, back 4-1/8")
    n = work(drawer(
        'sides = "3/8"\nroom_wide = 0\nroom_high = 0\nroom_behind = "1/2"\n'
        'bottom = { kind = "solid", thickness = "3/8", deep = "1/4" }\n'
        'front_dovetails = { lap = "1/4" }',
        'width = "13 1/2", height = 5, depth = "13 3/4"',
    ))
    rows = cut_list(n)
    assert rows["drawer front"] == (1, size("3/4 x 5 x 13 1/2"))
    assert rows["drawer side"] == (2, size("3/8 x 5 x 13"))
    assert rows["drawer back"][1][:2] == size("3/8 x 4 1/8 x 13")[:2]
    assert rows["drawer bottom"][1][0] == inch("3/8")
    # no room at all: that is told
    assert findings(n, "drawer in its opening")


# Rule, what it prints, front's, sides', back's and bottom's thickness, side's height and length.
STOCK = (
    # a dresser
    ("JR152", "front 3/4, sides 1/2, back 3/8, bottom 3/8", "sides 7-1/4 x 17",
     "3/4", "1/2", "3/8", "3/8", "7 1/4", "17"),
    # a medicine stand
    ("JR153", "front 3/4, sides 1/2, back 1/2, bottom 1/2", "sides 4-1/4 x 16",
     "3/4", "1/2", "1/2", "1/2", "4 1/4", "16"),
)


@pytest.mark.parametrize(
    ("rule", "stock", "sides", "front", "side", "back", "bottom", "high", "long"), STOCK
)
def test_stock_of_other_drawers(
    work: Work, rule: str, stock: str, sides: str, front: str, side: str, back: str, bottom: str,
    high: str, long: str,
) -> None:
    """Windsor's dresser and medicine stand: front and sides by default, the rest as told."""
    printed(rule, stock, sides)
    n = work(drawer(
        f'back = "{back}"\nheight = "{high}"\nfront_dovetails = {{ lap = "1/4" }}\n'
        f'bottom = {{ kind = "solid", thickness = "{bottom}" }}\nroom_behind = "1/4"',
        # the side is as long as the depth less room behind and lap; 1/16 of room above
        f'width = 14, height = "{inch(high) / INCH + Fraction(1, 16)}", '
        f'depth = "{inch(long) / INCH + Fraction(1, 2)}"',
    ))
    rows = cut_list(n)
    assert rows["drawer front"][1][0] == inch(front)
    assert rows["drawer side"] == (2, size(f"{side} x {high} x {long}"))
    assert rows["drawer back"][1][0] == inch(back)
    assert rows["drawer bottom"][1][0] == inch(bottom)


def test_first_class_drawer_has_its_groove_in_slips(work: Work) -> None:
    """JR154, Spons: sides and back 5/8, bottom 3/8; the groove in a slip glued to the side, not in
    the side."""
    printed("JR154", "sides 5/8, backs 5/8, bottoms 3/8", "groove in a slip glued to the side")
    n = work(drawer('sides = "5/8"\nbottom = { kind = "solid", thickness = "3/8", slips = {} }'))
    box = box_of(n)
    rows = cut_list(n)
    assert rows["drawer side"][1][0] == rows["drawer back"][1][0] == inch("5/8")
    for hand in ("left", "right"):
        side, slip = box.parts[f"drawer {hand} side"], box.parts[f"drawer {hand} slip"]
        assert not any("groove" in cut.role for cut in side.cuts)
        assert bottom_groove(box, slip.name)[1] == Fraction(3, 8)
        # glued to it: they touch, and share nothing
        assert common(side.solid, slip.solid) <= NOTHING
        toward = Fraction(-1, 8) if hand == "left" else Fraction(1, 8)
        assert common(side.solid, pushed(slip.solid, 0, toward)) > NOTHING


def test_kitchen_table_drawer_is_shorter_than_the_depth(work: Work) -> None:
    """JR155, Spons: sides 5/8; the back 1 narrower than the front; the sides 1/2 shorter than the
    depth. The default room behind is 1/2, from the front's outside."""
    printed("JR155", "sides 5/8; back 1 in narrower than the front",
            "sides 1/2 in shorter than the depth")
    rows = cut_list(published("kitchen_table"))
    assert rows["drawer front"][1][1] - rows["drawer back"][1][1] == inch("1")
    n = work(drawer())
    assert stands(n, "drawer-back", "Y")[1] == inch("18") - inch("1/2")


def test_lip_of_a_rebated_front(work: Work) -> None:
    """JR161, Windsor: a front of 3/4 rebated 1/2 back leaves a lip of 1/4: so it is by default."""
    printed("JR161", "rebate 1/2 back leaving a 1/4 lip in 3/4 front")
    box = box_of(work(drawer('style = "lipped"')))
    front = box.parts["drawer front"]
    lips = [cut for cut in front.cuts if cut.joint == "drawer.lip"]
    assert len(lips) == 4
    assert {cut.reach[2] for cut in lips} == {(0, inch("1/2"))}
    assert front.size[2] - inch("1/2") == inch("1/4")


# ---------------------------------------------------------------- how a drawer fits


def test_room_of_a_drawer_in_a_compartment(work: Work) -> None:
    """JR162, Foster: 1/16 in all, in width and in height: 5 1/2 x 3 1/2 -> 5 7/16 x 3 7/16; that
    is the default."""
    printed("JR162", "1/16 in total in width and in height",
            "compartment 5-1/2 x 3-1/2 -> drawer 5-7/16 x 3-7/16")
    n = work(drawer(space='width = "5 1/2", height = "3 1/2", depth = 12'))
    assert cut_list(n)["drawer front"] == (1, size("3/4 x 3 7/16 x 5 7/16"))
    assert cut_list(n)["drawer side"][1][1] == inch("3 7/16")
    assert stands(n, "drawer-left-side", "X")[0] == inch("1/32")


def test_room_of_small_box_drawers(work: Work) -> None:
    """JR163, Foster: 1/8 in all in width; twice the default, and it can be set."""
    printed("JR163", "1/8 in total in width per tier")
    n = work(drawer('room_wide = "1/8"'))
    assert cut_list(n)["drawer front"][1][2] == inch("14") - inch("1/8")


def test_rails_over_and_under_a_drawer() -> None:
    """JR167, Spons: 35 x 2 x 1 below, 35 x 2 x 3/4 above; the drawer runs level with the lower."""
    printed("JR167", "35 x 2 x 1 below, 35 x 2 x 3/4 above")
    n = published("kitchen_table")
    rows = cut_list(n)
    assert rows["lower rail"] == (1, size("2 x 1 x 35"))
    assert rows["upper rail"] == (1, size("2 x 3/4 x 35"))
    assert stands(n, "drawer-front", "Z")[0] == stands(n, "front-lower-rail", "Z")[1]
