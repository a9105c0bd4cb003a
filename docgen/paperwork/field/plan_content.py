"""Take a harness; return what its plan from above shows: joints, covers, antennas, and lines of its assemblies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from string import ascii_uppercase

from docgen.basics.frozen import frozen
from docgen.harness.model.airframe import Place
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import sided, sides_text

Spot = tuple[float, float]
"""How far aft and right of the nose [mm]."""


@frozen
class Mark:
    """A joint with its number, a cover with its letter, or an antenna with how it lies, and where that is."""

    kind: str
    says: str
    at: Spot


@frozen
class Plan:
    """Marks, with what numbers and letters stand for; what is alike left and right, or opens alike, has one of them."""

    marks: tuple[Mark, ...]
    joints: tuple[tuple[str, str], ...]
    covers: tuple[tuple[str, str], ...]
    lines: tuple[tuple[Spot, Spot], ...]

    @property
    def has_antennas(self) -> bool:
        """Tell whether any arrow is drawn."""
        return any(mark.kind == "antenna" for mark in self.marks)


def plan_of(harness: Harness) -> Plan:
    """Return the plan of all that has coordinates; a cover is a place with an access where no joint lies."""
    names = sided(harness.disconnects)
    numbers = {name: str(number) for number, pair in enumerate(names, 1) for name in pair}
    joints = [
        Mark("joint", numbers[name], spot)
        for name, joint in harness.disconnects.items()
        if (spot := _spot(harness.places[joint.halves[0].place])) is not None
    ]
    of_joints = {half.place for joint in harness.disconnects.values() for half in joint.halves}
    covered = [place for place in harness.places.values() if place.access and place.name not in of_joints]
    letters = dict(zip(dict.fromkeys(place.access for place in covered), _letters(), strict=False))
    covers = [Mark("cover", letters[place.access], spot) for place in covered if (spot := _spot(place)) is not None]
    shown = {mark.says for mark in (*joints, *covers)}
    antennas = [antenna.form for entry in harness.equipment.values() for antenna in entry.antennas]
    arrows = [
        Mark("antenna", form.lies, spot) for form in antennas if (spot := _spot(harness.places[form.place])) is not None
    ]
    return Plan(
        (*joints, *arrows, *covers),
        tuple((str(number), sides_text(pair)) for number, pair in enumerate(names, 1) if str(number) in shown),
        tuple((letter, access) for access, letter in letters.items() if letter in shown),
        tuple(_lines(harness)),
    )


def _letters() -> Iterator[str]:
    """Walk A to Z, then AA to ZZ, without I and O, which look like figures."""
    single = [letter for letter in ascii_uppercase if letter not in "IO"]
    yield from single
    yield from (one + other for one in single for other in single)


def _spot(place: Place) -> Spot | None:
    return place.point_mm[:2] if place.point_mm is not None else None


def _lines(harness: Harness) -> Iterator[tuple[Spot, Spot]]:
    """Walk a line for each assembly, between its places that lie farthest apart, along it or across."""
    for assembly in harness.assemblies:
        spots = [spot for place in harness.places.values() if place.assembly == assembly and (spot := _spot(place))]
        along, across = _ends(spots, 0), _ends(spots, 1)
        if along is not None and across is not None:
            longer = max((along, 0), (across, 1), key=lambda ends: ends[0][1][ends[1]] - ends[0][0][ends[1]])
            yield longer[0]


def _ends(spots: Sequence[Spot], axis: int) -> tuple[Spot, Spot] | None:
    """Return the spots at both ends along an axis, where there are two."""
    ordered = sorted(spots, key=lambda spot: spot[axis])
    return (ordered[0], ordered[-1]) if len(set(ordered)) > 1 else None
