"""Tables made by chance: how wide columns are, how high their texts and rows, and where all of it stands."""

from __future__ import annotations

from itertools import pairwise
from random import Random
from typing import NamedTuple

import pytest

from docgen.paperwork.page_kit.cells import Cell, Field, Mark, Stacked, Swatch, Tick
from docgen.paperwork.page_kit.tables import Column, Row, Table, table
from docgen.paperwork.typesetting.ink import Box, Line, Text
from docgen.paperwork.typesetting.typeface import extent, width_mm

SERIES_MM = (1.8, 2.5, 3.5, 5.0, 7.0)  # ISO 3098
GAP_MM, SPARE_MM = 2.0, 0.2  # between columns; in each, so that no rounding makes a text too wide


class Case(NamedTuple):
    """Columns and rows, the room, the height of rows, what is clear at the left, and the table of it."""

    columns: list[Column]
    rows: list[Row]
    room_mm: float
    row_mm: float
    indent_mm: float
    of: Table


def cell_by_chance(dice: Random, kind: str) -> Cell:
    word = dice.choice(["22", "C1A22", "receiver", "AIL L OUT", "left-wing-root", "splice behind it, both"])
    if kind == "mark":
        return dice.choice([Tick(), Tick("1480", "22 AWG"), Field(), Swatch("BK"), Swatch("")])
    if kind == "stacked":
        return Stacked(word, dice.choice(["", "over"]), dice.choice(["", "under and wider"]))
    return dice.choice([word, word, ""])


def case_by_chance(seed: int) -> Case:
    dice = Random(seed)
    kinds = [dice.choice(["text", "text", "stacked", "mark"]) for _ in range(dice.randint(2, 6))]
    columns = []
    for kind in kinds:
        most = dice.choice([1.8, 2.5, 3.5])
        heading = Stacked("4 end", under="place") if kind == "stacked" else dice.choice(["", "cut, mm", "two\nlines"])
        align = "left" if kind == "mark" else dice.choice(["left", "left", "right"])
        least = dice.choice([size for size in SERIES_MM if size <= most])
        columns.append(Column(heading, most, least, dice.random() < 0.5, align, dice.random() < 0.5))
    rows = [
        Row(tuple(cell_by_chance(dice, kind) for kind in kinds), dice.random() < 0.3) for _ in range(dice.randint(1, 6))
    ]
    room, row_mm, indent = (
        dice.choice([50.0, 85.0, 120.0, 190.0]),
        dice.choice([4.0, 5.0, 7.0]),
        dice.choice([0.0, 3.0]),
    )
    return Case(columns, rows, room, row_mm, indent, table(columns, rows, room, row_mm, indent))


@pytest.fixture(scope="module")
def cases() -> list[Case]:
    return [case_by_chance(seed) for seed in range(150)]


def natural_mm(case: Case, index: int, height_mm: float) -> float:
    """Return how wide a column must be for its heading and cells in one line each, its texts in a height."""
    column = case.columns[index]
    heading = column.heading
    wide = [width_mm(line, 1.8) for line in heading.split("\n")] if isinstance(heading, str) else []
    if isinstance(heading, Stacked):
        wide += [width_mm(heading.text, 2.5, True), width_mm(heading.over, 1.8), width_mm(heading.under, 1.8)]
    for row in case.rows:
        cell = row.cells[index]
        if isinstance(cell, Mark):
            wide.append(cell.natural_mm)
        elif isinstance(cell, Stacked):
            wide += [width_mm(cell.text, height_mm, column.bold), width_mm(cell.over, 1.8), width_mm(cell.under, 1.8)]
        else:
            wide.append(width_mm(cell, height_mm, column.bold))
    return max(wide) + SPARE_MM


def heights(case: Case) -> list[float]:
    return [column.height_mm for column in case.of.columns]


def room_of(case: Case) -> float:
    return case.room_mm - case.indent_mm - GAP_MM * (len(case.columns) - 1)


def naturals(case: Case) -> list[float]:
    return [natural_mm(case, i, height) for i, height in enumerate(heights(case))]


def test_all_texts_of_a_column_have_one_height_between_its_bounds(cases: list[Case]) -> None:
    for case in cases:
        for column, height in zip(case.columns, heights(case), strict=True):
            assert height in SERIES_MM
            assert column.least_mm <= height <= column.height_mm


