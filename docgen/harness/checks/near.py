"""Antennas and signal leads beside leads that make noise."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.circuits import Circuit, CutLead

KIND = caution(
    name="near",
    stands_on="circuit or antenna",
    meaning="An antenna or a signal lead lies beside leads of a motor, speed controller or ignition.",
    when="In one run lie the coax of an antenna, or a lead that carries signal only, and a lead without a signal that "
    "begins or ends at a motor, a speed controller or an ignition; own leads count.",
    why="Currents that are switched a thousand times a second, and sparks, couple into what lies along them: range is "
    "lost, servos twitch.",
    remedy="Go by another way, `by: [left-root]`, or another `place:` for the antenna; where they must meet, let them "
    "cross at right angles, and accept it with the distance.",
    source=PRACTICE,
)

_NOISY = {"motor", "speed controller", "ignition"}
_SIGNALS = {"signal", "data", "clock", "sense"}


def find(facts: Facts) -> Iterator[Finding]:
    """Find each antenna, and each circuit that carries signal only, that shares a run with what makes noise."""
    noisy: dict[int, list[str]] = {}
    for circuit in facts.harness.circuits.values():
        for run in _runs(circuit) if _makes_noise(facts, circuit) else ():
            noisy.setdefault(run, []).append(circuit.name)
    for circuit in facts.harness.circuits.values():
        shared = [run for run in _runs(circuit) if run in noisy]
        if shared and not circuit.poles and _roles(circuit) & _SIGNALS:
            sentence = f"{shown(circuit.name)} carries signal only and lies {_beside(facts, shared, noisy)}."
            do = "Go by another way (`by:`), apart from those."
            yield KIND.at(facts.where.key("circuits", circuit.name), sentence, do, ("circuits", circuit.name))
    for name, entry in facts.harness.equipment.items():
        for antenna in entry.antennas:
            shared = [run for run in antenna.route.runs if run in noisy] if antenna.route is not None else []
            if shared:
                sentence = f"antenna {shown(antenna.name)} of {shown(name)} lies {_beside(facts, shared, noisy)}."
                path = "equipment", name, "antennas", antenna.name, "place"
                yield facts.found(KIND, path, sentence, "Give it a place that is reached by another way.")


def _makes_noise(facts: Facts, circuit: Circuit) -> bool:
    ends = [end for end in (circuit.start, *circuit.loads) if end.is_port]
    return any(facts.harness.equipment[end.name].kind in _NOISY for end in ends) and not _roles(circuit) & _SIGNALS


def _roles(circuit: Circuit) -> set[str]:
    return {wire.role for lead in circuit.leads for wire in lead.wires}


def _runs(circuit: Circuit) -> list[int]:
    """Return the runs in which a circuit's leads lie, and the own leads at its ends."""
    routes = [lead.route for lead in circuit.leads]
    owns = [end.own for lead in circuit.leads if isinstance(lead, CutLead) for end in lead.ends]
    routes += [own.route for own in owns if own is not None]
    return list(dict.fromkeys(run for route in routes for run in route.runs))


def _beside(facts: Facts, runs: list[int], noisy: dict[int, list[str]]) -> str:
    """Say in which runs something lies beside which circuits."""
    where = listed((f"between {facts.harness.runs[run].ends_text}" for run in runs), 3)
    return (
        f"{where} beside {listed(shown(name) for name in dict.fromkeys(name for run in runs for name in noisy[run]))}"
    )
