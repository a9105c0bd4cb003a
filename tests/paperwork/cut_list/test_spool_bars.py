"""Bars of spools on the cut list: to one scale, each piece where it is cut, and what is said of each spool."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import accumulate
from typing import NamedTuple

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.assembly.spools import Cut, SpoolPlan
from docgen.paperwork.cut_list.content import content
from docgen.paperwork.cut_list.pages import compose
from docgen.paperwork.cut_list.pieces import Group
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Ink, Line, Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock
from docgen.paperwork.typesetting.typeface import width_mm

COLUMN_MM = (190 - 6) / 2
BAR_MM, SMALL_MM = 4.0, 1.8


class Bar(NamedTuple):
    """A bar as drawn: what stands over it, where it is, where pieces end on it, and the texts in it."""

    says: str
    left: float
    top: float
    width: float
    high: float
    ends: list[float]
    texts: list[Text]


@cache
def ink_of(example: str) -> list[tuple[int, Ink]]:
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
    pages = compose(content(harness_of(EXAMPLES / example)), read_page("list-a4"))(block).pages
    return [(number, ink) for number, page in enumerate(pages) for ink in page.ink]


def bars(example: str) -> list[Bar]:
    """Return the bars in the order printed, each below the text that names its spool."""
    found = []
    ink = ink_of(example)
    for page, said in ink:
        if isinstance(said, Text) and " · rest " in said.text:
            here = [one for number, one in ink if number == page]
            (bar,) = (one for one in here if isinstance(one, Shape) and _is_below(said, one))
            (left, top), (right, bottom) = min(bar.points_mm), max(bar.points_mm)
            lines = [
                one
                for one in here
                if isinstance(one, Line) and one.x1_mm == one.x2_mm and (one.y1_mm, one.y2_mm) == (top, bottom)
            ]
            ends = [line.x1_mm for line in lines if left < line.x1_mm <= right + 0.01]
            texts = [
                one for one in here if isinstance(one, Text) and top < one.y_mm < bottom and left < one.x_mm < right
            ]
            found.append(Bar(said.text, left, top, right - left, bottom - top, ends, texts))
    return found


def _is_below(said: Text, shape: Shape) -> bool:
    left, top = min(shape.points_mm)
    return left == said.x_mm and 0 < top - said.y_mm < 1.5


def told(cut: Cut) -> str:
    """Say a spool by hand: bought ones are numbered by themselves, those on the shelf as in the stores' file."""
    name = f"buy {cut.number}" if cut.bought else f"spool {cut.number}" + ", sealed" * cut.sealed
    return f"{name} · {cut.length_mm / 1000:g} m · rest {cut.rest_mm:g}"


def barred(example: str) -> list[tuple[Group, Cut, float]]:
    """Return what has bars: spools of groups that come off several, with the length that fills a column."""
    groups = content(harness_of(EXAMPLES / example)).groups
    plans = [(group, group.plan) for group in groups if group.plan is not None and len(group.plan.cuts) > 1]
    return [(group, cut, max(each.length_mm for each in plan.cuts)) for group, plan in plans for cut in plan.cuts]


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_each_spool_has_a_bar_to_the_scale_of_its_group_with_its_pieces_side_by_side(example: str) -> None:
    wanted = barred(example)
    assert len(wanted) >= 2
    for bar, (group, cut, longest_mm) in zip(bars(example), wanted, strict=True):
        scale = COLUMN_MM / longest_mm
        lengths_mm = [group.pieces[index].length_mm for index in cut.pieces]
        assert bar.says == told(cut)
        assert (bar.width, bar.high) == pytest.approx((cut.length_mm * scale, BAR_MM))
        assert bar.ends == pytest.approx([bar.left + end * scale for end in accumulate(lengths_mm)])
        # A length stands in the middle of its piece, where it has room there with 0.4 mm at either side.
        fitting = [
            (f"{mm:g}", bar.left + (end - mm / 2) * scale)
            for mm, end in zip(lengths_mm, accumulate(lengths_mm), strict=True)
            if width_mm(f"{mm:g}", SMALL_MM) + 0.8 <= mm * scale
        ]
        assert [text.text for text in bar.texts] == [text for text, _ in fitting]
        assert [text.x_mm for text in bar.texts] == pytest.approx([x for _, x in fitting])
        for text in bar.texts:
            assert text.align == "centre"
            assert text.y_mm - text.height_mm / 2 == pytest.approx(bar.top + bar.high / 2)


@pytest.mark.parametrize(("proved", "says"), [(True, None), (False, "Not proved to be the fewest: 1 might do.")])
def test_one_spool_has_a_bar_where_it_is_not_proved_that_fewer_can_not_do(proved: bool, says: str | None) -> None:
    items = content(harness_of(EXAMPLES / "wren"))
    group = items.groups[0]
    cut = Cut(3, 2000.0, sealed=False, bought=False, pieces=(0,), rest_mm=1675.0)
    plan = SpoolPlan(cuts=(cut,), least=1, proved=proved, too_long=(), bought_mm=0)
    items = replace(items, groups=(replace(group, plan=plan),))
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")
    texts = [ink.text for ink in compose(items, read_page("list-a4"))(block).pages[0].ink if isinstance(ink, Text)]
    assert ("spool 3 · 2 m · rest 1675" in texts) == (says is not None)
    assert [text for text in texts if text.startswith(("Fewer", "Not proved"))] == ([says] if says else [])
