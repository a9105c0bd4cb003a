"""What the hangar card says, read back from the page and held against what the builder wrote, typed here by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdfium2
import pytest
import zxingcpp
from measured import PrintedPage
from printed_tables import PrintedDocument, document_of
from resolved import harness_of

from docgen.basics.shipped import shipped_folder
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

PACKS = "Packs, and flights on a charge: all together, each alone"
SUPPLIES = "Supplies at empty: currents, and the least volts at peak of what"
CAUTION = "Charge packs out of the aircraft or as their maker says, never alone."
ARCS = "Keep clear of propeller and turbine arcs and of gear doors."


def card_with(aircraft_folder: AircraftFolder, changes: Changes) -> PrintedDocument:
    """Print the hangar card of the smallest example with changes."""
    return document_of(harness_of(aircraft_folder(changes)), "hangar-card")


@pytest.fixture(scope="module")
def wren() -> PrintedDocument:
    return document_of(harness_of(shipped_folder("examples") / "wren"), "hangar-card")


@pytest.fixture(scope="module")
def fulmar() -> PrintedDocument:
    return document_of(harness_of(shipped_folder("examples") / "fulmar"), "hangar-card")


def test_it_says_which_aircraft_it_belongs_to_and_who_is_called_when_it_is_found(fulmar: PrintedDocument) -> None:
    assert fulmar.said.startswith("Fulmar · FM-12 2.6 m twin ducted-fan maritime patrol aircraft")
    assert "If found: Ansa Brook, Heron Lane field, telephone 555 0134" in fulmar.said


def test_every_page_carries_the_cautions_for_the_field(wren: PrintedDocument, fulmar: PrintedDocument) -> None:
    for page in (*wren.said_on_pages, *fulmar.said_on_pages):
        assert CAUTION in page
        assert ARCS in page


# Packs and supplies


def test_a_pack_shows_what_the_builder_wrote_of_it_and_its_flights(wren: PrintedDocument) -> None:
    # 1.85 A for 9 min take 277.5 mAh; 2600 mAh x 0.7 / 277.5 mAh = 6.56 flights.
    assert wren.table(PACKS) == [
        {
            "pack": "pack",
            "cells": "2",
            "mAh": "2600",
            "full, V": "8.4",
            "empty, V": "6.4",
            "flights": "6.6",
            "place": "battery-bay",
        }
    ]


def test_packs_stand_in_the_order_written_with_their_volts_cells_and_places(fulmar: PrintedDocument) -> None:
    shown = [
        tuple(row[head] for head in ("pack", "cells", "mAh", "full, V", "empty, V", "place"))
        for row in fulmar.table(PACKS)
    ]
    assert shown == [
        ("left-pack", "2", "3200", "8.4", "6.6", "pack-bay"),
        ("right-pack", "2", "3200", "8.4", "6.6", "pack-bay"),
        ("service-pack", "3", "2200", "12.6", "9.9", "pack-bay"),
        ("left-fan-pack", "6", "5000", "25.2", "20.4", "motor-bay"),
        ("right-fan-pack", "6", "5000", "25.2", "20.4", "motor-bay"),
    ]


def test_packs_that_share_do_twice_together_what_each_does_alone(fulmar: PrintedDocument) -> None:
    rows = {row["pack"]: row for row in fulmar.table(PACKS)}
    # Two like packs on a unit that isolates carry half each; both figures are rounded to 0.1.
    for name in ("left-pack", "right-pack"):
        assert float(rows[name]["flights"]) == pytest.approx(2 * float(rows[name]["alone"]), abs=0.16)
    # A fan takes 32 A for 6 min and 0.1 A for 4 min, 3206.7 mAh: 5000 mAh x 0.7 / 3206.7 = 1.09.
    assert rows["left-fan-pack"]["flights"] == "1.1"
    assert not any("alone" in rows[name] for name in ("service-pack", "left-fan-pack", "right-fan-pack"))


def test_a_supply_shows_its_currents_and_the_volts_at_its_receiver(wren: PrintedDocument) -> None:
    # Working 0.15 + 2 x 0.6 + 0.5 = 1.85 A; peak 0.15 + 3 x 2.4 = 7.35 A; the supply's pair is 0.0408 ohm
    # (2 x 0.445 m of 20 AWG at 9.88 ohm/1000 ft, four contacts of 3 mohm): 6.4 - 7.35 x 0.0408 = 6.10 V.
    (row,) = wren.table(SUPPLIES)
    assert (row["supply"], row["least, V"], row["there"]) == ("pack", "6.10", "receiver")
    assert float(row["works, A"]) == pytest.approx(1.85, abs=0.051)
    assert float(row["peak, A"]) == pytest.approx(7.35, abs=0.051)


def test_a_supply_of_what_can_stall_alone_shows_no_least_volts(fulmar: PrintedDocument) -> None:
    rows = {row["supply"]: row for row in fulmar.table(SUPPLIES)}
    assert set(rows["left-fan-pack"]) == {"supply", "works, A", "peak, A"}
    assert (rows["left-fan-pack"]["works, A"], rows["left-fan-pack"]["peak, A"]) == ("32.0", "62.0")


GYRO = """  gyro:
    kind: gyro
    place: radio-tray
    lead: 1 m
    lead_wire: lead-28
    plug: servo-3
    current: {working: 0.5 A}
    volts: {least: 3.6 V, most: 9 V}
