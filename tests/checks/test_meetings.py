"""Two joints in one part: apart by the least wall of 3/16 in, nearer, touching, into each other.

Rails 2 x 1 1/8 in, 4 in below the top of legs 2 1/2 in square; tenons 3/8 thick in the middle (3/8
to 3/4 from the outside), 1 1/2 in wide (4 1/4 to 5 3/4 from the top), glue room 1/8.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from layout.builds.choices import RailChoice
from layout.builds.frame import SIDES
from layout.checks import check, meetings
from layout.joints.choices import PairChoice, PegChoice, TenonChoice
from layout.mark import Finding
from layout.piece import Piece
from tests.pieces import (
    agreed,
    cross,
    frame,
    haunch,
    inch,
    low_rail,
    panel,
    piece,
    rail,
    seat,
    tenon,
    through,
    wedges,
)


def one_rail(choice: TenonChoice | None = None, **changes: object) -> RailChoice:
    own = {"width": inch(2), "below_top": inch(4), "tenon": choice or tenon()}
    return rail(**{**own, **changes})


def end_rail(choice: TenonChoice | None = None, **changes: object) -> RailChoice:
    return one_rail(choice, **{"name": "end", "sides": ("left",), **changes})


def of(p: Piece, rule: str) -> list[Finding]:
    return [one for one in meetings.findings(p) if one.rule == rule]


def only(p: Piece, rule: str) -> Finding:
    (found,) = of(p, rule)
    return found


# -- mortises round a corner

# the side rail's tenon reaches 1/4 past the front one's inner cheek; its own cheeks stand 3/8 and
# 3/4 from the outside, on the front tenon's way
PAST = tenon(length=inch(2))


@pytest.mark.parametrize(
    ("length", "level", "web", "clear"),
    # 2 1/2 - 3/4 = 1 3/4 for the front tenon, 1/8 less for its mortise
    [
        ("1 27/64", None, "", ""),
        ("1 7/16", None, "", ""),
        ("1 29/64", "caution", "11/64", "19/64"),
        ("1 39/64", "caution", "1/64", "9/64"),
        ("1 5/8", "caution", "0", "1/8"),
        ("1 11/16", "caution", "-1/16", "1/16"),
        ("1 3/4", "caution", "-1/8", "0"),
        ("1 49/64", "stop", "-9/64", "-1/64"),
        ("2", "stop", "-3/8", "-1/4"),
    ],
)
def test_round_a_corner(length: str, level: str | None, web: str, clear: str) -> None:
    p = agreed(frame(one_rail(tenon(length=inch(length))), end_rail(PAST)))
    if level is None:
        assert of(p, meetings.MORTISES) == []
        return
    found = only(p, meetings.MORTISES)
    assert (found.level, found.parts) == (level, ("front-left-leg",))
    assert dict(found.figures) == {
        "web": inch(web),
        "between the tenons": inch(clear),
        "tenon of the front rail": inch(length),
        "tenon of the left end": inch(2),
    }


@pytest.mark.parametrize(
    ("length", "words"),
    [
        ("1 29/64", "only 3/16 in bare of wood between the mortises"),
        ("1 5/8", "no wood between the mortises"),
        ("1 11/16", "open into each other; their tenons clear by 1/16 in"),
        ("1 3/4", "open into each other; their tenons just touch"),
        ("2", "the tenons of the front rail and the left end run 1/4 in into each other"),
    ],
)
def test_what_is_said_of_it(length: str, words: str) -> None:
    p = agreed(frame(one_rail(tenon(length=inch(length))), end_rail(PAST)))
    text = only(p, meetings.MORTISES).text
    assert words in text
    assert "front left leg" in text


def test_who_shortens_the_tenon_as_told_is_told_no_more() -> None:
    p = agreed(frame(one_rail(tenon(length=inch("1 5/8"))), end_rail(PAST)))
    # 2 1/2 - 3/4 - 1/8 - 3/16
    assert "at most 1 7/16 in for the front rail" in only(p, meetings.MORTISES).cure
    shorter = agreed(frame(one_rail(tenon(length=inch("1 7/16"))), end_rail(PAST)))
    assert of(shorter, meetings.MORTISES) == []


def test_what_is_told_is_rounded_down() -> None:
    # an outer shoulder of 25/64 in place of 3/8: the limit is 1 27/64, told as 1 13/32
    thick = tenon(length=inch(2), outer_shoulder=inch("25/64"))
    p = agreed(frame(one_rail(tenon(length=inch("1 5/8"))), end_rail(thick)))
    assert "at most 1 13/32 in for the front rail" in only(p, meetings.MORTISES).cure


def test_from_edge_to_edge() -> None:
    """Side by side along both sides of the leg, the straight line between them counts."""
    # 3/32 and 1/8: 5/32 from edge to edge; 9/64 and 3/16: 15/64
    near = agreed(
        frame(one_rail(tenon(length=inch("1 17/32"))), end_rail(tenon(length=inch("1 1/2"))))
    )
    assert dict(only(near, meetings.MORTISES).figures)["web"] == inch("5/32")
    far = agreed(
        frame(one_rail(tenon(length=inch("1 31/64"))), end_rail(tenon(length=inch("1 7/16"))))
    )
    assert of(far, meetings.MORTISES) == []


@pytest.mark.parametrize(
    ("lower", "level", "web"),
    # the side rail's mortise starts where the front one's 1 1/2 end, and so much lower
    [("1 11/16", None, ""), ("1 43/64", "caution", "11/64"), ("1 1/2", "caution", "0"),
     ("1 31/64", "stop", "-1/64")],
)  # fmt: skip
def test_one_above_the_other(lower: str, level: str | None, web: str) -> None:
    below = inch(4) + inch(lower)
    p = agreed(frame(one_rail(tenon(length=inch(2))), end_rail(PAST, below_top=below)))
    if level is None:
        assert of(p, meetings.MORTISES) == []
        return
    found = only(p, meetings.MORTISES)
    assert (found.level, dict(found.figures)["web"]) == (level, inch(web))


@pytest.mark.parametrize(("lower", "level"), [("1 11/16", None), ("1 43/64", "caution")])
def test_one_above_the_other_on_one_side(lower: str, level: str | None) -> None:
    # two rails with a finger's room between them, their shoulders wide
    choice = tenon(top_shoulder=inch("5/8"), bottom_shoulder=inch("5/8"))
    # tenons 3/4 wide: the lower one's starts 3/4 of its width and 15/16 lower
    p = piece(
        frame(
            one_rail(choice),
            one_rail(choice, name="low", below_top=inch(4) + inch(lower) - inch("3/4")),
        )
    )
    assert {one.level for one in of(p, meetings.MORTISES)} == ({level} if level else set())
    assert len(of(p, meetings.MORTISES)) == (2 if level else 0)  # in both legs


def test_two_through_tenons_at_one_height() -> None:
    p = agreed(frame(one_rail(through()), end_rail(through())))
    found = only(p, meetings.MORTISES)
    # 5/16 to 13/16 from the outside: by so much one of them would have to be shorter
    assert (found.level, dict(found.figures)["between the tenons"]) == ("stop", -inch("13/16"))


@pytest.mark.parametrize("side", SIDES)
def test_every_leg_is_looked_at(side: str) -> None:
    """One side's tenons too long: the legs at both ends of that side are told."""
    others = tuple(one for one in SIDES if one != side)
    along = ("front", "back") if side in ("left", "right") else ("left", "right")
    beside = tuple(one for one in others if one in along)
    p = agreed(
        frame(
            one_rail(tenon(length=inch(2)), sides=(side,)),
            one_rail(PAST, name="other", sides=beside),
        )
    )
    legs = {part for one in of(p, meetings.MORTISES) for part in one.parts}
    words = {
        "front": ("front-left", "front-right"), "back": ("back-left", "back-right"),
        "left": ("front-left", "back-left"), "right": ("front-right", "back-right"),
    }  # fmt: skip
    assert legs == {f"{one}-leg" for one in words[side]}


