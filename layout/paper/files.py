"""Files put where the maker asked, all of them or none."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from layout.errors import CantWrite, Where

DRAWN_BY = "drawn by Shoulderline at full size"
_LONGEST = 80
_NAMELESS = "sheet"
# Names that some systems keep for devices, with or without an ending.
_RESERVED = {"con", "prn", "aux", "nul", *(f"{p}{n}" for p in ("com", "lpt") for n in range(10))}


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write every file, or leave everything as it was.

    Each is first written in full beside its target; only when all are there do they take their
    names, replacing what was there. Folders that are missing are made. Raises CantWrite, with
    the target that could not be written; then no file is new and none is changed.
    """
    made: list[Path] = []  # folders, the outermost first
    waiting: dict[Path, Path] = {}  # target: the finished file beside it
    before: dict[Path, bytes | None] = {}  # what a renamed target held
    target = Path()
    try:
        for index, (target, data) in enumerate(files.items()):
            made += _make_folder(target.parent)
            if target.is_dir():
                raise IsADirectoryError(f"{target} is a folder")
            beside = target.parent / f".{os.getpid()}-{index}.part"
            waiting[target] = beside
            with beside.open("xb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
        for target, beside in waiting.items():
            held = target.read_bytes() if target.exists() else None
            beside.replace(target)
            before[target] = held
    except BaseException as error:
        _undo(waiting, before, made)
        if not isinstance(error, OSError):
            raise
        raise CantWrite(
            f"it can't be written: {error.strerror or error}",
            "choose a folder that you may write to: --out FOLDER",
            Where(file=str(target)),
        ) from error


def _make_folder(folder: Path) -> list[Path]:
    """Make a folder and what it lies in, and say which of them are new, the outermost first."""
    missing = []
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    made = []
    for one in reversed(missing):
        one.mkdir()
        made.append(one)
    return made


def _undo(
    waiting: Mapping[Path, Path], before: Mapping[Path, bytes | None], made: list[Path]
) -> None:
    """Put everything back. Each step is tried, whatever becomes of the others."""
    for beside in waiting.values():
        with suppress(OSError):
            beside.unlink(missing_ok=True)
    for target, held in before.items():
        with suppress(OSError):
            if held is None:
                target.unlink(missing_ok=True)
            else:
                target.write_bytes(held)
    for folder in reversed(made):
        with suppress(OSError):
            folder.rmdir()


def safe_name(text: str) -> str:
    """A plain file name from any words: small letters, figures and hyphens, never empty.

    It holds no path, is no name that an operating system keeps for itself, and has at most 80
    letters.
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii")
    slug = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:_LONGEST].strip("-")
    if not slug:
        return _NAMELESS
    return f"{slug}-{_NAMELESS}" if slug in _RESERVED else slug


_OUR_DRAWING = re.compile(r"[0-9]{2,}-[a-z0-9-]+[.]svg")


def clear_old_drawings(folder: Path, keep: set[Path]) -> None:
    """Take drawings of an earlier packet out of its folder, so that none is cut from by mistake.

    Only files that are named like ours and say that we drew them; anything else stays.
    """
    for path in sorted(folder.iterdir()):
        if path in keep or not _OUR_DRAWING.fullmatch(path.name) or path.is_symlink():
            continue
        with suppress(OSError):
            with path.open("rb") as opened:
                ours = DRAWN_BY.encode() in opened.read(4096)
            if ours:
                path.unlink()
