"""Findings on tops: each speaks past its limit and is silent at it; weights by hand. In mm.

Frame, top, timber and climate are those of tests/builds/test_top.py: 1050 x 650 x 30 of flat-sawn
white oak, which moves 0.00365 of its width for each 1 % (Wood Handbook, FPL-GTR-190, 2010, Table
13-5), from 8 % to 7 % and 12 %. A wall is at least 4 1/2. The gravity of white oak is 0.68 (Table
5-3), 1 lb = 0.45359237 kg (NIST Handbook 44, Appendix C).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import check, dogs, stopped, tops
from layout.checks.weights import PI, part_mass
from layout.mark import Finding
from layout.piece import Piece
from tests.builds.test_top import ALONE, CASE, CLIMATE, FRAME, SQUARE, read
from tests.builds.test_top_fixing import MIDDLE

F = Fraction
OUT, BACK = 4 * F("0.00365"), F("0.00365")
OAK = F("0.68") * F(108, 100) / 10**6  # kg in a cubic millimetre, at 8 %
POUND = F("0.45359237")
LEAST = F(9, 2)


def found(p: Piece, rule: str) -> list[Finding]:
    return [one for one in tops.findings(p) if one.rule == rule]


def told(p: Piece, rule: str) -> list[tuple[str, dict[str, Fraction]]]:
    """Level and figures of a rule's findings; all but notes say what to do."""
    assert all(one.cure for one in found(p, rule) if one.level != "note")
    return [(one.level, dict(one.figures)) for one in found(p, rule)]


def raised(p: Piece, rule: str) -> list[tuple[str, dict[str, Fraction]]]:
    """What is more than a note."""
    return [one for one in told(p, rule) if one[0] != "note"]


def text(p: Piece, rule: str) -> str:
    (one,) = found(p, rule)
    assert one.level == "note"
    return one.text


def alone(keys: str = "", thickness: str = "30", before: str = CLIMATE, **changes: str) -> Piece:
    """A top by itself, 1200 x 500."""
    return read(ALONE + keys, before=before, thickness=thickness, **changes)


# -- through the year


def test_how_wide_it_gets() -> None:
    p = alone()
    figures = {"narrowest": 500 * (1 - BACK), "today": F(500), "widest": 500 * (1 + OUT)}
    assert told(p, tops.YEAR) == [("note", figures)]
    # 498.175 and 507.3, shown to half a millimetre
    assert text(p, tops.YEAR) == (
        "the top, flat-sawn, 500 mm wide today, is 498 mm full at its narrowest and 507.5 mm bare "
        "at its widest")


def test_boards_on_edge_are_told_to_move_as_others() -> None:
    p = alone('strips = { lay = "on edge", stock_thickness = 50, stock_width = 120 }\n')
    assert "the top, moving as quarter-sawn, its strips being on edge, 500 mm" in text(p, tops.YEAR)
    assert "the top, rift-sawn, " in text(alone('sawn = "rift"\n'), tops.YEAR)


def test_a_timber_that_is_not_known() -> None:
    p = alone('timber = "stone"\n')
    assert told(p, tops.YEAR) == [("note", {})]
    assert "is not known" in text(p, tops.YEAR)
    assert found(p, tops.YEAR)[0].cure


def test_every_top_is_told_of() -> None:
    more = '[[top]]\nname = "other"\nthickness = 20\nlength = 300\nwidth = 200\n'
    p = alone(more)
    assert [one.text.split(",")[0] for one in found(p, tops.YEAR)] == ["the top", "the other"]


# -- the glue-up


GLUED = "strips = { stock_thickness = 50, stock_width = 120 }\n"


def test_what_is_glued_up() -> None:
    p = alone(GLUED)
    # five strips of 100; 1200 and 2 x 25 long, 30 and 3 thick
    assert told(p, tops.STRIPS) == [
        ("note", {"widest strip": F(114), "length": F(1250), "thickness": F(33)})]
    assert text(p, tops.STRIPS) == (
        "the top is of 5 strips 100 mm wide, edge to edge; glue it up 1250 mm long and 33 mm "
        "thick, in one")
    # 1250 in stretches of 250
    assert told(p, tops.CLAMPS) == [("note", {"spacing": F(250)})]
    assert text(p, tops.CLAMPS).startswith("5 clamps, over and under in turn, 250 mm apart")
    # four joints 1250 x 33: 0.165 square metres, 33 g
    assert text(p, tops.GLUE).startswith("0.17 square metres of glue joints: about 33 g of glue")
    assert found(p, tops.STAVES) == []