# -- where they are meant to meet


def test_mitred_tenons_are_meant_to_meet() -> None:
    choice = tenon(length=None, meeting="mitred", mitre_gap=inch("1/16"))
    p = agreed(frame(one_rail(choice, sides=SIDES)))
    assert meetings.findings(p) == []


def test_a_tenon_that_passes_is_meant_to() -> None:
    notched = tenon(length=None, meeting="passing", notched=True)
    passes = tenon(
        length=None, meeting="passing", top_shoulder=inch("5/8"), bottom_shoulder=inch("5/8")
    )
    p = agreed(
        frame(
            one_rail(notched, sides=("front", "back")),
            end_rail(passes, sides=("left", "right")),
        )
    )
    assert meetings.findings(p) == []


def test_no_notch_no_way_through() -> None:
    """Meant to pass or not: tenons that share wood are stopped."""
    notched = tenon(length=None, meeting="passing", notched=True)
    passes = tenon(
        length=None, meeting="passing", top_shoulder=inch("5/8"), bottom_shoulder=inch("5/8")
    )
    p = agreed(frame(one_rail(notched), end_rail(passes)))
    forgotten = p._replace(cuts=tuple(one for one in p.cuts if "notch" not in one.role))
    assert [one.level for one in of(forgotten, meetings.MORTISES)] == ["stop"]


