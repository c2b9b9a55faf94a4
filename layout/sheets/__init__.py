"""Marks in, scenes out: what a maker holds in the hand. A sheet works out no joinery."""
