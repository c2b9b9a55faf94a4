"""A top through the year, what it is glued up of, how it is held, and what everything weighs."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from layout.builds.drawer import Drawer
from layout.builds.top import Top
from layout.builds.top_fixing import Fixings
from layout.checks.weights import mass_words, weight_of
from layout.checks.words import at_least, listed, said
from layout.joints import fixing
from layout.joints.strips import Strips, stave_stagger
from layout.mark import Finding
from layout.measure import decimal_text
from layout.part import Part, piece_axis
from layout.piece import Piece
from layout.wood.movement import carried

YEAR = "top through the year"
STRIPS = "strips of the top"
STAVES = "stave ends apart"
CLAMPS = "clamps for the top"
GLUE = "glue for the top"
FIXED = "top held and free to move"
SLOTS = "slots for the top"
BUTTONS = "buttons in their mortises"
BORED = "counterbores in the rails"
CAPS = "end caps"
WEIGHT = "weight"
LOADED = "weight of loaded drawers"
ZERO = Fraction(0)


def findings(piece: Piece) -> list[Finding]:
    """Stops, cautions and notes on every top, and the weight of the piece."""
    found: list[Finding] = []
    for laid in piece.tops:
        top = laid.top
        found += _year(piece, top)
        if top.strips is not None:
            found += _strips(piece, top, top.strips)
        if laid.fixings is not None:
            found += _fixed(piece, top, laid.fixings)
        elif top.bearing is not None and top.bearing.rails:
            found.append(Finding(
                FIXED, "note", (top.main.id,), f"how the {top.choice.name} is held is not planned",
                (), 'write fixing = { kind = "buttons" } or "screws"'))
        found += _caps(piece, top)
        found += weight_of(piece, f"the {top.choice.name}", top.parts, WEIGHT)
    if len(piece.parts) > sum(len(laid.top.parts) for laid in piece.tops):
        found += weight_of(piece, "the whole piece, without its hardware,", piece.parts, WEIGHT)
    found += _loaded(piece)
    return found


def _year(piece: Piece, top: Top) -> Iterator[Finding]:
    if top.year is None:
        yield Finding(
            YEAR, "note", (top.main.id,),
            f"what the year does to the {top.choice.name} is not known: its timber is not in the "
            "tables", (), "name its timber, or give its figures under [[wood]]")
        return
    swells, shrinks = top.width * top.year.most, -top.width * top.year.least
    narrow, wide = top.width - shrinks, top.width + swells
    yield Finding(
        YEAR, "note", tuple(slab.id for slab in top.slabs),
        f"the {top.choice.name}, {_moves_as(top)}, {said(piece, top.width)} wide today, is "
        f"{said(piece, narrow)} at its narrowest and {said(piece, wide)} at its widest",
        (("narrowest", narrow), ("today", top.width), ("widest", wide)),
    )


def _moves_as(top: Top) -> str:
    """How its boards are sawn, and how they lie where that turns their rings."""
    if top.choice.strips is None or top.choice.strips.lay == "flat" or top.sawn == "rift":
        return f"{top.sawn}-sawn"
    return f"moving as {top.sawn}-sawn, its strips being on edge"


# -- the glue-up


def _strips(piece: Piece, top: Top, strips: Strips) -> Iterator[Finding]:
    choice, who = strips.choice, tuple(slab.id for slab in top.slabs)
    widths = dict.fromkeys(strip.width for strip in strips.strips)
    wide = listed([said(piece, width) for width in widths])
    way = "wide, edge to edge" if choice.lay == "flat" else "thick, face to face"
    sections = len(strips.sections)
    parts = "in one" if sections == 1 else (
        f"in {sections} sections of {listed([str(count) for count in strips.sections])} strips, "
        f"each planed, then joined: {listed([said(piece, w) for w in strips.section_widths])} wide"
    )
    per = strips.per_board
    sawn = "" if per < 2 else f"; a rough board gives {per} across its width"
    yield Finding(
        STRIPS, "note", who,
        f"the {top.choice.name} is of {len(strips.strips)} strips {wide} {way}; glue it up "
        f"{said(piece, strips.long)} long and {said(piece, strips.milled)} thick, {parts}{sawn}",
        (("widest strip", choice.widest), ("length", strips.long), ("thickness", strips.milled)),
    )
    apart = stave_stagger(strips)
    if apart is not None:
        many = [len(one.staves) for one in strips.strips[:2]]
        yield Finding(
            STAVES, "note" if apart >= choice.stagger else "caution", who,
            f"strips are of {listed([str(count) for count in dict.fromkeys(many)])} staves; their "
            f"ends lie {said(piece, apart)} apart in strips side by side; least "
            f"{said(piece, choice.stagger)}", (("apart", apart), ("least", choice.stagger)),
            "" if apart >= choice.stagger else "use longer boards",
        )
    if len(strips.strips) < 2:
        return
    yield Finding(
        CLAMPS, "note", who,
        f"{strips.clamps} clamps, over and under in turn, {said(piece, strips.clamp_spacing)} "
        f"apart at the most: their pressure spreads at 45 degrees through a batten of "
        f"{said(piece, choice.caul)} and the outermost strip",
        (("spacing", strips.clamp_spacing),),
    )
    grams = carried(strips.glue, 2)
    metres = decimal_text(strips.glue_area / 1_000_000, 2)
    yield Finding(
        GLUE, "note", who,
        f"{metres} square metres of glue joints: about {grams} g of glue, if a square metre takes "
        f"{decimal_text(choice.spread)} g; the glue's own sheet comes first", ())


# -- what holds it


def _fixed(piece: Piece, top: Top, fixings: Fixings) -> Iterator[Finding]:
    choice, name = fixings.choice, top.choice.name
    where = {"front": "along its front edge", "middle": "along its middle",
             "back": "along its back edge"}[choice.held]
    yield Finding(
        FIXED, "note", (top.main.id,),
        f"the {name} is held by {len(fixings.found)} {choice.kind} and does not move {where}; use "
        "no glue", ())
    rails: dict[str, list[fixing.Fixed]] = {}
    for one, _ in fixings.found:
        rails.setdefault(one.rail.id, []).append(one)
    for found in rails.values():
        one = max(found, key=lambda each: each.away)
        if not one.away:
            continue
        if choice.kind == "screws":
            slot = fixing.screw_slot(one, choice.screw, choice.screw.hole)
            long, what = slot.length, "slot"
        else:
            span = fixing.mortise_span(one, choice.button)
            long, what = span[1] - span[0], "mortise"
        yield Finding(
            SLOTS, "note", (one.rail.id,),
            f"on the {one.rail.name}, {said(piece, one.away)} from the held line, the {name} moves "
            f"up to {at_least(piece, one.out)} out and {at_least(piece, one.back)} back: {what} "
            f"{said(piece, long)} long",
            (("away", one.away), ("out", one.out), ("back", one.back), ("length", long)),
        )
    if fixings.left_out:
        yield Finding(
            FIXED, "note", tuple(rail.id for rail in fixings.left_out),
            f"nothing is fixed to the {listed([rail.name for rail in fixings.left_out])}: an end "
            "cap lies there", ())
    if choice.kind == "buttons":
        yield from _buttons(piece, fixings)
    else:
        yield from _counterbores(piece, fixings)


def _counterbores(piece: Piece, fixings: Fixings) -> Iterator[Finding]:
    """The rail's wood beside the counterbores."""
    least = piece.choice.wall_least
    for one, _ in fixings.found:
        wall = min(fixing.beside_counterbore(one, fixings.choice.screw))
        if wall < least and one.rail.width > fixings.choice.screw.under:
            yield Finding(
                BORED, "caution", (one.rail.id,),
                f"only {said(piece, wall)} of wood beside a screw's counterbore in the "
                f"{one.rail.name}; least {said(piece, least)}", (("wood", wall), ("least", least)),
                "use a smaller screw, a thicker rail, or buttons")


