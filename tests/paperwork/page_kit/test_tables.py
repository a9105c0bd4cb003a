"""Tables of the kit: columns step down together, rows grow for what wraps, and nothing leaves its cell."""

from __future__ import annotations

import itertools

import pytest
from reference.character_heights import SERIES_MM

from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.cells import Bracket, Field, Stacked, Swatch, Tick
from docgen.paperwork.page_kit.tables import GAP_MM, Column, Row, Table, band, heading, lines, notice, table
from docgen.paperwork.typesetting.ink import Box, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import extent, line_pitch_mm, width_mm

ROOM_MM = 92.0
COLUMNS = [
    Column("cut, mm", 3.5, 2.5, bold=True, align="right", wraps=False),
    Column("mark", wraps=False),
    Column("function", 2.5, 1.8),
    Column("cut", wraps=False),
]


def rows(*functions: str) -> list[Row]:
    return [Row((str(100 + i), f"C{i}A22", function, Tick())) for i, function in enumerate(functions)]


def texts(of: Table, row: Row) -> list[Text]:
    block = of.block(row)
    return [ink for ink in block.draw(Box(10, 20, ROOM_MM, block.height_mm)) if isinstance(ink, Text)]


def test_texts_have_the_heights_of_their_columns_where_there_is_room() -> None:
    of = table(COLUMNS, rows("AIL L", "RUD"), ROOM_MM)
    assert [text.height_mm for text in texts(of, rows("AIL L")[0])] == [3.5, 1.8, 2.5]


def test_a_column_that_is_too_wide_steps_down_as_a_whole() -> None:
    long = "LEFT OUTER AILERON, DETACHED"
    said, room = rows("RUD", long), 80.0
    assert width_mm(long, 2.5) > room - 32 > width_mm(long, 1.8)
    of = table(COLUMNS, said, room)
    assert [[text.height_mm for text in texts(of, row)][2] for row in said] == [1.8, 1.8]


def test_a_text_that_is_too_wide_at_the_least_height_goes_on_below_in_a_higher_row() -> None:
    long = " ".join(["LEFT OUTER AILERON OF THE DETACHABLE PANEL"] * 2)
    said = rows("RUD", long)
    of = table(COLUMNS, said, ROOM_MM)
    low, high = (of.block(row).height_mm for row in said)
    assert low == 5
    lines = [text for text in texts(of, said[1]) if text.text in long]
    assert len(lines) > 1
    assert " ".join(line.text for line in lines) == long
    assert high >= len(lines) * 1.8 + (len(lines) - 1) * 0.5
    assert all(21 <= line.y_mm <= 20 + high - 0.5 for line in lines)


def test_all_texts_stay_in_their_cells_which_do_not_meet() -> None:
    said = rows("RUD", "A NAME WITH MANY WORDS THAT SOMEBODY GAVE TO A LIGHT", "UNBROKEN-" * 12)
    of = table(COLUMNS, said, ROOM_MM)
    for row in said:
        found = texts(of, row)
        cells = sorted({text.cell for text in found if text.cell})
        assert all(one.right_mm + GAP_MM <= other.x_mm + 1e-6 for one, other in itertools.pairwise(cells))
        for text in found:
            assert text.cell is not None
            wide = width_mm(text.text, text.height_mm, text.bold)
            left = text.x_mm - wide if text.align == "right" else text.x_mm
            assert text.cell.x_mm - 1e-6 <= left
            assert left + wide <= text.cell.right_mm + 1e-6
        assert max(cell.right_mm for cell in cells) <= 10 + ROOM_MM


def test_only_heights_of_the_series_are_used() -> None:
    of = table(COLUMNS, rows("X" * 60, "Y"), ROOM_MM)
    assert {column.height_mm for column in of.columns} <= {*SERIES_MM}


