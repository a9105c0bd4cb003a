"""What is not measured: runs, ways that no runs make yet, tails of halves, own leads."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.harness.checks.facts import Facts, note

KIND = note(
    name="unmeasured",
    stands_on="run, circuit, disconnect or equipment",
    meaning="A length is not measured.",
    when="A run has no `length:`; with `at:` at both its places the straight line between them is taken for it. No "
    "runs lead yet from one end of a lead to the other. A half that hangs free has no `reach:`, or equipment has a "
    "`plug:` without a `lead:`.",
    why="Wires go round formers and along the skin: one cut by the straight line comes out short. What has no length "
    "at all is not cut, and volts and drop of what hangs on it are not worked out; labels and cards are printed.",
    remedy="Print the measuring sheet, `docgen print DIR measuring-sheet`. Lay a string along the route, measure the "
    "string, and write `length: 235 mm` on the run, `reach: 120 mm` on the half, `lead: 250 mm` on the equipment.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each run that has no length of its own, and what else no length is known of."""
    for index, run in enumerate(facts.harness.runs):
        if not run.measured:
            takes = "is not measured, and its places have no `at:`."
            if run.length_mm is not None:
                takes = f"is not measured; {run.length_mm:.0f} mm is the straight line."
            sentence = f"the run between {run.ends_text} {takes}"
            yield facts.found(KIND, ("runs", index), sentence, "Measure it along the structure.")
    yield from _ways(facts)
    yield from _reaches(facts)
    yield from _own_leads(facts)


def _ways(facts: Facts) -> Iterator[Finding]:
    """Find pairs of places between which leads lie and no runs lead, each once, at the first circuit."""
    waiting: dict[tuple[str, str], dict[str, None]] = {}
    for lead in facts.harness.leads():
        if lead.route.length_mm is None and not lead.route.runs:
            waiting.setdefault((lead.route.places[0], lead.route.places[-1]), {})[lead.circuit] = None
    for (start, goal), circuits in waiting.items():
        sentence = f"no runs lead from {shown(start)} to {shown(goal)} yet, for {listed(map(shown, circuits))}."
        first = next(iter(circuits))
        yield KIND.at(facts.where.key("circuits", first), sentence, "Add a run to `runs:`.", ("circuits", first))


def _reaches(facts: Facts) -> Iterator[Finding]:
    for disconnect in facts.harness.disconnects.values():
        for index, half in enumerate(disconnect.halves):
            if half.reach_mm is None:
                path = ("loose",) if disconnect.form.halves is None else ("halves", index)
                sentence = f"the {half.name} half of {shown(disconnect.name)} hangs free and has no `reach:`."
                do = "Measure how far its tail is to reach."
                position = facts.where.value("disconnects", disconnect.name, *path)
                yield KIND.at(position, sentence, do, ("disconnects", disconnect.name), half=half.name)


def _own_leads(facts: Facts) -> Iterator[Finding]:
    """Find equipment whose own lead has no length, all in one line."""
    ends = (end for lead in facts.harness.leads() for end in lead.ends)
    names = list(dict.fromkeys(end.name for end in ends if end.own is not None and end.own.length_mm is None))
    if names:
        sentence = f"the own leads of {listed(map(shown, names))} have no length."
        do = "Measure each from where it comes out to its plug, and write it as `lead:`."
        yield KIND.at(facts.where.key("equipment", names[0]), sentence, do, ("equipment", names[0]))
