"""The SVG, judged by lxml and by a reader of its own."""

from fractions import Fraction

import pytest
from lxml import etree

from layout.paper.readback import compare, read_svg
from layout.paper.svg import svg_page, svg_text
from layout.scene.strokes import Circle, Line, Pen, Polygon, Scene, Text
from tests.paper.scenes import F, busy, rectangle, sheet, spot

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = [
    "<script>alert(1)</script>", "../../etc", "chair 🪑 \u202e שלום", "x" * 500,
    "NUL\x00 & \x1b[0m",
    '" onload="alert(1)', "]]>", "&lt;b&gt;", "",
]


def root(text: str):  # type: ignore[no-untyped-def]
    return etree.fromstring(text.encode("utf-8"))


def test_a_unit_is_a_millimetre() -> None:
    drawing = busy(330, 250)
    page = svg_page(drawing, "Bench")
    svg = root(svg_text(drawing, "Bench"))
    assert svg.get("width") == f"{page.width}mm" == "348mm"
    # 5 below, three lines of 4.5, bars 8, the drawing, 5 above
    assert svg.get("height") == "281.5mm"
    assert svg.get("viewBox") == "0 0 348 281.5"


@pytest.mark.parametrize(
    "drawing",
    [busy(330, 250), busy(20, 9), sheet(1400, 36, "strip"), busy(100, 90).scene],
    ids=["large", "tiny", "long", "scene"],
)
def test_every_line_is_where_it_was_drawn(drawing) -> None:  # type: ignore[no-untyped-def]
    proof = compare([svg_page(drawing, "Bench")], [read_svg(svg_text(drawing, "Bench"))])
    assert proof.good
    assert proof.lines > 25
    assert proof.worst_mm < 0.00001


def test_fractions_are_written_as_decimals() -> None:
    third = Scene(F(100), F(50), (Line((Fraction(1, 3), F(0)), (Fraction(1, 7), F(50))),))
    text = svg_text(third, "t")
    lines = root(text).iter(f"{SVG}line")
    first = next(lines)
    # the drawing stands 13 mm from the left and 20 mm from the foot of 75
    assert float(first.get("x1")) == pytest.approx(13 + 1 / 3, abs=1e-6)
    assert float(first.get("y1")) == 75 - 20
    for element in root(text).iter():
        for name, value in element.attrib.items():
            if name not in ("font-family", "transform"):
                assert "/" not in value, (name, value)


def test_pens_fills_and_dashes() -> None:
    scene = Scene(F(100), F(50), (
        Line(spot(0, 0), spot(50, 0), Pen.HIDDEN),
        Line(spot(0, 5), spot(50, 5), Pen.HIDDEN, phase=F(5, 2)),
        Polygon((spot(0, 0), spot(9, 0), spot(9, 9)), None, "black"),
        Circle(spot(20, 20), F(5), Pen.WIDE, "white"),
    ))
    svg = root(svg_text(scene, "t"))
    hidden, shifted = list(svg.iter(f"{SVG}line"))[:2]
    assert (hidden.get("stroke-width"), hidden.get("stroke-dasharray")) == ("0.25", "3,1.5")
    assert hidden.get("stroke-dashoffset") is None
    assert shifted.get("stroke-dashoffset") == "2.5"
    polygon = next(svg.iter(f"{SVG}polygon"))
    assert (polygon.get("fill"), polygon.get("stroke")) == ("black", "none")
    circle = next(svg.iter(f"{SVG}circle"))
    assert [circle.get(name) for name in ("fill", "stroke-width", "r")] == ["white", "0.5", "5"]
    assert svg.find(f"{SVG}g").get("stroke-linecap") == "butt"


def test_text_turns_aligns_and_has_something_to_fall_back_on() -> None:
    scene = Scene(F(100), F(50), (Text(spot(10, 20), "end A", F(5), "middle", True, 90),))
    text = next(root(svg_text(scene, "t")).iter(f"{SVG}text"))
    assert text.get("transform") == "rotate(-90 23 35)"
    assert (text.get("text-anchor"), text.get("font-weight")) == ("middle", "bold")
    # 5 mm capitals of a font whose capitals are 1493 of 2048 high
    assert float(text.get("font-size")) == pytest.approx(5 * 2048 / 1493, abs=1e-6)
    assert root(svg_text(scene, "t")).find(f"{SVG}g").get("font-family").endswith("sans-serif")


def test_ids_are_valid_and_each_is_given_once() -> None:
    marks = ["1 top rail: shoulder", "1 top rail: shoulder", "élan", "", "-", "a b", "a-b"]
    lines = tuple(Line(spot(0, n), spot(9, n), mark=mark) for n, mark in enumerate(marks))
    svg = root(svg_text(Scene(F(50), F(50), lines), "t"))
    ids = svg.xpath("//@id")
    assert ids == [
        "m-1-top-rail-shoulder", "m-1-top-rail-shoulder-2", "lan", "mark", "a-b", "a-b-2",
    ]
    assert len(set(ids)) == len(ids)
    assert svg.xpath("//@data-mark")[:3] == [marks[0], marks[1], "élan"]


@pytest.mark.parametrize("name", HOSTILE)
def test_names_are_text_never_markup(name: str) -> None:
    drawing = sheet(60, 40, name=name, subject=name, strokes=(
        rectangle(60, 40), Text(spot(2, 2), name, F(3)),
        Line(spot(0, 0), spot(5, 5), mark=name or "m"),
    ))
    text = svg_text(drawing, name)
    svg = root(text)
    kinds = {etree.QName(element).localname for element in svg.iter()}
    words = {"svg", "title", "desc", "defs", "g", "text"}
    assert kinds <= words | {"rect", "line", "polygon", "circle"}
    allowed = {"id", "data-mark"}
    for element in svg.iter():
        assert not any(key.startswith("on") for key in element.attrib)
        assert "script" not in "".join(v for k, v in element.attrib.items() if k not in allowed)
    assert compare([svg_page(drawing, name)], [read_svg(text)]).good


def test_it_can_be_measured_after_printing() -> None:
    drawing = sheet(200, 150, name="Gusset")
    read = read_svg(svg_text(drawing, "Hall table"))
    assert {"100 mm", "4 in"} <= set(read.texts)
    assert read.texts.count("100 mm") == 2
    long = [s for s in read.segments if s.pen == 0.25]
    level = sorted(round(s.b[0] - s.a[0], 6) for s in long if s.a[1] == s.b[1])
    upright = sorted(round(s.b[1] - s.a[1], 6) for s in long if s.a[0] == s.b[0])
    assert level == upright == [100, 101.6]
    assert {"Gusset", "brace, outside face", "Hall table; 1:1; print at 100 %"} <= set(read.texts)


def test_the_drawing_itself_is_not_moved_into_the_bars() -> None:
    page = svg_page(sheet(30, 9), "Bench")
    from layout.scene.crop import bounds

    (window,) = page.windows
    low, high = bounds(window.strokes[0])
    for stroke in page.furniture:
        (x0, y0), (x1, y1) = bounds(stroke)
        assert x1 <= low[0] or y1 <= low[1] or x0 >= high[0] or y0 >= high[1]
        assert x0 >= 0
        assert x1 <= page.width
        assert y0 >= 0
        assert y1 <= page.height


def test_the_same_drawing_gives_the_same_text() -> None:
    assert svg_text(busy(90, 80), "Bench") == svg_text(busy(90, 80), "Bench")
