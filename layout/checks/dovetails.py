"""Can these dovetails be cut and will they hold: pins, half pins, slope, lap, tails, rabbets."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from layout.checks.words import listed, said
from layout.defaults import default_length, default_ratio
from layout.joints.dovetail import Corner
from layout.joints.spacing import Member
from layout.mark import Finding
from layout.piece import Piece

PINS = "pins that can be cut"
HALF = "half pins stout enough"
SLOPE = "slope of the dovetails"
TAILS = "tails against pins"
LAP = "lap over the tails"
RABBET = "rabbet inside the half pin"
FIRST = "which board is cut first"
# Slopes in use, as the sources have them: William Fairham, Woodwork Joints, 1921 (1 in 8 to 1 in
# 6); George A. Ross, Elementary Course in Woodwork, 1901, Exercise 7 (1 in 4).
FLATTEST, STEEP, STEEPEST = Fraction(8), Fraction(6), Fraction(4)


def findings(piece: Piece) -> list[Finding]:
    """Every corner's findings; corners that are laid out alike share them."""
    groups: dict[object, list[Corner]] = {}
    for corner in piece.corners:
        key = (corner.spacing, corner.rabbet and corner.rabbet[:3], corner.pins.kind)
        groups.setdefault(key, []).append(corner)
    found: list[Finding] = []
    for corners in groups.values():
        found += _of(piece, corners)
    return [*found, *_first(piece)]


def _of(piece: Piece, corners: list[Corner]) -> Iterator[Finding]:
    who = tuple(dict.fromkeys(
        part.id for corner in corners for part in (corner.tails, corner.pins)
    ))
    words = _named(corners)
    one = corners[0]
    yield from _pins(piece, one, who, words)
    yield from _half_pins(piece, one, who, words)
    yield from _slope(one, who, words)
    yield from _proportions(piece, one, who, words)
    yield from _lap(piece, one, who, words)
    yield from _rabbet(piece, one, who, words)


def _first(piece: Piece) -> Iterator[Finding]:
    """Which board is cut first and lends its outline to the other."""
    for first, other in (("tails", "pins"), ("pins", "tails")):
        corners = [one for one in piece.corners if one.spacing.choice.first == first]
        if not corners:
            continue
        boards = [one.tails if first == "tails" else one.pins for one in corners]
        kinds = listed(list(dict.fromkeys(part.kind for part in boards)))
        yield Finding(
            FIRST, "note", tuple(dict.fromkeys(part.id for part in boards)),
            f"cut the {first} first ({kinds}), hold each on the board that it meets and mark the "
            f"{other} from it, corner by corner; the lines on their template tell where they "
            "should come",
        )


def _named(corners: list[Corner]) -> str:
    """`box, corners A, B, C and D`; a corner by itself needs no letter."""
    if corners[0].tails.kind == "tail board":
        return "the corner"
    boxes = dict.fromkeys(corner.name.rsplit(".", 1)[0].replace("-", " ") for corner in corners)
    letters = sorted({corner.letter for corner in corners})
    return f"{listed(list(boxes))}, corner{'s' if len(letters) > 1 else ''} {listed(letters)}"


def _pins(piece: Piece, corner: Corner, who: tuple[str, ...], words: str) -> Iterator[Finding]:
    """No pin narrower than a saw cut; a chisel for what lies between the tails."""
    choice = corner.spacing.choice
    saw = default_length("dovetail_saw", piece.choice.unit)
    pins = [one for one in corner.spacing.pins if one.kind == "pin"]
    narrow = min((one.end for one in corner.spacing.pins), default=None)
    if narrow is not None and narrow < saw:
        yield Finding(
            PINS, "stop", who,
            f"{words}: a pin of {said(piece, narrow)} is narrower than a saw cut, "
            f"{said(piece, saw)}",
            (("pin", narrow), ("saw cut", saw)),
            f"make pins and half pins at least {said(piece, saw)}",
        )
        return
    chisel = min(piece.choice.kit.chisels, default=None)
    if pins and chisel is not None and choice.pin < chisel:
        base = pins[0].base
        reach = "fits at the baseline only" if chisel <= base else "fits nowhere between them"
        yield Finding(
            PINS, "caution", who,
            f"{words}: between two tails the room is {said(piece, choice.pin)} at the end and "
            f"{said(piece, base)} at the baseline; the narrowest chisel, {said(piece, chisel)}, "
            f"{reach}",
            (("pin at the end", choice.pin), ("pin at the baseline", base), ("chisel", chisel)),
            f"make the pin {said(piece, chisel)}, or list a narrower chisel in the kit",
        )


def _half_pins(
    piece: Piece, corner: Corner, who: tuple[str, ...], words: str
) -> Iterator[Finding]:
    """A half pin less than half of a pin splits off when the joint is driven home (common
    practice, no source).
    """
    choice = corner.spacing.choice
    thin = [one for one in corner.spacing.pins
            if one.kind == "half pin" and one.end < choice.pin / 2]
    for one in thin[:1]:
        yield Finding(
            HALF, "caution", who,
            f"{words}: a half pin of {said(piece, one.end)} at the end is less than half of a "
            f"pin, {said(piece, choice.pin / 2)}, and may split off",
            (("half pin", one.end), ("half of a pin", choice.pin / 2)),
            f"make half pins at least {said(piece, choice.pin / 2)}; half pins left open are as "
            "wide at the baseline as a whole pin",
        )


