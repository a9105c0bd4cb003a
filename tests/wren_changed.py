"""Changes to what the builder of the smallest example wrote, and parts to add to its list."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from conftest import Changes

RUDDER = "    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n"
SIDES = "    through: [<side>-root]\n    lead: servo-22\n"
BARE_AIRCRAFT = "aircraft: {name: W, description: D, marks: M, revision: A, date: 2026-04-18}\n"


def aircraft(old: str, new: str) -> Changes:
    return {"aircraft.yaml": [(old, new)]}


def harness(old: str, new: str) -> Changes:
    return {"harness.yaml": [(old, new)]}


def rudder(old: str, new: str) -> Changes:
    """Change the circuit of the rudder."""
    return harness(RUDDER, RUDDER.replace(old, new))


def sides(old: str, new: str) -> Changes:
    """Change the circuits of the ailerons."""
    return harness(SIDES, SIDES.replace(old, new))


def stores(old: str, new: str) -> Changes:
    return {"stores.yaml": [(old, new)]}


def parts(text: str) -> Changes:
    return {"parts.yaml": text}


WIRE = "wires: {w: {gauge: 22 AWG, diameter: 1.6 mm, resistance: 16 ohm/1000ft}}\n"
SHELL = (
    "shells:\n  s: {rows: [[1, 2]], pitch: {across: 5 mm, down: 5 mm}, outline: [20 mm, 12 mm],\n"
    "    contact: {rating: 3 A, resistance: 10 mohm}}\n"
)

# The block of the smallest example, with cups in place of barrels.
SOLDERED = """\
shells:
  block-6:
    rows: [[1, 2, 3], [4, 5, 6]]
    pitch: {across: 5.0 mm, down: 5.0 mm}
    outline: [20 mm, 12 mm]
    key: up
    contact: {rating: 10 A, resistance: 5 mohm, strip: 4 mm, takes: [24 AWG, 18 AWG], over: 2.2 mm, join: solder}
"""
