"""A definition with every key that the builder may write."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from docgen.basics.findings import Finding
from docgen.definition.equipment import Output
from docgen.definition.load import load_definition
from docgen.harness.model.harness import Harness
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
ErrorsIn = Callable[[Path], list[Finding]]

AIRCRAFT = """\
aircraft:
  name: Heron
  description: everything at once
  marks: HE-1
  revision: B
  date: 2026-05-02
  record: https://hangar.example/heron
  contact: the club's field telephone
  note: no aircraft
  accept: {}
places:
  bay: {assembly: fuselage, at: {aft: -40 mm, left: 5 mm, up: -10 mm}, access: hatch, slack: 60 mm, heat: 60 °C}
  tray: {assembly: fuselage, at: {right: 5 mm}, access: canopy, note: by the window}
  tail: {assembly: fuselage, at: {aft: 900 mm}, access: hatch}
  root: {assembly: fuselage, access: wing off}
  panel: {assembly: wing, access: wing off}
  tip: {assembly: wing, access: cover}
runs:
  - {between: [bay, tray], length: 60 mm, edges: sharp, dressed: grommet, heat: 150 °C, hole: 14 mm, closed: yes,
    sleeve: none, note: past the engine; the grommet is enough}
  - {between: [tray, root], length: 9.25 in, edges: sharp, dressed: edge trim, hole: 20 mm x 8 mm, sleeve: g}
  - {between: [panel, tip], length: 30 cm, hinge: 20 mm, dressed: tube}
  - {between: [tray, tail], accept: {unmeasured: not built yet}}
flight: {time: 9 min, reserve: 30 %, flights: 3, ground: 4 min, note: short ones}
"""
EQUIPMENT = """\
equipment:
  receiver:
    kind: receiver
    place: tray
    ports:
      - {plug: servo-3, names: 1..8, contacts: pins, rating: 3 A, output: {volts: 5.5 V, headroom: 0.2 V}}
      - {plug: power-2, names: [BATT, B2], contacts: pins, lead: 100 mm, lead_wire: pvc-20}
    fed_by: [BATT, B2]
    isolates: yes
    volts: {least: 3.6 V, most: 9 V}
    current: {idle: 50 mA, working: 150 mA, stall: 0.2 A}
    antennas:
      A: {place: tail, lies: lengthwise, lead: 1200 mm, diameter: 1.4 mm, band: 2.4 GHz, note: taped, accept: {}}
      B: {place: tray, lies: sloping, lead: 150 mm}
    mass: 18 g
    note: under the canopy
  pack:
    kind: battery
    place: bay
    lead: 120 mm
    plug: power-2
    lead_wire: pvc-20
    lead_colours: {negative: BN, positive: RD}
    battery: {cells: 2, capacity: 2.6 Ah, full: 8.4 V, empty: 6.4 V, resistance: 30 mohm, rating: 20 A}
    on: plug it in
    off: pull it out
    stop: throttle lowest, then the fuel valve
    stopped: the fan stands
    most_heat: 50 °C
    accept: {}
  second-pack:
    kind: battery
    place: tray
    lead: 120 mm
    plug: power-2
    battery: {cells: 3, capacity: 1500 mAh, full: 12.6 V, empty: 9.6 V}
  bec:
    kind: regulator
    place: tray
    ports: {plug: power-2, names: [in, out], contacts: pins}
    output: {volts: 6 V, headroom: 0.5 V, rating: 10 A, efficiency: 85 %}
  gear-box:
    kind: gear controller
    place: tray
    ports: {plug: servo-3, names: [in, L], contacts: pins}
    drives: {in: [L]}
    gear: {up: 13.4 s, down: 12.1 s, limit: 15 s, stop: 2.5 A}
    runs: 30 s
  streamer: {kind: key, place: tray, out: on, accept: {unused: no wires}}
  holder: {kind: fuse, place: tray, rating: 5 A, accept: {unused: no wires}}
  leg:
    kind: gear leg
    place: tip
    plug_at: tip
    lead: 100 mm
    plug: servo-3
    current: {working: 1 A, runs: 30 s}
    gear: {up: 6 s, down: 5 s}
  tip-servo: {kind: servo, place: tip, lead: 100 mm, plug: servo-3}
  tip-light: {kind: light, place: tip, lead: 100 mm, plug: light-2}
  light-a: {kind: light, place: tray, lead: 9 cm, plug: servo-3}
  light-b: {kind: light, place: tail, lead: 9 cm, plug: servo-3}
