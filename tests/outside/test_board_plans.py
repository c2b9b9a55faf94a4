"""Board plans before a judge who saws every board again: samples, racks of every kind, random ones.

The judge (judge_board_plan.py) has seen nothing of how plans are made. That it finds what is wrong
is shown by plans that were good, and are spoilt in one place.
"""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable
from contextlib import redirect_stdout
from copy import deepcopy
from fractions import Fraction
from functools import cache
from io import StringIO
from pathlib import Path
from random import Random

import pytest

from layout.cli.boards import tell_boards
from layout.cli.stock import tell_stock
from tests.outside.judge_board_plan import Json, complaints, told
from tests.outside.simple_filling import Bay, Need, Room, fill, fits

F = Fraction
INCH = F(127, 5)
HERE = Path(__file__).parent
SAMPLES = sorted((HERE.parents[1] / "samples").glob("*.toml"))
RACKS = sorted((HERE / "racks").glob("*.toml"))
EVERY = [HERE.parent / "piece_file" / "every_stock.toml"]
SEED, RANDOM = 1903, 25
Case = tuple[Json, Json, Json, Json]


def _json(tell: Callable[..., int], path: Path, **how: bool) -> Json:
    out = StringIO()
    with redirect_stdout(out):
        tell(path, as_json=True, **how)
    found: Json = json.loads(out.getvalue())
    return found


def case_of(path: Path) -> Case:
    """The plan, the rough list, the cut list, and the file as it stands."""
    file = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=str)
    return (_json(tell_boards, path), *_lists(path, file), file)


LISTS: dict[str, tuple[Json, Json]] = {}
"""Rough list and cut list of a piece, which do not hang on its boards: they are asked for once."""
OF_THE_RACK = {"board", "size", "ends", "thicker", "board_length", "sheet_width",
               "sheet_length"}


def _lists(path: Path, file: Json) -> tuple[Json, Json]:
    stock = {key: one for key, one in file.get("stock", {}).items() if key not in OF_THE_RACK}
    key = repr(file | {"stock": stock})
    if key not in LISTS:
        LISTS[key] = _json(tell_stock, path), _json(tell_stock, path, only_cut_list=True)
    return LISTS[key]


@cache
def rack(name: str) -> Case:
    return case_of(HERE / "racks" / f"{name}.toml")


def judged(case: Case) -> list[str]:
    plan, rough, cut_list, file = case
    return complaints(plan, rough, cut_list, told(file))


@pytest.mark.parametrize("path", [*SAMPLES, *EVERY], ids=lambda path: path.stem)
def test_samples_can_be_sawn_as_they_are_planned(path: Path) -> None:
    assert judged(case_of(path)) == []


@pytest.mark.parametrize("path", RACKS, ids=lambda path: path.stem)
def test_racks_can_be_sawn_as_they_are_planned(path: Path) -> None:
    assert judged(rack(path.stem)) == []


# ---- what a plan must come to, by sums that stand here

def _bought(name: str) -> dict[str, int]:
    """How many boards or sheets of each thickness a rack's plan buys, in the piece's unit."""
    plan, _, _, file = rack(name)
    unit = INCH if file["unit"] == "in" else F(1)
    return {str(F(one["thickness"]) / unit): one["boards"] for one in plan["buy"]}


def _used(name: str) -> set[str]:
    return {board["name"] for kind in rack(name)[0]["kinds"] for board in kind["boards"]
            if not board["bought"]}


