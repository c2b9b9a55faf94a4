"""The maker's tools that sizes are chosen from."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.defaults import Unit, default_lengths, default_ratio

GaugeKind = Literal["mortise gauge", "marking gauge"]


class Kit(NamedTuple):
    """Chisel widths in mm, and whether both walls of a mortise are struck at once."""

    chisels: tuple[Fraction, ...]
    gauge: GaugeKind = "mortise gauge"


def usual_kit(unit: Unit, gauge: GaugeKind = "mortise gauge") -> Kit:
    """The usual chisels where the maker lists none (defaults.toml, `chisels`)."""
    return Kit(default_lengths("chisels", unit), gauge)


def chisel_for(stock: Fraction, kit: Kit) -> Fraction:
    """The chisel nearest to one third of a thickness; of two equally near, the wider.

    Third: William Fairham, Woodwork Joints, 1921, General Rule. The wider of two: Griffith's
    practice tenon (1912, Plate 1) is 3/8 in 1 in stock, the nearest chisel above one third.
    """
    wanted = stock * default_ratio("tenon_share")
    return min(kit.chisels, key=lambda width: (abs(width - wanted), -width))
