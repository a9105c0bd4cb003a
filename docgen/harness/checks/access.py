"""Whether a hand gets at every plug."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.remedies.own_lead import own_lead_alone

KIND = caution(
    name="access",
    stands_on="place",
    meaning="There is no access where a plug lies.",
    when="A plug lies at a place that says no `access:`.",
    why="Two seasons later a servo is changed. Where no hand gets at the plug, the covering is cut.",
    remedy="Say how a hand gets there, `access: servo cover`, or let the plug lie elsewhere, `plug_at: left-root`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each place without access where a plug lies."""
    plugs: dict[str, list[str]] = {}
    alone: dict[str, str] = {}
    for lead in facts.harness.leads():
        for end in (lead.ends[index] for index in lead.plugs_at):
            if end.is_port and not facts.harness.places[end.place].access:
                plugs.setdefault(end.place, []).append(end.text)
                circuit = facts.harness.circuits[lead.circuit]
                alone[end.place] = alone.get(end.place) or own_lead_alone(facts.harness, circuit, end)
    for place, ends in plugs.items():
        what = "plugs" if len(ends) == 1 else "plug"
        sentence = f"{shown(place)} has no access, but {listed(map(shown, ends))} {what} in there."
        do = "Say how a hand gets there (`access:`), or let the plugs lie where one does (`plug_at:`)."
        do += alone[place]
        yield KIND.at(facts.where.key("places", place), sentence, do, ("places", place))
