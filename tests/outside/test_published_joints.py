"""Single joints out of two schoolbooks, held against every size that their drawings print.

A drawing shows one corner; the piece file beside it puts that corner into a frame of two uprights
and says which sizes are ours. Inches, as the books print them; every comparison is exact.

Sources:
  grooved frame, blind tenon: Ira S. Griffith, Correlated Courses in Woodwork and Mechanical
    Drawing, 1912, Part III, Advanced Projects, Plates 39 (right half) and 1 (right half)
  centred mortise, splayed tenon, rebate and bead: George A. Ross, Elementary Course in Woodwork,
    1901, Exercises 3, 4 (Fig. 74) and 6 (Fig. 87)
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any

import pytest

from tests.outside.outsider import (
    Numbers,
    Reach,
    cut_list,
    findings,
    gap,
    inch,
    mortises,
    one_size,
    placed,
    placed_box,
    published,
    reach_of,
    rules_at,
    size,
    stands,
    the_sum,
    total,
)

STILES = ("front-left-leg", "front-right-leg")
PIECES = ("grooved_frame", "blind_tenon", "rebate_and_bead", "splayed_tenon", "centred_mortise")
SEAT = "seat clear of the joints"
Spot = tuple[Fraction, ...]


@cache
def piece(name: str) -> Numbers:
    return published(name)


def inches(*texts: str) -> list[Fraction]:
    return [inch(text) for text in texts]


def span(low: str, high: str) -> tuple[Fraction, Fraction]:
    return inch(low), inch(high)


def box(*spans: str) -> Reach:
    """A box by its reach along L, W and T: "5/8 to 2" for each."""
    return tuple(span(*one.split(" to ")) for one in spans)


def part(n: Numbers, name: str) -> dict[str, Any]:
    (found,) = [one for one in n["parts"] if one["id"] == name]
    return found


def cut(n: Numbers, name: str, role: str, joint: str = "") -> dict[str, Any]:
    """The only cut of a part with this role (and of this joint, where one is named)."""
    (found,) = [
        one
        for one in n["cuts"]
        if one["part"] == name and one["role"] == role and one["joint"].startswith(joint)
    ]
    return found


def corners(one: dict[str, Any]) -> set[Spot]:
    return {tuple(Fraction(value) for value in spot) for spot in one["hull"]}


def marked(
    n: Numbers, name: str, role: str, face: str = ""
) -> set[tuple[str, str, str, Fraction]]:
    """(face, tool, reference surface, distance in mm) of a part's marks with a role."""
    return {
        (mark["face"], mark["tool"], mark["from"], Fraction(mark["distance"]))
        for mark in n["marks"]
        if mark["part"] == name and mark["role"] == role and face in ("", mark["face"])
    }


def stands_struck(n: Numbers) -> dict[tuple[Fraction, Fraction], set[str]]:
    """(near, far) stand of the mortise gauge from the face side to the parts struck with it."""
    found: dict[tuple[Fraction, Fraction], set[str]] = {}
    for one in n["settings"]:
        if one["tool"] == "mortise gauge":
            assert one["from"] == "face side"
            stand = (Fraction(one["distance"]), Fraction(one["second"]))
            assert stand not in found  # each stand is made once
            found[stand] = {strike["part"] for strike in one["strikes"]}
    return found


@pytest.mark.parametrize("name", PIECES)
def test_nothing_is_stopped_and_every_sum_is_confirmed(name: str) -> None:
    n = piece(name)
    assert rules_at(n, "stop") == set()
    assert "sums agree with the placed parts" in rules_at(n, "note")
    assert rules_at(n, "caution") == set()


