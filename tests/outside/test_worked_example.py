"""The project's own worked example, every figure of it, through the numbers object.

48 in over the legs, legs 2 1/2 wide, rails 1 1/8 thick and flush, a 1/4 panel in a rabbet 1/4
deep, tenons 1 1/4 long and 3/8 thick. The expected figures are pencil sums, written out below.
"""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tests.outside.outsider import (
    PIECES,
    Numbers,
    gap,
    inch,
    mortises,
    numbers_of,
    published,
    the_sum,
    total,
)

RAILS = ("front-upper-rail", "back-upper-rail", "front-lower-rail", "back-lower-rail")
LEGS = ("front-left-leg", "front-right-leg", "back-left-leg", "back-right-leg")


@pytest.fixture(scope="module")
def flush() -> Numbers:
    return published("worked_example")


@pytest.fixture(scope="module")
def set_in(tmp_path_factory: pytest.TempPathFactory) -> Numbers:
    """The same frame with its rails 1/8 behind the legs' faces."""
    text = (PIECES / "worked_example.toml").read_text(encoding="utf-8")
    assert text.count("set_in = 0\n") == 2
    path: Path = tmp_path_factory.mktemp("set_in") / "set_in.toml"
    path.write_text(text.replace("set_in = 0\n", 'set_in = "1/8"\n'), encoding="utf-8")
    return numbers_of(path)


def struck(n: Numbers, role: str) -> dict[str, set[tuple[str, Fraction]]]:
    """Part to (reference surface, distance in mm) of its gauge lines with a role."""
    found: dict[str, set[tuple[str, Fraction]]] = {}
    for mark in n["marks"]:
        if mark["role"] == role:
            assert mark["tool"] == "mortise gauge"
            at = (mark["from"], Fraction(mark["distance"]))
            found.setdefault(mark["part"], set()).add(at)
    return found


def stands_struck(n: Numbers) -> dict[tuple[Fraction, Fraction], set[str]]:
    """(near, far) stand of the mortise gauge in mm to the parts it is struck on.

    Only from the face side, and only for tenon cheeks and mortise walls.
    """
    found: dict[tuple[Fraction, Fraction], set[str]] = {}
    for one in n["settings"]:
        if one["tool"] == "mortise gauge":
            assert one["from"] == "face side"
            stand = (Fraction(one["distance"]), Fraction(one["second"]))
            assert stand not in found  # each stand of the gauge is made once
            found[stand] = {
                strike["part"]
                for strike in one["strikes"]
                if strike["role"] in {"near cheek", "far cheek", "near wall", "far wall"}
            }
    return found


def check_marks(n: Numbers, parts: tuple[str, ...], near: str, far: str, at: str, to: str) -> None:
    wanted_near = {part: {("face side", inch(at))} for part in parts}
    wanted_far = {part: {("face side", inch(to))} for part in parts}
    assert struck(n, near) == wanted_near
    assert struck(n, far) == wanted_far


@pytest.mark.parametrize("rail", RAILS)
def test_lengths(flush: Numbers, rail: str) -> None:
    # 48 - 2 1/2 - 2 1/2 = 43
    assert the_sum(flush, rail, "shoulder distance") == (
        [inch("48"), inch("-2 1/2"), inch("-2 1/2")],
        inch("43"),
    )
    # 43 + 1 1/4 + 1 1/4 = 45 1/2
    assert the_sum(flush, rail, "cut length") == (
        [inch("43"), inch("1 1/4"), inch("1 1/4")],
        inch("45 1/2"),
    )
    (part,) = [one for one in flush["parts"] if one["id"] == rail]
    assert Fraction(part["length"]) == inch("45 1/2")


def test_the_placed_legs_stand_as_far_apart(flush: Numbers) -> None:
    assert gap(flush, "front-left-leg", "front-right-leg", "X") == inch("43")
    assert gap(flush, "back-left-leg", "back-right-leg", "X") == inch("43")


@pytest.mark.parametrize("rail", RAILS)
def test_the_tenon_sits_in_the_wood_in_front_of_the_rabbet(flush: Numbers, rail: str) -> None:
    # 1 1/8 - 1/4 = 7/8
    assert the_sum(flush, rail, "wood in front of the seat") == (
        [inch("1 1/8"), inch("-1/4")],
        inch("7/8"),
    )
    # (7/8 - 3/8) / 2 = 1/4, and 1 1/8 - 1/4 - 3/8 = 1/2
    assert total(flush, rail, "outer shoulder") == inch("1/4")
    assert total(flush, rail, "inner shoulder") == inch("1/2")
    # 1/4 + 3/8 = 5/8
    assert total(flush, rail, "far cheek from the face side") == inch("5/8")


def test_gauge_lines_flush(flush: Numbers) -> None:
    check_marks(flush, RAILS, "near cheek", "far cheek", "1/4", "5/8")
    check_marks(flush, LEGS, "near wall", "far wall", "1/4", "5/8")


def test_one_setting_serves_rails_and_legs_when_flush(flush: Numbers) -> None:
    assert stands_struck(flush) == {(inch("1/4"), inch("5/8")): {*RAILS, *LEGS}}


def test_mortises_flush(flush: Numbers) -> None:
    across = {reach[2] for reach in mortises(flush).values()}  # T: from the leg's face side
    assert len(mortises(flush)) == 8
    assert across == {(inch("1/4"), inch("5/8"))}


def test_gauge_lines_set_in(set_in: Numbers) -> None:
    # the leg's become 1/8 + 1/4 = 3/8 and 1/8 + 5/8 = 3/4; the rail's stay
    check_marks(set_in, RAILS, "near cheek", "far cheek", "1/4", "5/8")
    check_marks(set_in, LEGS, "near wall", "far wall", "3/8", "3/4")


def test_two_settings_when_set_in(set_in: Numbers) -> None:
    assert stands_struck(set_in) == {
        (inch("1/4"), inch("5/8")): set(RAILS),
        (inch("3/8"), inch("3/4")): set(LEGS),
    }


def test_mortises_set_in(set_in: Numbers) -> None:
    across = {reach[2] for reach in mortises(set_in).values()}
    assert len(mortises(set_in)) == 8
    assert across == {(inch("3/8"), inch("3/4"))}


def test_setting_in_changes_no_length_and_no_shoulder(flush: Numbers, set_in: Numbers) -> None:
    names = ("shoulder distance", "cut length", "outer shoulder", "inner shoulder")
    for rail in RAILS:
        for name in names:
            assert the_sum(set_in, rail, name) == the_sum(flush, rail, name)


def test_nothing_stops_it(flush: Numbers, set_in: Numbers) -> None:
    for n in (flush, set_in):
        assert n["checks"]
        assert [one["text"] for one in n["checks"] if one["level"] == "stop"] == []
