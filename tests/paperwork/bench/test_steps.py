"""What the steps of the order of work say, read from the printed sheet and held against a hand's working."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_steps import Step, printed_sheet, ring, steps_on
from printed_tables import PrintedDocument, document_of
from reference.workmanship import CRIMP_PULL_MILITARY_N, CRIMP_PULL_N
from resolved import EXAMPLES, harness_of

from docgen.basics.shipped import shipped_folder

if TYPE_CHECKING:
    from conftest import AircraftFolder


def test_only_the_wires_that_go_into_contacts_are_crimped_before_a_splice(tmp_path: Path) -> None:
    sheet = dict(steps_on(printed_sheet(harness_of(EXAMPLES / "fulmar"), tmp_path)))
    # As the builder wrote: its signal has contact 5, positive and negative join the shared 1+2 and 3+4.
    rows = [
        row
        for step in sheet["left-panel"]
        if step.verb == "Crimp and fill"
        for row in step.rows
        if row[0].startswith("AIL L OUT") and row[2].startswith("left-wing-b")
    ]
    assert [row[2] for row in rows] == ["left-wing-b 5: C6B22 only"]


@pytest.mark.parametrize(
    ("labels", "single", "of_leads"),
    [("each: lead", False, True), ("each: wire", True, False), ("each: both", True, True)],
)
def test_labels_of_single_wires_go_on_before_a_lead_is_twisted(
    labels: str, single: bool, of_leads: bool, tmp_path: Path
) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / "wren").glob("*.yaml")}
    texts["harness.yaml"] += f"\nlabels: {{{labels}}}\n"
    for name, text in texts.items():
        (tmp_path / name).write_text(text, "utf-8")
    steps = dict(steps_on(printed_sheet(harness_of(tmp_path), tmp_path)))["fuselage"]
    assert ("each wire's own labels" in steps[0].says) == single
    assert any(step.verb == "Last labels" for step in steps) == of_leads
    assert (len(steps[0].rows[0]) > 3) == of_leads


def test_the_first_page_sends_the_builder_to_whole_paths_at_the_last(tmp_path: Path) -> None:
    first = printed_sheet(harness_of(EXAMPLES / "wren"), tmp_path)[0]
    said = " ".join(text.text for text in first.texts)
    assert "Last: whole paths" in said
    assert said.index("pull samples") < said.index("each assembly by its own sheet") < said.index("whole paths")


# The sheet of the smallest example, by hand from its files and the parts list: leads of three wires of 22 AWG and of
# two of 20 AWG, each with a lay of 25 mm; servo plugs strip 2.5 mm, power plugs 3 mm, blocks 4 mm. The receiver carries
# pins, the pack sockets, so their leads carry the other; the fixed half of a joint carries sockets.


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Step]]:
    harness = harness_of(shipped_folder("examples") / "wren")
    return dict(steps_on(printed_sheet(harness, tmp_path_factory.mktemp("wren"))))


@pytest.fixture(scope="module")
def fulmar(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Step]]:
    harness = harness_of(shipped_folder("examples") / "fulmar")
    return dict(steps_on(printed_sheet(harness, tmp_path_factory.mktemp("fulmar"))))


@pytest.fixture(scope="module")
def first_sheet() -> PrintedDocument:
    return document_of(harness_of(shipped_folder("examples") / "wren"), "order-of-work")


def rows_in(steps: Sequence[Step], verb: str, number: int = 0) -> list[list[str]]:
    """Return the rows of the step of that verb, or of its second one."""
    return [step for step in steps if step.verb == verb][number].rows


def test_every_page_warns_of_heat_and_fumes(first_sheet: PrintedDocument) -> None:
    said = "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; "
    assert all(f"{said}shrink before packs are aboard." in page for page in first_sheet.said_on_pages)


def test_samples_must_hold_the_forces_of_the_table_in_its_columns(first_sheet: PrintedDocument) -> None:
    assert "It must hold the least force" in first_sheet.said
    rows = first_sheet.table("First: pull samples", "Samples")
    assert [(row["wire"], row["contact"]) for row in rows] == [
        ("pvc-20", "power-2 pins"),
        ("pvc-20", "power-2 sockets"),
        ("pvc-22", "block-6 pins"),
        ("pvc-22", "block-6 sockets"),
        ("pvc-22", "servo-3 pins"),
        ("pvc-22", "servo-3 sockets"),
    ]
    for row in rows:
        gauge = int(row["wire"][-2:])
        assert float(row["least, N"]) == CRIMP_PULL_N[gauge]
        assert float(row["military, N"]) == CRIMP_PULL_MILITARY_N[gauge]


def test_each_lead_is_cut_marked_and_labelled_at_the_tray_first(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Cut and label") == [
        ["RX BATT · supply A", "325", "P1A20N, P1A20", "pack"],
        ["AIL L · left-aileron A", "300", "C1A22N, C1A22, C2A22", "receiver 1"],
        ["AIL R · right-aileron A", "300", "C3A22N, C3A22, C4A22", "receiver 2"],
        ["RUD · rudder A", "1335", "C5A22N, C5A22, C6A22", "receiver 4"],
    ]
    assert rows_in(wren["right-panel"], "Cut and label") == [
        ["AIL R · right-aileron B", "1045", "C3B22N, C3B22, C4B22", "right-root 1–3"]
    ]


def test_each_lead_is_twisted_to_its_lay(wren: dict[str, list[Step]]) -> None:
    assert [row[1:] for row in rows_in(wren["fuselage"], "Twist")] == [["25", "2"], *[["25", "3"]] * 3]


def test_each_end_says_its_strip_and_its_contact(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Crimp and fill") == [
        ["RX BATT · supply A", "20 AWG, 3 mm", "pack", "power-2 pins"],
        ["AIL L · left-aileron A", "22 AWG, 2.5 mm", "receiver 1", "servo-3 sockets"],
        ["AIL R · right-aileron A", "22 AWG, 2.5 mm", "receiver 2", "servo-3 sockets"],
        ["RUD · rudder A", "22 AWG, 2.5 mm", "receiver 4", "servo-3 sockets"],
    ]
    assert rows_in(wren["fuselage"], "Crimp and fill", 1) == [
        ["RX BATT · supply A", "20 AWG, 3 mm", "receiver BATT", "power-2 sockets"],
        ["AIL L · left-aileron A", "22 AWG, 4 mm", "left-root 1–3", "block-6 sockets"],
        ["AIL R · right-aileron A", "22 AWG, 4 mm", "right-root 1–3", "block-6 sockets"],
        ["RUD · rudder A", "22 AWG, 2.5 mm", "rudder", "servo-3 pins"],
    ]
    assert rows_in(wren["left-panel"], "Crimp and fill") == [
        ["AIL L · left-aileron B", "22 AWG, 4 mm", "left-root 1–3", "block-6 pins"]
    ]


def test_a_contact_that_says_no_strip_takes_the_builders_own(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "allowances: {strip: 6 mm}\nequipment:\n"
    contact = "{rating: 10 A, brief: 15 A, resistance: 3 mohm, takes: [22 AWG, 16 AWG], over: 2.4 mm}"
    roles = "contacts: {1: negative, 2: positive}, equipment: sockets"
    plug = f"plugs:\n  power-2: {{{roles}, size: [7.6 mm, 5 mm], contact: {contact}}}\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)], "parts.yaml": plug})
    steps = dict(steps_on(printed_sheet(harness_of(folder), tmp_path)))["fuselage"]
    assert [row[1] for row in rows_in(steps, "Crimp and fill")] == ["20 AWG, 6 mm", *["22 AWG, 2.5 mm"] * 3]


def test_sleeves_slide_on_from_the_far_end_with_a_collar_that_passes_them(wren: dict[str, list[Step]]) -> None:
    # 3.45 mm of wires and 1 mm of braid, with a tenth to spare 4.9 mm: 6.4 mm is the least of the series that passes.
    assert rows_in(wren["fuselage"], "Slide on") == [
        ["braid-4 · braided sleeve", cut, f"radio-tray and {far}", f"on from {far}; collars shrink-6.4"]
        for cut, far in (("125", "left-root"), ("125", "right-root"), ("1100", "tail-post"))
    ]


def test_the_labels_of_the_far_ends_come_last(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Last labels") == [
        ["RX BATT · supply A", "receiver BATT"],
        ["AIL L · left-aileron A", "left-root 1–3"],
        ["AIL R · right-aileron A", "right-root 1–3"],
        ["RUD · rudder A", "rudder"],
    ]


def test_tails_are_crimped_with_the_contacts_of_their_own_half(fulmar: dict[str, list[Step]]) -> None:
    # As the builder wrote: the wing's fixed half carries sockets, the loose one pins; shells of blocks strip 4 mm.
    for assembly, half, gender in (("fuselage", "fixed", "sockets"), ("left-panel", "loose", "pins")):
        rows = [row for row in rows_in(fulmar[assembly], "Crimp and fill") if f"tails of left-wing-b, {half}" in row[0]]
        assert [(row[0].split(" · ")[0], row[2], row[3]) for row in rows] == [
            ("wing-positive", "left-wing-b 1, 2", f"block-14 {gender}"),
            ("wing-negative", "left-wing-b 3, 4", f"block-14 {gender}"),
        ]
        assert all(row[1].endswith(" AWG, 4 mm") for row in rows)
        cut = [row for row in rows_in(fulmar[assembly], "Cut and label") if f"tails of left-wing-b, {half}" in row[0]]
        # 40 mm + 8 mm + 4 mm + 2 x 10 mm = 72 mm, rounded up to 75 mm; one for each of two contacts.
        assert [row[1:] for row in cut] == [["75", "2 pieces, unmarked"]] * 2


def test_a_splice_names_all_that_it_joins(fulmar: dict[str, list[Step]]) -> None:
    (step,) = (step for step in fulmar["left-panel"] if step.verb == "Splice")
    assert "Strip 8 mm, slide a tube on first" in step.says
    joined = "left-outer-aileron B, left-flap B, left-beacon A, tails"
    assert [row[1:] for row in step.rows] == [["positive", joined], ["negative", joined]]


def test_labels_and_clips_stand_where_the_builder_wants_them(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "labels: {behind_plug: 40 mm}\nclips: {every: 90 mm}\nequipment:\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)]})
    steps = dict(steps_on(printed_sheet(harness_of(folder), tmp_path)))["fuselage"]
    said = {step.verb: step.says for step in steps}
    assert said["Shrink"] == "Labels 40 mm behind their plugs, and collars."
    assert said["Fit and clip"].startswith("A clip every 90 mm, within 50 mm of a fixed half")


def test_where_nothing_comes_apart_there_are_no_whole_paths(
    written_folder: Callable[[Mapping[str, str]], Path],
) -> None:
    harness = harness_of(written_folder(ring({"one": ("tray", "far", "near")})))
    assert "whole paths" not in document_of(harness, "order-of-work").said
