"""Motors, turbines and piston engines, with all that makes them run and stop."""

from __future__ import annotations

from collections.abc import Callable

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft, Entry
from docgen.beginning.radio import HUB, SIGNAL_LEAD, Radio
from docgen.beginning.surfaces import SERVO_LEAD, fit_servo
from docgen.beginning.typical import PUT_YOURS, pack, power_switch, typical_current

_LEAD = "power-20"
_IGNITION_ON = "switch on last of all, aircraft held, throttle low, nobody near the propeller; its lamp comes on"
_IGNITION_OFF = "switch off first of all; its lamp goes out"


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
    draft.add_circuit(f"{name}-supply", "MOTOR BATT" + label, f"{name}-pack", f"{control} PACK")
    if own:
        port, channel = radio.port(SERVO_LEAD)
        fields = {"label": "THR", "from": f"{control} RX", "to": port, "lead": SERVO_LEAD, "channel": channel}
        feeds = "Throttle one way, supply of the radio the other: `from` is where the supply comes from."
        draft.circuits.append(Entry("throttle", {**fields, "failsafe": "off"}, feeds))
    else:
        radio.command(f"{before}throttle", "THR" + label, f"{control} RX", SIGNAL_LEAD, "off")
    draft.add_circuit(name, "MOTOR" + label, f"{control} MOTOR", name)


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
    """Fit a turbine's unit and its pack; what its unit drives comes with it."""
    tray, unit = f"{before}engine-tray", f"{before}engine-unit"
    on = "plug it in last of all, aircraft held, an extinguisher at hand; the unit's lamp comes on"
    off = "unplug it first of all, once the turbine has cooled down"
    says = (
        "Turbine: its maker's instructions come first. Pump, valves and igniter come with its unit and plug into that; "
        "add those whose leads you make."
    )
    stop, stopped = "throttle and its trim to their lowest", "rotor stands still, unit says that it has cooled down"
    draft.equipment += [
        pack(f"{before}engine-pack", tray, "power-2", (3, "3000 mAh"), on, off, wire="pvc-16", says=_once(draft, says)),
        _engine_unit(unit, tray, "turbine unit", ("9 V", "13 V"), stop, stopped),
    ]
    draft.add_run(HUB, tray, sharp=True)
    draft.add_circuit(f"{before}engine-supply", "ENGINE BATT" + label, f"{before}engine-pack", f"{unit} BATT")
    radio.command(f"{before}throttle", "THR" + label, f"{unit} RX", SIGNAL_LEAD, "off")


def _fit_piston(draft: Draft, answers: Answers, radio: Radio, before: str, label: str) -> None:
    """Fit a piston engine's throttle servo, and its ignition, which the radio turns off."""
    bay, name = f"{before}engine-bay", f"{before}ignition"
    says = (
        "Piston engine: the ignition with what the radio turns it off by, as one unit, and a pack and a switch of its "
        "own. Keep it and its leads away from receivers and antennas."
    )
    on, off = "plug it in with the ignition switch off", "unplug it after the ignition switch is off"
    stop, stopped = "throttle to its lowest, then ignition off from the transmitter", "the propeller stands still"
    fit_servo(draft, answers, radio, f"{before}throttle", "THR" + label, failsafe="idle", place=bay)
    draft.equipment += [
        pack(f"{name}-pack", f"{name}-pack-bay", "power-2", (2, "1500 mAh"), on, off, says=_once(draft, says)),
        power_switch(f"{name}-switch", f"{name}-sill", "power-2", ["OUT"], _IGNITION_ON, _IGNITION_OFF),
        _engine_unit(name, bay, "ignition", ("4.8 V", "8.4 V"), stop, stopped),
    ]
    _run(draft, before, bay)
    draft.add_run(f"{name}-pack-bay", f"{name}-sill")
    draft.add_run(f"{name}-sill", bay)
    draft.add_circuit(f"{name}-pack", "IGN PACK" + label, f"{name}-pack", f"{name}-switch IN", _LEAD)
    draft.add_circuit(f"{name}-supply", "IGN BATT" + label, f"{name}-switch OUT", f"{name} BATT", _LEAD)
    radio.command(f"{name}-cut", "IGN CUT" + label, f"{name} RX", SIGNAL_LEAD, "off")


def _engine_unit(name: str, place: str, what: str, volts: tuple[str, str], stop: str, stopped: str) -> Entry:
    least, most = volts
    fields = {
        "kind": "engine unit",
        "place": place,
        "ports": [
            {"plug": "power-2", "names": ["BATT"], "contacts": "pins"},
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins"},
        ],
        "fed_by": ["BATT"],
        "current": typical_current(what),
        "volts": {"least": least, "most": most},
        "stop": stop,
        "stopped": stopped,
    }
    return Entry(name, fields, "", {"current": PUT_YOURS})


def _run(draft: Draft, before: str, bay: str) -> None:
    """Lead from the radio to an engine in the fuselage; those in the wing lie on the way along it."""
    if not before:
        draft.add_run(HUB, bay, sharp=True)


def _once(draft: Draft, says: str) -> str:
    """Return a comment, or none where it stands already."""
    return "" if any(entry.says == says for entry in draft.equipment) else says
