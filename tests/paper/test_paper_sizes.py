"""Papers by name."""

from fractions import Fraction

import pytest

from layout.errors import BadRequest
from layout.paper.sizes import paper_named, paper_names


@pytest.mark.parametrize(
    ("written", "name"),
    [("Letter", "letter"), (" LETTER ", "letter"), ("a4", "A4"), ("Index-3X5", "index 3x5"),
     ("roll24in", "roll 24 in")],
)
def test_capitals_blanks_and_hyphens_dont_matter(written: str, name: str) -> None:
    assert paper_named(written).name == name


def test_every_paper_stands_upright_and_is_found_by_its_name() -> None:
    for name in paper_names():
        paper = paper_named(name)
        assert paper.name == name
        assert paper.height is None or paper.width < paper.height == paper.limit


def test_rolls_are_as_long_as_needed_up_to_a_limit() -> None:
    rolls = {name: paper_named(name) for name in paper_names() if name.startswith("roll")}
    widths = sorted(paper.width for paper in rolls.values())
    assert widths == sorted(
        [610, 841, 914, *(inches * Fraction(127, 5) for inches in (24, 30, 36, 42))]
    )
    assert {paper.height for paper in rolls.values()} == {None}
    # below 14 400 points, the longest page that every reader takes
    assert all(paper.limit < 14400 * Fraction(127, 360) for paper in rolls.values())


@pytest.mark.parametrize(
    ("written", "meant"), [("leter", "letter"), ("A44", "A4"), ("roll24", "roll 24 in")]
)
def test_an_unknown_name_gets_the_list_and_the_nearest(written: str, meant: str) -> None:
    with pytest.raises(BadRequest) as error:
        paper_named(written)
    assert f"'{written}'" in error.value.what
    assert f"did you mean {meant}?" in error.value.cure
    assert "tabloid" in error.value.cure


def test_nonsense_has_no_nearest() -> None:
    with pytest.raises(BadRequest) as error:
        paper_named("qqqqq")
    assert "did you mean" not in error.value.cure
