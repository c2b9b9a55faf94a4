"""Sections of slides: lines where the numbers say, widths as the sums say, all on the sheet."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from lxml import etree

import layout
from layout.builds.choices import LegChoice
from layout.joints.slide import SIDES, Slide, bearer_face, entry_face, which
from layout.mark import Mark
from layout.paper.svg import svg_text
from layout.part import AXES, FACE_NORMAL, Axis, Face, Part, piece_axis, sense
from layout.piece import Piece, work_out
from layout.piece_file.reader import piece_from
from layout.piece_file.source import parse_toml, read_toml
from layout.scene.strokes import Circle, Line, Pen, Polygon, Sheet, Text
from layout.sheets.groups import mark_ids
from layout.sheets.slide_template import BESIDE, slide_sections
from layout.sheets.template import templates
from tests.builds.test_divider import divider
from tests.builds.test_drawer import boxes, mm_rail
from tests.pieces import frame

SAMPLES = Path(layout.__file__).parent.parent / "samples"
F = Fraction
# every kind: plain, one-sided, own shoulders, tapered whole and in part, stopped, from the front
KINDS = """
piece = "Kinds"
unit = "mm"
[[carcase]]
name = "case"
width = 900
height = 600
depth = 250
thickness = 20
slide = { depth = 8, room = 1 }
top_in = 30
bottom_in = 30
[[divider]]
name = "one"
opening = "inside case"
lies = "upright"
from_left = 200
thickness = 18
slide = { depth = 9, room = 2, slopes = "face", back_shoulder = 1.5, taper = 2 }
[[divider]]
name = "two"
opening = "right of one"
lies = "upright"
from_left = 300
thickness = 16
slide = { depth = 8, room = 1, slope = "1:6", face_shoulder = 2, back_shoulder = 3, taper = 1.5, taper_over = 60, stop = 15, enter = "front" }
[[divider]]
name = "three"
opening = "left of one"
lies = "level"
thickness = 15
slide = { depth = 6, slopes = "back", face_shoulder = 1, stop = 20 }
[[divider]]
name = "four"
opening = "left of two"
lies = "level"
thickness = 14
housing = { depth = 5, face_shoulder = 3, stop = 10 }
[[divider]]
name = "five"
opening = "right of two"
lies = "level"
thickness = 12
housing = {}
"""  # noqa: E501


@cache
def made(name: str) -> Piece:
    if name == "kinds":
        return work_out(piece_from(parse_toml(KINDS, "kinds.toml")))
    return work_out(piece_from(read_toml(SAMPLES / f"{name}.toml")))


@cache
def sheets_of(name: str) -> tuple[Sheet, ...]:
    """Drawn once for all tests."""
    return slide_sections(made(name))


@pytest.fixture(params=["kinds", "wall_cabinet"])
def piece(request: pytest.FixtureRequest) -> Piece:
    return made(request.param)


def drawn_for(piece: Piece) -> tuple[Sheet, ...]:
    return sheets_of("kinds" if piece.name == "Kinds" else "wall_cabinet")


def sheet_of(piece: Piece, slide: Slide) -> Sheet:
    """The one sheet that tells of this slide: of its slider and its end, in its bearer."""
    named = f"{slide.slider.name}, {slide.end_face}"
    (found,) = [
        sheet for sheet in drawn_for(piece)
        if slide.bearer.name in sheet.name
        and named in " ".join(s.words for s in sheet.scene.strokes if isinstance(s, Text))
    ]
    return found


def drawn(sheet: Sheet, *pens: Pen) -> list[Line]:
    return [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen in pens]


def words(sheet: Sheet) -> list[str]:
    return [s.words for s in sheet.scene.strokes if isinstance(s, Text)]


def named(piece: Piece, sheet: Sheet) -> dict[str, Line]:
    """Every line of a sheet with a mark's name, each once."""
    found: dict[str, Line] = {}
    for line in drawn(sheet, *Pen):
        if line.mark:
            assert line.mark not in found
            found[line.mark] = line
    return found


