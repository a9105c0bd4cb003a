"""Labels: what they say, on which tube, in type that stays legible."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.stocks.stock import compose
from docgen.paperwork.typesetting.composed import Composed
from docgen.paperwork.typesetting.ink import Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder

TITLE_BLOCK = TitleBlock("Wren", "WR-7", "A", "2026-04-18", None, "00000000")


def composed(folder: Path, name: str) -> Composed:
    return compose(wire_labels.content(harness_of(folder)), read_shipped(name, KINDS))(TITLE_BLOCK)


def texts(result: Composed) -> list[str]:
    return [mark.text for page in result.pages for mark in page.ink if isinstance(mark, Text)]


def test_both_ends_of_every_lead_are_labelled_side_by_side() -> None:
    labels = wire_labels.content(harness_of(EXAMPLES / "wren")).labels
    assert [label.key[2] for label in labels] == ["from", "to"] * 6
    assert [label.key[:2] for label in labels[::2]] == [label.key[:2] for label in labels[1::2]]


def test_own_leads_are_labelled_at_the_plug_in_the_order_of_the_equipment_on_which_they_hang() -> None:
    # As written from the controller to the fan: the controller's own lead is plugged in at the fan, the fan's at it.
    labels = wire_labels.content(harness_of(EXAMPLES / "fulmar")).labels
    ends = [(label.key[2], label.text.here) for label in labels if label.key.circuit == "left-fan"]
    assert ends == [("from", "left-fan (BK-BK-BK)"), ("to", "left-fan-control MOTOR")]


def test_the_tube_of_each_label_passes_the_wires_and_grips_them() -> None:
    # Three wires of 1.6 mm: the circle around them 1.6 (1 + 2/√3) = 3.45 mm, a tenth to spare 3.79; gripped
    # 1.6 (1 + 3/π) = 3.13 mm, of which 0.9 are 2.82. Two of 1.8 mm: 3.6 mm, 3.96; 1.8 (1 + 2/π) = 2.95, 2.65. The
    # 4/2 mm tube is the narrowest that does all.
    said = texts(composed(EXAMPLES / "wren", "carrier-a4"))
    assert {text for text in said if "·" in text and text.startswith("shrink")} == {"shrink-4 · 63 mm"}


def test_a_label_that_can_not_be_legible_is_a_caution_and_not_printed(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [("label: RX BATT", f"label: {'WIDE' * 12}")]})
    result = composed(folder, "carrier-a4")
    assert [finding.name for finding in result.findings] == ["type", "type"]
    assert not any("WIDE" in text for text in texts(result))


def test_long_names_leave_a_label_its_function_and_a_caution(aircraft_folder: AircraftFolder) -> None:
    name = "receiver-on-the-tray-behind-the-second-former"
    changes = [("  receiver:", f"  {name}:"), ("to: receiver", f"to: {name}"), ("from: receiver", f"from: {name}")]
    changes += [("{left: receiver 1, right: receiver 2}", f"{{left: {name} 1, right: {name} 2}}")]
    folder = aircraft_folder({"harness.yaml": changes})
    result = composed(folder, "carrier-a4")
    assert {finding.name for finding in result.findings} == {"type"}
    assert any(name in finding.sentence for finding in result.findings)
    assert texts(result).count("RUD") == 2


def test_a_jacket_is_what_the_tube_of_a_cable_passes(aircraft_folder: AircraftFolder) -> None:
    # 1.1 × 4.0 = 4.4 mm takes the tube of 4.8 mm, though the wires inside would pass 3.2 mm.
    cable = "leads: {cable: {wires: {negative: pvc-24 BK, positive: pvc-24 RD, signal: pvc-24 WH}, bought: cable, "
    folder = aircraft_folder(
        {
            "harness.yaml": [("    to: rudder\n    lead: servo-22", "    to: rudder\n    lead: cable")],
            "parts.yaml": cable + "diameter: 4.0 mm}}\n",
        }
    )
    labels = [label for label in wire_labels.content(harness_of(folder)).labels if label.key.circuit == "rudder"]
    assert [(label.passes_mm, label.grips_mm) for label in labels] == [(4.0, 4.0)] * 2


def test_a_label_names_the_colours_in_the_hand_where_they_differ(aircraft_folder: AircraftFolder) -> None:
    colours = "    lead_colours: {negative: BN, positive: RD, signal: OG}\n    plug: servo-3\n"
    folder = aircraft_folder({"harness.yaml": [("lead: 300 mm\n    plug: servo-3\n", f"lead: 300 mm\n{colours}")]})
    said = texts(composed(folder, "carrier-a4"))
    assert any(text.startswith("rudder (BN-RD-OG)") for text in said)
    assert not any(text.startswith("receiver 4 (") for text in said)


def test_what_does_not_suit_a_tape_is_named_and_left_out() -> None:
    result = composed(EXAMPLES / "fulmar", "tape-9")
    # Two wires of 12 AWG silicone are 9 mm wide; the tape's tube passes 5.7 mm.
    assert any(f.name == "tube" and "FAN L BATT" in f.sentence for f in result.findings)


def test_own_leads_are_named_and_left_out_on_tube() -> None:
    result = composed(EXAMPLES / "fulmar", "carrier-a4")
    assert len(result.notes) == 1
    assert "GYRO" in result.notes[0]
    assert not any(text == "GYRO" for text in texts(result))


@pytest.mark.parametrize("stock", ["carrier-a4", "tape-9", "wraps-a4", "flags-a4"])
@pytest.mark.parametrize("label", ["_", ".", "-"])
def test_a_function_with_little_or_no_ink_above_the_line_is_printed(
    label: str, stock: str, aircraft_folder: AircraftFolder
) -> None:
    result = composed(aircraft_folder({"harness.yaml": [("label: RX BATT", f'label: "{label}"')]}), stock)
    assert texts(result).count(label) == (4 if stock == "flags-a4" else 2)


@pytest.mark.parametrize(("stock", "tube"), [("carrier-a4", "shrink-4.8 · 63 mm"), ("strips-a4", "clear-6 · 47 mm")])
def test_paper_under_clear_tube_makes_the_wires_thicker(stock: str, tube: str, aircraft_folder: AircraftFolder) -> None:
    # A jacket of 4.3 mm, a tenth to spare: 4.73 mm pass 4.8; 0.5 mm more, 5.28 mm, pass neither that nor 5.
    cable = "leads: {cable: {wires: {negative: pvc-24 BK, positive: pvc-24 RD, signal: pvc-24 WH}, bought: cable, "
    changes = [("    to: rudder\n    lead: servo-22", "    to: rudder\n    lead: cable")]
    folder = aircraft_folder({"harness.yaml": changes, "parts.yaml": cable + "diameter: 4.3 mm}}\n"})
    assert sum(tube in text for text in texts(composed(folder, stock))) >= 2


@pytest.mark.parametrize(("recovered", "chosen"), [("3.2 mm", "close"), ("3.3 mm", "clear-4.5")])
def test_a_clear_tube_grips_wires_and_paper(recovered: str, chosen: str, aircraft_folder: AircraftFolder) -> None:
    # Three wires of 1.6 mm in a circle of 3.45 mm are gripped as 3.13 mm: with 0.5 mm of paper 4.34 mm are passed, a
    # tenth to spare, and 0.9 × 3.63 = 3.27 mm gripped. Of tubes that do the narrowest is taken.
    close = f"tubes: {{close: {{expanded: 4.4 mm, recovered: {recovered}, wall: 0.5 mm, clear: yes}}}}\n"
    items = wire_labels.content(harness_of(aircraft_folder({"parts.yaml": close})))
    rudder = replace(items, labels=tuple(label for label in items.labels if label.key.circuit == "rudder"))
    assert {tube.name for tube in rudder.clear_tubes().values()} == {chosen}
