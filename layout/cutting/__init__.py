"""Rectangles out of larger rectangles by cuts from edge to edge: what a board plan rests on.

Knows nothing of wood: whole numbers in, places of pieces out. Prices of the search are floats; the
places that it finds are whole numbers, and are proved by whoever asked for them.
"""
