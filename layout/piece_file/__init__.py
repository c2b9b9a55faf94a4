"""TOML in, a maker's choices out."""