@pytest.mark.parametrize(
    ("name", "stile", "rail"),
    [
        ("grooved_frame", "1 x 2", "1 x 2"),
        ("blind_tenon", "1 x 1 3/4", "1 x 1 3/4"),
        ("rebate_and_bead", "1 1/8 x 2", "1 1/8 x 1 3/4"),
        ("splayed_tenon", "1 1/8 x 1 1/2", "1 1/8 x 1 1/2"),
        ("centred_mortise", "1 1/8 x 1 1/2", "1 1/8 x 1 1/2"),
    ],
)
def test_stock(name: str, stile: str, rail: str) -> None:
    n = piece(name)
    for one in n["parts"]:
        kind = stile if one["id"].endswith("leg") else rail
        if not one["id"].endswith(("panel", "glass")):
            assert one_size(one)[:2] == size(f"{kind} x 0")[:2]


# -- Griffith, Plate 39: haunched, in a grooved frame

RAILS = ("front-upper-rail", "front-lower-rail")


def test_grooved_frame_thickness() -> None:
    # 5/16 + 3/8 + 5/16 = 1
    n = piece("grooved_frame")
    assert sum(inches("5/16", "3/8", "5/16"), Fraction(0)) == inch("1")
    for rail in RAILS:
        assert total(n, rail, "outer shoulder") == inch("5/16")
        assert the_sum(n, rail, "inner shoulder") == (inches("1", "-5/16", "-3/8"), inch("5/16"))


def test_grooved_frame_tenon_width() -> None:
    # 5/16 + 1 1/16 + 5/8 = 2, and 2 - 5/16 - 5/8 = 1 1/16; the haunch is at the outer edge
    n = piece("grooved_frame")
    assert the_sum(n, RAILS[0], "tenon width") == (inches("2", "-5/8", "-5/16"), inch("1 1/16"))
    assert the_sum(n, RAILS[1], "tenon width") == (inches("2", "-5/16", "-5/8"), inch("1 1/16"))


def test_grooved_frame_gauge_lines_are_five_and_eleven_sixteenths() -> None:
    # 5/16 + 3/8 = 11/16: one stand of the gauge for tenons, mortises and grooves
    n = piece("grooved_frame")
    assert stands_struck(n) == {span("5/16", "11/16"): {*RAILS, *STILES}}
    for rail in RAILS:
        assert the_sum(n, rail, "far cheek from the face side") == (
            inches("5/16", "3/8"),
            inch("11/16"),
        )
        for near, far in (
            ("near cheek", "far cheek"),
            ("near groove wall", "far groove wall"),
        ):
            assert {one[1:] for one in marked(n, rail, near)} == {
                ("mortise gauge", "face side", inch("5/16"))
            }
            assert {one[1:] for one in marked(n, rail, far)} == {
                ("mortise gauge", "face side", inch("11/16"))
            }
    for stile in STILES:
        for near, far in (("near wall", "far wall"), ("near groove wall", "far groove wall")):
            assert {one[1:] for one in marked(n, stile, near)} == {
                ("mortise gauge", "face side", inch("5/16"))
            }
            assert {one[1:] for one in marked(n, stile, far)} == {
                ("mortise gauge", "face side", inch("11/16"))
            }


def test_grooved_frame_tenon_limits_from_the_grooved_edge() -> None:
    # 5/16 + 1 1/16 = 1 3/8; the lower rail's face edge is the grooved one, as on the plate
    n = piece("grooved_frame")
    for role, at in (("tenon top", "5/16"), ("tenon bottom", "1 3/8")):
        assert {one[1:] for one in marked(n, RAILS[1], role)} == {
            ("marking gauge", "face edge", inch(at))
        }
    assert inch("5/16") + total(n, RAILS[1], "tenon width") == inch("1 3/8")
    assert the_sum(n, RAILS[1], "tenon bottom from the face edge") == (
        inches("2", "-5/8"),
        inch("1 3/8"),
    )