def _slope(corner: Corner, who: tuple[str, ...], words: str) -> Iterator[Finding]:
    slope = corner.spacing.choice.slope
    told = f"{slope.ratio_text} ({slope.degrees_text} degrees)"
    figures = (("run", slope.run),)
    if slope.run < STEEPEST:
        yield Finding(SLOPE, "caution", who,
                      f"{words}: a slope of {told} is steeper than any in the sources, 1 in 4: the "
                      "corners of the tails are short grain and break off",
                      figures, "take 1 in 6 to 1 in 8")
    elif slope.run < STEEP:
        yield Finding(SLOPE, "note", who,
                      f"{words}: a slope of {told} is steeper than 1 in 6, which some give as the "
                      "limit; others go to 1 in 4", figures)
    elif slope.run > FLATTEST:
        yield Finding(SLOPE, "caution", who,
                      f"{words}: a slope of {told} is less than 1 in 8 and holds little",
                      figures, "take 1 in 6 to 1 in 8")
    if slope.rounded:
        yield Finding(SLOPE, "note", who,
                      f"{words}: a cutter's angle is no whole ratio; {told} is worked with to "
                      "twelve decimals", figures)


def _proportions(
    piece: Piece, corner: Corner, who: tuple[str, ...], words: str
) -> Iterator[Finding]:
    """How tails and pins stand to each other (William Noyes, Handwork in Wood, 1910, ch. VII no.
    48).
    """
    unit = piece.choice.unit
    pins = [one for one in corner.spacing.pins if one.kind == "pin"]
    tails = corner.spacing.tails
    widest = max(tails, key=lambda one: one.end)
    limit = default_length("tail_widest", unit)
    if widest.end > limit:
        yield Finding(TAILS, "note", who,
                      f"{words}: the widest tail is {said(piece, widest.end)} at its end; more "
                      f"than {said(piece, limit)} is unusual",
                      (("tail", widest.end), ("usual at most", limit)))
    if not pins:
        return
    pin = pins[0]
    ratio = default_ratio("tail_pin_ratio")
    if widest.base > ratio * pin.base:
        yield Finding(TAILS, "note", who,
                      f"{words}: at the baseline the widest tail is {said(piece, widest.base)}, "
                      f"more than {ratio} pins of {said(piece, pin.base)}: neat, but not as strong "
                      "as more tails would be",
                      (("tail at the baseline", widest.base), ("pin at the baseline", pin.base)))
    least = min(tails, key=lambda one: one.base)
    if _weak(least, pin):
        yield Finding(TAILS, "caution", who,
                      f"{words}: {least.name} is only {said(piece, least.base)} at its baseline, "
                      f"less than half of a pin there, {said(piece, pin.base)}",
                      (("tail at the baseline", least.base), ("pin at the baseline", pin.base)),
                      "use fewer tails, or narrower pins")


def _weak(tail: Member, pin: Member) -> bool:
    return tail.base * 2 < pin.base


def _lap(piece: Piece, corner: Corner, who: tuple[str, ...], words: str) -> Iterator[Finding]:
    lap = corner.spacing.choice.lap
    least = default_length("lap_least", piece.choice.unit)
    if lap is not None and lap < least:
        yield Finding(LAP, "caution", who,
                      f"{words}: a lap of {said(piece, lap)} is thinner than "
                      f"{said(piece, least)} and may break out when the sockets are chopped",
                      (("lap", lap), ("least", least)), "make the lap more")
    tails, thick = corner.depth, corner.tails.thickness
    if lap is not None and tails < thick / 2:
        yield Finding(LAP, "caution", who,
                      f"{words}: the lap leaves tails of {said(piece, tails)}, less than half as "
                      f"long as the {corner.tails.kind} is thick, {said(piece, thick)}",
                      (("tail length", tails), ("thickness", thick)),
                      "make the lap less, or the pin board thicker")


def _rabbet(piece: Piece, corner: Corner, who: tuple[str, ...], words: str) -> Iterator[Finding]:
    """A rabbet that runs through both boards must lie wholly in a half pin, or gaps show."""
    rabbet = corner.rabbet
    if rabbet is None:
        return
    near = rabbet.edge == "near"
    member = corner.spacing.members[0 if near else -1]
    half = member.end if member.kind == "half pin" else Fraction(0)
    if half < rabbet.wide:
        cure = f"make the half pin at least {said(piece, rabbet.wide)}, or leave half_pin out"
        if member.kind != "half pin":
            cure = "leave half pins at the edges"
        yield Finding(RABBET, "stop", who,
                      f"{words}: the rabbet is {said(piece, rabbet.wide)} wide, the half pin there "
                      f"only {said(piece, half)}: it would cut into the outermost tail",
                      (("rabbet", rabbet.wide), ("half pin", half)),
                      cure)
    board = min(corner.tails.thickness, corner.depth)
    if rabbet.deep >= board:
        yield Finding(RABBET, "stop", who,
                      f"{words}: a rabbet {said(piece, rabbet.deep)} deep leaves no wood of "
                      f"{said(piece, board)}",
                      (("rabbet", rabbet.deep), ("wood", board)), "make it shallower")
