"""Where a harness lies: places, runs between them, and routes over runs; lengths in mm. Values only."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.findings import Position, shown

Point = tuple[float, float, float]
"""Aft, right and up from the nose datum."""


@dataclass(frozen=True, slots=True)
class Place:
    """A named point in the airframe."""

    name: str
    assembly: str
    point_mm: Point | None
    access: str
    slack_mm: float
    heat_c: float | None
    note: str
    position: Position


@dataclass(frozen=True, slots=True)
class Run:
    """A route that a wire can be laid between two places."""

    between: tuple[str, str]
    length_mm: float
    measured: bool
    sharp: bool
    dressed: str | None
    heat_c: float | None
    hinge_mm: float | None
    note: str
    position: Position

    @property
    def ends_text(self) -> str:
        """Name its two places."""
        return f"{shown(self.between[0])} and {shown(self.between[1])}"


@dataclass(frozen=True, slots=True)
class Route:
    """A route over runs: the places passed, the runs' numbers, and the length."""

    places: tuple[str, ...]
    runs: tuple[int, ...]
    length_mm: float
