"""Whether a hand gets at every plug."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.assembly.splices import branch_splices, tail_splices
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.remedies.own_lead import own_lead_alone

KIND = caution(
    name="access",
    stands_on="place",
    meaning="There is no access where a plug lies.",
    when="A plug lies at a place that says no `access:`; or wires are spliced at one that lies among `closed:` runs.",
    why="Two seasons later a servo is changed. Where no hand gets at the plug, the covering is cut.",
    remedy="Say how a hand gets there, `access: servo cover`, or let the plug lie elsewhere, `plug_at: left-root`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each place without access where a plug lies, and each splice where nothing but closed runs leads."""
    yield from _splices(facts)
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


def _splices(facts: Facts) -> Iterator[Finding]:
    harness = facts.harness
    for splice in (*branch_splices(harness), *tail_splices(harness)):
        runs = {run for lead in splice.leads for run in lead.route.runs if splice.place in harness.runs[run].between}
        shut = runs and all(harness.runs[run].closed for run in runs)
        if shut and not harness.places[splice.place].access:
            sentence = f"{shown(splice.place)} has no access and lies among closed runs, but wires are spliced there."
            do = "Put the splice where a hand reaches (`split:`), or say how one gets there (`access:`)."
            yield KIND.at(facts.where.key("places", splice.place), sentence, do, ("places", splice.place))
