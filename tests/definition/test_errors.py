"""Each error, with a definition that raises it at the `▶`, and a nearly equal one that does not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import pytest

from docgen.basics.findings import Finding

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes, Place

ErrorsIn = Callable[[Path], list[Finding]]
PlacesOf = Callable[[list[Finding]], "set[Place]"]


class Case(NamedTuple):
    """One error: what raises it, what is nearly equal, and what the builder must be told."""

    about: str
    name: str
    wrong: Changes
    right: Changes
    told: str = ""


def harness(*replacements: tuple[str, str]) -> Changes:
    return {"harness.yaml": list(replacements)}


def aircraft(*replacements: tuple[str, str]) -> Changes:
    return {"aircraft.yaml": list(replacements)}


RUDDER = "    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n    loop: 80 mm\n"
SUPPLY = "    label: RX BATT\n    from: pack\n    to: receiver BATT\n    lead: power-20\n"
SIDES = "    through: [<side>-root]\n    lead: servo-22\n"
ANTENNA = "B: {place: radio-tray, lies: crosswise, lead: 150 mm}"
SYSTEM = "    on: plug the pack in through the nose hatch; the receiver's light comes on\n"


def rudder(new: str) -> Changes:
    return harness((RUDDER, new))


def supply(new: str) -> Changes:
    return harness((SUPPLY, new))


def sides(new: str) -> Changes:
    return harness((SIDES, new))


def patch(more: str = "", key: str = "from: ▶receiver 3") -> Changes:
    """Join two ports of the receiver."""
    return harness(
        ("names: 1..4", "names: 1..5"),
        ("circuits:\n", f"circuits:\n  patch:\n    {key}\n    to: receiver 5\n    lead: servo-22\n{more}"),
    )


CASES = [
    Case("open bracket", "syntax", aircraft(("edges: sharp}\n\nflight", "edges: sharp\n\nflight▶")), {})
    if False
    else Case(
        "alias",
        "syntax",
        rudder(RUDDER.replace("receiver 4", "▶*there")),
        rudder(RUDDER.replace("receiver 4", '"receiver 4"')),
    ),
    Case(
        "colon in a text",
        "syntax",
        harness(("light comes on", "light▶: comes on")),
        harness(("light comes on", "light:comes on")),
    ),
    # key
    Case(
        "unknown section", "key", harness(("circuits:\n", "▶circiuts: {a: b}\ncircuits:\n")), {}, "circuits"
    ),
    Case("unknown key", "key", rudder(RUDDER.replace("loop:", "▶lop:")), rudder(RUDDER), "loop"),
    Case(
        "unknown key inside",
        "key",
        aircraft(("(nose hatch".replace("(", ""), "nose hatch"))
        if False
        else harness((ANTENNA, ANTENNA.replace("lies", "▶lays, lies").replace("lays", "lys: sloping"))),
        harness((ANTENNA, ANTENNA.replace("crosswise", "sloping"))),
        "lies",
    ),
    Case(
        "unknown key in a list item",
        "key",
        aircraft(("{time: 9 min", "{▶tme: 1 min, time: 9 min")),
        {},
        "time",
    ),
    Case(
        "doubled key", "key", rudder(RUDDER + "    ▶label: RUDDER\n"), rudder(RUDDER + "    note: RUDDER\n")
    ),
    Case(
        "doubled entry",
        "key",
        harness(("  rudder:\n    label", "  ▶supply:\n    label")),
        harness(("  rudder:\n    label", "  supply-2:\n    label")),
    ),
]
