"""Motors, turbines and piston engines, with all that makes them run and stop."""

from __future__ import annotations

from collections.abc import Callable

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft, Entry, by_side
from docgen.beginning.radio import HUB, Radio
from docgen.beginning.surfaces import fit_servo
from docgen.beginning.typical import PUT_YOURS, pack, typical_current

_SIGNAL_LEAD = "signal-24"  # what drives has a supply of its own, so no positive comes from the radio


def fit_drive(draft: Draft, answers: Answers, radio: Radio) -> None:
    """Fit each engine, or pair of them, with its packs and what commands it."""
    fits: dict[str, Callable[[Draft, Answers, Radio, str, str], None]] = {
        "motor": _fit_motor,
        "turbine": _fit_turbine,
        "piston": _fit_piston,
    }
    for before, label in positions(answers.engines):
        fits[answers.drive](draft, answers, radio, before, label)


def positions(engines: int) -> list[tuple[str, str]]:
    """Return where engines are: what stands before names, and what in labels; an odd one is in the middle."""
    middle = [("", "")] * (engines % 2)
    pairs = {0: [], 1: [(f"{SIDE}-", " {}")], 2: [(f"{SIDE}-inner-", " {} IN"), (f"{SIDE}-outer-", " {} OUT")]}
    return middle + pairs[engines // 2]


def _fit_motor(draft: Draft, answers: Answers, radio: Radio, before: str, label: str) -> None:
    """Fit a motor, its controller and pack; these plug together with their own leads."""
    bay, control, name = f"{before}motor-bay", f"{before}motor-control", f"{before}motor"
    own = answers.feeds == "own-regulator"
    on = "plug it in last of all, aircraft held, nobody near the propeller; the controller sounds"
    off = "unplug it first of all"
    if own:
        on, off = "plug it in, aircraft held, nobody near the propeller; the receiver's light comes on", "unplug it"
    motor = {"kind": "motor", "place": name, "plug": "bullet-3", "lead_wire": "silicone-12"}
    says = _once(draft, "Motor: pack, controller and motor plug together with their own leads.")
    draft.equipment += [
        pack(f"{name}-pack", bay, "power-2-motor", (6, "5000 mAh"), on, off, wire="silicone-12", says=says),
        _motor_control(control, bay, own=own),
        Entry(name, motor, "", {"lead_wire": "as heavy as its current asks for"}),
    ]
    _run(draft, before, bay)
    draft.add_run(bay, name)
    _plug_in(draft, f"{name}-supply", "MOTOR BATT" + label, f"{name}-pack", f"{control} PACK")
    if own:
        port, channel = radio.port()
        fields = {"label": "THR", "from": f"{control} RX", "to": port, "lead": "servo-22", "channel": channel}
        feeds = "Throttle one way, supply of the radio the other: `from` is where the supply comes from."
        draft.circuits.append(Entry("throttle", {**fields, "failsafe": "off"}, feeds))
    else:
        radio.command(f"{before}throttle", "THR" + label, f"{control} RX", _SIGNAL_LEAD, "off")
    _plug_in(draft, name, "MOTOR" + label, f"{control} MOTOR", name)


def _motor_control(name: str, place: str, *, own: bool) -> Entry:
    """Return a motor's controller, of which the own regulator feeds the radio or is not used."""
    fields = {
        "kind": "speed controller",
        "place": place,
        "ports": [
            {"plug": "power-2-motor", "names": ["PACK"], "contacts": "pins"},
            {"plug": "bullet-3", "names": ["MOTOR"], "contacts": "sockets"},
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins", **({"output": {"volts": "6 V"}} if own else {})},
        ],
        "fed_by": ["PACK"],
        "current": typical_current("speed controller"),
        "volts": {"least": "18 V", "most": "26 V"},
        "stop": "throttle to its lowest, and lock it",
        "stopped": "the propeller stands still",
    }
    return Entry(name, fields, "", {"current": f"{PUT_YOURS}; stall is full throttle, held on the ground"})


def _fit_turbine(draft: Draft, _: Answers, radio: Radio, before: str, label: str) -> None:
    """Fit a turbine's unit, its pack and its fuel pump; the cable to the turbine is the maker's."""
    tray, unit, pump_name, tank = (
        f"{before}{name}" for name in ("engine-tray", "engine-unit", "fuel-pump", "fuel-bay")
    )
    on = "plug it in last of all, aircraft held, an extinguisher at hand; the unit's lamp comes on"
    off = "unplug it first of all, once the turbine has cooled down"
    says = "Turbine: its maker's instructions come first. The cable from its unit to the turbine is the maker's."
    pump = {
        "kind": "pump",
        "place": tank,
        "plug": "power-2",
        "current": typical_current("pump"),
        "volts": {"least": "6 V", "most": "13 V"},
    }
    draft.equipment += [
        pack(f"{before}engine-pack", tray, "power-2", (3, "3000 mAh"), on, off, wire="pvc-16", says=_once(draft, says)),
        _engine_unit(unit, tray),
        Entry(pump_name, pump, "", {"current": PUT_YOURS}),
    ]
    draft.add_run(HUB, tray, sharp=True)
    draft.add_run(tray, tank)
    _plug_in(draft, f"{before}engine-supply", "ENGINE BATT" + label, f"{before}engine-pack", f"{unit} BATT")
    radio.command(f"{before}throttle", "THR" + label, f"{unit} RX", _SIGNAL_LEAD, "off")
    _wire(draft, pump_name, "FUEL PUMP" + label, f"{unit} PUMP", pump_name)


def _engine_unit(name: str, place: str) -> Entry:
    fields = {
        "kind": "engine unit",
        "place": place,
        "ports": [
            {"plug": "power-2", "names": ["BATT"], "contacts": "pins"},
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins"},
            {"plug": "power-2", "names": ["PUMP"], "contacts": "sockets"},
        ],
        "fed_by": ["BATT"],
        "current": typical_current("engine unit"),
        "volts": {"least": "9 V", "most": "13 V"},
        "stop": "throttle and its trim to their lowest",
        "stopped": "the rotor stands still and the unit says that it has cooled down",
    }
    return Entry(name, fields, "", {"current": PUT_YOURS})


def _fit_piston(draft: Draft, answers: Answers, radio: Radio, before: str, label: str) -> None:
    """Fit a piston engine's throttle servo and its ignition, with a switch that the radio turns off."""
    bay, engine, switch, name = (f"{before}{it}" for it in ("engine-bay", "engine", "ignition-switch", "ignition"))
    fit_servo(draft, answers, radio, f"{before}throttle", "THR" + label, failsafe="idle", place=bay)
    on = "plug it in last of all, aircraft held, throttle low; the ignition switch shows that it is off"
    off = "unplug it once the propeller stands still"
    says = "Ignition: a pack of its own, and a switch that the radio turns off. Keep it and its leads off receivers."
    ignition = {
        "kind": "ignition",
        "place": engine,
        "plug": "power-2",
        "current": typical_current("ignition"),
        "volts": {"least": "4.8 V", "most": "8.4 V"},
    }
    draft.equipment += [
        pack(f"{name}-pack", f"{name}-pack-bay", "power-2", (2, "1500 mAh"), on, off, says=_once(draft, says)),
        _ignition_switch(switch, bay),
        Entry(name, ignition, "", {"current": PUT_YOURS}),
    ]
    _run(draft, before, bay)
    draft.add_run(f"{name}-pack-bay", bay)
    draft.add_run(bay, engine)
    _wire(draft, f"{name}-supply", "IGN BATT" + label, f"{name}-pack", f"{switch} IN")
    radio.command(f"{name}-cut", "IGN CUT" + label, f"{switch} RX", _SIGNAL_LEAD, "off")
    _wire(draft, name, "IGN" + label, f"{switch} OUT", name)


def _ignition_switch(name: str, place: str) -> Entry:
    fields = {
        "kind": "power switch",
        "place": place,
        "ports": [
            {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins"},
            {"plug": "power-2", "names": ["OUT"], "contacts": "sockets"},
        ],
        "volts": {"least": "4.8 V", "most": "9 V"},
        "fed_by": ["IN"],
        "on": "on from the transmitter, aircraft held, nobody near the propeller; its lamp comes on",
        "off": "off from the transmitter; its lamp goes out",
    }
    return Entry(name, fields)


def _run(draft: Draft, before: str, bay: str) -> None:
    """Lead from the radio to an engine in the fuselage; those in the wing lie on the way along it."""
    if not before:
        draft.add_run(HUB, bay, sharp=True)


def _plug_in(draft: Draft, name: str, label: str, start: str, goal: str) -> None:
    """Add a circuit that plugs straight in with the leads that came along."""
    draft.circuits.append(Entry(name, {"label": by_side(label), "from": start, "to": goal}))


def _wire(draft: Draft, name: str, label: str, start: str, goal: str) -> None:
    """Add a circuit that brings supply over a lead that is cut."""
    fields = {"label": by_side(label), "from": start, "to": goal, "lead": "power-20"}
    draft.circuits.append(Entry(name, fields))


def _once(draft: Draft, says: str) -> str:
    """Return a comment, or none where it stands already."""
    return "" if any(entry.says == says for entry in draft.equipment) else says
