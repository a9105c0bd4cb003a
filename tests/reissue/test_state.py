"""The state that is kept of an aircraft: what stands in it, and that it reads back the same."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from resolved import EXAMPLES, harness_of, state_of_example

from docgen.basics.source import plain, read_yaml, yaml_text
from docgen.definition.identity import Same
from docgen.definition.issued import (
    IssuedEnd,
    IssuedEquipment,
    IssuedPlace,
    IssuedPorts,
    IssuedSettings,
    IssuedWire,
    State,
)
from docgen.paperwork.documents import contents_of
from docgen.reissue.state import key_of_now, make_state


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.long
def test_a_state_reads_back_the_same(tmp_path: Path, name: str) -> None:
    state = state_of_example(name)
    path = tmp_path / "state.yaml"
    path.write_text(yaml_text(state.model_dump(exclude_defaults=True)), encoding="utf-8")
    node, findings = read_yaml(path, "state.yaml")
    assert findings == []
    assert node is not None
    assert State.model_validate(plain(node)) == state


def test_a_state_holds_the_contacts_and_marks_of_the_smallest_example() -> None:
    """As `method.md` lists them: supply P1A20, left aileron C1 and C2, right C3 and C4, rudder C5 and C6."""
    state = state_of_example("wren")
    assert state.numbers == {"C": 6, "P": 1}
    assert state.disconnects["left-root"].contacts == {
        "1": "left-aileron negative",
        "2": "left-aileron positive",
        "3": "left-aileron signal",
    }
    wires = state.circuits["right-aileron"].leads["B"].wires
    assert [(wire.mark, wire.at) for wire in wires.values()] == [
        ("C3B22N", (("1",), ("1",))),
        ("C3B22", (("2",), ("2",))),
        ("C4B22", (("3",), ("3",))),
    ]


def test_a_row_to_cut_is_told_apart_in_work_and_text() -> None:
    """Wren's rudder is cut to 1335 mm (`method.md`); its mark and its ends are no reason to cut it again."""
    row = state_of_example("wren").items["cut-list"]["rudder A signal"]
    assert row.work == ("1335 mm", "WH", "22 AWG", "pvc-22")
    assert row.text == ("C6A22", "RUD", "receiver 4", "rudder")


def test_every_label_card_row_and_sheet_is_an_item_with_a_hash() -> None:
    items = state_of_example("wren").items
    assert {kind: len(some) for kind, some in items.items() if kind != "sheets"} == {
        "cut-list": 17,  # supply 2, three wires in each of 5 leads
        "wire-labels": 12,  # both ends of 6 leads
        "pinout-cards": 5,  # both halves of 2 joints, the receiver
        "record": 7,  # the whole, 2 joints, the receiver, 3 assemblies
    }
    assert {"cut-list", "order-of-work", "ring-out-sheet", "hangar-card"} <= items["sheets"].keys()
    assert all(len(item.hash) == 8 for some in items.values() for item in some.values())


# Wren, as its files and the built-in parts say it.
SERVO_HOUSING = "3 of 8 × 2.9 mm 28 AWG–22 AWG crimp 2.5 1.7 3"
ROLES = ("negative", "positive", "signal")


def test_equipment_of_a_state_has_its_ports_leads_and_figures() -> None:
    of = state_of_example("wren").equipment
    pins = IssuedPorts(names=("1", "2", "3", "4"), plug="servo-3", gender="pins", order=ROLES)
    supply = IssuedPorts(names=("BATT",), plug="power-2", gender="pins", order=ROLES[:2])
    figures: dict[str, Any] = {"working_a": 0.15, "least_v": 3.6, "most_v": 9.0}
    assert of["receiver"] == IssuedEquipment(kind="receiver", place="radio-tray", ports=(pins, supply), **figures)
    plug = IssuedPorts(plug="servo-3", gender="sockets", order=ROLES, lead_mm=300.0)
    figures = {"idle_a": 0.02, "working_a": 0.5, "stall_a": 2.4, "least_v": 4.8, "most_v": 8.4}
    assert of["rudder"] == IssuedEquipment(kind="servo", place="tail-post", ports=(plug,), **figures)
    plug = IssuedPorts(plug="power-2", gender="sockets", order=ROLES[:2], lead_mm=120.0, lead_wire="pvc-20")
    assert of["pack"] == IssuedEquipment(kind="battery", place="battery-bay", ports=(plug,))


