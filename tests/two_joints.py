"""An aircraft whose loads lie behind two joints, one after the other, each with a common for either pole."""

from __future__ import annotations

from collections.abc import Mapping

from remedied import Definition, definition

SIGNAL_TO_THE_TIP = {"A": "lone-24", "B": "lone-24", "C": "servo-22"}
"""Leads of a servo that takes its poles from the commons of the second joint."""


def behind_two_joints(loads: Mapping[str, Definition], circuits: Mapping[str, Definition]) -> Definition:
    """Return loads at the tip, behind the joints `wing` and `tip`; the loads are members of the commons of `tip`."""
    said = definition(loads, circuits, shell="block-10")
    aircraft, harness = said["aircraft"], said["harness"]
    aircraft["places"] |= {
        "panel-end": {"assembly": "wing", "access": "wing off"},
        "tip-root": {"assembly": "tip", "access": "tip off"},
        "tip": {"assembly": "tip", "access": "cover"},
    }
    aircraft["runs"] = [
        {"between": ["tray", "root"], "length": "300 mm"},
        {"between": ["panel", "panel-end"], "length": "400 mm"},
        {"between": ["tip-root", "tip"], "length": "200 mm"},
    ]
    harness["disconnects"]["wing"]["commons"] = commons()
    harness["disconnects"]["tip"] = {
        "shell": "block-10",
        "fixed": {"place": "panel-end", "contacts": "sockets"},
        "loose": {"place": "tip-root", "contacts": "pins", "reach": "100 mm"},
        "commons": commons(*loads),
    }
    harness["equipment"]["unit"]["ports"][1]["names"] = ["W", "W2"]
    return said


def commons(*members: str) -> Definition:
    return {
        "p": {"role": "positive", "contacts": ["1", "2"], "circuits": list(members)},
        "n": {"role": "negative", "contacts": ["3", "4"], "circuits": list(members)},
    }
