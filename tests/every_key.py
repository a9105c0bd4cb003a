"""The files of an aircraft with every key that the builder may write."""

from __future__ import annotations

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
