"""The numbers of a piece, judged as solids by general-purpose modellers: manifold3d and shapely.

Nothing here knows how the program lays out a joint. What is judged: of plain frames everything,
from the maker's own sizes (solids.py); of every joint whether it fits and touches
(judge_joints.py), its marks (judge_marks.py), and its wedges, mitres and pegs (judge_shapes.py);
of every top its boards, fixings and holes (judge_tops.py).
"""

from __future__ import annotations

import copy
import math
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st
from shapely import MultiPoint, Polygon

from layout.checks import check
from layout.errors import BadPiece
from layout.numbers import numbers
from layout.piece import work_out
from layout.piece_file.reader import read_piece
from tests.outside import (
    judge_boards,
    judge_joints,
    judge_marks,
    judge_shapes,
    judge_tops,
    solids,
)
from tests.outside.outsider import OVERLAP, PIECES, numbers_of

SAMPLES = Path(__file__).parents[2] / "samples"
TENONS = Path(__file__).parents[1] / "tenon_pieces"


def single(sample: str, instead: str) -> str:
    """A sample with one tenon to each rail end, which is what the maker's sizes are told of; its
    frame alone, for what is slid into one is judged by judge_slides, a top by judge_tops.
    """
    whole = (SAMPLES / f"{sample}.toml").read_text(encoding="utf-8")
    text = re.split(r"(?m)^\[\[(?:divider|top)\]\]", whole)[0]
    found, pairs = re.subn(r"(?m)^pair = \{\}.*$", instead, text)
    assert pairs == 1
    return found.replace(", pair = false", "")


BENCH = single("repair_bench", 'top_shoulder = "3/8"\nbottom_shoulder = "3/8"')
TABLE = single("hall_table", "")
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
Boards = dict[str, judge_boards.Board]


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


# -- every kind of joint


DRAWN_JOINTS = {
    path.stem: path
    for folder in (TENONS, SAMPLES, PIECES) for path in sorted(folder.glob("*.toml"))
}
KINDS = {path.stem for path in TENONS.glob("*.toml")}


@pytest.fixture(scope="module")
def joined() -> Callable[[str], Numbers]:
    """The numbers of a piece in the tree, by its name; worked out once."""
    kept: dict[str, Numbers] = {}

    def found(name: str) -> Numbers:
        if name not in kept:
            kept[name] = numbers_of(DRAWN_JOINTS[name])
        return kept[name]

    return found


@pytest.fixture(scope="module")
def built(joined: Callable[[str], Numbers]) -> Callable[[str], Boards]:
    """The parts of a piece in the tree as solids, by its name; built once."""
    kept: dict[str, Boards] = {}

    def found(name: str) -> Boards:
        if name not in kept:
            kept[name] = judge_boards.boards(joined(name))
        return kept[name]

    return found


@pytest.mark.parametrize("name", DRAWN_JOINTS)
def test_parts_overlap_where_a_check_says_so_and_nowhere_else(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards], name: str
) -> None:
    found = joined(name)
    parts = built(name)
    shared = {
        frozenset(parts[one].id for one in pair) for pair in judge_boards.overlapping(parts)
    }
    assert shared == {frozenset(one["parts"]) for one in stops(found) if one["rule"] == OVERLAP}
    assert not (shared and name in KINDS)


@pytest.mark.parametrize("name", DRAWN_JOINTS)
def test_every_joint_fits_and_touches(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards], name: str
) -> None:
    found = joined(name)
    subjects = set(judge_joints.SUBJECTS)
    if stops(found):  # their tenons run into each other, as printed: told above
        subjects -= {"overlap"}
    assert judge_joints.judge(found, subjects, built(name)) == []


@pytest.mark.parametrize("name", DRAWN_JOINTS)
def test_every_mark_is_an_edge_that_the_cuts_make(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards], name: str
) -> None:
    assert list(judge_marks.judge(built(name), joined(name)["marks"])) == []


@pytest.mark.parametrize("name", DRAWN_JOINTS)
def test_wedges_mitres_and_pegs_are_as_told(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards], name: str
) -> None:
    text = DRAWN_JOINTS[name].read_text(encoding="utf-8")
    assert judge_shapes.judge(joined(name), text, built(name)) == []


TOPPED = [name for name, path in DRAWN_JOINTS.items()
          if "[[top]]" in path.read_text(encoding="utf-8")]


@pytest.mark.parametrize("name", TOPPED)
def test_tops_are_as_told(joined: Callable[[str], Numbers], name: str) -> None:
    text = DRAWN_JOINTS[name].read_text(encoding="utf-8")
    assert judge_tops.judge(joined(name), text) == []


