"""Dovetail templates: a strip for the end grain and a strip for a broad side, joined by a fold.

One for the tails and one for the pins of every corner. The paper is folded over the arris of the
board's end. The broad side is the outside; only where a lap covers the tails' ends has the
outside no line, and the inside is shown.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal, NamedTuple

from layout.checks.words import listed
from layout.joints.dovetail import Corner
from layout.mark import Cut, Hull, Mark
from layout.part import Face, Part
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.beside import Place, figures_above, figures_below
from layout.sheets.easel import CAUTION, LABEL, NAME, NOTE, ZERO, Easel, mm
from layout.sheets.figures_of import figure_on
from layout.sheets.groups import mark_ids

PAST = mm(18)  # how much of the board is shown past its baseline
LEFT = mm(16)
RIGHT = mm(46)
FOOT = mm(26)  # figures below, and what they are
HEAD = mm(24)  # figures above, and what they are


class _Fold(NamedTuple):
    """One board of a corner, unfolded: its end above, a broad side below, the fold between."""

    corner: Corner
    what: Literal["tails", "pins"]
    part: Part
    end: Face
    side: Face
    low: Fraction  # the stretch of the board's width that is shown, from its face edge
    high: Fraction
    thick: Fraction  # of the end strip
    long: Fraction  # from the end to the baseline
    at: Spot  # where the fold's left end lies on paper
    edge_left: bool

    @property
    def reach(self) -> Fraction:
        """How much of the broad side is shown, from the end."""
        return self.long + PAST

    def x(self, w: Fraction) -> Fraction:
        """A place across the board, on paper."""
        return self.at[0] + (w - self.low if self.edge_left else self.high - w)

    def on_end(self, w: Fraction, t: Fraction) -> Spot:
        """A place of the end grain, on paper: the shown broad side lies at the fold."""
        up = t if self.side == "face" else self.part.thickness - t
        return (self.x(w), self.at[1] + up)

    def on_side(self, u: Fraction, w: Fraction) -> Spot:
        """A place of the broad side, on paper; no further from the end than is shown."""
        from_end = u if self.end == "end A" else self.part.length - u
        if self.what == "pins":
            from_end -= self.corner.lip
        return (self.x(w), self.at[1] - min(from_end, self.reach))


def dovetails(piece: Piece) -> tuple[Sheet, ...]:
    """A template for the tails and one for the pins of every corner, those alike once."""
    groups: dict[object, list[_Fold]] = {}
    for corner in piece.corners:
        for fold in (_unfolded(corner, "tails"), _unfolded(corner, "pins")):
            groups.setdefault(_looks(piece, fold), []).append(fold)
    ids = mark_ids(piece)
    return tuple(_sheet(piece, group, ids) for group in groups.values())


def _unfolded(corner: Corner, what: Literal["tails", "pins"]) -> _Fold:
    part, end, side = corner.pins, corner.pin_face, _pin_side(corner)
    long, low, high = corner.tails.thickness, corner.low, corner.high
    thick = corner.pins.thickness
    if what == "tails":
        part, end, side = corner.tails, corner.tail_face, "back"
        long, low, high, thick = corner.depth, ZERO, part.width, part.thickness
    # seen from outside with the end up, W runs to the right at end A of a part that is not
    # mirrored; seen from inside it is the other way round
    right = (end == "end A") != part.placement.mirrored
    edge_left = right if side == "back" else not right
    if corner.lip and what == "pins":
        # the end lies within a lip: what is left of the thickness before it
        rabbet = corner.pins.thickness - corner.spacing.depth
        thick = corner.pins.thickness - rabbet
    return _Fold(corner, what, part, end, side, low, high, thick, long,
                 (ZERO, FOOT + long + PAST), edge_left)


def _pin_side(corner: Corner) -> Face:
    return "back" if corner.through else "face"


def _looks(piece: Piece, fold: _Fold) -> object:
    """What must agree for two corners to share a template."""
    lines = frozenset(
        (mark.role, mark.face == fold.end, frozenset(_drawn(mark, fold)))
        for mark in _marks(piece, fold)
    )
    return (fold.what, fold.part.kind, fold.side, fold.edge_left, fold.thick, fold.long,
            fold.low, fold.high, fold.corner.lip, lines)


def _drawn(mark: Mark, fold: _Fold) -> tuple[Spot, Spot]:
    """A mark's line on paper; what runs along the board is drawn as far as it is shown."""
    assert mark.line is not None
    a, b = mark.line
    if mark.face == fold.end:
        return fold.on_end(*a), fold.on_end(*b)
    if mark.joint != fold.corner.name:
        return (fold.x(a[1]), fold.at[1]), (fold.x(a[1]), fold.at[1] - fold.reach)
    return fold.on_side(*a), fold.on_side(*b)


