"""A light at the left aileron of the smallest example, and its circuit through the left root."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from builder import Builder

TIP_LIGHT = """
  tip-light:
    kind: light
    place: left-aileron
    lead: 100 mm
    plug: servo-3
"""
LIGHT = """\
  {name}:
    label: {label}
    from: receiver 3
    to: tip-light
    through: [left-root]
    lead: servo-22
"""


def with_light(builder: Builder, before: str, name: str = "tip-light", more: str = "") -> None:
    """Write a light and its circuit, that before another."""
    builder.change("\n  rudder:\n    kind: servo\n", TIP_LIGHT + "  rudder:\n    kind: servo\n")
    circuit = LIGHT.format(name=name, label=name.upper()) + more
    builder.change(f"\n  {before}:\n    label:", f"\n{circuit}  {before}:\n    label:")