"""
KINDS = [
    "power switch", "power unit", "regulator", "servo", "speed controller", "motor", "engine unit", "pump", "valve",
    "brake", "light controller", "light", "smoke", "gyro", "sensor", "servo controller", "ignition", "other",
]  # fmt: skip
DISCONNECTS = """\
disconnects:
  wing:
    shell: block-6
    fixed: {place: root, contacts: sockets, key: down}
    loose: {place: panel, contacts: pins, reach: 120 mm, key: left}
    keyed: A
    note: the left one of two
    accept: {spare-contacts: a small wing}
    commons:
      feed: {role: positive, contacts: [3, 4], circuits: [tip-servo], tail: 40 mm, note: shared, accept: {}}
      back: {role: negative, contacts: 5..6, circuits: [tip-servo]}
  free:
    shell: servo-3
    halves:
      - {place: root, contacts: sockets, reach: 50 mm, key: up}
      - {place: panel, contacts: pins, reach: 50 mm, key: right}
"""
CIRCUITS = """\
circuits:
  supply: {from: pack, to: receiver BATT}
  gear:
    label: GEAR
    from: receiver 1
    to: gear-box in
    lead: servo-22
    loop: 80 mm
    loop_from: 50 mm
    by: [bay]
    channel: 2
    throw: 30 mm up, 22 mm down
    failsafe: hold
    function: G
    lengths: {A: 400 mm}
    omit: [signal]
    note: signal comes over the other one
    accept: {}
  leg:
    from: gear-box L
    to: leg
    through: [free]
    lead: {A: servo-22, B: servo-24}
    lengths: {B: 1050 mm}
  regulated: {from: second-pack, to: bec in}
  second: {from: bec out, to: receiver B2, lead: power-20}
  wing-feed: {from: receiver 3, to: wing feed back, lead: light-24}
  tip-servo:
    from: receiver 4
    to: tip-servo
    through: [wing]
    lead: {A: lone-26, B: servo-22}
    contacts: {wing: [2]}
  tip-light: {from: wing feed back, to: tip-light, lead: light-24}
  lights:
    from: receiver 7
    to: [light-a, light-b]
    lead: servo-22
    split: {place: tray, loop: 20 mm}
allowances: {slack: 4 %, strip: 5 mm, reterminations: 1, retermination: 12 mm, round_up_to: 10 mm}
limits: {drop_working: 3.57 %, drop_stalled: 10 %, margin: 0.3 V, together: 4, spare_contacts: 2, hot: 80 °C}
labels: {fit: after, each: both, least_type: 1.8 mm, behind_plug: 30 mm}
clips: {every: 150 mm}
splices: {join: solder, strip: 8 mm}
"""
STORES = """\
spools:
  - {wire: w, colour: WHRD, length: 100 m, sealed: yes}
  - {lead: l, length: 5 m, sealed: no}
shelf_tubes: [t]
offcut: 150 mm
"""
PARTS = """\
wires:
  w: {gauge: 0.25 mm², diameter: 1.4 mm, resistance: 72 ohm/km, mass: 4 g/m, limit: 80 °C, current: 2 A,
    sold: [5 m, 25 m], note: soft, source: measured}
leads:
  l: {wires: {negative: w BK, positive: w RD, data: w WHGN}, lay: 25 mm, bought: cable, diameter: 4 mm}
  m: {wires: {one: w YE, other: w BU}, reverses: yes, bought: twisted}
  s: {wires: {feed: w VT, return: w GY}, supplies: yes, bought: flat}
plugs:
  p:
    contacts: {1: negative, NO: positive, 010: data}
    equipment: pins
    contact: {rating: 3 A, brief: 5 A, resistance: 10 mohm, strip: 2.5 mm, takes: [28 AWG, 22 AWG], over: 1.6 mm,
      join: solder}
    size: [8 mm, 3 mm]
    retainer: yes
    lock: press and pull
shells:
  rows:
    rows: [[1, 2, 3], 4..6]
    pitch: {across: 5 mm, down: 5 mm}
    outline: [20 mm, 12 mm]
    key: left
    contact: {rating: 3 A, resistance: 10 mohm}
    checked: 2026-04-11
    retainer: no
    lock: a latch
    source: a drawing
  points:
    at: {1: [2.5 mm, 0 mm], 12:30: [-2.5 mm, 0 mm]}
    outline: [20 mm, 12 mm]
    contact: {rating: 3 A, resistance: 10 mohm}