def surfaces(sheet: Sheet, slide: Slide) -> list[tuple[Fraction, Fraction]]:
    """Where each row's bearer stands: the left end of its surface and how high it lies, from the
    top row. They are told by the hidden line at the bearer's left end.
    """
    thick = thickness(slide)
    left = [s for s in drawn(sheet, Pen.HIDDEN) if s.a[0] == s.b[0]]
    first = min(line.a[0] for line in left)
    rows = [line for line in left if line.a[0] == first]
    assert all(abs(line.b[1] - line.a[1]) == thick for line in rows)
    return sorted(((first, max(s.a[1], s.b[1])) for s in rows), key=lambda row: -row[1])


def thickness(slide: Slide) -> Fraction:
    return slide.bearer.size(FACE_NORMAL[bearer_face(slide)][0])


def tapers(slide: Slide) -> list[Fraction]:
    return [F(0), slide.choice.taper] if slide.choice.taper else [F(0)]


def spot(sheet: Sheet, slide: Slide, row: int) -> tuple[Fraction, Fraction]:
    """Where the slider's face side would come down on a row's bearer."""
    left, high = surfaces(sheet, slide)[row]
    return left + BESIDE, high


def lines_at(sheet: Sheet, *ends: tuple[Fraction, Fraction]) -> list[Line]:
    return [line for line in drawn(sheet, Pen.WIDE) if {line.a, line.b} == set(ends)]


def sides(slide: Slide, taper: Fraction, into: Fraction) -> tuple[Fraction, Fraction]:
    """Both sides of the tail from what is drawn at the left, by hand: shoulder, taper, slope."""
    choice = slide.choice
    leaning = 0 if choice.square else 2 if choice.slopes == "both" else 1
    found = []
    for index, side in enumerate(SIDES):
        leans = leaning and choice.slopes in ("both", side)
        lean = choice.slope.run if choice.slope is not None else F(1)
        given = choice.shoulders[index]
        size = (slide.tail / lean if leans else F(0)) if given is None else given
        size += taper / leaning if leans else F(0)
        size -= into / lean if leans else F(0)
        found.append(size)
    if not at_left(slide):
        found.reverse()
    return found[0], slide.slider.thickness - found[1]


def at_left(slide: Slide) -> bool:
    """With the bearer's surface up and the edge that is entered toward us, right is up x toward
    us: the face side comes at the left where the thickness runs that way.
    """
    up = way_of(slide.slider, "L", +1 if slide.end == "A" else -1)
    toward = way_of(slide.slider, "W", +1 if slide.choice.enter == "back" else -1)
    return way_of(slide.slider, "T", +1) == cross(up, toward)


def test_every_slide_is_told_on_one_sheet(piece: Piece) -> None:
    sheets = drawn_for(piece)
    names = [sheet.name for sheet in sheets]
    assert len(set(names)) == len(names)
    for slide in piece.slides:
        word = "Housing" if slide.choice.square else "Slide"
        assert sheet_of(piece, slide).name.startswith(f"{word}: ")
        assert sheet_of(piece, slide).way == "full size"
        assert f"seen from the {slide.choice.enter}" in sheet_of(piece, slide).subject
    assert set(names) == {sheet_of(piece, slide).name for slide in piece.slides}
    assert set(names) <= {sheet.name for sheet in templates(piece)}


def test_a_taper_has_a_second_row(piece: Piece) -> None:
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        assert len(surfaces(sheet, slide)) == len(tapers(slide))
        assert ("at the closed end" in words(sheet)) == bool(slide.choice.taper)
        assert "where it is entered" in words(sheet)