def test_columns_that_share_a_document_share_their_edges() -> None:
    first, second = rows("RUD"), rows("A MUCH LONGER FUNCTION")
    of = table(COLUMNS, [*first, *second], ROOM_MM)
    lefts = [[text.cell.x_mm for text in texts(of, row) if text.cell] for row in (*first, *second)]
    assert lefts[0] == lefts[1]


@pytest.mark.parametrize(("cell", "width"), [(Tick(), 4.0), (Field(), 18.0), (Field(14), 14.0)])
def test_boxes_are_as_large_as_what_is_written_in_them(cell: Tick | Field, width: float) -> None:
    of = table([Column(""), Column("", wraps=False)], [Row(("x", cell))], ROOM_MM)
    assert of.widths_mm[1] == pytest.approx(width, abs=0.3)


def test_a_swatch_says_its_colour_in_letters() -> None:
    row = Row(("x", Swatch("WHRD")))
    of = table([Column(""), Column("", wraps=False)], [row], ROOM_MM)
    assert "WHRD" in [text.text for text in texts(of, row)]


STACK = [Column(Stacked("4 end", under="place, contacts"), 2.5, bold=True), Column("", wraps=False)]


def test_stacked_texts_stand_below_each_other_in_their_heights_clear_of_the_row_s_edges() -> None:
    row = Row((Stacked("1 BK, 2 RD", over="left-gully", under="pyq"), Tick()))
    of = table(STACK, [row], 60.0, 7.0)
    block = of.block(row)
    found = texts(of, row)
    assert [(text.text, text.height_mm, text.bold) for text in found] == [
        ("left-gully", 1.8, False),
        ("1 BK, 2 RD", 2.5, True),
        ("pyq", 1.8, False),
    ]
    edges = [20.0]
    for text in found:
        above, below = extent(text.text, text.height_mm, text.bold)
        edges += [text.y_mm - above, text.y_mm + below]
    edges.append(20 + block.height_mm)
    assert all(other - one > 0.2 for one, other in itertools.pairwise(edges)), edges


def test_two_stacked_texts_fit_a_row_of_7_mm() -> None:
    row = Row((Stacked("1 BK, 2 RD", over="receiver 1"), Tick()))
    assert table(STACK, [row], 60.0, 7.0).block(row).height_mm == 7


def test_stacked_texts_that_are_too_wide_go_on_below_each_in_its_height() -> None:
    row = Row((Stacked("WORD " * 12, over="small " * 30), Tick()))
    of = table(STACK, [row], 60.0, 7.0)
    assert [text.height_mm for text in texts(of, row)] == sorted(text.height_mm for text in texts(of, row))
    assert " ".join(text.text for text in texts(of, row)).count("small") == 30


def test_a_stacked_heading_is_as_high_as_its_texts() -> None:
    of = table(STACK, [Row(("x", Tick()))], 60.0)
    head = of.head()
    found = [ink for ink in head.draw(Box(10, 20, 60, head.height_mm)) if isinstance(ink, Text)]
    assert [(text.text, text.height_mm, text.bold) for text in found] == [
        ("4 end", 2.5, True),
        ("place, contacts", 1.8, False),
    ]
    assert found[1].y_mm <= 20 + head.height_mm - 1


def test_what_a_box_is_for_stands_beside_it_in_its_column() -> None:
    row = Row(("x", Tick("1480", "22 AWG")))
    of = table(STACK, [row], 60.0, 7.0)
    ink = of.block(row).draw(Box(10, 20, 60, 7))
    [box] = [shape for shape in ink if isinstance(shape, Shape)]
    right = max(x for x, _ in box.points_mm)
    said = [text for text in texts(of, row) if text.text != "x"]
    assert [text.text for text in said] == ["1480", "22 AWG"]
    for text in said:
        assert right < text.x_mm < text.x_mm + width_mm(text.text, 1.8) <= 10 + 60


def test_figures_of_3_5_mm_stand_in_rows_of_5() -> None:
    of = table([Column("cut, mm", 3.5, bold=True, align="right")], [Row(("1335",))], ROOM_MM)
    assert of.columns[0].height_mm == 3.5
    assert of.block(Row(("1335",))).height_mm == 5


