"""Plain text of 72 columns: wrapped, indented and headed, quantities with their units."""

from __future__ import annotations

import pytest

from docgen.paperwork.record.lines import Lines, joined, length, measured, named, percent, quantity


def added(*said: str, depth: int = 0) -> list[str]:
    lines = Lines()
    lines.add(*said, depth=depth)
    return lines.lines


@pytest.mark.parametrize("depth", [0, 1, 2])
def test_a_line_is_as_long_as_72_columns_with_its_indent_and_what_is_longer_goes_on_four_further_in(depth: int) -> None:
    indent = "  " * depth
    fits = "x" * (72 - 2 * depth - 4) + " end"
    assert added(fits, depth=depth) == [indent + fits]
    assert added(f"x{fits}", depth=depth) == [indent + "x" * (72 - 2 * depth - 3), f"{indent}    end"]


def test_a_line_is_parted_at_blanks_not_at_hyphens_and_blanks_are_said_once() -> None:
    word = "left-outer-aileron-of-the-second-panel"
    assert added(f"{word} {word}") == [word, f"    {word}"]
    assert added("one  two\nthree") == ["one  two three"]


def test_what_is_empty_is_not_said_and_alone_makes_no_line() -> None:
    assert added("one", "", "two") == ["one, two"]
    assert added("") == added("", "") == []
    assert joined("", "a", "", "b") == "a, b"


@pytest.mark.parametrize(("text", "below"), [("Places", 6), ("x" * 90, 72)])
def test_the_first_heading_is_the_title_and_others_have_a_clear_line_above(text: str, below: int) -> None:
    lines = Lines()
    lines.heading("Wren")
    lines.heading(text)
    lines.add("tray")
    assert lines.text() == f"Wren\n====\n\n{text}\n{'-' * below}\ntray\n"


def test_cells_end_below_each_other_and_a_name_that_is_too_long_stands_over_them() -> None:
    lines = Lines()
    lines.row("seventeen letters", "1", "22")
    lines.row("eighteen letters..", "333", "4")
    assert lines.lines == [
        f"seventeen letters{'1':>11}{'22':>11}",
        "eighteen letters..",
        f"{' ' * 17}{'333':>11}{'4':>11}",
    ]


def test_quantities_are_as_they_are_or_to_so_many_decimals_and_times_as_large() -> None:
    assert (quantity(1.25, "V"), quantity(1.25, "V", 1, 2), quantity(0.02, "mΩ", times=1000)) == (
        "1.25 V",
        "2.5 V",
        "20 mΩ",
    )
    assert (quantity(None, "V"), quantity(0.0, "A"), quantity(0.0, "A", 2)) == ("", "0 A", "0.00 A")
    assert (measured(None, "mm"), measured(120.0, "mm"), measured(1.26, "mm", 1)) == (
        "not measured",
        "120 mm",
        "1.3 mm",
    )
    assert (length(144.222), length(120.0), length(None)) == ("144.2 mm", "120 mm", "not measured")
    assert (percent(0.3), percent(0.0456, 1), percent(None)) == ("30 %", "4.6 %", "")
    assert (named("mass", "3 g"), named("mass", ""), named("mass", None), named("channel", 4)) == (
        *("mass 3 g", "", "", "channel 4"),
    )
