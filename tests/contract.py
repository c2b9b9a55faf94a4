"""The JSON Schemas that the program publishes, as judges by jsonschema; made once and kept.

`jsonschema.validate` holds the schema itself against the standard at every call, which takes
longer than all that is asked of a small file. Here that is done when a judge is first asked for.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

from jsonschema import Draft202012Validator

import layout

PACKAGE = Path(layout.__file__).parent


def numbers_judge() -> Draft202012Validator:
    """The judge of the numbers' JSON."""
    return _judge(PACKAGE / "numbers.schema.json")


def piece_judge() -> Draft202012Validator:
    """The judge of piece files."""
    return _judge(PACKAGE / "piece_file" / "piece.schema.json")


@cache
def _judge(path: Path) -> Draft202012Validator:
    schema = json.loads(path.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)