def test_sockets_lie_where_the_numbers_say_at_both_rows(piece: Piece) -> None:
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        for row, taper in enumerate(tapers(slide)):
            x, y = spot(sheet, slide, row)
            mouth, floor = sides(slide, taper, F(0)), sides(slide, taper, slide.depth)
            foot = y - slide.depth
            for at_mouth, at_floor in zip(mouth, floor, strict=True):
                assert lines_at(sheet, (x + at_mouth, y), (x + at_floor, foot))
            assert lines_at(sheet, (x + floor[0], foot), (x + floor[1], foot))
            # the bearer's surface at both sides, and its other surface below
            assert lines_at(sheet, (x - BESIDE, y), (x + mouth[0], y))
            right = x + slide.slider.thickness + BESIDE
            assert lines_at(sheet, (x + mouth[1], y), (right, y))
            under = y - thickness(slide)
            assert lines_at(sheet, (x - BESIDE, under), (right, under))


def tail_start(sheet: Sheet, slide: Slide, row: int) -> Fraction:
    """Where the slider's face side is drawn: the left end of the hidden line over its stump."""
    _, y = spot(sheet, slide, row)
    stumps = [s for s in drawn(sheet, Pen.HIDDEN) if s.a[1] == s.b[1] and s.a[1] > y]
    line = min(stumps, key=lambda s: s.a[1] - y)
    assert abs(line.b[0] - line.a[0]) == slide.slider.thickness
    return min(line.a[0], line.b[0])


def test_tails_lie_where_the_numbers_say_at_both_rows(piece: Piece) -> None:
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        for row, taper in enumerate(tapers(slide)):
            _, y = spot(sheet, slide, row)
            x = tail_start(sheet, slide, row)
            assert x > spot(sheet, slide, row)[0] + slide.slider.thickness + BESIDE
            neck, tip = sides(slide, taper, F(0)), sides(slide, taper, slide.tail)
            foot = y - slide.tail
            for at_neck, at_tip in zip(neck, tip, strict=True):
                assert lines_at(sheet, (x + at_neck, y), (x + at_tip, foot))
            assert lines_at(sheet, (x + tip[0], foot), (x + tip[1], foot))
            for base, at_neck in zip((F(0), slide.slider.thickness), neck, strict=True):
                if base != at_neck:
                    assert lines_at(sheet, (x + base, y), (x + at_neck, y))


def test_a_tail_drawn_fills_its_socket_but_for_the_room(piece: Piece) -> None:
    """Laid over each other the sides lie on one line: the paper can be folded over."""
    for slide in piece.slides:
        neck, tip = sides(slide, F(0), F(0)), sides(slide, F(0), slide.tail)
        floor = sides(slide, F(0), slide.depth)
        for at_neck, at_tip, at_floor in zip(neck, tip, floor, strict=True):
            # one slope from mouth to floor: at the tip it has gone tail / depth of the way
            assert (at_tip - at_neck) * slide.depth == (at_floor - at_neck) * slide.tail
        assert slide.depth - slide.tail == slide.choice.room


def test_marked_lines_are_as_long_and_as_steep_as_their_marks(piece: Piece) -> None:
    """A mark's line on its edge, turned so that the bearer's surface lies on top."""
    marks = {name: mark for mark, name in mark_ids(piece).items()}
    told = 0
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        x, y = spot(sheet, slide, 0)
        start = tail_start(sheet, slide, 0)
        for name, line in named(piece, sheet).items():
            mark = marks[name]
            if mark.joint != slide.name:
                continue
            told += 1
            on_bearer = mark.part == slide.bearer.id
            assert {(line.a, line.b), (line.b, line.a)} & {paper(
                slide, mark, (x if on_bearer else start, y))}
    assert told > 0


