"""Sheets against the marks they show: right places, right hands, nothing lost, nothing clipped."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

import layout
from layout.checks import check
from layout.joints.rail_end import is_mortise
from layout.joints.worked import other_axis
from layout.mark import Mark
from layout.paper.pages import drawing_area
from layout.paper.sizes import paper_named
from layout.part import FACE_NORMAL, Face, Part, piece_axis, sense
from layout.piece import Piece, work_out
from layout.piece_file.reader import read_piece
from layout.scene.lettering import depth, text_width
from layout.scene.strokes import Circle, Line, Pen, Polygon, Sheet, Stroke, Text
from layout.settings import settings
from layout.sheets.bearer_template import bearers, reference_on_top
from layout.sheets.card import CARD_SIZES, cards
from layout.sheets.cut_list_sheet import cut_list_sheets
from layout.sheets.drawing import drawing_sheets
from layout.sheets.groups import like_parts, mark_ids
from layout.sheets.lists import check_sheets, sum_sheets
from layout.sheets.seat_section import seats
from layout.sheets.stick import HEIGHT, MARGIN, sticks
from layout.sheets.struck import struck
from layout.sheets.sum_groups import sum_groups
from layout.sheets.template import templates
from layout.sheets.tenon_template import tenons
from layout.stock.cut_list import cut_list
from tests.pieces import frame, inch, low_rail, panel, piece, rail, seat

SAMPLES = Path(layout.__file__).parent.parent / "samples"
PIECES = {
    path.stem: work_out(read_piece(path)) for path in sorted(SAMPLES.glob("*.toml"))
}
PIECES["through"] = piece(
    frame(rail(), low_rail()), panel(seat(run="through"), "front under rail")
)
PIECES["groove"] = piece(
    frame(rail(), low_rail()), panel(seat(kind="groove", in_legs="groove"), "front under rail")
)
PIECES["both units"] = piece(
    frame(rail(), low_rail()), panel(seat(), "front under rail"), dual=True
)
each_piece = pytest.mark.parametrize("p", PIECES.values(), ids=PIECES.keys())


_DRAWN: dict[int, list[Sheet]] = {}


def all_sheets(p: Piece) -> list[Sheet]:
    """Every sheet of one of PIECES, drawn once; a piece takes longer to hash than to find by id."""
    if id(p) not in _DRAWN:
        _DRAWN[id(p)] = draw_all(p)
    return _DRAWN[id(p)]


def draw_all(p: Piece) -> list[Sheet]:
    page = paper_named("letter" if p.choice.unit == "in" else "A4")
    upright, lying = drawing_area(page, False), drawing_area(page, True)
    up, flat = (upright.width, upright.height), (lying.width, lying.height)
    findings = check(p)
    return [
        *drawing_sheets(p, flat),
        *cut_list_sheets(p, up),
        *sum_sheets(p, up),
        *check_sheets(p, findings, up),
        *cards(p, CARD_SIZES["index"], up),
        *cards(p, CARD_SIZES["A6"], up),
        *sticks(p),
        *templates(p),
    ]


def words(sheets: list[Sheet] | tuple[Sheet, ...]) -> list[str]:
    return [s.words for sheet in sheets for s in sheet.scene.strokes if isinstance(s, Text)]


def spots(stroke: Stroke) -> list[tuple[Fraction, Fraction]]:
    if isinstance(stroke, Line):
        return [stroke.a, stroke.b]
    if isinstance(stroke, Polygon):
        return list(stroke.points)
    if isinstance(stroke, Circle):
        (x, y), r = stroke.centre, stroke.radius
        return [(x - r, y - r), (x + r, y + r)]
    low, high = text_box(stroke)
    return [low, high]


def text_box(text: Text) -> tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]:
    """The box around a text, letters that reach below the line included."""
    width = text_width(text.words, text.height, text.bold)
    shift = {"left": 0, "middle": width / 2, "right": width}[text.align]
    below = depth(text.height, text.bold) if set(text.words) & set("gjpqy,;()") else Fraction(0)
    (x, y) = text.at
    if text.turn:
        return (x - text.height, y - shift), (x + below, y - shift + width)
    return (x - shift, y - below), (x - shift + width, y + text.height)


@each_piece
def test_nothing_leaves_its_sheet(p: Piece) -> None:
    least = Fraction(-1)
    for sheet in all_sheets(p):
        right, top = sheet.scene.width + 1, sheet.scene.height + 1
        for stroke in sheet.scene.strokes:
            for x, y in spots(stroke):
                assert least <= x <= right, (sheet.name, stroke)
                assert least <= y <= top, (sheet.name, stroke)


@each_piece
def test_no_two_texts_overlap(p: Piece) -> None:
    for sheet in all_sheets(p):
        texts = [s for s in sheet.scene.strokes if isinstance(s, Text) and s.words]
        boxes = sorted(((*text_box(text), text.words) for text in texts), key=lambda box: box[0])
        for place, (_, (right, top), one) in enumerate(boxes):
            for (left, foot), (_, other_top), other in boxes[place + 1:]:
                if left >= right:
                    break  # as does all that starts further to the right
                apart = top <= foot or other_top <= boxes[place][0][1]
                assert apart, (sheet.name, one, other)


@each_piece
def test_every_knife_line_is_on_its_stick(p: Piece) -> None:
    ids = mark_ids(p)
    drawn = {
        (stroke.mark, stroke.a[0]): stroke
        for sheet in sticks(p)
        for stroke in sheet.scene.strokes
        if isinstance(stroke, Line) and stroke.mark
    }
    for group in like_parts(p):
        places = {x - MARGIN for (name, x) in drawn if name in names_on(p, group.first, ids)}
        wanted = {
            m.distance
            for m in p.marks_of(group.first.id)
            if m.tool == "knife" and m.source == "end A"
        }
        assert wanted <= places, group.base
    for (_, x), line in drawn.items():
        assert (line.a, line.b) == ((x, 0), (x, HEIGHT))


def names_on(p: Piece, part: Part, ids: dict[Mark, str]) -> set[str]:
    return {ids[m] for m in p.marks_of(part.id)}


@each_piece
def test_a_stick_is_as_long_as_its_part(p: Piece) -> None:
    for sheet in sticks(p):
        heavy = [
            s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.HEAVY
        ]
        (edge,) = heavy
        length = edge.b[0] - edge.a[0]
        sizes = {part.length for part in p.parts} | {part.width for part in p.parts}
        assert length in sizes


def up_on_paper(part: Part, face: Face) -> tuple[int, int]:
    """Piece axis and sense that point up, looking at a face with end A at the left.

    Worked out by hand from the placement: up = outward x right.
    """
    axis, far = FACE_NORMAL[face]
    outward = direction(part, axis, 1 if far else -1)
    right = direction(part, "L", 1)
    up = cross(outward, right)
    along = next(i for i in range(3) if up[i])
    return along, up[along]


def direction(part: Part, axis: str, sign: int) -> tuple[int, int, int]:
    where = part.placement.direction(axis)  # type: ignore[arg-type]
    vector = [0, 0, 0]
    vector[piece_axis(where)] = sense(where) * sign
    return (vector[0], vector[1], vector[2])


def cross(a: tuple[int, int, int], b: tuple[int, int, int]) -> tuple[int, int, int]:
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def test_templates_are_drawn_for_the_right_hand() -> None:
    p = PIECES["repair_bench"]
    for part in (part for part in p.parts if part.kind in ("leg", "rail")):
        for face in ("face", "back", "edge", "far edge"):
            along, up = up_on_paper(part, face)  # type: ignore[arg-type]
            v = part.placement.direction(other_axis(face))  # type: ignore[arg-type]
            assert piece_axis(v) == along
            # v grows away from the reference surface: up the page where that lies at the foot
            assert reference_on_top(part, face) == (sense(v) != up), (part.id, face)  # type: ignore[arg-type]


@each_piece
def test_every_mortise_has_a_template_of_its_hand(p: Piece) -> None:
    sheets = bearers(p)
    for leg in (part for part in p.parts if part.hand and part.kind in ("leg", "stile")):
        here = [s for s in sheets if f"{leg.hand} hand" in s.name and leg.name in s.subject]
        marks = [mark for mark in p.marks_of(leg.id) if mark.tool != "pencil"]
        # a door's hinges and lock are let in from knife lines on the stick; no template shows one
        hinges = {mark for mark in marks if mark.joint.endswith((".hinge", ".lock"))}
        assert {(mark.tool, mark.source) for mark in hinges} <= {("knife", "end A")}
        told = [sheet.name for sheet in here] + words(here)
        assert not any("hinge" in word or "lock" in word for word in told)
        laid_out = {
            (mark.joint, mark.face)
            for mark in marks
            if mark not in hinges and not mark.joint.endswith(".seat")
        }
        assert len(here) == len(laid_out)


@each_piece
def test_mortise_lines_stand_at_their_gauge_distance(p: Piece) -> None:
    by_id = {name: mark for mark, name in mark_ids(p).items()}
    seen = 0
    for sheet in bearers(p):
        lines = [s for s in sheet.scene.strokes if isinstance(s, Line)]
        (heavy,) = [s for s in lines if s.pen is Pen.HEAVY]
        for line in (line for line in lines if line.mark):
            mark = by_id[line.mark]
            assert mark.line is not None
            if mark.source != "end A":
                assert abs(line.a[1] - heavy.a[1]) == mark.distance
                seen += 1
            elif "mortise" in mark.role:
                walls = sorted(abs(y - heavy.a[1]) for _, y in (line.a, line.b))
                assert walls == sorted(v for _, v in mark.line)
                seen += 1
    assert seen >= 4 * len(bearers(p))


@each_piece
def test_knife_lines_of_a_mortise_are_as_far_apart_as_the_mortise_is_long(p: Piece) -> None:
    by_id = {name: mark for mark, name in mark_ids(p).items()}
    for sheet in bearers(p):
        ends = {
            by_id[s.mark].role: (s.a[0], by_id[s.mark].distance)
            for s in sheet.scene.strokes
            if isinstance(s, Line) and s.mark and "mortise" in by_id[s.mark].role
        }
        tops = [role for role in ends if role.endswith(("mortise top", "mortise start"))]
        assert len(tops) * 2 == len(ends)
        for role in tops:
            last = role.replace("top", "bottom").replace("start", "end")
            (top, top_at), (bottom, bottom_at) = ends[role], ends[last]
            assert bottom - top == bottom_at - top_at
            assert top < bottom  # end A lies to the left


@each_piece
def test_tenon_templates_fold_at_the_rail_s_thickness(p: Piece) -> None:
    rails = {part.name: part for part in p.parts if part.kind == "rail"}
    for sheet in tenons(p):
        folds = sorted(
            s.a[0] for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.FOLD
        )
        part = next(part for name, part in rails.items() if name in sheet.subject)
        assert folds[1] - folds[0] == part.thickness


@each_piece
def test_tenon_templates_of_two_ends_mirror_each_other(p: Piece) -> None:
    sheets = {sheet.name: sheet for sheet in tenons(p)}
    for name, one in sheets.items():
        if not name.endswith("end A"):
            continue
        other = sheets[name.removesuffix("A") + "B"]

        def shape(sheet: Sheet, mirror: bool) -> set[tuple[Fraction, ...]]:
            lines = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.mark]
            folds = [
                s.a[0] for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.FOLD
            ]
            middle = Fraction(sum(folds)) / 2
            sign = -1 if mirror else 1
            return {
                (*sorted((sign * (s.a[0] - middle), sign * (s.b[0] - middle))),
                 *sorted((s.a[1], s.b[1])))
                for s in lines
            }

        assert shape(one, False) == shape(other, True)


@each_piece
def test_every_part_with_a_seat_has_a_section(p: Piece) -> None:
    seated = {part.id for part in p.parts
              if any(c.role in ("rabbet", "groove") for c in p.cuts_of(part.id))}
    told = " ".join(sheet.subject for sheet in seats(p))
    assert all(p.part(part).name in told for part in seated)
    assert bool(seated) == bool(seats(p))


@each_piece
@pytest.mark.parametrize("size", CARD_SIZES.values(), ids=CARD_SIZES.keys())
def test_every_setting_has_its_card_and_everything_it_strikes_a_box(p: Piece, size) -> None:  # type: ignore[no-untyped-def]
    made = settings(p.marks)
    sheets = cards(p, size, (Fraction(190), Fraction(240)))
    told = words(sheets)
    for setting in made:
        assert f"Setting {setting.number} of {len(made)}" in told
    boxes = [
        s for sheet in sheets for s in sheet.scene.strokes
        if isinstance(s, Polygon) and s.points[1][0] - s.points[0][0] == Fraction(7, 2)
        and len(s.points) == 4 and s.points[2][1] - s.points[1][1] == Fraction(7, 2)
    ]
    assert len(boxes) >= sum(len(struck(p, setting)) for setting in made)


@each_piece
def test_every_sum_is_on_paper(p: Piece) -> None:
    told = " ".join(words(sum_sheets(p, (Fraction(190), Fraction(240)))))
    for group in sum_groups(p):
        assert group.first.name.split()[0] in told
    count = told.count("the parts in place measure the same")
    assert count == len(sum_groups(p))
    assert "DISAGREE" not in told


def test_a_sum_that_the_parts_deny_is_shouted_on_paper() -> None:
    p = PIECES["through"]
    first = p.sums[0]
    bent = p._replace(sums=(first._replace(total=first.total + inch(1)), *p.sums[1:]))
    told = words(sum_sheets(bent, (Fraction(190), Fraction(240))))
    assert told.count("THE PARTS IN PLACE DISAGREE") == 1


@each_piece
def test_the_cut_list_has_every_row_with_its_count(p: Piece) -> None:
    sheets = cut_list_sheets(p, (Fraction(190), Fraction(240)))
    texts = [s for sheet in sheets for s in sheet.scene.strokes if isinstance(s, Text)]
    # counts are the bold words set to the right; letters the bold ones beside them
    counts = [int(t.words) for t in texts if t.bold and t.align == "right" and t.words.isdigit()]
    letters = [t.words for t in texts if t.bold and t.align == "left" and t.words.isupper()]
    rows = cut_list(p)
    assert counts == [row.count for row in rows]
    assert letters == [row.letter for row in rows if row.letter]
    # wedges and pegs have a row, but are no parts
    assert sum(counts) == len(p.parts) + sum(item.many for item in p.loose)


@each_piece
def test_mortises_are_hatched_on_their_stick(p: Piece) -> None:
    for sheet in sticks(p):
        hatched = [s for s in sheet.scene.strokes if isinstance(s, Line) and s.pen is Pen.HATCH]
        told = [s.words for s in sheet.scene.strokes if isinstance(s, Text)]
        reach = {
            cut.shape.reach("L")
            for part in p.parts
            for cut in p.cuts_of(part.id)
            if is_mortise(cut.role)
        }
        # (where the word is too long for its place, the hatching says that it is a mortise: such
        # a word begins with the end's own, "hinge 1 top" or "haunch top" does not)
        whole, short = ("mortise top", "mortise start"), ("top, ", "start, ")
        assert bool(hatched) == any(
            word.startswith(short) or any(start in word for start in whole) for word in told
        )
        for line in hatched:
            low, high = sorted((line.a[0] - MARGIN, line.b[0] - MARGIN))
            assert any(start <= low and high <= stop for start, stop in reach)


@each_piece
def test_labels_stand_clear_of_every_line_of_their_stick(p: Piece) -> None:
    for sheet in sticks(p):
        lines = [
            s for s in sheet.scene.strokes
            if isinstance(s, Line) and s.a[0] == s.b[0] and s.b[1] - s.a[1] == HEIGHT
        ]
        # labels and names alike
        for text in (s for s in sheet.scene.strokes if isinstance(s, Text)):
            (x0, _), (x1, _) = text_box(text)
            assert not [line for line in lines if x0 < line.a[0] < x1], (sheet.name, text.words)


def test_seat_sections_say_which_end_of_which_hand() -> None:
    (leg,) = [s for s in seats(PIECES["repair_bench"]) if "leg" in s.name]
    assert "end A of a right hand leg or end B of a left hand one" in leg.subject
    upright = ("leg", "stile")
    rails = [s for s in seats(PIECES["repair_bench"]) if not s.name.endswith(upright)]
    assert rails
    assert all("Hold against end A, " in s.subject for s in rails)
    (stile,) = [s for s in seats(PIECES["repair_bench"]) if s.name.endswith("stile")]
    assert "end A of a right hand stile or end B of a left hand one" in stile.subject


@each_piece
def test_a_section_is_held_against_the_end_that_shows_it_the_right_way_round(p: Piece) -> None:
    """Seen with its face side up and its face edge to the left a board shows width to the right
    and thickness down: right x up points out of the end. W x -T = -L, out of end A, where
    W x T = L; out of end B where the placement mirrors."""
    parts = {part.name: part for part in p.parts}
    for sheet in seats(p):
        named, _, held = sheet.subject.partition(". Hold against ")
        assert held.endswith(", face side up, face edge to the left")
        for name in named.split(", "):
            part = parts[name]
            w, t, along = (direction(part, axis, 1) for axis in ("W", "T", "L"))
            end = "A" if cross(w, t) == along else "B"
            # left and right legs and stiles mirror each other, rails do not
            wanted = f"end {end} of a {part.hand} hand" if part.hand else f"end {end},"
            assert wanted in held, (sheet.name, name)


def test_a_template_shows_no_mortise_of_another_leg() -> None:
    under = rail("under", below_top=inch("4 1/8"), width=inch(2))
    p = piece(frame(rail("apron", sides=("front", "back")), under))
    by_id = {name: mark for mark, name in mark_ids(p).items()}
    for sheet in bearers(p):
        joints = {
            by_id[s.mark].joint
            for s in sheet.scene.strokes
            if isinstance(s, Line) and s.mark
        }
        assert len(joints) == 1, sheet.name


def test_sections_show_the_seats_that_their_figures_are_for() -> None:
    middle = rail("middle", below_top=inch(10))
    p = piece(
        frame(rail(), middle, low_rail()),
        panel(seat(), "front under rail"),
        panel(seat(kind="groove", in_legs="groove", lip=inch("1/4")), "front under middle",
              name="lower"),
    )
    legs = [s for s in seats(p) if "leg" in s.name]
    assert {s.name for s in legs} == {"Section: rabbet in the leg", "Section: groove in the leg"}


def test_sums_told_together_are_denied_together() -> None:
    p = piece(frame(rail(sides=("front", "back"))))
    cuts = tuple(
        cut._replace(shape=cut.shape._replace(
            points=tuple((x + 1, w, t) for x, w, t in cut.shape.points)))  # type: ignore[union-attr]
        if cut.joint == "back-rail.A" and is_mortise(cut.role) else cut
        for cut in p.cuts
    )
    groups = {g.first.name: g for g in sum_groups(p._replace(cuts=cuts))}
    denied = {name for name, group in groups.items() if not group.agrees}
    assert denied == {
        "mortise top from end A",
        "mortise bottom from end A",
        "tenon bottom from the face edge",
    }
    assert all(g.agrees for g in sum_groups(p))


def test_a_setting_with_more_than_a_card_holds_goes_on_another() -> None:
    p = PIECES["repair_bench"]
    told = words(cards(p, CARD_SIZES["index"], (Fraction(190), Fraction(240))))
    more = [s for s in settings(p.marks) if len(struck(p, s)) > 2]
    assert sum("continued" in word for word in told) >= len(more)
    for setting in settings(p.marks):
        for entry in struck(p, setting):
            ends = ("end A", "end B") if entry.source == "each end" else (entry.source,)
            assert entry.example.source in ends
            assert entry.example.part in {part.id for part in entry.parts}


def test_both_units_are_shown_where_they_are_asked_for() -> None:
    p = PIECES["both units"]
    area = (Fraction(190), Fraction(240))
    # 45 1/2 in is 1155.7 mm, 43 in 1092.2 mm: at half a millimetre 1155.5 and 1092, both full
    assert "1155.5 mm full" in words(cut_list_sheets(p, area))
    assert {"1155.5 mm full", "1092 mm full"} <= set(words(sum_sheets(p, area)))
    assert any("1155.5 mm full" in word for word in words(sticks(p)))
    told = " ".join(words(check_sheets(p, check(p), area)))
    assert "1/4 in (6.5 mm bare)" in told
    plain = PIECES["through"]
    assert not any("mm" in word for word in words(sum_sheets(plain, area)))


def test_cards_say_stop_where_a_check_does() -> None:
    p = PIECES["hall_table"]
    area = (Fraction(190), Fraction(240))
    assert "STOP: see the checks" not in words(cards(p, CARD_SIZES["A6"], area))
    stopped = words(cards(p, CARD_SIZES["A6"], area, stop=True))
    # a card for every setting, and another one where its list goes on
    cards_ = [word for word in stopped if word.startswith("Setting ")]
    assert len({word.split(",")[0] for word in cards_}) == len(settings(p.marks))
    assert stopped.count("STOP: see the checks") == len(cards_)


def test_the_marks_of_a_piece_have_names_of_their_own() -> None:
    for p in PIECES.values():
        names = list(mark_ids(p).values())
        assert len(names) == len(set(names)) == len(set(p.marks))