@pytest.mark.parametrize(
    ("name", "bought", "used"),
    [
        ("clear_boards", {}, {"wide one", "thick one"}),
        # rails: 1 + 21 5/8 + 1 = 24 5/8 in for the ends joined, and the saw's 1/8 after neither;
        # three rips of 2 in, the edge and two kerfs of 1/8: 6 3/8 in
        ("exactly_enough", {}, {"just", "just for legs"}),
        ("a_hair_too_little", {"1": 1, "7/4": 1}, set()),
        # each of these takes one blank: 2 5/8 less the edge a strip of 2 in or of 1 3/4, and 24
        # less 2 at the ends one blank of 21 5/8, 14 3/4 or 19 1/8; there are three and two
        ("not_enough", {"1": 2, "7/4": 1}, {"offcut", "thick offcut"}),
        ("too_small", {"1": 1, "7/4": 1}, set()),
        # 200 long and 300 wide: a bottom of 286.5 x 166.5 goes across it only
        ("sheet_with_grain", {"20": 1, "6": 1}, set()),
        ("sheet_without_grain", {"20": 1}, {"board 1"}),
        # to 1/2 in thicker serves, and 1/64 more does not
        ("thicker", {}, {"just thick enough to plane down", "board 3"}),
        # a rail is 3/4 thick when it is planed, a leg 1 1/2
        ("planed", {}, {"planed", "board 3"}),
        ("sheet_too_small", {"20": 1}, set()),
        ("sheet_ripped_first", {"52": 1}, {"offcut"}),
        # a board that serves one kind is left over by none
        ("thick_for_thin", {}, {"spare 1", "spare 2", "spare 3"}),
    ],
)
def test_what_is_bought_and_what_is_used(
    name: str, bought: dict[str, int], used: set[str]
) -> None:
    assert (_bought(name), _used(name)) == (bought, used)


def test_what_is_bought_has_its_price() -> None:
    """2 3/4 x 24 in are 11/24 of a square foot, at 8.40 a board foot; two of 1 in, one of 1 3/4."""
    plan = rack("not_enough")[0]
    costs = {F(one["thickness"]) / INCH: F(one["cost"]) for one in plan["buy"]}
    assert costs == {F(1): 2 * F(11, 24) * F("8.40"), F(7, 4): F(7, 4) * F(11, 24) * F("8.40")}


def test_a_bottom_too_wide_for_any_sheet_is_missing() -> None:
    (sheet,) = [kind for kind in rack("sheet_too_small")[0]["kinds"] if kind["sheet"]]
    assert [one["many"] for one in sheet["missing"]] == [1]
    assert (sheet["boards"], sheet["idle"]) == ([], ["board 1"])


def test_pieces_too_long_for_any_board_are_missing() -> None:
    """The two ends joined: 2 x 186 + 3 + 12 = 387 long; 387 + 2 x 25 is more than 430."""
    (solid,) = [kind for kind in rack("longer_than_any")[0]["kinds"] if not kind["sheet"]]
    assert [(solid["blanks"][one["blank"]]["length"], one["least_length"])
            for one in solid["missing"]] == [("387", "437")]


# ---- random racks

STOOL = (HERE / "racks" / "clear_boards.toml").read_text(encoding="utf-8")
BOX = (HERE / "racks" / "no_trim.toml").read_text(encoding="utf-8")


def _random_file(lot: Random) -> str:
    """One of two pieces with another [stock], as a maker would write it."""
    inches = lot.random() < 0.5
    whole = STOOL if inches else BOX
    head, rest = whole.split("[stock]\n")
    body = rest[rest.index("[frame]" if inches else "[[chest]]"):]
    lines = ["[stock]"]
    if lot.random() < 0.4:
        lines.append(f"kerf = {_size(lot, F(1, 16), F(1, 4), inches)}")
    if lot.random() < 0.4:
        lines.append(f"ends = {_size(lot, F(0), F(2), inches)}")
    if lot.random() < 0.4:
        lines.append(f"edge = {_size(lot, F(0), F(1, 2), inches)}")
    thick = ('"1"', '"1 3/4"', '"2"') if inches else ('"20"', '"26"')
    for _ in range(lot.randrange(4)):
        lines += _random_board(lot, "cherry" if inches else "pear", lot.choice(thick), inches)
    if not inches and lot.random() < 0.6:
        lines += _random_board(lot, "birch plywood", "6", inches)
        if lot.random() < 0.5:
            lines.append("grain = false")
    for _ in range(lot.choice((0, 0, 1, 2))):
        lines += ["[[stock.size]]", f"width = {_size(lot, F(5), F(10), inches)}",
                  f"length = {_size(lot, F(28), F(60), inches)}"]
    lines += _random_match(lot, inches)
    return f"{head}{chr(10).join(lines)}\n\n{body}"


