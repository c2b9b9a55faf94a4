"""Where a length is cut."""

from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from layout.paper.joins import OVERLAP, Piece, Spans, join_crosses, pieces, word_spans
from layout.scene.strokes import Line, Text

F = Fraction


def joins(cut: tuple[Piece, ...]) -> list[Fraction]:
    return [piece.core[1] for piece in cut[:-1]]


def test_what_fits_is_not_cut() -> None:
    assert pieces(F(170), F(170)) == (Piece(F(0), F(170), (F(0), F(170))),)


def test_even_pieces_overlap_by_ten_mm_and_join_in_its_middle() -> None:
    # two pieces of 170 share 10 mm: they reach 330
    one, two = pieces(F(330), F(170))
    assert (one.low, one.high, two.low, two.high) == (0, 170, 160, 330)
    assert one.core == (0, 165)
    assert two.core == (165, 330)
    assert len(pieces(F(331), F(170))) == 3


def test_uneven_pieces_are_as_long_as_they_can_be_but_the_last_is_no_sliver() -> None:
    one, two, three = pieces(F(450), F(170), even=False)
    assert (one.high, two.high) == (170, 330)
    assert (three.low, three.high) == (320, 450)
    # 340 = 170 + 160 + 10: the last would add 10 mm alone, so the one before gives way
    *_, last = pieces(F(340), F(170), even=False)
    assert last.high - last.low == 160 / F(5) + OVERLAP


def test_a_join_steps_aside_for_a_span() -> None:
    free = pieces(F(300), F(170))
    (natural,) = joins(free)
    assert natural == 150
    span = (natural - 3, natural + 8)
    (moved,) = joins(pieces(F(300), F(170), Spans(firm=(span,))))
    # the whole overlap clears it, and it does not go further than it must
    assert moved == span[0] - OVERLAP / 2
    soft = joins(pieces(F(300), F(170), Spans(soft=(span,))))
    assert soft == [span[0]]


def test_one_piece_more_where_only_that_spares_a_firm_span() -> None:
    # with two pieces the join can only lie between 161 and 165
    span = (F(150), F(167))
    assert len(pieces(F(326), F(170))) == 2
    cut = pieces(F(326), F(170), Spans(firm=(span,)))
    assert len(cut) == 3
    assert not any(span[0] < join < span[1] for join in joins(cut))
    # a soft one isn't worth it
    assert len(pieces(F(326), F(170), Spans(soft=(span,)))) == 2
    # and where nothing helps, nothing is wasted
    assert len(pieces(F(326), F(170), Spans(firm=((F(0), F(326)),)))) == 2


@given(
    st.integers(1, 4000),
    st.integers(50, 300),
    st.lists(st.tuples(st.integers(0, 4000), st.integers(1, 40)), max_size=6),
    st.booleans(),
)
@settings(max_examples=60, deadline=None)
def test_any_cut_covers_the_length_in_pieces_that_fit(
    length: int, room: int, spans: list[tuple[int, int]], even: bool
) -> None:
    firm = tuple((F(low), F(low + wide)) for low, wide in spans)
    cut = pieces(F(length), F(room), Spans(firm), even)
    assert cut[0].low == 0
    assert cut[-1].high == length
    for piece in cut:
        assert 0 < piece.high - piece.low <= room
    for one, two in pairwise(cut):
        assert one.high - two.low == OVERLAP
        assert one.core[1] == two.core[0] == one.high - OVERLAP / 2
    fewest = 1 if length <= room else -((OVERLAP - length) // (room - OVERLAP))
    assert fewest <= len(cut) <= fewest + 1
    if not firm:
        assert len(cut) == fewest
    assert cut == pieces(F(length), F(room), Spans(firm[::-1]), even)


def test_crosses_lie_on_the_join() -> None:
    strokes = join_crosses((F(50), F(0)), (F(50), F(60)))
    lines = [stroke for stroke in strokes if isinstance(stroke, Line)]
    middles = {((s.a[0] + s.b[0]) / 2, (s.a[1] + s.b[1]) / 2) for s in lines}
    assert middles == {(50, 10), (50, 50)}
    assert {abs(s.b[0] - s.a[0]) + abs(s.b[1] - s.a[1]) for s in lines} == {OVERLAP}


def test_words_close_together_are_one_span() -> None:
    near = [Text((F(x), F(0)), "i", F(3)) for x in (0, 3, 20)]
    spans = word_spans(near, 0)
    assert len(spans) == 2
    assert spans[0][0] == 0
    assert spans[1][0] == 20
    assert len(word_spans(near, 1)) == 1
