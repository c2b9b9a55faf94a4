"""Scenes onto paper: sizes, pages, tiles, PDF and SVG, and reading them back to be sure.

This room knows lines, text and millimetres, nothing of wood.
"""
