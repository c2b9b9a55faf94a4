"""Do two tenons meet inside a leg? Posts and tenons as books print them.

The test (geometry): with g from the leg's outer face to the near cheek and t the thickness, a
tenon of length L at the height of another one runs into it where L > leg - (g + t). Where both end
short of that, what is left between them lies from corner to corner: the root of both distances
squared and added, told rounded down to 1e-12 mm.

Sources of the figures:
  J. S. Zerbe, Carpentry for Boys, 1914, ch. V (common table)
  H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 1, 1909 (library table, Fig. 2;
    waste-paper basket)
  H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 2, 1910 (medicine cabinet)
  H. H. Windsor (ed.), Mission Furniture: How to Make It, Part 3, 1912 (umbrella stand; fern stand)
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt
from pathlib import Path

import pytest

from tests.outside.outsider import MEETING, OVERLAP, Numbers, findings, inch, numbers_of, rules_at

LEGS = {"front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg"}


@dataclass(frozen=True)
class Case:
    """Leg, rail thickness, near cheek from the outer face, tenon thickness and length, inches."""

    leg: str
    rail: str
    cheek: str
    tenon: str
    length: str
    left: str  # what is left between two such tenons at one height; less than nothing: they meet

    def toml(self, wall: str = "0", end_length: str | None = None, end_drop: str = "0") -> str:
        """A frame with four such rails; the end rails' tenon and height may differ."""
        shoulder = (inch(self.rail) - inch(self.tenon)) / 2
        set_in = (inch(self.cheek) - shoulder) / inch("1")
        return f"""
piece = "Two tenons in a leg"
unit = "in"

[limits]
wall = "{wall}"

[frame]
length = 30
depth = 20
height = 30
leg = {{ width = "{self.leg}", thickness = "{self.leg}" }}
tenon = {{ length = "{self.length}", thickness = "{self.tenon}", glue_room = 0 }}

[[frame.rail]]
name = "long rail"
sides = ["front", "back"]
top = "flush"
width = 3
thickness = "{self.rail}"
set_in = "{set_in}"

[[frame.rail]]
name = "end rail"
sides = ["left", "right"]
below_top = "{end_drop}"
width = 3
thickness = "{self.rail}"
set_in = "{set_in}"
tenon = {{ length = "{end_length or self.length}" }}
"""


