"""Files put in place: all of them or none."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layout.errors import CantWrite
from layout.paper.files import safe_name, write_all


def tree(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


def test_files_and_their_folders_are_made(tmp_path: Path) -> None:
    write_all({tmp_path / "a" / "b" / "one.pdf": b"1", tmp_path / "two.svg": b"2"})
    assert tree(tmp_path) == {"a/b/one.pdf": b"1", "two.svg": b"2"}
    write_all({tmp_path / "two.svg": b"new"})
    assert tree(tmp_path)["two.svg"] == b"new"
    write_all({})


def test_a_new_file_has_the_usual_rights(tmp_path: Path) -> None:
    write_all({tmp_path / "one.pdf": b"1"})
    (tmp_path / "plain").write_bytes(b"2")
    assert (tmp_path / "one.pdf").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_a_target_that_is_a_folder_leaves_everything_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "two.pdf").mkdir()
    (tmp_path / "one.pdf").write_bytes(b"old")
    with pytest.raises(CantWrite) as error:
        write_all({
            tmp_path / "one.pdf": b"new",
            tmp_path / "new folder" / "x.pdf": b"x",
            tmp_path / "two.pdf": b"new",
        })
    assert error.value.where.file == str(tmp_path / "two.pdf")
    assert error.value.cure
    assert tree(tmp_path) == {"one.pdf": b"old"}
    assert sorted(os.listdir(tmp_path)) == ["one.pdf", "two.pdf"]


def test_a_file_in_the_way_of_a_folder(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"a file")
    with pytest.raises(CantWrite):
        write_all({tmp_path / "out" / "deep" / "one.pdf": b"1"})
    assert tree(tmp_path) == {"out": b"a file"}


def test_a_rename_that_fails_halfway_is_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = {tmp_path / name: name.encode() for name in ("a", "b")}
    write_all(old)
    before = tree(tmp_path)
    really = Path.replace

    def fails_on_c(self: Path, target: Path) -> Path:
        if target.name == "c":
            raise OSError(28, "No space left on device")
        return really(self, target)

    monkeypatch.setattr(Path, "replace", fails_on_c)
    files = {tmp_path / name: b"new" for name in ("a", "new", "c", "b")}
    with pytest.raises(CantWrite, match="No space left") as error:
        write_all(files)
    assert error.value.where.file == str(tmp_path / "c")
    assert tree(tmp_path) == before


def test_a_write_that_fails_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = []

    def full(descriptor: int) -> None:
        calls.append(descriptor)
        if len(calls) == 2:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CantWrite):
        write_all({tmp_path / "out" / name: b"x" for name in ("a", "b", "c")})
    assert os.listdir(tmp_path) == []


def test_stopping_the_program_leaves_nothing_either(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stop(descriptor: int) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "fsync", stop)
    with pytest.raises(KeyboardInterrupt):
        write_all({tmp_path / "a": b"x"})
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Hall table", "hall-table"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\drawings", "c-drawings"),
        ("Éléonore’s bureau", "eleonores-bureau"),
        ("<script>", "script"),
        ("NUL", "nul-sheet"),
        ("com1", "com1-sheet"),
        ("", "sheet"),
        ("..", "sheet"),
        ("🪑", "sheet"),
        ("a\x00b\nc", "a-b-c"),
        ("x" * 500, "x" * 80),
    ],
)
def test_names_for_files(words: str, name: str) -> None:
    assert safe_name(words) == name


@given(st.text())
def test_any_words_make_a_plain_name(words: str) -> None:
    name = safe_name(words)
    assert name
    assert len(name) <= 80 + len("-sheet")
    assert set(name) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")
    assert not name.startswith("-")
    assert safe_name(name) == name
