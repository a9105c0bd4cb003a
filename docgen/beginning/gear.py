"""Legs, doors, brakes and steering."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft, Entry, by_side
from docgen.beginning.radio import HUB, SIGNAL_LEAD, Radio
from docgen.beginning.surfaces import SERVO_LEAD, fit_servo, servo
from docgen.beginning.typical import PUT_YOURS, typical_current

UNIT = "gear-unit"
_TRAY = "gear-tray"
_MOTOR_LEAD = "motor-22"
_BRAKE_LEAD = "brake-24"


def fit_gear(draft: Draft, answers: Answers, radio: Radio) -> None:
    """Fit what the gear has; its unit works legs, doors and brakes."""
    if answers.steering:
        place = "nose-leg" if answers.retracts == 3 else "steering"
        fit_servo(draft, answers, radio, "steering", "STEER", failsafe="centre", place=place)
    if not (answers.retracts or answers.brakes):
        return
    draft.equipment.append(_unit(answers))
    draft.add_run(HUB, _TRAY)
    draft.add_circuit("gear-supply", "GEAR BATT", "service-switch GEAR", f"{UNIT} POWER", "power-16")
    if answers.retracts:
        radio.command("gear-signal", "GEAR", f"{UNIT} GEAR", SIGNAL_LEAD, "hold")
        _fit_legs(draft, answers)
    if answers.brakes:
        radio.command("brake-signal", "BRAKES", f"{UNIT} BRAKE", SIGNAL_LEAD, "off")
        _fit_brakes(draft)


def _unit(answers: Answers) -> Entry:
    letters = ["N", "L", "R"][3 - answers.retracts :] if answers.retracts else []
    legs = [f"LEG-{letter}" for letter in letters]
    doors = [f"DOOR-{letter}" for letter in letters] if answers.doors else []
    brakes = ["BRAKE-L", "BRAKE-R"] if answers.brakes else []
    drives = {"GEAR": legs + doors, "BRAKE": brakes}
    drives = {signal: outlets for signal, outlets in drives.items() if outlets}
    ports: list[Mapping[str, Any]] = [
        {"plug": plug, "names": names, "contacts": "pins"}
        for plug, names in (
            ("power-2", ["POWER"]),
            ("servo-3", list(drives)),
            ("motor-2", legs),
            ("servo-3", doors),
            ("brake-2", brakes),
        )
        if names
    ]
    fields = {
        "kind": "gear controller",
        "place": _TRAY,
        "ports": ports,
        "fed_by": ["POWER"],
        "drives": drives,
        "current": typical_current("gear controller"),
        "volts": {"least": "4.8 V", "most": "9 V"},
        "on": "comes on with the service switch, hands clear of legs and doors",
    }
    beside = {"drives": "which signal works which outlets", "current": PUT_YOURS}
    return Entry(UNIT, fields, "", beside)


def _fit_legs(draft: Draft, answers: Answers) -> None:
    if answers.retracts == 3:
        _fit_leg(draft, answers, "nose-leg", "N")
    _fit_leg(draft, answers, f"{SIDE}-leg", "{}")


def _fit_leg(draft: Draft, answers: Answers, name: str, letter: str) -> None:
    leg = {
        "kind": "gear leg",
        "place": name,
        "plug": "motor-2",
        "lead_wire": "pvc-22",
        "current": typical_current("gear leg"),
        "volts": {"least": "4.8 V", "most": "9 V"},
        "gear": {"limit": "10 s", "stop": "2 A"},
    }
    beside = {"current": PUT_YOURS, "gear": "what its unit is set to; time the strokes first, then add up: and down:"}
    draft.equipment.append(Entry(name, leg, "", beside))
    _hang(draft, name, "LEG", letter, _MOTOR_LEAD)
    if answers.doors:
        door = name.replace("-leg", "-door")
        draft.equipment.append(servo(door, name, "servo", "8.4 V"))
        _hang(draft, door, "DOOR", letter, SERVO_LEAD)


def _hang(draft: Draft, name: str, what: str, letter: str, lead: str) -> None:
    """Add the circuit from the unit's outlet of that letter, of each side for `{}`."""
    draft.add_circuit(name, f"{what} {letter}", by_side(f"{UNIT} {what}-{letter}"), name, lead)


def _fit_brakes(draft: Draft) -> None:
    name = f"{SIDE}-brake"
    brake = {
        "kind": "brake",
        "place": f"{SIDE}-wheel",
        "plug": "brake-2",
        "current": typical_current("brake"),
        "volts": {"least": "4.8 V", "most": "9 V"},
    }
    draft.equipment.append(Entry(name, brake, "", {"current": PUT_YOURS}))
    _hang(draft, name, "BRAKE", "{}", _BRAKE_LEAD)
