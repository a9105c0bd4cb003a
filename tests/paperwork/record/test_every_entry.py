"""Every line of the record's entries of the largest example and of one with little said, held against the harness."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from recorded import NAMES, entry, recorded, said, sections_of
from resolved import EXAMPLES, harness_of, record_of

from docgen.basics.colours import colour_words
from docgen.harness.assembly.splices import TailSplice, branch_splices, tail_splices
from docgen.harness.model.airframe import Place, Run
from docgen.harness.model.circuits import CutLead, End, Lead, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half, Tail
from docgen.paperwork.naming import end_text

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes


def mm(length_mm: float | None) -> str:
    """Write a length to a tenth of a millimetre."""
    return "not measured" if length_mm is None else f"{round(length_mm, 1):g} mm"


def placed(place: Place) -> str:
    at = ""
    if place.point_mm is not None:
        aft, right, up = place.point_mm
        side = "middle" if right == 0 else f"{'right' if right > 0 else 'left'} {abs(right):g}"
        at = f"aft {aft:g}, {side}, up {up:g} mm"
    access = f"access {place.access}" if place.access else ""
    slack = f"slack {place.slack_mm:g} mm" if place.slack_mm else ""
    heat = f"heat {place.heat_c:g} °C" if place.heat_c is not None else ""
    note = f"note: {place.note}" if place.note else ""
    return said(f"{place.name}: {place.assembly}", at, access, slack, heat, note)


def run_said(run: Run) -> str:
    return said(
        f"{' to '.join(run.between)}: {mm(run.length_mm)}",
        "not measured" if run.length_mm is not None and not run.measured else "",
        "sharp edges" if run.sharp else "",
        f"dressed with {run.dressed}" if run.dressed else "",
        f"heat {run.heat_c:g} °C" if run.heat_c is not None else "",
        f"hinge {run.hinge_mm:g} mm" if run.hinge_mm is not None else "",
        f"opening {' × '.join(f'{side:g}' for side in run.hole_mm)} mm" if run.hole_mm else "",
        "closed" if run.closed else "",
        f"note: {run.note}" if run.note else "",
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_place_and_run_has_its_line_with_all_that_is_known_of_it(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    assert recorded(name)["Places"] == [placed(place) for place in harness.places.values()]
    assert recorded(name)["Runs"] == [run_said(run) for run in harness.runs]


def carried(harness: Harness, joint: Disconnect, contact: str) -> str:
    use = joint.uses.get(contact)
    if use is None:
        return f"{contact}: spare"
    wires = " / ".join(wire_said(use.wires.get(half.name)) for half in joint.halves)
    if use.is_common:
        return f"{contact}: common {use.of}, {wires}"
    circuit = harness.circuits[use.of]
    return f"{contact}: {circuit.label}, {wires}, {circuit.start.text} to {circuit.load_text}"


def wire_said(wire: Wire | Tail | None) -> str:
    if wire is None:
        return "nothing"
    mark = "tail" if isinstance(wire, Tail) else wire.mark or "own"
    return f"{wire.colour} {wire.kind.gauge.text} {mark}"


def titled(half: Half) -> str:
    return half.name if " " in half.name else f"{half.name} half"


def half_said(harness: Harness, joint: Disconnect, half: Half) -> str:
    place, (other,) = harness.places[half.place], (one for one in joint.halves if one is not half)
    reach = f", reach {other.reach_mm:g} mm" if not other.fixed and other.reach_mm is not None else ""
    there = said(f"{half.gender} at {half.place}", place.assembly, f"key {half.key}" if half.key else "")
    return f"{titled(half)}: {there}; mates with the {titled(other)} at {other.place} ({other.gender}{reach})"


def common_said(common: Common) -> Iterator[str]:
    plural = "contacts" if len(common.contacts) > 1 else "contact"
    fed = f", fed by {', '.join(common.feeders)}" if common.feeders else ""
    yield f"common {common.name}: {common.role} on {plural} {', '.join(common.contacts)}{fed}"
    for behind in common.halves:
        wires = ", ".join(f"{lead.name} {wire.mark}" for lead, wire in behind.wires) or "nothing"
        if behind.tails:
            tail, count = behind.tails[0], len(behind.tails)
            tails = f"{count} tail{'s' if count > 1 else ''} {tail.colour} {tail.kind.name}"
            yield f"{titled(behind.half)}: {tails}, cut {behind.tail_mm:g} mm, spliced to {wires}"
        else:
            yield f"{titled(behind.half)}: {wires}, straight into the contact"


@pytest.mark.parametrize("name", NAMES)
def test_every_joint_says_its_halves_each_contact_and_each_common(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for joint in harness.disconnects.values():
        lines = [line for line in entry(recorded(name)["Disconnects"], joint.name) if not line.startswith("card ")]
        keyed = f"keyed {joint.form.keyed}" if joint.form.keyed else ""
        solder = "contacts soldered" if joint.shell.contact.join == "solder" else ""
        head = said(f"{joint.name}: {joint.shell.name}", f"{len(joint.shell.contacts)} contacts", solder, keyed)
        assert lines == [
            head,
            *(half_said(harness, joint, half) for half in joint.halves),
            *(carried(harness, joint, contact) for contact in joint.shell.contacts),
            *(line for common in joint.commons.values() for line in common_said(common)),
            *[f"lock: {joint.shell.lock}"] * bool(joint.shell.lock),
            *[f"note: {joint.form.note}"] * bool(joint.form.note),
        ]


@pytest.mark.parametrize("name", NAMES)
def test_every_circuit_says_its_ends_channel_throw_fail_safe_and_note(name: str) -> None:
    harness, found = harness_of(EXAMPLES / name), []
    for circuit in harness.circuits.values():
        form = circuit.form
        found.append(
            f"{circuit.name}: {circuit.label}, {end_text(circuit.start)} to "
            + ", ".join(end_text(end) for end in circuit.loads)
        )
        radio = said(
            f"channel {form.channel}" if form.channel is not None else "",
            f"throw {form.throw}" if form.throw else "",
            f"fail-safe {form.failsafe}" if form.failsafe else "",
        )
        found += [f"  {radio}"] * bool(radio) + [f"  note: {form.note}"] * bool(form.note)
    assert recorded(name)["Circuits"] == found


def made(lead: Lead) -> str:
    if isinstance(lead, CutLead):
        bought = f"bought {lead.part.bought}" if lead.part.bought else ""
        return said(f"cut {mm(lead.cut_length_mm)}", "pinned" if lead.pinned else "", lead.part.name, bought)
    halves = [end for end in lead.ends if end.kind == "half"]
    own = next((end.name for end in lead.ends if end.own is not None), "")
    return f"came on {own}, nothing to cut" if halves else "plugs straight in, nothing to cut"


def own_said(end: End) -> str:
    if end.own is None:
        return ""
    kind = end.own.kind.name if end.own.kind else "wire as the circuit's"
    length = "not measured" if end.own.length_mm is None else f"{end.own.length_mm:g} mm"
    return f"own lead {length}, {kind}{' assumed' if end.own.assumed else ''}"


def fitted(harness: Harness, lead: Lead, end: End) -> str:
    # What came on equipment and is a half of a joint hangs on that equipment without a plug.
    if end.is_splice:
        return end_text(end)
    if not isinstance(lead, CutLead) and end.is_port and any(each.kind == "half" for each in lead.ends):
        return f"{end_text(end)} ({own_said(end)}) at {end.place}"
    solder = "soldered" if isinstance(lead, CutLead) and end.connector.contact.join == "solder" else ""
    half = "" if end.is_port else f"{end.part} half"
    if isinstance(lead, CutLead) or half:
        own = f"into {own_said(end)}" if end.own else ""
        return f"{end_text(end)} ({said(f'{end.connector.name} {end.gender}', half, solder, own)}) at {end.place}"
    carries = {port.name: port.gender for port in harness.equipment[end.name].ports}[end.part]
    return f"{end_text(end)} ({said(f'{end.connector.name} {carries}', own_said(end))}) at {end.place}"


def contact_said(lead: Lead, end: End, role: str) -> str:
    if end.is_splice or ("came on" in made(lead) and end.is_port):
        return end.text
    contacts = end.contacts.get(role)
    return f"{end.text} contact {'+'.join(contacts)}" if contacts else f"{end.text}, no contact"


@pytest.mark.parametrize("name", NAMES)
def test_every_lead_says_how_it_is_made_its_route_its_ends_and_each_wire(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for lead in harness.leads():
        start, goal = lead.ends
        lines = [
            f"{lead.name}: {lead.label}, {made(lead)}",
            f"route {mm(lead.route.length_mm)}: {', '.join(lead.route.places)}",
            f"from {fitted(harness, lead, start)}",
            f"to {fitted(harness, lead, goal)}",
        ]
        for wire in lead.wires:
            role = f"{wire.mark}: {wire.role}" if wire.mark else wire.role
            colour = f"{wire.colour} {colour_words(wire.colour)}" if wire.colour else "colour not known"
            ends = f"{contact_said(lead, start, wire.role)} to {contact_said(lead, goal, wire.role)}"
            own = [f"{end.name}'s own is {end.colours[wire.role]}" for end in lead.ends if wire.role in end.colours]
            lines.append(said(role, colour, wire.kind.name, ends, *own))
        assert entry(recorded(name)["Leads"], lead.name) == lines


def test_every_splice_says_what_it_joins_how_and_under_which_tube(aircraft_folder: AircraftFolder) -> None:
    tab = "  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n"
    divided: Changes = {
        "harness.yaml": [
            ("    to: rudder\n", "    to: [rudder, tab]\n    split: {place: radio-tray, loop: 20 mm}\n"),
            ("equipment:\n", f"splices: {{join: solder, strip: 9 mm}}\nequipment:\n{tab}"),
        ]
    }
    fulmar = harness_of(EXAMPLES / "fulmar")
    for harness, how in (
        (fulmar, "crimped over 8 mm"),
        (harness_of(aircraft_folder(divided)), "soldered over 9 mm"),
        (replace(fulmar, tubes=()), "crimped over 8 mm"),
    ):
        found = []
        for splice in [*branch_splices(harness), *tail_splices(harness)]:
            joins = ", ".join(lead.name for lead in splice.leads)
            if isinstance(splice, TailSplice):
                count = len(splice.common.behind(splice.half).tails)
                joins += f" and {count} tails of {splice.disconnect.name} {splice.common.name}"
            tube = f"tube {splice.tube.name}" if splice.tube is not None else ""
            found.append(said(f"{splice.place}, {splice.role}: {joins}", how, tube))
        assert sections_of(record_of(harness).whole)["Splices"] == found
        assert found


def test_what_goes_without_a_sleeve_or_along_nothing_measured_says_so(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {
        "aircraft.yaml": [
            ("length: 1140 mm, edges: sharp", "length: 1140 mm, edges: sharp, sleeve: none, note: too tight"),
            ("length: 260 mm", "length: 260 mm, note: behind the tank"),
            ("at: {aft: 180 mm}", "at: {aft: 180 mm, right: 30 mm}"),
        ]
    }
    found = sections_of(record_of(harness_of(aircraft_folder(changes))).whole)
    assert "radio-tray to tail-post: 1140 mm, sharp edges, goes without a sleeve, note: too tight" in found["Runs"]
    assert "battery-bay to radio-tray: 260 mm, note: behind the tank" in found["Runs"]
    assert "battery-bay: fuselage, aft 180, right 30, up 0 mm, access nose hatch" in found["Places"]


@pytest.mark.parametrize("name", NAMES)
def test_every_circuit_and_every_loss_stands_where_volts_rest_and_losses_are_told(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    rest = [f"{n}: {harness.circuits[n].label}, " for n in harness.results.rest]
    for line, start, volts in zip(
        recorded(name)["At rest, packs empty to full"], rest, harness.results.rest.values(), strict=True
    ):
        low, high = f"{volts.empty_v:.1f}", f"{volts.full_v:.1f}"
        assert line == f"{start}{high if low == high else f'{low} to {high}'} V"
    switching = harness.results.switching
    acts = []
    for what, some in (("on", switching.on), ("stop", switching.stop), ("off", switching.off)):
        for number, act in enumerate(some, 1):
            shows = f"; {act.shows}" if act.shows else ""
            acts.append(f"{what} {number}: {', '.join(act.names)}: {act.how or 'how: not written'}{shows}")
    acts += [f"stored and carried with {key} in, packs unplugged" for key in switching.carried]
    assert recorded(name)["Order of switching"] == acts