def _random_match(lot: Random, inches: bool) -> list[str]:
    lots = (["front rail", "back rail"], ["front rail", "left rail", "back rail"]) if inches else (
        ["box front", "box back"], ["box front", "box left end"])
    if lot.random() < 0.6:
        return []
    parts = ", ".join(f'"{one}"' for one in lot.choice(lots))
    how = lot.choice(("one board", "end to end", "side by side"))
    return ["[[stock.match]]", f"parts = [{parts}]", f'how = "{how}"']


def _random_board(lot: Random, timber: str, thick: str, inches: bool) -> list[str]:
    width, length = lot.randrange(3 * 64, 10 * 64), lot.randrange(14 * 64, 80 * 64)
    lines = ["[[stock.board]]", f'timber = "{timber}"', f"thickness = {thick}",
             f"width = {_said(F(width, 64), inches)}", f"length = {_said(F(length, 64), inches)}"]
    if lot.random() < 0.3:
        lines.append(f"count = {lot.randrange(1, 4)}")
    outs = []
    for _ in range(lot.choice((0, 0, 1, 2, 4))):
        start, low = lot.randrange(length - 64), lot.randrange(width - 32)
        end, high = lot.randrange(start + 1, length), lot.randrange(low + 1, width)
        end = min(end, start + 6 * 64)
        told_ = {"from": start, "to": end, "low": low, "high": high}
        for gone in lot.choice((("from", "to"), ("low", "high"), ("to",), ("high",), (), ())):
            del told_[gone]
        outs.append("{ " + ", ".join(f"{key} = {_said(F(one, 64), inches)}"
                                     for key, one in told_.items()) + ' }')
    if outs:
        lines.append(f"keep_out = [{', '.join(outs)}]")
    return lines


def _size(lot: Random, least: Fraction, most: Fraction, inches: bool) -> str:
    return _said(F(lot.randrange(int(least * 64), int(most * 64)), 64), inches)


def _said(size: Fraction, inches: bool) -> str:
    """So many inches, as a maker writes it in the piece's own unit."""
    if inches:
        whole, rest = divmod(size, 1)
        return f'"{whole} {rest}"' if rest and whole else f'"{rest or whole}"'
    return f"{float(round(size * INCH, 2)):.2f}"


@pytest.mark.parametrize("seed", range(SEED, SEED + RANDOM))
def test_random_racks_can_be_sawn_as_they_are_planned(seed: int, tmp_path: Path) -> None:
    path = tmp_path / "random.toml"
    path.write_text(_random_file(Random(seed)), encoding="utf-8")
    assert judged(case_of(path)) == [], path.read_text(encoding="utf-8")


# ---- the judge sees what is wrong

def _kind(plan: Json) -> Json:
    """The rails of the footstool; all lie on one knotty board."""
    (found,) = [kind for kind in plan["kinds"] if kind["thickness"] == "127/5"]
    return found  # type: ignore[no-any-return]


def _first(plan: Json) -> Json:
    return _kind(plan)["boards"][0]  # type: ignore[no-any-return]


def _shift(one: Json, by: Fraction, keys: tuple[str, str] = ("from", "to")) -> None:
    for key in keys:
        one[key] = str(F(one[key]) + by)


def drop_a_blank(plan: Json) -> None:
    _first(plan)["placed"].pop()


def place_a_blank_twice(plan: Json) -> None:
    placed = _first(plan)["placed"]
    placed[0]["number"], placed[0]["blank"] = placed[1]["number"], placed[1]["blank"]


def shift_a_blank(plan: Json) -> None:
    _shift(_first(plan)["placed"][0], F(1, 64))


def lay_one_on_another(plan: Json) -> None:
    placed = _first(plan)["placed"]
    for key in ("from", "to", "low", "high"):
        placed[0][key] = placed[1][key]


def push_two_together(plan: Json) -> None:
    """The kerf between two is halved."""
    kerf, placed = F(127, 40), _first(plan)["placed"]
    upper = next(one for one in placed for other in placed
                 if F(one["low"]) - F(other["high"]) == kerf and one["from"] == other["from"])
    _shift(upper, -kerf / 2, ("low", "high"))


def lie_on_a_knot(plan: Json) -> None:
    board, one = _first(plan), _first(plan)["placed"][0]
    knot = board["keep_out"][0]
    _shift(one, F(knot["from"]) - F(one["from"]))
    _shift(one, F(knot["low"]) - F(one["low"]), ("low", "high"))


