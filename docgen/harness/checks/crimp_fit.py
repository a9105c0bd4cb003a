"""Contacts that the builder crimps, and the wires that they are given."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from docgen.basics.findings import Finding, listed, shown
from docgen.basics.gauges import bounds_mm2
from docgen.basics.units import decimal, millimetres
from docgen.harness.assembly.splices import fitted_wires
from docgen.harness.checks.facts import CLOSE, Facts, Path, caution
from docgen.harness.electrical.loadings import carries
from docgen.harness.model.circuits import Lead, Wire
from docgen.harness.model.joints import Tail
from docgen.harness.model.parts import Connector, ContactPart, WirePart
from docgen.harness.wiring.feeds import CommonBranch, WireBranch

KIND = caution(
    name="crimp-fit",
    stands_on="circuit or common",
    meaning="A contact is given a wire that it does not take.",
    when="A contact that the builder crimps is given a gauge outside its `takes:` or insulation thicker than its "
    "`over:`. Plugs that came on a lead are not judged.",
    why="A thin wire pulls out of a large barrel, a thick one leaves strands out: both ring out well.",
    remedy="Take wire that the contact takes, `lead: servo-22`, or another contact: in parts.yaml its `contact:` "
    "says `takes: [24 AWG, 18 AWG]` and `over: 2.2 mm`, as its maker does.",
    source="Gauges are the contact maker's. Common practice, no source.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each lead end, and each half of a common with tails, where a contact does not take its wire."""
    for lead in facts.harness.cut_leads():
        for index in (0, 1):
            end = lead.ends[index]
            wires = fitted_wires(facts.harness, lead, end)
            bad = [wire for wire in wires if _misfits(wire.kind, end.connector.contact)]
            if bad:
                yield _at_lead_end(facts, lead, index, bad)
    yield from _at_commons(facts)


def _misfits(kind: WirePart, contact: ContactPart) -> list[str]:
    """Say in what a wire does not fit a contact; nothing where it does."""
    said = []
    if contact.takes is not None:
        least, most = sorted(contact.takes, key=lambda gauge: gauge.area_mm2)
        least_mm2, most_mm2 = bounds_mm2(contact.takes)
        for gauge, how, over_mm2 in (
            (most, "heavier", kind.gauge.area_mm2 - most_mm2),
            (least, "lighter", least_mm2 - kind.gauge.area_mm2),
        ):
            if over_mm2 > CLOSE:
                said.append(f"by {decimal(over_mm2, 2)} mm² {how} than {gauge.text}")
    if contact.over_mm is not None and kind.diameter_mm > contact.over_mm + CLOSE:
        over = kind.diameter_mm - contact.over_mm
        said.append(
            f"{millimetres(kind.diameter_mm)} mm thick, {decimal(over, 2)} mm over the "
            f"{decimal(contact.over_mm)} mm that go in"
        )
    return said


def _at_lead_end(facts: Facts, lead: Lead, index: int, bad: Sequence[Wire]) -> Finding:
    end, other = lead.ends[index], lead.ends[1 - index]
    beyond = {wire.role for wire in fitted_wires(facts.harness, lead, other)}
    at = f"the {end.part} half of {shown(end.name)}" if end.kind == "half" else shown(end.text)
    wrong = _what_is_wrong(bad, end.connector)
    sentence = f"segment {lead.segment} of {shown(lead.circuit)} does not fit at {at}: {wrong}."
    segment = facts.harness.circuits[lead.circuit].leads.index(lead)
    heat_c = facts.harness.hottest_c(lead.route)
    remedies = []
    for kind in dict.fromkeys(wire.kind for wire in bad):
        roles = [wire.role for wire in bad if wire.kind == kind]
        ends = [end, other] if any(role in beyond for role in roles) else [end]
        most_a = max(facts.electricity.working_a(WireBranch(lead.circuit, segment, role)) for role in roles)
        contacts = [one.connector.contact for one in ends]
        remedies.append(_instead(facts, kind, contacts, end.connector.name, (heat_c, most_a)))
    do = " ".join(dict.fromkeys(remedies))
    return facts.found(KIND, ("circuits", lead.circuit, "lead", lead.segment), sentence, do)


def _what_is_wrong(wires: Sequence[Wire | Tail], connector: Connector) -> str:
    """Say for each kind of wire which wires do not fit, and in what."""
    said = []
    for kind in dict.fromkeys(wire.kind for wire in wires):
        roles = list(dict.fromkeys(wire.role for wire in wires if wire.kind == kind))
        misfits = " and ".join(_misfits(kind, connector.contact))
        who = f"the wire {shown(roles[0])} is" if len(roles) == 1 else f"the wires {listed(map(shown, roles))} are"
        said.append(f"{who} {shown(kind.name)} of {kind.gauge.text}, {misfits}")
    takes = connector.contact.takes
    range_of = f" {takes[0].text} to {takes[1].text}" if takes else " thinner wire"
    return f"{'; '.join(said)}; the contacts of {shown(connector.name)} take{range_of}"


def _instead(
    facts: Facts, kind: WirePart, contacts: Sequence[ContactPart], connector: str, stress: tuple[float | None, float]
) -> str:
    """Name the wire most like one that fits the contacts and bears the heat there and its working current."""
    heat_c, working_a = stress

    def unlike(wire: WirePart) -> tuple[float, float]:
        gauges = round(abs(math.log(wire.gauge.area_mm2 / kind.gauge.area_mm2)), 6)
        return gauges, abs((wire.limit_c or 0) - (kind.limit_c or 0))

    def fits(wire: WirePart) -> bool:
        return carries(wire, heat_c, working_a) and not any(_misfits(wire, contact) for contact in contacts)

    best = next(filter(fits, sorted(facts.harness.wires, key=unlike)), None)
    if best is None:
        at = "at both ends" if len(contacts) > 1 else "here"
        bears = f" and bears {working_a:.2f} A" if working_a > 0 else ""
        return (
            f"Choose instead of {shown(connector)} one whose contacts take {kind.gauge.text}, "
            f"{decimal(kind.diameter_mm)} mm thick; no wire of the parts list fits {at}{bears}."
        )
    return (
        f"Instead of {shown(kind.name)} take {best.gauge.text} like {shown(best.name)}, "
        f"or choose contacts that take {kind.gauge.text}, {decimal(kind.diameter_mm)} mm thick."
    )


def _at_commons(facts: Facts) -> Iterator[Finding]:
    for disconnect, common, behind in facts.harness.behind_commons():
        bad = [tail for tail in behind.tails if _misfits(tail.kind, disconnect.shell.contact)]
        if not bad:
            continue
        kind, every = bad[0].kind, len(behind.tails)
        sentence = (
            f"{len(bad)} of {every} tails of the common {shown(common.name)} behind the {behind.half.name} half of "
            f"{shown(disconnect.name)} do not fit: {_what_is_wrong(bad, disconnect.shell)}."
        )
        branch = CommonBranch(disconnect.name, common.name)
        stress = facts.harness.places[behind.half.place].heat_c, facts.electricity.working_a(branch) / every
        do = _instead(facts, kind, [disconnect.shell.contact], disconnect.shell.name, stress)
        at: Path = "disconnects", disconnect.name, "commons", common.name, "contacts"
        yield facts.found(KIND, at, sentence, do, half=behind.half.name)
