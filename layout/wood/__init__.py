"""What wood does with the seasons: species, moisture, movement and weight.

Sizes come in and go out as exact Fractions of a millimetre; the figures of the tables are exact
decimals. Every figure keeps its source.
"""
