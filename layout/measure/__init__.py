"""Lengths at the edges: reading what a maker writes, rounding, and showing it again.

Inside the program a length is an exact Fraction of a millimetre; only this room knows of units.
Importing it is cheap: pint is loaded when a unit other than inch, foot or mm is first read.
"""

from __future__ import annotations

from layout.measure.exact import decimal_text, exact_text, nearest, ratio_text, read_exact
from layout.measure.read import read_count, read_length
from layout.measure.rule import Rule, Shown, default_rule, dual, other_rule, read_rule, show
from layout.measure.slope import Slope, read_slope

__all__ = [
    "Rule",
    "Shown",
    "Slope",
    "decimal_text",
    "default_rule",
    "dual",
    "exact_text",
    "nearest",
    "other_rule",
    "ratio_text",
    "read_count",
    "read_exact",
    "read_length",
    "read_rule",
    "read_slope",
    "show",
]
