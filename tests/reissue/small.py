"""States of a small aircraft, typed by hand: a rudder on a receiver, an aileron behind a joint, tails, a splice."""

from __future__ import annotations

from typing import Any, TypeVar

from docgen.definition.fields import Form
from docgen.definition.issued import (
    IssuedCircuit,
    IssuedDisconnect,
    IssuedEnd,
    IssuedEquipment,
    IssuedHalf,
    IssuedItem,
    IssuedLead,
    IssuedPorts,
    IssuedTail,
    IssuedWire,
    State,
)

_Form = TypeVar("_Form", bound=Form)

ROLES = {"negative": "BK", "positive": "RD", "signal": "WH"}
SERVO_PLUG = {"plug": "servo-3", "housing": "3 of 8 × 2.9 mm", "join": "crimp"}
BLOCK = {"plug": "block-8", "housing": "8 of 25 × 12 mm", "join": "crimp"}


def made(form: type[_Form], said: dict[str, Any], more: dict[str, Any]) -> _Form:
    """Return a form with what is said, what is said more instead of that."""
    return form(**said | more)


def port(name: str, part: str, place: str, **more: Any) -> IssuedEnd:
    return made(
        IssuedEnd, {"kind": "port", "name": name, "part": part, "place": place, "gender": "sockets"} | SERVO_PLUG, more
    )


def half(name: str, part: str, place: str, **more: Any) -> IssuedEnd:
    gender = "sockets" if part == "fixed" else "pins"
    return made(IssuedEnd, {"kind": "half", "name": name, "part": part, "place": place, "gender": gender} | BLOCK, more)


def splice(place: str) -> IssuedEnd:
    return IssuedEnd(kind="splice", place=place)


def wires(numbers: str, letter: str, start: str = "123", goal: str = "123", **more: Any) -> dict[str, IssuedWire]:
    """Return a wire of each role: marks of numbers such as `C1 C1 C2`, a contact of each at both ends, `-` for none."""
    found = {}
    for number, (role, colour), *at in zip(numbers.split(), ROLES.items(), start, goal, strict=True):
        contacts = tuple(() if contact == "-" else (contact,) for contact in at)
        mark = f"{number}{letter}22{'N' if role == 'negative' else ''}"
        said = {"mark": mark, "colour": colour, "gauge": "22 AWG", "wire": "pvc-22", "at": contacts}
        found[role] = made(IssuedWire, said, more)
    return found


def lead(start: IssuedEnd, goal: IssuedEnd, of: dict[str, IssuedWire], **more: Any) -> IssuedLead:
    said = {"part": "servo-22", "cut_mm": 300.0, "route": (start.place, goal.place), "ends": (start, goal), "wires": of}
    return made(IssuedLead, said, more)


def circuit(label: str, ends: str, leads: dict[str, IssuedLead], **more: Any) -> IssuedCircuit:
    """Return a circuit whose ends are such as `receiver 1 > rudder`."""
    words = tuple(tuple(end.split()) for end in ends.split(" > "))
    numbers = {"negative": "C1", "positive": "C1", "signal": "C2"}
    return made(
        IssuedCircuit,
        {"label": label, "ends": words, "numbers": numbers, "letters": tuple(leads), "leads": leads},
        more,
    )


def servo(place: str, **more: Any) -> IssuedEquipment:
    plug = IssuedPorts(plug="servo-3", gender="pins", order=tuple(ROLES), lead_mm=250.0, lead_wire="pvc-22")
    return made(
        IssuedEquipment, {"kind": "servo", "place": place, "ports": (plug,), "working_a": 0.4, "most_v": 8.4}, more
    )


def receiver(**more: Any) -> IssuedEquipment:
    ports = IssuedPorts(names=("1", "2", "3", "4"), plug="servo-3", gender="pins", order=tuple(ROLES))
    return made(IssuedEquipment, {"kind": "receiver", "place": "tray", "ports": (ports,)}, more)


def root(**more: Any) -> IssuedDisconnect:
    halves = (
        IssuedHalf(name="fixed", place="root", gender="sockets"),
        IssuedHalf(name="loose", place="panel", gender="pins"),
    )
    contacts = {"1": "aileron negative", "2": "aileron positive", "3": "aileron signal"}
    return made(IssuedDisconnect, {"shell": "block-8", "halves": halves, "contacts": contacts}, more)


def tail(contact: str, **more: Any) -> dict[str, IssuedTail]:
    return {
        contact: made(
            IssuedTail, {"common": "plus", "cut_mm": 40.0, "colour": "RD", "gauge": "18 AWG", "wire": "pvc-18"}, more
        )
    }


def rudder(at: str = "1", **more: Any) -> IssuedCircuit:
    """Return the rudder's circuit from a port of the receiver; what is said more is said of its lead."""
    ends = port("receiver", at, "tray"), port("rudder", "", "tail", own_mm=250.0, own_wire="pvc-22")
    of = more.pop("of", wires("C1 C1 C2", "A"))
    return circuit("RUD", f"receiver {at} > rudder", {"A": lead(*ends, of, **more)})


def aileron(contacts: str = "123", housing: str = "", **more: Any) -> IssuedCircuit:
    """Return the aileron's circuit through the joint on these contacts; what is said more is said of the circuit."""
    shell = {"housing": housing} if housing else {}
    fixed, loose = half("root", "fixed", "root", **shell), half("root", "loose", "panel", **shell)
    leads = {
        "A": lead(port("receiver", "2", "tray"), fixed, wires("C3 C3 C4", "A", goal=contacts)),
        "B": lead(loose, port("aileron", "", "wing", own_mm=250.0), wires("C3 C3 C4", "B", start=contacts)),
    }
    return circuit("AIL", "receiver 2 > aileron", leads, **{"failsafe": "hold", "channel": 2} | more)


def item(text: str, hash_: str = "00000000", *work: str) -> IssuedItem:
    return IssuedItem(since="A", hash=hash_, text=(text,), work=work)


def labels(*keys: str, **other: str) -> dict[str, IssuedItem]:
    """Return labels by key, such as `rudder A from`; what they say is their circuit's name in capitals."""
    return {key: item(key.split()[0].upper(), other.get(key.replace(" ", "_"), "00000000")) for key in keys}


EVERY_LABEL = (
    *(f"rudder A {end}" for end in ("from", "to")),
    *(f"aileron {letter} {end}" for letter in "AB" for end in ("from", "to")),
)


def state(issue: str = "A", **more: Any) -> State:
    """Return a state of the small aircraft; what is said more stands instead of what it has."""
    said: dict[str, Any] = {
        "issue": issue,
        "after": "" if issue == "A" else "A",
        "date": "2026-04-18",
        "aircraft": "Gull",
        "marks": "GU-1",
        "numbers": {"C": 4},
        "places": {},
        "equipment": {"receiver": receiver(), "rudder": servo("tail"), "aileron": servo("wing")},
        "disconnects": {"root": root()},
        "circuits": {"rudder": rudder(), "aileron": aileron()},
        "sleeves": {},
        "items": {"wire-labels": labels(*EVERY_LABEL)},
    }
    return made(State, said, more)
