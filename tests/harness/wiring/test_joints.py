"""Disconnects as built: which half carries pins, and which wire stands behind each contact of each half."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding
from docgen.harness.model.circuits import CutLead, End, Lead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import ContactUse, Disconnect
from docgen.pipeline import check

AIRCRAFT = """
aircraft: {name: A, description: B, marks: C, revision: A, date: 2026-01-01}
places:
  tray: {assembly: fuselage, access: canopy}
  root: {assembly: fuselage, access: wing off}
  panel-root: {assembly: panel, access: wing off}
  servo-bay: {assembly: panel, access: servo cover}
  pack-bay: {assembly: panel, access: pack cover}
runs:
  - {between: [tray, root], length: 200 mm}
  - {between: [panel-root, servo-bay], length: 700 mm}
  - {between: [panel-root, pack-bay], length: 300 mm}
"""
# The pack is in the panel, so supply comes out of it and surfaces' circuits go into it.
HARNESS = """
equipment:
  pack: {kind: battery, place: pack-bay, lead: 90 mm, lead_wire: pvc-20, plug: power-2, battery: CELLS}
  receiver:
    kind: receiver
    place: tray
    ports: [{plug: servo-3, names: 1..2, contacts: pins}, {plug: power-2, names: [BATT], contacts: pins}]
  servo: {kind: servo, place: servo-bay, lead: 200 mm, plug: servo-3}
disconnects:
  joint: {shell: SHELL, HALVES}
circuits:
  supply: {from: pack, to: receiver BATT, through: [joint], lead: power-20}
  servo: {from: receiver 1, to: servo, through: [joint], lead: LEAD, omit: OMIT}