def test_settings_of_a_state_are_what_packs_legs_and_units_say_of_themselves() -> None:
    """As the files of the examples say."""
    pack = IssuedSettings(cells=2, capacity_mah=2600.0, full_v=8.4, empty_v=6.4)
    assert state_of_example("wren").settings == {"pack": pack}
    of = state_of_example("fulmar").settings
    assert of is not None
    unit = IssuedSettings(isolates=True, fed_by=("PACK-L", "PACK-R"), output_v={"SOFT-1": 6.0, "SOFT-2": 6.0})
    assert of["power-unit"] == unit
    assert of["nose-leg"] == IssuedSettings(up_s=6.4, down_s=5.8, limit_s=8.0, stop_a=2.0)
    assert of["gear-unit"] == IssuedSettings(
        fed_by=("POWER",), drives={"GEAR": ("NOSE", "LEFT", "RIGHT"), "BRAKE": ("BRAKE-L", "BRAKE-R")}
    )
    assert "rudder" not in of


def test_a_circuit_of_a_state_has_its_ends_leads_and_wires() -> None:
    """The lead's plug carries what mates its port; a lead that came along without a wire said has the thinnest."""
    rudder = state_of_example("wren").circuits["rudder"]
    said: dict[str, Any] = {"plug": "servo-3", "housing": SERVO_HOUSING, "join": "crimp"}
    start = IssuedEnd(kind="port", name="receiver", part="4", place="radio-tray", gender="sockets", **said)
    goal = IssuedEnd(kind="port", name="rudder", place="tail-post", gender="pins", own_mm=300.0, **said)
    [lead] = rudder.leads.values()
    assert (lead.ends[0], lead.ends[1].model_copy(update={"own_wire": ""})) == (start, goal)
    assert (lead.part, lead.bought, lead.cut_mm, lead.route) == ("servo-22", False, 1335, ("radio-tray", "tail-post"))
    assert list(lead.wires.items())[2] == (
        "signal",
        IssuedWire(mark="C6A22", colour="WH", gauge="22 AWG", wire="pvc-22", at=(("3",), ("3",))),
    )
    assert (rudder.label, rudder.ends, rudder.channel, rudder.throw) == (
        "RUD",
        (("receiver", "4"), ("rudder",)),
        4,
        "40 mm each way",
    )
    assert (rudder.numbers, rudder.letters, rudder.failsafe) == (
        {"negative": "C5", "positive": "C5", "signal": "C6"},
        ("A",),
        "",
    )
    aileron = state_of_example("wren").circuits["left-aileron"].leads
    ends = [
        (end.kind, end.name, end.part, end.plug, end.gender, end.place)
        for end in (aileron["A"].ends[1], aileron["B"].ends[0])
    ]
    assert ends == [
        ("half", "left-root", "fixed", "block-6", "sockets", "left-root"),
        ("half", "left-root", "loose", "block-6", "pins", "left-panel-root"),
    ]
    assert aileron["B"].ends[0].housing == "6 of 20 × 12 mm 24 AWG–18 AWG crimp 4 2.2 10"