@pytest.mark.parametrize(("least", "told"), [("1/64", 0), ("1/32", 1)])
def test_the_maker_s_own_least_wall(least: str, told: int) -> None:
    # 1/64 between them; the rule is no finer than 1/32
    p = agreed(
        frame(one_rail(tenon(length=inch("1 39/64"))), end_rail(PAST)), wall_least=inch(least)
    )
    assert len(of(p, meetings.MORTISES)) == told


# -- sockets


@pytest.mark.parametrize(
    ("long", "level"),
    # the socket ends 2 1/2 - 3/4 = 1 3/4 from the side rail's far wall, less its room of 1/16
    [("1 1/2", None), ("1 33/64", "caution"), ("1 11/16", "caution"), ("1 45/64", "stop")],
)
def test_a_haunch_s_socket_beside_a_mortise(long: str, level: str | None) -> None:
    front = one_rail(
        tenon(length=inch(2), haunch=haunch(length=inch(long))), width=inch(3), below_top=inch(0)
    )
    # 1 wide: its mortise lies 1/4 to 3/4 from the top, the front rail's from 1 on: 1/4 of wood
    end = end_rail(PAST, width=inch(1), below_top=inch(0))
    p = agreed(frame(front, end))
    found = of(p, meetings.MORTISES)
    assert [one.level for one in found] == ([] if level is None else [level])
    if level:
        web = max(inch("1 11/16") - inch(long), Fraction(0))
        assert dict(found[0].figures) == {"web": web, "least": inch("3/16")}
        assert "the haunch socket of the front rail" in found[0].text


def test_flares_count_as_the_mortise_does() -> None:
    # one over the other: tenons 1/4 from the edges, 3/16 + 1/64 between the mortises, and flares
    # of 3/32 into it from both
    choice = through(wedges=wedges(), top_shoulder=inch("1/8"), bottom_shoulder=inch("5/64"))
    p = agreed(frame(one_rail(choice), one_rail(choice, name="low", below_top=inch(6))))
    found = of(p, meetings.MORTISES)
    # in each leg the two mortises keep 13/64; flare to flare 1/64 is left, flare to mortise 7/64
    assert all("flare" in one.text and one.level == "caution" for one in found)
    assert {dict(one.figures)["web"] for one in found} >= {inch("1/64")}


# -- pegs


@pytest.mark.parametrize(
    ("past", "level"),
    # the front rail's pegs go right through the leg, 2 to 2 1/4 from its edge; the side rail's
    # hole ends past its mortise, at 3/4 and so much more
    [("1 1/16", None), ("1 5/64", "caution"), ("1 1/4", "caution"), ("1 17/64", "stop")],
)
def test_two_peg_holes_in_one_leg(past: str, level: str | None) -> None:
    front = tenon(pegs=PegChoice(past=inch(5)))
    end = tenon(pegs=PegChoice(past=inch(past)))
    p = agreed(frame(one_rail(front), end_rail(end)))
    found = of(p, meetings.HOLES)
    assert [one.level for one in found] == ([] if level is None else [level])
    if level:
        web = max(inch("1 1/4") - inch(past), Fraction(0))
        assert dict(found[0].figures) == {"web": web, "least": inch("3/16")}
        assert ("runs into" in found[0].text) == (level == "stop")


