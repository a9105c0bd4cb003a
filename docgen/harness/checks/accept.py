"""Match what the builder accepts to what was found."""

from __future__ import annotations

from collections.abc import Iterator

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

# Entries that stand within others, by their key there.
_WITHIN = {"antennas": "equipment", "commons": "disconnects"}
# What documents find when they are composed is not known yet, so nothing can be said of accepting that.
_SOUGHT = {KIND.name, *(check.KIND.name for check in ALL)}


def _entries(definition: Definition) -> Iterator[tuple[tuple[str, str], Entry]]:
    yield ("aircraft", "aircraft"), definition.aircraft
    if definition.flight is not None:
        yield ("flight", "flight"), definition.flight
    for section, entries in (
        ("places", definition.places),
        ("runs", definition.runs),
        ("equipment", definition.equipment),
        ("disconnects", definition.disconnects),
        ("circuits", definition.circuits),
    ):
        for name, entry in entries.items():
            yield (section, str(name)), entry
    for name, equipment in definition.equipment.items():
        for antenna, said in equipment.antennas.items():
            yield ("antennas", f"{name} {antenna}"), said
    for name, disconnect in definition.disconnects.items():
        for common, shared in disconnect.commons.items():
            yield ("commons", f"{name} {common}"), shared


def acceptances_of(definition: Definition) -> Acceptances:
    """Return every acceptance that was written, by subject and finding."""
    return {subject: entry.accept for subject, entry in _entries(definition) if entry.accept}


def accept_findings(definition: Definition, findings: list[Finding]) -> list[Finding]:
    """Return findings with the reasons of those accepted, and a note for each acceptance of nothing."""
    acceptances = acceptances_of(definition)
    matched = set()
    result = []
    for finding in findings:
        reason = acceptances.get(finding.subject, {}).get(finding.name)
        if reason is not None:
            matched.add((finding.subject, finding.name))
            result.append(finding.accept(reason))
        else:
            result.append(finding)
    result += [
        _of_nothing(definition, subject, name)
        for subject, reasons in acceptances.items()
        for name in reasons
        if (subject, name) not in matched and name in _SOUGHT
    ]
    return result


def _of_nothing(definition: Definition, subject: tuple[str, str], name: str) -> Finding:
    section, entry = subject
    path: tuple[str | int, ...] = (entry, "accept", name)
    if section in _WITHIN:
        owner, inner = entry.split(" ", 1)
        section, path = _WITHIN[section], (owner, section, inner, "accept", name)
    elif section == "runs":
        path = (int(entry), "accept", name)
    elif section == entry:
        path = ("accept", name)
    position = definition.where.key(section, *path)
    sentence = f"no finding {shown(name)} stands on this entry."
    return KIND.at(position, sentence, "Delete the acceptance.", subject)
