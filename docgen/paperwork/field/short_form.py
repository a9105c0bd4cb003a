"""Take a harness; return the short form of its record: lines that a code holds, for a phone without a network."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.harness.model.harness import Harness
from docgen.paperwork.hashes import short_hash


def short_form(harness: Harness) -> tuple[str, ...]:
    """Return channels and ports, then contacts, a line each."""
    return (*_channels(harness), *_ports(harness), *_contacts(harness))


def headed(marks: str, issue: str, lines: Sequence[str]) -> tuple[str, ...]:
    """Return lines below one with marks, issue and the hash of them."""
    return " ".join(filter(None, (marks, issue, short_hash("\n".join(lines))))), *lines


def _channels(harness: Harness) -> Iterator[str]:
    with_one = [circuit for circuit in harness.circuits.values() if circuit.form.channel is not None]
    for circuit in sorted(with_one, key=lambda circuit: circuit.form.channel or 0):
        said = (str(circuit.form.channel), circuit.label, circuit.start.text, circuit.form.failsafe)
        yield " ".join(filter(None, said))


def _ports(harness: Harness) -> Iterator[str]:
    for circuit in harness.circuits.values():
        if circuit.form.channel is None:
            yield f"{circuit.label} {circuit.start.text} > {circuit.load_text}"


def _contacts(harness: Harness) -> Iterator[str]:
    """Walk contacts: `left-root 1 BK22 AIL L`."""
    for joint in harness.disconnects.values():
        for contact in joint.shell.contacts:
            use = joint.uses.get(contact)
            wire = next(iter(use.wires.values()), None) if use is not None else None
            if use is not None and wire is not None:
                yield f"{joint.name} {contact} {wire.colour}{wire.kind.gauge.text.removesuffix(' AWG')} {use.label}"
