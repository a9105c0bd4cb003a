"""Laws that hold whatever the figures are: of drop and length, of order and side, of heat and of contacts."""

from __future__ import annotations

import json
import re
import tempfile
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from reference.conversions import FOOT_MM
from reference.wire_tables import NOMINAL_TINNED_OHM_PER_1000_FT, TABLE_11_9_OHM_PER_1000_FT
from resolved import EXAMPLES, harness_of, known

from docgen.cli import docgen

Text = dict[str, Any]
few = settings(max_examples=5, deadline=None)

# pvc-22, and lead-26 of the servo's own lead.
WIRE_OHM_PER_M = TABLE_11_9_OHM_PER_1000_FT[22] / FOOT_MM
OWN_OHM_PER_M = NOMINAL_TINNED_OHM_PER_1000_FT[26, "19/38"] / FOOT_MM
COPPER_PER_K = 0.00393  # Industrial Power Engineering & Applications Handbook, p. 970
OWN_LEAD_MM = 250
# What is said of a circuit is rounded to 6 decimals.
ROUNDED = 2e-6

runs_mm = st.integers(50, 3000)
currents_ma = st.integers(1, 2500)
temperatures_c = st.integers(20, 160)


def servo(place: str, working_ma: float, stall_ma: float | None = None) -> Text:
    current = {"working": f"{working_ma} mA", "stall": f"{working_ma if stall_ma is None else stall_ma} mA"}
    return {
        "kind": "servo",
        "place": place,
        "plug": "servo-3",
        "lead": f"{OWN_LEAD_MM} mm",
        "current": current,
        "volts": {"least": "4 V"},
    }


def run(first: str, second: str, length_mm: float, **more: str) -> Text:
    return {"between": [first, second], "length": f"{length_mm} mm", **more}


def definition(*runs: Text, working_ma: float = 500, lead: str = "servo-22") -> dict[str, Text]:
    """Return an aircraft of a pack, a power unit and one servo, on these runs between tray and tail."""
    places = {place: {"assembly": "fuselage", "access": "hatch"} for place in ("tray", "middle", "tail")}
    battery = {"cells": "2", "capacity": "2600 mAh", "full": "8.4 V", "empty": "6.6 V"}
    return {
        "aircraft.yaml": {
            "aircraft": {"name": "Knot", "description": "law", "marks": "KN-1", "revision": "A", "date": "2026-01-01"},
            "places": places,
            "runs": list(runs),
        },
        "harness.yaml": {
            "equipment": {
                "pack": {"kind": "battery", "place": "tray", "plug": "power-2", "lead": "90 mm", "battery": battery},
                "unit": {
                    "kind": "power unit",
                    "place": "tray",
                    "volts": {"least": "4 V"},
                    "ports": [
                        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
                        {"plug": "servo-3", "names": "1..6", "contacts": "pins"},
                        {"plug": "power-2", "names": ["OUT"], "contacts": "pins"},
                    ],
                },
                "rudder": servo("tail", working_ma),
            },
            "circuits": {
                "supply": {"from": "pack", "to": "unit IN", "lead": "power-20"},
                "rudder": {"from": "unit 1", "to": "rudder", "lead": lead},
            },
        },
    }


def circuits(files: dict[str, Text]) -> dict[str, Any]:
    """Return what the program says of each circuit; the definition has no error."""
    with tempfile.TemporaryDirectory() as folder:
        for file, text in files.items():
            (Path(folder) / file).write_text(json.dumps(text, ensure_ascii=False), "utf-8")  # JSON is YAML too
        result = CliRunner().invoke(docgen, ["check", folder, "--json"])
    assert result.exit_code == 0, result.output
    return {circuit["name"]: circuit for circuit in json.loads(result.stdout)["circuits"]}


def rudder(*runs: Text, working_ma: float = 500, lead: str = "servo-22") -> Any:
    return circuits(definition(*runs, working_ma=working_ma, lead=lead))["rudder"]


# Length and gauge