def test_grooved_frame_mortises() -> None:
    # 5/8 from the stile's end, 1 1/16 long, 1 3/8 deep from the stile's edge: 2 - 1 3/8 = 5/8
    n = piece("grooved_frame")
    found = mortises(n)
    assert set(found) == {(s, f"{r}.{e}") for r in RAILS for s, e in zip(STILES, "AB", strict=True)}
    for (_, joint), reach in found.items():
        if joint.startswith("front-upper-rail"):
            assert reach == box("5/8 to 1 11/16", "5/8 to 2", "5/16 to 11/16")
        else:  # from the foot of a stile of 15
            assert reach == box("13 5/16 to 14 3/8", "5/8 to 2", "5/16 to 11/16")
    assert inch("1 11/16") - inch("5/8") == inch("1 1/16")
    assert inch("15") - inch("14 3/8") == inch("5/8")
    for rail in RAILS:
        # 1 3/8 - 1 1/4 = 1/8 is left at the bottom
        assert the_sum(n, rail, "mortise depth") == (inches("1 1/4", "1/8"), inch("1 3/8"))
    knifed = {one[1:] for one in marked(n, "front-left-leg", "mortise top")}
    assert knifed == {("knife", "end A", inch("5/8")), ("knife", "end A", inch("13 5/16"))}


@pytest.mark.parametrize(
    ("rail", "waste", "across"),
    [(RAILS[0], "top", "0 to 5/8"), (RAILS[1], "bottom", "1 3/8 to 2")],
)
@pytest.mark.parametrize("end", ["A", "B"])
def test_grooved_frame_haunch_fills_the_groove(
    rail: str, waste: str, across: str, end: str
) -> None:
    """5/8 wide, 5/16 long; where it stands it is what the groove takes between mortise and end."""
    n = piece("grooved_frame")
    length = Fraction(part(n, rail)["length"])
    # 10 1/2 over the tenons (ours); from the tip 1 1/4 - 5/16 = 15/16 of waste
    gone = span("0", "15/16") if end == "A" else (length - inch("15/16"), length)
    found = reach_of(cut(n, rail, f"{waste} shoulder waste {end}"))
    assert found == (gone, span(*across.split(" to ")), span("5/16", "11/16"))
    haunch = (
        span("15/16", "1 1/4") if end == "A" else (length - inch("1 1/4"), length - inch("15/16")),
        *found[1:],
    )
    assert haunch[0][1] - haunch[0][0] == inch("5/16")
    stile = STILES["AB".index(end)]
    groove = reach_of(cut(n, stile, "groove"))
    assert groove == box("0 to 15", "1 11/16 to 2", "5/16 to 11/16")
    at_end = span("0", "5/8") if waste == "top" else span("14 3/8", "15")
    assert placed_box(n, rail, haunch) == placed_box(n, stile, (at_end, *groove[1:]))


def test_grooved_frame_haunch_needs_no_socket_of_its_own() -> None:
    n = piece("grooved_frame")
    for stile in STILES:
        roles = sorted(one["role"] for one in n["cuts"] if one["part"] == stile)
        assert roles == ["groove", "mortise", "mortise"]


def test_grooved_frame_haunch_is_knifed_from_end_a() -> None:
    # 1 1/4 - 5/16 = 15/16, and at the other end 10 1/2 - 1 1/4 + 5/16 = 9 9/16
    n = piece("grooved_frame")
    for rail in RAILS:
        assert the_sum(n, rail, "haunch at end A from end A") == (
            inches("1 1/4", "-5/16"),
            inch("15/16"),
        )
        assert total(n, rail, "haunch at end B from end A") == inch("9 9/16")
        edge = "edge" if rail == RAILS[0] else "far edge"
        assert marked(n, rail, "haunch end") == {
            (face, "knife", "end A", inch(at))
            for face in ("face", "back", edge)
            for at in ("15/16", "9 9/16")
        }