def paper(slide: Slide, mark: Mark, at: tuple[Fraction, Fraction]) -> tuple[object, object]:
    """A mark's two spots, where they come to on paper: through the slider's thickness to the
    right, out of the bearer's surface up.
    """
    assert mark.line is not None
    part = slide.bearer if mark.part == slide.bearer.id else slide.slider
    axis = FACE_NORMAL[mark.face][0]
    found = []
    for u, v in mark.line:
        free = [one for one in AXES if one != axis]
        where = {axis: part.plane(mark.face), free[0]: u, free[1]: v}
        point = part.placement.to_piece((where["L"], where["W"], where["T"]))
        length, _, through = slide.slider.placement.to_part(point)
        shoulder = slide.tail if slide.end == "A" else slide.slider.length - slide.tail
        up = length - shoulder if slide.end == "A" else shoulder - length
        right = through if at_left(slide) else slide.slider.thickness - through
        found.append((at[0] + right, at[1] + up))
    return found[0], found[1]


def test_every_mark_on_the_edges_shown_is_on_its_sheet(piece: Piece) -> None:
    """For the slide that a sheet is drawn from; those like it share it."""
    ids = mark_ids(piece)
    first = {sheet_of(piece, slide).name: slide for slide in reversed(piece.slides)}
    for slide in first.values():
        names = set(named(piece, sheet_of(piece, slide)))
        edge: Face = "far edge" if slide.choice.enter == "back" else "edge"
        shown = {(slide.bearer.id, entry_face(slide)), (slide.slider.id, edge)}
        wanted = {
            ids[mark] for mark in piece.marks
            if mark.joint == slide.name and (mark.part, mark.face) in shown
        }
        assert names == wanted
        assert len(wanted) >= 3 or slide.choice.square


def test_figures_are_those_of_neck_bottom_tip_depth_and_tail(piece: Piece) -> None:
    from layout.sheets.easel import Easel

    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        every = words(sheet)
        for taper in tapers(slide):
            mouth, tip = sides(slide, taper, F(0)), sides(slide, taper, slide.tail)
            floor = sides(slide, taper, slide.depth)
            for size in (mouth[1] - mouth[0], floor[1] - floor[0], tip[1] - tip[0], slide.depth,
                         slide.tail):
                probe = Easel(piece.rule)
                probe.figure((F(0), F(0)), size, F(5), "left", bold=True)
                for stroke in probe.strokes:
                    if isinstance(stroke, Text):
                        assert stroke.words in every


def spans(sheet: Sheet, ends: tuple[Fraction, Fraction], flat: int) -> list[Line]:
    """Dimension lines between two places, along x (flat 0) or y (flat 1)."""
    return [
        s for s in drawn(sheet, Pen.NARROW)
        if s.a[1 - flat] == s.b[1 - flat] and {s.a[flat], s.b[flat]} == set(ends)
    ]


def test_arrows_span_what_their_figures_say(piece: Piece) -> None:
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        for row, taper in enumerate(tapers(slide)):
            x, y = spot(sheet, slide, row)
            start = tail_start(sheet, slide, row)
            mouth, floor = sides(slide, taper, F(0)), sides(slide, taper, slide.depth)
            tip = sides(slide, taper, slide.tail)
            for ends in ((x + mouth[0], x + mouth[1]), (x + floor[0], x + floor[1]),
                         (start + tip[0], start + tip[1])):
                assert len(spans(sheet, ends, 0)) >= 2
            assert len(spans(sheet, (y, y - slide.depth), 1)) >= 2
            assert len(spans(sheet, (y, y - slide.tail), 1)) >= 2


def test_the_side_that_is_nearer_to_end_a_bears_its_name(piece: Piece) -> None:
    """Which of the socket's sides is at the left depends on the hand and on the bearer."""
    marks = {name: mark for mark, name in mark_ids(piece).items()}
    for slide in piece.slides:
        found = {
            marks[name].role: line for name, line in named(piece, sheet_of(piece, slide)).items()
            if marks[name].joint == slide.name and "side of the socket" in marks[name].role
        }
        if len(found) == 2:
            face = found[f"{which(slide, 'face')} side of the socket"]
            rear = found[f"{which(slide, 'back')} side of the socket"]
            left, right = (face, rear) if at_left(slide) else (rear, face)
            assert max(left.a[0], left.b[0]) < min(right.a[0], right.b[0])


