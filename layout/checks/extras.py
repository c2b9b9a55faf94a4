"""What haunches, pairs, wedges, keys, pegs and notches ask of the wood around them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.builds.tenoned import TenonedRail
from layout.checks.words import at_most, said
from layout.defaults import default_ratio
from layout.errors import BadPiece
from layout.joints import peg, wedge
from layout.joints.choices import PairChoice, TenonChoice
from layout.joints.rail_end import TenonSizes
from layout.joints.section import section
from layout.mark import Finding, Level
from layout.piece import Piece

WIDE = "tenon width against its thickness"
HAUNCH = "haunch"
WEDGES = "wedges"
KEY = "key"
PEGS = "pegs"
NOTCH = "notch"
MITRE = "mitred ends"
MOULD = "moulding"
# a tenon over five times its thickness is wide (Notes on Building Construction, Part I, Joinery)
NARROW = Fraction(5)
# flare of a wedged mortise, each end (general trade practice, from memory: 1/16 to 3/16 in)
FLARE = (Fraction(127, 80), Fraction(381, 80))
Figures = tuple[tuple[str, Fraction], ...]


def findings(piece: Piece) -> list[Finding]:
    """Findings on every rail, each told once for both of its ends where they are alike."""
    found: list[Finding] = []
    for one in piece.rails:
        found += _wide(piece, one)
        seen: set[tuple[str, str]] = set()
        for size in one.sizes:
            for level, rule, text, figures, cure in _of_end(piece, one, size):
                if (rule, text) in seen:
                    continue
                seen.add((rule, text))
                found.append(Finding(rule, level, (one.rail.part.id,), text, figures, cure))
    return found


_Told = tuple[Level, str, str, Figures, str]


def _of_end(piece: Piece, one: TenonedRail, size: TenonSizes) -> Iterator[_Told]:
    choice = one.rail.choice.tenon
    yield from _haunch(piece, one, size, choice)
    yield from _wedges(piece, one, size, choice)
    yield from _key(piece, one, size, choice)
    yield from _pegs(piece, one, size, choice)
    yield from _notches(piece, one, size)
    yield from _mould(piece, one, size, choice)
    if size.could_mitre is not None:
        other, long = size.could_mitre
        if long > size.length:
            yield (
                "note",
                MITRE,
                f"the tenons of the {one.rail.part.name} are kept clear of those of the {other}, "
                f"{said(piece, size.length)} long; mitred ends would make them "
                f"{said(piece, long)} on the long side, {said(piece, long - size.length)} more",
                (("kept clear", size.length), ("mitred", long)),
                'write meeting = "mitred" for both',
            )


def _wide(piece: Piece, one: TenonedRail) -> list[Finding]:
    """A tenon much wider than thick is better made as a pair; the check gives its sizes."""
    size, choice = one.size, one.rail.choice
    widest = max(stretch.size for stretch in size.section.widths if stretch.tenon)
    ratio = widest / size.thickness
    limit = default_ratio("tenon_ratio")
    if ratio <= NARROW:
        return []
    name = one.rail.part.name
    times = f"{float_free(ratio)} times"
    figures = (("tenon width", widest), ("tenon thickness", size.thickness))
    if ratio <= limit:
        return [
            Finding(
                WIDE,
                "note",
                (one.rail.part.id,),
                f"the {name}'s tenon is {said(piece, widest)} wide, {times} its thickness; up to "
                f"{NARROW} to {limit} times is usual",
                figures,
            )
        ]
    if choice.tenon.pair is not None:
        cure = "make the shoulders or the web more, or the rail narrower"
    else:
        cure = _pair_sizes(piece, one)
    return [
        Finding(
            WIDE,
            "caution",
            (one.rail.part.id,),
            f"the {name}'s tenon is {said(piece, widest)} wide, {times} its thickness: it will "
            f"shrink in its mortise and weaken what bears it; more than {limit} times is too wide",
            figures,
            cure,
        )
    ]


def float_free(ratio: Fraction) -> str:
    """A ratio to the nearest tenth, in words without a float."""
    tenths = round(ratio * 10)
    return str(tenths // 10) if tenths % 10 == 0 else f"{tenths // 10}.{tenths % 10}"


def _pair_sizes(piece: Piece, one: TenonedRail) -> str:
    """The pair that would take the place of one wide tenon."""
    choice = one.rail.choice
    seats = tuple(seat for panel in piece.panels for seat in panel.seats_in(one.rail))
    try:
        pair = section(
            choice.tenon._replace(pair=PairChoice()),
            choice.width,
            choice.thickness,
            seats,
            piece.choice.kit,
        )
    except BadPiece:
        return "make it a pair"
    tenon, web = pair.widths[1].size, pair.widths[2].size
    return (
        f"make it a pair (pair = {{}}, or --pair): two tenons {said(piece, tenon)} wide with "
        f"{said(piece, web)} between them"
    )


def _haunch(
    piece: Piece, one: TenonedRail, size: TenonSizes, choice: TenonChoice
) -> Iterator[_Told]:
    name = one.rail.part.name
    if size.web_haunch >= size.length:
        yield (
            "stop", HAUNCH,
            f"the haunch in the web of the {name} is {said(piece, size.web_haunch)} long, its "
            f"tenons {said(piece, size.length)}",
            (("haunch length", size.web_haunch), ("tenon length", size.length)),
            "make the haunch shorter; half of the tenon is plenty",
        )
    if choice.haunch is None:
        return
    if size.haunch_length >= size.length:
        yield (
            "stop", HAUNCH,
            f"the haunch of the {name} is {said(piece, size.haunch_length)} long, its tenon "
            f"{said(piece, size.length)}",
            (("haunch length", size.haunch_length), ("tenon length", size.length)),
            "make the haunch shorter; half of the tenon is plenty",
        )
    elif choice.haunch.kind != "groove" and size.haunch_length + choice.haunch.room >= size.depth:
        yield (
            "caution", HAUNCH,
            f"the haunch's socket for the {name} is as deep as the mortise",
            (("haunch length", size.haunch_length), ("mortise depth", size.depth)),
            "make the haunch shorter",
        )
    if choice.haunch.kind == "groove":
        groove = next(
            (p for p in piece.panels
             if one.rail.part.id in (p.upper.part.id, p.lower.part.id)),
            None,
        )
        width = groove.choice.seat.panel_thickness if groove is not None else None
        if width is not None and width != size.thickness:
            yield (
                "caution", HAUNCH,
                f"the haunch of the {name} is {said(piece, size.thickness)} thick and does not "
                f"fill its groove, {said(piece, width)}",
                (("tenon thickness", size.thickness), ("groove", width)),
                "leave the tenon's thickness out: it then takes the groove's",
            )


def _wedges(
    piece: Piece, one: TenonedRail, size: TenonSizes, choice: TenonChoice
) -> Iterator[_Told]:
    name = one.rail.part.name
    side = choice.side_wedge
    if side is not None and side.splay > side.inner:
        yield (
            "stop", WEDGES,
            f"the tenon of the {name} can't go in: it splays by {said(piece, side.splay)}, the "
            f"wedge leaves {said(piece, side.inner)} at the inner face",
            (("splay", side.splay), ("wedge at the inner face", side.inner)),
            "make the wedge thicker at the inner face, or the splay less",
        )
    if side is not None:
        shoulder = size.bottom if side.edge == "edge" else size.top
        if shoulder < side.splay:
            yield (
                "stop", WEDGES,
                f"the tenon of the {name} can't splay by {said(piece, side.splay)}: the shoulder "
                f"there is {said(piece, shoulder)}, and the rail has no wood beyond it",
                (("splay", side.splay), ("shoulder", shoulder)),
                "make the shoulder across from the wedge at least as wide as the splay",
            )
    wedges = choice.wedges
    if wedges is None:
        return
    long = wedge.wedge_length(wedges, size.length)
    narrowest = min(stretch.size for stretch in size.section.widths if stretch.tenon)
    if wedges.many == 2 and wedges.from_edge * 2 + wedges.kerf >= narrowest:
        yield (
            "stop", WEDGES,
            f"the two saw cuts in the tenon of the {name} run into each other: "
            f"{said(piece, wedges.from_edge)} from each edge of a tenon {said(piece, narrowest)} "
            "wide",
            (("from the edge", wedges.from_edge), ("tenon width", narrowest)),
            "use one wedge, or set the saw cuts nearer to the edges",
        )
    if wedges.many == 2 and wedges.kerf >= wedges.from_edge * 2:
        yield (
            "stop", WEDGES,
            f"the saw cuts in the tenon of the {name} run out of its edges: "
            f"{said(piece, wedges.kerf)} wide, their middle {said(piece, wedges.from_edge)} from "
            "the edge",
            (("saw cut", wedges.kerf), ("from the edge", wedges.from_edge)),
            "use a finer saw, or set the cuts further from the edges",
        )
    if wedges.many == 1 and wedges.kerf >= narrowest:
        yield (
            "stop", WEDGES,
            f"the saw cut in the tenon of the {name} is {said(piece, wedges.kerf)} wide, the "
            f"tenon {said(piece, narrowest)}",
            (("saw cut", wedges.kerf), ("tenon width", narrowest)),
            "use a finer saw",
        )
    if long >= size.length:
        yield (
            "stop", WEDGES,
            f"the wedges of the {name} are {said(piece, long)} long, its tenon "
            f"{said(piece, size.length)}: the saw cuts would run into the shoulder",
            (("wedge length", long), ("tenon length", size.length)),
            "three quarters of the tenon is usual",
        )
    if long <= size.projection:
        yield (
            "stop", WEDGES,
            f"the wedges of the {name} end before they reach the mortise: "
            f"{said(piece, long)} long, the tenon stands {said(piece, size.projection)} proud",
            (("wedge length", long), ("projection", size.projection)),
            "make the wedges longer",
        )
    spread = wedge.flare(wedges)
    if spread <= 0:
        yield (
            "caution", WEDGES,
            f"the wedges of the {name} are no thicker than their saw cuts: they spread nothing",
            (("wedge thickness", wedges.thickness), ("saw cut", wedges.kerf)),
            "make the wedges thicker",
        )
    elif not FLARE[0] <= spread <= FLARE[1]:
        yield (
            "note", WEDGES,
            f"each end of the mortise for the {name} flares by {said(piece, spread)}; "
            f"{said(piece, FLARE[0])} to {said(piece, FLARE[1])} is usual",
            (("flare", spread),),
            "",
        )


def _key(
    piece: Piece, one: TenonedRail, size: TenonSizes, choice: TenonChoice
) -> Iterator[_Told]:
    key = choice.key
    if key is None:
        return
    name = one.rail.part.name
    driven, held = (
        (size.thickness, size.width) if key.way == "thickness" else (size.width, size.thickness)
    )
    beyond = size.projection - key.wide
    if beyond <= 0:
        yield (
            "stop", KEY,
            f"the tenon of the {name} stands {said(piece, size.projection)} proud; the key alone "
            f"takes {said(piece, key.wide)}",
            (("projection", size.projection), ("key", key.wide)),
            f"at least {said(piece, key.wide + key.beyond)} leaves wood beyond the key",
        )
    elif beyond < key.wide / 2:
        yield (
            "caution", KEY,
            f"only {said(piece, beyond)} of the {name}'s tenon is left beyond the key: it may "
            "split off",
            (("beyond the key", beyond), ("key", key.wide)),
            f"let it stand {said(piece, key.wide + key.beyond)} proud",
        )
    if key.wide - key.taper * (driven + key.proud) <= 0:
        yield (
            "stop", KEY,
            f"the key of the {name} tapers to nothing inside the tenon",
            (("key", key.wide), ("driven through", driven)),
            "make the taper less or the key wider",
        )
    width = held / 3 if key.width is None else key.width
    if width * 2 > held:
        yield (
            "stop" if width >= held else "caution", KEY,
            f"the key of the {name} is {said(piece, width)} across in a tenon of "
            f"{said(piece, held)}: little is left beside it",
            (("key", width), ("tenon", held)),
            "a third of the tenon is usual",
        )
    if key.pull >= size.bearer:
        yield (
            "stop", KEY,
            f"the key's hole in the tenon of the {name} would reach through the leg",
            (("pull", key.pull), ("leg", size.bearer)),
            "1/16 in is usual",
        )


def _pegs(
    piece: Piece, one: TenonedRail, size: TenonSizes, choice: TenonChoice
) -> Iterator[_Told]:
    if choice.pegs is None:
        return
    name = one.rail.part.name
    if one.rail.meetings[0].thickness.axis == "L":
        yield (
            "stop", PEGS,
            f"the {name} can't be pegged: its tenon's cheeks lie across the part that bears it",
            (), "leave the pegs out, or turn the rail",
        )
        return
    pegs = peg.sizes(choice.pegs, size.thickness, size.width, piece.choice.kit)
    half = pegs.diameter / 2
    between = size.width / pegs.many - pegs.diameter
    if between < pegs.diameter:
        yield (
            "stop" if between <= 0 else "caution", PEGS,
            f"{pegs.many} pegs of {said(piece, pegs.diameter)} stand "
            f"{said(piece, max(between, Fraction(0)))} apart in the {name}'s tenon, "
            f"{said(piece, size.width)} wide",
            (("between pegs", between), ("tenon width", size.width)),
            "use fewer or thinner pegs",
        )
    to_shoulder = pegs.from_shoulder - half
    if to_shoulder < half:
        yield (
            "stop" if to_shoulder - pegs.draw <= 0 else "caution", PEGS,
            f"only {said(piece, max(to_shoulder, Fraction(0)))} of wood between the pegs of the "
            f"{name} and the edge of the leg",
            (("to the shoulder", to_shoulder),),
            "set them further from the shoulder; one and a half diameters is usual",
        )
    to_tip = size.length - size.projection - pegs.from_shoulder - half
    if to_tip < pegs.diameter:
        yield (
            "stop" if to_tip <= 0 else "caution", PEGS,
            f"only {said(piece, max(to_tip, Fraction(0)))} of the {name}'s tenon is left beyond "
            "its pegs",
            (("beyond the pegs", to_tip), ("tenon length", size.length)),
            "set them nearer to the shoulder, or make the tenon longer",
        )
    if pegs.draw * 3 > pegs.diameter:
        yield (
            "caution", PEGS,
            f"the pegs of the {name} draw {said(piece, pegs.draw)}, more than a third of their "
            f"{said(piece, pegs.diameter)}: they may break, or split the tenon",
            (("draw", pegs.draw), ("peg", pegs.diameter)),
            f"a quarter is usual: {at_most(piece, pegs.diameter / 4)}",
        )


def _notches(piece: Piece, one: TenonedRail, size: TenonSizes) -> Iterator[_Told]:
    name = one.rail.part.name
    for notch in size.notches:
        for low, high in size.section.spans("W"):
            above, below = notch.across[0] - low, high - notch.across[1]
            if above >= high - low or below >= high - low:
                continue  # the notch passes this tenon by
            left = max(above, Fraction(0)) + max(below, Fraction(0))
            if left >= one.rail.choice.tenon.web_least:
                continue
            yield (
                "stop" if left <= 0 else "caution", NOTCH,
                f"the notch for the {notch.passes} leaves "
                f"{'nothing' if left <= 0 else said(piece, left)} of the {name}'s tenon",
                (("left", left), ("tenon width", high - low)),
                "make the tenon that passes narrower, by a top or a bottom shoulder",
            )


def _mould(
    piece: Piece, one: TenonedRail, size: TenonSizes, choice: TenonChoice
) -> Iterator[_Told]:
    mould = choice.mould
    if mould is None:
        return
    name = one.rail.part.name
    if mould.depth > size.outer:
        yield (
            "stop", MOULD,
            f"the moulding is {said(piece, mould.depth)} deep, the outer shoulder of the {name} "
            f"{said(piece, size.outer)}: it would be cut into the tenon",
            (("moulding depth", mould.depth), ("outer shoulder", size.outer)),
            "make the outer shoulder at least as wide as the moulding is deep",
        )
    if one.rail.choice.set_in != 0:
        yield (
            "stop", MOULD,
            f"the {name} is set in behind the legs: a moulding can't run round the corner",
            (("set in", one.rail.choice.set_in),),
            "set the rail flush, or leave the moulding out",
        )
    if len(mould.edges) == 2 and mould.width * 2 > one.rail.part.width:
        yield (
            "stop", MOULD,
            f"the mitres of the two mouldings on the {name} run past each other: each is "
            f"{said(piece, mould.width)} wide, the rail {said(piece, one.rail.part.width)}",
            (("moulding width", mould.width), ("rail width", one.rail.part.width)),
            "make the moulding narrower or the rail wider",
        )
    if mould.width >= size.length:
        yield (
            "stop", MOULD,
            f"the moulding is {said(piece, mould.width)} wide, the tenon of the {name} "
            f"{said(piece, size.length)} long",
            (("moulding width", mould.width), ("tenon length", size.length)),
            "make the moulding narrower or the tenon longer",
        )