def test_sections_and_rough_boards_are_told() -> None:
    p = alone(GLUED.replace(" }", ', planer = 260 }'))
    # two, two and one: the widest as narrow as can be
    assert "in 3 sections of 2, 2 and 1 strips" in text(p, tops.STRIPS)
    assert "200 mm, 200 mm and 100 mm wide" in text(p, tops.STRIPS)
    edge = alone(GLUED.replace("{ ", '{ lay = "on edge", '))
    # 500 of 44: twelve strips of 41 2/3; 33 and 6 three times in 120
    assert "12 strips 41.5 mm full thick, face to face" in text(edge, tops.STRIPS)
    assert text(edge, tops.STRIPS).endswith("; a rough board gives 3 across its width")


@pytest.mark.parametrize("keys", ["", "strips = false\n"])
def test_without_strips_nothing_is_told_of_them(keys: str) -> None:
    p = alone(keys)
    for rule in (tops.STRIPS, tops.STAVES, tops.CLAMPS, tops.GLUE):
        assert found(p, rule) == []


def test_one_board_needs_no_clamps() -> None:
    p = read("length = 600\nwidth = 100\n" + GLUED, before=CLIMATE)
    assert found(p, tops.CLAMPS) + found(p, tops.GLUE) + found(p, tops.STAVES) == []
    assert "of 1 strip" in text(p, tops.STRIPS)


@pytest.mark.parametrize(("stock", "stagger", "level"), [
    (700, 150, "note"), (700, 312, "note"), (700, 313, "caution"), (700, 400, "caution"),
])
def test_staves_that_end_too_near_to_one_another(stock: int, stagger: int, level: str) -> None:
    # 1250 of two staves of 625, moved by 75 or half of one: 150 or 312 1/2 apart at the most
    p = alone(GLUED.replace(" }", f", stock_length = {stock}, stagger = {stagger} }}"))
    apart = F(150) if stagger <= 150 else F(625, 2)
    assert told(p, tops.STAVES) == [(level, {"apart": apart, "least": F(stagger)})]


# -- what holds it


def test_nothing_is_said_to_hold_it() -> None:
    (one,) = found(read(), tops.FIXED)
    assert (one.level, one.parts) == ("note", ("top",))
    assert "is not planned" in one.text
    assert one.cure
    # what lies on no rails can't be fixed to any
    assert found(alone(), tops.FIXED) == []
    assert found(read(before=CLIMATE + CASE), tops.FIXED) == []


@pytest.mark.parametrize(("held", "words"), [
    ("front", "along its front edge"), ("middle", "along its middle"),
    ("back", "along its back edge"),
])
@pytest.mark.parametrize("kind", ["buttons", "screws"])
def test_how_it_is_held(held: str, words: str, kind: str) -> None:
    p = read(f'fixing = {{ kind = "{kind}", held = "{held}", screw_head = 7 }}\n'
             if kind == "screws" else f'fixing = {{ held = "{held}" }}\n')
    assert text(p, tops.FIXED) == (
        f"the top is held by 6 {kind} and does not move {words}; use no glue")


def test_slots_by_hand() -> None:
    p = read('fixing = { kind = "screws" }\n')
    out, back = 286 * OUT, 286 * BACK
    figures = {"away": F(286), "out": out, "back": back, "length": 5 + out + back + 2}
    assert told(p, tops.SLOTS) == [("note", figures), ("note", figures)]
    # each once a rail, the farthest fixing of it; on the held line there is none to tell
    assert [one.parts for one in found(p, tops.SLOTS)] == [("front-rail",), ("back-rail",)]


