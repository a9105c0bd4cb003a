"""Tables of the kit: columns step down together, rows grow for what wraps, and nothing leaves its cell."""

from __future__ import annotations

import itertools

import pytest
from reference.character_heights import SERIES_MM

from docgen.paperwork.page_kit.cells import Bracket, Field, Stacked, Swatch, Tick
from docgen.paperwork.page_kit.tables import GAP_MM, Column, Row, Table, heading, table
from docgen.paperwork.typesetting.ink import Box, Line, Shape, Text
from docgen.paperwork.typesetting.typeface import extent, width_mm

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
