"""What hangs free at which end, pinned lengths, and pieces as they are listed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from remedied import PARTS, Definition, built, definition, findings_in, heavy, keys, servo, shared, through_wing

from docgen.harness.assembly.cutting import lead_pieces, tail_pieces

WrittenFolder = Callable[[Mapping[str, str]], Path]
WIRES = {"negative": "pvc-22 BK", "positive": "pvc-22 RD", "signal": "pvc-24 WH"}
LEADS = {
    "straight-22": {"wires": WIRES},
    "cable": {"wires": WIRES, "bought": "cable", "diameter": "5 mm"},
}


def said(loads: Definition, circuits: Definition, **more: Any) -> Definition:
    made = definition(loads, circuits, **more)
    made["parts"] = {**PARTS, "leads": PARTS["leads"] | LEADS}
    return made


def at_root(name: str) -> Definition:
    return {name: {**servo("1 A"), "place": "root"}}


# A servo plug's strip of 2.5 mm and two reterminations of 10 mm (their number: FAA AC 43.13-1B 11-118) are 22.5 mm, a
# splice's strip 8 mm; 3 % slack, steps of 5 mm. Untwisted.
#   stem:   300 × 1.03 + 22.5 + 8 + 50 = 389.5 → 390 mm
#   branch: 0 + 8 + 22.5 + 40 = 70.5 → 75 mm
def test_the_loop_of_a_split_lies_on_the_stem_before_it(written_folder: WrittenFolder) -> None:
    y: Definition = {"from": "unit 1", "to": ["ail", "flap"], "lead": "straight-22", "loop": "40 mm"}
    y["split"] = {"place": "root", "loop": "50 mm"}
    leads = built(written_folder, said(at_root("ail") | at_root("flap"), {"y": y})).circuits["y"].cut_leads
    assert [lead.cut_length_mm for lead in leads] == [390, 75, 75]
    assert [lead.free_mm for lead in leads] == [(0, 50), (0, 40), (0, 40)]


@pytest.mark.parametrize("lead", ["straight-22", None])
def test_each_loop_hangs_at_its_end(lead: str | None, written_folder: WrittenFolder) -> None:
    circuit = {"from": "unit 1", "to": "ail", "loop": "40 mm", "loop_from": "30 mm"} | ({"lead": lead} if lead else {})
    [built_lead] = built(written_folder, said(at_root("ail"), {"ail": circuit})).circuits["ail"].leads
    assert built_lead.free_mm == (30, 40)


# 300 × 1.03 + 2 × 22.5 = 354 mm; cut to 355 mm unless it is pinned.
@pytest.mark.parametrize(("pinned_mm", "found"), [(353, {"short"}), (354, set()), (500, set())])
def test_what_is_pinned_need_be_no_multiple_of_the_step(
    pinned_mm: int, found: set[str], written_folder: WrittenFolder
) -> None:
    circuit = {"from": "unit 1", "to": "ail", "lead": "straight-22", "lengths": {"A": f"{pinned_mm} mm"}}
    every = findings_in(written_folder, said(at_root("ail"), {"ail": circuit}))
    assert {finding.name for finding in every if finding.subject == ("circuits", "ail")} & {"short"} == found


def test_a_lead_bought_as_a_cable_is_one_piece_under_its_heaviest_wire(written_folder: WrittenFolder) -> None:
    circuit = {"from": "unit 1", "to": "ail", "lead": "cable"}
    harness = built(written_folder, said(at_root("ail"), {"ail": circuit}))
    [piece] = [piece for piece in lead_pieces(harness) if piece.part == "cable"]
    assert (piece.colour, piece.gauge.text, piece.length_mm) == ("BK+RD+WH", "22 AWG", 355)


def test_tails_are_listed_with_the_half_that_they_are_behind(written_folder: WrittenFolder) -> None:
    # Behind the fixed half the pair's 18 AWG, behind the loose one the servo's 22 AWG; each 40 + 8 + 4 + 2 × 10 = 72
    # → 75 mm.
    leads = {"A": "lone-24", "B": "servo-22"}
    harness = built(
        written_folder,
        said(
            {"ail": servo("1 A")},
            heavy("power-18") | {"ail": through_wing("unit 1", "ail", leads)},
            commons=shared("ail"),
        ),
    )
    tails = list(tail_pieces(harness))
    listed = {(piece.half.name, piece.contact, piece.gauge.text) for piece in tails}
    halves = ("fixed", "18 AWG"), ("loose", "22 AWG")
    assert listed == {(half, contact, gauge) for half, gauge in halves for contact in "1234"}
    assert {piece.length_mm for piece in tails} == {75}


@pytest.mark.parametrize(("every", "clip_mm"), [("150 mm", 150), ("700 mm", 609.6)])
def test_clips_are_no_more_than_24_inches_apart(every: str, clip_mm: float, written_folder: WrittenFolder) -> None:
    # FAA AC 43.13-1B 11-96a.
    made = said(at_root("ail"), {"ail": {"from": "unit 1", "to": "ail", "lead": "straight-22"}})
    made["harness"]["clips"] = {"every": every}
    assert built(written_folder, made).clip_every_mm == pytest.approx(clip_mm)


# Spools that are sold hold 5 m at most; on the shelf lies one of 25 m.
@pytest.mark.parametrize(
    ("colour", "run_mm", "found"), [("WH", 8000, False), ("WH", 30000, True), ("RD", 8000, True), (None, 8000, True)]
)
def test_a_piece_may_be_as_long_as_the_longest_spool_of_its_wire_on_the_shelf(
    colour: str | None, run_mm: int, found: bool, written_folder: WrittenFolder
) -> None:
    made = said(at_root("ail"), {"ail": {"from": "unit 1", "to": "ail", "lead": "lone"}}, run_mm=(run_mm, 100))
    wire = {"gauge": "24 AWG", "diameter": "1.4 mm", "resistance": "83 ohm/km", "limit": "80 °C", "sold": ["5 m"]}
    made["parts"]["wires"] = {"long-24": wire}
    made["parts"]["leads"] |= {"lone": {"wires": {"signal": "long-24 WH"}}}
    spools = [{"wire": "long-24", "colour": colour or "WH", "length": "25 m" if colour else "5 m"}]
    made["stores"] = {"spools": spools}
    assert (("spool", ("circuits", "ail")) in keys(findings_in(written_folder, made))) == found


@pytest.mark.parametrize(("shelf_mm", "found"), [(400, False), (300, True)])
def test_a_cable_comes_off_its_own_spool_whatever_its_colours(
    shelf_mm: int, found: bool, written_folder: WrittenFolder
) -> None:
    # It is cut 355 mm.
    made = said(at_root("ail"), {"ail": {"from": "unit 1", "to": "ail", "lead": "cable"}})
    made["stores"] = {"spools": [{"lead": "cable", "length": f"{shelf_mm} mm"}]}
    assert (("spool", ("circuits", "ail")) in keys(findings_in(written_folder, made))) == found
