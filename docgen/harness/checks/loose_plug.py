"""Pairs that nothing holds together, where nobody can look."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.parts import Connector
from docgen.harness.remedies.own_lead import own_lead_alone

KIND = caution(
    name="loose-plug",
    stands_on="circuit or disconnect",
    meaning="Nothing holds a mated pair where no hand reaches.",
    when="A plug or shell has neither `lock:` nor `retainer: yes`, and no place where the pair lies has an `access:`.",
    why="Vibration works it apart, and nobody can feel before a flight whether it still sits.",
    remedy="Choose a plug with a lock, or one that takes a clip, `retainer: yes`; or let it lie where a hand "
    "reaches, `plug_at: left-root`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each pair at a port or a joint that neither lock nor clip holds, out of reach of any hand."""
    for lead in facts.harness.leads():
        for index in lead.plugs_at:
            end = lead.ends[index]
            if end.is_port and _is_loose(facts, end.connector, [end.place]):
                position = facts.where.value("circuits", lead.circuit, ("from", "to")[index])
                sentence, do = _said(end.text, end.connector, [end.place])
                do += own_lead_alone(facts.harness, facts.harness.circuits[lead.circuit], end)
                yield KIND.at(position, sentence, do, ("circuits", lead.circuit))
    for joint in facts.harness.disconnects.values():
        places = list(dict.fromkeys(half.place for half in joint.halves))
        if _is_loose(facts, joint.shell, places):
            path = "disconnects", joint.name, "shell"
            yield facts.found(KIND, path, *_said(joint.name, joint.shell, places))


def _is_loose(facts: Facts, plug: Connector, places: list[str]) -> bool:
    held = plug.lock or plug.retainer
    return not held and not any(facts.harness.places[place].access for place in places)


def _said(name: str, plug: Connector, places: list[str]) -> tuple[str, str]:
    """Say that a pair is loose, and what to do."""
    sentence = (
        f"the pair {shown(plug.name)} at {shown(name)} has neither a lock nor a clip, and no hand reaches it at "
        f"{listed(map(shown, places))}."
    )
    return sentence, "Choose a plug with a lock or for a clip (`retainer: yes`), or let it lie where a hand reaches."
