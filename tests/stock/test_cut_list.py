"""The cut list: what shares a row, what it is called, and what else it says."""

from __future__ import annotations

from layout.builds.frame import SIDES
from layout.stock.cut_list import cut_list
from tests.pieces import frame, inch, low_rail, panel, piece, rail, seat


def test_parts_alike_share_a_row_with_their_count_and_note() -> None:
    p = piece(
        frame(rail(sides=SIDES), low_rail(sides=SIDES)),
        panel(seat(), "left under rail", "right under rail", grain="across"),
    )
    listed = cut_list(p)
    assert [(row.name, row.count) for row in listed] == [
        ("leg", 4), ("rail", 2), ("rail", 2), ("low rail", 2), ("low rail", 2), ("panel", 2),
    ]
    assert sum(row.count for row in listed) == len(p.parts)
    rows = {(row.name, row.count): row for row in listed}
    assert rows["leg", 4].note == "2 left hand, 2 right hand"
    assert rows["panel", 2].note == "grain across, along the length"
    # across the grain up: 16 + 3/4 - 1/16; along it 24 - 5 + 3/4 - 1/16
    assert rows["panel", 2].length == inch("19 11/16")
    assert rows["panel", 2].width == inch("16 11/16")


def test_rows_of_one_name_say_which_parts_they_are() -> None:
    notes = [row.note for row in cut_list(piece(frame(rail(sides=SIDES)))) if row.name == "rail"]
    assert notes == [
        "front rail, back rail; length includes both tenons",
        "left rail, right rail; length includes both tenons",
    ]


def test_one_row_of_a_name_needs_no_names() -> None:
    (row,) = [row for row in cut_list(piece(frame(rail()))) if row.name == "rail"]
    assert row.note == "length includes both tenons"


def test_other_timber_is_another_row() -> None:
    oak = rail("rail", timber="oak")
    ash = rail("rail", sides=("back",), timber="ash")
    rows = [row for row in cut_list(piece(frame(oak, ash))) if row.name == "rail"]
    assert [(row.count, row.timber) for row in rows] == [(1, "oak"), (1, "ash")]


def test_letters_go_on_after_z() -> None:
    rails = [
        rail(f"rail {n}", below_top=None, above_floor=inch(n), width=inch("1/2"),
             tenon=rail().tenon._replace(top_shoulder=0, bottom_shoulder=0))
        for n in range(28)
    ]
    letters = [row.letter for row in cut_list(piece(frame(*rails)))]
    assert letters[:3] == ["A", "B", "C"]
    assert letters[25:29] == ["Z", "AA", "AB", "AC"]
