"""The judge of the numbers sees a fault in any cut, mark or sum, asking once of each form."""

from __future__ import annotations

import copy
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import ValidationError

import layout
from tests.contract import hold, numbers_judge, one_of_each_form
from tests.outside.outsider import numbers_of

BENCH = Path(layout.__file__).parents[1] / "samples" / "repair_bench.toml"
NUMBERS = numbers_of(BENCH)

Spoil = Callable[[dict[str, Any]], object]
SPOILT: dict[str, tuple[str, Spoil]] = {
    "a decimal in a hull": ("cuts", lambda one: one["hull"][-1].__setitem__(2, "1.5")),
    "a number as such": ("cuts", lambda one: one["hull"][-1].__setitem__(2, 3)),
    "a corner too short": ("cuts", lambda one: one["hull"][-1].pop()),
    "a corner too few": ("cuts", lambda one: one.__setitem__("hull", one["hull"][:3])),
    "no role": ("cuts", lambda one: one.pop("role")),
    "a role that is no text": ("cuts", lambda one: one.__setitem__("role", 1)),
    "a part that is no text": ("marks", lambda one: one.__setitem__("part", None)),
    "no joint": ("marks", lambda one: one.pop("joint")),
    "an unknown face": ("marks", lambda one: one.__setitem__("face", "top")),
    "an unknown tool": ("marks", lambda one: one.__setitem__("tool", "saw")),
    "a number for a face": ("marks", lambda one: one.__setitem__("face", "1")),
    "a distance in words": ("marks", lambda one: one.__setitem__("distance", "far")),
    "a distance with a nought too many": ("marks", lambda one: one.__setitem__("distance", "01")),
    "a sign of no sum": ("sums", lambda one: one["terms"][-1].__setitem__("sign", "*")),
    "a total that is a decimal": ("sums", lambda one: one.__setitem__("total", "0.5")),
    "a term without a label": ("sums", lambda one: one["terms"][0].pop("label")),
    "a key too many": ("marks", lambda one: one.__setitem__("depth", "1")),
}


def test_sound_numbers_are_held() -> None:
    hold(NUMBERS)
    numbers_judge().validate(NUMBERS)


@pytest.mark.parametrize("what", SPOILT)
def test_a_fault_is_seen_wherever_it_is(what: str) -> None:
    kind, spoil = SPOILT[what]
    fitting = [place for place, one in enumerate(NUMBERS[kind]) if kind != "cuts" or "hull" in one]
    for place in (fitting[0], fitting[len(fitting) // 2], fitting[-1]):
        wrong = dict(NUMBERS)
        wrong[kind] = copy.deepcopy(NUMBERS[kind])
        spoil(wrong[kind][place])
        assert wrong[kind][place] in one_of_each_form(wrong)[kind]
        with pytest.raises(ValidationError):
            hold(wrong)


def test_few_are_asked_of() -> None:
    asked = one_of_each_form(NUMBERS)
    assert len(asked["cuts"]) + len(asked["marks"]) < 60
    assert len(NUMBERS["cuts"]) + len(NUMBERS["marks"]) > 800
