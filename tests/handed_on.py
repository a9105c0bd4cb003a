"""The smallest example with a gyro before its rudder, and a rudder servo that hands its bus on to one of a tab."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from conftest import Replacements

BUS_SERVO: Replacements = [
    (
        "    lead: 300 mm\n    plug: servo-3\n",
        "    ports: {plug: servo-3, names: [BUS, NEXT], contacts: pins}\n    fed_by: [BUS]\n",
    ),
    ("    to: rudder\n", "    to: rudder BUS\n"),
    (
        "  rudder:\n    kind",
        "  tab:\n    kind: servo\n    place: tail-post\n    lead: 120 mm\n    plug: servo-3\n"
        "    current: {idle: 30 mA, working: 0.5 A, stall: 2.4 A}\n  rudder:\n    kind",
    ),
    ("  rudder:\n    label", "  tab: {label: TAB, from: rudder NEXT, to: tab, lead: servo-22}\n  rudder:\n    label"),
]
GYRO: Replacements = [
    (
        "  rudder:\n    kind",
        "  gyro:\n    kind: gyro\n    place: radio-tray\n"
        "    ports: {plug: servo-3, names: [YAW, RUD], contacts: pins}\n    fed_by: [YAW]\n"
        "    current: {working: 90 mA}\n  rudder:\n    kind",
    ),
    ("    from: receiver 4\n", "    from: gyro RUD\n"),
    ("    channel: 4\n    throw: 40 mm each way\n", ""),
    (
        "circuits:\n",
        "circuits:\n  yaw: {label: YAW, from: receiver 4, to: gyro YAW, lead: servo-22, channel: 4, failsafe: hold}\n",
    ),
]
