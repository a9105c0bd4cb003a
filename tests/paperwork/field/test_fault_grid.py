"""The grid of the fault finder: rows below each other, dots and rings below their functions, by hand from its sizes."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.field import fault_content, fault_pages
from docgen.paperwork.field.fault_content import Fault
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Circle, Ink, Line, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm, wrapped

if TYPE_CHECKING:
    from docgen.paperwork.field.fault_content import FaultContent

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
# The area is 190 mm wide from 10 mm on: 20 mm for covers, 6 mm for numbers, then names, then a column a function.
LEFT_MM, WIDTH_MM, NUMBER_MM, NAME_MM = 10.0, 190.0, 34.0, 36.0
SMALL_MM, ROW_MM, PITCH_MM = 1.8, 4.0, 2.8


@cache
def content_of(name: str) -> FaultContent:
    if name == "long":  # names of two lines
        items = content_of("wren")
        faults = [
            replace(fault, name=f"{fault.name} of what is far away and has a long name") for fault in items.faults
        ]
        return replace(items, faults=type(items.faults)(faults))
    return fault_content.content(harness_of(EXAMPLES / name))


@cache
def ink_of(name: str) -> list[Ink]:
    return fault_pages.compose(content_of(name), read_page("list-a4"))(BLOCK).pages[0].ink


def texts(name: str) -> list[Text]:
    return [ink for ink in ink_of(name) if isinstance(ink, Text)]


def names_mm(name: str) -> float:
    """Return how wide names are: as the widest, at most 46 mm."""
    return min(max(width_mm(fault.name, SMALL_MM) for fault in content_of(name).faults) + 1, 46)


def column_mm(name: str) -> float:
    """Return how wide columns are: all that is left in equal parts, at most 5 mm."""
    return min((LEFT_MM + WIDTH_MM - NAME_MM - names_mm(name)) / len(content_of(name).labels), 5.0)


@pytest.mark.parametrize("name", ["wren", "fulmar", "long"])
def test_functions_stand_upright_over_the_middle_of_their_columns(name: str) -> None:
    upright = [text for text in texts(name) if text.turned]
    assert [text.text for text in upright] == list(content_of(name).labels)
    first = NAME_MM + names_mm(name)
    middles = [first + (i + 0.5) * column_mm(name) for i in range(len(upright))]
    # Read upwards, the middle of capitals is half their height left of the base.
    assert [text.x_mm - SMALL_MM / 2 for text in upright] == pytest.approx(middles)
    assert len({text.y_mm for text in upright}) == 1
    assert {(text.bold, text.height_mm) for text in upright} == {(True, SMALL_MM)}


@pytest.mark.parametrize("name", ["wren", "fulmar", "long"])
def test_each_row_has_its_number_name_and_marks_on_one_line_and_a_rule_over_each_cover(name: str) -> None:
    items = content_of(name)
    head = next(text.y_mm for text in texts(name) if text.turned) + 0.8
    first = NAME_MM + names_mm(name)
    numbers = [text for text in texts(name) if text.align == "right" and text.x_mm == NUMBER_MM]
    assert [text.text for text in numbers] == [str(number) for number in range(1, len(items.faults) + 1)]
    circles = [ink for ink in ink_of(name) if isinstance(ink, Circle) and ink.x_mm > first]
    rules = [ink.y1_mm for ink in ink_of(name) if isinstance(ink, Line) and ink.x2_mm - ink.x1_mm == WIDTH_MM]
    top, cover, covers = head, "", []
    for number, fault in zip(numbers, items.faults, strict=True):
        lines = wrapped(fault.name, names_mm(name), SMALL_MM)
        over = wrapped(fault.cover, 19, SMALL_MM) if fault.cover != cover else []
        covers += [top] if over else []
        base = top + (ROW_MM + SMALL_MM) / 2
        assert number.y_mm == pytest.approx(base)
        assert number.bold
        said = [text for text in texts(name) if text.x_mm == NAME_MM and top < text.y_mm < top + 12]
        assert [text.text for text in said][: len(lines)] == lines
        assert [text.y_mm for text in said][: len(lines)] == pytest.approx(
            [base + i * PITCH_MM for i in range(len(lines))]
        )
        here = sorted((c.x_mm, c.fill is not None) for c in circles if abs(c.y_mm - top - ROW_MM / 2) < 0.01)
        marks = [*((i, True) for i in fault.dead), *((i, False) for i in fault.goes_on)]
        wanted = sorted((first + (i + 0.5) * column_mm(name), dead) for i, dead in marks)
        assert [dead for _, dead in here] == [dead for _, dead in wanted]
        assert [x for x, _ in here] == pytest.approx([x for x, _ in wanted])
        top += max(ROW_MM, max(len(lines), len(over)) * PITCH_MM + 1)
        cover = fault.cover
    assert {circle.radius_mm for circle in circles} == {0.9}
    assert [y for y in rules if head - 0.01 <= y <= top] == pytest.approx(covers)


@pytest.mark.parametrize(("count", "pages", "pitch_mm"), [(44, 1, 4.0), (53, 1, 3.5), (56, 1, 3.5), (62, 2, 4.0)])
def test_rows_are_closer_only_where_the_whole_grid_fits_on_one_side_so(count: int, pages: int, pitch_mm: float) -> None:
    """By hand: of 255 mm about 55 go to the title, what is said before, the labels and the disclaimer at the end."""
    faults = tuple(Fault(f"lead {number}", (0,), (), "hatch", "its plug", "rings") for number in range(count))
    items = replace(content_of("wren"), faults=faults)
    found = [page.ink for page in fault_pages.compose(items, read_page("list-a4"))(BLOCK).pages]
    grid = [
        [ink.y_mm for ink in page if isinstance(ink, Text) and ink.align == "right" and ink.x_mm == NUMBER_MM]
        for page in found
    ]
    rows = [rows for rows in grid if rows]
    assert len(rows) == pages
    assert sum(map(len, rows)) == count
    assert {round(below - above, 3) for some in rows for above, below in pairwise(some)} == {pitch_mm}
