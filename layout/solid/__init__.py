"""Exact solid geometry: convex bodies, bored holes, distances, and which pairs lie close."""