def corner_to_corner(one: Fraction, other: Fraction) -> Fraction:
    """The distance of two corners, one and other apart each way; rounded down to 1e-12 mm."""
    whole = (one**2 + other**2) * 10**24
    found = Fraction(isqrt(whole.numerator // whole.denominator), 10**12)
    assert found**2 <= one**2 + other**2 < (found + Fraction(1, 10**12)) ** 2
    return found


def told(left: Fraction) -> Fraction:
    """What is told of two tenons of one length: how far they run into each other, or how far
    their corners are apart when each ends `left` before the other.
    """
    return left if left <= 0 else corner_to_corner(left, left)


# The four printed cases: collide, collide by 1/8, clear by 1/8, just touching.
ZERBE = Case("2", "1", "1/2", "1/2", "1 1/2", "-1/2")  # limit 1
LIBRARY = Case("3", "7/8", "1 1/8", "1/2", "1 1/2", "-1/8")  # limit 1 3/8; the rail's 7/8 is ours
CABINET = Case("1 1/2", "3/4", "5/8", "1/4", "1/2", "1/8")  # limit 5/8
UMBRELLA = Case("1 1/2", "7/8", "1/2", "1/2", "1/2", "0")  # limit 1/2
# More of the same books.
BASKET = Case("1 1/4", "3/4", "7/16", "3/8", "1/2", "-1/16")  # 1 1/4 - 7/16 - 3/8 = 7/16
# The fern stand's tenons of 3/4 in posts of 1 1/2 (thickness not printed) meet on the centre line
# whatever their thickness: by half of it.
FERN = (
    Case("1 1/2", "3/4", "5/8", "1/4", "3/4", "-1/8"),
    Case("1 1/2", "3/4", "9/16", "3/8", "3/4", "-3/16"),
    Case("1 1/2", "3/4", "1/2", "1/2", "3/4", "-1/4"),
)
NAMED = {
    "common table": ZERBE,
    "library table": LIBRARY,
    "medicine cabinet": CABINET,
    "umbrella stand": UMBRELLA,
    "waste-paper basket": BASKET,
    "fern stand, 1/4": FERN[0],
    "fern stand, 3/8": FERN[1],
    "fern stand, 1/2": FERN[2],
}
EACH = pytest.mark.parametrize("case", NAMED.values(), ids=NAMED.keys())


def worked_out(tmp_path: Path, text: str) -> Numbers:
    path = tmp_path / "piece.toml"
    path.write_text(text, encoding="utf-8")
    return numbers_of(path)


def met(n: Numbers) -> set[tuple[str, str, Fraction]]:
    """Leg, level and what is left between the tenons, for each meeting reported."""
    found = {
        (leg, one["level"], Fraction(one["figures"]["between the tenons"]))
        for one in findings(n, MEETING)
        for leg in one["parts"]
    }
    assert len(found) == len(findings(n, MEETING))
    return found


@EACH
def test_printed_tenons_at_one_height(tmp_path: Path, case: Case) -> None:
    """With no least wall asked for, only those are reported that run into each other."""
    n = worked_out(tmp_path, case.toml())
    left = inch(case.left)
    assert left == inch(case.leg) - (inch(case.cheek) + inch(case.tenon)) - inch(case.length)
    if left < 0:
        assert met(n) == {(leg, "stop", left) for leg in LEGS}
        assert len(findings(n, OVERLAP)) == 4
        assert rules_at(n, "stop") == {MEETING, OVERLAP}
    else:
        assert met(n) == set()
        assert rules_at(n, "stop") == set()


@EACH
def test_with_the_usual_least_wall(tmp_path: Path, case: Case) -> None:
    """3/16 is asked for: clear by 1/8 and just touching are pointed out, but are no stop."""
    n = worked_out(tmp_path, case.toml(wall="3/16"))
    left = told(inch(case.left))
    assert left < inch("3/16")
    level = "stop" if left < 0 else "caution"
    assert met(n) == {(leg, level, left) for leg in LEGS}


@EACH
def test_the_cure_is_the_limit_less_the_wall_and_it_cures(tmp_path: Path, case: Case) -> None:
    """It names the longest tenon that leaves 3/16; cut to that, nothing more is reported."""
    n = worked_out(tmp_path, case.toml(wall="3/16"))
    limit = inch(case.leg) - inch(case.cheek) - inch(case.tenon)
    assert len(findings(n, MEETING)) == 4
    for one in findings(n, MEETING):
        long, end = re.findall(r"at most (.+?) in for .*? or (.+?) in for", one["try"])[0]
        assert inch(long) == inch(end) == limit - inch("3/16")
        assert met(worked_out(tmp_path, case.toml(wall="3/16", end_length=end))) == set()


@EACH
def test_a_wall_as_thick_as_what_is_left_is_enough(tmp_path: Path, case: Case) -> None:
    """Asked for as much as is left, or a hair less, nothing is said; a hair more, and it is."""
    steps = max(told(inch(case.left)), Fraction(0)) * 10**11 // 1  # as far as a wall can be typed
    enough, more = (f"{n // 10**11}.{n % 10**11:011} mm" for n in (steps, steps + 1))
    n = worked_out(tmp_path, case.toml(wall=enough))
    assert (met(n) == set()) is (inch(case.left) >= 0)
    n = worked_out(tmp_path, case.toml(wall=more))
    level = "stop" if inch(case.left) < 0 else "caution"
    assert met(n) == {(leg, level, told(inch(case.left))) for leg in LEGS}


def test_from_corner_to_corner_in_whole_figures(tmp_path: Path) -> None:
    """The cabinet's tenons, one shorter: 3/32 and 4/32 before the other's cheek, 5/32 apart."""
    # limit 5/8: 5/8 - 17/32 = 3/32 and 5/8 - 1/2 = 4/32; 3, 4 and 5 make a right angle
    assert inch("5/8") - inch("17/32") == inch("3/32")
    case = Case("1 1/2", "3/4", "5/8", "1/4", "17/32", "3/32")
    n = worked_out(tmp_path, case.toml(wall="11/64", end_length="1/2"))
    assert met(n) == {(leg, "caution", inch("5/32")) for leg in LEGS}
    assert met(worked_out(tmp_path, case.toml(wall="5/32", end_length="1/2"))) == set()


@EACH
def test_the_longest_that_clears(tmp_path: Path, case: Case) -> None:
    """One tenon of each pair shortened to the limit touches; 1/64 longer, it is stopped."""
    limit = inch(case.leg) - inch(case.cheek) - inch(case.tenon)
    text = case.toml(wall="1/64", end_length=str(limit / inch("1")))
    # where both are shorter than the limit (the cabinet's), the shorter of the two decides
    left = limit - min(limit, inch(case.length))
    touching = {(leg, "caution", Fraction(0)) for leg in LEGS}
    assert met(worked_out(tmp_path, text)) == (touching if left == 0 else set())

    longer = str((limit + inch("1/64")) / inch("1"))
    text = case.toml(end_length=longer).replace(
        f'length = "{case.length}", thickness', f'length = "{longer}", thickness'
    )
    assert text.count(f'length = "{longer}"') == 2
    n = worked_out(tmp_path, text)
    assert met(n) == {(leg, "stop", inch("-1/64")) for leg in LEGS}


@EACH
def test_at_different_heights_they_pass(tmp_path: Path, case: Case) -> None:
    """The end rails stand 3 lower, below the long rails: no two mortises share a height."""
    n = worked_out(tmp_path, case.toml(end_drop="3"))
    assert met(n) == set()
    assert findings(n, OVERLAP) == []
