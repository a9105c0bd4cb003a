"""The layouts' figures: paper by its standard, tube by the data sheet, and what is chosen."""

from __future__ import annotations

import math
import re
from typing import Any

import pytest
from measured import mm, read
from reference.heat_shrink import THIN_WALL_MM
from reference.label_stocks import (
    PAGES,
    SELF_ADHESIVE_C,
    SHEETS,
    TAPE_CLEAR_MM,
    TAPE_LENGTHS_MM,
    TAPE_SHRINKS,
    TAPES_MM,
    Sheet,
)
from reference.paper_sizes import ISO_216_MM, US_LETTER_MM

from docgen.basics.shipped import shipped_folder

LAYOUTS = shipped_folder("layouts")
PAPERS_MM: dict[str, tuple[float, ...]] = {**ISO_216_MM, "US Letter": US_LETTER_MM}
FORMS = {path.stem: read(path) for path in sorted(LAYOUTS.glob("*.yaml"))}
SIZES = {"sheet": ("length", "width"), "strips": ("length",), "carrier": ("length",)} | {
    "wraps": ("length", "printed", "cover"),
    "flags": ("length", "width", "wrap"),
}


def sizes(said: list[str]) -> tuple[float, ...]:
    return tuple(round(mm(side), 3) for side in said)


def kind_of(name: str) -> str:
    """Return its kind by its name: carriers named after a tube hold pieces of it."""
    kind = name.partition("-")[0]
    return "sheet" if re.fullmatch(r"carrier-[\d.]+", name) else kind


def as_kept(name: str, form: dict[str, Any]) -> Sheet:
    """Return what a layout says in the form in which its figures are kept beside it."""
    paper, cells, clear = sizes(form["paper"]), form["cells"], form["clear"]
    [known] = [known for known, size in PAPERS_MM.items() if sorted(size) == sorted(paper)]
    assert form["label"].keys() == set(SIZES[kind_of(name)])
    return Sheet(
        paper=known,
        lying=paper[0] > paper[1],
        cells=(cells["across"], cells["down"]),
        first=(mm(cells["first"][0]), mm(cells["first"][1])),
        pitch=(mm(cells["pitch"][0]), mm(cells["pitch"][1])),
        label=tuple(mm(form["label"][key]) for key in SIZES[kind_of(name)]),
        clear=(mm(clear["ends"]), mm(clear["edges"])),
        margin=mm(form["margin"]),
    )


def test_every_layout_has_its_figures_here() -> None:
    assert FORMS.keys() == {*SHEETS, *PAGES, *(f"tape-{width}" for width in TAPES_MM)}


@pytest.mark.parametrize("name", SHEETS)
def test_sheets_of_labels_are_as_chosen(name: str) -> None:
    assert as_kept(name, FORMS[name]) == SHEETS[name]
    assert FORMS[name]["kind"] == f"label {kind_of(name)}"


@pytest.mark.parametrize("name", PAGES)
def test_pages_are_on_paper_of_the_standard(name: str) -> None:
    paper, margin = PAGES[name]
    assert sizes(FORMS[name]["paper"]) == PAPERS_MM[paper]
    assert (FORMS[name]["kind"], mm(FORMS[name]["margin"])) == ("page", margin)


@pytest.mark.parametrize("width", TAPES_MM)
def test_tapes_are_as_chosen(width: int) -> None:
    form = FORMS[f"tape-{width}"]
    assert (form["kind"], mm(form["width"])) == ("label tape", width)
    # As written: YAML by itself reads minutes and seconds there.
    assert f"\nshrinks: {TAPE_SHRINKS}\n" in (LAYOUTS / f"tape-{width}.yaml").read_text("utf-8")
    assert (sizes(form["length"]), sizes(list(form["clear"].values()))) == (TAPE_LENGTHS_MM, TAPE_CLEAR_MM)
    assert list(form["clear"]) == ["ends", "edges"]


@pytest.mark.parametrize("name", [name for name in SHEETS if re.fullmatch(r"carrier-[\d.]+", name)])
def test_a_carrier_of_one_tube_holds_a_tube_of_the_data_sheet_pressed_flat(name: str) -> None:
    # 2:1, half of 9.5 and of 12.7 rounded by the data sheet to a tenth; flat it is π D / 2, said to a tenth.
    expanded, recovered = (mm(FORMS[name]["tube"][key]) for key in ("expanded", "recovered"))
    assert expanded == float(name.removeprefix("carrier-"))
    assert recovered == expanded / 2 == pytest.approx(THIN_WALL_MM[expanded][0], abs=0.051)
    assert mm(FORMS[name]["label"]["width"]) == pytest.approx(math.pi * expanded / 2, abs=0.1)


@pytest.mark.parametrize("name", [name for name in FORMS if "shrinks_at" in str(FORMS[name])])
def test_tubes_shrink_well_below_what_they_stand_and_in_no_car_in_the_sun(name: str) -> None:
    # Cross-linked polyolefin begins at about 90 °C and stands 135 °C (SAE AMS-DTL-23053/5, from memory).
    form = FORMS[name].get("tube", FORMS[name])
    assert (form["shrinks_at"], form["limit"]) == ("90 °C", "135 °C")


@pytest.mark.parametrize("name", SHEETS)
def test_cells_stand_in_the_middle_of_their_sheet_and_on_it(name: str) -> None:
    sheet = SHEETS[name]
    width, height = PAPERS_MM[sheet.paper][:: -1 if sheet.lying else 1]
    length = 2 * sheet.label[0] + sheet.label[-1] if kind_of(name) == "flags" else sheet.label[0]
    high = {"wraps": sum(sheet.label[1:]), "strips": sheet.pitch[1], "carrier": sheet.pitch[1]}
    down = high.get(kind_of(name)) or sheet.label[1]
    right = width - (sheet.first[0] + (sheet.cells[0] - 1) * sheet.pitch[0] + length)
    bottom = height - (sheet.first[1] + (sheet.cells[1] - 1) * sheet.pitch[1] + down)
    assert right == pytest.approx(sheet.first[0], abs=0.5)
    assert bottom >= sheet.margin
    assert all(pitch >= size for pitch, size in zip(sheet.pitch, (length, down), strict=True))


# What a stock says besides its paper: what prints on it, what it stands, and where there is a tube, that.
SAID = {
    "strips": ("any", SELF_ADHESIVE_C),
    "wraps": ("sheet", SELF_ADHESIVE_C),
    "flags": ("sheet", SELF_ADHESIVE_C),
    "tape": ("tape", "135 °C"),
    "carrier": ("thermal transfer", None),  # as the tube that is taped over it
    "sheet": ("thermal transfer", "135 °C"),
}


@pytest.mark.parametrize("name", [name for name in FORMS if name not in PAGES])
def test_each_kind_is_for_its_printer_and_stands_what_is_known_of_it(name: str) -> None:
    form = FORMS[name]
    assert (form["printer"], form.get("tube", form).get("limit")) == SAID[kind_of(name)]