@few
@given(runs_mm, runs_mm)
def test_a_longer_wire_never_drops_less(one_mm: int, other_mm: int) -> None:
    short, long = (rudder(run("tray", "tail", length_mm)) for length_mm in sorted((one_mm, other_mm)))
    assert short["own_drop_v"] <= long["own_drop_v"]
    assert short["volts_left_v"] >= long["volts_left_v"]


@few
@given(runs_mm, currents_ma, st.sampled_from(list(pairwise(("servo-20", "servo-22", "servo-24", "servo-26")))))
def test_a_thicker_gauge_never_drops_more(run_mm: int, working_ma: int, leads: tuple[str, str]) -> None:
    thick, thin = (rudder(run("tray", "tail", run_mm), working_ma=working_ma, lead=lead) for lead in leads)
    assert thick["own_drop_v"] <= thin["own_drop_v"]
    assert thick["volts_left_v"] >= thin["volts_left_v"]


@few
@given(st.lists(st.tuples(st.sampled_from(["tray", "middle", "tail"]), runs_mm), min_size=1, max_size=3), runs_mm)
def test_a_run_added_never_makes_a_wire_longer(added: list[tuple[str, int]], direct_mm: int) -> None:
    runs, before_mm = [run("tray", "tail", direct_mm)], None
    for place, length_mm in [("", 0), *added]:
        if place:
            runs.append(run(place, "middle" if place != "middle" else "tail", length_mm))
        after_mm = rudder(*runs)["length_mm"]
        assert before_mm is None or after_mm <= before_mm
        before_mm = after_mm


# Current


def test_without_current_nothing_drops() -> None:
    still = rudder(run("tray", "tail", 2000), working_ma=0)
    assert (still["working_a"], still["own_drop_v"]) == (0, 0)
    assert still["volts_left_v"] == pytest.approx(6.6, abs=ROUNDED)


def test_what_works_at_nothing_still_drops_when_it_stalls() -> None:
    files = definition(run("tray", "tail", 2000))
    files["harness.yaml"]["equipment"]["rudder"] = servo("tail", 0, 1000)
    said = circuits(files)["rudder"]
    # 1 A over both poles: the lead, the own lead, and a servo plug of 10 mohm (common practice) at each end.
    ohm = 2 * (said["length_mm"] * WIRE_OHM_PER_M + OWN_LEAD_MM * OWN_OHM_PER_M) / 1000 + 4 * 0.010
    assert (said["own_drop_v"], said["stalled_drop_v"]) == pytest.approx((0, ohm), abs=ROUNDED)


@few
@given(runs_mm, currents_ma)
def test_twice_the_current_drops_twice_as_much(run_mm: int, working_ma: int) -> None:
    once, twice = (rudder(run("tray", "tail", run_mm), working_ma=times * working_ma) for times in (1, 2))
    assert twice["own_drop_v"] == pytest.approx(2 * once["own_drop_v"], abs=ROUNDED)
    assert 6.6 - twice["volts_left_v"] == pytest.approx(2 * (6.6 - once["volts_left_v"]), abs=2 * ROUNDED)


# Order and side


def with_surfaces() -> dict[str, Text]:
    files = definition(run("tray", "middle", 300), run("middle", "tail", 700))
    harness = files["harness.yaml"]
    for number, place in enumerate(("middle", "tail", "middle", "tail", "tail"), 2):
        # All stall and no two alike, so that order decides nothing at peak.
        harness["equipment"][f"flap-{number}"] = servo(place, 100 * number, 700 + 111 * number)
        said = {"from": f"unit {number}", "to": f"flap-{number}", "lead": "servo-22", "loop": f"{10 * number} mm"}
        harness["circuits"][f"flap-{number}"] = said
    return files


@few
@given(st.permutations(list(with_surfaces()["harness.yaml"]["circuits"])))
def test_the_order_of_circuits_changes_no_length_current_or_volts(order: list[str]) -> None:
    files = with_surfaces()
    before = circuits(files)
    harness = files["harness.yaml"]
    harness["circuits"] = {name: harness["circuits"][name] for name in order}
    after = circuits(files)
    assert after.keys() == before.keys()
    for name, said in before.items():
        for key in ("length_mm", "working_a", "stall_a", "own_drop_v", "stalled_drop_v", "volts_left_v"):
            assert after[name][key] == pytest.approx(said[key], abs=ROUNDED), f"{key} of {name}"


