"""Take a harness; return the record, which is all that is needed to rebuild or repair it, whole and in parts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any

from docgen.basics.findings import Finding
from docgen.basics.frozen import frozen
from docgen.basics.units import counted
from docgen.harness.assembly.splices import branch_splices, tail_splices
from docgen.harness.assembly.through_openings import plan_threading
from docgen.harness.model.bundles import Bundle
from docgen.harness.model.circuits import Lead
from docgen.harness.model.harness import Harness
from docgen.paperwork.field.fault_content import FaultContent
from docgen.paperwork.field.short_form import short_form
from docgen.paperwork.hashes import short_hash
from docgen.paperwork.items import Item, item
from docgen.paperwork.naming import part_path
from docgen.paperwork.record import entries, results, steps
from docgen.paperwork.record.entries import CardHashes
from docgen.paperwork.record.lines import Lines, named
from docgen.paperwork.standing import DRAFT, Standing

STEM, WHOLE = "record", "record.txt"


# Lines of what is compared, in which it is said where the paper stands when it is written.
_ISSUE, _SINCE = "issue:", "since:"


@frozen
class Record:
    """The whole record and its parts, by path inside the output folder, before it is said where they stand."""

    whole: str
    parts: dict[str, str]
    date: str

    @property
    def content_hash(self) -> str:
        """Return the first characters of the hash of the whole."""
        return short_hash(self.whole)

    def items(self) -> list[Item]:
        """Return the whole and each part, as they are compared."""
        return [item((path,), (), (), short_hash(text)) for path, text in {WHOLE: self.whole, **self.parts}.items()]

    def files(self, standing: Standing = DRAFT) -> dict[str, str]:
        """Return all texts by path, with where each stands, and the whole with its date."""
        stamps = {part.key[0]: standing.of(STEM, part) for part in self.items()}
        parts = {path: _filled(text, _SINCE, stamps[path].since) for path, text in self.parts.items()}
        issue = stamps[WHOLE].issue.removeprefix("issue ")
        return {WHOLE: _filled(self.whole, _ISSUE, f"{issue}\ndate: {self.date}"), **parts}


def _filled(text: str, line: str, value: str) -> str:
    return text.replace(f"\n{line}\n", f"\n{line} {value}\n", 1)


def content(harness: Harness, cards: CardHashes) -> Record:
    """Return the record of a harness, which names the hashes of its cards."""
    sections = [(section, list(section.all(harness))) for section in _sections(cards, steps.found(harness))]
    parts: dict[str, Lines] = {}
    for disconnect in harness.disconnects.values():
        lines = parts[part_path("disconnect", disconnect.name)] = _part(harness, f"disconnect {disconnect.name}")
        entries.add_disconnect(lines, harness, disconnect, cards)
    for equipment in harness.equipment.values():
        if equipment.has_card:
            lines = parts[part_path("equipment", equipment.name)] = _part(harness, f"equipment {equipment.name}")
            entries.add_equipment(lines, harness, equipment, cards)
    for assembly in harness.assemblies:
        lines = parts[part_path("assembly", assembly)] = _part(harness, f"assembly {assembly}")
        for section, every in sections:
            if section.assembly_of is not None:
                mine = [entry for entry in every if section.assembly_of(harness, entry) == assembly]
                section.add_to(lines, harness, mine)
    texts = {path: lines.text() for path, lines in parts.items()}
    return Record(_whole(harness, sections), texts, harness.aircraft.date)


def _part(harness: Harness, title: str) -> Lines:
    lines = Lines()
    lines.add(f"{harness.aircraft.marks} {title}")
    lines.add(_SINCE)
    return lines


def _whole(harness: Harness, sections: Iterable[tuple[_Section, Sequence[Any]]]) -> str:
    aircraft = harness.aircraft
    lines = Lines()
    lines.add(f"{aircraft.name} {aircraft.marks}: record of the harness")
    lines.add(aircraft.description)
    lines.add(_ISSUE)
    for name, said in (("contact:", aircraft.contact), ("record:", aircraft.record), ("note:", aircraft.note)):
        lines.add(named(name, said))
    if not aircraft.record:
        short = short_form(harness)
        lines.add(f"code on the hangar card: {counted(len(short.lines), 'line')}", short.content_hash)
    lines.add("For model aircraft only, never for aircraft that carry people.")
    for section, every in sections:
        section.add_to(lines, harness, every)
    return lines.text()


@frozen
class _Section:
    """A heading, what stands below it in the whole, how each is added, and of what stands in parts its assembly."""

    heading: str
    all: Callable[[Harness], Iterable[Any]]
    add: Callable[[Lines, Harness, Any], None]
    assembly_of: Callable[[Harness, Any], str] | None = None

    def add_to(self, lines: Lines, harness: Harness, some: Iterable[Any]) -> None:
        """Add some of its entries below its heading; without any not even that."""
        for index, entry in enumerate(some):
            if index == 0:
                lines.heading(self.heading)
            self.add(lines, harness, entry)


def _leads(harness: Harness) -> Iterator[Lead]:
    return (lead for circuit in harness.every_circuit.values() for lead in circuit.leads)


def _laid(harness: Harness) -> list[Bundle]:
    """Return the runs in which leads lie."""
    return [bundle for bundle in harness.bundles if bundle.leads]


def _findings(harness: Harness) -> list[Finding]:
    """Return what was found by section, in the order written."""
    return sorted(harness.findings, key=lambda finding: (finding.subject[0], finding.position, finding.name))


def _add_finding(lines: Lines, harness: Harness, finding: Finding) -> None:
    """Add a finding with its entry, of which a run has no name but its places, and why it is accepted."""
    section, name = finding.subject
    entry = f"run {entries.run_text(harness.runs[int(name)])}" if section == "runs" else f"{section} {name}"
    accepted = f"; accepted: {finding.accepted}" if finding.accepted else ""
    lines.add(f"{finding.name} ({finding.level}), {entry}: {finding.sentence.rstrip('.')}{accepted}.")


# How what is made goes into the airframe, and where its wires are joined for good.
_BENCH = (
    _Section(
        "Through openings",
        plan_threading,
        entries.add_threading,
        lambda harness, threading: harness.places[threading.start].assembly,
    ),
    _Section(
        "Splices",
        lambda harness: [*branch_splices(harness), *tail_splices(harness)],
        entries.add_splice,
        lambda harness, splice: harness.places[splice.place].assembly,
    ),
)


def _sections(cards: CardHashes, found: FaultContent) -> tuple[_Section, ...]:
    """Return the sections of the record in order; `found` is what the fault finder holds, by its numbers."""
    return (
        _Section("Flight", lambda harness: [harness.flight] if harness.flight else [], entries.add_flight),
        _Section(
            "Places", lambda harness: harness.places.values(), entries.add_place, lambda _, place: str(place.assembly)
        ),
        _Section("Runs", lambda harness: harness.runs, entries.add_run),
        _Section(
            "Equipment",
            lambda harness: harness.equipment.values(),
            partial(entries.add_equipment, cards=cards),
            lambda harness, equipment: harness.places[equipment.place].assembly,
        ),
        _Section(
            "Disconnects", lambda harness: harness.disconnects.values(), partial(entries.add_disconnect, cards=cards)
        ),
        _Section("Circuits", lambda harness: harness.every_circuit.values(), entries.add_circuit),
        _Section("Leads", _leads, entries.add_lead, lambda _, lead: str(lead.assembly)),
        *_BENCH,
        _Section(
            "Volts and currents, packs at empty", lambda harness: [harness.results.circuits], results.add_circuits
        ),
        _Section("Supplies", lambda harness: harness.results.supplies, results.add_supply),
        _Section("Bundles and sleeves", _laid, results.add_bundle),
        _Section("Balance about the nose datum", lambda harness: [harness.balance], results.add_balance),
        _Section("Order of switching", lambda harness: [harness.results.switching], results.add_switching),
        _Section("At rest, packs empty to full", lambda harness: harness.results.rest.items(), results.add_rest),
        _Section("First power-up", steps.parts, steps.add_part),
        _Section("What stops when one thing is lost", lambda harness: harness.losses.losses, results.add_loss),
        _Section("Where that is tested", lambda _: enumerate(found.faults, 1), steps.add_fault),
        _Section("One function alone is dead", lambda _: found.alone, steps.add_alone),
        _Section("Limits", lambda harness: [harness.limits], results.add_limits),
        _Section("Findings", _findings, _add_finding),
    )
