"""Backs of carcases: held by their rabbets, and tongues with wood beside them."""

from __future__ import annotations

from collections.abc import Iterator

from layout.builds.carcase import Carcase
from layout.checks.words import said
from layout.joints.tongue import thickness_of
from layout.mark import Finding
from layout.piece import Piece

HELD = "back held by its rabbets"
TONGUE = "tongues of the back"


def findings(piece: Piece) -> list[Finding]:
    """Findings on every carcase's back."""
    return [one for case in piece.carcases for one in _of(piece, case)]


def _of(piece: Piece, case: Carcase) -> Iterator[Finding]:
    back = case.choice.back
    if back is None:
        return
    who = tuple(part.id for part in case.back)
    boards = [case.left, case.right]
    if case.choice.slid is None:
        boards += [case.top, case.bottom]
    thin = min(boards, key=lambda part: part.thickness)
    if back.deep >= thin.thickness:
        yield Finding(HELD, "stop", (thin.id,),
                      f"a rabbet {said(piece, back.deep)} deep leaves nothing of the {thin.name}, "
                      f"{said(piece, thin.thickness)} thick",
                      (("deep", back.deep), ("thickness", thin.thickness)), "make it shallower")
    elif back.deep * 2 > thin.thickness:
        yield Finding(HELD, "caution", (thin.id,),
                      f"the back's rabbet takes {said(piece, back.deep)} of the {thin.name}'s "
                      f"{said(piece, thin.thickness)}, more than half",
                      (("deep", back.deep), ("thickness", thin.thickness)),
                      "make it at most half as deep as the board is thick")
    held = back.deep - back.room / 2
    if held * 2 <= back.deep:
        left = f"only {said(piece, held)} of it lies" if held > 0 else "nothing of it would lie"
        yield Finding(HELD, "stop" if held <= 0 else "caution", who,
                      f"the back of the {case.choice.name} is cut {said(piece, back.room)} smaller "
                      f"and its rabbets are {said(piece, back.deep)} deep: {left} in each",
                      (("room", back.room), ("deep", back.deep)),
                      "make the room less, or the rabbets deeper")
    yield from _tongues(piece, case, who)


def _tongues(piece: Piece, case: Carcase, who: tuple[str, ...]) -> Iterator[Finding]:
    back = case.choice.back
    if back is None or back.tongue is None:
        return
    thick = thickness_of(back.tongue, back.thickness)
    cheek = (back.thickness - thick) / 2
    if cheek <= 0:
        yield Finding(TONGUE, "stop", who,
                      f"a tongue {said(piece, thick)} thick takes all of boards "
                      f"{said(piece, back.thickness)} thick",
                      (("tongue", thick), ("board", back.thickness)), "make it thinner")
    elif cheek * 4 < back.thickness:
        yield Finding(TONGUE, "caution", who,
                      f"beside the groove for a tongue of {said(piece, thick)} only "
                      f"{said(piece, cheek)} is left of boards {said(piece, back.thickness)} thick",
                      (("cheek", cheek), ("board", back.thickness)),
                      "make the tongue at most half as thick as the boards")
    deep = back.tongue.length + back.tongue.room
    narrow = min(case.back, key=lambda part: part.width)
    if deep >= narrow.width:
        yield Finding(TONGUE, "stop", (narrow.id,),
                      f"a groove {said(piece, deep)} deep cuts through boards "
                      f"{said(piece, narrow.width)} wide",
                      (("groove", deep), ("width", narrow.width)),
                      "make the tongue shorter, or the boards fewer")
