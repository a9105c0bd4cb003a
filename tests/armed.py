"""An aircraft whose motor's controller hangs behind an arming plug, on supply leads that are cut."""

from __future__ import annotations

from pathlib import Path

from beginning.begun import written

ARMED = """    to: arming IN
    lead: power-12
  armed:
    label: ARMED
    from: arming OUT
    to: motor-control PACK
    lead: power-12
"""
ARMING = """  arming:
    kind: %s
    place: motor-bay
    ports:
      - {plug: power-2-motor, names: [IN], contacts: pins}
      - {plug: power-2-motor, names: [OUT], contacts: sockets}
    fed_by: [IN]
"""


def armed(folder: Path, kind: str = "power switch") -> Path:
    """Begin it in a folder, and put the arming plug in, of a kind, with more lines of it after that."""
    path = written(folder, {"drive": "motor,receiver-pack"}) / "harness.yaml"
    text = path.read_text("utf-8").replace("    to: motor-control PACK\n", ARMED)
    path.write_text(text.replace("  motor-control:\n", f"{ARMING % kind}  motor-control:\n", 1), "utf-8")
    return folder