def test_a_bracket_joins_the_rows_from_the_one_that_opens_it_to_the_one_that_closes_it() -> None:
    said = [Row(("7", Bracket(opens=i == 0, closes=i == 2))) for i in range(3)]
    of = table([Column("mm"), Column("", wraps=False)], said, ROOM_MM)
    boxes = [Box(10, 20 + 5 * i, ROOM_MM, 5) for i in range(3)]
    drawn = [ink for row, box in zip(said, boxes, strict=True) for ink in of.block(row).draw(box)]
    upright = [(ink.y1_mm, ink.y2_mm) for ink in drawn if isinstance(ink, Line) and ink.x1_mm == ink.x2_mm]
    across = [ink.y1_mm for ink in drawn if isinstance(ink, Line) and ink.y1_mm == ink.y2_mm]
    assert all(one[1] == other[0] for one, other in itertools.pairwise(upright))
    assert across == [upright[0][0], upright[-1][1]]
    assert 20 < across[0] < 21
    assert 34 < across[1] < 35


def test_a_heading_of_several_lines_stands_over_its_column_within_its_width() -> None:
    of = table([Column("\nfamily"), Column("housings\nfor pins", align="right", wraps=False)], [Row(("x", "3"))], 60)
    assert of.widths_mm[1] == pytest.approx(max(width_mm("housings", 1.8), width_mm("for pins", 1.8)), abs=0.3)
    found = [ink for ink in of.head().draw(Box(0, 0, 60, of.head().height_mm)) if isinstance(ink, Text)]
    bases = {text.text: text.y_mm for text in found}
    assert bases["housings"] < bases["for pins"] == bases["family"]
    assert min(bases.values()) >= 1.8 - 1e-6


@pytest.mark.parametrize(("room", "beside"), [(92.0, True), (60.0, False), (20.0, False)])
def test_what_a_heading_adds_stands_at_its_right_or_below_where_both_do_not_fit(room: float, beside: bool) -> None:
    block = heading("BK black · 22 AWG · pvc-22", says="5 pieces · 4.025 m", room_mm=room)
    found = [ink for ink in block.draw(Box(0, 0, room, block.height_mm)) if isinstance(ink, Text)]
    assert " ".join(text.text for text in found) == "BK black · 22 AWG · pvc-22 5 pieces · 4.025 m"
    assert (len({text.y_mm for text in found}) == 1) == beside
    for text in found:
        assert text.height_mm <= text.y_mm <= block.height_mm
        assert width_mm(text.text, text.height_mm, text.bold) <= room


def drawn_texts(block: Block, room_mm: float) -> list[Text]:
    return [ink for ink in block.draw(Box(10, 20, room_mm, block.height_mm)) if isinstance(ink, Text)]


@pytest.mark.parametrize(
    ("text", "says", "room", "titles", "below"),
    [
        ("Sleeves", "", 92.0, 1, 0),
        ("Sleeves", "4 pieces", 92.0, 1, 0),
        ("BK black · 22 AWG · pvc-22", "5 pieces · 4.025 m", 60.0, 1, 1),
        ("BK black · 22 AWG · pvc-22", "5 pieces · 4.025 m and words that go on and on", 30.0, 2, 2),
    ],
)
def test_a_heading_grows_for_lines_more_and_ends_as_far_above_what_follows(
    text: str, says: str, room: float, titles: int, below: int
) -> None:
    block = heading(text, 2.5, says, room_mm=room)
    found = drawn_texts(block, room)
    bold, small = [one for one in found if one.bold], [one for one in found if not one.bold]
    assert (len(bold), len(small)) == (titles, max(below, bool(says)))
    assert " ".join(one.text for one in bold) == text
    assert " ".join(one.text for one in small) == says
    assert (block.stays, block.above_mm) == (True, 7.0)
    # A row of 5 mm, and the pitch of running text for each line more.
    assert block.height_mm == pytest.approx(5 + (titles - 1) * line_pitch_mm(2.5) + below * line_pitch_mm(1.8))
    assert 20 + block.height_mm - found[-1].y_mm == pytest.approx(1.2)
    assert [one.y_mm - bold[0].y_mm for one in bold] == pytest.approx([i * line_pitch_mm(2.5) for i in range(titles)])
    if says and not below:
        assert (small[0].y_mm, small[0].align, small[0].x_mm) == (bold[0].y_mm, "right", 10 + room)
    elif says:
        steps = [one.y_mm - bold[-1].y_mm for one in small]
        assert steps == pytest.approx([(i + 1) * line_pitch_mm(1.8) for i in range(below)])
        assert all((one.align, one.x_mm) == ("left", 10) for one in small)
    assert all((one.height_mm, one.align, one.x_mm) == (2.5, "left", 10) for one in bold)


