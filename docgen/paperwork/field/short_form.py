"""Take a harness; return the short form of its record: lines that a code holds, for a phone without a network."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.harness.model.harness import Harness
from docgen.paperwork.hashes import short_hash


@frozen
class ShortForm:
    """Channels with their ports, ports of what has none, contacts of joints: a line each."""

    channels: tuple[str, ...]
    ports: tuple[str, ...]
    contacts: tuple[str, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """Return all lines in order."""
        return (*self.channels, *self.ports, *self.contacts)

    @property
    def content_hash(self) -> str:
        """Return the first characters of the hash of all lines."""
        return short_hash("\n".join(self.lines))

    def headed(self, marks: str, issue: str) -> tuple[str, ...]:
        """Return all lines below one with marks, issue and their hash."""
        return " ".join(filter(None, (marks, issue, self.content_hash))), *self.lines

    def named(self, count: int) -> str:
        """Say what the first lines are, so many of them: `channels, first ports`."""
        said = []
        for name, some in (("channels", self.channels), ("ports", self.ports), ("contacts", self.contacts)):
            if some and count > 0:
                said.append(name if count >= len(some) else f"first {name}")
            count -= len(some)
        return ", ".join(said)


def short_form(harness: Harness) -> ShortForm:
    """Return the short form of a harness."""
    return ShortForm(tuple(_channels(harness)), tuple(_ports(harness)), tuple(_contacts(harness)))


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
