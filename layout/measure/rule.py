"""Showing lengths at the graduations of the maker's rule.

A size is counted in graduations first, as one whole number, then split into whole and
fraction, so that just under 3 in shows 3 and never 2 32/32. What rounding moved is kept, and said:
`full` where the true size is a little more than the figure, `bare` where it is a little less.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from layout.errors import BadMeasure
from layout.measure.exact import decimal_text, nearest
from layout.measure.read import quoted, read_length
from layout.measure.units import INCH, MM

Unit = Literal["in", "mm"]

_UNIT_LENGTH: dict[Unit, Fraction] = {"in": INCH, "mm": MM}
_STEPS: dict[Unit, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(1, n) for n in (8, 16, 32, 64, 128)),
    "mm": (Fraction(1), Fraction(1, 2), Fraction(1, 10)),
}


@dataclass(frozen=True)
class Rule:
    """A rule's unit, and its finest graduation in that unit.

    Inches: 1/8, 1/16, 1/32, 1/64 or 1/128. Millimetres: 1, 1/2 or 1/10. BadMeasure for others.
    """

    unit: Unit
    step: Fraction

    def __post_init__(self) -> None:
        """BadMeasure for a graduation that no rule has."""
        if self.step not in _STEPS.get(self.unit, ()):
            raise BadMeasure(f"there is no rule of {self.step} {self.unit}", _rules_cure())

    @property
    def step_mm(self) -> Fraction:
        """The graduation in mm."""
        return self.step * _UNIT_LENGTH[self.unit]

    def __str__(self) -> str:
        """`1/32 in`, `0.5 mm`."""
        if self.unit == "in":
            return f"{self.step} in"
        return f"{decimal_text(self.step)} mm"


def rules() -> tuple[Rule, ...]:
    """Every rule that sizes can be shown by: inches coarse to fine, then millimetres."""
    return tuple(Rule(unit, step) for unit, steps in _STEPS.items() for step in steps)


def _rules_cure() -> str:
    inch = ", ".join(str(step) for step in _STEPS["in"])
    metric = ", ".join(decimal_text(step) for step in _STEPS["mm"])
    return f"write one of: {inch} in; {metric} mm"


def default_rule(unit: Unit) -> Rule:
    """1/32 in, or 0.5 mm: what a bench rule shows."""
    return Rule("in", Fraction(1, 32)) if unit == "in" else Rule("mm", Fraction(1, 2))


def read_rule(text: str, unit: Unit) -> Rule:
    """The rule that the maker names: `1/32 in`, `1/32`, `0.5 mm`, `0.5`.

    A bare number is in `unit`. BadMeasure, listing the rules there are, for anything else.
    """
    try:
        step = read_length(text, unit)
    except BadMeasure as error:
        raise BadMeasure(error.what, _rules_cure()) from None
    for rule in rules():
        if rule.step_mm == step:
            return rule
    raise BadMeasure(f"there is no rule graduated in {quoted(text)}", _rules_cure())


@dataclass(frozen=True)
class Shown:
    """A length as a figure at a rule, and what the figure leaves unsaid.

    `sign` is that of the figure: -1, or 1 (0 too). At an inch rule `numerator`/`denominator` is
    the fraction beside `whole`, in lowest terms, 0/1 where there is none. At a millimetre rule
    it is always 0/1 and `decimals` holds the digits after the point ("5" in 43.5, "" in 43).
    `drift` is the exact length less the shown one, in mm. `nuance` compares sizes without
    their signs: "full" where the true size is a little more than the figure, "bare" where it is
    a little less. (A small negative length that shows as 0 is "bare": it is less than 0.)
    """

    sign: Literal[-1, 1]
    whole: int
    numerator: int
    denominator: int
    decimals: str
    unit: Unit
    drift: Fraction
    nuance: Literal["", "full", "bare"]

    @property
    def length(self) -> Fraction:
        """The shown length in mm, worked out from the figure's own parts."""
        value = self.whole + Fraction(self.numerator, self.denominator)
        if self.decimals:
            value += Fraction(int(self.decimals), 10 ** len(self.decimals))
        return self.sign * value * _UNIT_LENGTH[self.unit]

    @property
    def figure(self) -> str:
        """The number alone: `2 13/32`, `13/32`, `43.5`, `0`."""
        minus = "-" if self.sign < 0 else ""
        if self.decimals:
            return f"{minus}{self.whole}.{self.decimals}"
        if not self.numerator:
            return f"{minus}{self.whole}"
        fraction = f"{self.numerator}/{self.denominator}"
        return f"{minus}{self.whole} {fraction}" if self.whole else f"{minus}{fraction}"

    @property
    def text(self) -> str:
        """The number and how it is to be taken: `2 13/32 full`."""
        return f"{self.figure} {self.nuance}" if self.nuance else self.figure

    @property
    def with_unit(self) -> str:
        """Number, unit, and how it is to be taken: `2 13/32 in full`."""
        named = f"{self.figure} {self.unit}"
        return f"{named} {self.nuance}" if self.nuance else named


def show(length: Fraction, rule: Rule) -> Shown:
    """A length in mm at the nearest graduation of a rule, halves away from zero."""
    graduations = nearest(length / rule.step_mm)
    drift = length - graduations * rule.step_mm
    sign: Literal[-1, 1] = -1 if graduations < 0 else 1
    nuance: Literal["", "full", "bare"] = ""
    if drift:
        nuance = "full" if drift * sign > 0 else "bare"
    whole, rest = divmod(abs(graduations) * rule.step, 1)
    if rule.unit == "in":
        return Shown(sign, whole, rest.numerator, rest.denominator, "", "in", drift, nuance)
    decimals = decimal_text(rest).removeprefix("0").removeprefix(".")
    return Shown(sign, whole, 0, 1, decimals, "mm", drift, nuance)


def other_rule(rule: Rule) -> Rule:
    """The rule that a size is shown at in the unit that the maker does not work in."""
    return default_rule("mm" if rule.unit == "in" else "in")


def dual(length: Fraction, rule: Rule) -> str:
    """A length in mm in both units: `60 mm (2 3/8 in bare)`.

    First at the maker's rule, then in brackets at the other unit's default rule. Each figure
    is rounded from the exact length and has its own full or bare.
    """
    return f"{show(length, rule).with_unit} ({show(length, other_rule(rule)).with_unit})"
