"""The `milling` command: every machine set once for each size, in order, for the whole batch."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from layout.cli.lines import dumped, said
from layout.cli.shop import opened_shop
from layout.measure import exact_text
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_and_stock
from layout.stock.milling import Kind, Step, milling
from layout.stock.rough import rough_list

# What each operation is told as, and the caution at its machine, in our own words: common practice,
# no source, but for the lengths, whose sources stand in defaults.toml.
TOLD: dict[Kind, tuple[str, str]] = {
    "crosscut rough": ("crosscut the rough boards; set the stop, from the longest down",
                       "no stop against the fence and a loose offcut between: it jams and flies"),
    "rip rough": ("rip to rough width, from the widest down",
                  "one edge must be straight first; riving knife and push stick in place"),
    "joint a face": ("joint one face of everything, hollow side down, feeding with the grain that "
                     "rises toward the outfeed; mark it as the face side",
                     "push blocks, never a hand over the head; nothing shorter than the machine's "
                     "manual allows"),
    "plane to thickness": ("plane to thickness, the table closing up from one setting to the next; "
                           "feed with the grain, face side down",
                           "one length after another, stand aside, never look or reach in"),
    "joint an edge": ("joint one edge square to the face side; mark it as the face edge",
                      "fence at the back, hands well over the head's guard"),
    "glue up": ("glue up what is of several boards or layers, then scrape it clean",
                "cured glue chips knives: scrape before it goes to a machine"),
    "plane to width": ("plane to width on edge, several of a size side by side, face edge down",
                       "only what stands safely on its edge"),
    "rip to width": ("rip to width at the saw, face edge to the fence, from the widest down",
                     "riving knife, guard and push stick; the last stretch by push stick only"),
    "square one end": ("square end A of everything",
                       "let the blade stop before you take the piece"),
    "cut to length": ("cut to finished length; set the stop, from the longest down; blanks of "
                      "several parts come apart here",
                      "short pieces by a clamp or a sled, never by hand"),
}
LAST = "At every machine its own manual, its guards and local rules come first."


def tell_milling(path: Path, as_json: bool = False) -> int:
    """Print the steps; always 0."""
    choice, stock = piece_and_stock(path, opened_shop())
    piece = work_out(choice)
    rough = rough_list(piece, stock)
    steps = milling(rough)
    if as_json:
        print(dumped(_numbers(piece, steps)))
        return 0
    print("\n".join(milling_lines(piece, steps)))
    if any(one.strips for one in rough):
        print("A top's strips have a page of their own in the packet.")
    return 0


def milling_lines(piece: Piece, steps: tuple[Step, ...]) -> list[str]:
    """The steps as lines of text, numbered, a heading and a caution for every operation."""
    lines: list[str] = [f"Milling the {piece.name}"]
    before: Kind | None = None
    for number, step in enumerate(steps, start=1):
        if step.kind != before:
            words, caution = TOLD[step.kind]
            lines += ["", words, f"    ({caution})"]
            before = step.kind
        lines.append(f"{number:>3}. {_setting(piece, step)}{_who(step)}")
    return [*lines, "", LAST]


def _setting(piece: Piece, step: Step) -> str:
    return "" if step.setting is None else f"{said(piece, step.setting)}: "


def _who(step: Step) -> str:
    """What passes: how many of which part."""
    named: dict[str, int] = {}
    for one in step.batches:
        named[one.rough.row.name] = named.get(one.rough.row.name, 0) + one.many
    return ", ".join(f"{many} × {name}" for name, many in named.items())


def _numbers(piece: Piece, steps: tuple[Step, ...]) -> dict[str, Any]:
    return {
        "format": 1, "piece": piece.name, "rule": str(piece.rule),
        "steps": [
            {
                "number": number, "kind": step.kind,
                "setting": None if step.setting is None else exact_text(step.setting),
                "pieces": [{"name": one.rough.row.name, "parts": list(one.rough.row.parts),
                            "many": one.many} for one in step.batches],
            }
            for number, step in enumerate(steps, start=1)
        ],
    }
