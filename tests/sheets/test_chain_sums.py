"""Chains along a board on paper: a row a term with its running total, closer than other sums."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise

import pytest

from layout.mark import Sum, Witness, add, face_of
from layout.measure import default_rule, other_rule, show
from layout.paper.pages import drawing_area
from layout.paper.sizes import paper_named
from layout.piece import Piece
from layout.scene.lettering import depth, text_width
from layout.scene.strokes import Line, Polygon, Sheet, Text
from layout.sheets.easel import Easel
from layout.sheets.lists import sum_sheets
from tests.pieces import frame, inch, piece, rail

PART = "front-rail"
WIDTH = inch(4)
SHORT = ("half pin", "tail {}", "pin {}")
LONG = ("half pin at the upper edge of the front", "tail {} of the left side at the baseline",
        "pin {} of the front rail, from knife line to knife line")


def area(paper: str) -> tuple[Fraction, Fraction]:
    found = drawing_area(paper_named(paper), False)
    return (found.width, found.height)


def chain(count: int, words: tuple[str, str, str] = SHORT, wide: Fraction = WIDTH) -> Sum:
    """So many terms over a width, tail and pin in turn; a distance of nothing is the witness."""
    edge = face_of(PART, "edge")
    shares = [Fraction(3 + index % 3) for index in range(count)]
    unit = wide / sum(shares)
    terms = [
        (+1, words[0 if index in (0, count - 1) else 1 + index % 2].format((index + 1) // 2),
         share * unit)
        for index, share in enumerate(shares)
    ]
    sum_ = add("tails and pins at the baseline", PART, Witness(edge, face_of(PART, "far edge")),
               *terms)
    return sum_._replace(along=tuple(Witness(edge, edge, plus=one) for one in sum_.running[:-1]))


def with_sums(*sums: Sum, **changes: object) -> Piece:
    return piece(frame(rail()), **changes)._replace(sums=sums)


def texts(sheets: tuple[Sheet, ...]) -> list[Text]:
    return [s for sheet in sheets for s in sheet.scene.strokes if isinstance(s, Text)]


def words(sheets: tuple[Sheet, ...]) -> list[str]:
    return [text.words for text in texts(sheets)]


def box(stroke: Text | Polygon) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Left, foot, right and head of a level text or of a figure's bar."""
    if isinstance(stroke, Polygon):
        xs, ys = zip(*stroke.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)
    width = text_width(stroke.words, stroke.height, stroke.bold)
    left = stroke.at[0] - {"left": 0, "middle": width / 2, "right": width}[stroke.align]
    deep = set(stroke.words) & set("gjpqy,;()")
    foot = stroke.at[1] - (depth(stroke.height, stroke.bold) if deep else 0)
    return left, foot, left + width, stroke.at[1] + stroke.height


def put_right(sheets: tuple[Sheet, ...]) -> None:
    """No text or bar on another, no rule through any of them, and nothing off the sheet."""
    for sheet in sheets:
        strokes = sheet.scene.strokes
        boxes = [(s, box(s)) for s in strokes if isinstance(s, (Text, Polygon))]
        for (one, a), (other, b) in combinations(boxes, 2):
            apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
            assert apart, (one, other)
        for stroke, (left, foot, right, head) in boxes:
            assert left >= 0, stroke
            assert foot >= 0, stroke
            assert right <= sheet.scene.width, stroke
            assert head <= sheet.scene.height, stroke
            for line in (s for s in strokes if isinstance(s, Line)):
                low, high = sorted((line.a[0], line.b[0]))
                assert high <= left or right <= low or not foot < line.a[1] < head, stroke


def figure(p: Piece, length: Fraction, bold: bool) -> list[tuple[str, bool]]:
    """The words that a length's figure is set from, and whether they are bold."""
    easel = Easel(p.rule)
    easel.figure((Fraction(0), Fraction(0)), length, bold=bold)
    return [(s.words, s.bold) for s in easel.strokes if isinstance(s, Text)]


EVERY = [
    pytest.param(paper, unit, dual, count, labels, id=f"{paper} {unit} {dual} {count} {name}")
    for paper in ("A4", "letter")
    for unit in ("in", "mm")
    for dual in (False, True)
    for count, labels, name in ((20, SHORT, "short"), (20, LONG, "long"), (75, LONG, "long"))
]


