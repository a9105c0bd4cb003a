"""Tubes over ends of sleeves, splices and soldered contacts: of those that fit one that stands the heat, else found."""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_steps import printed_sheet, sheets_on
from remedied import BEST, built, definition, findings_in, heavy, servo, shared, through_wing
from wren_changed import SOLDERED

from docgen.basics.findings import Position
from docgen.harness.assembly.bill_of_materials import BillOfMaterials, bill_of_materials
from docgen.pipeline import Checked, check

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes, Replacements

TAIL_RUN = "[radio-tray, tail-post],   length: 1140 mm, edges: sharp"
TWO_RUDDERS: Replacements = [
    ("    to: rudder\n", "    to: [rudder, tab]\n    split: {place: radio-tray, loop: 20 mm}\n"),
    ("  rudder:\n    kind", "  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n  rudder:\n    kind"),
]


def tube(wide_mm: float) -> str:
    sizes = f"expanded: {wide_mm} mm, recovered: {wide_mm / 2} mm, wall: 0.5 mm"
    return f"tubes:\n  hot: {{{sizes}, colour: BK, limit: 175 °C}}\n"


def hot(places: Mapping[str, str], parts: str, harness: Replacements | None = None) -> Changes:
    return {"aircraft.yaml": list(places.items()), "harness.yaml": harness or [], "parts.yaml": parts}


TRAY, ROOT = "up: 10 mm}, access: canopy", "at: {aft: 600 mm, <side>: 80 mm, up: 90 mm}, access"

# Tubes of the built-in list stand 135 °C. The rudder's lead is 3.45 mm thick, 4.45 mm in its sleeve: 4.9 mm are passed,
# 4 mm gripped. Two leads of 1.6 mm lie side by side at a splice, 3.2 mm: 3.52 and 2.88 mm. A cup is passed by 2.42 mm,
# a wire of 1.6 mm gripped by 1.44 mm.
CASES = {
    "a collar": (
        {TAIL_RUN: f"{TAIL_RUN}, heat: 150 °C"},
        [],
        "",
        6.0,
        "collars",
        "collars of `heat-9` between `radio-tray` and `tail-post` lie in 150 °C; ",
        "150 °C}",
    ),
    "a splice's": (
        {TRAY: f"{TRAY}, heat: 150 °C"},
        TWO_RUDDERS,
        "",
        5.0,
        "splice_tubes",
        "splices of `rudder` lie in 150 °C at `radio-tray`; ",
        "{place: radio-tray, loop: 20 mm}",
    ),
    "a soldered contact's": (
        {ROOT: ROOT.replace(", access", ", heat: 150 °C, access")},
        [],
        SOLDERED,
        2.8,
        "contact_tubes",
        "soldered contacts of segment A of `left-aileron` lie in 150 °C at `left-root`; ",
        "servo-22",
    ),
}


def bill(checked: Checked) -> BillOfMaterials:
    assert checked.harness is not None, checked.findings
    return bill_of_materials(checked.harness)


@pytest.mark.parametrize(("places", "harness", "parts", "wide_mm", "kind", "says", "at"), CASES.values(), ids=CASES)
def test_what_is_shrunk_there_stands_the_heat_or_is_found(
    places: Mapping[str, str],
    harness: Replacements,
    parts: str,
    wide_mm: float,
    kind: str,
    says: str,
    at: str,
    aircraft_folder: AircraftFolder,
) -> None:
    def found(checked: Checked) -> dict[str, Position]:
        begins = says.split("150", maxsplit=1)[0]
        heat = (one for one in checked.findings if one.name == "heat" and one.sentence.startswith(begins))
        return {one.sentence: one.position for one in heat}

    weak = check(aircraft_folder(hot(places, parts, harness)))
    ((sentence, position),) = found(weak).items()
    assert sentence.startswith(says)
    assert sentence.endswith("stands 135 °C, and no tube that fits stands more.")
    line = Path(position.file).read_text("utf-8").split("\n")[position.line - 1]
    assert line[position.column - 1 :].rstrip("\n").startswith(at)
    assert "hot" not in getattr(bill(weak), kind)
    strong = check(aircraft_folder(hot(places, parts + tube(wide_mm), harness)))
    assert found(strong) == {}
    assert "hot" in getattr(bill(strong), kind)
    mild = check(aircraft_folder(hot({old: new.replace("150", "135") for old, new in places.items()}, parts, harness)))
    assert found(mild) == {}


def test_tubes_behind_a_hot_half_stand_it_too_or_are_found(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    circuits = heavy("power-16") | {"ail": through_wing("unit 1", "ail", BEST)}
    said = copy.deepcopy(definition({"ail": servo("2 A")}, circuits, shared("ail"), shell="weak"))
    said["aircraft"]["places"]["root"]["heat"] = "150 °C"
    said["parts"]["shells"]["weak"]["contact"] |= {"join": "solder", "takes": ["26 AWG", "16 AWG"], "over": "2.8 mm"}

    def found() -> set[str]:
        every = findings_in(written_folder, said)
        heat = (one.sentence.partition(";") for one in every if one.name == "heat")
        return {what for what, _, stands in heat if "no tube that fits" in stands}

    of = ("splices of the common `{}`", "soldered contacts of the common `{}`")
    weak = {f"{what.format(name)} lie in 150 °C at `root`" for what in of for name in "pn"}
    assert found() == weak | {"soldered contacts of segment A of `ail` lie in 150 °C at `root`"}
    hot = {"expanded": "9 mm", "recovered": "1.2 mm", "wall": "0.5 mm", "colour": "BK", "limit": "175 °C"}
    said["parts"]["tubes"] = {"hot": hot}
    assert found() == set()
    lines = sheets_on(printed_sheet(built(written_folder, said), tmp_path))["fuselage"].lines
    soldered = [cell for line in lines for cell in line.cells.values() if " · solder" in cell.text]
    # The tails of both poles, and the signal's lead.
    assert [cell.under for cell in soldered] == ["1 × hot on first", "2 × hot on first", "2 × hot on first"]
