"""Channels and what each does when the radio is lost."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.circuits import Circuit

KIND = caution(
    name="channel",
    stands_on="circuit",
    meaning="A channel has two fail-safes, or a surface none where others have one.",
    when="Circuits of one `channel:` say different things at `failsafe:`; or a servo that hangs on a receiver or a "
    "power unit says none, nor does another circuit of its channel, while others to servos do.",
    why="A receiver holds one fail-safe a channel: what is set is not what one of the two says. A surface that was "
    "forgotten goes where the receiver pleases.",
    remedy="Say the same on all circuits of a channel, and one on each surface, `failsafe: hold`; set it in every "
    "receiver and test it.",
    source=PRACTICE,
)

_SIGNAL_COMES_FROM = ("receiver", "power unit")


def find(facts: Facts) -> Iterator[Finding]:
    """Find each circuit that says another fail-safe than the first of its channel, and each surface without one."""
    first: dict[int, Circuit] = {}
    for circuit in facts.harness.circuits.values():
        number, failsafe = circuit.form.channel, circuit.form.failsafe
        if number is None or failsafe is None:
            continue
        other = first.setdefault(number, circuit)
        if other.form.failsafe != failsafe:
            sentence = (
                f"channel {number} has two fail-safes: {other.form.failsafe} at {shown(other.name)}, {failsafe} at "
                f"{shown(circuit.name)}."
            )
            do = "Say the same at both, or give one another channel."
            yield facts.found(KIND, ("circuits", circuit.name, "failsafe"), sentence, do)
    surfaces = [circuit for circuit in facts.harness.circuits.values() if _is_surface(facts, circuit)]
    if any(circuit.form.failsafe for circuit in surfaces):
        for circuit in surfaces:
            if circuit.form.failsafe is None and circuit.form.channel not in first:
                sentence = f"{shown(circuit.name)} says no fail-safe, other surfaces do."
                position = facts.where.key("circuits", circuit.name)
                yield KIND.at(position, sentence, "Say it: `failsafe:`.", ("circuits", circuit.name))


def _is_surface(facts: Facts, circuit: Circuit) -> bool:
    """Tell whether a circuit leads from where a channel is given out to a servo."""
    equipment = facts.harness.equipment
    return (
        circuit.start.is_port
        and equipment[circuit.start.name].kind in _SIGNAL_COMES_FROM
        and any(end.is_port and equipment[end.name].kind == "servo" for end in circuit.loads)
    )
