"""The movement table of a piece: every part's width and thickness, dry and damp. In mm.

The door is that of tests/builds/test_door.py. White oak moves 0.00180 of its size radially and
0.00365 tangentially for each 1 % (Wood Handbook, FPL-GTR-190, 2010, Table 13-5), cherry 0.00126 and
0.00248.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.piece import Piece
from layout.seasons import Moves, moving, reckoned, unknown
from tests.builds.test_door import CASE, read

F = Fraction
CLIMATE = "[climate]\nnow = 8\ndry = 6\nwet = 11\n"
RADIAL, TANGENTIAL = F("0.00180"), F("0.00365")
SOLID = 'panel = { thickness = 8, timber = "cherry", solid = { EXTRA } }\n'


def rows(p: Piece) -> dict[tuple[str, Fraction], Moves]:
    """Every row, by the way and the size."""
    found = {(one.way, one.size): one for one in moving(p)}
    assert len(found) == len(moving(p))
    return found


def test_like_parts_stand_in_one_row() -> None:
    found = rows(read(before=CLIMATE))
    # the sheet keeps its size: no row of it
    assert {key: [part.id for part in one.parts] for key, one in found.items()} == {
        ("width", 50): ["door-left-stile", "door-right-stile"],
        ("width", 60): ["door-top-rail"],
        ("width", 70): ["door-bottom-rail"],
        ("thickness", 20): ["door-left-stile", "door-right-stile", "door-top-rail",
                            "door-bottom-rail"],
    }
    assert {one.wood for one in found.values()} == {"White oak, commercial"}
    assert {one.sawn for one in found.values()} == {"flat"}


def test_a_flat_sawn_board_moves_tangentially_across_and_radially_through() -> None:
    found = rows(read(before=CLIMATE))
    for size in (50, 60, 70):
        one = found["width", F(size)]
        assert (one.dry.share, one.wet.share) == (-2 * TANGENTIAL, 3 * TANGENTIAL)
    thick = found["thickness", F(20)]
    assert (thick.dry.share, thick.wet.share) == (-2 * RADIAL, 3 * RADIAL)


def test_what_is_said_of_the_door_s_sawing_counts_for_its_frame_alone() -> None:
    p = read('sawn = "quarter"\n', before=CLIMATE, panel=SOLID.replace("EXTRA", 'sawn = "rift"'))
    found = rows(p)
    assert found["width", F(50)].sawn == "quarter"
    assert found["width", F(50)].wet.share == 3 * RADIAL
    assert found["thickness", F(20)].wet.share == 3 * TANGENTIAL
    panel = found["width", p.part("door-panel").width]
    assert (panel.sawn, panel.wood) == ("rift", "Cherry, black")
    # half way between the two
    assert panel.wet.share == 3 * (F("0.00126") + F("0.00248")) / 2
    assert found["thickness", F(8)].wet.share == panel.wet.share


def test_parts_of_one_size_sawn_otherwise_stand_apart() -> None:
    other = ('[[door]]\nname = "other"\nspace = { width = 400, height = 600 }\nthickness = 20\n'
             'stiles = 50\nsawn = "quarter"\ntimber = "white oak"\n'
             'panel = { thickness = 6, timber = "plywood" }\n')
    p = read(other, before=CLIMATE)
    same = [one for one in moving(p) if (one.way, one.size) == ("thickness", 20)]
    assert [one.sawn for one in same] == ["flat", "quarter"]
    assert not {part.id for part in same[0].parts} & {part.id for part in same[1].parts}


@pytest.mark.parametrize(
    ("before", "panel", "wanted"),
    [
        ("", 'panel = { thickness = 6, timber = "plywood" }\n', False),
        (CLIMATE, 'panel = { thickness = 6, timber = "plywood" }\n', True),
        ("", SOLID.replace("EXTRA", ""), True),
    ],
    ids=["neither", "a climate", "a solid panel"],
)
def test_the_year_is_reckoned_where_it_is_asked_for(
    before: str, panel: str, wanted: bool
) -> None:
    p = read(before=before, panel=panel)
    assert reckoned(p) == wanted
    assert bool(moving(p)) == wanted


def test_the_usual_climate_is_6_to_10_percent_around_8() -> None:
    one = rows(read(panel=SOLID.replace("EXTRA", "")))["width", F(50)]
    assert (one.dry.share, one.wet.share) == (-2 * TANGENTIAL, 2 * TANGENTIAL)


def test_a_timber_s_own_moisture() -> None:
    own = CLIMATE + '[[wood]]\ntimber = "white oak"\nmoisture = 10\nsawn = "quarter"\n'
    one = rows(read(before=own))["width", F(50)]
    assert (one.sawn, one.dry.share, one.wet.share) == ("quarter", -4 * RADIAL, RADIAL)


def test_what_the_tables_don_t_have_is_left_out_and_named() -> None:
    p = read('timber = "qqqq"\n', before=CLIMATE + CASE)
    assert {part.id for part in unknown(p)} == {
        "door-left-stile", "door-right-stile", "door-top-rail", "door-bottom-rail",
    }
    mine = {part.id for one in moving(p) for part in one.parts}
    assert mine == {part.id for part in p.parts} - {part.id for part in unknown(p)} - {
        "door-panel"
    }


def test_every_board_is_in_exactly_two_rows() -> None:
    p = read("[[door.middle]]\nwidth = 45\n[[door.muntin]]\nwidth = 45\n", before=CLIMATE + CASE,
             panel=SOLID.replace("EXTRA", ""))
    ways = [(part.id, one.way) for one in moving(p) for part in one.parts]
    assert sorted(ways) == sorted(
        (part.id, way) for part in p.parts for way in ("width", "thickness")
    )
    for one in moving(p):
        assert {part.size("W" if one.way == "width" else "T") for part in one.parts} == {one.size}