def test_grooved_frame_grooves_and_panel() -> None:
    # 3/8 wide, 5/16 deep, all round; a panel with nothing left over: 8 + 2 x 5/16 = 8 5/8
    n = piece("grooved_frame")
    for rail, across in zip(RAILS, ("1 11/16 to 2", "0 to 5/16"), strict=True):
        assert reach_of(cut(n, rail, "groove")) == box("0 to 10 1/2", across, "5/16 to 11/16")
    lips = inches("5/16", "5/16")
    assert the_sum(n, "front-panel", "panel width") == ([inch("8"), *lips], inch("8 5/8"))


# -- Griffith, Plate 1: blind


def test_blind_tenon_sizes() -> None:
    n = piece("blind_tenon")
    # the whole width; 1/2 (1 - 3/8) = 5/16 at both faces; 1 1/4 - 1 1/8 = 1/8
    assert the_sum(n, "front-rail", "tenon width") == ([inch("1 3/4")], inch("1 3/4"))
    assert the_sum(n, "front-rail", "outer shoulder") == (inches("1/2", "-3/16"), inch("5/16"))
    assert the_sum(n, "front-rail", "inner shoulder") == (
        inches("1", "-5/16", "-3/8"),
        inch("5/16"),
    )
    assert the_sum(n, "front-rail", "mortise depth") == (inches("1 1/8", "1/8"), inch("1 1/4"))
    assert (inch("1") - inch("3/8")) / 2 == inch("5/16")


def test_blind_tenon_mortise() -> None:
    # 1 3/4 long, 3/8 wide and 1 1/4 deep: 1/2 of a 1 3/4 upright is left behind it
    n = piece("blind_tenon")
    found = mortises(n)
    assert len(found) == 2
    for reach in found.values():
        # in the middle of 10 (ours): (10 - 1 3/4) / 2 = 4 1/8
        assert reach == box("4 1/8 to 5 7/8", "1/2 to 1 3/4", "5/16 to 11/16")
    assert stands_struck(n) == {span("5/16", "11/16"): {"front-rail", *STILES}}


def test_blind_tenon_has_only_cheeks_to_cut() -> None:
    n = piece("blind_tenon")
    found = {
        one["role"]: reach_of(one) for one in n["cuts"] if one["joint"] == "front-rail.A"
    }
    del found["mortise"]
    assert found == {
        "front cheek waste A": box("0 to 1 1/8", "0 to 1 3/4", "0 to 5/16"),
        "back cheek waste A": box("0 to 1 1/8", "0 to 1 3/4", "11/16 to 1"),
    }
    # so the shoulder is not cut at the edges of the tenon, only beside it
    lines = {
        (mark["face"], tuple(Fraction(spot[1]) for spot in mark["line"]))
        for mark in n["marks"]
        if mark["joint"] == "front-rail.A" and mark["role"] == "shoulder"
    }
    assert lines == {
        ("face", span("0", "1 3/4")),
        ("back", span("0", "1 3/4")),
        *((edge, span(*at)) for edge in ("edge", "far edge") for at in (("0", "5/16"),
                                                                         ("11/16", "1"))),
    }


# -- Ross, Exercise 3: a through mortise in the middle


def test_centred_mortise() -> None:
    # 1/2 (6 - 1 1/2) = 2 1/4
    n = piece("centred_mortise")
    for stile, end in zip(STILES, "AB", strict=True):
        name = f"mortise top from end A (front tenon piece, end {end})"
        assert the_sum(n, stile, name) == (inches("3", "-3/4"), inch("2 1/4"))
        assert total(n, stile, name.replace("top", "bottom")) == inch("3 3/4")
    assert set(mortises(n).values()) == {
        box("2 1/4 to 3 3/4", "0 to 1 1/2", "3/8 to 3/4")
    }
    assert (inch("6") - inch("1 1/2")) / 2 == inch("2 1/4")
    # as much below it: it stands in the middle
    assert inch("6") - inch("3 3/4") == inch("2 1/4")