@few
@given(runs_mm, st.integers(0, 200), currents_ma)
def test_mirrored_sides_come_out_equal(panel_mm: int, loop_mm: int, working_ma: int) -> None:
    files = definition(
        run("tray", "tail", 500), run("tray", "<side>-root", 240), run("<side>-panel-root", "<side>-tip", panel_mm)
    )
    files["aircraft.yaml"]["places"] |= {
        "<side>-root": {"assembly": "fuselage", "at": {"aft": "600 mm", "<side>": "80 mm"}, "access": "wing off"},
        "<side>-panel-root": {"assembly": "<side>-panel", "at": {"aft": "600 mm", "<side>": "90 mm"}},
        "<side>-tip": {"assembly": "<side>-panel", "access": "cover"},
    }
    harness = files["harness.yaml"]
    harness["equipment"]["<side>-aileron"] = servo("<side>-tip", working_ma, 2600)
    harness["disconnects"] = {
        "<side>-joint": {
            "shell": "block-6",
            "fixed": {"place": "<side>-root", "contacts": "sockets"},
            "loose": {"place": "<side>-panel-root", "contacts": "pins", "reach": "120 mm"},
        }
    }
    harness["circuits"]["<side>-aileron"] = {
        "from": {"left": "unit 2", "right": "unit 3"},
        "to": "<side>-aileron",
        "through": ["<side>-joint"],
        "lead": "servo-22",
        "loop": f"{loop_mm} mm",
    }
    said = circuits(files)
    left, right = said["left-aileron"], said["right-aileron"]
    for key in ("length_mm", "working_a", "stall_a", "own_drop_v", "stalled_drop_v", "volts_left_v"):
        assert left[key] == pytest.approx(right[key], abs=ROUNDED), key
    assert left["shares"] == pytest.approx(right["shares"], abs=ROUNDED)


# Heat


def hotter_by(hot: Any, cold: Any, own_lead_mm: float, temperature_c: float) -> None:
    """Hold the drop of a hot circuit against what copper makes of it: both poles at 500 mA, contacts as they were."""
    assert hot["length_mm"] == cold["length_mm"]
    wires_ohm = 2 * (cold["length_mm"] * WIRE_OHM_PER_M + own_lead_mm * OWN_OHM_PER_M) / 1000
    more_v = 0.5 * wires_ohm * COPPER_PER_K * (temperature_c - 20)
    assert hot["own_drop_v"] >= cold["own_drop_v"]
    assert hot["own_drop_v"] - cold["own_drop_v"] == pytest.approx(more_v, abs=ROUNDED)


@few
@given(runs_mm, temperatures_c)
def test_a_hot_run_adds_what_copper_does_to_the_lead_that_lies_in_it(run_mm: int, temperature_c: int) -> None:
    cold = rudder(run("tray", "tail", run_mm))
    hot = rudder(run("tray", "tail", run_mm, heat=f"{temperature_c} °C"))
    hotter_by(hot, cold, 0, temperature_c)


@few
@given(runs_mm, temperatures_c)
def test_a_hot_place_adds_what_copper_does_to_the_own_lead_there_too(run_mm: int, temperature_c: int) -> None:
    files = definition(run("tray", "tail", run_mm))
    cold = circuits(files)["rudder"]
    files["aircraft.yaml"]["places"]["tail"]["heat"] = f"{temperature_c} °C"
    hotter_by(circuits(files)["rudder"], cold, OWN_LEAD_MM, temperature_c)


@few
@given(temperatures_c, temperatures_c)
def test_the_hottest_of_a_way_counts_for_all_of_it(first_c: int, second_c: int) -> None:
    cold = rudder(run("tray", "middle", 400), run("middle", "tail", 600))
    heats = [f"{temperature_c} °C" for temperature_c in (first_c, second_c)]
    hot = rudder(run("tray", "middle", 400, heat=heats[0]), run("middle", "tail", 600, heat=heats[1]))
    hotter_by(hot, cold, 0, max(first_c, second_c))