def leave_a_knot_out(plan: Json) -> None:
    _first(plan)["keep_out"].pop(0)


def lie_at_the_end(plan: Json) -> None:
    one = _first(plan)["placed"][0]
    _shift(one, -F(one["from"]))


def move_a_cut(plan: Json) -> None:
    _shift(_first(plan)["cuts"][-1], F(1, 2))


def swap_two_cuts(plan: Json) -> None:
    cuts = _first(plan)["cuts"]
    cuts[0], cuts[1] = cuts[1], cuts[0]
    cuts[0]["number"], cuts[1]["number"] = 1, 2


def forget_a_cut(plan: Json) -> None:
    _first(plan)["cuts"].pop()


def saw_through_a_blank(plan: Json) -> None:
    """A rip in the middle of the last piece that is ripped."""
    cut, low = _first(plan)["cuts"][-1], F(_first(plan)["cuts"][-1]["piece"]["low"])
    _shift(cut, low + INCH - F(cut["from"]))


def saw_a_thin_cut(plan: Json) -> None:
    cut = _first(plan)["cuts"][1]
    cut["from"] = str(F(cut["from"]) + F(1, 4))


def saw_a_wide_cut(plan: Json) -> None:
    cut = _first(plan)["cuts"][1]
    cut["to"] = str(F(cut["to"]) + F(1, 4))


def rip_before_jointing(plan: Json) -> None:
    cut = next(cut for cut in _first(plan)["cuts"] if cut["kind"] == "joint an edge")
    cut["kind"] = "rip"


def shrink_the_kerf(plan: Json) -> None:
    _kind(plan)["kerf"] = "3"


def saw_too_small(plan: Json) -> None:
    one = _first(plan)["placed"][0]
    one["to"] = str(F(one["to"]) - F(1, 8))


def saw_too_large(plan: Json) -> None:
    one = _first(plan)["placed"][0]
    one["high"] = str(F(one["high"]) + INCH / 16)


def forget_a_part(plan: Json) -> None:
    _kind(plan)["blanks"][0]["parts"].pop()


def name_another_part(plan: Json) -> None:
    _kind(plan)["blanks"][0]["parts"][0][0] = "arm"


def take_a_board_twice(plan: Json) -> None:
    _kind(plan)["boards"].append(deepcopy(_first(plan)))


def stretch_a_board(plan: Json) -> None:
    _first(plan)["length"] = str(F(_first(plan)["length"]) + 100)


def buy_what_is_not_needed(plan: Json) -> None:
    board = _first(plan)
    board |= {"bought": True, "name": "", "keep_out": [], "length": str(96 * INCH),
              "width": str(8 * INCH)}


def promise_too_much(plan: Json) -> None:
    _kind(plan)["bound"] = "101/100"


def call_it_missing(plan: Json) -> None:
    at = _first(plan)["placed"].pop()["blank"]
    _kind(plan)["missing"].append(
        {"blank": at, "many": 1, "least_length": "600", "least_width": "60"})


def shrink_a_blank(plan: Json) -> None:
    _kind(plan)["blanks"][0]["length"] = str(F(_kind(plan)["blanks"][0]["length"]) - 1)


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (drop_a_blank, "missing of"),
        (place_a_blank_twice, "is placed 2 times"),
        (shift_a_blank, "does not come off the saw"),
        (lay_one_on_another, "overlap"),
        (push_two_together, "no room for the saw"),
        (lie_on_a_knot, "to be kept out of"),
        (leave_a_knot_out, "not as the file tells it"),
        (lie_at_the_end, "too near an end"),
        (move_a_cut, "does not come off the saw"),
        (swap_two_cuts, "no such piece"),
        (forget_a_cut, "does not come off the saw"),
        (saw_through_a_blank, "runs through"),
        (saw_a_thin_cut, "takes less than the saw"),
        (saw_a_wide_cut, "takes more than the saw"),
        (rip_before_jointing, "before its edge is jointed"),
        (shrink_the_kerf, "the kerf is not the saw's"),
        (saw_too_small, "is not its size"),
        (saw_too_large, "is not its size"),
        (forget_a_part, "comes out of 0 blanks, not 1"),
        (name_another_part, "arm comes out of 1 blanks, not 0"),
        (take_a_board_twice, "is used 2 times"),
        (stretch_a_board, "not as the file tells it"),
        (buy_what_is_not_needed, "what is there holds everything"),
        (promise_too_much, "is no share of the cost"),
        (call_it_missing, "is missing, and a board holds it"),
        (shrink_a_blank, "blanks of its size"),
    ],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_the_judge_finds_what_is_spoilt(spoil: Callable[[Json], None], words: str) -> None:
    plan, rough, cut_list, file = rack("knots_and_splits")
    assert judged((plan, rough, cut_list, file)) == []
    spoilt = deepcopy(plan)
    spoil(spoilt)
    assert any(words in one for one in judged((spoilt, rough, cut_list, file)))


