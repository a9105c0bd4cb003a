"""What pages say, line by line, as it is compared with what was issued."""

from __future__ import annotations

from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Line, Page, Text


def page(*texts: tuple[str, float, float, float]) -> Page:
    found = Page(210, 297)
    for text, x, y, height in texts:
        found.add(Text(x, y, text, height), Line(x, y, x + 10, y))
    return found


def test_what_stands_from_left_to_right_is_one_line_and_feet_are_left_out() -> None:
    one = page(
        ("cut", 10, 20, 1.8),
        ("mark", 30, 20, 1.8),
        ("1345", 10, 30, 3.5),
        # In the same row a little lower, as text in another height is.
        ("C1A22", 30, 31, 1.8),
        ("Wren · page 1 of 1", 10, 290, 1.5),
    )
    assert Composed([one]).lines == ["cut mark", "1345 C1A22"]


def test_a_text_that_is_no_farther_right_or_over_a_row_away_begins_a_line() -> None:
    below = page(("a", 30, 20, 1.8), ("b", 30, 24, 1.8), ("c", 20, 24, 1.8))
    assert Composed([below]).lines == ["a", "b", "c"]
    # A row is no higher than 10 mm, upwards too.
    for step, lines in ((10.0, ["a b"]), (10.1, ["a", "b"]), (-10.0, ["a b"]), (-10.1, ["a", "b"])):
        assert Composed([page(("a", 10, 50, 1.8), ("b", 20, 50 + step, 1.8))]).lines == lines


def test_each_page_begins_a_line() -> None:
    pages = [page(("a", 10, 20, 1.8)), page(("b", 20, 20, 1.8))]
    assert Composed(pages).lines == ["a", "b"]
    assert Composed([]).lines == []