def _marks(piece: Piece, fold: _Fold) -> list[Mark]:
    """The corner's own lines on both strips, and what else runs over them."""
    found = []
    for mark in piece.marks_of(fold.part.id):
        if mark.line is None or mark.face not in (fold.end, fold.side):
            continue
        # grooves, rabbets and glue lines run along the board
        along = mark.face == fold.side and mark.line[0][1] == mark.line[1][1]
        beside = along and not mark.joint.endswith(".lip") and "." in mark.joint
        other_corner = mark.joint.rsplit(".", 1)[-1] in ("A", "B", "C", "D")
        inside = fold.low < mark.line[0][1] < fold.high
        if mark.joint == fold.corner.name or (beside and inside and not other_corner):
            found.append(mark)
    return found


def _sheet(piece: Piece, group: list[_Fold], ids: dict[Mark, str]) -> Sheet:
    one = group[0]
    words = _words(piece, one)
    deep = mm(5) * len(words) + mm(13)
    board = Easel(piece.rule)
    top, bottom = _stations(piece, one)
    left = max(_room_left(board, row, one.high - one.low) for row in (top, bottom))
    one = one._replace(at=(left, one.at[1] + deep))
    named = _waste(board, piece, one)
    _lines(board, piece, one, ids)
    for word, at in named:
        _name(board, word, at)
    _frame(board, one)
    head = one.at[1] + one.thick
    foot = one.at[1] - one.reach
    reach = one.x(one.high) if one.edge_left else one.x(one.low)
    wide = [reach, *_figures(board, one, top, bottom, head, foot)]
    _thicknesses(board, one, reach)
    letters = sorted({fold.corner.letter for fold in group})
    _names(board, one, letters, list(dict.fromkeys(fold.part.name for fold in group)))
    y = deep - mm(6)
    for line in words:
        board.text((mm(2), y), line, LABEL)
        y -= mm(5)
    board.text((mm(2), mm("0.8")), CAUTION, NOTE)
    wide += [mm(4) + text_width(line, LABEL) for line in words]
    parts = list(dict.fromkeys(f"{fold.part.name}, {fold.end}" for fold in group))
    corners = f"corner{'s' if len(letters) > 1 else ''} {listed(letters)}"
    side = "outside" if one.side == "back" else "inside"
    edge = "to the lower lip" if one.corner.lip and one.what == "pins" else "face edge"
    boxes = listed(list(dict.fromkeys(_box(fold) for fold in group)))
    sides = [one.x(w) for w in (*top, *bottom)]
    return Sheet(
        f"{one.what.capitalize()}: {boxes}, {corners}",
        f"{side.capitalize()} below the fold; heavy edge: {edge}. {'; '.join(parts)}",
        board.scene(max(max(wide), reach + RIGHT), head + HEAD + mm(13)),
        "full size",
        keep_whole=tuple(sorted({(x - mm(2), x + mm(2)) for x in sides})),
    )


def _box(fold: _Fold) -> str:
    """The drawer or chest, as its joints are named."""
    return fold.corner.name.rsplit(".", 1)[0].replace("-", " ")


def _stations(piece: Piece, fold: _Fold) -> tuple[list[Fraction], list[Fraction]]:
    """Places across the board to tell: above the end strip, and below the broad one."""
    top, bottom = set(), set()
    for mark in piece.marks_of(fold.part.id):
        if mark.joint != fold.corner.name or mark.line is None or not any(
            word in mark.role for word in ("side of tail", "square side")
        ):
            continue
        spots = mark.line
        if mark.face == fold.end:
            high = max(spots, key=lambda spot: fold.on_end(*spot)[1])
            top.add(high[0])
        elif mark.face == fold.side:
            low = min(spots, key=lambda spot: fold.on_side(*spot)[1])
            bottom.add(low[1])
    return sorted(top), sorted(bottom)


