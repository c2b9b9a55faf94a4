"""A tool for each size: only where the maker lists their own."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from layout.checks import tools
from layout.joints.choices import PegChoice
from layout.kit import Kit, usual_kit
from layout.piece import Piece
from tests.pieces import agreed, frame, inch, inches, low_rail, panel, rail, seat, tenon

LISTS = ("chisels", "mortise_bits", "drills", "cutters")


def kit(**own: str) -> Kit:
    """The usual kit with lists of the maker's own."""
    lists = {name: inches(sizes) for name, sizes in own.items()}
    return usual_kit("in")._replace(**lists, listed=frozenset(own))  # type: ignore[arg-type]


def pegged(own: Kit) -> Piece:
    """Mortises 3/8 wide, pegs 1/4."""
    choice = tenon(pegs=PegChoice(diameter=inch("1/4")))
    return agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)), kit=own)


def told(p: Piece) -> list[tuple[str, dict[str, Fraction]]]:
    assert all((one.level, one.rule) == ("caution", tools.RULE) for one in tools.findings(p))
    return [(one.text.split(",")[0], dict(one.figures)) for one in tools.findings(p)]


def test_nothing_listed_nothing_said() -> None:
    # 7/16 is no usual chisel
    odd = tenon(thickness=inch("7/16"), pegs=PegChoice(diameter=inch("9/32")))
    assert told(agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=odd)))) == []


@pytest.mark.parametrize(
    ("chisels", "near"),
    [
        ("1/4 | 3/8 | 1/2", None),
        ("3/8", None),
        ("1/4 | 1/2", ["1/4", "1/2"]),
        ("1/8 | 1/4 | 1/2 | 1", ["1/4", "1/2"]),
        ("23/64 | 25/64", ["23/64", "25/64"]),
        ("1/8 | 1/4", ["1/4"]),  # none is larger
        ("1/2 | 5/8", ["1/2"]),  # none is smaller
    ],
)
def test_chisels(chisels: str, near: list[str] | None) -> None:
    found = told(pegged(kit(chisels=chisels)))
    if near is None:
        assert found == []
        return
    sizes = {f"nearest {number}": inch(one) for number, one in enumerate(near, start=1)}
    assert found == [
        ("no chisel or mortise bit of yours makes the mortise of the front rail",
         {"size": inch("3/8"), **sizes})
    ]  # fmt: skip


def test_a_mortise_bit_serves_as_a_chisel_does() -> None:
    assert told(pegged(kit(chisels="1/4 | 1/2", mortise_bits="3/8"))) == []
    assert len(told(pegged(kit(chisels="1/4", mortise_bits="1/2")))) == 1
    # bits alone are listed: the usual chisels, 3/8 among them, are not known to be the maker's
    assert len(told(pegged(kit(mortise_bits="1/2")))) == 1
    assert told(pegged(kit(mortise_bits="3/8"))) == []


@pytest.mark.parametrize(
    "own",
    [
        {"chisels": "1/4 | 1/2"},
        {"mortise_bits": "1/2"},
        {"mortise_bits": "1/4 | 1/2"},
        {"chisels": "1/4", "mortise_bits": "1/2"},
        {"drills": "1/4"},
    ],
)
def test_a_thickness_left_open_is_one_that_the_maker_s_tools_make(own: dict[str, str]) -> None:
    """What the program itself chooses it never objects to."""
    choice = tenon(thickness=None)
    p = agreed(frame(rail(width=inch(2), below_top=inch(4), tenon=choice)), kit=kit(**own))
    assert told(p) == []


@pytest.mark.parametrize(
    ("drills", "near"),
    [("1/4", None), ("3/16 | 1/4 | 5/16", None), ("3/16 | 5/16", ["3/16", "5/16"]),
     ("15/64", ["15/64"])],
)  # fmt: skip
def test_drills(drills: str, near: list[str] | None) -> None:
    found = told(pegged(kit(drills=drills)))
    assert found == (
        []
        if near is None
        else [
            (
                "no drill of yours makes the peg hole of the front rail",
                {"size": inch("1/4"),
                 **{f"nearest {n}": inch(one) for n, one in enumerate(near, start=1)}},
            )
        ]
    )  # fmt: skip


def test_pegs_left_open_are_as_thick_as_a_drill_of_the_maker_s() -> None:
    choice = tenon(pegs=PegChoice())
    p = agreed(
        frame(rail(width=inch(2), below_top=inch(4), tenon=choice)), kit=kit(drills="1/8 | 1/2")
    )
    assert told(p) == []


@pytest.mark.parametrize(
    ("in_rails", "in_legs"),
    [("rabbet", "rabbet"), ("rabbet", "groove"), ("groove", "groove")],
)
@pytest.mark.parametrize(("cutters", "owned"), [("1/4", True), ("3/16 | 5/16", False)])
def test_cutters(in_rails: str, in_legs: str, cutters: str, owned: bool) -> None:
    # a panel of 1/4: a rabbet needs no cutter of that width, a groove anywhere does
    choice = tenon(bottom_shoulder=inch("3/8"), top_shoulder=inch("3/8"))
    p = agreed(
        frame(rail(tenon=choice), low_rail(tenon=choice)),
        panel(seat(kind=in_rails, in_legs=in_legs), "front under rail"),
        kit=kit(cutters=cutters),
    )
    wanting = not owned and "groove" in (in_rails, in_legs)
    assert told(p) == (
        [("no cutter of yours makes the groove for the front panel",
          {"size": inch("1/4"), "nearest 1": inch("3/16"), "nearest 2": inch("5/16")})]
        if wanting
        else []
    )  # fmt: skip


def test_each_list_answers_for_its_own_sizes_only() -> None:
    """Every choice of lists, each without the size that is wanted: as many cautions as lists that
    have a say. Chisels and mortise bits answer for the mortise together.
    """
    for count in range(len(LISTS) + 1):
        for listed in combinations(LISTS, count):
            own = dict.fromkeys(listed, "1")
            mortise = "chisels" in listed or "mortise_bits" in listed
            pegs = "drills" in listed
            assert len(told(pegged(kit(**own)))) == mortise + pegs, listed


def test_every_rail_is_told() -> None:
    low = low_rail(width=inch(2), tenon=tenon(thickness=inch("1/2")))
    p = agreed(
        frame(rail(width=inch(2), sides=("front", "back")), low), kit=kit(chisels="1/2")
    )
    assert [one.parts for one in tools.findings(p)] == [("front-rail",), ("back-rail",)]
