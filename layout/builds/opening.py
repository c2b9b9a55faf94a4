"""A named clear space that a build leaves between its parts, for others to be fitted to."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.part import Part

Side = Literal["front", "back", "left", "right"]


class Opening(NamedTuple):
    """A clear space seen from outside the piece, in mm.

    `width` and `height` are clear between the parts that bound it; `depth` runs from this
    outside face of the build to the opposite one. `low` and `high` are its foot and head
    above the floor. `lower` is None where nothing bounds it but the floor. `left` and `right`
    are named as seen from outside.
    """

    name: str
    side: Side
    width: Fraction
    height: Fraction
    depth: Fraction
    low: Fraction
    high: Fraction
    upper: Part
    lower: Part | None
    left: Part
    right: Part
