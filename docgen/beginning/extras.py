"""Lights and smoke."""

from __future__ import annotations

from docgen.beginning.answers import Answers
from docgen.beginning.draft import SIDE, Draft, Entry, by_side
from docgen.beginning.radio import HUB, SIGNAL_LEAD, Radio
from docgen.beginning.service import has_service_pack
from docgen.beginning.typical import PUT_YOURS, typical_current

UNIT = "light-unit"
_TRAY = "light-tray"
_LIGHT_LEAD = "light-24"


def fit_extras(draft: Draft, answers: Answers, radio: Radio) -> None:
    """Fit lights on a unit that the radio commands, and the smoke pump."""
    if answers.position_lights or answers.landing_lights or answers.beacon:
        _fit_lights(draft, answers, radio)
    if answers.smoke:
        _fit_smoke(draft, radio)


def _fit_lights(draft: Draft, answers: Answers, radio: Radio) -> None:
    service = has_service_pack(answers)
    lights = _lights(answers)
    outlets = [outlet for _, label, *_ in lights for outlet in _outlets(label)]
    draft.equipment.append(_light_unit(outlets, service=service))
    draft.add_run(HUB, _TRAY)
    if service:
        draft.add_circuit("light-supply", "LIGHT BATT", "service-switch LIGHTS", f"{UNIT} POWER", "power-20")
    radio.command("light-signal", "LIGHTS", f"{UNIT} RX", SIGNAL_LEAD if service else "servo-22", "hold")
    for name, label, place, what in lights:
        light = {
            "kind": "light",
            "place": place,
            "plug": "light-2",
            "current": typical_current(what),
            "volts": {"least": "4.5 V", "most": "9 V"},
        }
        draft.equipment.append(Entry(name, light, "", {"current": PUT_YOURS}))
        draft.add_circuit(name, label, by_side(f"{UNIT} {_outlet(label)}"), name, _LIGHT_LEAD)
    if answers.beacon:
        draft.add_run(HUB, "back")


def _lights(answers: Answers) -> list[tuple[str, str, str, str]]:
    """Return the lights that were answered: name, label, place, and what it typically is."""
    position = [
        (f"{SIDE}-position-light", "POS {}", f"{SIDE}-tip", "position light"),
        ("tail-light", "POS TAIL", "tail-end", "position light"),
    ]
    landing = [(f"{SIDE}-landing-light", "LAND {}", f"{SIDE}-lamp", "landing light")]
    beacon = [("beacon", "BEACON", "back", "beacon")]
    return position * answers.position_lights + landing * answers.landing_lights + beacon * answers.beacon


def _light_unit(outlets: list[str], *, service: bool) -> Entry:
    """Return the unit of the lights, which has its supply from the service switch, else from the receiver."""
    supply = [{"plug": "power-2", "names": ["POWER"], "contacts": "pins"}] if service else []
    fields = {
        "kind": "light controller",
        "place": _TRAY,
        "ports": [
            *supply,
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins"},
            {"plug": "light-2", "names": outlets, "contacts": "pins"},
        ],
        "fed_by": ["POWER" if service else "RX"],
        "current": typical_current("light controller"),
        "volts": {"least": "4.5 V", "most": "9 V"},
    }
    return Entry(UNIT, fields, "", {"current": PUT_YOURS})


def _outlets(label: str) -> list[str]:
    """Return the outlets of a light, or of one on each side."""
    outlets = by_side(_outlet(label))
    return [outlets] if isinstance(outlets, str) else list(outlets.values())


def _outlet(label: str) -> str:
    """Return the outlet of a light, named after its label."""
    return label.replace(" ", "-")


def _fit_smoke(draft: Draft, radio: Radio) -> None:
    pump = {
        "kind": "smoke",
        "place": "smoke-bay",
        "ports": [
            {"plug": "power-2", "names": ["POWER"], "contacts": "pins"},
            {"plug": "servo-3", "names": ["RX"], "contacts": "pins"},
        ],
        "fed_by": ["POWER"],
        "current": typical_current("smoke"),
        "volts": {"least": "4.8 V", "most": "9 V"},
    }
    draft.equipment.append(Entry("smoke-pump", pump, "", {"current": PUT_YOURS}))
    draft.add_run(HUB, "smoke-bay", sharp=True)
    draft.add_circuit("smoke-supply", "SMOKE BATT", "service-switch SMOKE", "smoke-pump POWER", "power-20")
    radio.command("smoke-signal", "SMOKE", "smoke-pump RX", SIGNAL_LEAD, "off")