"""


def test_the_least_volts_are_those_where_the_fewest_arrive(aircraft_folder: AircraftFolder) -> None:
    """By hand: 2 x 1 m of 28 AWG at 67.69 ohm/1000 ft and two contacts of 10 mohm are 0.464 ohm.

    At peak 7.35 + 0.5 = 7.85 A: 6.4 - 7.85 x 0.0408 = 6.08 V at the receiver, less 0.5 A x 0.464 ohm 5.85 V.
    """
    changes = [
        ("  rudder:\n    kind", f"{GYRO}  rudder:\n    kind"),
        ("  rudder:\n    label", "  gyro: {label: GYRO, from: receiver 3, to: gyro}\n  rudder:\n    label"),
    ]
    (row,) = card_with(aircraft_folder, {"harness.yaml": changes}).table(SUPPLIES)
    assert (row["least, V"], row["there"]) == ("5.85", "gyro")


# Cautions


def test_a_caution_that_is_accepted_still_stands_with_its_reason(fulmar: PrintedDocument) -> None:
    said = "does 1.09 flights on a charge with 30 % left; 2 are wanted. Accepted: one flight on a charge; both packs"
    assert f"endurance: left-fan-pack {said}" in fulmar.said
    assert f"endurance: right-fan-pack {said}" in fulmar.said


def test_too_many_volts_are_said_first_and_largest_and_notes_not_at_all(aircraft_folder: AircraftFolder) -> None:
    # Full at 9.2 V: above the 9 V that the receiver and the 8.4 V that servos bear. A flight of 90 min takes 2775 mAh.
    changes: Changes = {
        "harness.yaml": [("full: 8.4 V", "full: 9.2 V")],
        "aircraft.yaml": [("time: 9 min", "time: 90 min"), (", length: 260 mm}", "}")],
    }
    harness = harness_of(aircraft_folder(changes))
    pdf = make_paperwork(harness, Choice(stems=("hangar-card",))).files["hangar-card.pdf"]
    texts = PrintedPage(pypdfium2.PdfDocument(pdf)[0]).texts
    over = [text for text in texts if text.text.startswith("overvolts: ")]
    (short,) = (text for text in texts if text.text.startswith("endurance: "))
    assert len(over) >= 2
    assert all(text.capital_mm > short.capital_mm and text.base_mm < short.base_mm for text in over)
    assert not any(text.text.startswith("unmeasured") for text in texts)


# Channels and ports


def test_channels_stand_in_the_order_of_their_numbers_with_throw_and_failsafe(fulmar: PrintedDocument) -> None:
    heads = ("channel", "function", "port", "throw", "fail-safe")
    assert [tuple(row.get(head, "") for head in heads) for row in fulmar.table("Channels")] == [
        ("1", "AIL L IN", "power-unit 1", "16 mm up, 10 mm down", "hold"),
        ("2", "AIL R IN", "power-unit 2", "16 mm up, 10 mm down", "hold"),
        ("3", "AIL L OUT", "power-unit 3", "18 mm up, 12 mm down", "hold"),
        ("4", "AIL R OUT", "power-unit 4", "18 mm up, 12 mm down", "hold"),
        ("5", "FLAP L", "power-unit 5", "22 mm takeoff, 48 mm landing", "hold"),
        ("6", "FLAP R", "power-unit 6", "22 mm takeoff, 48 mm landing", "hold"),
        ("7", "ELEV L", "power-unit 7", "24 mm each way", "centre"),
        ("8", "ELEV R", "power-unit 8", "24 mm each way", "centre"),
        ("9", "RUDDER", "power-unit 9", "38 mm each way", "centre"),
        ("9", "STEER", "receiver-a 4", "20 degrees each way", "centre"),
        ("10", "GEAR", "receiver-b 1", "", "hold"),
        ("11", "BRAKE", "receiver-b 2", "", "hold"),
        ("12", "BAY DOOR", "power-unit SOFT-1", "", "hold"),
        ("13", "LIGHTS", "receiver-b 3", "", "hold"),
        ("14", "SMOKE", "receiver-b 4", "", "off"),
        ("14", "SMOKE VALVE", "receiver-b 6", "", "off"),
        ("15", "THR L", "receiver-a 1", "", "off"),
        ("16", "THR R", "receiver-a 2", "", "off"),
    ]


def test_what_has_a_throw_or_a_failsafe_but_no_channel_stands_last(aircraft_folder: AircraftFolder) -> None:
    changes = [
        ("    channel: {left: 1, right: 2}\n    throw: 18 mm up, 12 mm down\n", "    failsafe: hold\n"),
        ("    channel: 4\n", "    channel: 7\n"),
    ]
    rows = card_with(aircraft_folder, {"harness.yaml": changes}).table("Channels")
    assert [(row["channel"], row["function"], row.get("throw", ""), row.get("fail-safe", "")) for row in rows] == [
        ("7", "RUD", "40 mm each way", ""),
        ("–", "AIL L", "", "hold"),
        ("–", "AIL R", "", "hold"),
    ]


def test_each_port_says_what_is_plugged_in_and_where_that_ends(wren: PrintedDocument, fulmar: PrintedDocument) -> None:
    assert wren.table("receiver") == [
        {"port": "1", "function": "AIL L", "other end": "left-aileron", "channel": "1"},
        {"port": "2", "function": "AIL R", "other end": "right-aileron", "channel": "2"},
        {"port": "3", "function": "free"},
        {"port": "4", "function": "RUD", "other end": "rudder", "channel": "4"},
        {"port": "BATT", "function": "RX BATT", "other end": "pack"},
    ]
    assert fulmar.table("gear-unit · gear controller") == [
        {"port": "POWER", "function": "GEAR BATT", "other end": "service-switch GEAR"},
        {"port": "GEAR", "function": "GEAR", "other end": "receiver-b 1", "channel": "10"},
        {"port": "BRAKE", "function": "BRAKE", "other end": "receiver-b 2", "channel": "11"},
        {"port": "NOSE", "function": "LEG N", "other end": "nose-leg"},
        {"port": "LEFT", "function": "LEG L", "other end": "left-leg"},
        {"port": "RIGHT", "function": "LEG R", "other end": "right-leg"},
        {"port": "BRAKE-L", "function": "BRAKE L", "other end": "left-brake"},
        {"port": "BRAKE-R", "function": "BRAKE R", "other end": "right-brake"},
    ]


def test_everything_with_named_ports_has_its_table(fulmar: PrintedDocument) -> None:
    titles = {row[0].text for row in fulmar.rows if len(row) == 1 and row[0].bold and " · " in row[0].text}
    assert {title for title in titles if not title.endswith(", continued")} == {
        "Fulmar · FM-12",
        "power-unit · power unit",
        "receiver-a · receiver",
        "receiver-b · receiver",
        "service-switch · power switch",
        "gear-unit · gear controller",
        "lamp-unit · light controller",
        "smoke-pump · smoke",
        "left-fan-control · speed controller",
        "right-fan-control · speed controller",
    }


# Gear, antennas, locks


def test_gear_shows_strokes_limit_and_stop_as_written(fulmar: PrintedDocument) -> None:
    heads = ("gear", "up, s", "down, s", "limit, s", "stop, A")
    assert [tuple(row[head] for head in heads) for row in fulmar.table("Gear")] == [
        ("nose-leg", "6.4", "5.8", "8", "2"),
        ("left-leg", "9.6", "8.1", "11", "2.2"),
        ("right-leg", "9.8", "8", "11", "2.2"),
    ]


def test_antennas_say_how_and_where_they_lie(fulmar: PrintedDocument) -> None:
    assert [(row[""], row["lies"], row["place"]) for row in fulmar.table("Antennas")] == [
        ("receiver-a A", "lengthwise", "radio-tray"),
        ("receiver-a B", "crosswise", "radio-tray"),
        ("receiver-b A", "crosswise", "lower-tray"),
        ("receiver-b B", "upright", "spine-post"),
    ]


def test_every_joint_says_how_a_hand_gets_there_and_what_locks_it(fulmar: PrintedDocument) -> None:
    screws = "a screw at each end; undo both by turns, then pull the halves straight apart"
    latches = "a latch at each end; press both, then pull the halves straight apart"
    assert [(row["joint"], row["access"], row["lock"]) for row in fulmar.table("Locks to check")] == [
        ("left-wing-a", "wing off", screws),
        ("right-wing-a", "wing off", screws),
        ("left-wing-b", "wing off", latches),
        ("right-wing-b", "wing off", latches),
        ("tail", "tail off", latches),
        ("nose", "nose off", latches),
        ("hatch-joint", "belly hatch", "see that it is home"),
    ]


def test_a_joint_is_reached_the_way_that_its_fixed_half_is(aircraft_folder: AircraftFolder) -> None:
    panel_root = "<side>: 90 mm, up: 90 mm}, access: "
    card = card_with(aircraft_folder, {"aircraft.yaml": [(f"{panel_root}wing off", f"{panel_root}panel turned over")]})
    assert {row["access"] for row in card.table("Locks to check")} == {"wing off"}


# The code


def test_without_an_address_the_code_counts_and_names_the_packs(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {
        "aircraft.yaml": [("  record: https://hangar.example/wren    #", "  contact: Ada Fenn, 555 0199  #")]
    }
    pdf = make_paperwork(harness_of(aircraft_folder(changes)), Choice(stems=("hangar-card",))).files["hangar-card.pdf"]
    image = pypdfium2.PdfDocument(pdf)[0].render(scale=300 / 72, grayscale=True).to_numpy()
    (code,) = zxingcpp.read_barcodes(image[:, :, 0] if image.ndim == 3 else image)
    first, *lines = code.text.split("\n")
    assert first.startswith("WR-7 record draft ")
    assert [" ".join(line.split()) for line in lines] == [
        "4 circuits, 2 joints",
        "pack 2 2600 8.4 6.4 6.6 battery-bay",
        "Ada Fenn, 555 0199",
    ]
