"""Do dog holes miss what they must, and does the vise hold any length of work with them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from layout.checks.words import listed, said
from layout.joints import dog_spacing as spacing
from layout.mark import Finding
from layout.piece import Piece

if TYPE_CHECKING:
    from layout.joints.dogs import Dogs

CLEAR = "dog holes clear of what they must miss"
SPACED = "dog holes as even as can be"
VISE = "pitch against the vise"
HELD = "work that the dogs hold"
WALL = "wood beside the dog holes"
CUT = "which way the dogs lean"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops, cautions and notes for every row."""
    found: list[Finding] = []
    for dogs in piece.dogs:
        found += _clear(piece, dogs)
        found += _spaced(piece, dogs)
        found += _vise(piece, dogs)
        found += _walls(piece, dogs)
    return found


def _clear(piece: Piece, dogs: Dogs) -> Iterator[Finding]:
    """Every hole, as it is cut, against every zone."""
    choice, who = dogs.choice, (dogs.part.id,)
    nearest: Fraction | None = None
    for cut in piece.cuts_of(dogs.part.id):
        if cut.joint != dogs.joint:
            continue
        low, high = cut.shape.reach("L")
        for zone in choice.zones:
            apart = max(zone.low - high, low - zone.high)
            nearest = apart if nearest is None else min(nearest, apart)
            if apart < choice.clear:
                yield Finding(
                    CLEAR, "stop", who,
                    f"{cut.role} comes within {said(piece, max(apart, ZERO))} of the {zone.name}; "
                    f"least {said(piece, choice.clear)}", (("apart", apart),),
                    "move the first hole, or take another pitch",
                )
    if nearest is not None and nearest >= choice.clear:
        yield Finding(
            CLEAR, "note", who,
            f"the holes keep {said(piece, nearest)} from what they must miss", (("apart", nearest),)
        )


def _spaced(piece: Piece, dogs: Dogs) -> Iterator[Finding]:
    """Where an even row would not do: what it would hit, and what was found instead."""
    if dogs.places == dogs.even:
        return
    from layout.joints.dogs import blocked

    taken = blocked(dogs.choice, dogs.part.thickness)
    hits = dict.fromkeys(
        f"the {zone.name}" for zone, span in zip(dogs.choice.zones, taken, strict=True)
        if not all(spacing.is_free(place, [span]) for place in dogs.even)
    )
    worst, _ = spacing.differences(dogs.places, dogs.pitch)
    count, even = len(dogs.places), len(dogs.even)
    short = "" if count == even else f"; it takes {count} holes instead of {even}"
    yield Finding(
        SPACED, "note", (dogs.part.id,),
        f"at an even {said(piece, dogs.pitch)} a hole would run into "
        f"{listed(list(hits))}: no gap differs from that by more than {said(piece, worst)}, "
        f"the least there can be on a grid of "
        f"{said(piece, dogs.choice.step)}{short}",
        (("pitch", dogs.pitch), ("greatest difference", worst)),
    )


def _vise(piece: Piece, dogs: Dogs) -> Iterator[Finding]:
    vise, who = dogs.choice.vise, (dogs.part.id,)
    if vise is None:
        return
    gaps = [after - before for before, after in pairwise(dogs.places)]
    widest = max(gaps, default=ZERO)
    if widest > vise.most:
        yield Finding(
            VISE, "caution", who,
            f"the holes stand up to {said(piece, widest)} apart; the vise opens "
            f"{said(piece, vise.opening)}, less {said(piece, vise.hand)} for the hand",
            (("gap", widest), ("most", vise.most)),
            f"take a pitch of at most {said(piece, vise.most)}",
        )
    held = dogs.held
    for (_, stop), (start, _) in pairwise(held):
        yield Finding(
            HELD, "caution", who,
            f"work longer than {said(piece, stop)} and shorter than {said(piece, start)} is not "
            "held between the dogs", (("from", stop), ("to", start)),
            "take a pitch no wider than the vise opens",
        )
    if held:
        yield Finding(
            HELD, "note", who,
            f"work from {said(piece, held[0][0])} to {said(piece, held[-1][1])} long is held "
            "between the dogs", (("shortest", held[0][0]), ("longest", held[-1][1])),
        )


def _walls(piece: Piece, dogs: Dogs) -> Iterator[Finding]:
    """Wood between a hole and the board's ends, and its edges."""
    choice, part, least = dogs.choice, dogs.part, piece.choice.wall_least
    half = choice.size / 2
    walls = [("end A", dogs.places[0] - half),
             ("end B", part.length - dogs.places[-1] - half - dogs.lean)]
    walls += [("front edge", line - half) for line in choice.lines]
    walls += [("back edge", part.width - line - half) for line in choice.lines]
    rows = sorted(choice.lines)
    walls += [("next row", after - before - choice.size) for before, after in pairwise(rows)]
    for name, wall in walls:
        if wall < least:
            yield Finding(
                WALL, "stop" if wall <= 0 else "caution", (part.id,),
                f"only {said(piece, max(wall, ZERO))} of wood between a dog hole and the {name} of "
                f"the {part.name}; least {said(piece, least)}", (("wood", wall), ("least", least)),
                "move the row, or make the dogs smaller",
            )
    if choice.lean is not None:
        yield Finding(
            CUT, "note", (part.id,),
            f"the dogs lean {choice.lean.degrees_text} degrees toward the vise: at the bottom a "
            f"hole lies {said(piece, dogs.lean)} farther from it than at the top",
            (("lean", dogs.lean),),
        )
