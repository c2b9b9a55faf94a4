"""What haunches, pairs, wedges, keys, pegs, notches, mitres and mouldings ask: each rule at its
limit, just inside it and just outside.

Unless a test says otherwise: rail 2 x 1 1/8 in, 4 in below the top of a leg 2 1/2 in square; tenon
1 1/4 in long, 3/8 thick in the middle, 1/4 in narrower at both edges.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Literal

import pytest

from layout.builds.choices import RailChoice
from layout.builds.frame import SIDES
from layout.checks import check, extras, stopped
from layout.checks.words import said
from layout.joints.choices import PairChoice, PegChoice, TenonChoice, TwinChoice
from layout.mark import Finding
from layout.piece import Piece
from tests.pieces import (
    agreed,
    cross,
    frame,
    haunch,
    inch,
    key,
    low_rail,
    mould,
    panel,
    piece,
    rail,
    seat,
    side_wedge,
    tenon,
    through,
    wedges,
)


def of(p: Piece, rule: str) -> list[Finding]:
    return [one for one in extras.findings(p) if one.rule == rule]


def levels(p: Piece, rule: str) -> list[str]:
    return [one.level for one in of(p, rule)]


def figures(p: Piece, rule: str) -> dict[str, Fraction]:
    (found,) = of(p, rule)
    return dict(found.figures)


def expected(level: str | None) -> list[str]:
    return [] if level is None else [level]


def one_rail(choice: TenonChoice, **changes: object) -> RailChoice:
    return rail(**{"width": inch(2), "below_top": inch(4), "tenon": choice, **changes})


def single(choice: TenonChoice, **changes: object) -> Piece:
    return agreed(frame(one_rail(choice, **changes)))


# -- wide tenons and the pair that would take their place


@pytest.mark.parametrize(
    ("width", "level"),
    # 3/8 x 5 = 1 7/8, 3/8 x 6 = 2 1/4, and 1/2 for the shoulders
    [("2 3/8", None), ("2 25/64", "note"), ("2 3/4", "note"), ("2 49/64", "caution")],
)
def test_wide(width: str, level: str | None) -> None:
    p = single(tenon(), width=inch(width))
    assert levels(p, extras.WIDE) == expected(level)
    if level:
        assert figures(p, extras.WIDE) == {
            "tenon width": inch(width) - inch("1/2"), "tenon thickness": inch("3/8")
        }  # fmt: skip


def test_of_a_pair_each_tenon_counts() -> None:
    # web 1/2: tenons of (w - w/4 - 1/2) / 2: of 2 1/4 where the rail is 6 2/3, of more at 6 3/4
    assert levels(single(tenon(pair=PairChoice(inch("1/2"))), width=inch("20/3")),
                  extras.WIDE) == ["note"]  # fmt: skip
    wide = single(tenon(pair=PairChoice(inch("1/2"))), width=inch("6 3/4"))
    assert levels(wide, extras.WIDE) == ["caution"]
    assert "pair = " not in of(wide, extras.WIDE)[0].cure


@pytest.mark.parametrize(
    ("ratio", "words"),
    [("6", "6"), ("13/2", "6.5"), ("20/3", "6.7"), ("61/10", "6.1"), ("599/100", "6")],
)
def test_a_ratio_in_words(ratio: str, words: str) -> None:
    assert extras.float_free(Fraction(ratio)) == words


def pair_told(p: Piece) -> tuple[str, str]:
    """The widths of tenon and web that the cure names."""
    (found,) = of(p, extras.WIDE)
    told = re.search(r"two tenons (.+) wide with (.+) between them", found.cure)
    assert told is not None
    return told.group(1), told.group(2)


@pytest.mark.parametrize(
    ("changes", "tenons", "web"),
    [
        # as `pair = {}` makes it: an eighth of 4 at the edges, the rest in three
        ({}, "1 in", "1 in"),
        # shoulders of the maker's own stay: 4 - 2 x 1/2 in three
        ({"top_shoulder": inch("1/2"), "bottom_shoulder": inch("1/2")}, "1 in", "1 in"),
        # 4 - 1/4 - 3/4
        ({"top_shoulder": inch("1/4"), "bottom_shoulder": inch("3/4")}, "1 in", "1 in"),
        # 4 - 1 1/2 - an eighth, in three: 2/3
        ({"top_shoulder": inch("1 1/2"), "thickness": inch("1/4")}, "21/32 in full",
         "21/32 in full"),
    ],
)  # fmt: skip
def test_the_pair_that_is_recommended(changes: dict[str, object], tenons: str, web: str) -> None:
    p = single(tenon(**changes), width=inch(4))
    assert levels(p, extras.WIDE) == ["caution"]
    assert pair_told(p) == (tenons, web)


@pytest.mark.parametrize(
    "choice",
    [
        tenon(),
        tenon(top_shoulder=inch("1/8")),
        tenon(bottom_shoulder=inch("3/8")),
        tenon(thickness=None),
        tenon(barefaced="face"),
        tenon(haunch=haunch(width=inch("3/4"))),
        tenon(haunch=haunch(), thickness=inch("1/4")),
    ],
    ids=["open", "top", "bottom", "by chisel", "bare", "haunch", "haunch left open"],
)
def test_who_follows_the_cure_gets_what_it_says(choice: TenonChoice) -> None:
    """Write pair = {} into the file: the tenons and the web are those that the check named."""
    one = single(choice, width=inch(4), set_in=inch("1/4"))
    told = pair_told(one)
    both = single(choice._replace(pair=PairChoice()), width=inch(4), set_in=inch("1/4"))
    size = both.rails[0].size
    assert told == (said(both, size.width), said(both, size.section.widths[2].size))
    assert "caution" not in levels(both, extras.WIDE)


def test_beside_a_groove_the_recommended_pair_clears_it_too() -> None:
    # a groove 5/8 deep in the lower edge: 4 - 1/2 - 5/8 in three is 23/24, 31/32 bare
    deep = seat(kind="groove", in_legs="groove", lip=inch("5/8"))
    p = agreed(
        frame(rail(), low_rail(tenon=tenon(pair=PairChoice()))), panel(deep, "front under rail")
    )
    assert pair_told(p) == ("31/32 in bare", "31/32 in bare")


# -- haunches


@pytest.mark.parametrize(
    ("long", "level"), [("1 1/4", "stop"), ("1 3/8", "stop"), ("1 15/64", None)]
)
def test_a_haunch_as_long_as_its_tenon(long: str, level: str | None) -> None:
    p = piece(frame(one_rail(tenon(haunch=haunch(length=inch(long))))))
    assert levels(p, extras.HAUNCH) == expected(level)
    if level:
        assert figures(p, extras.HAUNCH) == {
            "haunch length": inch(long), "tenon length": inch("1 1/4")
        }  # fmt: skip


@pytest.mark.parametrize(("long", "level"), [("1 1/8", "caution"), ("1 7/64", None)])
@pytest.mark.parametrize("kind", ["square", "sloped"])
def test_a_socket_as_deep_as_the_mortise(
    kind: Literal["square", "sloped"], long: str, level: str | None
) -> None:
    # 1 1/8 and 1/4 of room: the mortise is 1 1/4 + 1/8 deep
    choice = haunch(kind=kind, length=inch(long), room=inch("1/4"))
    assert levels(single(tenon(haunch=choice)), extras.HAUNCH) == expected(level)


@pytest.mark.parametrize(
    ("thickness", "level"), [(None, None), ("1/4", None), ("1/8", "caution"), ("5/16", "caution")]
)
def test_a_haunch_that_does_not_fill_its_groove(thickness: str | None, level: str | None) -> None:
    choice = tenon(
        thickness=None if thickness is None else inch(thickness), haunch=haunch(kind="groove")
    )
    grooved = seat(kind="groove", in_legs="groove", run="through")
    p = agreed(
        frame(rail(width=inch(3), tenon=choice), low_rail(width=inch(3))),
        panel(grooved, "front under rail"),
    )
    assert levels(p, extras.HAUNCH) == expected(level)


# -- wedges


def wedged(projection: str = "0", **changes: object) -> Piece:
    return piece(
        frame(one_rail(through(projection=inch(projection), wedges=wedges(**changes))))
    )


@pytest.mark.parametrize(
    ("from_edge", "level"),
    # tenon 1 1/2 wide: (1 1/2 - 1/32) / 2 = 47/64
    [("47/64", "stop"), ("3/4", "stop"), ("46/64", None)],
)
def test_two_saw_cuts_that_meet(from_edge: str, level: str | None) -> None:
    assert levels(wedged(from_edge=inch(from_edge)), extras.WEDGES) == expected(level)
    # one alone stands in the middle
    assert levels(wedged(many=1, thickness=inch("3/16"), from_edge=inch(from_edge)),
                  extras.WEDGES) == []  # fmt: skip


@pytest.mark.parametrize(
    ("long", "level"), [("2 1/2", "stop"), ("2 33/64", "stop"), ("2 31/64", None)]
)
def test_saw_cuts_into_the_shoulder(long: str, level: str | None) -> None:
    assert levels(wedged(length=inch(long)), extras.WEDGES) == expected(level)


@pytest.mark.parametrize(
    ("long", "level"), [("1/4", "stop"), ("15/64", "stop"), ("17/64", None)]
)
def test_wedges_that_end_before_the_mortise(long: str, level: str | None) -> None:
    assert levels(wedged("1/4", length=inch(long)), extras.WEDGES) == expected(level)


@pytest.mark.parametrize(
    ("thickness", "level"),
    # two flare it by thickness - 1/32 at each end; 1/16 to 3/16 is usual
    [("1/64", "caution"), ("1/32", "caution"), ("3/64", "note"), ("5/64", "note"), ("3/32", None),
     ("7/32", None), ("15/64", "note")],
)  # fmt: skip
def test_flares_that_are_usual(thickness: str, level: str | None) -> None:
    p = wedged(thickness=inch(thickness))
    assert levels(p, extras.WEDGES) == expected(level)
    if level == "note":
        assert figures(p, extras.WEDGES) == {"flare": inch(thickness) - inch("1/32")}


@pytest.mark.parametrize(
    ("splay", "level"), [("0", None), ("1/4", None), ("17/64", "stop")]
)
def test_a_splayed_tenon_goes_in_past_its_wedge(splay: str, level: str | None) -> None:
    choice = through(
        side_wedge=side_wedge(splay=inch(splay)), top_shoulder=Fraction(0),
        bottom_shoulder=inch("1/2"),
    )  # fmt: skip
    assert levels(single(choice), extras.WEDGES) == expected(level)


@pytest.mark.parametrize(
    ("shoulder", "level"), [("1/4", None), ("15/64", "stop"), ("0", "stop")]
)
@pytest.mark.parametrize("edge", ["edge", "far edge"])
def test_a_tenon_can_splay_no_further_than_its_rail_is_wide(
    edge: str, shoulder: str, level: str | None
) -> None:
    """Across from the wedge the tenon widens by 1/4: the rail must have that wood there."""
    own, other = ("top", "bottom") if edge == "edge" else ("bottom", "top")
    shoulders = {f"{own}_shoulder": Fraction(0), f"{other}_shoulder": inch(shoulder)}
    choice = through(side_wedge=side_wedge(edge=edge, splay=inch("1/4")), **shoulders)
    p = piece(frame(one_rail(choice)))
    assert levels(p, extras.WEDGES) == expected(level)
    if level:
        assert figures(p, extras.WEDGES) == {"splay": inch("1/4"), "shoulder": inch(shoulder)}


# -- keys


def keyed(**changes: object) -> Piece:
    own = {"projection": changes.pop("projection", Fraction(0))}
    return piece(frame(one_rail(through(key=key(**changes), **own))))


@pytest.mark.parametrize(
    ("projection", "level"),
    # the key is 7/8 wide; half of that should be left beyond it
    [("7/8", "stop"), ("3/4", "stop"), ("57/64", "caution"), ("1 19/64", "caution"),
     ("1 5/16", None), ("2", None)],
)  # fmt: skip
def test_wood_beyond_a_key(projection: str, level: str | None) -> None:
    p = keyed(projection=inch(projection))
    assert levels(p, extras.KEY) == expected(level)


@pytest.mark.parametrize(
    # through 1/2 and 7/8 beyond: 1 3/8 of taper must leave something of 7/8
    ("taper", "level"),
    [(Fraction(7, 11), "stop"), (Fraction(2, 3), "stop"), (Fraction(7, 12), None)],
)
def test_a_key_that_tapers_to_nothing(taper: Fraction, level: str | None) -> None:
    assert levels(keyed(taper=taper), extras.KEY) == expected(level)


@pytest.mark.parametrize(
    ("way", "width", "level"),
    # held across 1 1/2 or 1/2: half of it at most
    [
        ("thickness", "3/4", None), ("thickness", "49/64", "caution"),
        ("thickness", "1 31/64", "caution"), ("thickness", "1 1/2", "stop"),
        ("width", "1/4", None), ("width", "17/64", "caution"), ("width", "1/2", "stop"),
    ],
)  # fmt: skip
def test_wood_beside_a_key(
    way: Literal["thickness", "width"], width: str, level: str | None
) -> None:
    assert levels(keyed(way=way, width=inch(width)), extras.KEY) == expected(level)


@pytest.mark.parametrize(("pull", "level"), [("2 1/2", "stop"), ("2 31/64", None)])
def test_a_key_s_hole_through_the_leg(pull: str, level: str | None) -> None:
    assert levels(keyed(pull=inch(pull)), extras.KEY) == expected(level)


# -- pegs: 1/4 thick


def pegged(length: str = "1 1/4", **changes: object) -> Piece:
    return single(tenon(length=inch(length), pegs=PegChoice()._replace(**changes)))


@pytest.mark.parametrize(
    ("many", "level"),
    # 1 1/2 / 3 - 1/4 = 1/4; / 4: 1/8; / 6: nothing
    [(1, None), (3, None), (4, "caution"), (5, "caution"), (6, "stop"), (7, "stop")],
)
def test_wood_between_pegs(many: int, level: str | None) -> None:
    p = pegged(many=many)
    assert levels(p, extras.PEGS) == expected(level)
    if level:
        assert figures(p, extras.PEGS)["between pegs"] == inch("1 1/2") / many - inch("1/4")


@pytest.mark.parametrize(
    ("from_shoulder", "draw", "level"),
    # half a peg at least before it: 1/4; what the draw leaves of that is more than nothing
    [("1/4", "1/16", None), ("15/64", "1/16", "caution"), ("13/64", "1/16", "caution"),
     ("3/16", "1/16", "stop"), ("3/16", "0", "caution"), ("1/8", "0", "stop")],
)  # fmt: skip
def test_wood_between_pegs_and_shoulder(from_shoulder: str, draw: str, level: str | None) -> None:
    p = pegged(from_shoulder=inch(from_shoulder), draw=inch(draw))
    assert levels(p, extras.PEGS) == expected(level)


@pytest.mark.parametrize(
    ("from_shoulder", "level"),
    # 1 1/4 - 1/8 - one peg: 7/8; 1 1/8 leaves nothing
    [("7/8", None), ("57/64", "caution"), ("1 7/64", "caution"), ("1 1/8", "stop")],
)
def test_wood_between_pegs_and_tip(from_shoulder: str, level: str | None) -> None:
    p = pegged(from_shoulder=inch(from_shoulder))
    assert levels(p, extras.PEGS) == expected(level)


@pytest.mark.parametrize(("from_shoulder", "level"), [("2 1/8", None), ("2 9/64", "caution")])
def test_beyond_the_leg_is_no_wood_for_a_peg(from_shoulder: str, level: str | None) -> None:
    # 2 1/2 in the leg, whatever stands out of it: 2 1/2 - 1/8 - 1/4
    choice = through(
        thickness=inch("3/8"), projection=inch(1),
        pegs=PegChoice(from_shoulder=inch(from_shoulder)),
    )  # fmt: skip
    assert levels(single(choice), extras.PEGS) == expected(level)


@pytest.mark.parametrize(("draw", "level"), [("1/12", None), ("3/32", "caution")])
def test_how_much_pegs_may_draw(draw: str, level: str | None) -> None:
    p = pegged(draw=inch(draw), from_shoulder=inch("1/2"))
    assert levels(p, extras.PEGS) == expected(level)
    if level:
        assert of(p, extras.PEGS)[0].cure == "a quarter is usual: 1/16 in"


def test_pegs_along_the_bearer_s_grain() -> None:
    low = rail("low", sides=("left", "right"), width=inch(3), below_top=inch(12))
    choice = tenon(length=inch("3/4"), pegs=PegChoice())
    p = agreed(
        frame(low, crosses=(cross("stretcher", "left low", "right low", tenon=choice),))
    )
    assert levels(p, extras.PEGS) == ["stop"]


# -- notches


@pytest.mark.parametrize(
    ("top", "bottom", "level"),
    # the notched tenon runs from 1/4 to 1 3/4; least web 1/8
    [
        ("5/8", "5/8", None), ("5/16", "5/16", None), ("3/8", "1/4", None),
        ("19/64", "5/16", "caution"), ("17/64", "1/4", "caution"),
        ("1/4", "1/4", "stop"), ("1/8", "1/8", "stop"),
    ],
)  # fmt: skip
def test_what_a_notch_leaves(top: str, bottom: str, level: str | None) -> None:
    notched = tenon(length=None, meeting="passing", notched=True)
    passes = tenon(
        length=None, meeting="passing", top_shoulder=inch(top), bottom_shoulder=inch(bottom)
    )
    p = piece(
        frame(one_rail(notched), one_rail(passes, name="end", sides=("left",)))
    )
    assert levels(p, extras.NOTCH) == expected(level)
    if level:
        left = max(inch(top) - inch("1/4"), Fraction(0)) + max(
            inch(bottom) - inch("1/4"), Fraction(0)
        )
        assert figures(p, extras.NOTCH) == {"left": left, "tenon width": inch("1 1/2")}


def test_a_notch_at_one_of_a_pair_leaves_the_other_alone() -> None:
    # quarters of 4: 1/2 to 1 1/2 and 2 1/2 to 3 1/2; the other passes at 2 3/4 to 3 1/4
    notched = tenon(length=None, meeting="passing", notched=True, pair=PairChoice())
    passes = tenon(
        length=None, meeting="passing", top_shoulder=inch("3/4"), bottom_shoulder=inch("3/4")
    )
    p = agreed(
        frame(
            one_rail(notched, width=inch(4)),
            one_rail(passes, name="end", sides=("left",), below_top=inch(6)),
        )
    )
    assert levels(p, extras.NOTCH) == []
    # 1/16 + 1/16 - 1/64 of the lower one, and nothing of that is the upper one's affair
    thin = passes._replace(top_shoulder=inch("9/16"), bottom_shoulder=inch("35/64"))
    p = agreed(
        frame(
            one_rail(notched, width=inch(4)),
            one_rail(thin, name="end", sides=("left",), below_top=inch(6)),
        )
    )
    assert figures(p, extras.NOTCH) == {"left": inch("7/64"), "tenon width": inch(1)}


# -- mitres


def test_what_a_mitre_would_gain() -> None:
    choice = tenon(length=None, mitre_gap=inch("1/16"))
    p = agreed(frame(one_rail(choice, sides=SIDES)))
    found = of(p, extras.MITRE)
    # clear: 2 1/2 - 3/4 - 3/16 - 1/8; mitred: 2 1/2 - 3/8 - 1/32; told once a rail
    assert [one.level for one in found] == ["note"] * 4
    assert all(
        dict(one.figures) == {"kept clear": inch("1 7/16"), "mitred": inch("2 3/32")}
        for one in found
    )


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        # 2 1/2 - 3/8 - 11/16 is no more than 1 7/16; 1/64 of gap less is
        ({"mitre_gap": inch("1 3/8")}, 0),
        ({"mitre_gap": inch("1 23/64")}, 4),
        ({"meeting": "clear"}, 0),
        ({"meeting": "mitred"}, 0),
        ({"length": inch(1)}, 0),
        ({"thickness": inch("1/4"), "twin": TwinChoice(inch("1/8"))}, 0),
    ],
)
def test_no_gain_no_word(changes: dict[str, object], told: int) -> None:
    p = agreed(frame(one_rail(tenon(length=None)._replace(**changes), sides=SIDES)))
    assert len(of(p, extras.MITRE)) == told


# -- mouldings


@pytest.mark.parametrize(("depth", "level"), [("3/8", None), ("25/64", "stop")])
def test_a_moulding_deeper_than_the_shoulder(depth: str, level: str | None) -> None:
    p = single(tenon(mould=mould(depth=inch(depth))))
    assert levels(p, extras.MOULD) == expected(level)


@pytest.mark.parametrize(("set_in", "level"), [("0", None), ("1/64", "stop")])
def test_a_moulding_on_a_rail_that_is_set_in(set_in: str, level: str | None) -> None:
    p = piece(frame(one_rail(tenon(mould=mould()), set_in=inch(set_in))))
    assert levels(p, extras.MOULD) == expected(level)


@pytest.mark.parametrize(("width", "level"), [("1 15/64", None), ("1 1/4", "stop")])
def test_a_moulding_wider_than_the_tenon_is_long(width: str, level: str | None) -> None:
    # one edge only: two mitres of that width need a rail wider than 2 x 1 1/4
    p = piece(frame(one_rail(tenon(mould=mould(width=inch(width))))))
    assert levels(p, extras.MOULD) == expected(level)


@pytest.mark.parametrize(
    ("width", "level"), [("7/8", None), ("1", None), ("1 1/64", "stop")]
)
def test_two_mitres_that_run_past_each_other(width: str, level: str | None) -> None:
    """A moulding on both edges of a rail 2 wide: each mitre takes its width off the line."""
    both = mould(width=inch(width), edges=("edge", "far edge"))
    assert levels(piece(frame(one_rail(tenon(mould=both)))), extras.MOULD) == expected(level)


# -- told once


def test_both_ends_alike_are_told_once() -> None:
    p = pegged(many=6)
    assert levels(p, extras.PEGS) == ["stop"]
    assert of(p, extras.PEGS)[0].parts == ("front-rail",)


def test_plain_tenons_have_nothing_to_tell() -> None:
    assert extras.findings(single(tenon())) == []
    assert not stopped(check(single(tenon())))
