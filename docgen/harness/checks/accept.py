"""Match what the builder accepts to what was found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from docgen.basics.findings import FORM, Finding, shown
from docgen.definition.fields import Entry
from docgen.definition.model import Definition
from docgen.harness.checks.all import ALL
from docgen.harness.checks.facts import Path, note, subject_of
from docgen.harness.model.harness import Harness

KIND = note(
    name="accept",
    stands_on="any entry",
    meaning="An acceptance matches no finding.",
    when="An `accept:` names a caution or note that was not found on its entry. `tube`, `type` and `stock` are "
    "left alone: they come up only when paper is composed; so is what rests on lengths while some are not known.",
    why="Left behind, it hides the same caution when that comes back for another reason.",
    remedy="Delete it, or move it to the entry that it is about: `accept: {drop: short flights only}`.",
    source=FORM,
)

Acceptances = dict[tuple[str, str], dict[str, str]]
"""Reasons by subject (section and name) and finding."""

# What documents find when they are composed is not known yet, so nothing can be said of accepting that.
_SOUGHT = {KIND.name, *(check.KIND.name for check in ALL)}
# What is not looked for where lengths that it rests on are not known.
_REST_ON_LENGTHS = {
    "reach",
    "short",
    "straight",
    "unmeasured",
    "volts",
    "drop",
    "supply-current",
    "one-pack",
    "endurance",
}
_REST_ON_LENGTHS |= {"unsleeved", "swap", "antennas", "spool"}


def _bearers(definition: Definition) -> Iterator[tuple[str, Path, dict[str, str]]]:
    """Walk the entries that findings may stand on: its section, the path in it, and the reasons that it bears."""
    yield "aircraft", (), definition.aircraft.accept
    if definition.flight is not None:
        yield "flight", (), definition.flight.accept
    sections: dict[str, Mapping[str, Entry] | Mapping[int, Entry]] = {
        "places": definition.places,
        "runs": definition.runs,
        "equipment": definition.equipment,
        "disconnects": definition.disconnects,
        "circuits": definition.circuits,
    }
    for section, entries in sections.items():
        for name, entry in entries.items():
            yield section, (name,), entry.accept
    for name, equipment in definition.equipment.items():
        for antenna, said in equipment.antennas.items():
            yield "equipment", (name, "antennas", antenna), said.accept
    for name, disconnect in definition.disconnects.items():
        for common, shared in disconnect.commons.items():
            yield "disconnects", (name, "commons", common), shared.accept


def acceptances_of(definition: Definition) -> Acceptances:
    """Return every acceptance that was written, by subject and finding."""
    return {subject_of(section, *path): reasons for section, path, reasons in _bearers(definition) if reasons}


def with_reasons(findings: Iterable[Finding], acceptances: Acceptances) -> list[Finding]:
    """Return findings, those that are accepted with the builder's reason."""
    return [finding.accept(acceptances.get(finding.subject, {}).get(finding.name, "")) for finding in findings]


def find(definition: Definition, harness: Harness, findings: Sequence[Finding]) -> Iterator[Finding]:
    """Find each acceptance that matches none of the findings."""
    found = {(finding.subject, finding.name) for finding in findings}
    known = all(lead.length_mm is not None for lead in harness.leads())
    sought = _SOUGHT if known else _SOUGHT - _REST_ON_LENGTHS
    for section, path, reasons in _bearers(definition):
        subject = subject_of(section, *path)
        for name in reasons:
            if name in sought and (subject, name) not in found:
                position = definition.where.key(section, *path, "accept", name)
                sentence = f"no finding {shown(name)} stands on this entry."
                yield KIND.at(position, sentence, "Delete the acceptance.", subject)