def _buttons(piece: Piece, fixings: Fixings) -> Iterator[Finding]:
    """Wood around a button's mortise, and how far its tongue stays in it."""
    button, least = fixings.choice.button, piece.choice.wall_least
    for one, part in fixings.found:
        assert part is not None
        seat = fixing.seat_of(one, button, fixings.tongue)
        upper, lower = fixing.mortise_walls(button)
        walls = (("above a button's mortise", upper),
                 ("behind a button's mortise", one.rail.thickness - seat.deep),
                 ("below a button's mortise", one.rail.width - lower))
        for word, wall in walls:
            if wall < least:
                yield Finding(
                    BUTTONS, "caution", (one.rail.id,),
                    f"only {said(piece, wall)} of wood {word} in the {one.rail.name}; least "
                    f"{said(piece, least)}", (("wood", wall), ("least", least)),
                    "make the button's tongue lower, or shorter")
    one, _ = max(fixings.found, key=lambda each: ZERO if each[0].along else each[0].away)
    seat = fixing.seat_of(one, button, fixings.tongue)
    _, away = (ZERO, ZERO) if one.along else fixing.in_and_out(one)
    stays = seat.tongue - seat.gap - away
    yield Finding(
        BUTTONS, "note", tuple(part.id for _, part in fixings.found if part is not None),
        f"every button's tongue is {said(piece, fixings.tongue)} long and stands at least "
        f"{said(piece, stays)} in its mortise all year", (("stands in", stays),))


