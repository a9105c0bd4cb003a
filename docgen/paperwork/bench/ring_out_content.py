"""Take a harness; return what the ring-out sheet holds: readings of leads and paths, and what must not be connected."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.harness.continuity.isolation import Isolation, isolations
from docgen.harness.continuity.netlist import Point
from docgen.harness.continuity.readings import (
    Chain,
    LeadReadings,
    Reading,
    lead_readings,
    mirror_chains,
    path_readings,
    tail_readings,
)
from docgen.harness.model.circuits import numbered
from docgen.harness.model.harness import Harness
from docgen.paperwork.naming import which_half


@dataclass(frozen=True)
class Row:
    """Two contacts to ring out, each at its plug or half, over wires of one role, and what 1 A drops [mV]."""

    role: str
    marks: tuple[str, ...]
    start: str
    goal: str
    contacts: tuple[str, str]
    expected_mv: float
    too_much_mv: float


@dataclass(frozen=True)
class LeadName:
    """The leads between two probes: their circuit, and their segments."""

    circuit: str
    segments: tuple[str, ...]


@dataclass(frozen=True)
class LeadRows:
    """The wires of the leads between two probes, or of a whole path."""

    lead: LeadName
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class TailRows:
    """The tails of a common behind one half."""

    common: str
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Along:
    """Pairs of contacts of one plug or half that must not be connected."""

    place: str
    pairs: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Contact:
    """A contact and the plug that it is in."""

    place: str
    contact: str


@dataclass(frozen=True)
class AssemblyRows:
    """What is rung out of one assembly, disconnects parted."""

    assembly: str
    leads: tuple[LeadRows, ...]
    tails: tuple[TailRows, ...]
    isolated: tuple[Along, ...]


@dataclass(frozen=True)
class RingOutContent:
    """All that is rung out, by assembly with disconnects parted, and then with all mated."""

    assemblies: tuple[AssemblyRows, ...]
    mirrors: tuple[tuple[LeadName, LeadName], ...]
    paths: tuple[LeadRows, ...]
    mated: tuple[Along, ...]
    packs: tuple[tuple[Contact, Contact], ...]


def content(harness: Harness) -> RingOutContent:
    """Return what there is to ring out."""
    leads, tails, apart = lead_readings(harness), tail_readings(harness), isolations(harness)
    return RingOutContent(
        assemblies=tuple(
            AssemblyRows(
                assembly,
                _lead_rows(harness, [each for each in leads if each.leads[-1].assembly == assembly]),
                tuple(
                    TailRows(each.common.name, tuple(_row(harness, reading, ()) for reading in each.readings))
                    for each in tails
                    if each.assembly == assembly
                ),
                _along(harness, [group for group in apart.parted if group.assembly == assembly]),
            )
            for assembly in harness.assemblies
        ),
        mirrors=tuple((_lead_name(left), _lead_name(right)) for left, right in mirror_chains(harness)),
        paths=_lead_rows(harness, path_readings(harness)),
        mated=_along(harness, apart.mated),
        packs=tuple((_contact(harness, one), _contact(harness, other)) for one, other in apart.packs),
    )


def _lead_rows(harness: Harness, found: Iterable[LeadReadings]) -> tuple[LeadRows, ...]:
    return tuple(
        LeadRows(
            _lead_name(each.leads),
            tuple(_row(harness, reading, each.marks(reading.role)) for reading in each.readings),
        )
        for each in found
    )


def _lead_name(chain: Chain) -> LeadName:
    return LeadName(chain[0].circuit, tuple(lead.segment for lead in chain))


def _row(harness: Harness, reading: Reading, marks: tuple[str, ...]) -> Row:
    return Row(
        role=reading.role,
        marks=marks,
        start=_place(harness, reading.start),
        goal=_place(harness, reading.goal),
        contacts=(reading.start.contact, reading.goal.contact),
        expected_mv=reading.expected_mv,
        too_much_mv=reading.too_much_mv,
    )


def _along(harness: Harness, groups: Sequence[Isolation]) -> tuple[Along, ...]:
    return tuple(
        Along(
            _place(harness, group.pairs[0][0], with_half=True),
            tuple((one.contact, other.contact) for one, other in group.pairs),
        )
        for group in groups
    )


def _contact(harness: Harness, point: Point) -> Contact:
    return Contact(_place(harness, point), point.contact)


def _place(harness: Harness, point: Point, *, with_half: bool = False) -> str:
    """Name a plug, or a disconnect; which half of it if asked, or if both are in one assembly."""
    if point.name in harness.disconnects:
        return point.name + which_half(harness, point.name, point.part, always=with_half)
    return numbered(point.name, "port", point.part)
