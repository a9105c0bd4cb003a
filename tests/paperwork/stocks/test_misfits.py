"""What does not go together in a stock, both sides of each bound, and what is said of stocks and of their labels."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Refused
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.forms import Printer
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS, list_stocks, read_stock, stock_names
from docgen.paperwork.stocks.stock import LabelStock, compose
from docgen.paperwork.stocks.tape import Tape
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from pathlib import Path

BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "0123abcd")


def stock(name: str, **changes: Any) -> LabelStock:
    return read_shipped(name, KINDS).model_copy(update=changes)


def with_part(name: str, part: str, **changes: Any) -> LabelStock:
    """Return a stock of which a part, such as its cells, is otherwise."""
    of = read_shipped(name, KINDS)
    return of.model_copy(update={part: getattr(of, part).model_copy(update=changes)})


def told(of: LabelStock) -> list[tuple[str, str]]:
    """Return what does not go together, and where in the file: the last key."""
    return [(one.sentence, ".".join(map(str, one.path))) for one in of.misfits()]


FLAT = math.pi * 4.8 / 2


@pytest.mark.parametrize(
    ("of", "found"),
    [
        # wraps-a4: three labels of 50 mm at 58 mm from 22 mm across 210 mm, five of 40 mm at 43 mm from 24 mm down.
        (with_part("wraps-a4", "cells", pitch=[50.0, 43.0]), []),
        (
            with_part("wraps-a4", "cells", pitch=[49.9, 43.0]),
            [("labels of 50 mm run into each other at a pitch of 49.9 mm across.", "cells.pitch.0")],
        ),
        (
            with_part("wraps-a4", "cells", pitch=[58.0, 39.9]),
            [("labels of 40 mm run into each other at a pitch of 39.9 mm down.", "cells.pitch.1")],
        ),
        (with_part("wraps-a4", "cells", across=1, pitch=[10.0, 43.0]), []),
        (with_part("wraps-a4", "cells", first=[44.0, 24.0]), []),
        (
            with_part("wraps-a4", "cells", first=[44.2, 24.0]),
            [("labels run 0.2 mm over the paper's edge across.", "cells.across")],
        ),
        (with_part("wraps-a4", "cells", first=[22.0, 85.0]), []),
        (
            with_part("wraps-a4", "cells", first=[22.0, 86.0]),
            [("labels run 1.0 mm over the paper's edge down.", "cells.down")],
        ),
        (with_part("wraps-a4", "clear", ends=24.9), []),
        (with_part("wraps-a4", "clear", ends=25.0), [("nothing of a label is left to print on.", "clear")]),
        (with_part("wraps-a4", "clear", edges=5.9), []),
        (with_part("wraps-a4", "clear", edges=6.0), [("nothing of a label is left to print on.", "clear")]),
        # Pressed flat a tube of 4.8 mm is 7.54 mm wide.
        (with_part("carrier-4.8", "label", width=FLAT), []),
        (
            with_part("carrier-4.8", "label", width=7.5),
            [("a tube of 4.8 mm, 7.5 mm flat is wider than its label of 7.5 mm.", "tube.expanded")],
        ),
        (with_part("carrier-4.8", "tube", recovered=4.7), []),
        (
            with_part("carrier-4.8", "tube", recovered=4.8),
            [("a tube of 4.8 mm that recovers to 4.8 mm does not shrink.", "tube.recovered")],
        ),
        (stock("tape-9", flat=9.0), []),
        (stock("tape-9", flat=9.1), [("a flat tube of 9.1 mm is wider than its tape of 9 mm.", "flat")]),
        (stock("tape-9", length=[80.0, 80.0]), []),
        (stock("tape-9", length=[81.0, 80.0]), [("the least length is over the most.", "length")]),
        (with_part("strips-a4", "label", length=32.0), []),
        (
            with_part("strips-a4", "label", length=32.5),
            [("a strip of 32.5 mm stiffens the wires; 32 mm are the most.", "label.length")],
        ),
    ],
)
def test_sizes_go_together_up_to_their_bounds(of: LabelStock, found: list[tuple[str, str]]) -> None:
    assert told(of) == found


@pytest.mark.parametrize(
    ("name", "changes", "says"),
    [
        ("wraps-a4", {"limit": 200.0}, None),
        ("wraps-a4", {"limit": 199.0}, "it stands 199 °C"),
        ("wraps-a4", {"limit": None}, "nothing says what it stands"),
        ("wraps-a4", {"limit": None, "printer": "thermal transfer"}, None),
        ("wraps-a4", {"limit": None, "printer": "any"}, "nothing says what it stands"),
        ("wraps-a4", {"limit": None, "printer": "hand"}, None),
        ("tape-9", {"printer": "any"}, "it stands 90 °C"),
        ("tape-9", {"printer": "any", "limit": 80.0}, "it stands 80 °C"),
        ("carrier-4.8", {"printer": "sheet"}, "it stands 90 °C"),
        ("carrier-a4", {"printer": "any"}, "nothing says what it stands"),
    ],
)
def test_what_a_fuser_would_burn_is_refused(name: str, changes: dict[str, Any], says: str | None) -> None:
    burns = stock(name, **changes).burns()
    if says is None:
        assert burns is None
        return
    assert burns is not None
    assert burns.sentence == f"a laser printer fuses print at about 200 °C, and {says}."
    tube = name != "wraps-a4"
    assert burns.do.startswith("Tube shrinks there: " if tube else "Say what its maker says")


def test_a_flat_width_is_taken_by_a_tape_up_to_its_own_and_by_nothing_else() -> None:
    tape = stock("tape-9")
    assert isinstance(tape, Tape)
    assert (tape.measured(9.0).flat_mm, tape.flat_mm, tape.measured(8.0).flat_mm) == (9.0, 9.0, 8.0)
    with pytest.raises(Refused, match="wider than its tape of 9 mm"):
        tape.measured(9.01)
    with pytest.raises(Refused, match="of a stock that is no tape"):
        stock("wraps-a4").measured(5.0)
    for name in ("tape-9", "wraps-a4"):
        read, found = read_stock(name, 9.01)
        assert (read, [one.name for one in found], found[0].position.file) == (None, ["stock"], name)
    read, found = read_stock("tape-9", 8.0)
    assert isinstance(read, Tape)
    assert (read.flat_mm, found) == (8.0, [])


def test_a_tape_that_is_corrected_has_so_much_more_clear() -> None:
    tape = stock("tape-9", flat=8.0)
    assert isinstance(tape, Tape)
    printer = Printer.model_construct(kind="printer", scale=[1.02, 1.0], shift=[0.0, 0.5], turned="no")
    corrected, notes = tape.corrected(printer)
    # Of 0.8 mm down 0.5 mm more are shifted away; of 2 mm along a label of 80 mm is 1.6 mm longer: 2 + 0.04 at its
    # beginning, at its end 80 - 78 × 1.02 = 0.44, so that the beginning counts.
    assert corrected.clear.edges == pytest.approx(1.3)
    assert corrected.clear.ends == pytest.approx(2.04)
    assert notes == [
        "corrected for one printer, which a tape has no room to say; so that nothing is cut, 1.3 mm at its edges and "
        "2.0 mm at its ends are clear."
    ]
    assert stock("wraps-a4").corrected(printer) == (stock("wraps-a4"), [])


def test_pages_of_tape_are_as_long_as_their_labels_and_say_on_the_terminal_what_belongs_beside_them() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "wren"))
    of = stock("tape-9")
    composed = compose(items, of)(BLOCK)
    assert {page.height_mm for page in composed.pages} == {9.0}
    assert all(30 <= page.width_mm <= 80 for page in composed.pages)
    assert len({page.width_mm for page in composed.pages}) > 1
    (note,) = composed.notes
    assert note.startswith("a label of tape has no room for what belongs beside it: For a tape printer")
    assert of.said(items) in note
    assert note.endswith("shrink before packs are aboard.")


def test_what_is_left_out_or_printed_otherwise_is_told_by_its_function_and_end() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "fulmar"))
    gyro = replace(items, labels=tuple(label for label in items.labels if label.text.function in ("GYRO", "LIGHTS")))
    ends = ["GYRO at receiver-a 6", "LIGHTS at receiver-b 3"]
    assert compose(gyro, stock("carrier-a4"))(BLOCK).notes == [
        f"left out, no tube of it passes their plugs, which are on already: {', '.join(ends)}."
    ]
    wrapped = ", ".join(f"{end} (wrap)" for end in ends)
    assert compose(gyro, stock("strips-a4"))(BLOCK).notes == [f"no tube does for these, printed as said: {wrapped}."]
    assert compose(replace(gyro, labels=()), stock("strips-a4"))(BLOCK).notes == []


def test_a_sheet_is_said_with_what_it_holds_and_a_tape_with_how_it_shrinks() -> None:
    says = {
        "wraps-a4": "wrap-round labels 50 mm along the wire, 12 printed and 28 clear; 3 × 5 on 210 × 297 mm",
        "flags-a4": "flags of two 35 × 12 mm, 18 mm round the wire; 2 × 15 on 210 × 297 mm",
        "carrier-4.8": "pieces of tube of 4.8 mm, 50 mm long; 3 × 20 on 210 × 297 mm",
        "strips-a4": "self-adhesive paper, not cut, for strips of 32 mm under clear tube, on 210 × 297 mm",
        "carrier-a4": "plain sheet that carries strips of tube, cut to labels of 63 mm, on 210 × 297 mm",
        "tape-9": "shrink tape 9 mm wide, 3:1, one label a page",
    }
    listed = list_stocks().split("\n")
    width = max(map(len, stock_names()))
    for name, said in says.items():
        assert stock(name).says == said
        assert f"  {name.ljust(width)}  {said}" in listed
    counts = {name: stock(name).count for name in says}
    assert counts == {
        "wraps-a4": 15,
        "flags-a4": 30,
        "carrier-4.8": 60,
        "strips-a4": 195,
        "carrier-a4": 117,
        "tape-9": 1,
    }
    assert listed[-3] == "by hand, or on a tape printer with keys: print label-list."
    assert all(line.startswith("      ") and len(line) <= 96 for line in listed[-2:])
    heads = [line for line in listed if not line.startswith(" ")]
    assert [head.rstrip(":") for head in heads[:-1]] == [
        *("any printer that takes sheets", "ink or laser printer", "thermal transfer printer", "tape printer")
    ]
    names = [line.split()[0] for line in listed if line.startswith("  ") and not line.startswith("   ")]
    assert sorted(names) == stock_names()


def test_labels_are_said_to_lie_as_their_stock_has_them() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "wren"))
    near = "near edge 25 mm behind it"
    assert stock("strips-a4").least_said(items) == f"Arrow towards the plug, {near}."
    assert stock("carrier-a4").least_said(items) == f"Arrow towards the plug, {near}; shrink last."
    said = stock("carrier-4.8").said(items)
    assert said == f"Slide on before crimping. Arrow towards the plug, {near}; shrink last."


def test_a_file_that_is_another_layout_or_none_is_no_stock(tmp_path: Path) -> None:
    page = tmp_path / "page.yaml"
    page.write_text("kind: page\npaper: [210 mm, 297 mm]\nmargin: 10 mm\n", "utf-8")
    read, (found,) = read_stock(page)
    assert (read, found.name, found.sentence) == (None, "value", "this layout is no stock for labels.")
    assert (found.position.file, found.position.line, found.do) == (str(page), 1, "Name a label stock.")
    missing, (gone,) = read_stock(tmp_path / "none.yaml")
    assert (missing, gone.name) == (None, "file")
