"""The maker's tools that sizes are chosen from."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.defaults import Unit, default_lengths, default_ratio
from layout.measure.slope import Slope

GaugeKind = Literal["mortise gauge", "marking gauge"]


class DovetailCutter(NamedTuple):
    """A cutter for dovetails: its greatest diameter in mm, and the slope of its sides."""

    diameter: Fraction
    slope: Slope


class Kit(NamedTuple):
    """Widths in mm of the tools that cut a size, and whether both walls of a mortise are struck
    at once.

    `listed` names the lists that are the maker's own; the others are the usual ones.
    """

    chisels: tuple[Fraction, ...]
    gauge: GaugeKind = "mortise gauge"
    mortise_bits: tuple[Fraction, ...] = ()
    drills: tuple[Fraction, ...] = ()
    cutters: tuple[Fraction, ...] = ()
    listed: frozenset[str] = frozenset()
    dovetail_cutters: tuple[DovetailCutter, ...] = ()

    @property
    def mortise_tools(self) -> tuple[Fraction, ...]:
        """Every width of mortise that one tool makes at one stand: chisels and mortise bits.

        Of a maker who lists either, only what they list.
        """
        if "mortise_bits" in self.listed and "chisels" not in self.listed:
            return self.mortise_bits
        return (*self.chisels, *self.mortise_bits)


def usual_kit(unit: Unit, gauge: GaugeKind = "mortise gauge") -> Kit:
    """The usual chisels and drills where the maker lists none (defaults.toml)."""
    return Kit(
        default_lengths("chisels", unit), gauge, drills=default_lengths("drills", unit)
    )


def chisel_for(stock: Fraction, kit: Kit, share: str = "tenon_share") -> Fraction:
    """The mortise tool nearest to a share of a thickness; of two equally near, the wider.

    `share` names the rule in defaults.toml: a third for one tenon (William Fairham, Woodwork
    Joints, 1921, General Rule). The wider of two: Griffith's practice tenon (1912, Plate 1) is
    3/8 in 1 in stock, the nearest chisel above one third.
    """
    return nearest_tool(stock * default_ratio(share), kit.mortise_tools)


def nearest_tool(wanted: Fraction, tools: Iterable[Fraction]) -> Fraction:
    """The tool nearest to a size in mm; of two equally near, the larger."""
    return min(tools, key=lambda width: (abs(width - wanted), -width))


def neighbours(wanted: Fraction, tools: Iterable[Fraction]) -> tuple[Fraction, ...]:
    """The next smaller and the next larger tool, of those there are; in mm."""
    widths = set(tools)
    below = [width for width in widths if width < wanted]
    above = [width for width in widths if width > wanted]
    return tuple(([max(below)] if below else []) + ([min(above)] if above else []))