def _waste(board: Easel, piece: Piece, fold: _Fold) -> list[tuple[str, Spot]]:
    """What is cut away, hatched on both strips; grooves and rabbets only outlined. Returns their
    names, and where to write them.
    """
    named: list[tuple[str, Spot]] = []
    for cut in piece.cuts_of(fold.part.id):
        if not isinstance(cut.shape, Hull):
            continue
        if cut.joint == fold.corner.name:
            for corners in _shown(cut, fold):
                board.hatch_polygon(corners)
        elif cut.role == "bottom groove" or cut.role.startswith("edge rabbet"):
            figure = figure_on(cut.shape, fold.part, fold.end)
            corners = [fold.on_end(w, t) for w, t in figure]
            if fold.corner.lip and fold.what == "pins":
                continue  # cut before the pins are marked: the template lies within it
            board.polygon(corners, Pen.NARROW)
            if corners:
                x = sum((spot[0] for spot in corners), ZERO) / len(corners)
                y = min(spot[1] for spot in corners) - mm(1) - NOTE
                named.append(("groove" if "groove" in cut.role else "rabbet", (x, y)))
    return named


def _name(board: Easel, words: str, at: Spot) -> None:
    """A word over hatching: on white, after everything that would run through it."""
    half = text_width(words, NOTE) / 2 + mm("0.5")
    low, high = (at[0] - half, at[1] - mm("0.7")), (at[0] + half, at[1] + NOTE + mm("0.3"))
    board.rectangle(low, high, None, "white")
    board.text(at, words, NOTE, "middle")


def _shown(cut: Cut, fold: _Fold) -> Iterator[list[Spot]]:
    """A cut's figures on the end strip and on the broad side, on paper."""
    inner = cut.shape
    assert isinstance(inner, Hull)
    if fold.corner.lip and fold.what == "pins":
        # its end stands in from the board's own: the figure there is its section at the lip
        ends = sorted({point[0] for point in inner.points})
        at = ends[0] if fold.end == "end A" else ends[-1]
        spots = [(w, t) for l, w, t in inner.points if l == at]  # noqa: E741
        yield [fold.on_end(w, t) for w, t in _round(spots)]
    else:
        yield [fold.on_end(w, t) for w, t in figure_on(inner, fold.part, fold.end)]
    yield [fold.on_side(u, w) for u, w in figure_on(inner, fold.part, fold.side)]


def _round(spots: list[Spot]) -> list[Spot]:
    """The four corners of a trapezoid in order round it."""
    low = sorted(spot for spot in spots if spot[1] == min(s[1] for s in spots))
    high = sorted(spot for spot in spots if spot[1] == max(s[1] for s in spots))
    return [*low, *high[::-1]]


def _lines(board: Easel, piece: Piece, fold: _Fold, ids: dict[Mark, str]) -> None:
    """Every mark on the two strips."""
    for mark in _marks(piece, fold):
        pen = Pen.WIDE if mark.tool in ("knife", "bevel") else Pen.NARROW
        if mark.tool == "pencil":
            pen = Pen.HIDDEN
        board.line(*_drawn(mark, fold), pen, ids[mark])


def _frame(board: Easel, fold: _Fold) -> None:
    """Outline, fold, the heavy face edge with its caret."""
    head, foot = fold.at[1] + fold.thick, fold.at[1] - fold.reach
    near, far = fold.x(fold.low), fold.x(fold.high)
    left, right = min(near, far), max(near, far)
    board.line((left, head), (right, head), Pen.WIDE)
    board.line((far, foot), (far, head), Pen.WIDE)
    board.line((near, foot), (near, head), Pen.HEAVY)
    board.line((left, foot), (right, foot), Pen.HIDDEN)
    board.line((left - mm(6), fold.at[1]), (right + mm(6), fold.at[1]), Pen.FOLD)
    if not (fold.corner.lip and fold.what == "pins"):
        board.caret((near, foot + mm(9)), mm(4), "left" if fold.edge_left else "right")


def _figures(
    board: Easel, fold: _Fold, top: list[Fraction], bottom: list[Fraction], head: Fraction,
    foot: Fraction,
) -> list[Fraction]:
    """Places from the face edge above and below, each row with its word; how far they reach."""
    above, below = {
        ("tails", "back"): ("at the end", "at the baseline"),
        ("pins", "back"): ("inside", "outside"),
        ("pins", "face"): ("at the lap", "inside"),
    }[(fold.what, fold.side)]
    reach = [
        figures_above(board, [Place(w, fold.x(w), head) for w in top]),
        figures_below(board, [Place(w, fold.x(w), foot) for w in bottom]),
    ]
    lip = ", the lip included" if fold.corner.lip and fold.what == "pins" else ""
    for words, y in ((above, head + mm(20)), (below, foot - mm(22))):
        board.text((mm(2), y), f"{words}, from the face edge{lip}", NOTE, bold=True)
    return reach


