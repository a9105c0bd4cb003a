"""Take a route and return how hot it gets along it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from docgen.harness.model.airframe import Place, Route, Run


def hottest_c(places: Mapping[str, Place], runs: Sequence[Run], route: Route) -> float | None:
    """Return the heat of the hottest run or place on a route [°C], or nothing where none is given."""
    heats = [places[name].heat_c for name in route.places] + [runs[index].heat_c for index in route.runs]
    return max((heat for heat in heats if heat is not None), default=None)