def test_centred_mortise_is_struck_on_both_faces() -> None:
    """A through mortise is marked and cut from both sides (William Noyes, Handwork in Wood, 1910,
    ch. VII no. 31).
    """
    n = piece("centred_mortise")
    for stile in STILES:
        for role, at in (("mortise top", "2 1/4"), ("mortise bottom", "3 3/4")):
            assert marked(n, stile, role) == {
                (face, "knife", "end A", inch(at)) for face in ("edge", "far edge")
            }
        for role, at in (("near wall", "3/8"), ("far wall", "3/4")):
            assert marked(n, stile, role) == {
                (face, "mortise gauge", "face side", inch(at)) for face in ("edge", "far edge")
            }


def test_centred_mortise_tenon_is_as_long_as_its_piece_is_wide() -> None:
    n = piece("centred_mortise")
    assert the_sum(n, "front-tenon-piece", "tenon length") == ([inch("1 1/2")], inch("1 1/2"))
    assert cut_list(n)["tenon piece"] == (1, size("1 1/8 x 1 1/2 x 9"))


# -- Ross, Exercise 4: a splayed through tenon and its key

CROSS = "front-cross-piece"


def test_splayed_tenon_thirds() -> None:
    # 3/8 + 3/8 + 3/8 = 1 1/8
    n = piece("splayed_tenon")
    assert the_sum(n, CROSS, "inner shoulder") == (inches("1 1/8", "-3/8", "-3/8"), inch("3/8"))
    assert stands_struck(n) == {span("3/8", "3/4"): {CROSS, *STILES}}


def test_splayed_tenon_post_length() -> None:
    # 1 1/2 + 1 1/2 + 7 = 10, read down the placed parts
    n = piece("splayed_tenon")
    post, cross = stands(n, STILES[0], "Z"), stands(n, CROSS, "Z")
    found = [post[1] - cross[1], cross[1] - cross[0], cross[0] - post[0]]
    assert found == inches("1 1/2", "1 1/2", "7")
    assert sum(found, Fraction(0)) == Fraction(part(n, STILES[0])["length"]) == inch("10")


@pytest.mark.parametrize("end", ["A", "B"])
def test_splayed_tenon_key_space(end: str) -> None:
    """3/8 at the outer face and 1/4 at the inner one: 1/8 of taper over the post's 1 1/2."""
    n = piece("splayed_tenon")
    stile = STILES["AB".index(end)]
    # above the tenon, whose upper edge is 1 1/2 below the post's end; W = 0 is the outer face
    assert corners(cut(n, stile, "wedge space")) == {
        (inch(along), inch(wide), inch(thick))
        for along, wide in (("1 1/2", "0"), ("1 1/8", "0"), ("1 1/2", "1 1/2"), ("1 1/4", "1 1/2"))
        for thick in ("3/8", "3/4")
    }
    assert the_sum(n, stile, f"wedge space at the outer face (front cross-piece, end {end})") == (
        inches("1/4", "1/8"),
        inch("3/8"),
    )
    assert inch("3/8") - inch("1/4") == inch("1/8")


@pytest.mark.parametrize("end", ["A", "B"])
def test_splayed_tenon_lower_edge(end: str) -> None:
    """1 1/4 wide at the shoulder, 1 1/2 at the outer face; its mortise splays with it."""
    n = piece("splayed_tenon")
    length = Fraction(part(n, CROSS)["length"])

    def along(text: str) -> Fraction:
        return inch(text) if end == "A" else length - inch(text)

    waste = corners(cut(n, CROSS, f"bottom shoulder waste {end}"))
    assert waste == {
        (along(u), inch(w), inch(t))
        for u, w in (("0", "1 1/2"), ("1 1/2", "1 1/2"), ("1 1/2", "1 1/4"))
        for t in ("3/8", "3/4")
    }
    stile = STILES["AB".index(end)]
    space = corners(cut(n, stile, "splay space"))
    # 1 1/2 + 1 1/4 = 2 3/4 and 1 1/2 + 1 1/2 = 3 below the post's end
    assert space == {
        (inch(at), inch(wide), inch(thick))
        for at, wide in (("2 3/4", "0"), ("3", "0"), ("2 3/4", "1 1/2"))
        for thick in ("3/8", "3/4")
    }
    # the waste's slope and the space's slope are one plane where they stand
    slope = {placed(n, CROSS, spot) for spot in waste} & {placed(n, stile, spot) for spot in space}
    assert len(slope) == 4


