"""The JSON Schemas that the program publishes, as judges by jsonschema; made once and kept.

`jsonschema.validate` holds the schema itself against the standard at every call, which takes
longer than all that is asked of a small file. Here that is done when a judge is first asked for.
"""

from __future__ import annotations

import json
import re
from collections.abc import Hashable
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator

import layout

PACKAGE = Path(layout.__file__).parent
NAMES = ("part", "joint", "role", "name", "label")
"""Keys of cuts, marks and sums whose words may be any words."""


def numbers_judge() -> Draft202012Validator:
    """The judge of the numbers' JSON."""
    return _judge(PACKAGE / "numbers.schema.json")


def hold(numbers: dict[str, Any]) -> None:
    """Hold the numbers against their schema: ValidationError where they don't keep it."""
    numbers_judge().validate(one_of_each_form(numbers))


def one_of_each_form(numbers: dict[str, Any]) -> dict[str, Any]:
    """The numbers with the first cut, mark and sum of each form.

    The schema asks of an exact number only that its text fits a pattern, and of a name only that
    it is text. So of hundreds of these that differ in nothing else, what holds of one holds of
    all, and jsonschema, which takes longer than all other judges together, is asked once.
    """
    exact = re.compile(numbers_judge().schema["$defs"]["exact"]["pattern"])

    def form(value: object, key: str = "") -> Hashable:
        if isinstance(value, dict):
            return tuple((name, form(one, name)) for name, one in value.items())
        if isinstance(value, list):
            return (list, *(form(one, key) for one in value))
        if isinstance(value, str) and key in NAMES:
            return ("a name",)
        if isinstance(value, str) and exact.search(value):
            return ("an exact number",)
        return (type(value), value)

    kept = dict(numbers)
    for kind in ("cuts", "marks", "sums"):
        first: dict[Hashable, Any] = {}
        for one in numbers[kind]:
            first.setdefault(form(one), one)
        kept[kind] = list(first.values())
    return kept


def piece_judge() -> Draft202012Validator:
    """The judge of piece files."""
    return _judge(PACKAGE / "piece_file" / "piece.schema.json")


@cache
def _judge(path: Path) -> Draft202012Validator:
    schema = json.loads(path.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)
