"""[kit] in a piece file and in the shop's own file: whose lists count, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from layout.errors import BadPiece
from layout.kit import usual_kit
from layout.piece_file.kit_keys import NO_SHOP, KitKeys, Shop, kit_of, read_shop
from layout.piece_file.reader import piece_from, read_piece
from layout.piece_file.source import parse_toml

INCH = Fraction(127, 5)
PIECE = """
piece = "Stool"
unit = "in"
[frame]
length = 18
depth = 14
height = 20
[frame.leg]
width = 2
thickness = 2
[[frame.rail]]
name = "rail"
sides = ["front"]
top = "flush"
width = 2
thickness = 1
"""


def shop(folder: Path, text: str) -> Shop:
    path = folder / "shop.toml"
    path.write_text(text, encoding="utf-8")
    return read_shop(path)


def test_a_shop_file_s_sizes_have_their_own_unit_or_the_file_s(tmp_path: Path) -> None:
    own = shop(tmp_path, '[kit]\nchisels = ["1/4 in", "6 mm", "1 cm"]\n')
    assert own.unit is None
    assert own.keys == KitKeys({"chisels": (INCH / 4, Fraction(6), Fraction(10))})
    whole = shop(tmp_path, 'unit = "mm"\n[kit]\ndrills = [6, "1/4 in"]\ngauge = "marking gauge"\n')
    assert whole.unit == "mm"
    assert whole.keys == KitKeys({"drills": (Fraction(6), INCH / 4)}, "marking gauge")


def test_an_empty_shop_file_says_nothing(tmp_path: Path) -> None:
    assert shop(tmp_path, "") == NO_SHOP


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ('[kit]\nchisels = ["1/4 in",\n  "3/8"]\n', "line 3, kit.chisels 2", "names no unit"),
        ("[kit]\ndrills = [6]\n", "line 2, kit.drills 1", "names no unit"),
        ('unit = "inch"\n', "line 1, unit", "write one of: in, mm"),
        ('[kit]\nchisel = ["6 mm"]\n', "line 2, kit.chisel", "did you mean 'chisels'"),
        ('piece = "x"\n', "line 1, piece", "known keys here: unit, kit"),
        ("[kit]\nchisels = []\n", "line 2, kit.chisels", "empty"),
        ('[kit]\ngauge = "wheel"\n', "line 2, kit.gauge", "marking gauge"),
        ('[kit]\ncutters = ["0 mm"]\n', "line 2, kit.cutters 1", "more than 0"),
        ('[kit]\ndovetail_cutters = ["1/2 at 14 deg"]\n', "line 2, kit.dovetail_cutters",
         "names no unit"),
        ('[kit]\ndovetail_cutters = ["1/2 in"]\n', "line 2, kit.dovetail_cutters", "at 14 deg"),
        ('[kit]\ndovetail_cutters = ["0 mm at 1:7"]\n', "line 2, kit.dovetail_cutters",
         "no diameter"),
        ('[kit]\ndovetail_cutters = ["1/2 in at 7"]\n', "line 2, kit.dovetail_cutters",
         "1 in 7"),
        ("kit = 3\n", "line 1, kit", "[kit]"),
        ("[kit\n", "line 1", "]"),
    ],
)
def test_what_is_wrong_in_a_shop_file_has_its_place(
    tmp_path: Path, text: str, place: str, words: str
) -> None:
    with pytest.raises(BadPiece) as caught:
        shop(tmp_path, text)
    told = str(caught.value)
    assert told.startswith(f"{tmp_path / 'shop.toml'}, {place}: ")
    assert words in told
    assert "\n" not in told


def test_a_shop_file_that_is_a_folder(tmp_path: Path) -> None:
    with pytest.raises(BadPiece, match="name the shop file in it"):
        read_shop(tmp_path)


def test_the_piece_s_keys_win_one_by_one() -> None:
    shop = Shop(KitKeys({"chisels": (INCH,), "drills": (INCH / 4,)}, "marking gauge"))
    kit = piece_from(parse_toml(PIECE + '[kit]\nchisels = ["3/8"]\n', "p.toml"), shop).kit
    assert kit.chisels == (INCH * 3 / 8,)
    assert kit.drills == (INCH / 4,)
    assert kit.gauge == "marking gauge"
    assert kit.listed == {"chisels", "drills"}
    own = piece_from(parse_toml(PIECE + '[kit]\ngauge = "mortise gauge"\n', "p.toml"), shop).kit
    assert own.gauge == "mortise gauge"
    assert own.chisels == (INCH,)


def test_without_either_the_usual_tools_count_and_are_nobody_s_list() -> None:
    kit = piece_from(parse_toml(PIECE, "p.toml")).kit
    assert kit == usual_kit("in")
    assert kit.listed == frozenset()
    assert kit_of("mm", NO_SHOP.keys) == usual_kit("mm")


def test_a_shop_s_chisel_makes_the_tenon(tmp_path: Path) -> None:
    path = tmp_path / "p.toml"
    path.write_text(PIECE, encoding="utf-8")
    shop = Shop(KitKeys({"chisels": (Fraction(9),)}))
    assert read_piece(path, shop).kit.chisels == (9,)
