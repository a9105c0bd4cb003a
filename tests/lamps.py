"""The smallest example with lamps, whose unit's own lead goes into the last port of the receiver."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from conftest import Replacements

LIGHTS = """  lamps:
    kind: light controller
    place: radio-tray
    ports:
      - {plug: servo-3, names: [RX], lead: 180 mm, lead_wire: lead-26}
      - {plug: servo-3, names: [POS], contacts: pins}
    fed_by: [RX]
    current: {working: 30 mA}
  position:
    {kind: light, place: radio-tray, lead: 90 mm, plug: servo-3, current: {working: 60 mA}}
"""
LIT: Replacements = [
    ("  rudder:\n    kind", f"{LIGHTS}  rudder:\n    kind"),
    (
        "  rudder:\n    label",
        "  lamps: {from: receiver 3, to: lamps RX}\n  pos: {from: lamps POS, to: position, lead: servo-22}\n"
        "  rudder:\n    label",
    ),
]
