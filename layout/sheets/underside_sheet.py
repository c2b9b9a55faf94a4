"""A page of a top: its underside, with all that its holes must miss."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.top import Top
from layout.builds.tops import LaidTop
from layout.checks.words import said
from layout.joints.dogs import Dogs
from layout.mark import Mark
from layout.part import Part
from layout.piece import Piece
from layout.scene.arrows import grain_arrow
from layout.scene.lettering import text_width
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.beside import spread
from layout.sheets.easel import CAUTION, HEADING, LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.plan import Area, Plan, plan_on
from layout.stock.cut_list import cut_list

LEAST_NAMED = mm("3.4")  # a part drawn narrower than this is not named
ROW_PITCH = mm(7)  # from one row's figure to the next
HALF = Fraction(1, 2)
# Where a name may stand along a part: not where an even number of screws has one.
ALONG = (Fraction(1, 3), Fraction(2, 3), Fraction(1, 5), Fraction(4, 5))
Patch = tuple[Spot, Spot]


def underside(piece: Piece, laid: LaidTop, area: Area) -> Sheet:
    """The top face down with its front edge toward the reader: its left end lies at the right."""
    top, board = laid.top, Easel(piece.rule)
    plan = plan_on(piece, top.length, top.width, area, mm(40), mm(26))
    letters = {one: row.letter for row in cut_list(piece) for one in row.parts}
    if top.strips is not None:
        for line in top.strips.lines:
            _level(board, plan, line, Pen.THIN)
    under = [(part, _corners(top, plan, part)) for part in _under(piece, laid)]
    for _, corners in under:
        _keep_out(board, corners)
    named: list[Patch] = []
    for part, corners in under:
        _name(board, corners, (part.name, letters.get(part.id, "")), named)
    _own_zones(board, top, laid.dogs, plan)
    for part in top.parts:
        _outline(board, top, plan, part)
    for one in laid.dogs:
        _holes(board, top, one, plan)
    for mark in _screws(piece, laid):
        _screw(board, piece, top, plan, mark)
    _figures(board, top, laid, plan)
    board.text((ZERO, area[1] - mm(9)), f"Underside: {top.choice.name}", HEADING, bold=True,
               room=area[0])
    words = ("face down, front edge toward you: what is at the left when it lies on the piece is "
             "at the right here")
    more = ("hatched: what the holes must miss, letters as in the cut list; cross: a screw; thin: "
            "glue lines")
    lines = [CAUTION, more, words]
    if top.bearing is not None:
        over = top.choice.overhang
        sizes = zip(("front", "back", "left", "right"), over, strict=True)
        told = ", ".join(f"{side} {said(piece, size)}" for side, size in sizes)
        lines.append(f"dashed: the {top.bearing.name}; overhang: {told}")
    for row, told in enumerate(lines):
        board.text((ZERO, mm(2) + mm(4) * row), told, NOTE, room=area[0])
    return Sheet(f"Underside: {top.choice.name}", "holes, screws and what lies under the top",
                 board.scene(*area), "page", scale=plan.ratio)


def _spot(top: Top, plan: Plan, x: Fraction, y: Fraction) -> Spot:
    """A place of the piece on the underside's drawing: right and left change places."""
    left, front = x - top.origin[0], y - top.origin[1]
    return (plan.at[0] + plan.width - left * plan.scale, plan.at[1] + front * plan.scale)


def _level(board: Easel, plan: Plan, line: Fraction, pen: Pen) -> None:
    y = plan.at[1] + line * plan.scale
    board.line((plan.at[0], y), (plan.at[0] + plan.width, y), pen)


def _corners(top: Top, plan: Plan, part: Part) -> tuple[Spot, Spot]:
    """Two opposite corners of a part seen from below, cut off at the top's edges."""
    x, y = part.reach(0), part.reach(1)
    xs = [min(max(at, top.origin[0]), top.origin[0] + top.length) for at in x]
    ys = [min(max(at, top.origin[1]), top.origin[1] + top.width) for at in y]
    one, other = _spot(top, plan, xs[1], ys[0]), _spot(top, plan, xs[0], ys[1])
    return one, other


def _under(piece: Piece, laid: LaidTop) -> Iterator[Part]:
    """What stands within reach under the top."""
    top, own = laid.top, {part.id for part in laid.top.parts}
    below = top.choice.below
    for part in piece.parts:
        z = part.reach(2)
        if part.id not in own and z[0] < top.origin[2] and z[1] > top.origin[2] - below:
            yield part


def _keep_out(board: Easel, corners: tuple[Spot, Spot]) -> None:
    """What stands under the top, hatched."""
    low, high = corners
    if low[0] < high[0] and low[1] < high[1]:
        board.hatch(low, high)
        board.rectangle(low, high, Pen.NARROW)


def _name(
    board: Easel, corners: tuple[Spot, Spot], names: tuple[str, str], told: list[Patch]
) -> None:
    """The name of what stands under the top, where there is room for it, or else for its letter,
    that no other name has taken.
    """
    low, high = corners
    wide, tall = high[0] - low[0], high[1] - low[1]
    if min(wide, tall) < LEAST_NAMED:
        return
    upright = tall > wide
    for words in names:
        if text_width(words, NOTE) + mm(2) > max(wide, tall):
            continue
        for share in ALONG:
            middle = (low[0] + wide * (HALF if upright else share),
                      low[1] + tall * (share if upright else HALF))
            patch = _patch(middle, words, upright)
            if all(_apart(patch, other) for other in told):
                told.append(patch)
                _on_white(board, middle, words, upright)
                return


def _apart(one: Patch, other: Patch) -> bool:
    return any(one[1][at] <= other[0][at] or other[1][at] <= one[0][at] for at in (0, 1))