def test_mortises_of_buttons_by_hand() -> None:
    p = read("fixing = { apart = 240 }\n")
    # on the end rails 120 from the middle
    out, back = 120 * OUT, 120 * BACK
    ends = [dict(one.figures) for one in found(p, tops.SLOTS) if one.parts[0] in (
        "left-rail", "right-rail")]
    assert ends == [{"away": F(120), "out": out, "back": back,
                     "length": 25 + 2 + out + back}] * 2


def test_how_far_a_tongue_stays_in() -> None:
    p = read("fixing = {}\n")
    # 13 long, 1 and what swells of it before the rail, and what shrinks is drawn out
    (note,) = [one for one in found(p, tops.BUTTONS) if one.level == "note"]
    assert dict(note.figures) == {"stands in": 13 - 1 - MIDDLE * OUT - MIDDLE * BACK}
    assert len(note.parts) == 6
    assert raised(p, tops.BUTTONS) == []


@pytest.mark.parametrize(
    ("keys", "wood", "where"),
    [
        # above: 1 + 20 - 16.5
        ("button_tongue = 16.5", None, ""),
        ("button_tongue = 16.6", F("4.4"), "above a button's mortise"),
        # behind: 28 - 23.5
        ("button_tongue_length = 23.5", None, ""),
        ("button_tongue_length = 23.6", F("4.4"), "behind a button's mortise"),
        # below: 90 - 1 - block - 1
        ("button_block = 83.5, button_tongue = 79", None, ""),
        ("button_block = 83.6, button_tongue = 79", F("4.4"), "below a button's mortise"),
    ],
)
def test_wood_around_a_button_s_mortise(keys: str, wood: Fraction | None, where: str) -> None:
    p = read(f"fixing = {{ {keys} }}\n")
    if wood is None:
        assert raised(p, tops.BUTTONS) == []
        return
    assert raised(p, tops.BUTTONS) == [("caution", {"wood": wood, "least": LEAST})] * 6
    assert where in found(p, tops.BUTTONS)[0].text


@pytest.mark.parametrize(("thick", "speaks"), [("28", True), ("32", False)])
def test_wood_beside_a_screw_s_counterbore(thick: str, speaks: bool) -> None:
    # outward the counterbore takes 6, 4.2 of swelling and 1 of the half of the rail
    p = read('fixing = { kind = "screws" }\n',
             before=CLIMATE + FRAME.replace("thickness = 28", f"thickness = {thick}"))
    wood = F(thick) / 2 - 6 - (300 - F(thick) / 2) * OUT - 1
    assert (wood < LEAST) == speaks
    hits = [one for one in check(p) if one.level != "note" and "rail" in one.text
            and "tenon" not in one.rule]
    assert bool(hits) == speaks


# -- end caps


CAPS = "end_caps = {{ width = {width}, tongue = {tongue}, tongue_length = {long}, peg = {peg} }}\n"


@pytest.mark.parametrize(
    ("changes", "wood", "level", "where"),
    [
        ({"tongue": 21}, None, "", ""),  # 30 - 21, halved
        ({"tongue": "21.2"}, F("4.4"), "caution", "beside the end caps' groove"),
        ({"long": 24, "width": 30}, None, "", ""),  # 30 - 24 - 3/2
        ({"long": "24.1", "width": 30}, F("4.4"), "caution", "behind the end caps' groove"),
        ({"peg": 15}, None, "", ""),  # 24 - 15, halved
        ({"peg": "15.2"}, F("4.4"), "caution", "the end of the tongue"),
        ({"peg": 24}, F(0), "stop", "the end of the tongue"),
    ],
)
def test_wood_in_end_caps(
    changes: dict[str, object], wood: Fraction | None, level: str, where: str
) -> None:
    sizes = {"width": 80, "tongue": 10, "long": 24, "peg": 10} | changes
    p = alone(CAPS.format(**sizes))
    if wood is None:
        assert raised(p, tops.CAPS) == []
        return
    assert raised(p, tops.CAPS) == [(level, {"wood": wood, "least": LEAST})]
    assert where in found(p, tops.CAPS)[0].text