def test_the_judge_finds_a_match_on_two_boards() -> None:
    plan, rough, cut_list, file = deepcopy(rack("one_board"))
    kind = _kind(plan)
    at = [number for number, blank in enumerate(kind["blanks"]) if blank["match"] == 0]
    board = next(board for board in kind["boards"]
                 if {one["blank"] for one in board["placed"]} & set(at))
    away = deepcopy(board)
    away["placed"] = [one for one in board["placed"] if one["blank"] == at[0]]
    board["placed"] = [one for one in board["placed"] if one["blank"] != at[0]]
    kind["boards"].append(away)
    assert "match 1 lies on 2 boards" in judged((plan, rough, cut_list, file))


def test_the_judge_finds_grain_the_wrong_way() -> None:
    plan, rough, cut_list, file = deepcopy(rack("sheet_without_grain"))
    (sheet,) = [kind for kind in plan["kinds"] if kind["sheet"]]
    sheet["boards"][0]["grain"] = True
    assert any("is not its size" in one for one in judged((plan, rough, cut_list, file)))


def test_the_judge_finds_sections_the_wrong_way() -> None:
    plan, rough, cut_list, file = deepcopy(rack("sheet_ripped_first"))
    (sheet,) = [kind for kind in plan["kinds"] if kind["sheet"]]
    assert sheet["boards"][0]["turned"]
    sheet["boards"][0]["turned"] = False
    assert any("order of the shop" in one for one in judged((plan, rough, cut_list, file)))


# ---- the simple filling

def _bay(length: int, width: int, *outs: Room, kerf: int = 3) -> Bay:
    return Bay(Room(F(0), F(length), F(0), F(width)), outs, F(kerf))


def _needs(*sizes: tuple[int, int]) -> list[Need]:
    return [Need(F(one), F(other)) for one, other in sizes]


def test_a_simple_filling() -> None:
    # two sections of 100 and a kerf between; two strips of 40 in each, and a kerf
    four = _needs((100, 40), (100, 40), (100, 40), (100, 40))
    assert fill(_bay(203, 83), four) == []
    assert len(fill(_bay(202, 83), four)) == 2
    assert len(fill(_bay(203, 82), four)) == 2
    # two halves end to end in a strip
    assert fill(_bay(100, 83), _needs((100, 40), (49, 40), (48, 30))) == []
    knot = Room(F(10), F(20), F(0), F(50))
    assert fits(_bay(110, 50, knot), Need(F(90), F(50)))
    assert not fits(_bay(109, 50, knot), Need(F(90), F(50)))
    assert fits(_bay(100, 60, knot), Need(F(90), F(10)))
    assert not fits(_bay(100, 60, knot), Need(F(90), F(11)))


@pytest.mark.parametrize(
    ("key", "value", "words"),
    [
        ("starts", "1", "is not what is left"),
        ("length", "1500", "is not what is left"),
        ("rest_of", "another", "nothing else is made of that board"),
    ],
)
def test_the_judge_finds_a_spoilt_rest(key: str, value: str, words: str) -> None:
    """Rails come out of what is left of the board that the legs come out of."""
    plan, rough, cut_list, file = deepcopy(rack("one_for_two_kinds"))
    (rest,) = (board for kind in plan["kinds"] for board in kind["boards"] if board["rest_of"])
    assert not judged((plan, rough, cut_list, file))
    rest[key] = value
    assert any(words in one for one in judged((plan, rough, cut_list, file)))
