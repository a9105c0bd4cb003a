"""What else to get out for a harness: sample wire, contacts, housings, retainers, collars, grommets, clips."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from docgen.basics.units import decimal
from docgen.harness.assembly.samples import SAMPLE_MM, samples_of
from docgen.harness.assembly.splices import splices_of
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.bundling.tubes import fits
from docgen.harness.model.airframe import Run
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import End
from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.sleeves_and_tubes import ROW_MM, TICK_MM, tick
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

_SPARE = 0.1  # of contacts; common practice, no source
_COLLAR_MM = 20.0  # of tube over each end of a braid; common practice, no source
_SPLICE_MM = 25.0  # of tube over a splice; common practice, no source
_BRAID_MM = 1.0  # by how much a sleeve is thicker than what is in it; common practice, no source


@dataclass(frozen=True)
class Wanted:
    """Something to get out: how many, what, and what to know of it."""

    count: int
    what: str
    says: str


def wanted(harness: Harness) -> tuple[Wanted, ...]:
    """Return everything besides what leads, sleeves and labels are cut from; contacts with a tenth to spare."""
    return (
        *_sample_wire(harness),
        *_contacts(harness),
        *_housings(harness),
        *_retainers(harness),
        *_collars(harness),
        *_splice_tubes(harness),
        *_grommets(harness),
        *_clips(harness),
    )


def _plugs(harness: Harness) -> Iterator[End]:
    """Walk the ends of cut leads that get a plug."""
    for lead in harness.cut_leads():
        yield from (end for end in lead.ends if end.is_port)


def _contacts(harness: Harness) -> list[Wanted]:
    counts: Counter[tuple[str, str]] = Counter()
    for end in _plugs(harness):
        counts[end.connector.name, end.gender] += len(end.contacts)
    for disconnect in harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            used = sum(1 for use in disconnect.uses.values() if use.wires[index] is not None)
            counts[disconnect.shell.name, half.gender] += used
    samples = Counter(sample.contact for sample in samples_of(harness))
    found = []
    for (name, gender), fitted in sorted(counts.items()):
        what = f"{name} {gender}"
        count = math.ceil((fitted + samples[what]) * (1 + _SPARE) - 1e-9)
        says = f"contacts; {fitted} fitted, pull samples {samples[what]}, a tenth to spare"
        found += [Wanted(count, what, says)] if count else []
    return found


def _sample_wire(harness: Harness) -> list[Wanted]:
    """Count the pieces of wire that samples are crimped on, by wire."""
    counts = Counter(sample.wire for sample in samples_of(harness))
    says = "pieces of wire for pull samples, of any colour"
    return [
        Wanted(count, f"{wire}, {SAMPLE_MM:.0f} mm", f"{says}; {count * SAMPLE_MM / 1000:.2f} m in all")
        for wire, count in counts.items()
    ]


def _housings(harness: Harness) -> list[Wanted]:
    counts: Counter[tuple[str, str]] = Counter((end.connector.name, end.gender) for end in _plugs(harness))
    for disconnect in harness.disconnects.values():
        for half in disconnect.halves:
            counts[disconnect.shell.name, half.gender] += 1
    return [Wanted(count, f"{name} for {gender}", "housings") for (name, gender), count in sorted(counts.items())]


def _retainers(harness: Harness) -> list[Wanted]:
    """Count mated pairs that want a clip: plugs at own leads, which lie loose, and plain joints."""
    counts: Counter[str] = Counter(
        end.connector.name for end in _plugs(harness) if end.connector.retainer and end.own is not None
    )
    for disconnect in harness.disconnects.values():
        if disconnect.shell.retainer:
            counts[disconnect.shell.name] += 1
    return [
        Wanted(count, name, "retainers, or turns of tape, for mated pairs") for name, count in sorted(counts.items())
    ]


def _collars(harness: Harness) -> list[Wanted]:
    counts = Counter(collar_of(harness, sleeve) for sleeve in sleeves_of(harness.bundles))
    return [
        Wanted(2 * count, name, f"collars of {decimal(_COLLAR_MM)} mm, two for each sleeve")
        for name, count in _in_order(harness, counts)
    ]


def collar_of(harness: Harness, sleeve: Sleeve) -> str:
    """Return the tube that closes a sleeve's ends."""
    return _tube_over(harness, sleeve.diameter_mm + _BRAID_MM)


