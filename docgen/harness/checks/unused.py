"""What no circuit reaches."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import FORM, Finding, shown
from docgen.harness.checks.facts import Facts, note

KIND = note(
    name="unused",
    stands_on="equipment or disconnect",
    meaning="No circuit reaches it.",
    when="No circuit begins or ends at this equipment, or passes this disconnect.",
    why="Mostly a circuit was forgotten: a light stays dark. What is only planned does no harm.",
    remedy="Add its circuit with `from:`, `to:` and `through:`, delete the entry, or say why it is there, "
    "`accept: {unused: smoke comes next season}`.",
    source=FORM,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each equipment and disconnect that no circuit reaches."""
    circuits = facts.harness.every_circuit.values()
    reached = {end.name for circuit in circuits for lead in circuit.leads for end in lead.ends}
    for section, names in (("equipment", facts.harness.equipment), ("disconnects", facts.harness.disconnects)):
        for name in names:
            if name not in reached:
                sentence = f"no circuit reaches {shown(name)}."
                do = "Add its circuit, or delete it; if it is meant, accept this."
                yield KIND.at(facts.where.key(section, name), sentence, do, (section, name))
