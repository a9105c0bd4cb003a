"""Take the runs as the builder wrote them; return them with their lengths, as far as known."""

from __future__ import annotations

import math
from collections.abc import Sequence

from docgen.definition.model import Definition
from docgen.harness.model.airframe import Place, Run


def straight_line_mm(places: dict[str, Place], between: Sequence[str]) -> float | None:
    """Return the straight line between two places whose points are known [mm]."""
    one, other = (places[name].point_mm for name in between)
    return math.dist(one, other) if one is not None and other is not None else None


def build_runs(definition: Definition) -> list[Run]:
    """Return the runs between known places; one without a length is as long as the straight line."""
    return [
        Run(
            between=(run.between[0], run.between[1]),
            length_mm=straight_line_mm(definition.places, run.between) if run.length is None else run.length,
            measured=run.length is not None,
            sharp=run.edges == "sharp",
            dressed=run.dressed,
            heat_c=run.heat,
            hinge_mm=run.hinge,
            note=run.note,
            hole_mm=run.hole_mm,
            closed=run.closed,
            sleeve=run.sleeve,
        )
        for run in definition.runs.values()
        if all(name in definition.places for name in run.between)
    ]
