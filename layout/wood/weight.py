"""What wood and glass weigh.

Mass = volume x specific gravity x 1000 kg per cubic metre x (1 + moisture / 100): the standard
relation (Wood Handbook, ch. 4; from memory) for specific gravity on ovendry mass and volume at
12 % moisture. That the volume differs a little at other moistures is left out.
"""

from __future__ import annotations

from fractions import Fraction

from layout.wood.moisture import Moisture
from layout.wood.species import Figure

# Kilograms in a cubic millimetre of water.
WATER = Fraction(1, 1_000_000)
# Float glass: 2500 kg per cubic metre (EN 572-1, from memory).
GLASS = Fraction(5, 2) * WATER
# The pound is 0.45359237 kg exactly (NIST Handbook 44, Appendix C).
POUND = Fraction("0.45359237")


def mass(volume: Fraction, gravity: Figure, moisture: Moisture) -> Fraction:
    """Kilograms of a volume of wood in cubic millimetres."""
    return volume * gravity.value * WATER * (1 + moisture.content / 100)
