"""Equipment that stands in several places, and what all typically draws: common practice, no source."""

from __future__ import annotations

from typing import Any

from docgen.beginning.draft import Entry

_SERVO = {"idle": "20 mA", "working": "0.4 A", "stall": "2.5 A"}
_SMALL_SERVO = {"idle": "10 mA", "working": "0.2 A", "stall": "0.8 A"}
_CURRENTS = {
    "servo": _SERVO,
    "small servo": _SMALL_SERVO,
    "receiver": {"working": "100 mA"},
    "power unit": {"working": "80 mA"},
    "gear controller": {"working": "50 mA"},
    "gear leg": {"idle": "0 A", "working": "1 A", "stall": "3.5 A", "runs": "20 s"},
    "brake": {"idle": "0 A", "working": "0.5 A", "runs": "20 s"},
    "speed controller": {"idle": "50 mA", "working": "25 A", "stall": "45 A"},
    "turbine unit": {"idle": "0.2 A", "working": "2.5 A"},
    "ignition": {"working": "0.6 A"},
    "light controller": {"working": "30 mA"},
    "position light": {"working": "60 mA"},
    "landing light": {"working": "0.4 A", "runs": "90 s"},
    "beacon": {"working": "0.1 A"},
    "smoke": {"idle": "0 A", "working": "1.8 A", "runs": "60 s"},
}
PUT_YOURS = "typical, put yours"


def typical_current(what: str) -> dict[str, Any]:
    """Return what `current:` of equipment says, marked as typical."""
    return {**_CURRENTS[what], "typical": "yes"}


def pack(  # each of its words is said of one pack
    name: str, place: str, plug: str, battery: tuple[int, str], on: str, off: str, *, wire: str = "", says: str = ""
) -> Entry:
    """Return the entry of a lithium pack of so many cells and so much charge, of a wire where that must be said."""
    fields: dict[str, Any] = {"kind": "battery", "place": place, "plug": plug}
    fields |= {"lead_wire": wire} if wire else {}
    fields |= {"battery": _lithium(*battery), "on": on, "off": off}
    return Entry(name, fields, says, {"battery": PUT_YOURS})


def power_switch(name: str, place: str, plug: str, outlets: list[str], on: str, off: str) -> Entry:
    """Return the entry of a switch between a pack on that plug and its outlets."""
    fields = {
        "kind": "power switch",
        "place": place,
        "ports": [
            {"plug": plug, "names": ["IN"], "contacts": "pins"},
            {"plug": "power-2", "names": outlets, "contacts": "sockets"},
        ],
        "volts": {"least": "4.8 V", "most": "9 V"},
        "fed_by": ["IN"],
        "on": on,
        "off": off,
    }
    return Entry(name, fields)


def _lithium(cells: int, capacity: str) -> dict[str, Any]:
    """Return what `battery:` says of a lithium pack of so many cells: 4.2 V full, 3.3 V empty each."""
    full, empty = 4.2 * cells, 3.3 * cells
    return {"cells": str(cells), "capacity": capacity, "full": f"{full:.1f} V", "empty": f"{empty:.1f} V"}