def test_a_column_is_as_high_as_its_texts_may_be_and_there_is_room_for(cases: list[Case]) -> None:
    for case in cases:
        wanted = naturals(case)
        for i, column in enumerate(case.columns):
            if heights(case)[i] < column.height_mm:
                step = next(size for size in SERIES_MM if size > heights(case)[i])
                higher = [natural_mm(case, i, step) if i == j else wide for j, wide in enumerate(wanted)]
                assert sum(higher) > room_of(case)
        if any(height > column.least_mm for height, column in zip(heights(case), case.columns, strict=True)):
            assert sum(wanted) <= room_of(case) + 1e-9


def test_columns_fill_the_room_what_is_over_goes_to_texts_that_wrap_alike(cases: list[Case]) -> None:
    seen = set()
    for case in cases:
        wanted, widths = naturals(case), case.of.widths_mm
        giving = [i for i, column in enumerate(case.columns) if column.wraps and column.align == "left"]
        texts = [i for i in giving if any(row.cells[i] and not isinstance(row.cells[i], Mark) for row in case.rows)]
        texts = texts or giving
        others = [i for i in range(len(wanted)) if i not in texts]
        assert [widths[i] for i in others] == pytest.approx([wanted[i] for i in others])
        if not texts:
            continue
        assert sum(widths) == pytest.approx(room_of(case))
        left = room_of(case) - sum(wanted[i] for i in others)
        if sum(wanted[i] for i in texts) <= left:
            more = [widths[i] - wanted[i] for i in texts]
            assert more == pytest.approx([more[0]] * len(more))
            assert more[0] >= -1e-9
            seen.add("over")
        else:
            # Who wants less than the widest that any gets has what it wants, all others have that.
            most = max(widths[i] for i in texts)
            assert [widths[i] for i in texts] == pytest.approx([min(wanted[i], most) for i in texts])
            seen.add("lacks")
    assert seen == {"over", "lacks"}


def boxes(case: Case) -> list[Box]:
    """Return where the columns of a row stand that is drawn from 10, 20 on."""
    lefts = [10.0 + case.indent_mm]
    for width in case.of.widths_mm:
        lefts.append(lefts[-1] + width + GAP_MM)
    return [Box(left, 20.0, width, 0) for left, width in zip(lefts, case.of.widths_mm, strict=False)]


def drawn(case: Case, row: Row) -> tuple[float, list[Text], list[Line]]:
    block = case.of.block(row)
    ink = list(block.draw(Box(10, 20, case.room_mm, block.height_mm)))
    texts = [one for one in ink if isinstance(one, Text) and one.cell is not None]
    return block.height_mm, texts, [one for one in ink if isinstance(one, Line)]


def in_column(case: Case, texts: list[Text], index: int) -> list[Text]:
    return [
        text for text in texts if text.cell is not None and text.cell.x_mm == pytest.approx(boxes(case)[index].x_mm)
    ]


def test_a_cell_s_words_stand_whole_in_their_column_at_its_edge_small_ones_over_and_under_it(cases: list[Case]) -> None:
    for case in cases:
        for row in case.rows:
            _, texts, _ = drawn(case, row)
            for i, (cell, column) in enumerate(zip(row.cells, case.columns, strict=True)):
                if isinstance(cell, Mark):
                    continue
                stack = cell if isinstance(cell, Stacked) else Stacked(cell)
                found = in_column(case, texts, i)
                # A word that is wider than its column is broken.
                said = "".join(text.text for text in found).replace(" ", "")
                assert said == f"{stack.over}{stack.text}{stack.under}".replace(" ", "")
                box, lines = boxes(case)[i], []
                for text in found:
                    lines.append(text.height_mm)
                    assert text.align == column.align
                    assert text.x_mm == pytest.approx(box.x_mm if column.align == "left" else box.right_mm)
                small = 1.8 if stack.over or stack.under else heights(case)[i]
                assert set(lines) <= {small, heights(case)[i]}