@pytest.mark.parametrize("peg_in", [11, 12, 20])
def test_wood_beside_the_outermost_slot(peg_in: int) -> None:
    # the slot is seen in the slab: outward it reaches 5 and 1, and by what shrinks, from its peg
    p = alone(f"end_caps = {{ peg_in = {peg_in} }}\n")
    wood = peg_in - 5 - 1 - (250 - peg_in) * BACK
    wanted = [] if wood >= LEAST else [("caution", {"wood": wood, "least": LEAST})]
    assert raised(p, tops.CAPS) == wanted


def test_pegs_that_leave_no_wood_between_them() -> None:
    # fifteen of 10 on 400: 28 4/7 apart; and on 100: 5 5/7, each hole half in the next
    assert not stopped(tuple(check(alone("end_caps = { pegs = 15 }\n"))))
    tight = read("length = 900\nwidth = 200\nend_caps = { pegs = 15 }\n", before=CLIMATE)
    assert [one for one in check(tight) if one.level == "stop" and "peg" in one.text]


def test_how_far_edges_come_out_beyond_end_caps() -> None:
    p = alone("end_caps = {}\n")
    (note,) = found(p, tops.CAPS)
    assert dict(note.figures) == {"out": 500 * OUT, "back": 500 * BACK}
    # the outer pegs 200 from the middle: 10, 2 of room and 200 x 0.01825
    assert "the longest peg slot is 15.5 mm full" in note.text
    assert 12 + 200 * F("0.01825") == F("15.65")
    assert found(alone(), tops.CAPS) == []


# -- dog holes in a top


def test_rows_of_a_top_are_checked() -> None:
    keys = "vise = { opening = 180 }\nrow = [{ lines = [250] }]\n"
    p = alone(keys)
    rules = {one.rule for one in dogs.findings(p)}
    assert rules == {dogs.HELD}
    p = read(keys.replace("lines = [250]", "lines = [70], first = 110"))
    (clear,) = [one for one in dogs.findings(p) if one.rule == dogs.CLEAR]
    # the nearest: the first leg's back, 85 from the end, 15 before the hole's edge
    assert (clear.level, dict(clear.figures)["apart"]) == ("note", F(15))
    near = p._replace(cuts=tuple(
        one._replace(shape=one.shape._replace(centre=(F(100), one.shape.centre[1])))  # type: ignore[union-attr]
        if one.role == "dog hole 1" else one for one in p.cuts))
    levels = [one.level for one in dogs.findings(near) if one.rule == dogs.CLEAR]
    assert levels == ["stop"]  # 5 from the leg


def test_a_row_beside_the_front_of_a_slab() -> None:
    keys = "vise = { opening = 180 }\nrow = [{ lines = [LINE] }]\n"
    for line, wood in (("14.5", None), ("14.4", F("4.4"))):
        p = alone(keys.replace("LINE", line))
        hits = [dict(one.figures) for one in dogs.findings(p) if one.rule == dogs.WALL]
        assert hits == ([] if wood is None else [{"wood": wood, "least": LEAST}])


def test_square_holes_lean_as_told() -> None:
    p = read(SQUARE.replace("first = 120", 'first = 120, lean = "1:20"') + "overhang_front = 110\n")
    (one,) = [each for each in dogs.findings(p) if each.rule == dogs.CUT]
    assert dict(one.figures) == {"lean": F(3, 2)}


# -- weight


def rounded(value: Fraction) -> str:
    """To two digits, by the language's own way."""
    return f"{float(value):#.2g}".rstrip(".")


def test_a_top_s_weight_by_hand() -> None:
    p = alone()
    kilos = 1200 * 500 * 30 * OAK
    assert part_mass(p, p.part("top")) == kilos
    assert (rounded(kilos), rounded(kilos / POUND)) == ("13", "29")
    assert [one.text for one in found(p, tops.WEIGHT)] == ["the top weighs about 13 kg (29 lb)"]


