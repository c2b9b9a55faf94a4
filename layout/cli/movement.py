"""The `movement` command: one board between moistures, without a piece file."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, NamedTuple

from layout.cli.answer import Shown, read_shown_rule, read_unit
from layout.cli.lines import dumped
from layout.cli.typed import in_options
from layout.defaults import Unit
from layout.errors import BadMeasure, BadRequest, BadWood, Where
from layout.measure import Rule, exact_text, read_length, show
from layout.measure.read import quoted
from layout.wood.moisture import Moisture, read_moisture
from layout.wood.movement import SAWN, Movement, Way, carried_length, movement
from layout.wood.species import Sawn, Wood, find, is_sheet

# A wood's mean: boards differ from it.
MEAN = "a board may differ from the mean of its wood by a tenth or more"


class BoardWords(NamedTuple):
    """A board and its moistures, as typed."""

    timber: str
    width: str | None
    thickness: str | None
    now: str
    to: tuple[str, ...]
    sawn: str


class Board(NamedTuple):
    """A board: its wood, how it is sawn, and its sizes today in mm."""

    wood: Wood
    sawn: Sawn
    sizes: tuple[tuple[Way, Fraction], ...]
    now: Moisture


def tell_movement(words: BoardWords, shown: Shown) -> int:
    """Print what a board becomes at each moisture; always 0."""
    unit = read_unit(shown.unit)
    rule = read_shown_rule(shown.rule, unit)
    board = _board(words, unit)
    steps = [(after, _moved(board, after)) for after in _moistures(words)]
    if shown.as_json:
        print(dumped(_told(board, steps)))
        return 0
    wood = board.wood
    lines = [f"{wood.name}: {wood.source}", f"{board.sawn}-sawn, today {board.now.words}"]
    if not all(change.read for _, moved in steps for change in moved):
        lines.append("a figure of this wood is from memory, not read in the table")
    for after, moved in steps:
        lines += ["", f"at {after.words}"]
        for (way, size), change in zip(board.sizes, moved, strict=True):
            first, *others = size_lines(way, size, change, rule)
            lines += [f"    {way:<9}  {first}", *(f"{'':15}{line}" for line in others)]
    print("\n".join([*lines, "", MEAN]))
    return 0


def size_lines(way: str, size: Fraction, change: Movement, rule: Rule) -> list[str]:
    """What one size of a board becomes: the sum, and the figure at the maker's rule."""
    figure = show(size, rule).with_unit
    if not change.share:
        return [f"{figure}, as today"]
    more, less = ("wider", "narrower") if way == "width" else ("thicker", "thinner")
    word = more if change.share > 0 else less
    by = carried_length(abs(size * change.share), change.digits, rule.unit)
    return [
        f"{figure} x {change.words}",
        f"= {by} {word}, {show(size * (1 + change.share), rule).with_unit}",
    ]


def _board(words: BoardWords, unit: Unit) -> Board:
    if is_sheet(words.timber):
        raise BadRequest(f"{quoted(words.timber)} keeps its size: sheets and glass hardly move",
                         "name a wood, e.g. 'white oak'", Where(key="WOOD"))
    try:
        wood = find(words.timber)
    except BadWood as error:
        raise BadWood(error.what, in_options(error.cure, {})).at(Where(key="WOOD")) from None
    if words.sawn not in SAWN:
        raise BadRequest(f"a board can't be sawn '{words.sawn}'", f"one of {', '.join(SAWN)}",
                         Where(key="--sawn"))
    sizes: list[tuple[Way, Fraction]] = []
    ways: tuple[tuple[Way, str | None], ...] = (
        ("width", words.width), ("thickness", words.thickness)
    )
    for way, written in ways:
        if written is None:
            continue
        try:
            size = read_length(written, unit)
        except BadMeasure as error:
            raise error.at(Where(key=f"--{way}")) from None
        if size == 0:
            raise BadRequest("a size must be more than 0", "", Where(key=f"--{way}"))
        sizes.append((way, size))
    if not sizes:
        raise BadRequest("no size is given", 'give --width "11 1/2", or --thickness',
                         Where(key="--width"))
    return Board(wood, words.sawn, tuple(sizes), _moisture(words.now, "--from"))


def _moisture(written: str, flag: str) -> Moisture:
    try:
        return read_moisture(written)
    except BadWood as error:
        raise error.at(Where(key=flag)) from None


def _moistures(words: BoardWords) -> list[Moisture]:
    return [_moisture(one, "--to") for one in words.to]


def _moved(board: Board, after: Moisture) -> list[Movement]:
    try:
        return [movement(board.wood, board.sawn, way, board.now, after) for way, _ in board.sizes]
    except BadWood as error:
        early = board.now.content > board.wood.starts_at
        raise error.at(Where(key="--from" if early else "--to")) from None


def _told(board: Board, steps: list[tuple[Moisture, list[Movement]]]) -> dict[str, Any]:
    return {
        "format": 1,
        "wood": board.wood.name,
        "source": board.wood.source,
        "sawn": board.sawn,
        "from": exact_text(board.now.content),
        "to": [
            {
                "moisture": exact_text(after.content),
                **{
                    way: {
                        "before": exact_text(size),
                        "after": exact_text(size * (1 + change.share)),
                        "change": exact_text(size * change.share),
                    }
                    for (way, size), change in zip(board.sizes, moved, strict=True)
                },
            }
            for after, moved in steps
        ],
    }