def test_splayed_tenon_mouths_are_knifed_where_the_mortise_opens() -> None:
    # outside: 1 1/2 - 3/8 = 1 1/8 to 3; inside: 1 1/2 - 1/4 = 1 1/4 to 2 3/4
    n = piece("splayed_tenon")
    for stile in STILES:
        for face, top, bottom in (("edge", "1 1/8", "3"), ("far edge", "1 1/4", "2 3/4")):
            assert marked(n, stile, "mortise top", face) == {
                (face, "knife", "end A", inch(top))
            }
            assert marked(n, stile, "mortise bottom", face) == {
                (face, "knife", "end A", inch(bottom))
            }


@pytest.mark.parametrize(("stile", "end"), [*zip(STILES, "AB", strict=True)])
def test_splayed_tenon_mouths_have_their_sums(stile: str, end: str) -> None:
    n = piece("splayed_tenon")
    for line, at in (
        ("mortise top on the inner face", "1 1/4"),
        ("mortise top on the outer face", "1 1/8"),
        ("mortise bottom on the outer face", "3"),
        ("mortise bottom", "2 3/4"),
    ):
        assert total(n, stile, f"{line} from end A (front cross-piece, end {end})") == inch(at)


def test_splayed_tenon_edge_is_struck_along_its_slope() -> None:
    """From 1 1/2 at the tip to 1 1/4 at the shoulder, on both faces.

    A line parallel to the edge at 1 1/4 would take the splay away: there is none.
    """
    n = piece("splayed_tenon")
    for face in ("face", "back"):
        lines = [
            (mark["tool"], tuple(tuple(Fraction(value) for value in spot) for spot in mark["line"]))
            for mark in n["marks"]
            if mark["joint"] == f"{CROSS}.A" and mark["part"] == CROSS
            and mark["face"] == face and mark["role"] != "shoulder"
        ]
        slope = ((Fraction(0), inch("1 1/2")), (inch("1 1/2"), inch("1 1/4")))
        assert lines == [("bevel", slope)]


# -- Ross, Exercise 6: rebate and bead

BEADED = ("front-top-rail", "front-foot-rail")


def test_rebate_and_bead_thirds() -> None:
    # 3/8 + 3/8 + 3/8 = 1 1/8: shoulder, tenon, rebate
    n = piece("rebate_and_bead")
    for rail in BEADED:
        assert the_sum(n, rail, "inner shoulder") == (
            inches("1 1/8", "-3/8", "-3/8"),
            inch("3/8"),
        )
        assert the_sum(n, rail, "far cheek from the face side") == (
            inches("3/8", "3/8"),
            inch("3/4"),
        )
        assert the_sum(n, rail, "wood in front of the seat") == (
            inches("1 1/8", "-3/8"),
            inch("3/4"),
        )


def test_rebate_and_bead_tenon_is_one_wide_and_one_long() -> None:
    n = piece("rebate_and_bead")
    # 1 3/4 - 1/2 - 1/4 = 1 (the shoulders are ours)
    assert the_sum(n, BEADED[0], "tenon width") == (inches("1 3/4", "-1/2", "-1/4"), inch("1"))
    assert the_sum(n, BEADED[1], "tenon width") == (inches("1 3/4", "-1/4", "-1/2"), inch("1"))
    for (_, joint), reach in mortises(n).items():
        along = "1/2 to 1 1/2" if joint.startswith(BEADED[0]) else "13 1/2 to 14 1/2"
        assert reach == box(along, "7/8 to 2", "3/8 to 3/4")
    for rail in BEADED:
        assert the_sum(n, rail, "cut length") == (inches("4", "1", "1"), inch("6"))


