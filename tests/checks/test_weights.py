"""What doors weigh, by hand: volume x gravity x (1 + moisture / 100), in kg; 1 lb = 0.45359237 kg.

The relation: USDA Forest Products Laboratory, Wood Handbook, ch. 4, from memory; the pound: NIST
Handbook 44, Appendix C. The gravity of white oak is 0.68, of cherry 0.50 (Wood Handbook, Table
5-3); glass has 2500 kg per cubic metre (EN 572-1, from memory). The door is that of test_door.py.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.checks import doors
from layout.checks.weights import part_mass, weight_of
from layout.mark import Finding
from layout.measure import default_rule
from layout.piece import Piece
from tests.builds.test_door import read

F = Fraction
OAK = F("0.68") * F(108, 100) / 10**6  # kg in a cubic millimetre, at 8 %
CLIMATE = "[climate]\nnow = 12\ndry = 6\nwet = 14\n"
# 593 x 50 x 20 less the groove 10 x 6 along it, less two mortises 39 1/2 deep of which the groove
# has taken 10: 30 and 36 2/3 long
STILE = 593 * 50 * 20 - 593 * 60 - 6 * F(59, 2) * (30 + F(110, 3))
# 296 x 60 x 20 less the groove; at each end a tenon 37 1/2 long and 6 thick, 30 wide, and beside it
# a haunch 10 long and 20 wide
TOP = 296 * (60 * 20 - 10 * 6) + 2 * 6 * (F(75, 2) * 30 + 10 * 20)
BOTTOM = 296 * (70 * 20 - 10 * 6) + 2 * 6 * (F(75, 2) * F(110, 3) + 10 * F(70, 3))
FRAME = 2 * STILE + TOP + BOTTOM


def heavy(p: Piece) -> dict[str, Fraction | None]:
    return {part.id: part_mass(p, part) for part in p.doors[0].parts}


def told(p: Piece) -> Finding:
    (found,) = [one for one in doors.findings(p) if one.rule == doors.WEIGHT]
    assert found.level == "note"
    return found


def test_every_part_by_hand() -> None:
    assert heavy(read()) == {
        "door-left-stile": STILE * OAK, "door-right-stile": STILE * OAK,
        "door-top-rail": TOP * OAK, "door-bottom-rail": BOTTOM * OAK, "door-panel": None,
    }


def test_the_moisture_of_today_counts() -> None:
    wetter = heavy(read(before=CLIMATE))["door-left-stile"]
    assert wetter == STILE * F("0.68") * F(112, 100) / 10**6
    # a timber's own moisture before the climate's
    own = CLIMATE + '[[wood]]\ntimber = "white oak"\nmoisture = 10\ngravity = 0.7\n'
    assert heavy(read(before=own))["door-left-stile"] == (
        STILE * F("0.7") * F(110, 100) / 10**6
    )


def test_a_solid_panel_weighs_what_is_left_of_it() -> None:
    # nothing moves: 296 + 20 - 3/2 by 463 + 20 - 2, 14 thick; a tongue 6 thick, 10 long all round
    p = read(before="[climate]\nnow = 8\ndry = 8\nwet = 8\n",
             panel='panel = { thickness = 14, edge = "tongue", tongue = 6, lip = 10, room = 2,'
             ' timber = "cherry", solid = {} }\n')
    wide, high = F(629, 2), 481
    volume = wide * high * 14 - (wide * high - (wide - 20) * (high - 20)) * 8
    assert heavy(p)["door-panel"] == volume * F("0.50") * F(108, 100) / 10**6


def test_glass() -> None:
    p = read(panel="glass = { thickness = 3, rabbet_depth = 12, lip = 8, room = 3 }\n")
    assert heavy(p)["door-glass"] == 476 * 309 * 3 * F(2500) / 10**9
    assert "without" not in told(p).text


def rounded(value: Fraction) -> str:
    """To two digits, by the language's own way."""
    return f"{float(value):#.2g}"


def test_the_note_names_what_it_leaves_out() -> None:
    p = read()
    kilos = FRAME * OAK
    assert (rounded(kilos), rounded(kilos / F("0.45359237"))) == ("1.4", "3.0")
    assert told(p).text == "the door weighs about 1.4 kg (3.0 lb), without what is of plywood"
    assert told(p).parts == tuple(part.id for part in p.doors[0].parts)


def test_pounds_come_first_in_inches() -> None:
    p = read()
    first = p.doors[0].parts[:1]
    kilos = STILE * OAK
    assert (rounded(kilos), rounded(kilos / F("0.45359237"))) == ("0.40", "0.88")
    (one,) = weight_of(p, "it", first, "rule")
    assert one.text == "it weighs about 0.40 kg (0.88 lb)"
    inches = p._replace(choice=p.choice._replace(rule=default_rule("in")))
    (one,) = weight_of(inches, "it", first, "rule")
    assert one.text == "it weighs about 0.88 lb (0.40 kg)"


def test_a_wood_without_a_gravity() -> None:
    p = read('timber = "qqqq"\n')
    assert told(p).text == (
        "what the door weighs is not known: no specific gravity for what is of qqqq and what is of "
        "plywood"
    )
    assert told(p).cure


@pytest.mark.parametrize("pair", [False, True])
def test_each_door_of_a_pair_is_weighed(pair: bool) -> None:
    p = read("pair = true\n" if pair else "")
    found = [one for one in doors.findings(p) if one.rule == doors.WEIGHT]
    assert len(found) == (2 if pair else 1)