sleeves:
  g: {kind: spiral wrap, fits: [2 mm, 9 mm], shortening: [2 %, 30 %], limit: 125 °C, mass: 9 g/m, splits: yes}
tubes:
  t: {expanded: 4.8 mm, recovered: 2.4 mm, wall: 0.5 mm, clear: yes, colour: BK, limit: 135 °C}
"""


def files() -> dict[str, str]:
    kinds = "".join(
        f"  {kind.replace(' ', '-')}: {{kind: {kind}, place: tray, accept: {{unused: no wires}}}}\n" for kind in KINDS
    )
    return {
        "aircraft.yaml": AIRCRAFT,
        "harness.yaml": EQUIPMENT + kinds + DISCONNECTS + CIRCUITS,
        "stores.yaml": STORES,
        "parts.yaml": PARTS,
    }


@pytest.fixture
def harness(written_folder: WrittenFolder) -> Harness:
    checked = check(written_folder(files()))
    assert checked.harness is not None, checked.findings
    return checked.harness


def test_every_key_is_taken(written_folder: WrittenFolder) -> None:
    _, findings = load_definition(written_folder(files()), ACCEPTABLE)
    assert [(finding.position.line, finding.sentence) for finding in findings] == []


def test_a_definition_with_every_key_has_no_error(written_folder: WrittenFolder, errors_in: ErrorsIn) -> None:
    assert errors_in(written_folder(files())) == []


def test_contacts_of_a_joint_are_shared_or_a_circuit_s_own_as_written(harness: Harness) -> None:
    wing = harness.disconnects["wing"]
    assert {contact: use.of for contact, use in wing.uses.items()} == {
        "2": "tip-servo",
        "3": "feed",
        "4": "feed",
        "5": "back",
        "6": "back",
    }
    assert wing.spares == ("1",)


def test_commons_join_the_pair_that_feeds_them_with_what_takes_from_them(harness: Harness) -> None:
    commons = harness.disconnects["wing"].commons
    for name, role in (("feed", "positive"), ("back", "negative")):
        joined = [[(lead.name, wire.role) for lead, wire in half.wires] for half in commons[name].halves]
        assert joined == [[("wing-feed A", role)], [("tip-servo B", role), ("tip-light A", role)]]
        # A tail from each splice to each of the two contacts.
        assert [[tail.contact for tail in half.tails] for half in commons[name].halves] == [
            list(commons[name].contacts)
        ] * 2


def test_a_lead_passes_the_joint_on_its_own_contact_and_takes_the_rest_from_commons(harness: Harness) -> None:
    near, far = harness.circuits["tip-servo"].leads
    assert [wire.role for wire in near.wires] == ["signal"]
    assert [end.contacts for end in near.ends] == [{"signal": ("3",)}, {"signal": ("2",)}]
    assert far.ends[0].contacts == {"negative": ("5", "6"), "positive": ("3", "4"), "signal": ("2",)}
    assert far.ends[0].commons == {"negative": "back", "positive": "feed"}


def test_a_split_joins_a_branch_to_each_end(harness: Harness) -> None:
    circuit = harness.circuits["lights"]
    assert [[end.text for end in lead.ends] for lead in circuit.leads] == [
        ["receiver 7", "splice at tray"],
        ["splice at tray", "light-a"],
        ["splice at tray", "light-b"],
    ]
    assert [[wire.role for wire in lead.wires] for lead in circuit.leads] == [["negative", "positive", "signal"]] * 3


def _output(volts: str, headroom: str, **more: str) -> Output:
    return Output.model_validate({"volts": volts, "headroom": headroom, **more})


def test_outlets_of_equipment_and_of_ports_are_regulated_as_written(harness: Harness) -> None:
    assert harness.equipment["bec"].form.output == _output("6 V", "0.5 V", rating="10 A", efficiency="85 %")
    outlets = {port.name: port.output for port in harness.equipment["receiver"].ports}
    assert outlets["1"] == outlets["8"] == _output("5.5 V", "0.2 V")
    assert outlets["BATT"] is None


def test_every_kind_of_equipment_is_taken(written_folder: WrittenFolder) -> None:
    definition, _ = load_definition(written_folder(files()), ACCEPTABLE)
    assert definition is not None
    assert {"receiver", "battery", "gear controller", "gear leg", "key", "fuse", *KINDS} == {
        equipment.kind for equipment in definition.equipment.values()
    }
