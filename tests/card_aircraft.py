"""Small aircraft with one disconnect of any shell, every contact of it wired in colours of choice."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import cycle, islice

CONTACT = "{rating: 5 A, brief: 7.5 A, resistance: 10 mohm, strip: 4 mm, takes: [28 AWG, 18 AWG], over: 2.2 mm}"
USUAL = ("BK", "RD", "WH")

_AIRCRAFT = """\
aircraft: {name: Test, description: one joint, marks: T-1, revision: A, date: 2026-01-02}
places:
  tray: {assembly: fuselage, at: {aft: 400 mm}, access: canopy}
  root: {assembly: fuselage, at: {aft: 600 mm}, access: wing off}
  panel: {assembly: wing, at: {aft: 600 mm, left: 20 mm}, access: wing off}
  tip: {assembly: wing, at: {aft: 600 mm, left: 500 mm}, access: tip cover}
runs:
  - {between: [tray, root], length: 300 mm}
  - {between: [panel, tip], length: 500 mm}
"""

_HARNESS = """\
equipment:
  box: {{kind: other, place: tray, ports: [{{plug: many, names: [OUT], contacts: sockets}}]}}
  far: {{kind: other, place: tip, lead: 100 mm, lead_wire: pvc-24, plug: many}}
disconnects:
  joint:
    shell: {shell}
    fixed: {{place: root, contacts: {fixed}{fixed_key}}}
    loose: {{place: panel, contacts: {loose}, reach: 120 mm{loose_key}}}
circuits:
  all: {{label: ALL, from: box OUT, to: far, through: [joint], lead: many, contacts: {{joint: [{contacts}]}}}}
"""


def one_joint(
    shell: str,
    contacts: Sequence[str],
    *,
    fixed: str = "sockets",
    keys: tuple[str | None, str | None] = (None, None),
    colours: Sequence[str] = USUAL,
    own_shell: str = "",
) -> dict[str, str]:
    """Return the files of an aircraft whose joint is of that shell; colours go round; `own_shell` is its entry."""
    roles = [f"w{i}" for i in range(1, len(contacts) + 1)]
    wires = ", ".join(f"{r}: pvc-24 {c}" for r, c in zip(roles, islice(cycle(colours), len(roles)), strict=True))
    plug = ", ".join(f"{i}: {role}" for i, role in enumerate(roles, 1))
    parts = (
        f"plugs:\n  many: {{contacts: {{{plug}}}, equipment: sockets, contact: {CONTACT}, size: [8 mm, 3 mm]}}\n"
        f"leads:\n  many: {{wires: {{{wires}}}}}\n"
    )
    if own_shell:
        parts += f"shells:\n  {shell}: {own_shell}\n"
    turned = [f", key: {key}" if key else "" for key in keys]
    harness = _HARNESS.format(
        shell=shell,
        fixed=fixed,
        loose="pins" if fixed == "sockets" else "sockets",
        fixed_key=turned[0],
        loose_key=turned[1],
        contacts=", ".join(contacts),
    )
    return {"aircraft.yaml": _AIRCRAFT, "harness.yaml": harness, "parts.yaml": parts}
