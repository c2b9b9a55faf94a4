"""Strokes and text at real size: the recording that every writer replays."""
