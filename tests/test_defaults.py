"""What is taken where the maker says nothing: every entry has its source, and is really taken."""

from __future__ import annotations

import tomllib
from pathlib import Path

import layout

PACKAGE = Path(layout.__file__).parent
ENTRIES = tomllib.loads((PACKAGE / "defaults.toml").read_text(encoding="utf-8"))


def test_every_default_is_read_somewhere() -> None:
    code = "\n".join(path.read_text(encoding="utf-8") for path in PACKAGE.rglob("*.py"))
    assert [name for name in ENTRIES if f'"{name}"' not in code] == []


def test_every_default_names_its_source() -> None:
    for name, entry in ENTRIES.items():
        assert set(entry) == {"in", "mm", "says", "source", "how"}, name
        assert entry["how"] in ("read", "memory", "practice"), name
        if entry["how"] == "practice":
            assert "common practice, no source" in entry["source"], name