# Contacts side by side


def lamp_drop_v(contacts: int, contact_mohm: int) -> float:
    """Return the drop of one of two lamps of 400 and 900 mA behind commons with this many contacts a pole."""
    files = definition(run("tray", "tail", 500), run("panel-root", "tip", 800))
    files["aircraft.yaml"]["places"] |= {
        "panel-root": {"assembly": "panel", "access": "wing off"},
        "tip": {"assembly": "panel", "access": "cover"},
    }
    contact = {"rating": "10 A", "resistance": f"{contact_mohm} mohm", "strip": "4 mm", "takes": ["24 AWG", "18 AWG"]}
    files["parts.yaml"] = {
        "shells": {
            "wide-8": {
                "rows": [["1", "2", "3", "4"], ["5", "6", "7", "8"]],
                "pitch": {"across": "5 mm", "down": "5 mm"},
                "outline": ["25 mm", "12 mm"],
                "key": "up",
                "contact": contact,
            }
        }
    }
    harness = files["harness.yaml"]
    numbers = [str(number) for number in range(1, 9)]
    harness["disconnects"] = {
        "joint": {
            "shell": "wide-8",
            "fixed": {"place": "tail", "contacts": "sockets"},
            "loose": {"place": "panel-root", "contacts": "pins", "reach": "120 mm"},
            "commons": {
                "minus": {"role": "negative", "contacts": numbers[:contacts]},
                "plus": {"role": "positive", "contacts": numbers[4 : 4 + contacts]},
            },
        }
    }
    harness["circuits"]["heavy"] = {"from": "unit OUT", "to": "joint minus plus", "lead": "power-20"}
    for name, working_ma in (("lamp", 400), ("beacon", 900)):
        harness["equipment"][name] = {
            "kind": "light",
            "place": "tip",
            "plug": "light-2",
            "lead": "100 mm",
            "current": {"working": f"{working_ma} mA"},
            "volts": {"least": "4 V"},
        }
        harness["circuits"][name] = {"from": "joint minus plus", "to": name, "lead": "light-24"}
    return float(circuits(files)["lamp"]["own_drop_v"])


@pytest.mark.parametrize("contacts", [1, 2, 3])
def test_contacts_side_by_side_share_what_one_would_drop(contacts: int) -> None:
    # 12 mohm more in each contact, 400 + 900 mA over both poles: 1.3 A × 2 × 0.012 ohm over their number.
    more_v = lamp_drop_v(contacts, 20) - lamp_drop_v(contacts, 8)
    assert more_v == pytest.approx(1.3 * 2 * 0.012 / contacts, abs=ROUNDED)


def test_the_parallel_of_two_contacts_is_half_of_one() -> None:
    one_v, two_v = (lamp_drop_v(contacts, 500) - lamp_drop_v(contacts, 0) for contacts in (1, 2))
    assert two_v == pytest.approx(one_v / 2, abs=ROUNDED)


def heavy_drops_v(folder: Path, factor: int) -> list[float]:
    """Return what the heavy pairs of the demanding example drop with so many times the working currents."""
    folder.mkdir()
    for path in (EXAMPLES / "fulmar").glob("*.yaml"):
        parts = re.split(r"(?<=working: )([\d.]+)", path.read_text("utf-8"))
        parts[1::2] = [f"{factor * float(figure):g}" for figure in parts[1::2]]
        (folder / path.name).write_text("".join(parts), "utf-8")
    circuits = harness_of(folder).results.circuits
    return [known(circuits[f"{side}-wing-supply"].own_drop_v) for side in ("left", "right")]


def test_with_twice_the_current_a_heavy_pair_that_ends_at_commons_drops_twice(tmp_path: Path) -> None:
    """Ohm's law, of all that it feeds working; its wing shares nothing with any other."""
    once, twice = (heavy_drops_v(tmp_path / f"{factor}", factor) for factor in (1, 2))
    assert twice == pytest.approx([2 * drop_v for drop_v in once])
    assert min(once) > 0
