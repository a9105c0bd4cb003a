"""`docgen check` and `docgen explain`: tables of what was worked out, the same as JSON, and findings explained."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner, Result

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

if TYPE_CHECKING:
    from conftest import AircraftFolder

WREN = shipped_folder("examples") / "wren"
FULMAR = shipped_folder("examples") / "fulmar"
NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}
NO_CURRENT = {"harness.yaml": [("    current: {idle: 20 mA, working: 0.5 A, stall: 2.4 A}\n", "")]}
MEASURED = "{between: [battery-bay, radio-tray], length: 260 mm}"
ACCEPTED = {"aircraft.yaml": [(MEASURED, "{between: [battery-bay, radio-tray], accept: {unmeasured: not built yet}}")]}
NOTHING = "–"

Row = dict[str, str]
"""One line of a table, by its heads."""


def docgen_check(*words: str | Path) -> Result:
    return CliRunner().invoke(docgen, ["check", *map(str, words)])


@cache
def text_of(folder: Path) -> str:
    return docgen_check(folder).stdout


@cache
def data_of(folder: Path) -> Any:
    return json.loads(docgen_check(folder, "--json").stdout)


def tables_in(text: str) -> dict[str, list[Row]]:
    """Return tables by what their first head names; of supplies each by its own name."""
    tables = {}
    for block in text.strip().split("\n\n")[1:]:
        heading, *lines = block.splitlines()
        name = heading.split()[0]
        if name == "supply":
            name = heading.split(":")[0]
            heading, *lines = [line for line in lines if not line.startswith(" ")]
        heads = re.split(r" {2,}", heading)
        tables[name] = [dict(zip(heads, re.split(r" {2,}", line), strict=True)) for line in lines]
    return tables


def column(rows: list[Row], head: str) -> dict[str, str]:
    """Return one column by the first."""
    return {next(iter(row.values())): row[head] for row in rows}


@pytest.fixture(scope="module")
def wren() -> str:
    return text_of(WREN)


def assert_same(shown: str, value: float | None, decimals: int) -> None:
    """Ensure that a table shows a value, rounded to so many decimals."""
    if value is None:
        assert shown == NOTHING
    else:
        assert re.fullmatch(rf"-?\d+\.\d{{{decimals}}}" if decimals else r"-?\d+", shown)
        assert float(shown) == pytest.approx(value, abs=0.5 * 10**-decimals + 1e-5)


# Tables. Wren by hand, each pole of a lead at its cut length, AC 43.13-1B table 11-9 (26 AWG: strands of 19/38) in
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
    # of 1140 mm 85 mm and 5 mm are left to labels, 1050 / 0.955 = 1100 mm; of 235 mm half, 117.5 / 0.955 = 123 → 125
    # mm; of 745 mm 5 mm, 740 / 0.955 = 775 mm.
    heads = ("mm", "leads", "bundle", "sleeve", "cut mm", "bend mm")
    rows = {row["run"]: [row[head] for head in heads] for row in tables_in(wren)["run"]}
    assert rows["battery-bay to radio-tray"] == ["260", "1", "3.60", NOTHING, NOTHING, "11"]
    assert rows["radio-tray to tail-post"] == ["1140", "1", "3.45", "braid-4", "1100", "10"]
    for side in ("left", "right"):
        assert rows[f"radio-tray to {side}-root"] == ["235", "1", "3.45", "braid-4", "125", "10"]
        assert rows[f"{side}-panel-root to {side}-aileron"] == ["745", "1", "3.45", "braid-4", "775", "10"]


def test_assemblies_have_their_masses_and_their_moment_in_metres(wren: str) -> None:
    # Leads of the fuselage 2 × 0.325 m of 7.4 g/m and 3 × (2 × 0.3 + 1.335) m of 5.2 g/m: 35.0 g; braid 2 × 0.125 + 1.1
    # = 1.35 m of 3 g/m: 4.05 g. At the middles of their runs: 4.81 g at 300 mm, 2 × 5.055 g at 510 mm and 24.126 g at
    # 980 mm: 1443 + 5156 + 23643 = 30.2 g m. A panel: 3 × 1.045 m, 16.3 g, and 0.775 m, 2.3 g, at 645 mm: 12.0 g m.
    rows = tables_in(wren)["assembly"]
    assert [tuple(row.values()) for row in rows] == [
        ("fuselage", "35", "4", "0", "30.2"),
        ("left-panel", "16", "2", "0", "12.0"),
        ("right-panel", "16", "2", "0", "12.0"),
    ]
    assert list(rows[0]) == ["assembly", "leads g", "sleeves g", "equipment g", "moment g m"]


def test_equipment_with_a_mass_counts_in_its_own_column(aircraft_folder: AircraftFolder) -> None:
    # 100 g at 420 mm are 42 g m more.
    current = "    current: {working: 150 mA}\n"
    folder = aircraft_folder({"harness.yaml": [(current, f"{current}    mass: 100 g\n")]})
    row = tables_in(docgen_check(folder).stdout)["assembly"][0]
    assert list(row.values()) == ["fuselage", "35", "4", "100", "72.2"]


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


# JSON, by hand with the figures above.
SUPPLY_OHM = 2 * 0.445 * 9.88 / 304.8 + 4 * 0.003
AILERON_OHM = 2 * 1.345 * 16.20 / 304.8 + 2 * 0.250 * 40.07 / 304.8 + 2 * 0.025
RUDDER_OHM = 2 * 1.335 * 16.20 / 304.8 + 2 * 0.300 * 40.07 / 304.8 + 2 * 0.020


@pytest.fixture(scope="module")
def data() -> Any:
    return data_of(WREN)


def test_json_names_circuits_with_label_length_and_gauge(data: Any) -> None:
    assert [[one[key] for key in ("name", "label", "length_mm", "gauge", "case")] for one in data["circuits"]] == [
        ["supply", "RX BATT", 325, "20 AWG", "peak"],
        ["left-aileron", "AIL L", 1345, "22 AWG", "stall"],
        ["right-aileron", "AIL R", 1345, "22 AWG", "stall"],
        ["rudder", "RUD", 1335, "22 AWG", "stall"],
    ]


@pytest.mark.parametrize(
    ("index", "ohm", "working_a", "stall_a", "left_v"),
    [
        (0, SUPPLY_OHM, 1.85, 1.85, 6.4 - 7.35 * SUPPLY_OHM),
        (1, AILERON_OHM, 0.6, 2.4, 6.4 - 3.65 * SUPPLY_OHM - 2.4 * AILERON_OHM),
        (2, AILERON_OHM, 0.6, 2.4, 6.4 - 3.65 * SUPPLY_OHM - 2.4 * AILERON_OHM),
        (3, RUDDER_OHM, 0.5, 2.4, 6.4 - 3.75 * SUPPLY_OHM - 2.4 * RUDDER_OHM),
    ],
)
def test_json_has_a_circuits_currents_and_drops(
    data: Any, index: int, ohm: float, working_a: float, stall_a: float, left_v: float
) -> None:
    circuit = data["circuits"][index]
    expected = {
        "working_a": working_a,
        "stall_a": stall_a,
        "own_drop_v": working_a * ohm,
        "own_drop_share": working_a * ohm / 6.4,
        "stalled_drop_v": stall_a * ohm,
        "stalled_drop_share": stall_a * ohm / 6.4,
        "volts_left_v": left_v,
    }
    assert {key: circuit[key] for key in expected} == pytest.approx(expected, abs=1e-5)


def test_json_has_how_much_of_each_limit_is_used(data: Any) -> None:
    supply, aileron = (data["circuits"][index]["shares"] for index in (0, 1))
    # Of 5 A, 10 A, 15 A; of 2 A, 3 A, 5 A; drops of 6.4 V in 3.57 % (1/28) and 10 %.
    assert supply == pytest.approx(
        {
            "wire": 1.85 / 5,
            "contact": 1.85 / 10,
            "brief": 7.35 / 15,
            "drop_working": 1.85 * SUPPLY_OHM / 6.4 * 28,
            "drop_stalled": 1.85 * SUPPLY_OHM / 6.4 * 10,
        },
        rel=1e-3,
    )
    assert aileron == pytest.approx(
        {
            "wire": 0.6 / 2,
            "contact": 0.6 / 3,
            "brief": 2.4 / 5,
            "drop_working": 0.6 * AILERON_OHM / 6.4 * 28,
            "drop_stalled": 2.4 * AILERON_OHM / 6.4 * 10,
        },
        rel=1e-3,
    )


def test_json_has_what_arrives_at_each_stage(data: Any) -> None:
    (supply,) = data["supplies"]
    assert (supply["working_a"], supply["peak_a"]) == (1.85, 7.35)
    assert [stage["name"] for stage in supply["stages"]] == [
        "pack",
        "receiver",
        "left-aileron",
        "right-aileron",
        "rudder",
    ]
    working_v, peak_v = 6.4 - 1.85 * SUPPLY_OHM, 6.4 - 7.35 * SUPPLY_OHM
    expected = [
        (None, 6.4, 6.4),
        (1.85 * SUPPLY_OHM, working_v, peak_v),
        *[(0.6 * AILERON_OHM, working_v - 0.6 * AILERON_OHM, peak_v - 2.4 * AILERON_OHM)] * 2,
        (0.5 * RUDDER_OHM, working_v - 0.5 * RUDDER_OHM, peak_v - 2.4 * RUDDER_OHM),
    ]
    for stage, (drop_v, arriving_v, at_peak_v) in zip(supply["stages"], expected, strict=True):
        assert stage["drop_v"] == (None if drop_v is None else pytest.approx(drop_v, abs=1e-5))
        assert (stage["working_v"], stage["peak_v"]) == pytest.approx((arriving_v, at_peak_v), abs=1e-5)


def test_json_has_runs_with_leads_sleeves_and_bends(data: Any) -> None:
    # Three wires of 1.6 mm in a circle: (1 + 2/√3) × 1.6 = 3.4475 mm; held, three times that.
    heads = ("between", "length_mm", "leads", "sleeve", "sleeve_cut_mm")
    assert [[run[head] for head in heads] for run in data["runs"]] == [
        [["battery-bay", "radio-tray"], 260, ["supply A"], None, None],
        [["radio-tray", "left-root"], 235, ["left-aileron A"], "braid-4", 125],
        [["radio-tray", "right-root"], 235, ["right-aileron A"], "braid-4", 125],
        [["radio-tray", "tail-post"], 1140, ["rudder A"], "braid-4", 1100],
        [["left-panel-root", "left-aileron"], 745, ["left-aileron B"], "braid-4", 775],
        [["right-panel-root", "right-aileron"], 745, ["right-aileron B"], "braid-4", 775],
    ]
    assert [run["diameter_mm"] for run in data["runs"]] == pytest.approx([3.6, *[3.4475] * 5], abs=1e-4)
    assert [run["bend_radius_mm"] for run in data["runs"]] == pytest.approx([10.8, *[10.3426] * 5], abs=1e-3)


def test_json_has_the_mass_and_moment_of_assemblies(data: Any) -> None:
    # Results as beside the table: 4.81 + 2 × 5.055 + 24.126 = 39.046 g.
    masses = [(one["name"], one["mass_g"]) for one in data["assemblies"]]
    assert masses == [
        ("fuselage", pytest.approx(39.046)),
        ("left-panel", pytest.approx(18.627)),
        ("right-panel", pytest.approx(18.627)),
    ]
    moments = [one["moment_g_mm"] for one in data["assemblies"]]
    assert moments == pytest.approx([1443 + 2 * 5.055 * 510 + 24.126 * 980, 18.627 * 645, 18.627 * 645], abs=0.1)


@pytest.mark.parametrize("folder", [WREN, FULMAR], ids=lambda folder: folder.name)
class TestJsonIsTheSameAsTheTables:
    """Each figure of the tables, in the same order."""

    def test_circuits(self, folder: Path) -> None:
        rows, circuits = tables_in(text_of(folder))["circuit"], data_of(folder)["circuits"]
        for row, circuit in zip(rows, circuits, strict=True):
            assert (row["circuit"], row["gauge"]) == (circuit["name"], circuit["gauge"])
            assert row["in case"] == (circuit["case"] or NOTHING)
            assert float(row["mm"]) == pytest.approx(circuit["length_mm"], abs=0.05)
            assert_same(row["works A"], circuit["working_a"], 2)
            assert_same(row["drop V"], circuit["own_drop_v"], 3)
            assert_same(row["left V"], circuit["volts_left_v"], 2)
            heads = ("wire %", "contact %", "brief %", "drop %", "stalled %")
            for head, share in zip(heads, ("wire", "contact", "brief", "drop_working", "drop_stalled"), strict=True):
                used = circuit["shares"][share]
                assert_same(row[head], None if used is None else 100 * used, 0)

    def test_supplies(self, folder: Path) -> None:
        text = text_of(folder)
        tables = tables_in(text)
        supplies = data_of(folder)["supplies"]
        assert [name for name in tables if name.startswith("supply ")] == [f"supply {s['name']}" for s in supplies]
        for supply in supplies:
            found = re.search(
                rf"^supply {re.escape(supply['name'])}: working (\S+) A, peak (\S+) A$", text, re.MULTILINE
            )
            assert found
            assert_same(found.group(1), supply["working_a"], 2)
            assert_same(found.group(2), supply["peak_a"], 2)
            for row, stage in zip(tables[f"supply {supply['name']}"], supply["stages"], strict=True):
                assert row["stage"] == stage["name"]
                assert_same(row["rating %"], None if stage["rating_share"] is None else 100 * stage["rating_share"], 0)
                assert_same(row["drop V"], stage["drop_v"], 2)
                assert_same(row["working V"], stage["working_v"], 2)
                assert_same(row["peak V"], stage["peak_v"], 2)

    def test_runs(self, folder: Path) -> None:
        rows = tables_in(text_of(folder))["run"]
        runs = [run for run in data_of(folder)["runs"] if run["leads"]]
        for row, run in zip(rows, runs, strict=True):
            assert (row["run"], row["leads"]) == (" to ".join(run["between"]), str(len(run["leads"])))
            # Unless measured it may have a fraction.
            assert float(row["mm"]) == pytest.approx(run["length_mm"], abs=0.06)
            assert_same(row["bundle"], run["diameter_mm"], 2)
            assert_same(row["bend mm"], run["bend_radius_mm"], 0)
            if run["sleeve"] is not None:
                assert row["sleeve"] == run["sleeve"]
            if row["cut mm"] != "as before":
                assert row["cut mm"] == (NOTHING if run["sleeve_cut_mm"] is None else f"{run['sleeve_cut_mm']:g}")

    def test_assemblies(self, folder: Path) -> None:
        rows, assemblies = tables_in(text_of(folder))["assembly"], data_of(folder)["assemblies"]
        for row, assembly in zip(rows, assemblies, strict=True):
            assert row["assembly"] == assembly["name"]
            # Three rounded masses.
            mass_g = sum(int(row[head]) for head in ("leads g", "sleeves g", "equipment g"))
            assert mass_g == pytest.approx(assembly["mass_g"], abs=1.5)
            assert_same(row["moment g m"], assembly["moment_g_mm"] / 1000, 1)


def test_json_says_how_many_flights_a_charge_does() -> None:
    # As above: 2600 × 0.7 / 277.5 = 6.559.
    (supply,) = data_of(WREN)["supplies"]
    assert (supply["name"], supply["packs"], supply["flight_mah"]) == ("pack", ["pack"], pytest.approx(277.5))
    assert supply["flights_together"] == pytest.approx(6.559, abs=0.001)
    assert supply["flights_alone"] == {"pack": pytest.approx(6.559, abs=0.001)}


def test_json_shows_findings_and_nothing_stands_on_standard_error(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"aircraft.yaml": [(MEASURED, "▶{between: [battery-bay, radio-tray]}")]})
    [(file, line, number)] = aircraft_folder.marks
    shown = docgen_check(folder, "--json")
    assert (shown.exit_code, shown.stderr) == (0, "")
    (finding,) = json.loads(shown.stdout)["findings"]
    assert (finding["level"], finding["name"]) == ("note", "unmeasured")
    assert (finding["file"], finding["line"], finding["column"]) == (f"{folder}/{file}", line, number)
    # The same words as on standard error.
    assert docgen_check(folder).stderr.splitlines() == [
        f"{folder}/{file}:{line}:{number}: note unmeasured: {finding['sentence']}",
        f"  do: {finding['do']}",
    ]


# Findings


def test_with_an_error_there_are_no_tables(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(NO_UNIT))
    assert (shown.exit_code, shown.stdout) == (1, "")
    assert "error unit: " in shown.stderr


def test_with_an_error_json_has_the_finding_and_no_figures(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(NO_UNIT), "--json")
    assert (shown.exit_code, shown.stderr) == (1, "")
    data = json.loads(shown.stdout)
    assert [(finding["level"], finding["name"]) for finding in data.pop("findings")] == [("error", "unit")]
    assert data == {"circuits": [], "supplies": [], "runs": [], "assemblies": []}


def test_an_accepted_finding_is_shown_with_its_reason(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(ACCEPTED))
    assert shown.exit_code == 0
    first, *others = shown.stderr.splitlines()
    assert "note unmeasured: " in first
    assert "  accepted: not built yet" in others


def test_json_has_the_reason_of_an_accepted_finding_and_null_for_another(
    aircraft_folder: AircraftFolder,
) -> None:
    (accepted,) = data_of(aircraft_folder(ACCEPTED))["findings"]
    assert accepted["accepted"] == "not built yet"
    (other,) = data_of(aircraft_folder({"aircraft.yaml": [(MEASURED, "{between: [battery-bay, radio-tray]}")]}))[
        "findings"
    ]
    assert other["accepted"] is None


# explain


@pytest.fixture
def explain() -> Callable[[str], Result]:
    return lambda name: CliRunner().invoke(docgen, ["explain", name])


def test_a_finding_is_explained_on_standard_output(explain: Callable[[str], Result]) -> None:
    shown = explain("swap")
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert shown.stdout.startswith("swap (caution, stands on disconnect): ")
    for word in ("`shell:`", "`keyed:`", "`reach:`"):
        assert word in shown.stdout
    assert [line for line in shown.stdout.splitlines() if line != line.rstrip()] == []


@pytest.mark.parametrize(("typed", "meant"), [("swop", "swap"), ("live-pin", "live-pins"), ("Volts", "volts")])
def test_an_unknown_finding_is_wrong_use_and_the_nearest_is_offered(
    typed: str, meant: str, explain: Callable[[str], Result]
) -> None:
    refused = explain(typed)
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert f"'{typed}'" in refused.stderr
    assert f"'{meant}'" in refused.stderr


def test_a_name_like_none_is_told_with_those_there_are(explain: Callable[[str], Result]) -> None:
    refused = explain("zzzz")
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert "live-pins" in refused.stderr