"""
CELLS = "{cells: 2, capacity: 2600 mAh, full: 8.4 V, empty: 6.4 V}"
FIXED = "fixed: {place: root, contacts: sockets}, loose: {place: panel-root, contacts: pins, reach: 90 mm}"
SUPPLY = "  supply: {from: pack, to: receiver BATT, through: [joint], lead: power-20}\n"
# Plain joints carry one circuit, so there the pack is in the fuselage.
AT_THE_TRAY = ("{kind: battery, place: pack-bay", "{kind: battery, place: tray")

Build = Callable[..., Harness]
Texts = Callable[..., dict[str, str | None]]


@pytest.fixture
def texts() -> Texts:
    def written(
        shell: str = "block-6", halves: str = FIXED, lead: str = "servo-22", omit: str = "[]"
    ) -> dict[str, str | None]:
        text = HARNESS.replace("SHELL", shell).replace("HALVES", halves).replace("CELLS", CELLS)
        text = text.replace("LEAD", lead).replace("OMIT", omit)
        if shell == "servo-3":
            text = text.replace(SUPPLY, SUPPLY.replace(", through: [joint]", "")).replace(*AT_THE_TRAY)
        return {"aircraft.yaml": AIRCRAFT, "harness.yaml": text, "stores.yaml": None}

    return written


@pytest.fixture
def build(aircraft_folder: Callable[..., Path], texts: Texts) -> Callable[..., Harness]:
    """Build the harness with one joint; what is not said is as above."""

    def built(parts: str | None = None, **said: str) -> Harness:
        changes = texts(**said) | ({"parts.yaml": parts} if parts else {})
        checked = check(aircraft_folder(changes))
        assert checked.harness is not None, checked.findings
        return checked.harness

    return built


def circuits_of(disconnect: Disconnect) -> dict[str, tuple[str, str]]:
    """Return circuit and role of each contact, the role being the same behind both halves."""
    found = {}
    for contact, use in disconnect.uses.items():
        first, second = wires_of(use)
        assert first.role == second.role
        found[contact] = (use.of, first.role)
    return found


def wires_of(use: ContactUse) -> tuple[Wire, Wire]:
    """Return the wires behind both halves, where there are both."""
    first, second = use.wires.values()
    assert isinstance(first, Wire)
    assert isinstance(second, Wire)
    return first, second


def leads_behind(harness: Harness, use: ContactUse) -> list[CutLead]:
    """Return the leads that the wires behind a contact belong to; no two wires of a harness have one mark."""
    by_mark = {wire.mark: lead for lead in harness.cut_leads() for wire in lead.wires}
    return [by_mark[wire.mark] for wire in wires_of(use)]


def ends_at(harness: Harness, disconnect: str, half: str) -> list[tuple[Lead, End]]:
    """Return the ends that leads have at one half, each with its lead."""
    return [
        (lead, end)
        for lead in harness.leads()
        for end in lead.ends
        if end.kind == "half" and (end.name, end.part) == (disconnect, half)
    ]


def test_each_half_carries_what_is_written(build: Build) -> None:
    halves = build().disconnects["joint"].halves
    assert [(half.name, half.place, half.gender) for half in halves] == [
        ("fixed", "root", "sockets"),
        ("loose", "panel-root", "pins"),
    ]


@pytest.mark.parametrize(
    ("fixed", "loose"), [(", contacts: pins", ""), ("", ", contacts: sockets")], ids=["fixed", "loose"]
)
def test_a_half_that_does_not_say_mates_with_the_other(build: Build, fixed: str, loose: str) -> None:
    halves = f"fixed: {{place: root{fixed}}}, loose: {{place: panel-root, reach: 90 mm{loose}}}"
    built = build(halves=halves).disconnects["joint"].halves
    assert [half.gender for half in built] == ["pins", "sockets"]


@pytest.mark.parametrize(("other", "names"), [("pins", ["mate"]), ("sockets", [])])
def test_two_halves_that_carry_the_same_can_not_be_mated(
    aircraft_folder: Callable[..., Path],
    texts: Texts,
    errors_in: Callable[[Path], list[Finding]],
    other: str,
    names: list[str],
) -> None:
    halves = f"fixed: {{place: root, contacts: {other}}}, "
    halves += "loose: {place: panel-root, contacts: pins, reach: 90 mm}"
    assert [finding.name for finding in errors_in(aircraft_folder(texts(halves=halves)))] == names


def test_a_lead_carries_what_mates_with_the_port(build: Build) -> None:
    circuit = build().circuits["servo"]
    # A receiver has pins, so the plug carries sockets; a servo's own plug has sockets, so pins go there.
    (load,) = circuit.loads
    assert (circuit.start.gender, load.gender) == ("sockets", "pins")


def test_two_loose_halves_are_known_by_their_assemblies(build: Build) -> None:
    halves = "halves: [{place: root, contacts: sockets, reach: 60 mm}, {place: panel-root, reach: 90 mm}]"
    built = build(halves=halves).disconnects["joint"].halves
    assert [(h.name, h.fixed, h.reach_mm, h.gender) for h in built] == [
        ("fuselage", False, 60, "sockets"),
        ("panel", False, 90, "pins"),
    ]


def test_two_loose_halves_in_one_assembly_are_known_by_their_order(
    aircraft_folder: Callable[..., Path], texts: Texts
) -> None:
    halves = "halves: [{place: root, contacts: sockets, reach: 60 mm}, {place: panel-root, reach: 90 mm}]"
    changes = texts(halves=halves)
    assert changes["aircraft.yaml"] is not None
    changes["aircraft.yaml"] = changes["aircraft.yaml"].replace("assembly: panel", "assembly: fuselage")
    assert changes["harness.yaml"] is not None
    text = changes["harness.yaml"].replace(SUPPLY, SUPPLY.replace(", through: [joint]", ""))
    changes["harness.yaml"] = text.replace(*AT_THE_TRAY)
    checked = check(aircraft_folder(changes))
    assert checked.harness is not None, checked.findings
    disconnect = checked.harness.disconnects["joint"]
    assert [half.name for half in disconnect.halves] == ["supply side", "load side"]
    assert [lead.segment for lead in leads_behind(checked.harness, disconnect.uses["1"])] == ["A", "B"]


def test_of_a_fixed_joint_in_one_assembly_each_circuit_meets_the_nearer_half_first(
    aircraft_folder: Callable[..., Path], texts: Texts
) -> None:
    changes = texts()
    assert changes["aircraft.yaml"] is not None
    changes["aircraft.yaml"] = changes["aircraft.yaml"].replace("assembly: panel", "assembly: fuselage")
    harness = check(aircraft_folder(changes)).harness
    assert harness is not None
    # The servo's circuit comes from the tray, 200 mm from the fixed half; the supply from the bay beyond the loose one.
    met = {name: [lead.ends[1].part for lead in circuit.leads] for name, circuit in harness.circuits.items()}
    assert met == {"servo": ["fixed", ""], "supply": ["loose", "BATT"]}


def test_both_tails_of_loose_halves_are_reached(build: Build) -> None:
    halves = "halves: [{place: root, contacts: sockets, reach: REACH}, {place: panel-root, reach: 90 mm}]"
    short, long = (
        [lead.cut_length_mm for lead in build(halves=halves.replace("REACH", reach)).circuits["servo"].cut_leads]
        for reach in ("60 mm", "1060 mm")
    )
    assert short[0] is not None
    assert long[0] is not None
    # A metre more of one tail is a metre of twisted lead more on its own side: 1000 × 1.0266, in 5 mm steps.
    assert 1022 <= long[0] - short[0] <= 1032
    assert short[1] == long[1]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_the_leads_behind_a_contact_end_at_that_half_in_that_contact(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for disconnect in harness.disconnects.values():
        for half in disconnect.halves:
            for lead, end in ends_at(harness, disconnect.name, half.name):
                assert end.gender == half.gender
                for wire in (wire for wire in lead.wires if wire.role not in end.commons):
                    (contact,) = end.contacts[wire.role]
                    use = disconnect.uses[contact]
                    assert (use.of, use.wires[half.name]) == (lead.circuit, wire)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_wire_that_ends_at_a_disconnect_is_behind_one_contact_of_it(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    ending = sorted(
        (end.name, end.part, wire.mark)
        for lead in harness.leads()
        for end in lead.ends
        for wire in lead.wires
        if end.kind == "half"
    )
    behind = []
    for disconnect in harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            wires = [use.wires.get(half.name) for use in disconnect.uses.values() if not use.is_common]
            for common in disconnect.commons.values():
                wires += [wire for _, wire in common.halves[index].wires]
            behind += [(disconnect.name, half.name, wire.mark) for wire in wires if isinstance(wire, Wire)]
    assert ending == sorted(behind)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_spare_and_used_contacts_are_all_of_the_shell(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for disconnect in harness.disconnects.values():
        assert sorted([*disconnect.spares, *disconnect.uses]) == sorted(disconnect.shell.contacts)


def test_a_circuit_out_of_the_panel_has_its_second_lead_behind_the_fixed_half(build: Build) -> None:
    harness = build()
    use = harness.disconnects["joint"].uses["1"]
    assert (use.of, [lead.segment for lead in leads_behind(harness, use)]) == ("supply", ["B", "A"])
    assert [wire.mark for wire in wires_of(use)] == ["P1B20N", "P1A20N"]


def test_a_circuit_into_the_panel_has_its_first_lead_behind_the_fixed_half(build: Build) -> None:
    harness = build()
    use = harness.disconnects["joint"].uses["3"]
    assert (use.of, [lead.segment for lead in leads_behind(harness, use)]) == ("servo", ["A", "B"])
    assert [wire.mark for wire in wires_of(use)] == ["C1A22N", "C1B22N"]


def test_a_plain_joint_of_servo_plugs_carries_each_role_on_the_plug_s_contact(build: Build) -> None:
    # The parts list has the positive in the middle: contacts 1 negative, 2 positive, 3 signal.
    disconnect = build(shell="servo-3").disconnects["joint"]
    assert circuits_of(disconnect) == {
        "1": ("servo", "negative"),
        "2": ("servo", "positive"),
        "3": ("servo", "signal"),
    }


def test_a_plain_joint_goes_by_roles_and_not_by_the_order_of_wires(build: Build) -> None:
    parts = "leads: {turned: {wires: {signal: pvc-22 WH, positive: pvc-22 RD, negative: pvc-22 BK}}}\n"
    disconnect = build(shell="servo-3", lead="turned", parts=parts).disconnects["joint"]
    assert {contact: wires_of(use)[0].colour for contact, use in disconnect.uses.items()} == {
        "1": "BK",
        "2": "RD",
        "3": "WH",
    }


def test_a_plain_joint_lacks_no_role_of_its_circuit(
    aircraft_folder: Callable[..., Path], texts: Texts, errors_in: Callable[[Path], list[Finding]]
) -> None:
    wires = "{negative: pvc-22 BK, positive: pvc-22 RD, data: pvc-22 WH}"
    changes = texts(shell="servo-3", lead="with-data") | {"parts.yaml": f"leads: {{with-data: {{wires: {wires}}}}}\n"}
    assert {finding.name for finding in errors_in(aircraft_folder(changes))} == {"role"}


def test_a_role_left_out_takes_no_contact_of_a_shell(build: Build) -> None:
    disconnect = build(omit="[positive]").disconnects["joint"]
    assert circuits_of(disconnect) == {
        "1": ("supply", "negative"),
        "2": ("supply", "positive"),
        "3": ("servo", "negative"),
        "4": ("servo", "signal"),
    }


def test_a_role_left_out_leaves_its_contact_of_a_plain_joint_empty(build: Build) -> None:
    disconnect = build(shell="servo-3", omit="[positive]").disconnects["joint"]
    assert circuits_of(disconnect) == {"1": ("servo", "negative"), "3": ("servo", "signal")}
    assert disconnect.spares == ("2",)


def test_a_role_left_out_is_in_no_plug_of_the_circuit(build: Build) -> None:
    circuit = build(omit="[positive]").circuits["servo"]
    assert [wire.role for lead in circuit.leads for wire in lead.wires] == ["negative", "signal"] * 2
    (load,) = circuit.loads
    assert circuit.start.contacts == load.contacts == {"negative": ("1",), "signal": ("3",)}


def test_each_segment_has_the_lead_written_for_it(build: Build) -> None:
    harness = build(lead="{A: servo-20, B: servo-24}")
    use = harness.disconnects["joint"].uses["5"]
    assert [lead.part.name for lead in leads_behind(harness, use)] == ["servo-20", "servo-24"]
    assert [wire.kind.gauge.text for wire in wires_of(use)] == ["20 AWG", "24 AWG"]


def test_segments_meet_by_role_where_their_leads_name_wires_in_another_order(build: Build) -> None:
    parts = "leads: {turned: {wires: {signal: pvc-22 YE, positive: pvc-22 RD, negative: pvc-22 BN}}}\n"
    uses = build(lead="{A: servo-22, B: turned}", parts=parts).disconnects["joint"].uses
    colours = {contact: tuple(wire.colour for wire in wires_of(use)) for contact, use in uses.items()}
    assert (colours["3"], colours["4"], colours["5"]) == (("BK", "BN"), ("RD", "RD"), ("WH", "YE"))