@pytest.mark.parametrize(("paper", "unit", "dual", "count", "labels"), EVERY)
def test_nothing_overlaps(
    paper: str, unit: str, dual: bool, count: int, labels: tuple[str, str, str]
) -> None:
    rule = default_rule(unit)  # type: ignore[arg-type]
    p = with_sums(chain(count, labels), chain(6), rule=rule, unit=unit, dual=dual)
    put_right(sum_sheets(p, area(paper)))


def test_wide_figures_leave_room_for_labels() -> None:
    # up to 48 in, nearly all bare or full
    p = with_sums(chain(20, LONG, inch(48)), dual=True)
    put_right(sum_sheets(p, (Fraction(170), Fraction(200))))


@pytest.mark.parametrize("paper", ["A4", "letter"])
@pytest.mark.parametrize("dual", [False, True])
def test_twenty_terms_stand_in_one_column(paper: str, dual: bool) -> None:
    p = with_sums(chain(20), dual=dual)
    told = words(sum_sheets(p, area(paper)))
    assert told.count("tails and pins at the baseline") == 1
    assert not any("continued" in word for word in told)
    assert told.count("size") == told.count("from the edge") == 1
    assert told.count("the parts in place measure the same") == 1


def test_every_running_total_stands_right_of_its_term() -> None:
    sum_ = chain(5)
    p = with_sums(sum_)
    found = texts(sum_sheets(p, area("A4")))
    (middle,) = [text.at[0] for text in found if text.words == "size"]
    signs = [text for text in found if text.words == "+"]
    assert {upper.at[1] - lower.at[1] for upper, lower in pairwise(signs)} == {6}
    for sign, term, running in zip(signs, sum_.terms, sum_.running, strict=True):
        row = [t for t in found if abs(t.at[1] - sign.at[1]) < 3 and t is not sign]
        assert [t.words for t in row if t.at[0] < sign.at[0] + 10] == [term.label]
        sizes = [t for t in row if sign.at[0] + 10 < t.at[0] <= middle]
        totals = [t for t in row if t.at[0] > middle]
        assert [(t.words, t.bold) for t in sizes] == figure(p, term.value, False)
        assert [(t.words, t.bold) for t in totals] == figure(p, running, True)


def test_the_sizes_add_up_to_the_total_under_them() -> None:
    p = with_sums(chain(5))
    found = texts(sum_sheets(p, area("A4")))
    (middle,) = [text.at[0] for text in found if text.words == "size"]
    lowest = min(text.at[1] for text in found if text.words == "+")
    # 4 in twice: where the running totals end, and under the sizes
    total, last = sorted((t for t in found if t.words == "4" and t.bold), key=lambda t: t.at[1])
    assert last.at[1] == lowest
    width = text_width("4", total.height, bold=True)
    assert total.at[0] + width == middle < last.at[0]
    assert total.at[1] < lowest


def test_a_chain_is_closer_than_the_same_sum_that_is_none() -> None:
    def lowest(sum_: Sum) -> Fraction:
        return min(text.at[1] for text in texts(sum_sheets(with_sums(sum_), area("A4"))))

    plain = chain(12)._replace(along=())
    assert lowest(chain(12)) > lowest(plain)
    told = words(sum_sheets(with_sums(plain), area("A4")))
    assert "from the edge" not in told


def test_a_chain_higher_than_a_page_is_continued_under_its_name() -> None:
    sum_ = chain(75, LONG)
    p = with_sums(sum_)
    sheets = sum_sheets(p, area("letter"))
    told = words(sheets)
    assert told.count("tails and pins at the baseline") == 1
    continued = " ".join(told).count("tails and pins at the baseline, continued")
    assert continued >= 1
    assert told.count("size") == told.count("from the edge") == 1 + continued
    assert told.count("+") == 75  # every term once
    assert told.count("the parts in place measure the same") == 1


def test_both_units_are_told_of_every_line_to_strike() -> None:
    sum_ = chain(7)
    p = with_sums(sum_, dual=True)
    told = words(sum_sheets(p, area("A4")))
    for running in sum_.running:
        assert show(running, other_rule(p.rule)).with_unit in told
    assert not any("mm" in word for word in words(sum_sheets(with_sums(sum_), area("A4"))))


def test_a_running_total_that_the_parts_deny_is_shouted() -> None:
    sum_ = chain(5)
    bent = sum_.along[2]._replace(plus=sum_.along[2].plus + 1)
    wrong = sum_._replace(along=(*sum_.along[:2], bent, *sum_.along[3:]))
    p = with_sums(wrong)
    sheets = sum_sheets(p, area("A4"))
    assert words(sheets).count("THE PARTS IN PLACE DISAGREE") == 1
    put_right(sheets)