# -- end caps


def _caps(piece: Piece, top: Top) -> Iterator[Finding]:
    if not top.caps or top.year is None:
        return
    choice, least = top.caps[0].choice, piece.choice.wall_least
    who = tuple(cap.part.id for cap in top.caps)
    thick = top.caps[0].thick
    walls = [("beside the end caps' groove", (top.choice.thickness - thick) / 2),
             ("behind the end caps' groove", choice.width - choice.length - choice.room)]
    longest = max((peg[2].length for peg in top.caps[0].pegs), default=ZERO)
    first, last = top.caps[0].pegs[0], top.caps[0].pegs[-1]
    walls += [("between a peg's slot and the end of the tongue",
               (choice.length - choice.peg) / 2),
              ("beside the outermost peg's slot", min(
                  first[1] - first[2].reach(-first[3])[0],
                  top.width - last[1] - last[2].reach(-last[3])[1]))]
    walls.append(("between two pegs' slots", min(
        after[1] - before[1] - before[2].reach(-before[3])[1] - after[2].reach(-after[3])[0]
        for before, after in pairwise(top.caps[0].pegs))))
    for word, wall in walls:
        if wall < least:
            yield Finding(
                CAPS, "stop" if wall <= 0 else "caution", who,
                f"only {said(piece, max(wall, ZERO))} of wood {word}; least {said(piece, least)}",
                (("wood", wall), ("least", least)),
                "make the tongue thinner or longer, the pegs thinner or fewer, or the caps wider")
    out, back = top.width * top.year.most, -top.width * top.year.least
    yield Finding(
        CAPS, "note", who,
        f"today the end caps are flush; through the year the {top.choice.name}'s edges come out "
        f"beyond them by up to {said(piece, out)} in all, and go back by up to "
        f"{said(piece, back)}; the longest peg slot is {said(piece, longest)}; glue only the peg "
        "without a slot, and the tongue by it", (("out", out), ("back", back)))


# -- weight


def _loaded(piece: Piece) -> Iterator[Finding]:
    if not piece.drawers or not piece.choice.drawer_load:
        return
    litres = sum((_inside(drawer) for drawer in piece.drawers), ZERO) / 1_000_000
    load = piece.choice.drawer_load
    yield Finding(
        LOADED, "note", tuple(drawer.front.id for drawer in piece.drawers),
        f"the drawers hold {carried(litres, 2)} litres; loaded, they add about "
        f"{mass_words(piece, litres * load)}, if a litre of what they hold weighs "
        f"{decimal_text(load)} kg", ())


def _inside(drawer: Drawer) -> Fraction:
    """Cubic mm between a drawer's sides, front and back, from its bottom to the sides' top."""
    deep = _between(drawer.front, drawer.back, piece_axis(drawer.left.placement.L))
    high = drawer.left.reach(2)[1] - drawer.bottom.reach(2)[1]
    return max(drawer.inside, ZERO) * max(deep, ZERO) * max(high, ZERO)


def _between(one: Part, other: Part, way: int) -> Fraction:
    a, b = one.reach(way), other.reach(way)
    return max(a[0] - b[1], b[0] - a[1])