def test_waste_is_hatched_in_the_socket_and_beside_the_tail(piece: Piece) -> None:
    for slide in piece.slides:
        sheet = sheet_of(piece, slide)
        hatch = drawn(sheet, Pen.HATCH)
        for row, taper in enumerate(tapers(slide)):
            x, y = spot(sheet, slide, row)
            start = tail_start(sheet, slide, row)
            low = y - slide.depth
            inside = [s for s in hatch if x - 9 < s.a[0] < x + slide.slider.thickness + 9
                      and low - F(1, 100) <= s.a[1] <= y + F(1, 100)]
            assert inside
            for base, neck in zip((F(0), slide.slider.thickness), sides(slide, taper, F(0)),
                                  strict=True):
                beside = [s for s in hatch
                          if start + min(base, neck) - F(1, 100) <= s.a[0]
                          <= start + max(base, neck) + F(1, 100)
                          and y - slide.tail - F(1, 100) <= s.a[1] <= y + F(1, 100)]
                assert bool(beside) == (abs(base - neck) > 0)


def test_words_tell_slope_travel_shoulders_stop_and_taper() -> None:
    told = {sheet.name: " ".join(words(sheet)) for sheet in sheets_of("kinds")}
    two = told["Slide: two in case bottom"]
    # 250 less a stop of 15; 2 and 3 where it is entered, 0.75 more at the closed end
    for one in ("Bevel 1 in 6", "Slid in from the front, 235 mm to travel",
                "Shoulder where it is entered: 2 mm at the face side, 3 mm at the back.",
                "The socket stops 15 mm short of the other edge",
                "It narrows by 1.5 mm over the last 60 mm.", "For two, end A."):
        assert one in two
    one_text = told["Slide: one in case top"]
    assert "It narrows by 2 mm over the whole run." in one_text
    # a slope of 7/7 and all of the taper at the face; the back is square
    assert "Shoulder where it is entered: 1 mm at the face side, 1.5 mm at the back." in one_text
    assert "Shoulder at the closed end: 3 mm at the face side, 1.5 mm at the back." in one_text
    four = told["Housing: four in one"]
    assert "Bevel" not in four
    assert "Shoulder: 3 mm at the face side." in four
    five = told["Housing: five in two"]
    assert "Shoulder" not in five
    assert "stops" not in five
    assert "narrows" not in five


def test_the_svg_has_every_line_within_a_thousandth(piece: Piece) -> None:
    for sheet in drawn_for(piece):
        wanted = sorted(
            tuple(float(v) for v in (*s.a, *s.b)) for s in drawn(sheet, *Pen) if s.mark
        )
        root = etree.fromstring(svg_text(sheet, piece.name).encode("utf-8"))
        high = float(root.get("viewBox").split()[3])
        found = []
        for line in root.iter("{http://www.w3.org/2000/svg}line"):
            if (line.get("id") or "").startswith("m"):
                x1, y1, x2, y2 = (float(line.get(key)) for key in ("x1", "y1", "x2", "y2"))
                found.append((x1, high - y1, x2, high - y2))
        found.sort()
        assert len(found) == len(wanted) > 0
        # the drawing may stand off the sheet's edge
        dx, dy = found[0][0] - wanted[0][0], found[0][1] - wanted[0][1]
        for one, other in zip(wanted, found, strict=True):
            assert (other[0] - dx, other[1] - dy) == pytest.approx(one[:2], abs=0.001)
            assert (other[2] - dx, other[3] - dy) == pytest.approx(one[2:], abs=0.001)