def test_what_a_heading_adds_is_at_least_2_mm_from_it_or_stands_below() -> None:
    both = width_mm("Sleeves", 2.5, True) + 2.0 + width_mm("4 pieces", 1.8)
    for room, beside in ((both + 0.01, True), (both - 0.01, False)):
        bases = {text.y_mm for text in drawn_texts(heading("Sleeves", says="4 pieces", room_mm=room), room)}
        assert len(bases) == (1 if beside else 2)


def test_a_large_heading_has_a_row_of_its_height_and_two_millimetres() -> None:
    assert heading("Sleeves", 5.0).height_mm == 7.0
    assert heading("Sleeves", 2.5, row_mm=9.0).height_mm == 9.0


def test_a_band_is_black_over_the_whole_width_with_its_name_in_white_in_its_middle() -> None:
    block = band("left-panel")
    [ground, name] = block.draw(Box(10, 20, 92, block.height_mm))
    assert isinstance(ground, Shape)
    assert isinstance(name, Text)
    assert set(ground.points_mm) == {(10, 20), (102, 20), (102, 26), (10, 26)}
    assert (ground.fill, name.colour) == ("#000000", "#FFFFFF")
    assert (name.text, name.height_mm, name.bold, name.x_mm, name.align) == ("left-panel", 2.5, True, 12, "left")
    assert name.y_mm - 2.5 / 2 == pytest.approx(23)
    assert name.cell == Box(10, 20, 92, 6)
    # What follows is clear of it, and it of what comes before.
    assert (block.height_mm, block.above_mm, block.stays) == (7.5, 7.0, True)


@pytest.mark.parametrize("height", [1.8, 2.5])
def test_running_text_is_whole_from_its_first_capitals_on_in_lines_of_one_pitch(height: float) -> None:
    text = " ".join(f"word{i}" for i in range(40))
    block = lines(text, 60.0, height, 3.0, stays=True)
    found = drawn_texts(block, 60.0)
    assert " ".join(one.text for one in found) == text
    assert len(found) > 3
    assert [one.y_mm for one in found] == pytest.approx(
        [20 + height + i * line_pitch_mm(height) for i in range(len(found))]
    )
    assert {(one.x_mm, one.height_mm, one.bold) for one in found} == {(10, height, False)}
    assert all(width_mm(one.text, height) <= 60 for one in found)
    assert block.height_mm == pytest.approx(len(found) * line_pitch_mm(height) + 0.7)
    assert (block.above_mm, block.stays) == (3.0, True)


def test_a_notice_is_a_text_below_its_heading_and_without_a_text_there_is_none() -> None:
    [group] = notice("To be measured", "reach of left-root: AIL L", 92.0)
    head, said = group.blocks
    assert [text.text for text in drawn_texts(head, 92.0)] == ["To be measured"]
    assert [text.text for text in drawn_texts(said, 92.0)] == ["reach of left-root: AIL L"]
    assert (head.stays, head.above_mm) == (True, 0)
    assert notice("To be measured", "", 92.0) == []
