"""A page of a top: its strips in their order, and how they are glued up."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from layout.builds.top import Top
from layout.checks.words import said
from layout.joints.strips import Strip, Strips
from layout.piece import Piece
from layout.scene.lettering import text_width, wrap
from layout.scene.strokes import Pen, Sheet, Spot
from layout.sheets.easel import CAUTION, HEADING, LABEL, NOTE, ZERO, Easel, mm
from layout.sheets.plan import Area, Plan, plan_on

LEAST_STRIP = mm("3.2")  # strips drawn narrower than this are not all numbered
FEW = 5


def glue_up(piece: Piece, top: Top, strips: Strips, area: Area) -> Sheet:
    """A top's strips from above and from end A, and how they are glued up."""
    board = Easel(piece.rule)
    told = [*_cut_before(top, strips), *_words(piece, strips)]
    words = [line for one in told for line in wrap(one, LABEL, area[0])]
    below = mm(14) + mm(5) * len(words) + strips.milled / 4
    plan = plan_on(piece, strips.long, top.width, area, below + mm(22), mm(26))
    _strips_from_above(board, plan, strips)
    _triangle(board, plan)
    _ends(board, piece, strips, area, below - strips.milled / 4 + mm(2))
    x, y = plan.at
    board.dimension((x, y + plan.height + mm(5)), (x + plan.width, y + plan.height + mm(5)),
                    strips.long)
    board.text((ZERO, area[1] - mm(9)), f"Glue-up: {top.choice.name}", HEADING, bold=True,
               room=area[0])
    board.text((x, y - mm(6)), "front edge below; end A at the " + top.choice.vise, NOTE)
    for row, line in enumerate(reversed(words)):
        board.text((ZERO, mm(2) + mm(5) * row), line, LABEL, room=area[0])
    return Sheet(f"Glue-up: {top.choice.name}",
                 "strips in their order, arrows the way to plane; the triangle across all of them",
                 board.scene(*area), "page", scale=plan.ratio)


def _strips_from_above(board: Easel, plan: Plan, strips: Strips) -> None:
    """Every strip with its number, its staves and the way to plane it; sections bracketed."""
    x, y = plan.at
    every = 1 if min(one.width for one in strips.strips) * plan.scale >= LEAST_STRIP else FEW
    for number, strip in enumerate(strips.strips, start=1):
        low, high = y + strip.low * plan.scale, y + strip.high * plan.scale
        board.rectangle((x, low), (x + plan.width, high), Pen.NARROW)
        at = x
        for stave in strip.staves[:-1]:
            at += stave * plan.scale
            board.line((at, low), (at, high), Pen.WIDE)
        if number % every == 0 or number == 1:
            board.text((x - mm(3), (low + high) / 2 - mm(1)), str(number), NOTE, "right")
            _plane_way(board, (x + plan.width + mm(8), (low + high) / 2))
    _sections(board, plan, strips)


def _plane_way(board: Easel, at: Spot) -> None:
    board.arrow((at[0] - mm(5), at[1]), (at[0] + mm(2), at[1]), Pen.THIN)


def _sections(board: Easel, plan: Plan, strips: Strips) -> None:
    """A wide outline round each section, and its name at the left."""
    if len(strips.sections) < 2:
        return
    x, y = plan.at
    for number, wide in enumerate(strips.section_widths, start=1):
        low, high = y, y + wide * plan.scale
        board.rectangle((x, low), (x + plan.width, high), Pen.WIDE)
        words = f"section {number}"
        if text_width(words, NOTE) > high - low - mm(2):
            words = str(number)
        board.text((x - mm(10), (low + high) / 2), words, NOTE, "middle", turn=90)
        y = high


def _triangle(board: Easel, plan: Plan) -> None:
    """The maker's triangle across the whole glue-up: so the strips find their order again."""
    x, y = plan.at
    foot, tip = y + plan.height / 20, y + plan.height * 19 / 20
    middle, half = x + plan.width / 2, plan.width / 6
    for a, b in (((middle - half, foot), (middle + half, foot)), ((middle - half, foot),
                 (middle, tip)), ((middle + half, foot), (middle, tip))):
        board.line(a, b, Pen.NARROW)


