"""Reference surfaces: what is said of them against the corners of the placed boards. In mm."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from layout.part import Part
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.stock.cut_list import Row, cut_list
from layout.stock.reference import Reference, references

F = Fraction
ROOT = Path(__file__).parents[2]
SAMPLES = sorted((ROOT / "samples").glob("*.toml"))
EVERY = ROOT / "tests" / "piece_file"
# Along which of X, Y, Z a word tells, and whether the surface is the one with more of it.
WAYS = {"on top": (2, 1), "below": (2, -1), "in front": (1, -1), "behind": (1, 1),
        "at the left": (0, -1), "at the right": (0, 1)}


def opened(path: Path) -> Piece:
    return work_out(read_piece(path))


def told(path: Path) -> list[tuple[Row, Reference]]:
    p = opened(path)
    rows = [row for row in cut_list(p) if row.parts]
    return list(zip(rows, references(p, [row.parts for row in rows]), strict=True))


def surfaces(part: Part, axis: str) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """A corner of the reference surface, and the one opposite on the other surface."""
    far = (F(0), F(0), part.thickness) if axis == "T" else (F(0), part.width, F(0))
    return part.placement.to_piece((F(0), F(0), F(0))), part.placement.to_piece(far)


def middle(parts: list[Part]) -> list[Fraction]:
    """The middle of what parts take up, from all their corners."""
    spots = [part.placement.to_piece(spot) for part in parts
             for spot in ((F(0), F(0), F(0)), (part.length, part.width, part.thickness))]
    return [(min(one[k] for one in spots) + max(one[k] for one in spots)) / 2 for k in range(3)]


def moves(part: Part, axis: str) -> tuple[int, int]:
    """Which of X, Y, Z the two surfaces differ in, and +1 where the reference surface has more."""
    near, far = surfaces(part, axis)
    (along,) = (k for k in range(3) if near[k] != far[k])
    return along, 1 if near[along] > far[along] else -1


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_word_is_true_of_the_placed_boards(path: Path) -> None:
    p = opened(path)
    tried = 0
    for row, reference in told(path):
        for axis, words in (("T", reference.face_side), ("W", reference.face_edge)):
            for part in (p.part(one) for one in row.parts):
                along, sign = moves(part, axis)
                tried += 1
                if words.startswith(("outside", "inside")):
                    if "door" in row.assembly:
                        assert words.startswith("outside")
                        if axis == "T":  # these doors are in front
                            assert (along, sign) == (1, -1)
                            continue
                    around = [p.part(one) for other in cut_list(p) for one in other.parts
                              if other.assembly == row.assembly]
                    if row.assembly == "frame":
                        around = [one for one in around if one.kind == "leg"]
                    if row.assembly.startswith("drawer"):  # each drawer has its own middle
                        own = part.id.rsplit("-", 1)[0].removesuffix("-left").removesuffix("-right")
                        around = [one for one in around if one.id.startswith(own)]
                    centre = middle(around)
                    near, far = (abs(one[along] - centre[along]) for one in surfaces(part, axis))
                    assert (near > far) == words.startswith("outside"), (part.id, words)
                elif "seen from outside" in words:
                    # seen from the left side, left is the back; from the right side, the front
                    at_left = part.reach(0)[1] < middle(list(p.parts))[0]
                    assert words.startswith("at the left")
                    assert (along, sign) == (1, 1 if at_left else -1)
                else:
                    ways = [WAYS[one] for one in WAYS if one in words]
                    if "left or right" in words:
                        ways.append(WAYS["at the right"])
                    assert (along, sign) in ways, (part.id, words)
    assert tried >= 2 * len(p.parts) > 0


def test_legs_say_which_outside_is_which() -> None:
    """The hall table: 4 legs of 45; left ones from x = 0, front ones from y = 0."""
    p = opened(ROOT / "samples" / "hall_table.toml")
    leg = p.part("front-left-leg")
    # its face side is the plane y = 0, the front; its face edge x = 0, the left
    assert leg.placement.to_piece((F(0), F(20), F(0)))[1] == 0
    assert leg.placement.to_piece((F(0), F(0), F(20)))[0] == 0
    (found,) = references(p, [["front-left-leg"]])
    assert found == ("outside (in front)", "outside (at the left)")
    (found,) = references(p, [["back-right-leg"]])
    assert found == ("outside (behind)", "outside (at the right)")
    (found,) = references(p, [[f"{y}-{x}-leg" for y in ("front", "back")
                               for x in ("left", "right")]])
    assert found == ("outside (in front or behind)", "outside (at the left or right)")


def test_boards_of_drawers_and_chests_face_inside() -> None:
    rows = {row.name: one for row, one in told(EVERY / "every_box.toml")}
    for name in ("till front", "till side", "till back", "tray slip", "box long side", "chest end"):
        assert rows[name] == ("inside", "below"), name
    assert rows["till bottom"] == ("inside", "in front")
    assert rows["box lid"] == ("outside", "in front")
    assert rows["till runner"] == ("on top", "outside")
    assert rows["till kicker"] == ("below", "outside")
    assert rows["till guide"] == ("inside", "below")


def test_the_rest_as_developers_are_told() -> None:
    rows = {row.name: one for row, one in told(EVERY / "every_case.toml")}
    assert rows["cabinet side"] == rows["cabinet top"] == ("inside", "in front")
    assert rows["cabinet back board"] == ("inside", "at the left")
    assert rows["shelf"] == ("on top", "in front")
    assert rows["partition"] == ("at the left", "in front")
    rows = {row.name: one for row, one in told(EVERY / "every_top.toml")}
    assert rows["bench top"] == ("on top", "in front")
    # an end cap's face edge is at the joint, toward the top's middle
    assert rows["bench top end cap"] == ("on top", "inside")


def test_parts_that_differ_are_told_with_or() -> None:
    rows = {row.name: one for row, one in told(EVERY / "every_button.toml")}
    assert rows["top button"] == ("on top", "in front, behind, at the left or right")
    p = opened(EVERY / "every_button.toml")
    assert references(p, [()]) == (("", ""),)