def extent(stroke: object) -> tuple[list[Fraction], list[Fraction]]:
    from layout.scene.lettering import text_width

    if isinstance(stroke, Line):
        return [stroke.a[0], stroke.b[0]], [stroke.a[1], stroke.b[1]]
    if isinstance(stroke, Polygon):
        return [x for x, _ in stroke.points], [y for _, y in stroke.points]
    if isinstance(stroke, Circle):
        x, y = stroke.centre
        return [x - stroke.radius, x + stroke.radius], [y - stroke.radius, y + stroke.radius]
    assert isinstance(stroke, Text)
    long = text_width(stroke.words, stroke.height, stroke.bold)
    back = {"left": F(0), "middle": long / 2, "right": long}[stroke.align]
    x, y = stroke.at
    return [x - back, x - back + long], [y, y + stroke.height]


def test_nothing_leaves_its_sheet_at_the_left_or_below(piece: Piece) -> None:
    for sheet in drawn_for(piece):
        for stroke in sheet.scene.strokes:
            across, up = extent(stroke)
            assert min(across) >= 0
            assert min(up) >= 0


def test_nothing_leaves_its_sheet_at_the_right_or_above(piece: Piece) -> None:
    for sheet in drawn_for(piece):
        for stroke in sheet.scene.strokes:
            across, up = extent(stroke)
            assert max(across) <= sheet.scene.width
            assert max(up) <= sheet.scene.height


def test_a_thick_board_widens_its_sheet() -> None:
    """Two boards of 90 side by side are more than a sheet's usual 160."""
    text = KINDS.replace("thickness = 18", "thickness = 90")
    p = work_out(piece_from(parse_toml(text, "thick.toml")))
    (sheet,) = [one for one in slide_sections(p) if one.name == "Slide: one in case bottom"]
    assert sheet.scene.width > 160
    assert all(max(extent(one)[0]) <= sheet.scene.width for one in sheet.scene.strokes)


def test_rails_of_two_widths_have_a_sheet_each() -> None:
    """One partition stands in both; each sheet shows its own rail's width."""
    parts = (
        mm_rail("top rail"), mm_rail("low rail", width=F(60), below_top=F(140)),
    )
    p = boxes(
        frame=frame(*parts, length=F(600), depth=F(600), height=F(700),
                    leg=LegChoice(F(50), F(50))),
        dividers=(divider(opening="front under top rail"),),
    )
    shown = []
    for sheet in slide_sections(p):
        (line,) = {(s.a[0], abs(s.b[1] - s.a[1])) for s in drawn(sheet, Pen.HIDDEN)
                   if s.a[0] == s.b[0] and s.a[0] < BESIDE + 22}
        shown.append(line[1])
    assert sorted(shown) == [40, 60]


def even(slide: Slide) -> bool:
    """Both sides alike: it may be held either way round."""
    return slide.shoulder("face") == slide.shoulder("back") and slide.choice.slopes == "both"


def cross(a: tuple[int, ...], b: tuple[int, ...]) -> tuple[int, int, int]:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def way_of(part: Part, axis: Axis, sign: int) -> tuple[int, int, int]:
    direction = part.placement.direction(axis)
    found = [0, 0, 0]
    found[piece_axis(direction)] = sense(direction) * sign
    return (found[0], found[1], found[2])


def test_each_uneven_section_is_for_the_hand_that_it_is_held_against(piece: Piece) -> None:
    """With the bearer's surface up and the edge that is entered toward us, right is up x toward us.

    The mouth's side that is drawn at the left is then the slider's face side only where its
    thickness runs to the right.
    """
    for slide in piece.slides:
        if even(slide):
            continue
        sheet = sheet_of(piece, slide)
        up = way_of(slide.slider, "L", +1 if slide.end == "A" else -1)
        toward = way_of(slide.slider, "W", +1 if slide.choice.enter == "back" else -1)
        face_at_left = way_of(slide.slider, "T", +1) == cross(up, toward)
        assert ("face side at the left" in words(sheet)) == face_at_left, slide.name