def test_the_samples_have_a_top_on_screws_and_one_on_buttons(
    joined: Callable[[str], Numbers]
) -> None:
    kinds = {one["kind"] for name in TOPPED for top in joined(name)["tops"]
             for one in top["fixings"]}
    assert kinds == {"screws", "buttons"}
    assert {"repair_bench", "hall_table"} <= set(TOPPED)


def test_the_pieces_hold_every_kind_of_cut_and_mark(joined: Callable[[str], Numbers]) -> None:
    """So that no judgement above is passed by a piece that has nothing to judge."""
    cuts = {cut["role"] for name in KINDS for cut in joined(name)["cuts"]}
    words = " / ".join(sorted(cuts))
    for role in (
        "upper mortise", "lower mortise", "outer mortise", "inner mortise", "haunch socket",
        "web socket", "flare", "far flare", "wedge space", "splay space", "peg hole",
        "peg 1 hole", "peg 1 hole in the tenon A", "key hole A", "key taper", "mitre waste A",
        "moulding cut back", "saw cut 1 A",
    ):
        assert role in cuts, role
    for part in ("notch", "moulding mitre waste", "waste between the twins"):
        assert part in words, part
    known = set(judge_marks.ON_RAIL) | set(judge_marks.ON_BEARER) | set(judge_marks.SEATS)
    known |= set(judge_marks.EDGES) | set(judge_marks.LEAVES)
    drawn = set()
    for name in DRAWN_JOINTS:
        for mark in joined(name)["marks"]:
            role = judge_marks.plain_role(mark["role"])
            drawn |= {role} & known
    # the frames drawn by lot show these, and the doors drawn by lot the tongue's far side
    assert known - drawn <= {
        "haunch edge", "notch start", "splayed edge", "far side of the tongue"
    }


# Flares and mitres by hand, on the two pieces that show them.


def test_the_flares_of_the_through_piece_by_hand(joined: Callable[[str], Numbers]) -> None:
    """Two wedges of 1/8 in saw cuts of 1/32: (2 * 1/8 - 2 * 1/32) / 2 = 3/32 each end. One wedge
    of 3/16: (3/16 - 1/32) / 2 = 5/64. Areas of the triangles: flare * depth / 2, by shapely."""
    found = joined("through")
    inch = Fraction(127, 5)
    for joint, flare, depth in (
        # tenon 2 1/2 long, three quarters of it
        ("front-long-rail.A", Fraction(3, 32), Fraction(15, 8)),
        # 2 1/2 + 1/4 long: 2 1/16, of which 1/4 stand proud
        ("left-end-rail.A", Fraction(5, 64), Fraction(2.75) * 3 / 4 - Fraction(1, 4)),
    ):
        cuts = [c for c in found["cuts"] if c["joint"] == joint and c["role"].endswith("flare")]
        assert len(cuts) == 2
        for cut in cuts:
            corners = [[float(Fraction(v) / inch) for v in spot] for spot in cut["hull"]]
            into = 1 if joint.startswith("front") else 2
            area = MultiPoint([(c[0], c[into]) for c in corners]).convex_hull.area
            assert area == pytest.approx(float(flare * depth / 2), rel=1e-12)


def test_the_mitres_of_the_corners_piece_by_hand(joined: Callable[[str], Numbers]) -> None:
    """Rails 3/4 thick set in 1/8, tenons 3/8 thick: walls 5/16 and 11/16 behind the leg's face.
    Leg 2 1/4, gap 1/16: long side 2 1/4 - 5/16 - 1/32 = 1 29/32, short 2 1/4 - 11/16 - 1/32 =
    1 17/32. In plan the tenons are clear, and 1/16 / sqrt 2 apart square to the mitre."""
    found = joined("corners")
    parts = judge_boards.boards(found)
    joints = {j.name: j for j in judge_joints.joints(parts)}
    one, other = joints["front-top-rail.A"], joints["left-top-end-rail.B"]
    assert one.bearer is other.bearer
    inch = Fraction(127, 5)
    figures = []
    for joint in (one, other):
        outer, inner = judge_shapes.slope(joint)
        assert joint.deep(outer[joint.axis]) == Fraction(61, 32) * inch
        assert joint.deep(inner[joint.axis]) == Fraction(49, 32) * inch
        figures.append(Polygon(judge_shapes.outline(joint)))
    assert figures[0].intersection(figures[1]).area == 0
    apart = figures[0].distance(figures[1])
    assert apart == pytest.approx(float(inch / 16) / math.sqrt(2), abs=1e-9)


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


@settings(moderate, max_examples=25)
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


# -- the judges of joints: they must be able to object


def objections(found: Numbers, name: str) -> set[str]:
    text, parts = DRAWN_JOINTS[name].read_text(encoding="utf-8"), judge_boards.boards(found)
    return {
        *judge_joints.judge(found, parts=parts), *judge_shapes.judge(found, text, parts)
    }


