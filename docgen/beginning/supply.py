"""What feeds the radio: packs, the unit or what lies between each and its receiver, and what switches it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from docgen.beginning.answers import Answers
from docgen.beginning.draft import Draft, Entry
from docgen.beginning.radio import HUB, SIGNAL_LEAD, UNIT, Radio
from docgen.beginning.typical import PUT_YOURS, pack, typical_current

PACK_BAY = "pack-bay"
SILL = "sill"
HEAVY_PLUG, HEAVY_LEAD = "power-2-heavy", "power-16"
_KEYED_TRAY = "switch-tray"  # where what a key switches lies: the key alone is in the sill
_REGULATED = {"volts": "6 V", "headroom": "0.4 V"}
_FEW_SERVOS = 6  # so many on each pack a thinner lead feeds


def fit_radio(draft: Draft, answers: Answers, radio: Radio) -> None:
    """Put receivers and what feeds them before all else that is in the draft, once all ports are given out."""
    fitted = Draft(equipment=list(radio.entries()))
    for receiver in radio.receivers:
        if radio.place_of(receiver) != HUB:
            fitted.add_run(HUB, radio.place_of(receiver))
    if answers.power_unit:
        _fit_unit(fitted, answers, radio)
    elif answers.feeds == "receiver-pack":
        for letter, receiver in zip("ab", radio.receivers, strict=False):
            suffix = f"-{letter}" if len(radio.receivers) > 1 else ""
            _fit_supply(fitted, answers, suffix, f"{receiver} BATT", radio.place_of(receiver))
    if fitted.circuits:
        fitted.circuits[0] = replace(fitted.circuits[0], says="Supply of the radio.")
    draft.equipment[:0] = fitted.equipment
    draft.circuits[:0] = fitted.circuits
    runs, draft.runs = draft.runs, fitted.runs
    for run in runs:
        draft.add_run(*run["between"], sharp="edges" in run)


def _fit_unit(fitted: Draft, answers: Answers, radio: Radio) -> None:
    suffixes = ["-a", "-b"] if answers.packs == "two-packs" else [""]
    feeds = [f"PACK{suffix.upper()}" for suffix in suffixes]
    fitted.equipment.append(_unit(answers, radio, feeds))
    for suffix, port in zip(suffixes, feeds, strict=True):
        _fit_pack(fitted, answers, f"pack{suffix}", HEAVY_PLUG)
        fitted.add_circuit(
            f"pack{suffix}-supply", _label("PACK", suffix), f"pack{suffix}", f"{UNIT} {port}", HEAVY_LEAD
        )
    fitted.add_run(PACK_BAY, HUB, sharp=True)
    data_ports = radio.data_ports()
    for letter, (receiver, port) in zip("AB", data_ports, strict=False):
        label = _label("RX", f"-{letter}" if len(data_ports) > 1 else "")
        fitted.add_circuit(f"{receiver}-{port.lower()}", label, f"{UNIT} RX-{letter}", f"{receiver} {port}", "servo-22")
    if answers.switch == "key":
        _fit_key(fitted, UNIT, HUB, "")


def _unit(answers: Answers, radio: Radio, feeds: list[str]) -> Entry:
    ports: list[Mapping[str, Any]] = [
        {"plug": HEAVY_PLUG, "names": feeds, "contacts": "pins"},
        {"plug": "servo-3", "names": radio.numbered(UNIT), "contacts": "pins"},
        {
            "plug": "servo-3",
            "names": [f"RX-{letter}" for letter in "AB"[: len(radio.data_ports())]],
            "contacts": "pins",
        },
    ]
    fields: dict[str, Any] = {
        "kind": "power unit",
        "place": HUB,
        "ports": ports + _key_port(answers),
        "current": typical_current("power unit"),
        "volts": {"least": "4.5 V", "most": "9 V"},
        "fed_by": feeds,
        "isolates": "yes",
        **_output(answers),
        **_switched(answers, "its lamps are steady", "its lamps go out"),
    }
    beside = {"current": PUT_YOURS, "isolates": "it keeps its packs apart, if its maker says so"}
    if len(feeds) > 1:
        fields["accept"] = {"one-loss": "all meets in it; within it all is there twice"}
        beside["accept"] = "if that is not so in yours, delete this line"
    return Entry(UNIT, fields, "", beside)


def _fit_supply(fitted: Draft, answers: Answers, suffix: str, goal: str, place: str) -> None:
    """Fit the pack of a receiver, and the switch or regulator between."""
    packs = 2 if answers.packs == "two-packs" else 1
    few = answers.radio_servos <= _FEW_SERVOS * packs
    plug, lead = ("power-2", "power-20") if few else (HEAVY_PLUG, HEAVY_LEAD)
    name = f"pack{suffix}"
    _fit_pack(fitted, answers, name, plug)
    between, at = _between(answers, suffix)
    if not between:
        fitted.add_run(PACK_BAY, place, sharp=True)
        fitted.add_circuit(f"supply{suffix}", _label("RX BATT", suffix), name, goal, lead)
        return
    fitted.equipment.append(_switch(answers, between, at, plug))
    fitted.add_run(PACK_BAY, at, sharp=True)
    fitted.add_run(at, place)
    fitted.add_circuit(f"{name}-supply", _label("PACK", suffix), name, f"{between} IN", lead)
    fitted.add_circuit(f"supply{suffix}", _label("RX BATT", suffix), f"{between} OUT", goal, lead)
    if answers.switch == "key":
        _fit_key(fitted, between, at, suffix)


def _between(answers: Answers, suffix: str) -> tuple[str, str]:
    """Return what lies between a pack and its receiver, and where; nothing where that is plugged in."""
    if answers.switch != "plug-in":
        return f"switch{suffix}", SILL if answers.switch == "switch" else _KEYED_TRAY
    return (f"regulator{suffix}", "regulator-tray") if answers.volts == "regulated" else ("", "")


def _switch(answers: Answers, name: str, place: str, plug: str) -> Entry:
    ports: list[Mapping[str, Any]] = [
        {"plug": plug, "names": ["IN"], "contacts": "pins"},
        {"plug": "power-2", "names": ["OUT"], "contacts": "sockets"},
    ]
    fields: dict[str, Any] = {
        "kind": "regulator" if answers.switch == "plug-in" else "power switch",
        "place": place,
        "ports": ports + _key_port(answers),
        "volts": {"least": "4.5 V", "most": "9 V"},
        "fed_by": ["IN"],
        **_output(answers),
        **_switched(answers, "the receiver's light comes on", "the light goes out"),
    }
    return Entry(name, fields)


def _fit_pack(fitted: Draft, answers: Answers, name: str, plug: str) -> None:
    on, off = {
        "plug-in": ("plug it in; the receiver's light comes on", "unplug it"),
        "switch": ("plug it in with the switch off", "unplug it after the switch is off"),
        "key": ("plug it in with the key in", "unplug it after the key is in"),
    }[answers.switch]
    fitted.equipment.append(pack(name, PACK_BAY, plug, (2, "2600 mAh"), on, off))


def _fit_key(fitted: Draft, switched: str, place: str, suffix: str) -> None:
    fields = {"kind": "key", "place": SILL, "plug": "servo-3", "out": "on"}
    beside = {"out": "a key that shakes out, or a broken lead, leaves the radio on"}
    fitted.equipment.append(Entry(f"key{suffix}", fields, "", beside))
    fitted.add_run(place, SILL)
    fitted.add_circuit(f"key{suffix}", _label("KEY", suffix), f"{switched} KEY", f"key{suffix}", SIGNAL_LEAD)


def _key_port(answers: Answers) -> list[Mapping[str, Any]]:
    port = {"plug": "servo-3", "names": ["KEY"], "contacts": "pins"}
    return [port] if answers.switch == "key" else []


def _output(answers: Answers) -> dict[str, Any]:
    return {"output": _REGULATED} if answers.volts == "regulated" else {}


def _switched(answers: Answers, on: str, off: str) -> dict[str, str]:
    """Return how what is switched is said to go on and off."""
    return {
        "plug-in": {},
        "switch": {"on": f"switch on at the sill; {on}", "off": f"switch off at the sill; {off}"},
        "key": {"on": f"pull the key out of the sill; {on}", "off": f"push the key into the sill; {off}"},
    }[answers.switch]


def _label(text: str, suffix: str) -> str:
    return f"{text} {suffix[1:].upper()}".strip()
