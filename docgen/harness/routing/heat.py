"""How hot it gets along a way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from docgen.harness.model.parts import Place, Route, Run


def hottest_c(places: Mapping[str, Place], runs: Sequence[Run], way: Route) -> float | None:
    """Return the heat of the hottest run or place on a way [°C], or nothing where none is given."""
    heats = [places[name].heat_c for name in way.places] + [runs[index].heat_c for index in way.runs]
    return max((heat for heat in heats if heat is not None), default=None)
