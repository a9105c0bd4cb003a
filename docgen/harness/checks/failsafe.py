"""What must stop when the radio is lost."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.circuits import Circuit

KIND = caution(
    name="failsafe",
    stands_on="equipment",
    meaning="Nothing says off or idle for an engine, a motor or smoke.",
    when="No circuit to an engine unit, speed controller or smoke says `failsafe: off` or `failsafe: idle`.",
    why="On hold, a lost signal leaves the engine at the throttle that it had: the aircraft flies on without a "
    "pilot, or a propeller runs among people.",
    remedy="Say it on the circuit that carries the throttle, `failsafe: off`, set it in every receiver, and test "
    "it: engine stopped first, then transmitter off and the aircraft held. For a turbine the maker's "
    "instructions and the club's rules come first.",
    source="Club pages that cite the UK's CAA and BMFA: throttle at least to idle, electric off. MAAC turbine "
    "guidelines: engine shut down within 2 s.",
)

_STOPPED = ("idle", "off")
# What must stop when the radio is lost, and what its fail-safe may say.
_MUST_STOP = {
    "engine unit": "`failsafe: off` or `failsafe: idle`",
    "speed controller": "`failsafe: off` or `failsafe: idle`",
    "smoke": "`failsafe: off`",
}
_SIGNAL_COMES_FROM = ("receiver", "power unit")


def find(facts: Facts) -> Iterator[Finding]:
    """Find each engine unit, speed controller and smoke that no circuit sets to off or idle."""
    for name, equipment in facts.harness.equipment.items():
        if equipment.kind not in _MUST_STOP:
            continue
        circuits = [circuit for circuit in facts.harness.circuits.values() if _commands(facts, circuit, name)]
        if any(circuit.form.failsafe in _STOPPED for circuit in circuits):
            continue
        said = [f"{shown(circuit.name)} says {circuit.form.failsafe}" for circuit in circuits if circuit.form.failsafe]
        instead = f"; {listed(said)}" if said else ""
        sentence = f"nothing says off or idle for {shown(name)} ({equipment.kind}) when the radio is lost{instead}."
        channels = [circuit.name for circuit in circuits if circuit.form.channel is not None]
        commands = channels or [circuit.name for circuit in circuits]
        at = f"at {' or '.join(map(shown, commands))}" if commands else "at the circuit that commands it"
        do = f"Say {_MUST_STOP[equipment.kind]} {at}, and set it in every receiver."
        yield KIND.at(facts.where.key("equipment", name), sentence, do, ("equipment", name))


def _commands(facts: Facts, circuit: Circuit, name: str) -> bool:
    """Tell whether a circuit can command equipment: it ends there, or feeds the receiver that the signal comes from."""
    if any(end.is_port and end.name == name for end in circuit.loads):
        return True
    begins = circuit.start.is_port and circuit.start.name == name
    return begins and any(
        end.is_port and facts.harness.equipment[end.name].kind in _SIGNAL_COMES_FROM for end in circuit.loads
    )
