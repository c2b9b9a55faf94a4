"""No command under test reads the tools of whoever runs the tests."""

from __future__ import annotations

import sys

import pytest

from layout.cli.app import run
from layout.cli.shop import VARIABLE


@pytest.fixture(autouse=True)
def no_shop(monkeypatch: pytest.MonkeyPatch) -> None:
    """An empty name: there is no shop file."""
    monkeypatch.setenv(VARIABLE, "")


@pytest.fixture
def call(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]):  # type: ignore[no-untyped-def]
    """Call the command line in this process: exit code, standard output, standard error."""

    def done(*words: str) -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "argv", ["shoulderline", *words])
        code = run()
        out, err = capsys.readouterr()
        return code, out, err

    return done