def _room_left(board: Easel, places: list[Fraction], wide: Fraction) -> Fraction:
    """How far in from the left the board is drawn, so that its figures have room."""
    pitch = max((board.figure_width(w, NAME, True) for w in places), default=ZERO) + mm(2)
    return max(LEFT, (pitch * (len(places) + 1) - wide) / 2 + mm(3), pitch / 2 + mm(3))


def _thicknesses(board: Easel, fold: _Fold, reach: Fraction) -> None:
    """The baseline's distance from the end, the board's thickness or what the lap leaves of it."""
    x = reach + mm(12)
    y = fold.at[1]
    for low, high, length in (
        (y - fold.long, y, fold.long),
        (y, y + fold.corner.depth if _lapped(fold) else y + fold.thick,
         fold.corner.depth if _lapped(fold) else fold.thick),
    ):
        for at in (low, high):
            board.line((reach + mm(1), at), (x + mm(2), at), Pen.THIN)
        board.arrow((x, low), (x, high), Pen.THIN)
        board.arrow((x, high), (x, low), Pen.THIN)
        board.figure((x + mm(3), (low + high) / 2 - NAME / 2), length, NAME, bold=True)
    lap = fold.thick - fold.corner.depth
    if _lapped(fold) and lap > 0:
        top = y + fold.thick
        board.line((reach + mm(1), top), (x + mm(18), top), Pen.THIN)
        board.line((x + mm(2), top - lap), (x + mm(18), top - lap), Pen.THIN)
        width = board.figure((x + mm(19), top - lap / 2 - LABEL / 2), lap, LABEL, bold=True)
        board.text((x + mm(20) + width, top - lap / 2 - NOTE / 2), "lap", NOTE)


def _lapped(fold: _Fold) -> bool:
    return fold.what == "pins" and fold.corner.depth < fold.thick


def _names(board: Easel, fold: _Fold, letters: list[str], parts: list[str]) -> None:
    """What each strip is, and the letter of the corner in a ring."""
    near, far = fold.x(fold.low), fold.x(fold.high)
    left, right = min(near, far), max(near, far)
    side = "outside" if fold.side == "back" else "inside"
    foot = fold.at[1] - fold.reach
    words = f"{fold.what}, {side}"
    if text_width(words, LABEL, True) > right - left - mm(16):
        words = side
    # away from the face edge, where a groove may run
    at_right = fold.edge_left
    x = right - mm(6) if at_right else left + mm(6)
    board.text((x, foot + mm(3)), words, LABEL, "right" if at_right else "left", bold=True)
    if right - left > mm(200):
        x = left + mm(40) if at_right else right - mm(40)
        board.text((x, foot + mm(3)), words, LABEL, "left" if at_right else "right", bold=True)
    head = fold.at[1] + fold.thick + HEAD + mm(1)
    x = mm(8)
    for letter in letters:
        board.circle((x, head + mm(5)), mm(5), Pen.WIDE, "white")
        board.text((x, head + mm("2.5")), letter, NAME, "middle", bold=True)
        x += mm(13)
    whose = listed(parts)
    if len(parts) > 2 or text_width(whose, NAME, True) > mm(80):
        whose = fold.part.kind
    name = f"corner{'s' if len(letters) > 1 else ''}: {fold.what} of the {whose}"
    board.text((x - mm(4), head + mm("2.8")), name, NAME, bold=True)


def _words(piece: Piece, fold: _Fold) -> list[str]:
    """How to lay it, the slope and the divider step, a line each."""
    corner, spacing = fold.corner, fold.corner.spacing
    slope = spacing.choice.slope
    side = "outside" if fold.side == "back" else "inside"
    start = "the rabbet's shoulder" if corner.lip and fold.what == "pins" else "the end"
    first = spacing.choice.first == fold.what
    rows = [
        f"Fold on the dash-dot line over the arris of {start} and the {side}; hatched is waste.",
        f"Bevel 1 in {slope.ratio_text.removeprefix('1 in ')}, {slope.degrees_text} degrees. "
        + ("These are cut first." if first else f"Mark from the {spacing.choice.first}; this "
           "tells where they should come."),
    ]
    if spacing.step is not None and len(spacing.tails) > 1:
        from layout.measure import show

        step = show(spacing.step, piece.rule).with_unit
        told = f"Dividers at {step}, a tail and a pin at the end"
        if spacing.members[0].kind == "half pin":
            told += ": step from the line of one half pin, then from the other"
        rows.append(f"{told}.")
    # narrow enough that no join of pages falls into it
    return [line for row in rows for line in wrap(row, LABEL, mm(150), False)]
