"""Builds: overall sizes in, parts and joints out."""
