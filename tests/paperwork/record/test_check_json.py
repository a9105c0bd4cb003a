"""What `docgen check --json` shows: the same as the tables, and findings with their reasons."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from checked import ACCEPTED, FULMAR, MEASURED, NO_UNIT, NOTHING, WREN, data_of, docgen_check, tables_in, text_of

if TYPE_CHECKING:
    from conftest import AircraftFolder


def assert_same(shown: str, value: float | None, decimals: int) -> None:
    """Ensure that a table shows a value, rounded to so many decimals."""
    if value is None:
        assert shown == NOTHING
    else:
        assert re.fullmatch(rf"-?\d+\.\d{{{decimals}}}" if decimals else r"-?\d+", shown)
        assert float(shown) == pytest.approx(value, abs=0.5 * 10**-decimals + 1e-5)


# By hand, as beside the tables: each pole of a lead at its cut length, ohm by table 11-9 of AC 43.13-1B, contacts.
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
        [["radio-tray", "tail-post"], 1140, ["rudder A"], "braid-4", 1120],
        [["left-panel-root", "left-aileron"], 745, ["left-aileron B"], "braid-4", 785],
        [["right-panel-root", "right-aileron"], 745, ["right-aileron B"], "braid-4", 785],
    ]
    assert [run["diameter_mm"] for run in data["runs"]] == pytest.approx([3.6, *[3.4475] * 5], abs=1e-4)
    assert [run["bend_radius_mm"] for run in data["runs"]] == pytest.approx([10.8, *[10.3426] * 5], abs=1e-3)


def test_json_has_the_mass_and_moment_of_assemblies(data: Any) -> None:
    # Results as beside the table: 4.81 + 2 × 5.055 + 24.186 = 39.106 g.
    masses = [(one["name"], one["mass_g"]) for one in data["assemblies"]]
    assert masses == [
        ("fuselage", pytest.approx(39.106)),
        ("left-panel", pytest.approx(18.657)),
        ("right-panel", pytest.approx(18.657)),
    ]
    moments = [one["moment_g_mm"] for one in data["assemblies"]]
    assert moments == pytest.approx([1443 + 2 * 5.055 * 510 + 24.186 * 980, 18.657 * 645, 18.657 * 645], abs=0.1)


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
    # By hand: 2600 × 0.7 / 277.5 = 6.559.
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
        "1 note.",
    ]


def test_with_an_error_json_has_the_finding_and_no_figures(aircraft_folder: AircraftFolder) -> None:
    shown = docgen_check(aircraft_folder(NO_UNIT), "--json")
    assert (shown.exit_code, shown.stderr) == (1, "")
    data = json.loads(shown.stdout)
    assert [(finding["level"], finding["name"]) for finding in data.pop("findings")] == [("error", "unit")]
    assert data == {"circuits": [], "supplies": [], "runs": [], "assemblies": [], "functions": [], "losses": []}


def test_json_has_the_reason_of_an_accepted_finding_and_null_for_another(
    aircraft_folder: AircraftFolder,
) -> None:
    (accepted,) = data_of(aircraft_folder(ACCEPTED))["findings"]
    assert accepted["accepted"] == "not built yet"
    (other,) = data_of(aircraft_folder({"aircraft.yaml": [(MEASURED, "{between: [battery-bay, radio-tray]}")]}))[
        "findings"
    ]
    assert other["accepted"] is None


def test_json_has_a_remedy_by_the_names_of_the_definition_and_null_where_there_is_none(
    aircraft_folder: AircraftFolder,
) -> None:
    # 2 × 1.33 m of wire, 2 × 0.3 m of the servo's 26 AWG (131.46 mΩ/m), 40 mΩ of contacts: × 2.4 A of 24 AWG (83.27
    # mΩ/m) 0.82 V, of 0.25 mm² (72) 0.75 V, of 22 AWG (53.15) 0.62 V; 0.64 V may be.
    thin = ("    to: rudder\n    lead: servo-22\n", "    to: rudder\n    lead: servo-24\n")
    (drop,) = data_of(aircraft_folder({"harness.yaml": [thin]}))["findings"]
    assert drop["remedy"] == {"circuit": "rudder", "lead": "servo-22"}
    (other,) = data_of(aircraft_folder(ACCEPTED))["findings"]
    assert other["remedy"] is None
