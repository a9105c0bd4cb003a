"""The order of work as printed: the matrix of each assembly, what is done to all its leads, and a ring to dress."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from measured import Box, PrintedPage, PrintedText, printed_pages

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

TICK_MM, RULE_MM = 4.0, 80.0
_LARGE_MM = 2.15  # texts of 2.5 mm are above, small ones below


@dataclass
class Cell:
    """What stands in a row under one step: the large text, small ones over and under it, and whether a box is there."""

    over: str = ""
    text: str = ""
    under: str = ""
    ticked: bool = False


@dataclass
class Line:
    """One row of a matrix: the bold text at its left, the small one under it, and its cells by step."""

    title: str
    name: str
    cells: dict[int, Cell]


@dataclass
class Step:
    """What is done to all leads: number, verb and what it says, and whether a box is beside it."""

    number: int
    verb: str
    says: str
    ticked: bool


@dataclass
class Sheet:
    """What the sheets say of one assembly; `heads` are over the columns, by step."""

    assembly: str
    heads: dict[int, str] = field(default_factory=dict)
    lines: list[Line] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)


def sheets_on(pages: Sequence[PrintedPage]) -> dict[str, Sheet]:
    """Return what is said of each assembly, in the order printed."""
    found: dict[str, Sheet] = {}
    sheet = Sheet("")
    for page in pages:
        ends = [box.top for box in page.outlines if _wide(box) and box.bottom - box.top > 5]
        for top, bottom, texts in _parts(page):
            if match := re.fullmatch(r"(.+), all leads(, continued)?", texts[0].text):
                assert match[1] == sheet.assembly or match[1] not in found
                sheet = found.setdefault(match[1], Sheet(match[1]))
                end = min([bottom, *(end for end in ends if end > top)])
                sheet.steps += _steps(page, top, [text for text in texts if text.box.top < end])
            elif any(re.match(r"1 cut", text.text) for text in texts):
                name = texts[0].text.removesuffix(", continued")
                sheet = found.setdefault(name, Sheet(name))
                _read_matrix(sheet, page, top, min([bottom, *(end for end in ends if end > top + 10)]), texts[1:])
    return found


def _parts(page: PrintedPage) -> Iterator[tuple[float, float, list[PrintedText]]]:
    """Walk what stands below each band and each heading in large type that is no row: its top, end and texts."""
    texts = sorted((text for text in page.texts if text.capital_mm > 1.7), key=lambda text: text.base_mm)
    bands = [box for box in page.outlines if _wide(box) and 5.5 < box.bottom - box.top < 6.5]
    heads = [text for text in texts if any(band.grown(0.1).holds(text.box) for band in bands)]
    heads += [text for text in texts if re.search(r", all leads(, continued)?$|^(Last|First): ", text.text)]
    heads.sort(key=lambda text: text.base_mm)
    for head, end in zip(heads, [*(text.box.top for text in heads[1:]), page.height_mm], strict=True):
        within = [text for text in texts if head.base_mm <= text.base_mm and text.box.top < end and text is not head]
        yield head.box.top, end, [head, *within]


def _rules(page: PrintedPage, top: float, bottom: float) -> list[float]:
    """Return where hair lines begin rows."""
    rules = {
        round(box.top, 1) for box in page.outlines if box.right - box.left > RULE_MM and box.bottom - box.top < 0.5
    }
    return sorted(y for y in rules if top < y < bottom)


def _read_matrix(sheet: Sheet, page: PrintedPage, top: float, bottom: float, texts: Sequence[PrintedText]) -> None:
    tops = _rules(page, top, bottom)
    over = [text for text in texts if text.base_mm < tops[0]]
    lefts = {int(text.text.split()[0]): text.box.left for text in over if text.bold}
    assert list(lefts) == sorted(lefts, key=lambda step: lefts[step]) == sorted(lefts)
    sheet.heads = {step: " ".join(_in(over, left, lefts)) for step, left in lefts.items()}
    for y, end in zip(tops, [*tops[1:], bottom], strict=True):
        within = [text for text in texts if y < text.base_mm < end]
        first = [text for text in within if text.box.left < min(lefts.values()) - 0.5]
        cells = {}
        for step, left in lefts.items():
            cell = _cell([text for text in within if _column(text.box.left, lefts) == left])
            boxes = [box for box in _ticks(page) if y < box.top < end and _column(box.left, lefts) == left]
            assert len(boxes) < 2, first
            cells[step] = Cell(*cell, bool(boxes))
        title, name = ([text.text for text in first if text.bold == bold] for bold in (True, False))
        sheet.lines.append(Line(" ".join(title), " ".join(name), cells))


def _in(texts: Sequence[PrintedText], left: float, lefts: Mapping[int, float]) -> list[str]:
    return [text.text for text in texts if _column(text.box.left, lefts) == left]


def _column(left: float, lefts: Mapping[int, float]) -> float | None:
    return max((edge for edge in lefts.values() if edge <= left + 0.8), default=None)


def _cell(texts: Sequence[PrintedText]) -> tuple[str, str, str]:
    large = [i for i, text in enumerate(texts) if text.capital_mm > _LARGE_MM]
    first, end = (large[0], large[-1] + 1) if large else (len(texts), len(texts))
    over, text, under = (
        " ".join(each.text for each in part) for part in (texts[:first], texts[first:end], texts[end:])
    )
    return over, text, under


def _ticks(page: PrintedPage) -> list[Box]:
    return [
        box
        for box in page.outlines
        if all(abs(side - TICK_MM) < 0.6 for side in (box.right - box.left, box.bottom - box.top))
    ]


def _wide(box: Box) -> bool:
    return box.right - box.left > 2 * RULE_MM


def _steps(page: PrintedPage, top: float, texts: Sequence[PrintedText]) -> Iterator[Step]:
    """Walk the steps of two columns, the left one first."""
    middle = page.width_mm / 2
    for side in (False, True):
        column = [text for text in texts[1:] if (text.box.left > middle) == side and text.base_mm > top + 3]
        starts = [text for text in column if re.match(r"\d+ ", text.text) and text.bold]
        ends = [*(text.box.top - 0.3 for text in starts[1:]), page.height_mm]
        for start, end in zip(starts, ends, strict=True):
            own = [text for text in column if start.base_mm <= text.base_mm < end]
            number, verb = " ".join(text.text for text in own if text.bold).split(" ", 1)
            says = " ".join(text.text for text in own if not text.bold)
            low = own[-1].base_mm
            boxes = [b for b in _ticks(page) if (b.left > middle) == side and start.box.top < b.bottom and b.top < low]
            yield Step(int(number), verb, says, len(boxes) == 1)


def printed_sheet(harness: Harness, folder: Path, paper: str = "a4") -> list[PrintedPage]:
    file = folder / "order-of-work.pdf"
    choice = Choice(stems=("order-of-work",), paper=paper)
    file.write_bytes(make_paperwork(harness, choice).files["order-of-work.pdf"])
    return printed_pages(file)


def ring(ways: Mapping[str, tuple[str, ...]]) -> Mapping[str, str]:
    """Write an airframe whose runs go round, all of them sharp, with leads by the ways named."""
    places = ("tray", "far", "near")
    box = {"kind": "other", "ports": [{"plug": "servo-3", "names": "1..9", "contacts": "pins"}]}
    equipment: dict[str, object] = {f"box-{place}": box | {"place": place} for place in places}
    circuits = {}
    for number, (name, way) in enumerate(ways.items(), 1):
        equipment[name] = {"kind": "other", "place": way[-1], "lead": "100 mm", "plug": "servo-3"}
        circuits[name] = {"from": f"box-{way[0]} {number}", "to": name, "by": list(way[1:-1]), "lead": "lone-26"}
    runs = [("tray", "far", 510), ("far", "near", 420), ("near", "tray", 110)]
    aircraft = {"name": "Ring", "description": "round", "marks": "R-1", "revision": "A", "date": "2026-01-01"}
    return {
        "aircraft.yaml": json.dumps(
            {
                "aircraft": aircraft,
                "places": {place: {"assembly": "hull", "access": "hatch"} for place in places},
                "runs": [{"between": [a, b], "length": f"{mm} mm", "edges": "sharp"} for a, b, mm in runs],
            }
        ),
        "harness.yaml": json.dumps({"equipment": equipment, "circuits": circuits}),
    }
