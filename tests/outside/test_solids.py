"""The numbers of a piece, judged as solids by general-purpose modellers: manifold3d and shapely.

Nothing here knows how the program lays out a joint. See solids.py for what is judged.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from layout.checks import check
from layout.errors import BadPiece
from layout.numbers import numbers
from layout.piece import work_out
from layout.piece_file.reader import read_piece
from tests.outside import solids

SAMPLES = Path(__file__).parents[2] / "samples"
BENCH = (SAMPLES / "repair_bench.toml").read_text(encoding="utf-8")
TABLE = (SAMPLES / "hall_table.toml").read_text(encoding="utf-8")
SIXTY_FOURTH = Fraction(127, 320)
SIDES = ("front", "back", "left", "right")
CLEAR = "mortises clear of each other"

moderate = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    # A solid takes long to judge: no hunt for the smallest failing piece, any one will do.
    phases=(Phase.explicit, Phase.generate),
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)

Numbers = dict[str, Any]
Work = Callable[[str], Numbers]


@pytest.fixture(scope="module")
def worked(tmp_path_factory: pytest.TempPathFactory) -> Work:
    """From a TOML text to the numbers of its piece, through a file as a maker would."""
    path = tmp_path_factory.mktemp("solids") / "piece.toml"

    def work(text: str) -> Numbers:
        path.write_text(text, encoding="utf-8")
        piece = work_out(read_piece(path))
        return numbers(piece, check(piece))

    return work


def stops(found: Numbers) -> list[dict[str, Any]]:
    return [one for one in found["checks"] if one["level"] == "stop"]


# -- pieces that nobody has drawn


@st.composite
def frames(draw: st.DrawFn) -> str:
    """A frame with one to three kinds of rail, and panels in some of its openings."""
    unit = draw(st.sampled_from(("in", "mm")))

    def size(least: float, most: float) -> Fraction:
        """A size between two numbers of millimetres, on a grid that makers use."""
        if unit == "mm":
            return Fraction(draw(st.integers(math.ceil(2 * least), math.floor(2 * most))), 2)
        low, high = math.ceil(least / 25.4 * 32), math.floor(most / 25.4 * 32)
        return Fraction(draw(st.integers(low, high)), 32) * Fraction(127, 5)

    def say(mm: Fraction) -> str:
        value = mm if unit == "mm" else mm / Fraction(127, 5)
        whole, rest = divmod(value, 1)
        return f'"{whole} {rest}"' if rest and whole else f'"{value}"'

    leg = (size(42, 90), size(42, 90))
    rows = [f'piece = "Frame"\nunit = "{unit}"\n[frame]']
    length, depth, height = size(500, 1500), size(350, 900), size(500, 1000)
    rows += [f"length = {say(length)}", f"depth = {say(depth)}", f"height = {say(height)}"]
    rows.append(f"leg = {{ width = {say(leg[0])}, thickness = {say(leg[1])} }}")
    rows.append(f"[frame.tenon]\nlength = {say(size(12, float(min(leg)) * 0.55))}")
    if draw(st.booleans()):
        rows.append(f"glue_room = {say(size(0, 4))}")
    thickness = size(18, float(min(leg)) * 0.7)
    set_in = draw(st.sampled_from((Fraction(0), size(1, 8))))
    count = draw(st.sampled_from((2, 3, 2, 1)))
    sided = []
    for kind in range(count):
        # Most rails stand under others, so that there are openings for panels.
        sides = sided[-1] if sided and draw(st.integers(0, 3)) else draw(
            st.one_of(
                st.sampled_from((("left", "right"), SIDES, ("front", "back"))),
                st.lists(st.sampled_from(SIDES), min_size=1, unique=True).map(tuple),
            )
        )
        sided.append(sides)
        width = size(35, 110)
        band = height * kind / count
        below = band + size(0, float(height / count - width) - 1)
        # Most frames have rails of one thickness, which panels need; some don't.
        own = thickness if draw(st.integers(0, 4)) else size(18, float(min(leg)) * 0.7)
        rows.append(f'[[frame.rail]]\nname = "rail {kind}"\nsides = {list(sides)}')
        at = draw(st.sampled_from(("top", "floor")))
        rows.append(f"below_top = {say(below)}" if at == "top"
                    else f"above_floor = {say(height - below - width)}")
        rows.append(f"width = {say(width)}\nthickness = {say(own)}\nset_in = {say(set_in)}")
        tenon = []
        if draw(st.booleans()):
            tenon.append(f"thickness = {say(size(5, float(own) * 0.5))}")
        if draw(st.booleans()):
            tenon.append(f"outer_shoulder = {say(size(0, float(own) * 0.4))}")
        if draw(st.booleans()):
            tenon.append(f"top_shoulder = {say(size(0, 16))}")
        if draw(st.booleans()):
            tenon.append(f"bottom_shoulder = {say(size(0, 16))}")
        if tenon:
            rows.append(f"tenon = {{ {', '.join(tenon)} }}")
    # A panel under one kind of rail, on some of the sides that have a rail below it.
    for kind in range(count):
        openings = [
            f"{side} under rail {kind}"
            for side in sided[kind]
            if any(side in below for below in sided[kind + 1:])
        ]
        if not openings or not draw(st.integers(0, 5)):
            continue
        seat = draw(st.sampled_from(("rabbet", "groove")))
        # Grooves in rails between rabbeted legs are in a drawn piece below.
        in_legs = seat if draw(st.integers(0, 3)) else "groove"
        panel = size(3, 8)
        chosen = draw(st.lists(st.sampled_from(openings), min_size=1, unique=True))
        rows.append(f'[[panel]]\nname = "panel {kind}"\nopenings = {chosen}')
        rows.append(f'thickness = {say(panel)}\nlip = {say(size(4, 9))}\nseat = "{seat}"')
        rows.append(f'in_legs = "{in_legs}"')
        # Rabbets run through one leg must be alike, so one panel at most has them.
        through = any("through" in row for row in rows)
        if seat == in_legs == "rabbet" and not through and draw(st.booleans()):
            rows.append('run_in_legs = "through"')
        if draw(st.booleans()):
            rows.append(f"room = {say(size(0, 3))}")
        if draw(st.booleans()):
            rows.append(f"rabbet_depth = {say(panel + size(0, 3))}" if seat == "rabbet"
                        else f"groove_from_face = {say(size(4, 9))}")
    return "\n".join(rows).replace("'", '"') + "\n"


@moderate
@given(text=frames())
def test_generated_pieces_are_sound_solids(worked: Work, text: str) -> None:
    found = worked(text)
    assume(not stops(found))
    assert solids.judge(found, solids.read_told(text), set(solids.SUBJECTS) - {"lines"}) == []


@moderate
@given(text=frames())
def test_every_joint_of_generated_pieces_is_lined_all_round(worked: Work, text: str) -> None:
    found = worked(text)
    assume(not stops(found))
    assert solids.judge(found, solids.read_told(text), ["lines"]) == []


# -- pieces that are drawn


def bench(seat: str, in_legs: str, run: str = "stopped") -> str:
    """The sample bench with other seats for its panels."""
    text = BENCH.replace('seat = "rabbet"', f'seat = "{seat}"')
    text = text.replace('in_legs = "rabbet"', f'in_legs = "{in_legs}"')
    text = text.replace('run_in_legs = "stopped"', f'run_in_legs = "{run}"')
    return text if seat == "rabbet" else text.replace('rabbet_depth = "1/4"', "")


DRAWN = {
    "bench": BENCH,
    "bench, rabbet through": bench("rabbet", "rabbet", "through"),
    "bench, grooves": bench("groove", "groove"),
    "bench, rabbets in the rails": bench("rabbet", "groove"),
    "hall table": TABLE,
}

# Two rails with a panel between, on the left; the marked places are filled in by tests.
PLAIN = """
piece = "Plain frame"
unit = "mm"
[frame]
length = 692
depth = 408
height = 605
leg = { width = 42, thickness = 42 }
tenon = { length = 12 }
[[frame.rail]]
name = "upper rail"
sides = ["left", "right"]
below_top = 20
width = 68
thickness = UPPER
set_in = 2
[[frame.rail]]
name = "lower rail"
sides = ["left", "right"]
above_floor = 50
width = 55
thickness = LOWER
set_in = SET_IN
[[frame.rail]]
name = "cross rail"
sides = ["front"]
above_floor = 250
width = 55
thickness = FRONT
set_in = 6
[[panel]]
name = "panel"
openings = ["left under upper rail"]
thickness = 3
lip = 10
"""


def plain(panel: str, upper: int = 20, lower: int = 20, set_in: int = 2, front: int = 20) -> str:
    text = PLAIN.replace("UPPER", str(upper)).replace("LOWER", str(lower))
    return text.replace("SET_IN", str(set_in)).replace("FRONT", str(front)) + panel


def test_rabbets_in_the_legs_of_a_grooved_frame_are_refused(worked) -> None:
    # the leg's rabbet would run on past the rail's edge and take 3/8 x 0.45 in of its shoulder
    with pytest.raises(BadPiece, match="in_legs"):
        worked(bench("groove", "rabbet"))


@pytest.mark.parametrize("name", DRAWN)
def test_drawn_pieces_are_sound_solids(worked: Work, name: str) -> None:
    found = worked(DRAWN[name])
    assert stops(found) == []
    assert solids.judge(found, solids.read_told(DRAWN[name])) == []


@pytest.mark.parametrize("run", ["stopped", "through"])
def test_a_front_rail_that_comes_to_a_rabbet_is_told_of(worked: Work, run: str) -> None:
    """42 mm leg, 10 mm lip: the rabbet begins 32 mm behind the leg's face. The cross rail's back
    is 6 + 28 = 34 mm behind it, so 2 x 55 mm of its left shoulder has no wood before it."""
    text = plain(f'seat = "rabbet"\nrun_in_legs = "{run}"', front=28)
    found = worked(text)
    told = solids.read_told(text)
    unsaid = found | {"checks": []}
    [objection] = solids.judge(unsaid, told, ["shoulder"])
    assert "front cross rail touches front left leg" in objection
    assert solids.judge(found, told) == []


def test_a_tenon_without_a_shoulder_is_lined_where_its_waste_shows(worked: Work) -> None:
    text = plain('seat = "groove"') + "\n"
    bare = text.replace("tenon = { length = 12 }", "tenon = { length = 12, outer_shoulder = 0 }")
    found = worked(bare)
    assert solids.judge(found, solids.read_told(bare), ["lines"]) == []


@pytest.mark.parametrize(
    ("panel", "lower", "set_in"),
    [
        ('seat = "groove"', 24, 2),
        ('seat = "groove"', 20, 4),
        ('seat = "groove"\ngroove_from_face = 7', 24, 2),
        ('seat = "groove"\ngroove_from_face = 7', 20, 4),
        ('seat = "rabbet"', 24, 2),
        ('seat = "rabbet"', 20, 4),
        ('seat = "rabbet"\nrun_in_legs = "through"', 24, 4),
    ],
)
def test_rails_that_are_not_alike_can_hold_one_panel(
    worked: Work, panel: str, lower: int, set_in: int
) -> None:
    """The panel lies in one plane, which the upper rail decides; the lower rail follows."""
    text = plain(panel, lower=lower, set_in=set_in)
    found = worked(text)
    assert solids.judge(found, solids.read_told(text), set(solids.SUBJECTS) - {"lines"}) == []
    assert stops(found) == []


# -- tenons that run into each other


@st.composite
def crossings(draw: st.DrawFn) -> str:
    """A frame whose tenons are long, at heights that often meet."""
    leg = draw(st.integers(40, 70))
    rows = [
        f'piece = "Crossing"\nunit = "mm"\n[frame]\nlength = 800\ndepth = 500\nheight = 700\n'
        f"leg = {{ width = {leg}, thickness = {leg + draw(st.integers(-5, 20))} }}"
    ]
    for name, sides in (
        ("long rail", draw(st.sampled_from((("front", "back"), ("front",), ("back",))))),
        ("short rail", draw(st.sampled_from((("left", "right"), ("left",), ("right",))))),
    ):
        thick = draw(st.integers(20, leg * 2 // 3))
        tenon = [f"length = {draw(st.integers(leg // 2, leg - 8))}"]
        tenon.append(f"glue_room = {draw(st.integers(0, 4))}")
        if draw(st.booleans()):
            tenon.append(f"thickness = {thick // 3}")
        if draw(st.booleans()):
            tenon.append(f"outer_shoulder = {draw(st.integers(2, thick // 2))}")
        listed = ", ".join(f'"{side}"' for side in sides)
        rows.append(
            f'[[frame.rail]]\nname = "{name}"\nsides = [{listed}]\n'
            f"below_top = {draw(st.integers(0, 110))}\nwidth = {draw(st.integers(40, 100))}\n"
            f"thickness = {thick}\nset_in = {draw(st.integers(0, 5))}\n"
            f"tenon = {{ {', '.join(tenon)} }}"
        )
    return "\n".join(rows) + "\n"


def colliding_legs(found: Numbers) -> set[str]:
    """The legs in which the modeller finds the wood of two rails in one place."""
    parts = solids.boards(found)
    legs = {name: board for name, board in parts.items() if name.endswith(" leg")}
    return {
        leg.id
        for one, other in solids.overlapping(parts)
        if one not in legs and other not in legs
        for leg in legs.values()
        if not (parts[one].solid ^ parts[other].solid ^ leg.box).is_empty()
    }


def stopped_legs(found: Numbers) -> set[str]:
    """The legs in which the program says that two tenons run into each other."""
    return {
        part for one in stops(found) if one["rule"] == CLEAR for part in one["parts"]
        if part.endswith("-leg")
    }


def test_tenons_collide_where_the_program_says_so_and_nowhere_else(worked: Work) -> None:
    seen = set()

    @settings(moderate, max_examples=80)
    @given(text=crossings())
    def compare(text: str) -> None:
        found = worked(text)
        collide = colliding_legs(found)
        assert stopped_legs(found) == collide
        seen.add(bool(collide))

    compare()
    assert seen == {True, False}


TOUCHING = """
piece = "Two tenons in each leg"
unit = "mm"
[frame]
length = 900
depth = 400
height = 700
leg = { width = 42, thickness = 42 }
tenon = { length = LENGTH, thickness = 8, outer_shoulder = 7 }
[[frame.rail]]
name = "rail"
sides = ["front", "back", "left", "right"]
top = "flush"
width = 90
thickness = 22
set_in = 3
"""


@pytest.mark.parametrize(("length", "collide"), [("24", False), ("24.015625", True)])
def test_a_tenon_may_touch_the_next_one_but_not_enter_it(
    worked: Work, length: str, collide: bool
) -> None:
    """The tenons begin 3 + 7 mm behind the leg's face and are 8 mm thick: in a leg of 42 mm the
    next one may come 42 - 18 = 24 mm far."""
    found = worked(TOUCHING.replace("LENGTH", length))
    wanted = {leg["id"] for leg in found["parts"] if leg["name"].endswith(" leg")}
    assert len(wanted) == 4
    assert colliding_legs(found) == stopped_legs(found) == (wanted if collide else set())


# -- the judge itself: it must be able to object


@pytest.fixture(scope="module")
def sound(worked: Work) -> list[tuple[Numbers, solids.Told]]:
    """Pieces that the judge has nothing against, to be spoilt."""
    texts = [BENCH, DRAWN["bench, rabbet through"], DRAWN["bench, grooves"], TABLE]
    return [(worked(text), solids.read_told(text)) for text in texts]


def moved(value: str, by: Fraction) -> str:
    return str(Fraction(value) + by)


@settings(moderate, max_examples=40)
@given(data=st.data())
def test_a_cut_moved_by_a_sixty_fourth_is_found(
    sound: list[tuple[Numbers, solids.Told]], data: st.DataObject
) -> None:
    found, told = data.draw(st.sampled_from(sound))
    at = data.draw(st.integers(0, len(found["cuts"]) - 1))
    axis, by = data.draw(st.integers(0, 2)), data.draw(st.sampled_from((1, -1)))
    spoilt = copy.deepcopy(found)
    for point in spoilt["cuts"][at]["hull"]:
        point[axis] = moved(point[axis], by * SIXTY_FOURTH)
    before, after = solids.boards(found), solids.boards(spoilt)
    name = next(n for n, b in before.items() if b.id == found["cuts"][at]["part"])
    # Some cuts reach into other cuts so far that the wood stays as it was: no harm, no objection.
    assume(solids.differ(before[name].solid, after[name].solid) > solids.NOTHING)
    assert solids.judge(spoilt, told, set(solids.SUBJECTS) - {"mark", "lines"}) != []


@pytest.mark.parametrize("by", [SIXTY_FOURTH, -SIXTY_FOURTH])
def test_a_rail_or_panel_of_a_wrong_length_is_found(
    sound: list[tuple[Numbers, solids.Told]], by: Fraction
) -> None:
    found, told = sound[0]
    for at, part in enumerate(found["parts"]):
        if part["name"].endswith(" leg"):
            continue
        spoilt = copy.deepcopy(found)
        spoilt["parts"][at]["length"] = moved(part["length"], by)
        solid = ["overlap", "tenon", "shoulder", "panel"]
        assert solids.judge(spoilt, told, solid) != [], part["name"]


def test_a_rail_with_its_far_shoulder_moved_is_found(
    sound: list[tuple[Numbers, solids.Told]]
) -> None:
    """The whole end B of a rail moved on by 1/64 in: its tenon is right, its length is not."""
    found, told = sound[0]
    spoilt = copy.deepcopy(found)
    rail = next(part for part in spoilt["parts"] if part["name"] == "front apron")
    rail["length"] = moved(rail["length"], SIXTY_FOURTH)
    for cut in spoilt["cuts"]:
        if cut["part"] == rail["id"] and cut["joint"].endswith(".B"):
            for point in cut["hull"]:
                point[0] = moved(point[0], SIXTY_FOURTH)
    assert any(o.startswith("overlap: ") for o in solids.judge(spoilt, told))
    short = copy.deepcopy(spoilt)
    rail = next(part for part in short["parts"] if part["name"] == "front apron")
    rail["length"] = moved(rail["length"], -2 * SIXTY_FOURTH)
    for cut in short["cuts"]:
        if cut["part"] == rail["id"] and cut["joint"].endswith(".B"):
            for point in cut["hull"]:
                point[0] = moved(point[0], -2 * SIXTY_FOURTH)
    objections = solids.judge(short, told)
    assert not any(o.startswith("overlap: ") for o in objections)
    gap = "shoulder: front apron touches front right leg on 0"
    assert any(o.startswith(gap) for o in objections)


@moderate
@given(data=st.data())
def test_a_part_in_a_wrong_place_is_found(
    sound: list[tuple[Numbers, solids.Told]], data: st.DataObject
) -> None:
    found, told = data.draw(st.sampled_from(sound))
    spoilt = copy.deepcopy(found)
    part = data.draw(st.sampled_from(spoilt["parts"]))
    axis, by = data.draw(st.integers(0, 2)), data.draw(st.sampled_from((1, -1)))
    part["origin"][axis] = moved(part["origin"][axis], by * SIXTY_FOURTH)
    assert solids.judge(spoilt, told, ["overlap", "tenon", "shoulder", "panel"]) != []


@settings(moderate, max_examples=60)
@given(data=st.data())
def test_a_mark_moved_by_a_sixty_fourth_is_found(
    sound: list[tuple[Numbers, solids.Told]], data: st.DataObject
) -> None:
    """The line moves across itself and its distance with it, so that only the wood can tell."""
    found, told = data.draw(st.sampled_from(sound))
    at = data.draw(st.integers(0, len(found["marks"]) - 1))
    by = data.draw(st.sampled_from((1, -1))) * SIXTY_FOURTH
    mark = copy.deepcopy(found["marks"][at])
    across = 0 if mark["line"][0][0] == mark["line"][1][0] else 1
    mark["line"] = [
        [moved(v, by) if i == across else v for i, v in enumerate(spot)] for spot in mark["line"]
    ]
    mark["distance"] = moved(mark["distance"], -by if mark["from"] == "end B" else by)
    assert solids.judge(found | {"marks": [mark]}, told, ["mark"]) != []


def test_a_mark_with_a_wrong_distance_is_found(sound: list[tuple[Numbers, solids.Told]]) -> None:
    found, told = sound[0]
    mark = found["marks"][0]
    assert solids.judge(found | {"marks": [mark]}, told, ["mark"]) == []
    wrong = mark | {"distance": moved(mark["distance"], SIXTY_FOURTH)}
    assert len(solids.judge(found | {"marks": [wrong]}, told, ["mark"])) == 1


def test_a_mark_that_is_not_there_is_missed(sound: list[tuple[Numbers, solids.Told]]) -> None:
    found, told = sound[0]
    for role in ("near wall", "shoulder"):
        at = next(i for i, mark in enumerate(found["marks"]) if mark["role"] == role)
        left = [mark for i, mark in enumerate(found["marks"]) if i != at]
        assert len(solids.judge(found | {"marks": left}, told, ["lines"])) == 1


def test_a_leg_of_the_wrong_hand_is_found(sound: list[tuple[Numbers, solids.Told]]) -> None:
    found, told = sound[0]
    spoilt = copy.deepcopy(found)
    spoilt["parts"][0]["hand"] = {"left": "right", "right": "left"}[spoilt["parts"][0]["hand"]]
    assert any(o.startswith("hands: ") for o in solids.judge(spoilt, told, ["hands"]))


def test_a_bored_hole_and_a_mirrored_place() -> None:
    """A box 40 x 30 x 20 with a hole of radius 5 right through T, placed mirrored.

    A regular polygon of n corners in a circle of radius r has the area n/2 r^2 sin(2 pi/n).
    """
    part = {
        "id": "a", "name": "a", "hand": "left", "length": "40", "width": "30", "thickness": "20",
        "origin": ["100", "0", "0"], "axes": {"L": "-X", "W": "+Y", "T": "+Z"},
    }
    bore = {"axis": "T", "centre": ["10", "12"], "radius": "5", "from": "0", "to": "20"}
    board = solids.Board(part, [{"part": "a", "joint": "j", "role": "hole", "cylinder": bore}])
    assert board.mirrored
    hole = 64 / 2 * 25 * math.sin(2 * math.pi / 64) * 20
    assert board.solid.volume() == pytest.approx(40 * 30 * 20 - hole, abs=1e-6)
    assert board.solid.bounding_box() == (60, 0, 0, 100, 30, 20)
    # L runs from X = 100 down: the hole's middle stands at X = 90, Y = 12.
    probe = solids.hull(solids.corners(((Fraction(88), Fraction(92)), (Fraction(10), Fraction(14)),
                                        (Fraction(0), Fraction(20)))))
    assert solids.common(probe, board.solid) == 0
