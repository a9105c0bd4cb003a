"""Match what the builder accepts to what was found."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from docgen.basics.findings import FORM, Finding, Kind, Level, shown
from docgen.definition.fields import Entry
from docgen.definition.model import Definition
from docgen.harness.checks.all import ALL

KIND = Kind(
    name="accept",
    level=Level.NOTE,
    stands_on="any entry",
    meaning="An acceptance matches no finding.",
    when="An `accept:` names a caution or note that was not found on its entry. `tube`, `type` and `stock` are "
    "left alone: they come up only when paper is composed.",
    why="Left behind, it hides the same caution when that comes back for another reason.",
    remedy="Delete it, or move it to the entry that it is about: `accept: {drop: short flights only}`.",
    source=FORM,
)

Acceptances = dict[tuple[str, str], dict[str, str]]
"""Reasons by subject (section and name) and finding."""

# What documents find when they are composed is not known yet, so nothing can be said of accepting that.
_SOUGHT = {KIND.name, *(check.KIND.name for check in ALL)}


class _Bearer(NamedTuple):
    """An entry that findings stand on: as what they name it, where it was typed, and the reasons it bears."""

    subject: tuple[str, str]
    section: str
    path: tuple[str | int, ...]
    reasons: dict[str, str]


def _bearers(definition: Definition) -> Iterator[_Bearer]:
    yield _Bearer(("aircraft", "aircraft"), "aircraft", (), definition.aircraft.accept)
    if definition.flight is not None:
        yield _Bearer(("flight", "flight"), "flight", (), definition.flight.accept)
    sections: dict[str, Mapping[str, Entry] | Mapping[int, Entry]] = {
        "places": definition.places,
        "runs": definition.runs,
        "equipment": definition.equipment,
        "disconnects": definition.disconnects,
        "circuits": definition.circuits,
    }
    for section, entries in sections.items():
        for name, entry in entries.items():
            yield _Bearer((section, str(name)), section, (name,), entry.accept)
    for name, equipment in definition.equipment.items():
        for antenna, said in equipment.antennas.items():
            yield _Bearer(("antennas", f"{name} {antenna}"), "equipment", (name, "antennas", antenna), said.accept)
    for name, disconnect in definition.disconnects.items():
        for common, shared in disconnect.commons.items():
            yield _Bearer(("commons", f"{name} {common}"), "disconnects", (name, "commons", common), shared.accept)


def acceptances_of(definition: Definition) -> Acceptances:
    """Return every acceptance that was written, by subject and finding."""
    return {bearer.subject: bearer.reasons for bearer in _bearers(definition) if bearer.reasons}


def with_reasons(findings: Iterable[Finding], acceptances: Acceptances) -> list[Finding]:
    """Return findings, those that are accepted with the builder's reason."""
    return [finding.accept(acceptances.get(finding.subject, {}).get(finding.name, "")) for finding in findings]


def find(definition: Definition, findings: Sequence[Finding]) -> Iterator[Finding]:
    """Find each acceptance that matches none of the findings."""
    found = {(finding.subject, finding.name) for finding in findings}
    for subject, section, path, reasons in _bearers(definition):
        for name in reasons:
            if name in _SOUGHT and (subject, name) not in found:
                position = definition.where.key(section, *path, "accept", name)
                sentence = f"no finding {shown(name)} stands on this entry."
                yield KIND.at(position, sentence, "Delete the acceptance.", subject)
