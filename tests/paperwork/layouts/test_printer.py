"""What a printer does to pages: which pages a measure holds for, and how much must stay clear for it."""

from __future__ import annotations

import pytest

from docgen.paperwork.layouts.forms import Printer

UPRIGHT, LYING = (210.0, 297.0), (297.0, 210.0)


def printer(scale: str = "101 %, 99 %", shift: str = "1 mm, -2 mm", turned: str = "no") -> Printer:
    pairs = {"scale": scale.split(", "), "shift": shift.split(", ")}
    return Printer.model_validate({"kind": "printer", "turned": turned, **pairs})


@pytest.mark.parametrize(
    ("scale", "shift", "is_alike"),
    [
        ("100 %, 100 %", "0 mm, 0 mm", True),
        ("101 %, 101 %", "0 mm, 0 mm", True),
        ("101 %, 100 %", "0 mm, 0 mm", False),
        ("101 %, 101 %", "1 mm, 0 mm", False),
        ("101 %, 101 %", "0 mm, 1 mm", False),
    ],
)
def test_a_measure_holds_for_pages_that_lie_as_the_one_measured_or_for_all_if_directions_are_alike(
    scale: str, shift: str, is_alike: bool
) -> None:
    for turned in ("no", "yes"):
        of = printer(scale, shift, turned)
        assert of.is_of(*LYING) == (is_alike or turned == "yes")
        assert of.is_of(*UPRIGHT) == (is_alike or turned == "no")
        assert (of.other_way(*LYING) == []) == of.is_of(*LYING)
        assert (of.other_way(*UPRIGHT) == []) == of.is_of(*UPRIGHT)


def test_a_page_that_lies_the_other_way_is_told_with_the_command_that_measures_such() -> None:
    [of_lying] = printer(turned="no").other_way(*LYING)
    [of_upright] = printer(turned="yes").other_way(*UPRIGHT)
    assert "Measure `docgen ruler --turned` for them." in of_lying
    assert "Measure `docgen ruler` for them." in of_upright


def test_a_square_page_is_taken_as_one_that_is_not_turned() -> None:
    assert printer(turned="no").is_of(100, 100)
    assert not printer(turned="yes").is_of(100, 100)


def test_what_is_undone_is_what_the_file_says() -> None:
    assert printer().correction.scale == pytest.approx([1.01, 0.99])
    assert printer().correction.shift_mm == pytest.approx([1, -2])


@pytest.mark.parametrize("scale", ["101 %, 99 %", "99 %, 101 %", "100 %, 100 %"])
@pytest.mark.parametrize("shift", ["1 mm, -2 mm", "-2 mm, 1 mm", "0 mm, 0 mm"])
@pytest.mark.parametrize("axis", [0, 1])
def test_what_is_kept_clear_is_clear_on_the_paper_that_is_not_corrected_and_as_drawn(
    scale: str, shift: str, axis: int
) -> None:
    """What is within the answer of either end is, as drawn at (point − shift) / scale, nowhere nearer than asked."""
    of = printer(scale, shift)
    start, end, asked = 20.0, 80.0, 3.0
    clear = of.clear_mm(axis, start, end, asked)
    ends = [(point - of.shift[axis]) / of.scale[axis] for point in (start + clear, end - clear)]
    slack = [clear - asked, ends[0] - start - asked, end - ends[1] - asked]
    assert min(slack) == pytest.approx(0, abs=1e-9)
