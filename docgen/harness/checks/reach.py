"""Whether an own lead reaches its plug."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, shown
from docgen.basics.units import added, millimetres
from docgen.harness.checks.facts import ROUNDING_MM, Facts, caution
from docgen.harness.model.circuits import Circuit, CutLead, Lead, OwnLeads

KIND = caution(
    name="reach",
    stands_on="circuit",
    meaning="An own lead does not reach its plug.",
    when="The lead that equipment came with is shorter than the route along the runs from its `place:` to where "
    "its plug lies (`plug_at:`, else its own place). Where a circuit plugs straight in, both own leads, added, "
    "are shorter than the route between and its `loop:`.",
    why="A servo lead that ends 40 mm short of the harness plug is found with the wing covered. Stretched to "
    "reach, it pulls at its crimps in every landing.",
    remedy="Say where the plug lies, `plug_at: left-root`; measure the own lead again, `lead: 300 mm`; or give the "
    "circuit a lead that is cut to length, `lead: servo-22`.",
    source=PRACTICE,
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each own lead that is shorter than its route along the runs; both added where both mate.

    A `loop` on a circuit that plugs straight in cuts nothing; it counts here.
    """
    for circuit in facts.harness.circuits.values():
        for lead in circuit.leads:
            if isinstance(lead, CutLead):
                yield from _short_ends(facts, circuit, lead)
            else:
                yield from _short_together(facts, lead)


def _short_ends(facts: Facts, circuit: Circuit, lead: Lead) -> Iterator[Finding]:
    load = circuit.leads.index(lead) - circuit.form.last[0]
    for end, path in zip(lead.ends, (("from",), ("to", load)), strict=True):
        if not end.is_port or end.own is None:
            continue
        has, away = end.own.length_mm, end.own.route.length_mm
        if has is None or away is None or away - has <= ROUNDING_MM:
            continue
        sentence = (
            f"the own lead of {shown(end.text)} is {millimetres(has)} mm, its plug lies "
            f"{millimetres(away)} mm away along the runs: {millimetres(away - has)} mm short."
        )
        do = f"Give it a lead of {_whole(away)} mm at least, or let its plug lie nearer (`plug_at:`) and wire the rest."
        yield facts.found(KIND, ("circuits", circuit.name, *path), sentence, do, over=away - has)


def _short_together(facts: Facts, lead: OwnLeads) -> Iterator[Finding]:
    owns = [(end, end.own.length_mm) for end in lead.ends if end.own is not None]
    has, away = lead.length_mm, lead.route.length_mm
    loops = added(free for end, free in zip(lead.ends, lead.free_mm, strict=True) if end.is_port)
    if not owns or has is None or away is None or loops is None or away + loops - has <= ROUNDING_MM:
        return
    needs = away + loops
    loop = f" and {millimetres(loops)} mm are to lie coiled" if loops else ""
    if len(owns) == 1:
        mine, others = f"the own lead of {shown(owns[0][0].text)} is {millimetres(has)} mm", ""
        do = f"Give it a lead of {_whole(needs)} mm at least, or wire the circuit with a `lead:`."
        if lead.joint is not None:
            do = f"Give it a lead of {_whole(needs)} mm at least, or cut one: name it at segment {lead.segment}."
    else:
        lengths = " and ".join(f"{millimetres(length_mm or 0.0)} mm ({shown(end.text)})" for end, length_mm in owns)
        mine, others = f"the own leads are {lengths}", f", {millimetres(has)} mm together"
        do = f"Give it leads of {_whole(needs)} mm together at least, or wire the circuit with a `lead:`."
    between = " and ".join(shown(end.text) for end in lead.ends)
    sentence = (
        f"{mine}{others}; {between} lie {millimetres(away)} mm apart along the runs{loop}: "
        f"{millimetres(needs - has)} mm short."
    )
    key = "from" if lead.joint is lead.ends[1] else "to"
    yield facts.found(KIND, ("circuits", lead.circuit, key), sentence, do, over=needs - has)


def _whole(length_mm: float) -> str:
    return f"{math.ceil(length_mm - ROUNDING_MM)}"