def _patch(middle: Spot, words: str, upright: bool) -> Patch:
    """The patch of white that a name stands on."""
    long, high = text_width(words, NOTE) / 2 + mm("0.8"), NOTE / 2 + mm("0.4")
    across, up = (high, long) if upright else (long, high)
    return (middle[0] - across, middle[1] - up), (middle[0] + across, middle[1] + up)


def _on_white(board: Easel, middle: Spot, words: str, upright: bool = False) -> None:
    """A note over lines and hatching, on a patch of white of its own."""
    low, high = _patch(middle, words, upright)
    board.rectangle(low, high, None, "white")
    if upright:
        board.text((middle[0] + NOTE / 2, middle[1]), words, NOTE, "middle", turn=90)
    else:
        board.text((middle[0], middle[1] - NOTE / 2), words, NOTE, "middle")


def _own_zones(board: Easel, top: Top, rows: tuple[Dogs, ...], plan: Plan) -> None:
    """What the maker said to miss: hatched across the row, with its name."""
    for row, said_ in zip(rows, top.choice.rows, strict=True):
        for zone in said_.dogs.zones:
            half = row.choice.size
            for line in _row_lines(top, row):
                xs = [top.main.placement.to_piece((at - top.beyond, ZERO, ZERO))[0]
                      for at in (zone.low, zone.high)]
                y = top.origin[1] + line
                low = _spot(top, plan, max(xs), y - half)
                high = _spot(top, plan, min(xs), y + half)
                board.hatch(low, high)
                board.rectangle(low, high, Pen.HIDDEN)
            _on_white(board, ((low[0] + high[0]) / 2, high[1] + mm("2.5")), zone.name)


def _outline(board: Easel, top: Top, plan: Plan, part: Part) -> None:
    low, high = _corners(top, plan, part)
    board.rectangle(low, high, Pen.WIDE)


def _row_lines(top: Top, row: Dogs) -> tuple[Fraction, ...]:
    """How far from the top's front edge each line of a row lies."""
    front = row.part.placement.origin[1] - top.origin[1]
    return tuple(front + line for line in row.choice.lines or (row.choice.size / 2,))


def _holes(board: Easel, top: Top, row: Dogs, plan: Plan) -> None:
    half = row.choice.size / 2
    for line in _row_lines(top, row):
        y = top.origin[1] + line
        for place in row.places:
            x = row.part.placement.to_piece((place, ZERO, ZERO))[0]
            at = _spot(top, plan, x, y)
            if row.choice.shape == "round":
                board.circle(at, half * plan.scale, Pen.WIDE, "white")
            else:
                foot = row.part.placement.to_piece((place + row.lean, ZERO, ZERO))[0]
                at = _spot(top, plan, foot, y)
                size = half * plan.scale
                board.rectangle((at[0] - size, at[1] - size), (at[0] + size, at[1] + size),
                                Pen.WIDE, "white")


def _screws(piece: Piece, laid: LaidTop) -> Iterator[Mark]:
    for mark in piece.marks:
        if mark.joint == f"{laid.top.main.id}.fixing":
            yield mark


def _screw(board: Easel, piece: Piece, top: Top, plan: Plan, mark: Mark) -> None:
    assert mark.point is not None
    part = piece.part(mark.part)
    x, y, _ = part.placement.to_piece((mark.point[0], mark.point[1], ZERO))
    at, arm = _spot(top, plan, x, y), mm("1.5")
    board.line((at[0] - arm, at[1] - arm), (at[0] + arm, at[1] + arm), Pen.WIDE)
    board.line((at[0] - arm, at[1] + arm), (at[0] + arm, at[1] - arm), Pen.WIDE)


def _figures(board: Easel, top: Top, laid: LaidTop, plan: Plan) -> None:
    """Overall sizes, the overhang, and how far each line of holes is from the front edge."""
    x, y = plan.at
    board.dimension((x, y - mm(8)), (x + plan.width, y - mm(8)), top.length)
    board.dimension((x - mm(8), y), (x - mm(8), y + plan.height), top.width)
    if top.bearing is not None:
        over = top.choice.overhang
        low = (x + over.right * plan.scale, y + over.front * plan.scale)
        high = (x + plan.width - over.left * plan.scale, y + plan.height - over.back * plan.scale)
        board.rectangle(low, high, Pen.HIDDEN)
    _row_figures(board, top, laid, plan)
    vise = x + plan.width if top.choice.vise == "left" else x
    end = mm(-4) if vise == x else mm(4)
    words = "end A, vise" if any(row.choice.vise for row in laid.dogs) else "end A"
    board.text((vise + end, y - mm(8)), words, LABEL, "right" if vise == x else "left", bold=True)
    board.put(grain_arrow((x + plan.width / 2, y + plan.height + mm(5)), mm(24)))


def _row_figures(board: Easel, top: Top, laid: LaidTop, plan: Plan) -> None:
    """How far each line of holes is from the front edge, kept clear of one another."""
    lines = sorted({line for row in laid.dogs for line in _row_lines(top, row)})
    most = int((plan.height + plan.at[1]) // ROW_PITCH)
    if len(lines) > most:
        return  # the drilling strips tell them
    right = plan.at[0] + plan.width
    wanted = [plan.at[1] + line * plan.scale - ROW_PITCH / 2 for line in lines]
    for line, low in zip(lines, spread(wanted, [ROW_PITCH] * len(lines)), strict=True):
        at, y = plan.at[1] + line * plan.scale, low + ROW_PITCH / 2
        board.line((right, at), (right + mm(4), at), Pen.THIN)
        board.line((right + mm(4), at), (right + mm(8), y), Pen.THIN)
        board.figure((right + mm(9), y - LABEL / 2), line, LABEL)
