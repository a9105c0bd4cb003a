"""What `docgen check` shows as text: tables of what was worked out, and findings."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from checked import ACCEPTED, FULMAR, NO_UNIT, NOTHING, WREN, Row, data_of, docgen_check, tables_in, text_of

if TYPE_CHECKING:
    from conftest import AircraftFolder

NO_CURRENT = {"harness.yaml": [("    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n", "")]}


def column(rows: list[Row], head: str) -> dict[str, str]:
    """Return one column by the first."""
    return {next(iter(row.values())): row[head] for row in rows}


@pytest.fixture(scope="module")
def wren() -> str:
    return text_of(WREN)


# Wren by hand, each pole of a lead at its cut length, AC 43.13-1B table 11-9 (26 AWG: strands of 19/38) in
# ohm/1000 ft, contacts of servo plugs 10 mΩ, of blocks 5 mΩ, of power plugs 3 mΩ:
#   supply:  2 × 0.445 m × 9.88 / 304.8 m + 4 × 3 mΩ = 0.0408 Ω
#   aileron: 2 × 1.345 m × 16.20 / 304.8 m + 2 × 0.250 m × 40.07 / 304.8 m + 2 × (10 + 5 + 10) mΩ = 0.2587 Ω
#   rudder:  2 × 1.335 m × 16.20 / 304.8 m + 2 × 0.300 m × 40.07 / 304.8 m + 2 × (10 + 10) mΩ = 0.2608 Ω
# Working 0.15 + 2 × 0.6 + 0.5 = 1.85 A; peak, all three servos stalled, 0.15 + 3 × 2.4 = 7.35 A; the pack gives 6.4 V.


def test_circuits_are_listed_by_name_with_the_volts_left_at_their_loads(wren: str) -> None:
    # Receiver at peak: 6.4 − 7.35 × 0.0408 = 6.10 V. An aileron stalled, all else working: 6.4 − 3.65 × 0.0408 −
    # 2.4 × 0.2587 = 5.63 V; the rudder: 6.4 − 3.75 × 0.0408 − 2.4 × 0.2608 = 5.62 V.
    rows = tables_in(wren)["circuit"]
    assert column(rows, "left V") == {
        "supply": "6.10",
        "left-aileron": "5.63",
        "right-aileron": "5.63",
        "rudder": "5.62",
    }
    assert list(column(rows, "in case").values()) == ["peak", "stall", "stall", "stall"]


def test_circuits_have_their_length_gauge_current_and_own_drop(wren: str) -> None:
    # Own drops: 1.85 × 0.0408 = 0.076 V, 0.6 × 0.2587 = 0.155 V, 0.5 × 0.2608 = 0.130 V.
    rows = tables_in(wren)["circuit"]
    assert [[row[head] for head in ("mm", "gauge", "works A", "drop V")] for row in rows] == [
        ["325", "20 AWG", "1.85", "0.076"],
        ["1345", "22 AWG", "0.60", "0.155"],
        ["1345", "22 AWG", "0.60", "0.155"],
        ["1335", "22 AWG", "0.50", "0.130"],
    ]


def test_drops_are_shown_in_per_cent_of_their_limits(wren: str) -> None:
    # Aileron: 0.155 / 6.4 = 2.4 % of 3.57 % is 68 %; stalled 2.4 × 0.2587 / 6.4 = 9.7 % of 10 % is 97 %. Its plugs'
    # contacts, 3 A working and 5 A for at most 10 s: 0.6 / 3 = 20 %, 2.4 / 5 = 48 %.
    aileron = tables_in(wren)["circuit"][1]
    assert (aileron["drop %"], aileron["stalled %"]) == ("68", "97")
    assert (aileron["contact %"], aileron["brief %"]) == ("20", "48")


def test_a_supply_says_its_currents_and_how_long_a_charge_lasts(wren: str) -> None:
    # 1.85 A × 9 min = 277.5 mAh; 2600 mAh × 0.7 / 277.5 = 6.6 flights.
    assert "\nsupply pack: working 1.85 A, peak 7.35 A\n" in wren
    assert re.search(r"^  6\.6 flights\b.*\b277\.5 mAh\b", wren, re.MULTILINE)


def test_a_supply_shows_what_is_lost_before_each_stage(wren: str) -> None:
    # 1.85 A × 0.0408 Ω = 0.076 V; an aileron 0.155 V, the rudder 0.5 A × 0.2608 Ω = 0.130 V.
    rows = tables_in(wren)["supply pack"]
    assert [row["drop V"] for row in rows] == ["–", "0.08", "0.16", "0.16", "0.13"]


def test_a_pack_and_outlets_show_how_much_of_their_ratings_they_use(aircraft_folder: AircraftFolder) -> None:
    # At peak the pack gives 7.35 A, the three servos' outlets 7.2 A.
    ratings = [
        ("empty: 6.4 V}", "empty: 6.4 V, rating: 10 A}"),
        ("names: 1..4, contacts: pins", "names: 1..4, contacts: pins, rating: 6 A"),
    ]
    text = docgen_check(aircraft_folder({"harness.yaml": ratings})).stdout
    rows = tables_in(text)["supply pack"]
    assert [row["rating %"] for row in rows] == ["74", "120", "–", "–", "–"]


def test_a_supply_shows_what_arrives_at_each_stage(wren: str) -> None:
    # Receiver working: 6.4 − 1.85 × 0.0408 = 6.32 V. Aileron working: 6.32 − 0.155 = 6.17 V; at peak 6.10 − 2.4 ×
    # 0.2587 = 5.48 V; rudder 6.19 V and 5.47 V.
    rows = tables_in(wren)["supply pack"]
    assert [[row[head] for head in ("stage", "working V", "peak V")] for row in rows] == [
        ["pack", "6.40", "6.40"],
        ["receiver", "6.32", "6.10"],
        ["left-aileron", "6.17", "5.48"],
        ["right-aileron", "6.17", "5.48"],
        ["rudder", "6.19", "5.47"],
    ]


SERVO_PORTS = "      - {plug: servo-3, names: 1..4, contacts: pins}\n"
TWO_OUTPUTS = (
    "      - {plug: servo-3, names: [1, 2], contacts: pins, output: {volts: 5 V, rating: 4 A}}\n"
    "      - {plug: servo-3, names: [3, 4], contacts: pins, output: {volts: 6 V, headroom: 0.4 V}}\n"
)


def test_each_output_shows_what_it_gives(aircraft_folder: AircraftFolder) -> None:
    # Of the 6.32 V that arrive 5 V, or with 0.4 V less 5.92 V: figures as above.
    folder = aircraft_folder({"harness.yaml": [(SERVO_PORTS, TWO_OUTPUTS)]})
    rows = tables_in(docgen_check(folder).stdout)["supply pack"]
    gives = {row["stage"]: row["gives V"] for row in rows}
    assert (gives["receiver"], gives["receiver 1, 2"], gives["receiver 3, 4"]) == (NOTHING, "5.00", "5.92")
    stage = data_of(folder)["supplies"][0]["stages"][1]
    assert [output["ports"] for output in stage["outputs"]] == [["1", "2"], ["3", "4"]]
    assert [output["volts_v"] for output in stage["outputs"]] == pytest.approx([5, 6.4 - 1.85 * 0.0408 - 0.4], abs=1e-3)


def test_a_single_output_shows_in_the_line_of_its_equipment(aircraft_folder: AircraftFolder) -> None:
    one = SERVO_PORTS.replace("pins}", "pins, output: {volts: 6 V, headroom: 0.4 V}}")
    folder = aircraft_folder({"harness.yaml": [(SERVO_PORTS, one)]})
    assert column(tables_in(docgen_check(folder).stdout)["supply pack"], "gives V")["receiver"] == "5.92"


def test_runs_have_their_bundle_its_sleeve_and_how_far_it_may_be_bent(wren: str) -> None:
    # Two wires of 1.8 mm: 3.6 mm, held 3 × 3.6 = 11 mm. Three of 1.6 mm: 3.45 mm, 10 mm. The braid shortens by 4.5 %:
    # of 1140 mm 72 mm are left to a label, 1068 / 0.955 = 1120 mm; of 235 mm half, 117.5 / 0.955 = 123 → 125
    # mm; 745 / 0.955 = 780 → 785 mm.
    heads = ("mm", "leads", "bundle", "sleeve", "cut mm", "bend mm")
    rows = {row["run"]: [row[head] for head in heads] for row in tables_in(wren)["run"]}
    assert rows["battery-bay to radio-tray"] == ["260", "1", "3.60", NOTHING, NOTHING, "11"]
    assert rows["radio-tray to tail-post"] == ["1140", "1", "3.45", "braid-4", "1120", "10"]
    for side in ("left", "right"):
        assert rows[f"radio-tray to {side}-root"] == ["235", "1", "3.45", "braid-4", "125", "10"]
        assert rows[f"{side}-panel-root to {side}-aileron"] == ["745", "1", "3.45", "braid-4", "785", "10"]


def test_assemblies_have_their_masses_and_their_moment_in_metres(wren: str) -> None:
    # Leads of the fuselage 2 × 0.325 m of 7.4 g/m and 3 × (2 × 0.3 + 1.335) m of 5.2 g/m: 35.0 g; braid
    # 2 × 0.125 + 1.12 = 1.37 m of 3 g/m: 4.11 g. At the middles of their runs: 4.81 g at 300 mm, 2 × 5.055 g at 510 mm
    # and 24.186 g at 980 mm: 1443 + 5156 + 23702 = 30.3 g m. A panel: 3 × 1.045 m, 16.3 g, and 0.785 m, 2.4 g, at
    # 645 mm: 12.0 g m.
    rows = tables_in(wren)["assembly"]
    assert [tuple(row.values()) for row in rows] == [
        ("fuselage", "35", "4", "0", "30.3"),
        ("left-panel", "16", "2", "0", "12.0"),
        ("right-panel", "16", "2", "0", "12.0"),
    ]
    assert list(rows[0]) == ["assembly", "leads g", "sleeves g", "equipment g", "moment g m"]


def test_equipment_with_a_mass_counts_in_its_own_column(aircraft_folder: AircraftFolder) -> None:
    # 100 g at 420 mm are 42 g m more.
    current = "    current: {working: 150 mA}\n"
    folder = aircraft_folder({"harness.yaml": [(current, f"{current}    mass: 100 g\n")]})
    row = tables_in(docgen_check(folder).stdout)["assembly"][0]
    assert list(row.values()) == ["fuselage", "35", "4", "100", "72.3"]


def test_a_dressed_run_says_with_what_and_a_hinge_bends_ten_diameters(aircraft_folder: AircraftFolder) -> None:
    runs = [
        ("length: 1140 mm, edges: sharp", "length: 1140 mm, edges: sharp, dressed: tube"),
        ("length: 260 mm", "length: 260 mm, hinge: 60 mm"),
    ]
    rows = {row["run"]: row for row in tables_in(docgen_check(aircraft_folder({"aircraft.yaml": runs})).stdout)["run"]}
    tail, bay = rows["radio-tray to tail-post"], rows["battery-bay to radio-tray"]
    assert (tail["sleeve"], tail["cut mm"]) == ("tube", NOTHING)
    # Two wires of 1.8 mm, flexing: 10 × 3.6 mm (US Army TM 1-1500-204-23-4 item 27).
    assert bay["bend mm"] == "36"


def test_the_report_begins_with_the_aircraft_and_what_there_is_to_make(wren: str) -> None:
    # Four circuits, two of them in two segments.
    assert wren.startswith("Wren WR-7, revision A: 4 circuits, 6 leads to cut, 2 disconnects.\n")


def test_wires_use_what_the_parts_list_says_they_bear(wren: str) -> None:
    # Supply 1.85 of 5 A, 1.85 of 10 A, 7.35 of 15 A; own drop 1.2 % of 3.57 %: 33, and as it has no stall of 10 %: 12.
    # Ailerons 0.6 A and the rudder 0.5 A of the 2 A that their own 26 AWG bears; 0.5 of 3 A.
    heads = ("wire %", "contact %", "brief %", "drop %", "stalled %")
    assert [[row[head] for head in heads] for row in tables_in(wren)["circuit"]] == [
        ["37", "18", "49", "33", "12"],
        ["30", "20", "48", "68", "97"],
        ["30", "20", "48", "68", "97"],
        ["25", "17", "48", "57", "98"],
    ]


def test_what_is_not_said_is_not_computed(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(NO_CURRENT)
    rudder = tables_in(docgen_check(folder).stdout)["circuit"][3]
    assert (rudder["mm"], rudder["works A"], rudder["drop V"], rudder["left V"]) == ("1335", *[NOTHING] * 3)
    circuit = data_of(folder)["circuits"][3]
    assert [circuit[key] for key in ("working_a", "own_drop_v", "volts_left_v", "case")] == [None] * 4


@pytest.mark.parametrize("folder", [WREN, FULMAR], ids=lambda folder: folder.name)
def test_no_line_has_trailing_blanks(folder: Path) -> None:
    assert [line for line in text_of(folder).splitlines() if line != line.rstrip()] == []


def test_with_an_error_there_are_no_tables(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(NO_UNIT))
    assert (shown.exit_code, shown.stdout) == (1, "")
    assert "error unit: " in shown.stderr


def test_an_accepted_finding_is_shown_with_its_reason(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(ACCEPTED), "--accepted")
    assert shown.exit_code == 0
    first, *others = shown.stderr.splitlines()
    assert "note unmeasured: " in first
    assert "  accepted: not built yet" in others
