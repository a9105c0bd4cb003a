"""A turbine jet written from scratch: 33 circuits, two packs, two receivers, brakes, a fin that plugs in."""

from __future__ import annotations

AIRCRAFT = """\
aircraft: {name: Gannet, description: 2.4 m turbine jet with plug-in wings and fin, marks: GN-3, revision: A,
  date: 2026-09-12}
places:
  nose-bay:    {assembly: fuselage, at: {aft: 200 mm}, access: nose cone off, across: 40 mm}
  radio-tray:  {assembly: fuselage, at: {aft: 620 mm, up: 40 mm}, access: canopy, slack: 50 mm, across: 110 mm}
  sill:        {assembly: fuselage, at: {aft: 640 mm, left: 80 mm, up: 120 mm}, access: from outside}
  engine-tray: {assembly: fuselage, at: {aft: 1150 mm, up: 60 mm}, access: belly hatch, heat: 45 °C, across: 60 mm}
  turbine:     {assembly: fuselage, at: {aft: 1400 mm, up: 90 mm}, access: top hatch, heat: 75 °C}
  fin-former:  {assembly: fuselage, at: {aft: 1750 mm, up: 160 mm}, access: fin off}
  <side>-stab: {assembly: fuselage, at: {aft: 1800 mm, <side>: 40 mm, up: 80 mm}, access: tail hatch}
  <side>-root: {assembly: fuselage, at: {aft: 900 mm, <side>: 120 mm}, access: wing off}
  <side>-panel-root: {assembly: <side>-panel, at: {aft: 900 mm, <side>: 130 mm}, access: wing off}
  <side>-leg-bay:    {assembly: <side>-panel, at: {aft: 950 mm, <side>: 320 mm}, access: leg door}
  <side>-lamp:       {assembly: <side>-panel, at: {aft: 800 mm, <side>: 400 mm}, access: lens off}
  <side>-flap:       {assembly: <side>-panel, at: {aft: 1080 mm, <side>: 380 mm}, access: servo cover}
  <side>-aileron:    {assembly: <side>-panel, at: {aft: 1100 mm, <side>: 800 mm}, access: servo cover}
  fin-root:    {assembly: fin, at: {aft: 1760 mm, up: 170 mm}, access: fin off}
  fin-servo:   {assembly: fin, at: {aft: 1820 mm, up: 300 mm}, access: servo cover}
  fin-tip:     {assembly: fin, at: {aft: 1880 mm, up: 480 mm}, access: tip off}
runs:
  - {between: [nose-bay, radio-tray], length: 440 mm, edges: sharp, hole: 30 mm}
  - {between: [radio-tray, sill], length: 120 mm, edges: sharp, dressed: grommet}
  - {between: [radio-tray, engine-tray], length: 560 mm, edges: sharp, hole: 30 mm}
  - {between: [radio-tray, <side>-root], length: 330 mm, edges: sharp, hole: 26 mm}
  - {between: [engine-tray, turbine], length: 290 mm, heat: 120 °C, sleeve: heat-9}
  - {between: [engine-tray, fin-former], length: 690 mm, edges: sharp, dressed: tube, hole: 22 mm, closed: yes}
  - {between: [fin-former, <side>-stab], length: 110 mm, sleeve: none, note: lies on foam all the way}
  - {between: [<side>-panel-root, <side>-leg-bay], length: 200 mm, edges: sharp, hole: 40 mm x 16 mm}
  - {between: [<side>-leg-bay, <side>-lamp], length: 170 mm}
  - {between: [<side>-leg-bay, <side>-flap], length: 150 mm}
  - {between: [<side>-leg-bay, <side>-aileron], length: 520 mm, edges: sharp, hole: 12 mm, closed: yes}
  - {between: [fin-root, fin-servo], length: 150 mm, hole: 14 mm}
  - {between: [fin-servo, fin-tip], length: 200 mm, hole: 8 mm, closed: yes}
flight: {time: 7 min, reserve: 30 %, flights: 2, ground: 3 min}
"""

