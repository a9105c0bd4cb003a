"""The smallest example with a fin that comes off: the rudder's own plug, and the pack's, are halves of plain joints."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wren_changed import RUDDER

if TYPE_CHECKING:
    from conftest import Changes

FIN = """\
  fin:
    shell: servo-3
    fixed: {place: tail-post}
    loose: {place: fin-root}
"""
NOSE = """\
  nose:
    shell: power-2
    halves: [{place: battery-bay}, {place: battery-bay, reach: 50 mm}]
"""
OF_THE_FIN = RUDDER.replace("    lead: servo-22\n", "    through: [fin]\n    lead: {A: servo-22, B: own}\n")


def came_along(
    *more: tuple[str, str], fin: str = FIN, rudder: str = OF_THE_FIN, way: str = "180 mm", root: str = "assembly: fin"
) -> Changes:
    """Return Wren so; the rudder's own lead is 300 mm long, and comes down the fin for `way` to its `root`."""
    return {
        "aircraft.yaml": [
            (
                "# Where a wire can be laid",
                f"  fin-root: {{{root}, access: fin off}}\n  fin-servo: {{assembly: fin, access: servo cover}}\n#",
            ),
            ("runs:\n", f"runs:\n  - {{between: [fin-root, fin-servo], length: {way}}}\n"),
        ],
        "harness.yaml": [
            ("    kind: servo\n    place: tail-post\n", "    kind: servo\n    place: fin-servo\n"),
            ("disconnects:\n", f"disconnects:\n{fin}{NOSE}"),
            (f"{RUDDER}    loop: 80 mm\n", rudder),
            (
                "    to: receiver BATT\n    lead: power-20\n",
                "    to: receiver BATT\n    through: [nose]\n    lead: {A: own, B: power-20}\n",
            ),
            *more,
        ],
    }
