"""What moves when parts come off the machines thinner or wider than drawn.

The piece is worked out twice, as drawn and as measured, and their sums are laid side by side: by
part and full name. A sum that only one of the two has is told too.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from layout.builds.choices import AsMilled
from layout.errors import BadPiece
from layout.mark import Sum
from layout.piece import Piece, PieceChoice, work_out


class Moved(NamedTuple):
    """A sum that measured parts changed: whose it is (a part's id), its name and place; what it
    was as drawn and is now, in mm. None where there is no such sum.
    """

    part: str
    name: str
    where: str
    was: Fraction | None
    now: Fraction | None

    @property
    def full_name(self) -> str:
        """Name and place together."""
        return f"{self.name} ({self.where})" if self.where else self.name

    @property
    def by(self) -> Fraction | None:
        """How much more it is now, in mm; None where there is nothing to compare."""
        return None if self.was is None or self.now is None else self.now - self.was


def as_drawn(choice: PieceChoice) -> PieceChoice:
    """The same choices without anything measured."""
    if choice.frame is None:
        return choice
    return choice._replace(frame=choice.frame._replace(milled=AsMilled()))


def moved(piece: Piece) -> tuple[Moved, ...]:
    """The sums of a piece that its measured parts moved; none where nothing was measured.

    BadPiece where the piece as drawn can't stand.
    """
    if not piece.choice.milled.parts:
        return ()
    try:
        nominal = work_out(as_drawn(piece.choice))
    except BadPiece as error:
        raise BadPiece(f"as drawn, {error.what}", error.cure, error.where) from None
    return compared(nominal, piece)


def compared(nominal: Piece, measured: Piece) -> tuple[Moved, ...]:
    """The sums that differ between a piece as drawn and as measured, in the order of the latter;
    those that are no more come last.
    """
    before, after = _by_name(nominal), _by_name(measured)
    found = []
    for key, sums in after.items():
        for index, sum_ in enumerate(sums):
            was = _counterpart(before, key, index)
            if was is None or was.total != sum_.total:
                found.append(Moved(*key, None if was is None else was.total, sum_.total))
    for key, sums in before.items():
        for index, sum_ in enumerate(sums):
            if index < len(after.get(key, ())):
                continue  # told above
            now = _counterpart(after, key, index)
            if now is None or now.total != sum_.total:
                found.append(Moved(*key, sum_.total, None if now is None else now.total))
    return tuple(found)


_Key = tuple[str, str, str]


def _by_name(piece: Piece) -> dict[_Key, list[Sum]]:
    found: dict[_Key, list[Sum]] = {}
    for sum_ in piece.sums:
        found.setdefault((sum_.part, sum_.name, sum_.where), []).append(sum_)
    return found


def _counterpart(sums: dict[_Key, list[Sum]], key: _Key, index: int) -> Sum | None:
    """The sum of the same part, name and place; where several share them, of the same number.

    A rail whose ends are alike has one sum for both; where a measured leg makes them differ, each
    end has its own, and the one for both is the counterpart of both.
    """
    part, name, where = key
    found = sums.get(key)
    if found is None and where in ("end A", "end B"):
        found = sums.get((part, name, ""))
    return found[min(index, len(found) - 1)] if found else None


def alike(piece: Piece, found: tuple[Moved, ...]) -> tuple[tuple[Moved, ...], ...]:
    """Rows that read alike together, to be told once: one kind of part, name, was and is."""
    groups: dict[object, list[Moved]] = {}
    for one in found:
        kind = piece.part(one.part).kind
        groups.setdefault((kind, one.name, one.was, one.now), []).append(one)
    return tuple(tuple(group) for group in groups.values())
