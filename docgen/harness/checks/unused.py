"""Name what no circuit reaches."""

from __future__ import annotations

from collections.abc import Iterable

from docgen.basics.findings import Finding, shown
from docgen.definition.model import Definition
from docgen.harness.model.circuits import Circuit


def find_unused(definition: Definition, circuits: Iterable[Circuit]) -> list[Finding]:
    """Return a note for each equipment and disconnect that no circuit reaches."""
    reached = {end.name for circuit in circuits for lead in circuit.leads for end in lead.ends}
    findings = []
    for section, names in (("equipment", definition.equipment), ("disconnects", definition.disconnects)):
        for name in names:
            if name not in reached:
                position = definition.where.key(section, name)
                sentence = f"no circuit reaches {shown(name)}."
                do = "Add its circuit, or delete it; if it is meant, accept this."
                findings.append(Finding(position, "unused", sentence, do, (section, name)))
    return findings