@pytest.mark.parametrize(
    ("from_shoulder", "level"),
    # the side rail's mortise lies 3/8 to 3/4 from the edge: the front's peg, 1/4 thick, stands
    # 2 1/2 less its distance from there
    [("1 7/16", None), ("1 29/64", "caution"), ("1 5/8", "caution"), ("1 41/64", "stop")],
)
def test_a_peg_hole_beside_a_mortise(from_shoulder: str, level: str | None) -> None:
    # bored right through the leg, near the end of a long tenon
    choice = tenon(
        length=inch(2), pegs=PegChoice(from_shoulder=inch(from_shoulder), past=inch(5))
    )
    p = agreed(frame(one_rail(choice), end_rail(PAST)))
    found = of(p, meetings.HOLES)
    assert [one.level for one in found] == ([] if level is None else [level])


# -- seats


@pytest.mark.parametrize(
    ("outer", "level"),
    # the rabbet starts 7/8 behind the face; the mortise ends at the shoulder and 3/8. In one plane
    # there is no thin wood: Ross, Elementary Course in Woodwork, 1901, Exercise 6, Fig. 87
    [("5/16", None), ("21/64", "caution"), ("31/64", "caution"), ("1/2", None), ("33/64", "stop")],
)
def test_a_mortise_before_a_rabbet(outer: str, level: str | None) -> None:
    # both rails' tenons alike, so both ends of both rails
    choice = tenon(outer_shoulder=inch(outer))
    p = agreed(
        frame(rail(width=inch(2), tenon=choice), low_rail(width=inch(2), tenon=choice)),
        panel(seat(), "front under rail"),
    )
    found = of(p, meetings.SEATS)
    assert [one.level for one in found] == ([] if level is None else [level] * 4)
    if level:
        assert {dict(one.figures)["web"] for one in found} == {
            inch("7/8") - inch(outer) - inch("3/8")
        }


def test_a_groove_may_end_at_the_mortise() -> None:
    # tenons as thick as the groove, in line with it, and shoulders as wide as it is deep
    choice = tenon(thickness=inch("1/4"), top_shoulder=inch("3/8"), bottom_shoulder=inch("3/8"))
    p = agreed(
        frame(rail(width=inch(2), tenon=choice), low_rail(width=inch(2), tenon=choice)),
        panel(seat(kind="groove", in_legs="groove"), "front under rail"),
    )
    assert of(p, meetings.SEATS) == []


def test_a_peg_hole_through_a_rabbet() -> None:
    # pegs 3/8 from the shoulder: inside the lip of 3/8 and 1/8 either way; the rabbet starts 7/8
    # behind the face, the holes end 5/8 + 1/2 behind it
    choice = tenon(
        outer_shoulder=inch("1/4"), bottom_shoulder=Fraction(0),
        pegs=PegChoice(many=5, past=inch("1/2")),
    )  # fmt: skip
    p = agreed(
        frame(rail(width=inch(2), tenon=choice), low_rail(width=inch(2))),
        panel(seat(), "front under rail"),
    )
    stops = [one for one in of(p, meetings.SEATS) if "peg" in one.text and one.level == "stop"]
    # the lowest of five pegs stands 7/40 from the rail's edge: within the lip
    assert {one.text.split(" runs")[0] for one in stops} == {
        "in the front left leg, the rabbet for the front panel",
        "in the front right leg, the rabbet for the front panel",
    }


# -- in rails


@pytest.mark.parametrize(
    ("between", "level"),
    # two muntins' mortises: 2 wide each, 1/4 of shoulder at both sides of the room between them
    [("-5/16", None), ("-21/64", "caution"), ("-1/2", "caution"), ("-33/64", "stop")],
)
def test_two_muntins_in_one_rail(between: str, level: str | None) -> None:
    # they overlap as boards; what is looked at here is the rail
    p = agreed(
        frame(
            one_rail(),
            one_rail(name="low", below_top=inch(20)),
            crosses=(
                cross("left muntin", "front rail", "front low", places=(inch(20), None, None)),
                cross("right muntin", "front rail", "front low",
                      places=(inch(22) + inch(between), None, None)),
            ),
        )
    )  # fmt: skip
    found = of(p, meetings.MORTISES)
    assert [one.level for one in found] == ([] if level is None else [level] * 2)
    assert {part for one in found for part in one.parts} == (
        {"front-rail", "front-low"} if level else set()
    )


def test_two_tenons_of_one_joint_are_not_two_joints() -> None:
    choice = tenon(pair=PairChoice(inch("1/16")))
    p = agreed(frame(one_rail(choice, width=inch(4))))
    assert meetings.findings(p) == []
    assert any(one.rule == "web between two tenons" for one in check(p))
