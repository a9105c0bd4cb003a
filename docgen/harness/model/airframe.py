"""Where a harness lies: places, runs between them, and routes over runs; lengths in mm. Values only."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from docgen.basics.findings import shown
from docgen.basics.frozen import frozen
from docgen.definition.aircraft import NO_SLEEVE, Place, Point

__all__ = ["NO_SLEEVE", "Place", "Point", "Route", "Run"]


@frozen(slots=True)
class Run:
    """What wires are laid along between two places; its length may not be known yet.

    `hole_mm` is its tightest opening: a diameter, or both sides. No hand reaches a `closed` one. `sleeve` is the name
    of the one that the builder chose, `NO_SLEEVE` where he wants none.
    """

    between: tuple[str, str]
    length_mm: float | None
    measured: bool
    sharp: bool
    dressed: str | None
    heat_c: float | None
    hinge_mm: float | None
    note: str
    hole_mm: tuple[float, ...] | None = None
    closed: bool = False
    sleeve: str | None = None

    @property
    def ends_text(self) -> str:
        """Name its two places."""
        return f"{shown(self.between[0])} and {shown(self.between[1])}"


@frozen(slots=True)
class Route:
    """A route over runs: the places passed, the runs' numbers, and the length, if all of it is known.

    Where no run leads to one of two places yet it is those, without runs.
    """

    places: tuple[str, ...]
    runs: tuple[int, ...]
    length_mm: float | None


def hottest_c(places: Mapping[str, Place], runs: Sequence[Run], route: Route) -> float | None:
    """Return the heat of the hottest run or place on a route [°C], or nothing where none is given."""
    heats = [places[name].heat_c for name in route.places] + [runs[index].heat_c for index in route.runs]
    return max((heat for heat in heats if heat is not None), default=None)