def test_a_joint_s_cut_moved_by_a_sixty_fourth_is_found(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards]
) -> None:
    """The first cut of every role in the pieces that show the kinds, along a drawn axis."""
    roles: dict[str, tuple[str, int]] = {}
    for name in sorted(KINDS):
        for at, cut in enumerate(joined(name)["cuts"]):
            if not cut["joint"].endswith(".seat"):
                roles.setdefault(cut["role"], (name, at))
    assert len(roles) > 60
    sound = {name: objections(joined(name), name) for name in KINDS}

    @settings(moderate, max_examples=15)
    @given(data=st.data())
    def moved_by_chance(data: st.DataObject) -> None:
        name, at = roles[data.draw(st.sampled_from(sorted(roles)))]
        by = data.draw(st.sampled_from((1, -1))) * SIXTY_FOURTH
        axis = data.draw(st.integers(0, 2))
        found = joined(name)
        cut = copy.deepcopy(found["cuts"][at])
        if "hull" in cut:
            for point in cut["hull"]:
                point[axis] = moved(point[axis], by)
        else:
            axis %= 2
            cut["cylinder"]["centre"][axis] = moved(cut["cylinder"]["centre"][axis], by)
        spoilt = found | {"cuts": [*found["cuts"][:at], cut, *found["cuts"][at + 1:]]}
        before, after = built(name), judge_boards.boards(spoilt)
        board = next(n for n, b in before.items() if b.id == cut["part"])
        # Some cuts reach into others so far that the wood stays as it was: no harm done.
        assume(judge_boards.differ(before[board].solid, after[board].solid) > judge_boards.NOTHING)
        assert objections(spoilt, name) - sound[name] != set(), (name, cut, axis, by)

    moved_by_chance()


def test_a_joint_s_mark_moved_by_a_sixty_fourth_is_found(
    joined: Callable[[str], Numbers], built: Callable[[str], Boards]
) -> None:
    """The first mark of every role: it moves with its distance, so that only the wood can tell."""
    roles: dict[tuple[str, str], tuple[str, int]] = {}
    for name in sorted(KINDS):
        for at, mark in enumerate(joined(name)["marks"]):
            roles.setdefault((mark["role"], mark["face"]), (name, at))
    assert len(roles) > 100
    axes = {"face side": "T", "face edge": "W", "end A": "L"}
    for name, at in roles.values():
        found = joined(name)
        mark = copy.deepcopy(found["marks"][at])
        across = judge_boards.FACES[mark["face"]].index(axes[mark["from"]])
        for spot in mark.get("line") or [mark["point"]]:
            spot[across] = moved(spot[across], SIXTY_FOURTH)
        mark["distance"] = moved(mark["distance"], SIXTY_FOURTH)
        assert list(judge_marks.judge(built(name), [mark])) != [], mark


def test_an_unknown_role_is_found(joined: Callable[[str], Numbers]) -> None:
    found = joined("through")
    mark = found["marks"][0] | {"role": "tally"}
    [objection] = judge_marks.judge(judge_boards.boards(found), [mark])
    assert "has a role that the judge doesn't know" in objection


@pytest.mark.parametrize(("axis", "by"), [(0, 1), (0, -1), (1, 1), (1, -1)])
def test_a_key_out_of_its_place_is_found(
    joined: Callable[[str], Numbers], axis: int, by: int
) -> None:
    """Along the rail it leaves the leg or enters it; the way it is driven it leaves its hole's
    end or enters that."""
    found = copy.deepcopy(joined("through"))
    key = next(part for part in found["parts"] if "key" in part["id"])
    key["origin"][axis] = moved(key["origin"][axis], by * SIXTY_FOURTH)
    assert judge_joints.judge(found, ["overlap", "key"]) != []


def test_a_haunch_that_does_not_fill_its_groove_is_found(
    joined: Callable[[str], Numbers]
) -> None:
    """The groove in one leg is made deeper, wider or moved, by 1/64 in."""
    found = joined("haunches")
    text = DRAWN_JOINTS["haunches"].read_text(encoding="utf-8")
    at = next(
        i for i, cut in enumerate(found["cuts"])
        if cut["role"] == "groove" and cut["part"] == "front-left-leg"
    )
    for axis in (1, 2):
        for end in (min, max):
            cut = copy.deepcopy(found["cuts"][at])
            wall = end(Fraction(spot[axis]) for spot in cut["hull"])
            by = SIXTY_FOURTH if wall else Fraction(0)
            for spot in cut["hull"]:
                if Fraction(spot[axis]) == wall:
                    spot[axis] = moved(spot[axis], -by)
            spoilt = found | {"cuts": [*found["cuts"][:at], cut, *found["cuts"][at + 1:]]}
            overlap = judge_joints.judge(spoilt, ["overlap"])
            assert overlap + judge_shapes.judge(spoilt, text) != [], (axis, end)


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
