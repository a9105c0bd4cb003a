"""The ruler page: crosses and rulers near all edges, by which a builder finds out what a printer does to a page."""

from __future__ import annotations

from docgen.basics.findings import Refused
from docgen.basics.units import OFFSET_MM, decimal, millimetres, parse_quantity
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.draw import draw_pdf
from docgen.paperwork.typesetting.ink import MIDDLE_MM, THIN_MM, Ink, Line, Page, Text
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, TITLE_MM, line_pitch_mm, wrapped

EDGE_MM = 15.0  # from each edge of the paper to its cross
_ARM_MM = 4.0
USUAL_PAPER = "a4"
_INDENT_MM = 5.0
_MOST_SCALE, _MOST_SHIFT_MM = 0.1, 20.0  # off by more than that, something else is wrong
_APART = 0.03  # so is it where scales differ by more


def ruler_file(paper: str, measured: str | None, *, turned: bool) -> bytes:
    """Return the ruler page as a PDF, or what was measured on it as a printer's file; raises Refused.

    A page that is wider than high goes through the printer `turned`, so what that does to it is measured apart.
    """
    width, height = sorted(read_page(f"list-{paper}").paper, reverse=turned)
    if measured is not None:
        return printer_text(measured, (width, height), turned=turned).encode()
    options = ("" if paper == USUAL_PAPER else f" --paper {paper}") + (" --turned" if turned else "")
    return draw_pdf([ruler_page((width, height), options)], "Ruler", paper)


def ruler_page(paper_mm: tuple[float, float], options: str) -> Page:
    """Return the page to print at 100 % and measure; `options` are those of the command that made it."""
    width, height = paper_mm
    page = Page(width, height)
    across = [EDGE_MM, width / 2, width - EDGE_MM]
    down = [EDGE_MM, height / 2, height - EDGE_MM]
    for x in across:
        for y in down:
            page.add(Line(x - _ARM_MM, y, x + _ARM_MM, y, MIDDLE_MM), Line(x, y - _ARM_MM, x, y + _ARM_MM, MIDDLE_MM))
    for y in (EDGE_MM + 8, height - EDGE_MM - 12):
        page.add(*_ruler(EDGE_MM, y, width - 2 * EDGE_MM, upright=False))
    for x in (EDGE_MM + 8, width - EDGE_MM - 12):
        page.add(*_ruler(x, EDGE_MM, height - 2 * EDGE_MM, upright=True))
    page.add(*_words(paper_mm, options))
    return page


def _ruler(x: float, y: float, length: float, *, upright: bool) -> list[Ink]:
    """Return a ruler in millimetres from its zero on."""

    def line(start: float, out: float, end: float) -> Line:
        if upright:
            return Line(x + out, y + start, x, y + end, THIN_MM)
        return Line(x + start, y + out, x + end, y, THIN_MM)

    ink: list[Ink] = [line(0, 0, length)]
    for i in range(int(length) + 1):
        tick = 3.0 if i % 10 == 0 else 2.0 if i % 5 == 0 else 1.2
        ink.append(line(i, tick, i))
        if i % 10 == 0 and 10 < i < length - 16:  # clear of the rulers that cross it
            at = (x + 3.6, y + i + 0.9) if upright else (x + i, y + 3.6 + 1.8)
            ink.append(Text(at[0], at[1], str(i), 1.8, align="left" if upright else "centre"))
    return ink


def _words(paper_mm: tuple[float, float], options: str) -> list[Ink]:
    width, height = paper_mm
    left, room = EDGE_MM + 22, width - 2 * (EDGE_MM + 22)
    y = EDGE_MM + 34
    ink: list[Ink] = [Text(left, y, "What does your printer do to a page?", TITLE_MM, bold=True)]
    y += 10
    for number, words in _steps(paper_mm, options):
        if number:
            ink.append(Text(left, y, number, PLAIN_MM))
        for line in wrapped(words, room - _INDENT_MM, PLAIN_MM):
            ink.append(Text(left + _INDENT_MM, y, line, PLAIN_MM))
            y += line_pitch_mm(PLAIN_MM)
        y += 1.5
    ink.append(Text(left, y + LARGE_MM, f"{millimetres(width)} × {millimetres(height)} mm", LARGE_MM))
    return ink


def _steps(paper_mm: tuple[float, float], options: str) -> tuple[tuple[str, str], ...]:
    """Return what the builder does, with the number of each step; commands have none."""
    near, far, low = decimal(EDGE_MM), *(millimetres(side - EDGE_MM) for side in paper_mm)
    from_left = "From the left edge of the paper measure to the middle cross at the left"
    from_top = "From the upper edge measure to the middle cross at the top"
    return (
        ("1", "Print this page at 100 %, without fitting it to the paper."),
        ("2", f"{from_left} ({near} mm if all is true) and to the one at the right ({far} mm)."),
        ("3", f"{from_top} ({near} mm) and to the one at the foot ({low} mm)."),
        ("4", "Give the four to the program, in this order:"),
        ("", f"docgen ruler{options} --measured {near},{far},{near},{low} --to printer.yaml"),
        ("5", "Print with that file, and measure a 50 mm bar:"),
        ("", "docgen print DIR --printer printer.yaml"),
        (
            "6",
            "A page that is higher than wide and one that is wider than high go through a printer in different ways: "
            "docgen ruler is for the one, docgen ruler --turned for the other.",
        ),
    )


def printer_text(measured: str, paper_mm: tuple[float, float], *, turned: bool) -> str:
    """Return what four measured distances say of the printer, as the file that `--printer` takes; raises Refused."""
    words = [word.strip() for word in measured.split(",")]
    if len(words) != 4:
        raise Refused("value", "these are not four lengths.", "Write them like `15.2,195.4,14.8,282.3`, in mm.")
    left, right, top, bottom = (
        parse_quantity(word if word[-1:].isalpha() else f"{word} mm", OFFSET_MM) for word in words
    )
    scales: list[float] = []
    shifts: list[str] = []
    for near, far, size in ((left, right, paper_mm[0]), (top, bottom, paper_mm[1])):
        scale = (far - near) / (size - 2 * EDGE_MM)
        shift = near - scale * EDGE_MM
        if abs(scale - 1) > _MOST_SCALE or abs(shift) > _MOST_SHIFT_MM:
            sentence = f"a scale of {100 * scale:.1f} % and a shift of {shift:.1f} mm are too much."
            raise Refused("value", sentence, "Print the page at 100 % and measure again, from the paper's edges.")
        scales.append(scale)
        shifts.append(f"{round(shift, 4) + 0:.4f} mm")  # never -0
    if abs(scales[0] - scales[1]) > _APART:
        sentence = f"{100 * scales[0]:.1f} % across and {100 * scales[1]:.1f} % down are too far apart for one printer."
        raise Refused("value", sentence, "Say which paper it is (`--paper`, `--turned`), or measure again.")
    return (
        "# What a printer does to a page: what it makes of 100 %, across and down, and how far it shifts it, right\n"
        "# and down. Made by `docgen ruler`; give it to `docgen print` as --printer.\n"
        f"kind: printer\nscale: [{', '.join(f'{100 * scale:.4f} %' for scale in scales)}]\n"
        f"shift: [{', '.join(shifts)}]\n{'turned: yes' if turned else 'turned: no'}\n"
    )