def test_a_row_is_as_high_as_it_must_be_and_its_words_are_about_its_middle_clear_of_its_edges(
    cases: list[Case],
) -> None:
    grown = 0
    for case in cases:
        for row in case.rows:
            high, texts, _ = drawn(case, row)
            assert high >= case.row_mm
            spare = []
            for i, cell in enumerate(row.cells):
                found = in_column(case, texts, i)
                if isinstance(cell, Mark):
                    continue
                if not found:
                    spare.append(0.0)  # a cell that says nothing has the room of one that does
                    continue
                top = found[0].y_mm - found[0].height_mm - 20
                foot = 20 + high - found[-1].y_mm
                assert all(other.y_mm > one.y_mm for one, other in pairwise(found))
                if isinstance(cell, Stacked):
                    below = extent(found[-1].text, found[-1].height_mm, found[-1].bold).below_mm
                    assert min(top, foot - below) > 0
                    spare.append(top + foot - 2 * 0.4 - 0.31 * found[-1].height_mm)
                else:
                    # Figures, at the right, have nothing below their line.
                    pad = 0.7 if case.columns[i].align == "right" else 1.1
                    assert top == pytest.approx(foot)
                    assert top >= pad - 1e-9
                    spare.append(top - pad)
            if high > case.row_mm:
                grown += 1
                assert min(spare) == pytest.approx(0, abs=1e-9)
    assert grown > 10


def test_a_hair_line_stands_over_a_row_where_the_meaning_parts_and_nowhere_else(cases: list[Case]) -> None:
    for case in cases:
        for row in case.rows:
            _, _, lines = drawn(case, row)
            hairs = [(line.x1_mm, line.y1_mm, line.x2_mm, line.y2_mm) for line in lines if line.width_mm == 0.18]
            assert hairs == ([(10, 20, 10 + case.room_mm, 20)] if row.rule else [])


def test_headings_stand_over_their_columns_at_the_same_edge_and_clear_of_the_rows(cases: list[Case]) -> None:
    for case in cases:
        head = case.of.head()
        assert head.stays
        texts = [ink for ink in head.draw(Box(10, 20, case.room_mm, head.height_mm)) if isinstance(ink, Text)]
        for i, column in enumerate(case.columns):
            said = (
                column.heading if isinstance(column.heading, str) else f"{column.heading.text} {column.heading.under}"
            )
            found = in_column(case, texts, i)
            assert " ".join(text.text for text in found).split() == said.split()
            box = boxes(case)[i]
            assert all(text.x_mm == pytest.approx(box.x_mm if text.align == "left" else box.right_mm) for text in found)
            assert all(text.align == column.align for text in found)
            assert all(text.height_mm == (2.5 if text.bold else 1.8) for text in found)
            if found and not said.startswith("\n"):
                assert found[0].y_mm == pytest.approx(20 + found[0].height_mm)
        if texts:
            assert 20 + head.height_mm - max(text.y_mm for text in texts) == pytest.approx(1.7)


def test_where_room_lacks_for_all_the_first_columns_are_higher() -> None:
    said = [Row(("WORDS",) * 3)]
    columns = [Column("", 2.5, 1.8, wraps=False)] * 3
    least, more = width_mm("WORDS", 1.8) + SPARE_MM, width_mm("WORDS", 2.5) - width_mm("WORDS", 1.8)
    for count in range(4):
        of = table(columns, said, 3 * least + 2 * GAP_MM + (count + 0.5) * more)
        assert [column.height_mm for column in of.columns] == [2.5] * count + [1.8] * (3 - count)


def test_columns_step_up_in_turn_none_by_two_steps_while_another_waits_for_one() -> None:
    said, columns = [Row(("WORDS", "WORDS"))], [Column("", 3.5, 1.8, wraps=False)] * 2
    at = {size: width_mm("WORDS", size) + SPARE_MM for size in (1.8, 2.5, 3.5)}
    of = table(columns, said, at[3.5] + at[1.8] + GAP_MM + 0.01)
    assert at[3.5] + at[1.8] > 2 * at[2.5]
    assert [column.height_mm for column in of.columns] == [2.5, 2.5]


def test_the_first_two_rows_stay_together_and_the_last_two() -> None:
    of = table([Column("")], [Row(("x",))], 60)
    stays = {
        count: [block.stays for block in of.blocks([Row((str(i),)) for i in range(count)])] for count in range(1, 6)
    }
    assert stays == {
        1: [False],
        2: [True, False],
        3: [True, True, False],
        4: [True, False, True, False],
        5: [True, False, False, True, False],
    }