def test_joints_and_places_of_a_state_are_those_of_the_files_and_its_highest_numbers_in_order() -> None:
    state = state_of_example("wren")
    halves = [(half.name, half.place, half.gender) for half in state.disconnects["right-root"].halves]
    assert halves == [("fixed", "right-root", "sockets"), ("loose", "right-panel-root", "pins")]
    assert state.disconnects["right-root"].shell == "block-6"
    assert state.places["right-aileron"] == IssuedPlace(assembly="right-panel", access="servo cover")
    assert list(state.numbers) == ["C", "P"]
    assert (state.issue, state.after, state.date, state.aircraft, state.marks) == (
        "A",
        "",
        "2026-04-18",
        "Wren",
        "WR-7",
    )


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_figures_sleeves_and_findings_of_a_state_are_those_of_the_harness(name: str) -> None:
    harness, state = harness_of(EXAMPLES / name), state_of_example(name)
    for circuit, of in harness.results.circuits.items():
        told = state.circuits[circuit].figures
        found = (told.working_a, told.stall_a, told.drop_v, told.stalled_drop_v, told.left_v)
        expected = (of.working_a, of.stall_a, of.own_drop_v, of.stalled_drop_v, of.volts_left_v)
        assert found == tuple(figure and pytest.approx(figure, abs=5e-5) for figure in expected), circuit
        assert told.case == (of.case or "")
    for joint, of_joint in harness.disconnects.items():
        carried = {contact: f"{use.of} {use.role}" for contact, use in of_joint.uses.items() if not use.is_common}
        assert state.disconnects[joint].contacts == carried
        shared = {common: form.contacts for common, form in of_joint.commons.items()}
        assert state.disconnects[joint].commons == shared
    for bundle in harness.bundles:
        if bundle.sleeve is not None:
            sleeve = state.sleeves[" to ".join(bundle.sleeve.ends)]
            lengths = [harness.runs[run].length_mm for run in bundle.sleeve.runs]
            assert sleeve.run_mm == (None if None in lengths else pytest.approx(sum(filter(None, lengths))))
            assert (sleeve.kind, sleeve.splits) == (bundle.sleeve.kind.name, bundle.sleeve.kind.splits)
            assert sleeve.leads == bundle.leads
    told_of = [(finding.name, finding.level, finding.sentence) for finding in state.findings]
    assert told_of == [(each.name, each.level, " ".join(each.sentence.split())) for each in harness.findings]
    for finding, told_finding in zip(harness.findings, state.findings, strict=True):
        section, entry = finding.subject
        on = " to ".join(harness.runs[int(entry)].between) if section == "runs" else entry
        assert told_finding.on == f"{section} {on}"


def test_an_item_says_since_when_it_says_what_it_says_under_the_name_of_now() -> None:
    harness, before = harness_of(EXAMPLES / "wren"), state_of_example("wren")
    contents = contents_of(harness)
    changed = before.items["wire-labels"]["rudder A to"].model_copy(update={"hash": "00000000"})
    labels = {**before.items["wire-labels"], "rudder A to": changed}
    del labels["supply A from"]
    last = before.model_copy(update={"items": {**before.items, "wire-labels": labels}})
    now = make_state(harness, contents, "B", last)
    since_b = {f"{kind} {key}" for kind, some in now.items.items() for key, item in some.items() if item.since == "B"}
    assert since_b == {"wire-labels rudder A to", "wire-labels supply A from"}
    assert (now.after, now.issue) == ("A", "B")


@pytest.mark.parametrize(
    ("kind", "key", "now"),
    [
        ("wire-labels", "rudder A to", "yaw A to"),
        ("cut-list", "rudder A signal", "yaw A signal"),
        ("pinout-cards", "root fixed", "wing fixed"),
        ("record", "rudder", "fin"),
        ("pinout-cards", "rudder", "fin"),
        ("wire-labels", "aileron A to", "aileron A to"),
    ],
)
def test_the_key_of_an_item_is_that_of_its_circuit_joint_or_equipment_now(kind: str, key: str, now: str) -> None:
    same = Same({"rudder": "fin"}, {"root": "wing"}, {"rudder": "yaw"}, ())
    assert key_of_now(kind, key, same) == now
