"""The tenons of a rail's end cut square across: what stands, what goes, from surface to surface.

Across the width, counted from the face edge, and through the thickness, counted from the face
side, gaps and tenons follow each other: a shoulder, a tenon, and where there are two a web or a
gap and the second tenon, then the other shoulder.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, NamedTuple

from layout.defaults import default_ratio, share_words
from layout.errors import BadPiece, Where
from layout.joints.choices import HaunchChoice, PairChoice, RailEdge, TenonChoice
from layout.kit import Kit, chisel_for

ZERO = Fraction(0)
Terms = tuple[tuple[int, str, Fraction], ...]


class SeatInRail(NamedTuple):
    """A panel's seat as the rail carries it.

    `edge` is the rail edge it is cut along, `start` how far from the face side it begins, `lip`
    how far it goes into the edge, `width` that of a groove; all in mm. `runs_out` says that the
    groove goes on to the leg's end, where a haunch may fill it.
    """

    kind: Literal["rabbet", "groove"]
    edge: RailEdge
    start: Fraction
    lip: Fraction
    width: Fraction = ZERO
    runs_out: bool = False


class Stretch(NamedTuple):
    """One stretch of a section, in mm: a tenon, or a gap beside one. `name` is its word."""

    name: str
    size: Fraction
    tenon: bool = False


class Rule(NamedTuple):
    """A size that was not given but worked out: its name, the axis and the stations it lies
    between, and the terms of its sum.
    """

    name: str
    axis: Literal["W", "T"]
    start: int
    stop: int
    terms: Terms


class Section(NamedTuple):
    """A rail end's section, in mm.

    `wood` is the thickness that seats leave in front of them. `widths` run from the face edge,
    `depths` from the face side. `long_by` is how much longer the back shoulder is, from
    `long_from` behind the face side on. `share` names the rule that a tenon's thickness was
    chosen by, "" where it was given; `rules` are the sums of what was left open. `row_names`
    call the two tenons of a pair: upper and lower, or first and second on a rail that lies flat.
    """

    wood: Fraction
    widths: tuple[Stretch, ...]
    depths: tuple[Stretch, ...]
    share: str
    rules: tuple[Rule, ...]
    long_by: Fraction = ZERO
    long_from: Fraction = ZERO
    row_names: tuple[str, str] = ("upper", "lower")

    def chain(self, axis: Literal["W", "T"]) -> tuple[Stretch, ...]:
        """The stretches along an axis of the rail."""
        return self.widths if axis == "W" else self.depths

    def station(self, axis: Literal["W", "T"], index: int) -> Fraction:
        """Where the stretch of this number begins, in mm from the reference surface."""
        return sum((one.size for one in self.chain(axis)[:index]), ZERO)

    def spans(self, axis: Literal["W", "T"]) -> tuple[tuple[Fraction, Fraction], ...]:
        """From where to where each tenon reaches along an axis."""
        return tuple(
            (self.station(axis, index), self.station(axis, index + 1))
            for index, one in enumerate(self.chain(axis))
            if one.tenon
        )

    def terms(self, axis: Literal["W", "T"], start: int, stop: int) -> Terms:
        """The stretches between two stations, to be added."""
        return tuple((+1, one.name, one.size) for one in self.chain(axis)[start:stop])


def section(
    choice: TenonChoice,
    width: Fraction,
    thickness: Fraction,
    seats: tuple[SeatInRail, ...],
    kit: Kit,
    long_by: Fraction = ZERO,
    long_from: Fraction = ZERO,
    row_names: tuple[str, str] = ("upper", "lower"),
    where: Where | None = None,
) -> Section:
    """The section of a rail of this width and thickness that carries these seats.

    BadPiece where the choices can't stand together; what is merely unwise is left to the checks.
    """
    rabbets = [seat.start for seat in seats if seat.kind == "rabbet"]
    if long_by:
        rabbets.append(long_from)  # filled by the long shoulder, which is no wood for a tenon
    wood = min([thickness, *rabbets])
    filled = _filled(choice.haunch, seats, where) or _followed(choice, thickness, seats)
    depths, share, depth_rules = _depths(choice, thickness, wood, filled, kit)
    widths, width_rules = _widths(choice, width, seats, row_names)
    rules = (*depth_rules, *width_rules)
    return Section(wood, widths, depths, share, rules, long_by, long_from, row_names)


def as_milled(nominal: Section, width: Fraction, thickness: Fraction) -> Section:
    """The same section on a rail that came out wider or thinner.

    Every line is gauged from the face side and the face edge, so that the face comes out flush
    (George A. Ross, 1901, Exercise 8): the far shoulders take up the difference.
    """

    def taken_up(chain: tuple[Stretch, ...], size: Fraction) -> tuple[Stretch, ...]:
        off = size - sum((one.size for one in chain), ZERO)
        return (*chain[:-1], chain[-1]._replace(size=chain[-1].size + off))

    widths, depths = taken_up(nominal.widths, width), taken_up(nominal.depths, thickness)
    if (widths, depths) == (nominal.widths, nominal.depths):
        return nominal
    drawn = sum((one.size for one in nominal.depths), ZERO)
    return nominal._replace(
        widths=widths,
        depths=depths,
        wood=thickness if nominal.wood == drawn else min(nominal.wood, thickness),
        rules=tuple(_as_drawn(rule, nominal, {"W": widths, "T": depths}) for rule in nominal.rules),
    )


def _as_drawn(
    rule: Rule, nominal: Section, after: dict[str, tuple[Stretch, ...]]
) -> Rule:
    """A rule of a rail that came out otherwise: its terms are those that were drawn, and the far
    shoulder has the difference.
    """
    before = nominal.chain(rule.axis)
    off = after[rule.axis][-1].size - before[-1].size
    if off == 0:
        return rule
    whole = "rail width" if rule.axis == "W" else "rail thickness"
    last = rule.stop == len(before)
    if last and any(name == whole for _, name, _ in rule.terms):
        # what is left of the whole rail: simply of the rail as it is
        return rule._replace(
            terms=tuple(
                (sign, name, value + off if name == whole else value)
                for sign, name, value in rule.terms
            )
        )
    terms = [
        (sign, f"{name} as drawn" if name.endswith((whole, before[-1].name)) else name, value)
        for sign, name, value in rule.terms
    ]
    if last:
        what = ("wider" if off > 0 else "narrower") if rule.axis == "W" else (
            "thicker" if off > 0 else "thinner")
        terms.append((+1 if off > 0 else -1, f"{what} than drawn by", abs(off)))
    return rule._replace(terms=tuple(terms))


def _filled(
    haunch: HaunchChoice | None, seats: tuple[SeatInRail, ...], where: Where | None
) -> SeatInRail | None:
    """The groove that a haunch fills: it gives the tenon its thickness and its place.

    Haunch and groove are of one thickness: Fairham, Woodwork Joints, 1921, Fig. 131; tenon and
    groove too: William Noyes, Handwork in Wood, 1910, ch. VII no. 42.
    """
    if haunch is None or haunch.kind != "groove":
        return None
    for seat in seats:
        if seat.kind == "groove" and seat.runs_out:
            return seat
    raise BadPiece(
        "the haunch fills a groove, but no groove runs out at the end of the leg there",
        'give the panel seat = "groove" and run_in_legs = "through", or choose a square or '
        "sloped haunch",
        where,
    )


def _followed(
    choice: TenonChoice, stock: Fraction, seats: tuple[SeatInRail, ...]
) -> SeatInRail | None:
    """The groove that a tenon without a haunch follows, so that one setting serves for both
    (Noyes, 1910, ch. VII no. 42); none under a quarter of the stock, which would be a weak tenon
    (common practice, no source).
    """
    grooves = [seat for seat in seats if seat.kind == "groove" and 4 * seat.width >= stock]
    return grooves[0] if choice.in_line and not choice.twin and grooves else None


def _depths(
    choice: TenonChoice,
    stock: Fraction,
    wood: Fraction,
    filled: SeatInRail | None,
    kit: Kit,
) -> tuple[tuple[Stretch, ...], str, tuple[Rule, ...]]:
    """From the face side to the back."""
    share = ""
    in_line = choice.in_line and wood < stock and not choice.twin and not choice.barefaced
    if choice.thickness is not None:
        tenon = choice.thickness
    elif filled is not None:
        tenon = filled.width
    elif in_line:
        share = "line_share"
        tenon = chisel_for(wood, kit, share)
    else:
        share = "twin_share" if choice.twin else "bare_share" if choice.barefaced else "tenon_share"
        tenon = chisel_for(stock, kit, share)
    gap = ZERO
    if choice.twin is not None:
        gap = tenon if choice.twin.gap is None else choice.twin.gap
    standing = 2 * tenon + gap if choice.twin else tenon
    rules: list[Rule] = []
    if choice.outer_shoulder is not None:
        outer = choice.outer_shoulder
    elif choice.barefaced == "face":
        outer = ZERO
    elif choice.barefaced == "back" or choice.inner_shoulder is not None:
        inner = choice.inner_shoulder or ZERO
        outer = stock - inner - standing
        terms: list[tuple[int, str, Fraction]] = [(+1, "rail thickness", stock)]
        if inner:
            terms.append((-1, "inner shoulder", inner))
        terms += _twice("tenon thickness", tenon, gap, -1) if choice.twin else [
            (-1, "tenon thickness", tenon)
        ]
        rules.append(Rule("outer shoulder", "T", 0, 1, tuple(terms)))
    elif filled is not None and choice.thickness in (None, filled.width):
        outer = filled.start
        rules.append(Rule("outer shoulder", "T", 0, 1, ((+1, "groove from the face", outer),)))
    elif in_line:
        outer = wood - standing
        rules.append(Rule("outer shoulder", "T", 0, 1, ((+1, "wood in front of the seat", wood),
                                                        (-1, "tenon thickness", tenon))))
    else:
        outer = (wood - standing) / 2
        what = "wood in front of the seat" if wood < stock else "rail thickness"
        half = (-1, f"half of the {'twins' if choice.twin else 'tenon thickness'}", standing / 2)
        rules.append(Rule("outer shoulder", "T", 0, 1, ((+1, f"half of the {what}", wood / 2),
                                                        half)))
    chain = [Stretch("outer shoulder", outer), Stretch("tenon thickness", tenon, True)]
    if choice.twin is not None:
        chain += [Stretch("gap between the twins", gap), Stretch("tenon thickness", tenon, True)]
    chain.append(Stretch("inner shoulder", stock - outer - standing))
    before = tuple((-1, one.name, one.size) for one in chain[:-1])
    rules.append(
        Rule("inner shoulder", "T", len(chain) - 1, len(chain),
             ((+1, "rail thickness", stock), *before))
    )
    return tuple(chain), share, tuple(rules)


def _twice(name: str, size: Fraction, gap: Fraction, sign: int) -> list[tuple[int, str, Fraction]]:
    return [(sign, name, size), (sign, "gap between the twins", gap), (sign, name, size)]


def _widths(
    choice: TenonChoice,
    width: Fraction,
    seats: tuple[SeatInRail, ...],
    row_names: tuple[str, str],
) -> tuple[tuple[Stretch, ...], tuple[Rule, ...]]:
    """From the face edge to the far edge."""
    # A groove along the edge takes its depth off the tenon's width (William Fairham, Woodwork
    # Joints, 1921, Fig. 134), so a shoulder left open is at least as wide there.
    grooves = {seat.edge: seat.lip for seat in seats if seat.kind == "groove"}
    pair_share = default_ratio("pair_share")
    rules: list[Rule] = []
    last = 3 if choice.pair is None else 5
    sizes: dict[str, Fraction] = {}
    names: dict[str, str] = {}
    edges: tuple[tuple[RailEdge, Fraction | None, str], ...] = (
        ("edge", choice.top_shoulder, "top shoulder"),
        ("far edge", choice.bottom_shoulder, "bottom shoulder"),
    )
    for edge, given, name in edges:
        haunch = choice.haunch if choice.haunch and choice.haunch.edge == edge else None
        names[edge] = "haunch" if haunch else name
        station = (0, 1) if edge == "edge" else (last - 1, last)
        if haunch is not None and haunch.width is not None:
            sizes[edge] = haunch.width
        elif haunch is not None:
            share = default_ratio("haunch_share" if choice.pair is None else "pair_haunch_share")
            sizes[edge] = width * share
            term = (+1, f"{share_words(share)} of the rail width", sizes[edge])
            rules.append(Rule("haunch width", "W", *station, (term,)))
        elif given is not None:
            sizes[edge] = given
        elif choice.pair is not None and width * pair_share >= grooves.get(edge, ZERO):
            # quarters: an eighth, tenon, web, tenon, an eighth
            sizes[edge] = width * pair_share
            term = (+1, f"{share_words(pair_share)} of the rail width", sizes[edge])
            rules.append(Rule(name, "W", *station, (term,)))
        else:
            sizes[edge] = max(choice.shoulder, grooves.get(edge, ZERO))
    top, bottom = sizes["edge"], sizes["far edge"]
    left = width - top - bottom
    whole: Terms = (
        (+1, "rail width", width),
        (-1, names["edge"], top),
        (-1, names["far edge"], bottom),
    )
    chain = [Stretch(names["edge"], top)]
    if choice.pair is None:
        chain.append(Stretch("tenon width", left, True))
        rules.append(Rule("tenon width", "W", 1, 2, whole))
    else:
        chain += _pair(choice.pair, left, whole, rules, row_names)
    chain.append(Stretch(names["far edge"], bottom))
    return tuple(chain), tuple(rules)


def _pair(
    pair: PairChoice,
    left: Fraction,
    whole: Terms,
    rules: list[Rule],
    row_names: tuple[str, str],
) -> list[Stretch]:
    """Two tenons and the web between them; with nothing said all three are equal.

    Equal tenons and gaps: Fairham, Woodwork Joints, 1921, 'Pinning' (Fig. 150).
    """
    web = left / 3 if pair.web is None else pair.web
    tenon = (left - web) / 2
    if pair.web is None:
        thirds = tuple((sign, f"a third of the {name}", size / 3) for sign, name, size in whole)
        rules.append(Rule("web between the tenons", "W", 2, 3, thirds))
    halves = tuple(
        (sign, f"half of the {name}", size / 2)
        for sign, name, size in (*whole, (-1, "web", web))
    )
    rules += [
        Rule(f"{which} tenon width", "W", start, start + 1, halves)
        for which, start in zip(row_names, (1, 3), strict=True)
    ]
    return [
        Stretch(f"{row_names[0]} tenon width", tenon, True),
        Stretch("web", web),
        Stretch(f"{row_names[1]} tenon width", tenon, True),
    ]