def _ends(board: Easel, piece: Piece, strips: Strips, area: Area, y: Fraction) -> None:
    """The first strips from end A, large enough to see which way their heart sides lie."""
    shown = strips.strips[:6]
    wide = sum((one.width for one in shown), ZERO)
    scale = min(mm(150) / wide, mm(14) / strips.milled)
    x = (area[0] - wide * scale) / 2
    high = strips.milled * scale
    for number, strip in enumerate(shown):
        span = (x, x + strip.width * scale)
        board.rectangle((span[0], y), (span[1], y + high), Pen.WIDE)
        _rings(board, strips, number, span, (y, y + high))
        x = span[1]
    left = (area[0] - wide * scale) / 2
    note = "from end A: strips 1 to " + str(len(shown)) if len(shown) < len(
        strips.strips) else "from end A, front edge at the left"
    board.text((left, y + high + mm(3)), f"{note}; rings curve round the heart", NOTE)


def _rings(
    board: Easel, strips: Strips, number: int, span: tuple[Fraction, Fraction],
    level: tuple[Fraction, Fraction],
) -> None:
    """Two growth rings in a strip's end: they bulge away from the heart."""
    turned = strips.choice.heart == "alternate" and number % 2 == 1
    steps = [Fraction(n, 4) for n in range(-4, 5)]
    for share in (Fraction(1, 3), Fraction(3, 4)):
        if strips.choice.lay == "flat":
            half, deep = (span[1] - span[0]) / 2, (level[1] - level[0]) * share
            spots = [((span[0] + span[1]) / 2 + half * s,
                      level[1] - deep * (1 - s * s) if turned else level[0] + deep * (1 - s * s))
                     for s in steps]
        else:
            half, deep = (level[1] - level[0]) / 2, (span[1] - span[0]) * share
            spots = [(span[1] - deep * (1 - s * s) if turned else span[0] + deep * (1 - s * s),
                      (level[0] + level[1]) / 2 + half * s) for s in steps]
        for a, b in pairwise(spots):
            board.line(a, b, Pen.THIN)


def _cut_before(top: Top, strips: Strips) -> Iterator[str]:
    """The strip that is worked before it is glued in."""
    if top.strip is not None:
        front = top.strip.placement.origin[1] - top.origin[1]
        number = 1 + [one.low for one in strips.strips].index(front)
        yield f"cut the square holes into strip {number} before it is glued in"


def _words(piece: Piece, strips: Strips) -> Iterator[str]:
    choice = strips.choice
    kinds: dict[Fraction, int] = {}
    for one in strips.strips:
        kinds[one.width] = kinds.get(one.width, 0) + 1
    way = "wide" if choice.lay == "flat" else "thick"
    deep = "thick" if choice.lay == "flat" else "wide"
    each = "; ".join(f"{many} strip{'s' if many > 1 else ''} {said(piece, width)} {way}"
                     for width, many in kinds.items())
    yield (f"{each}; mill them {said(piece, strips.milled)} {deep}, cut them "
           f"{said(piece, strips.long)} long")
    yield from _stave_words(piece, strips.strips)
    heart = {"alternate": "heart sides turned in turn", "up": "all heart sides one way"}
    faces = "heart to heart and back to back" if choice.heart == "alternate" else (
        "all hearts one way")
    yield (f"{heart[choice.heart] if choice.lay == 'flat' else faces}; grain running out the same "
           "way, along the arrows, so that the top planes one way")
    if len(strips.strips) > 1:
        then = ""
        if len(strips.sections) > 1:
            wide = ", ".join(said(piece, one) for one in strips.section_widths)
            then = f"; plane each section, then join them: {wide}"
        yield (f"{strips.clamps} clamps, {said(piece, strips.clamp_spacing)} apart at the most, "
               f"over and under in turn{then}")
    yield CAUTION


def _stave_words(piece: Piece, strips: tuple[Strip, ...]) -> Iterator[str]:
    if all(len(one.staves) == 1 for one in strips):
        return
    kinds = (("odd", strips[0]), ("even", strips[1])) if len(strips) > 1 else (("all", strips[0]),)
    told = "; ".join(
        f"{word} strips: {', '.join(said(piece, stave) for stave in one.staves)}"
        for word, one in kinds
    )
    yield f"staves from end A: {told}"
