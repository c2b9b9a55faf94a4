"""The commands; each is imported when it runs."""

from __future__ import annotations


def main() -> None:
    """Run the command line and leave with its exit code: 0 done, 1 a stop, 2 bad input."""
    import gc

    # A command lives for a moment: hunting for garbage while modules load only costs time.
    gc.disable()
    from layout.cli.app import run

    raise SystemExit(run())