def test_end_caps_weigh_what_is_left_of_them() -> None:
    p = alone(CAPS.format(width=80, tongue=10, long=24, peg=10))
    # 1200 - 2 x 80 between them, and two tongues 24 x 500 x 10, less the hole of each middle peg
    # (those in the caps go through their grooves, and are left in)
    slab = (1040 * 30 + 2 * 24 * 10) * 500 - 2 * PI * 5**2 * 10
    # of slots only what lies between their ends: two to an end, 200 from the middle, in the tongue
    between = 2 * 2 * 10 * 10 * (200 * (OUT + BACK) + 2)
    cap = 500 * (80 * 30 - F(51, 2) * 10)
    assert part_mass(p, p.part("top")) == (slab - between) * OAK
    assert part_mass(p, p.part("top-left-end-cap")) == cap * OAK


def test_a_timber_without_a_gravity_is_named() -> None:
    p = alone('timber = "stone"\n')
    (one,) = found(p, tops.WEIGHT)
    assert one.text == (
        "what the top weighs is not known: no specific gravity for what is of stone")
    assert one.cure


def test_the_whole_piece() -> None:
    p = read()
    whole = sum((part_mass(p, part) or F(0) for part in p.parts), F(0))
    top = part_mass(p, p.part("top"))
    assert top == 1050 * 650 * 30 * OAK
    texts = [one.text for one in found(p, tops.WEIGHT)]
    assert texts == [
        f"the top weighs about {rounded(top)} kg ({rounded(top / POUND)} lb)",
        "the whole piece, without its hardware, weighs about "
        f"{rounded(whole)} kg ({rounded(whole / POUND)} lb)",
    ]
    # legs 60 x 60 x 800 without their mortises are the least of it, with them the most
    legs = 4 * 60 * 60 * 800 * OAK
    rails = (2 * 880 + 2 * 480) * 90 * 28 * OAK
    assert top + legs + rails - 3 < whole < top + legs + rails + 3


# -- loaded drawers

DRAWER = """[[drawer]]
space = { width = 400, height = 120, depth = 350 }
front = 20
sides = 12
back = 12
room_wide = 2
room_behind = 10
height = 110
drop = 6
bottom = { thickness = 6 }
dovetails = { tails = 3 }
"""


def test_what_loaded_drawers_add() -> None:
    p = alone(before=CLIMATE + DRAWER)
    drawer = p.drawers[0]
    # between the sides 398 - 24; from the front's back to the back's front; from the bottom up,
    # which is 6 thick and has 6 of side below it, to the sides' top
    deep = drawer.back.reach(1)[0] - drawer.front.reach(1)[1]
    assert drawer.bottom.reach(2) == (6, 12)
    litres = 374 * deep * (110 - 12) / F(10**6)
    assert deep == 308
    assert rounded(litres) == "11"
    (one,) = found(p, tops.LOADED)
    assert one.text == (
        f"the drawers hold {rounded(litres)} litres; loaded, they add about "
        f"{rounded(litres / 2)} kg ({rounded(litres / 2 / POUND)} lb), if a litre of what they "
        "hold weighs 0.5 kg")
    assert one.parts == (drawer.front.id,)


@pytest.mark.parametrize(("load", "words"), [("1.2", "14 kg (30 lb)"), ("0.1", "1.1 kg (2.5 lb)")])
def test_the_load_is_the_maker_s(load: str, words: str) -> None:
    head = f'piece = "Test"\nunit = "mm"\ntimber = "white oak"\ndrawer_load = {load}\n'
    assert words in text(alone(before=CLIMATE + DRAWER, head=head), tops.LOADED)


def test_no_load_and_no_drawers_are_not_told() -> None:
    assert found(alone(), tops.LOADED) == []
    head = 'piece = "Test"\nunit = "mm"\ntimber = "white oak"\ndrawer_load = 0\n'
    assert found(alone(before=CLIMATE + DRAWER, head=head), tops.LOADED) == []


def test_two_drawers_are_added_up() -> None:
    other = DRAWER.replace("[[drawer]]", '[[drawer]]\nname = "other"')
    one, two = (text(alone(before=CLIMATE + some), tops.LOADED)
                for some in (DRAWER, DRAWER + other))
    assert "hold 11 litres" in one
    assert "hold 23 litres" in two  # 2 x 11.29


def test_a_good_top_is_sound() -> None:
    p = read("fixing = {}\nend_caps = {}\n" + GLUED)
    assert [one.text for one in check(p) if one.level != "note"] == []