def _splice_tubes(harness: Harness) -> list[Wanted]:
    counts = Counter(
        _tube_over(harness, max(outside_diameter_mm([kind.diameter_mm for kind in side]) for side in splice.sides))
        for splice in splices_of(harness)
    )
    return [
        Wanted(count, name, f"tubes of {decimal(_SPLICE_MM)} mm over splices")
        for name, count in _in_order(harness, counts)
    ]


def _tube_over(harness: Harness, diameter_mm: float) -> str:
    fitting = (
        t for t in harness.tubes if not t.clear and fits(t.expanded_mm, t.recovered_mm, diameter_mm, diameter_mm)
    )
    return next((tube.name for tube in fitting), "a tube of your own")


def _in_order(harness: Harness, counts: Counter[str]) -> list[tuple[str, int]]:
    """Return counts of tubes in the order of the parts list."""
    order = [tube.name for tube in harness.tubes]
    return sorted(counts.items(), key=lambda item: order.index(item[0]) if item[0] in order else len(order))


def _grommets(harness: Harness) -> list[Wanted]:
    dressed = [
        bundle.diameter_mm
        for bundle in harness.bundles
        if bundle.leads and harness.runs[bundle.run].dressed == "grommet"
    ]
    return [
        Wanted(count, f"{math.ceil(size)} mm inside at least", "grommets")
        for size, count in sorted(Counter(dressed).items())
    ]


def _clips(harness: Harness) -> list[Wanted]:
    """Count clips: at each free tail and coil, within 50 mm of each fixed half, where routes part, and along each.

    Common practice, no source.
    """
    halves = [half for disconnect in harness.disconnects.values() for half in disconnect.halves]
    coils = [
        end.place
        for lead in harness.leads()
        for end, free in zip(lead.ends, lead.free_mm, strict=True)
        if free > 0 and end.kind != "half"  # the free tail of a half is one, however many leads are in it
    ]
    used = [harness.runs[bundle.run] for bundle in harness.bundles if bundle.leads]
    meeting = Counter(place for run in used for place in run.between)
    held = {*coils, *(half.place for half in halves)}
    parting = {place for place, runs in meeting.items() if runs > 2} - held
    along = sum(
        max(math.ceil(length_mm / harness.clip_every_mm - 1e-9) - 1, 0)
        for length_mm in _unbroken_mm(used, {place for place in meeting if meeting[place] == 2} - held)
    )
    count = len(halves) + len(coils) + len(parting) + along
    says = (
        f"clips: one every {decimal(harness.clip_every_mm)} mm, at each half within 50 mm, where a coil or a "
        "free tail begins "
        "or routes part"
    )
    return [Wanted(count, "as thick as the bundle", says)] if count else []


def _unbroken_mm(runs: Sequence[Run], passed: Collection[str]) -> list[float]:
    """Return the lengths of the ways that runs make together, which go on at the places `passed`."""
    way_of = list(range(len(runs)))
    for place in passed:
        one, other = (way_of[at] for at, run in enumerate(runs) if place in run.between)
        way_of = [one if way == other else way for way in way_of]
    lengths_mm = dict.fromkeys(way_of, 0.0)
    for way, run in zip(way_of, runs, strict=True):
        lengths_mm[way] += run.length_mm
    return list(lengths_mm.values())


def add_wanted(writer: PageWriter, items: tuple[Wanted, ...]) -> None:
    """Add the table."""
    if not items:
        return
    writer.space(5)
    title = "Everything else to get out"
    writer.heading(title, LARGE_MM, keep_mm=3 * ROW_MM)
    columns = [
        Column("count", LARGE_MM, bold=True, align="right", fixed_mm=18),
        Column("what", PLAIN_MM, gives=True),
        Column("", SMALL_MM, gives=True),
        Column("", PLAIN_MM, fixed_mm=TICK_MM + 1),
    ]
    rows = [(str(i.count), i.what, i.says, "") for i in items]
    writer.table(columns, rows, TableStyle(ROW_MM, key_column=1), title, tick)