HARNESS = """\
equipment:
  <side>-pack:
    kind: battery
    place: nose-bay
    lead: 100 mm
    lead_wire: silicone-12
    plug: power-2-heavy
    battery: {cells: 2, capacity: 4000 mAh, full: 8.4 V, empty: 6.6 V, resistance: 18 mohm, rating: 40 A}
    on: plug it in with the streamer in; its lamp on the power unit comes on
    off: unplug it
    accept: {fuse: the power unit cuts each outlet off at its rating}
  power-unit:
    kind: power unit
    place: radio-tray
    ports:
      - {plug: power-2-heavy, names: [PACK-L, PACK-R], contacts: pins}
      - {plug: servo-3, names: 1..10, contacts: pins, rating: 25 A}
      - {plug: servo-3, names: [RX-A, RX-B, KEY], contacts: pins}
      - {plug: power-2, names: [ENGINE, GEAR, WING-L, WING-R], contacts: sockets, rating: 40 A}
      - {plug: light-2, names: [LAMP-L, LAMP-R, FIN], contacts: sockets, rating: 6 A}
    fed_by: [PACK-L, PACK-R]
    isolates: yes
    current: {working: 80 mA}
    volts: {least: 4.5 V, most: 9 V}
    most_heat: 60 °C
    on: pull the streamer; both lamps steady
    off: push the streamer in; both lamps go out
    accept: {one-loss: both packs and both receivers meet in it; within it all is there twice}
  streamer: {kind: key, place: sill, plug: servo-3, lead: 60 mm, out: on,
    accept: {switching: a turbine does not start by its supply alone}}
  receiver-a:
    kind: receiver
    place: radio-tray
    ports: [{plug: servo-3, names: [1, 2, 3, 4, DATA], contacts: pins}]
    current: {working: 110 mA}
    volts: {least: 3.6 V, most: 9 V}
    antennas:
      A: {place: radio-tray, lies: lengthwise, lead: 150 mm, band: 2.4 GHz}
      B: {place: radio-tray, lies: crosswise, lead: 150 mm, band: 2.4 GHz}
  receiver-b:
    kind: receiver
    place: radio-tray
    ports: [{plug: servo-3, names: [DATA], contacts: pins}]
    current: {working: 110 mA}
    volts: {least: 3.6 V, most: 9 V}
    antennas:
      A: {place: radio-tray, lies: upright, lead: 150 mm, band: 2.4 GHz}
      B: {place: radio-tray, lies: lengthwise, lead: 300 mm, band: 868 MHz}
  gyro: {kind: gyro, place: radio-tray, lead: 120 mm, plug: servo-3, current: {working: 60 mA}}

  # Turbine.
  fuse:
    kind: fuse
    place: engine-tray
    rating: 10 A
    ports: {plug: power-2, names: [IN, OUT], contacts: sockets}
    fed_by: [IN]
  engine-unit:
    kind: engine unit
    place: engine-tray
    ports:
      - {plug: power-2, names: [BATT], contacts: pins}
      - {plug: servo-3, names: [RX], contacts: pins}
      - {plug: motor-2, names: [PUMP, IGNITER], contacts: pins, rating: 8 A}
      - {plug: power-2, names: [VALVE], contacts: pins}
    fed_by: [BATT]
    current: {idle: 100 mA, working: 0.4 A}
    volts: {least: 5 V, most: 9 V}
    most_heat: 65 °C
    on: comes on with the power unit
    stop: throttle and trim lowest
    stopped: the turbine stands and its display shows under 100 °C
  pump: {kind: pump, place: turbine, lead: 150 mm, lead_wire: silicone-20, plug: motor-2,
    current: {idle: 0 A, working: 1.5 A, stall: 3 A}, volts: {least: 4 V, most: 9 V}}
  igniter: {kind: ignition, place: turbine, lead: 150 mm, lead_wire: silicone-20, plug: motor-2,
    current: {idle: 0 A, working: 2 A, runs: 15 s}}
  fuel-valve: {kind: valve, place: engine-tray, lead: 120 mm, lead_wire: pvc-22, plug: power-2,
    current: {idle: 0 A, working: 0.4 A}}

  # Surfaces.
  <side>-aileron: {kind: servo, place: <side>-aileron, lead: 250 mm, lead_wire: lead-22, plug: servo-3,
    current: {idle: 30 mA, working: 0.4 A, stall: 2.4 A}, volts: {least: 4.8 V, most: 8.4 V}}
  <side>-flap: {kind: servo, place: <side>-flap, lead: 250 mm, lead_wire: lead-22, plug: servo-3,
    current: {idle: 30 mA, working: 0.4 A, stall: 2.6 A, runs: 60 s}, volts: {least: 4.8 V, most: 8.4 V}}
  <side>-stab: {kind: servo, place: <side>-stab, lead: 250 mm, lead_wire: lead-22, plug: servo-3,
    current: {idle: 30 mA, working: 0.5 A, stall: 2.2 A}, volts: {least: 4.8 V, most: 8.4 V}}
  rudder: {kind: servo, place: fin-servo, lead: 300 mm, lead_wire: lead-22, plug: servo-3,
    current: {idle: 30 mA, working: 0.4 A, stall: 2.2 A}, volts: {least: 4.8 V, most: 8.4 V}}
  steering: {kind: servo, place: nose-bay, lead: 200 mm, plug: servo-3,
    current: {idle: 20 mA, working: 0.3 A, stall: 1.6 A, runs: 60 s}, volts: {least: 4.8 V, most: 8.4 V}}

  # Gear, brakes, lights.
  gear-unit:
    kind: gear controller
    place: radio-tray
    ports:
      - {plug: power-2, names: [POWER], contacts: pins}
      - {plug: servo-3, names: [GEAR, BRAKE], contacts: pins}
      - {plug: motor-2, names: [NOSE, LEFT, RIGHT], contacts: pins, rating: 12 A}
      - {plug: brake-2, names: [BRAKE-L, BRAKE-R], contacts: pins, rating: 3 A}
    fed_by: [POWER]
    drives: {GEAR: [NOSE, LEFT, RIGHT], BRAKE: [BRAKE-L, BRAKE-R]}
    current: {working: 50 mA}
    volts: {least: 5 V, most: 9 V}
    gear: {limit: 9 s, stop: 1.8 A}
  nose-leg: {kind: gear leg, place: nose-bay, lead: 160 mm, lead_wire: pvc-22, plug: motor-2,
    current: {idle: 0 A, working: 0.8 A, stall: 3 A, runs: 15 s}, gear: {up: 6.4 s, down: 5.9 s}}
  <side>-leg: {kind: gear leg, place: <side>-leg-bay, lead: 160 mm, lead_wire: pvc-22, plug: motor-2,
    current: {idle: 0 A, working: 0.9 A, stall: 3 A, runs: 15 s}, gear: {up: 7.1 s, down: 6.3 s}}
  <side>-brake: {kind: brake, place: <side>-leg-bay, lead: 300 mm, lead_wire: fluoro-24, plug: brake-2,
    lead_colours: {feed: BK, return: BK}, current: {idle: 0 A, working: 0.6 A, runs: 20 s}}
  <side>-lamp: {kind: light, place: <side>-lamp, lead: 120 mm, lead_wire: lead-26, plug: light-2,
    current: {working: 0.8 A, runs: 90 s}, volts: {least: 5 V, most: 9 V}}
  fin-light: {kind: light, place: fin-tip, lead: 450 mm, lead_wire: lead-26, plug: light-2,
    current: {working: 100 mA}, volts: {least: 4 V, most: 9 V}}

disconnects:
  <side>-wing:
    shell: block-14
    fixed: {place: <side>-root, contacts: sockets, key: up}
    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}
    keyed: {left: A, right: B}
    commons:
      positive: {role: positive, contacts: [1, 2], circuits: [<side>-aileron, <side>-flap]}
      negative: {role: negative, contacts: [3, 4], circuits: [<side>-aileron, <side>-flap]}
  fin-rudder: {shell: servo-3, fixed: {place: fin-former}, loose: {place: fin-root}}
  fin-lamp:   {shell: light-2, fixed: {place: fin-former}, loose: {place: fin-root}}

circuits:
  <side>-pack: {label: {left: PACK L, right: PACK R}, from: <side>-pack, lead: power-12,
    to: {left: power-unit PACK-L, right: power-unit PACK-R}}
  streamer: {label: STREAMER, from: power-unit KEY, to: streamer, lead: signal-24}
  receiver-a: {label: RX A, from: power-unit RX-A, to: receiver-a DATA, lead: servo-22}
  receiver-b: {label: RX B, from: power-unit RX-B, to: receiver-b DATA, lead: servo-22}
  gyro: {label: GYRO, from: receiver-a 4, to: gyro}
  engine-supply: {label: ENGINE FUSE, from: power-unit ENGINE, to: fuse IN, lead: power-16}
  engine-battery: {label: ENGINE BATT, from: fuse OUT, to: engine-unit BATT, lead: power-16}
  throttle: {label: THROTTLE, from: receiver-a 1, to: engine-unit RX, lead: signal-24, channel: 3, failsafe: off}
  pump: {label: PUMP, from: engine-unit PUMP, to: pump, lead: motor-hot}
  igniter: {label: IGNITER, from: engine-unit IGNITER, to: igniter, lead: motor-hot}
  fuel-valve: {label: VALVE, from: engine-unit VALVE, to: fuel-valve, lead: power-20}
  <side>-wing-supply: {label: {left: WING L, right: WING R}, to: <side>-wing positive negative, lead: power-16,
    from: {left: power-unit WING-L, right: power-unit WING-R}}
  <side>-aileron: {label: {left: AIL L, right: AIL R}, from: {left: power-unit 1, right: power-unit 2},
    to: <side>-aileron, through: [<side>-wing], lead: {A: lone-26, B: servo-22}, loop: 60 mm,
    channel: {left: 1, right: 2}, failsafe: hold}
  <side>-flap: {label: {left: FLAP L, right: FLAP R}, from: {left: power-unit 3, right: power-unit 4},
    to: <side>-flap, through: [<side>-wing], lead: {A: lone-26, B: servo-22}, loop: 60 mm,
    channel: {left: 5, right: 6}, failsafe: hold}
  <side>-stab: {label: {left: ELEV L, right: ELEV R}, from: {left: power-unit 5, right: power-unit 6},
    to: <side>-stab, lead: servo-22, loop: 60 mm, channel: {left: 7, right: 8}, failsafe: centre}
  rudder: {label: RUDDER, from: power-unit 7, to: rudder, through: [fin-rudder], lead: {A: servo-22, B: own},
    channel: 4, failsafe: centre}
  steering: {label: STEER, from: receiver-a 2, to: steering, lead: servo-22, loop: 40 mm, channel: 4, failsafe: centre}
  gear-supply: {label: GEAR BATT, from: power-unit GEAR, to: gear-unit POWER, lead: power-16}
  gear-signal: {label: GEAR, from: power-unit 8, to: gear-unit GEAR, lead: signal-24, channel: 9, failsafe: hold}
  brake-signal: {label: BRAKE, from: power-unit 9, to: gear-unit BRAKE, lead: signal-24, channel: 10, failsafe: hold}
  nose-leg: {label: LEG N, from: gear-unit NOSE, to: nose-leg, lead: motor-22, loop: 40 mm}
  <side>-leg: {label: {left: LEG L, right: LEG R}, from: {left: gear-unit LEFT, right: gear-unit RIGHT},
    to: <side>-leg, through: [<side>-wing], lead: motor-22, loop: 40 mm}
  <side>-brake: {label: {left: BRAKE L, right: BRAKE R}, to: <side>-brake, through: [<side>-wing], lead: brake-24,
    from: {left: gear-unit BRAKE-L, right: gear-unit BRAKE-R}, loop: 40 mm}
  <side>-lamp: {label: {left: LAMP L, right: LAMP R}, from: {left: power-unit LAMP-L, right: power-unit LAMP-R},
    to: <side>-lamp, through: [<side>-wing], lead: light-24, loop: 40 mm}
  fin-light: {label: FIN LIGHT, from: power-unit FIN, to: fin-light, through: [fin-lamp], lead: {A: light-24, B: own}}
splices: {join: solder, strip: 10 mm}
"""

# Wing blocks with cups to solder into, in place of the built-in ones; a pair of wires that stands a turbine's heat.
PARTS = """\
shells:
  block-14:
    rows: [[1, 2, 3, 4, 5, 6, 7], [8, 9, 10, 11, 12, 13, 14]]
    pitch: {across: 5.0 mm, down: 5.0 mm}
    outline: [40 mm, 12 mm]
    key: up
    contact: {rating: 10 A, brief: 15 A, resistance: 4 mohm, strip: 4 mm, takes: [26 AWG, 16 AWG], over: 2.6 mm,
      join: solder}
    lock: a screw at each end
leads:
  motor-hot: {wires: {one: silicone-20 YE, other: silicone-20 BU}, lay: 30 mm, reverses: yes}
"""

FILES = {"aircraft.yaml": AIRCRAFT, "harness.yaml": HARNESS, "parts.yaml": PARTS}
