"""Whether own leads reach their plugs, and a hand does."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.units import millimetres
from docgen.definition.model import Where
from docgen.harness.model.circuits import Circuit, CutLead, Lead
from docgen.harness.model.harness import Harness

_ROUNDING_MM = 0.05


def find_reach(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each own lead that is shorter than its route along the runs; both added where both mate.

    Common practice, no source: a lead has to be as long as its route.
    """
    findings: list[Finding] = []
    for circuit in harness.circuits.values():
        for lead in circuit.leads:
            if isinstance(lead, CutLead):
                findings += _short_ends(where, circuit, lead)
            else:
                findings += _short_together(where, lead)
    return findings


def _short_ends(where: Where, circuit: Circuit, lead: Lead) -> Iterator[Finding]:
    first_load = len(circuit.leads) - max(circuit.branches, 1)
    load = circuit.leads.index(lead) - first_load
    for end, path in zip(lead.ends, (("from",), ("to", load)), strict=True):
        own = end.own
        if not end.is_port or own is None:
            continue
        short = own.route.length_mm - own.length_mm
        if short <= _ROUNDING_MM:
            continue
        sentence = (
            f"the own lead of {shown(end.text)} is {millimetres(own.length_mm)} mm, its plug lies "
            f"{millimetres(own.route.length_mm)} mm away along the runs: {millimetres(short)} mm short."
        )
        do = (
            f"Give it a lead of {_whole(own.route.length_mm)} mm at least, "
            f"or let its plug lie nearer (`plug_at:`) and wire the rest."
        )
        position = where.value("circuits", circuit.name, *path)
        yield Finding(position, "reach", sentence, do, ("circuits", circuit.name))


def _short_together(where: Where, lead: Lead) -> Iterator[Finding]:
    owns = [(end, end.own) for end in lead.ends if end.own is not None]
    has, loops = sum(own.length_mm for _, own in owns), sum(lead.free_mm)
    needs = lead.route.length_mm + loops
    short = needs - has
    if not owns or short <= _ROUNDING_MM:
        return
    loop = f" and {millimetres(loops)} mm are to lie coiled" if loops else ""
    if len(owns) == 1:
        mine, others = f"the own lead of {shown(owns[0][0].text)} is {millimetres(has)} mm", ""
        do = f"Give it a lead of {_whole(needs)} mm at least, or wire the circuit with a `lead:`."
    else:
        lengths = " and ".join(f"{millimetres(own.length_mm)} mm ({shown(end.text)})" for end, own in owns)
        mine, others = f"the own leads are {lengths}", f", {millimetres(has)} mm together"
        do = f"Give it leads of {_whole(needs)} mm together at least, or wire the circuit with a `lead:`."
    between = " and ".join(shown(end.text) for end in lead.ends)
    sentence = (
        f"{mine}{others}; {between} lie {millimetres(lead.route.length_mm)} mm apart along the runs{loop}: "
        f"{millimetres(short)} mm short."
    )
    yield Finding(where.value("circuits", lead.circuit, "to"), "reach", sentence, do, ("circuits", lead.circuit))


def _whole(length_mm: float) -> str:
    return f"{math.ceil(length_mm - _ROUNDING_MM)}"


def find_access(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each place without access where a plug lies.

    Common practice, no source: what plugs in has to be reached by a hand.
    """
    plugs: dict[str, list[str]] = {}
    for lead in harness.leads():
        for end in (lead.ends[index] for index in lead.plugs_at):
            if end.is_port and not harness.places[end.place].access:
                plugs.setdefault(end.place, []).append(end.text)
    findings = []
    for place, ends in plugs.items():
        what = "plugs" if len(ends) == 1 else "plug"
        sentence = f"{shown(place)} has no access, but {listed(map(shown, ends))} {what} in there."
        do = "Say how a hand gets there (`access:`), or let the plugs lie where one does (`plug_at:`)."
        findings.append(Finding(where.key("places", place), "access", sentence, do, ("places", place)))
    return findings
