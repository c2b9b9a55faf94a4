"""Tops where they lie: sizes, places, end caps, strips, sums and refusals. In mm.

Unless a test says otherwise a frame is 1000 long, 600 deep and 800 high, of legs 60 square; its
rails, 90 wide and 28 thick, are flush with the legs' outsides and tops. The top is 30 thick and
reaches 25 beyond it, 1050 x 650, of flat-sawn white oak, which moves 0.00365 of its width for each
1 % of moisture (Wood Handbook, FPL-GTR-190, 2010, Table 13-5), from 8 % today to 7 % and 12 %.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from layout.builds.top import Top
from layout.builds.tops import LaidTop
from layout.checks.sums import wrong
from layout.errors import BadPiece, ShoulderlineError
from layout.part import Part, Point
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml
from tests.pieces import cut, marks_of, reach, total

F = Fraction
HEAD = 'piece = "Test"\nunit = "mm"\ntimber = "white oak"\n'
CLIMATE = "[climate]\nnow = 8\ndry = 7\nwet = 12\n"
OUT, BACK = 4 * F("0.00365"), F("0.00365")
SIDES = '["front", "back", "left", "right"]'
FRAME = f"""[frame]
length = 1000
depth = 600
height = 800
leg = {{ width = 60, thickness = 60 }}
[[frame.rail]]
name = "rail"
sides = {SIDES}
top = "flush"
width = 90
thickness = 28
tenon = {{ pair = {{}} }}
"""
CASE = """[[carcase]]
name = "case"
width = 440
height = 640
depth = 250
thickness = 20
dovetails = { tails = 4 }
"""
ALONE = "length = 1200\nwidth = 500\n"
SQUARE = ('vise = { opening = 180 }\n'
          'row = [{ shape = "square", front = 40, strip = 60, first = 120 }]\n')


def read(keys: str = "", *, before: str = CLIMATE + FRAME, thickness: str = "30",
         head: str = HEAD) -> Piece:
    """A piece with one [[top]] of these keys."""
    text = f"{head}{before}[[top]]\nthickness = {thickness}\n{keys}"
    return work_out(piece_from(parse_toml(text, "top.toml")))


def made(keys: str = "", **changes: str) -> tuple[Piece, LaidTop]:
    """One top and its piece, all sums confirmed by the parts."""
    p = read(keys, **changes)
    assert wrong(p) == []
    (laid,) = p.tops
    return p, laid


def refused(keys: str = "", **changes: str) -> tuple[str, str, int | None]:
    """What is wrong, the cure, and the line that is blamed."""
    with pytest.raises(BadPiece) as caught:
        read(keys, **changes)
    told = caught.value
    assert str(told).isprintable()
    assert told.cure
    return told.what, told.cure, told.where.line


def line_of(text: str, keys: str, before: str = CLIMATE + FRAME) -> int:
    """The line of a file that a piece of the keys stands on."""
    whole = f"{HEAD}{before}[[top]]\nthickness = 30\n{keys}"
    return whole[:whole.index(text)].count("\n") + 1


def spans(part: Part) -> tuple[tuple[Fraction, Fraction], ...]:
    """From where to where a part reaches along X, Y and Z."""
    return (part.reach(0), part.reach(1), part.reach(2))


def sized(part: Part) -> tuple[Fraction, ...]:
    return (part.length, part.width, part.thickness)


def corner(part: Part) -> Point:
    """Where the front edge, the upper side and end A meet."""
    return part.placement.to_piece((F(0), F(0), F(0)))


def is_upper(top: Top) -> bool:
    """True where the face side of every part is its upper surface."""
    return all(part.placement.T == "-Z" for part in top.parts)


# -- on a frame


def test_a_top_reaches_beyond_its_frame_by_the_overhang() -> None:
    p, laid = made("overhang = 25\noverhang_left = 150\noverhang_back = 0")
    (slab,) = laid.top.slabs
    assert sized(slab) == (1175, 625, 30)
    assert spans(slab) == ((-150, 1025), (-25, 600), (800, 830))
    assert (slab.id, slab.name, laid.top.main) == ("top", "top", slab)
    assert total(p, "top", "length over all") == 1000 + 150 + 25
    assert total(p, "top", "width over all") == 600 + 25
    assert is_upper(laid.top)


@pytest.mark.parametrize(
    ("vise", "end_a", "grain"), [("left", -25, "+X"), ("right", 1025, "-X")]
)
def test_end_a_is_at_the_vise(vise: str, end_a: int, grain: str) -> None:
    _, laid = made(f'vise = {{ opening = 180, end = "{vise}" }}')
    (slab,) = laid.top.slabs
    assert corner(slab) == (end_a, -25, 830)
    assert slab.placement == (corner(slab), grain, "+Y", "-Z")
    # a top that is told from the right is the mirror image of one that is told from the left
    assert slab.placement.mirrored == (vise == "left")
    assert spans(slab) == ((-25, 1025), (-25, 625), (800, 830))


def test_where_the_frame_ends_is_marked_on_the_underside() -> None:
    p, _ = made("overhang_left = 150")
    joint = "top.overhang"
    assert sorted(one.distance for one in marks_of(p, "top", joint, "overhang")) == [150, 1150]
    assert [one.distance for one in marks_of(p, "top", joint, "overhang in front")] == [25]
    assert [one.distance for one in marks_of(p, "top", joint, "overhang behind")] == [625]
    assert {one.face for one in p.marks if one.joint == joint} == {"back"}
    p, _ = made('overhang_left = 150\nvise = { opening = 180, end = "right" }')
    assert sorted(one.distance for one in marks_of(p, "top", joint, "overhang")) == [25, 1025]


def test_no_line_is_struck_on_an_edge() -> None:
    p, _ = made("overhang = 0")
    assert [one.role for one in p.marks if one.joint == "top.overhang"
            and one.role != "overhang"] == []


@settings(max_examples=12, deadline=None)
@given(st.tuples(*[st.integers(0, 300)] * 4), st.sampled_from(["left", "right"]))
def test_any_overhang(over: tuple[int, int, int, int], vise: str) -> None:
    front, back, left, right = over
    keys = (f"overhang_front = {front}\noverhang_back = {back}\noverhang_left = {left}\n"
            f'overhang_right = {right}\nvise = {{ opening = 180, end = "{vise}" }}\n')
    _, laid = made(keys)
    (slab,) = laid.top.slabs
    assert spans(slab) == ((-left, 1000 + right), (-front, 600 + back), (800, 830))


# -- on a carcase, by itself


def test_on_a_carcase() -> None:
    p, laid = made('on = "case"\noverhang = 10\noverhang_back = 0', before=CLIMATE + CASE)
    case = p.carcases[0]
    xs = [part.reach(0) for part in case.parts]
    left = min(low for low, _ in xs)
    assert laid.top.bearing is not None
    assert laid.top.bearing.name == "case"
    assert spans(laid.top.main) == ((left - 10, left + 450), (-10, 250), (640, 670))
    assert total(p, "top", "length over all") == 460
    # there is nothing else to lie on, so that it need not be told
    assert spans(made("overhang = 10\noverhang_back = 0", before=CLIMATE + CASE)[1].top.main) == (
        spans(laid.top.main))


def test_the_frame_goes_before_a_carcase() -> None:
    _, laid = made(before=CLIMATE + FRAME + CASE)
    assert laid.top.bearing is not None
    assert laid.top.bearing.name == "frame"
    _, other = made('on = "case"', before=CLIMATE + FRAME + CASE)
    assert other.top.bearing is not None
    assert other.top.bearing.height == 640


@pytest.mark.parametrize("before", ["", FRAME, CASE])
def test_by_itself_it_stands_clear_of_everything(before: str) -> None:
    p, laid = made(ALONE, before=CLIMATE + before)
    (slab,) = laid.top.slabs
    assert sized(slab) == (1200, 500, 30)
    assert laid.top.bearing is None
    assert all(part.reach(0)[1] < slab.reach(0)[0] for part in p.parts if part is not slab)
    assert marks_of(p, "top", "top.overhang", "overhang") == []


def test_two_tops_by_themselves_stand_apart() -> None:
    p = read(ALONE + '[[top]]\nname = "other"\nthickness = 20\nlength = 300\nwidth = 200\n')
    one, other = (laid.top.main for laid in p.tops)
    assert other.reach(0)[0] > one.reach(0)[1]
    assert wrong(p) == []


# -- end caps


CAPS = "end_caps = { width = 80, tongue = 10, tongue_length = 24, room = 2 }\n"


def test_end_caps_where_they_stand() -> None:
    p, laid = made(CAPS)
    (slab,) = laid.top.slabs
    # 1050 less two caps of 80, and two tongues of 24
    assert sized(slab) == (938, 650, 30)
    assert slab.reach(0) == (-25 + 56, 1025 - 56)
    left, right = (cap.part for cap in laid.top.caps)
    assert (left.id, right.id) == ("top-left-end-cap", "top-right-end-cap")
    assert sized(left) == sized(right) == (650, 80, 30)
    assert spans(left) == ((-25, 55), (-25, 625), (800, 830))
    assert spans(right) == ((945, 1025), (-25, 625), (800, 830))
    # along from the front, W from the joint outward
    assert corner(left) == (55, -25, 830)
    assert corner(right) == (945, -25, 830)
    assert (left.placement.L, left.placement.W) == ("+Y", "-X")
    assert (right.placement.L, right.placement.W) == ("+Y", "+X")
    assert (laid.top.beyond, is_upper(laid.top)) == (56, True)
    assert total(p, "top", "length over all") == 1050
    assert total(p, "top", "length with both tongues") == 938


def test_a_tongue_in_its_groove() -> None:
    p, _ = made(CAPS)
    joint = "top-left-end-cap.tongue"
    assert reach(cut(p, "top-left-end-cap", joint, "end groove").shape) == (
        (0, 650), (0, 26), (10, 20))
    assert reach(cut(p, "top", joint, "end tongue waste, face").shape) == (
        (0, 24), (0, 650), (0, 10))
    assert reach(cut(p, "top", joint, "end tongue waste, back").shape) == (
        (0, 24), (0, 650), (20, 30))
    other = "top-right-end-cap.tongue"
    assert reach(cut(p, "top", other, "end tongue waste, face").shape)[0] == (914, 938)
    assert total(p, "top-left-end-cap", "depth of the end groove") == 26
    assert total(p, "top-left-end-cap", "far end groove wall from the face side") == 20


@pytest.mark.parametrize("vise", ["left", "right"])
def test_the_vise_s_end_is_end_a_of_the_slab(vise: str) -> None:
    p, laid = made(f'{CAPS}vise = {{ opening = 180, end = "{vise}" }}')
    ends = {cap.part.hand: cap.end for cap in laid.top.caps}
    assert ends == ({"left": "A", "right": "B"} if vise == "left" else {"left": "B", "right": "A"})
    joint = f"top-{vise}-end-cap.tongue"
    assert reach(cut(p, "top", joint, "end tongue waste, face").shape)[0] == (0, 24)


def test_the_peg_on_the_held_line_has_no_slot() -> None:
    p, laid = made(CAPS)
    pegs = laid.top.caps[0].pegs
    assert [place for _, place, _, _ in pegs] == [50, 325, 600]
    joint = "top-left-end-cap.tongue"
    assert reach(cut(p, "top", joint, "cap peg slot 2").shape)[:2] == ((7, 17), (320, 330))
    # 275 from it the slab moves out by four per cent and back by one and takes its slot along; the
    # peg stays in the cap. So the slot reaches in by the one, out by the other, and 1 more each way
    out, back = 275 * OUT, 275 * BACK
    assert pegs[2][2].length == 10 + out + back + 2
    ends = [reach(cut(p, "top", joint, f"cap peg slot 3, {word}").shape)[1]
            for word in ("one end", "other end")]
    assert (ends[0][0], ends[1][1]) == (600 - 5 - out - 1, 600 + 5 + back + 1)
    ends = [reach(cut(p, "top", joint, f"cap peg slot 1, {word}").shape)[1]
            for word in ("one end", "other end")]
    assert (ends[0][0], ends[1][1]) == (50 - 5 - back - 1, 50 + 5 + out + 1)
    for number, (_, place, _, _) in enumerate(pegs, start=1):
        bored = cut(p, "top-left-end-cap", joint, f"cap peg hole {number}").shape
        assert reach(bored) == ((place - 5, place + 5), (7, 17), (0, 30))


@pytest.mark.parametrize(("held", "tight"), [("front", 50), ("middle", 325), ("back", 600)])
def test_one_peg_is_tight_where_the_top_is_held(held: str, tight: int) -> None:
    _, laid = made(f'{CAPS}fixing = {{ held = "{held}" }}')
    pegs = laid.top.caps[0].pegs
    assert [place for _, place, slot, _ in pegs if slot.length == slot.size] == [tight]


@pytest.mark.parametrize("many", range(2, 8))
def test_pegs_stand_near_both_ends_of_a_cap(many: int) -> None:
    # README: the outer ones 50 mm from the cap's ends
    _, laid = made(CAPS.replace(" }", f", pegs = {many} }}"))
    places = [place for _, place, _, _ in laid.top.caps[0].pegs]
    assert len(places) == many
    assert places == sorted(places)
    if many > 2:  # of two, one must stand on the held line
        assert (places[0], places[-1]) == (50, 600)
    assert 325 in places


@settings(max_examples=12, deadline=None)
@given(st.integers(2, 6), st.integers(0, 150), st.sampled_from(["front", "middle", "back"]))
def test_every_slot_is_for_its_own_distance(many: int, over: int, held: str) -> None:
    _, laid = made(f"end_caps = {{ pegs = {many}, peg_in = 45 }}\noverhang_back = {over}\n"
                   f'fixing = {{ held = "{held}" }}\n')
    top = laid.top
    tight = [place for _, place, slot, _ in top.caps[0].pegs if slot.length == slot.size]
    assert len(tight) == 1
    for _, place, slot, _ in top.caps[0].pegs:
        away = abs(place - tight[0])
        room = 2 if away else 0
        assert slot.length == 10 + away * OUT + away * BACK + room


def test_end_caps_of_another_timber() -> None:
    _, laid = made('end_caps = { timber = "beech" }\ntimber = "cherry"')
    assert {cap.part.timber for cap in laid.top.caps} == {"beech"}
    assert laid.top.main.timber == "cherry"
    _, laid = made("end_caps = {}")
    assert {cap.part.timber for cap in laid.top.caps} == {"white oak"}


# -- a square row's strip


def test_a_square_row_lies_in_a_strip_of_its_own() -> None:
    p, laid = made(SQUARE + "overhang_front = 110\n")
    front, strip, rest = laid.top.slabs
    assert [part.name for part in laid.top.slabs] == ["top front strip", "top dog strip", "top"]
    assert laid.top.strip is strip
    assert [part.reach(1) for part in laid.top.slabs] == [(-110, -70), (-70, -10), (-10, 625)]
    assert {part.reach(0) for part in laid.top.slabs} == {(-25, 1025)}
    assert laid.top.main is rest
    assert {part.thickness for part in laid.top.slabs} == {30}
    assert total(p, "top", "width over all") == 600 + 110 + 25
    (row,) = laid.dogs
    assert row.part is strip
    assert front.id not in {one.part for one in p.cuts if one.joint == row.joint}


def test_the_dog_strip_is_one_strip_of_the_glue_up() -> None:
    glued = "strips = { stock_thickness = 50, stock_width = 106 }\n"
    p, laid = made(SQUARE + "overhang_front = 110\n" + glued)
    strips = laid.top.strips
    assert strips is not None
    # 40, 60 and 635 in seven of 90 5/7
    assert [one.width for one in strips.strips] == [40, 60, *[F(635, 7)] * 7]
    assert total(p, "top", "strips across the top") == 735


def test_end_caps_go_over_all_three_slabs() -> None:
    keys = SQUARE + "overhang_front = 110\nend_caps = { peg_in = 20 }\n"
    p, laid = made(keys.replace("first = 120", "first = 160"))
    for slab in laid.top.slabs:
        for hand in ("left", "right"):
            waste = cut(p, slab.id, f"top-{hand}-end-cap.tongue", "end tongue waste, face").shape
            assert reach(waste)[1] == (0, slab.width)
    # every peg's slot is cut in the slab that it goes through
    for index, place, slot, _ in laid.top.caps[0].pegs:
        slab = laid.top.slabs[index]
        low = slab.reach(1)[0] + 110
        assert low <= place - slot.size / 2 <= place + slot.size / 2 <= low + slab.width


# -- strips


GLUED = "strips = { stock_thickness = 50, stock_width = 120, planer = 260 }\n"


def test_strips_of_a_top() -> None:
    p, laid = made(GLUED)
    strips = laid.top.strips
    assert strips is not None
    # 650 of strips no wider than 114: six
    assert [one.width for one in strips.strips] == [F(650, 6)] * 6
    assert (strips.long, strips.milled) == (1100, 33)
    assert strips.sections == (2, 2, 2)
    assert total(p, "top", "strips across the top") == 650


def test_strips_are_as_long_as_the_slabs_with_their_tongues() -> None:
    _, laid = made(GLUED + CAPS)
    assert laid.top.strips is not None
    assert laid.top.strips.long == 938 + 50


@pytest.mark.parametrize(
    ("sawn", "lay", "share"),
    [("flat", "flat", "0.00365"), ("quarter", "flat", "0.00180"),
     ("flat", "on edge", "0.00180"), ("quarter", "on edge", "0.00365")],
)
def test_boards_on_edge_show_their_thickness(sawn: str, lay: str, share: str) -> None:
    # Wood Handbook, FPL-GTR-190, 2010, Table 13-5: white oak, radial and tangential
    stock = "stock_thickness = 50, stock_width = 120"
    _, laid = made(f'sawn = "{sawn}"\nstrips = {{ lay = "{lay}", {stock} }}\n')
    year = laid.top.year
    assert year is not None
    assert (year.most, year.least) == (4 * F(share), -F(share))


def test_a_top_without_a_known_timber_has_no_year() -> None:
    _, laid = made('timber = "stone"')
    assert laid.top.year is None


# -- refused


def test_nothing_to_lie_on() -> None:
    what, cure, line = refused(before=CLIMATE)
    assert what == "there is nothing for the top to lie on"
    assert "the top's own length and width" in cure
    assert line == (HEAD + CLIMATE).count("\n") + 1


@pytest.mark.parametrize("on", ["shed", "Frame"])
def test_a_place_that_there_is_not(on: str) -> None:
    what, cure, line = refused(f'on = "{on}"\n', before=CLIMATE + FRAME + CASE)
    assert what == f"there is no '{on}' for the top to lie on"
    assert cure == "one of: frame, case"
    assert line == (HEAD + CLIMATE + FRAME + CASE).count("\n") + 1


def test_two_tops_on_one_frame() -> None:
    keys = '[[top]]\nname = "other"\nthickness = 20\n'
    what, cure, line = refused(keys)
    assert what == "the frame is given two tops"
    assert "one is enough" in cure
    assert line == line_of("[[top]]\nname", keys)


@pytest.mark.parametrize(("width", "fits"), [("525", False), ("524.9", True)])
def test_end_caps_that_leave_nothing_between_them(width: str, fits: bool) -> None:
    # two of 525 are all of the 1050
    keys = f"end_caps = {{ width = {width}, tongue_length = 25 }}\n"
    if fits:
        # two tenths are left, and the tongues go on into the caps
        assert made(keys)[1].top.main.length == F("50.2")
        return
    what, _, line = refused(keys)
    assert what == "the end caps leave nothing of the top between them"
    assert line == line_of("end_caps", keys)


@pytest.mark.parametrize(
    ("keys", "what"),
    [
        ("overhang = 9000\n", "the top is more than 10 m long"),
        ("end_caps = { tongue = 30 }\n", "the end caps' tongue is no thinner than the top"),
        ("end_caps = { width = 40, tongue_length = 38.5 }\n",
         "the end caps' groove goes through them"),
        ("end_caps = { peg_in = 325 }\n", "the pegs stand in farther than half of the end cap's "
         "length"),
        (SQUARE.replace("strip = 60", "strip = 610"),
         "the dog strip leaves nothing of the top behind it"),
        (SQUARE.replace("strip = 60", "strip = 24.4"),
         "the dog holes leave too little of the strip's width"),
        (SQUARE.replace("}]", '}, { shape = "square", front = 90, strip = 60 }]'),
         "two rows of square dog holes"),
        (SQUARE + "overhang_front = 110\nend_caps = { peg_in = 40 }\n",
         "a peg of the end caps stands on the edge of the dog strip"),
    ],
)
def test_what_is_refused(keys: str, what: str) -> None:
    told, _, line = refused(keys)
    assert told == what
    assert line is not None
    assert line >= line_of("[[top]]", keys)


def test_two_parts_of_one_name() -> None:
    what, _, _ = refused('name = "front rail"\n')
    assert "two parts would both be called 'front rail'" in what


def test_a_strip_as_wide_as_the_least_wood_behind_its_holes_is_allowed() -> None:
    # 20 of dog and 4 1/2 of wood
    keys = SQUARE.replace("strip = 60", "strip = 24.5") + "overhang_front = 110\n"
    assert made(keys)[1].top.slabs[1].width == F("24.5")


# -- any top


@settings(max_examples=20, deadline=None)
@given(
    st.integers(300, 2000), st.integers(150, 900), st.integers(18, 60), st.booleans(),
    st.sampled_from([None, 90, 150]), st.sampled_from([None, 30, 80]),
)
def test_slabs_and_caps_fill_the_top(
    length: int, width: int, thickness: int, right: bool, cap: int | None, front: int | None
) -> None:
    keys = f"length = {length}\nwidth = {width}\n"
    keys += 'vise = { opening = 180, end = "right" }\n' if right else "vise = { opening = 180 }\n"
    if cap:
        keys += f"end_caps = {{ width = {cap}, peg_in = 12, peg = 6 }}\n"
    if front:
        keys += f'row = [{{ shape = "square", front = {front}, strip = 40, first = 150 }}]\n'
    try:
        p = read(keys, before=CLIMATE, thickness=str(thickness))
    except ShoulderlineError:  # what is refused, and how, is told above
        return
    assert wrong(p) == []
    top = p.tops[0].top
    at = [part.reach(1) for part in top.slabs]
    assert at[0][0] == top.origin[1]
    assert at[-1][1] == top.origin[1] + width
    assert all(before[1] == after[0] for before, after in pairwise(at))
    ends = [top.main.reach(0)] if not cap else [one.part.reach(0) for one in top.caps]
    assert min(low for low, _ in ends) == top.origin[0]
    assert max(high for _, high in ends) == top.origin[0] + length
    assert {part.reach(2) for part in top.parts} == {(0, thickness)}