def test_rebate_and_bead_opening_is_four() -> None:
    n = piece("rebate_and_bead")
    assert gap(n, *STILES, "X") == inch("4")
    for rail in BEADED:
        assert the_sum(n, rail, "shoulder distance") == (inches("8", "-2", "-2"), inch("4"))


@pytest.mark.parametrize("rail", BEADED)
def test_rebate_and_bead_shoulders(rail: str) -> None:
    """The face shoulders stand a bead further apart at each end, the back ones a rebate.

    Between the face shoulders 4 + 2 x 1/4 = 4 1/2, between the back ones 4 + 2 x 3/8 = 4 3/4.
    """
    n = piece("rebate_and_bead")
    at_a = the_sum(n, rail, "face shoulder at end A from end A")
    at_b = the_sum(n, rail, "face shoulder at end B from end A")
    assert at_a == (inches("1", "-1/4"), inch("3/4"))
    assert at_b == (inches("6", "-1", "1/4"), inch("5 1/4"))
    assert at_b[1] - at_a[1] == inch("4 1/2")
    assert the_sum(n, rail, "back shoulder distance") == (
        inches("4", "3/8", "3/8"),
        inch("4 3/4"),
    )
    knifed = {
        (mark["face"], Fraction(mark["distance"]))
        for mark in n["marks"]
        if mark["part"] == rail and mark["tool"] == "knife"
        and mark["role"] in ("shoulder", "long shoulder") and mark["face"] in ("face", "back")
    }
    assert knifed == {
        ("face", inch("3/4")), ("face", inch("5 1/4")),
        ("back", inch("5/8")), ("back", inch("5 3/8")),
    }


@pytest.mark.parametrize(("stile", "end"), [*zip(STILES, "AB", strict=True)])
def test_rebate_and_bead_is_mitred_at_the_corner(stile: str, end: str) -> None:
    """The stile loses its bead over the rail, to a mitre 1/4 each way at the inner corner."""
    n = piece("rebate_and_bead")
    # 2 - 1/4 = 1 3/4
    name = f"moulding cut back from the face edge (front top rail, end {end})"
    assert the_sum(n, stile, name) == (inches("2", "-1/4"), inch("1 3/4"))
    lost = corners(cut(n, stile, "moulding cut back", BEADED[0]))
    assert lost == {
        (inch(along), inch(wide), inch(thick))
        for along, wide in (("0", "2"), ("1 3/4", "2"), ("1 1/2", "1 3/4"), ("0", "1 3/4"))
        for thick in ("0", "1/4")
    }
    length = Fraction(part(n, BEADED[0])["length"])

    def along(text: str) -> Fraction:
        return inch(text) if end == "A" else length - inch(text)

    waste = corners(cut(n, BEADED[0], f"moulding mitre waste, far edge {end}"))
    assert waste == {
        (along(u), inch(w), inch(t))
        for u, w in (("1", "1 3/4"), ("3/4", "1 1/2"), ("3/4", "1 3/4"))
        for t in ("0", "1/4")
    }
    # the two mitres lie on one another
    shared = {placed(n, stile, one) for one in lost} & {placed(n, BEADED[0], one) for one in waste}
    assert len(shared) == 4


def test_rebate_begins_where_the_tenon_ends() -> None:
    """The plate's thirds put mortise wall and rebate in one plane: nothing to object to."""
    n = piece("rebate_and_bead")
    assert findings(n, SEAT) == []
    for stile in STILES:
        assert reach_of(cut(n, stile, "rabbet")) == box("0 to 15", "1 5/8 to 2", "3/4 to 1 1/8")
