"""From parts to stock: the cut list (boards and milling come on top of it)."""
