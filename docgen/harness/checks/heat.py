"""Wires and all tubes against the heat where they are, equipment against that of its place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

from docgen.basics.findings import Finding, Position, listed, shown
from docgen.basics.frozen import frozen
from docgen.basics.units import at_least, decimal
from docgen.harness.assembly.soldered import soldered_leads, soldered_tails
from docgen.harness.assembly.splices import branch_splices, fitted_wires, tail_splices
from docgen.harness.bundling.diameters import lead_thickness_mm
from docgen.harness.bundling.sleeves import collar_need, collar_tubes, sleeves_of
from docgen.harness.bundling.tubes import tube_of_label
from docgen.harness.checks.facts import Facts, Path, caution
from docgen.harness.electrical.loadings import carries
from docgen.harness.model.airframe import Route
from docgen.harness.model.circuits import CutLead, End, Lead, Wire
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.joints import Common, Disconnect
from docgen.harness.model.parts import ContactPart, TubePart, WirePart
from docgen.harness.wiring.feeds import WireBranch

KIND = caution(
    name="heat",
    stands_on="circuit, common, run or equipment",
    meaning="A wire, a tube or equipment does not stand the heat where it is.",
    when="The `limit:` of a wire is at or under the `heat:` of the hottest run or place on its own route (of a "
    "tail: of its half's place), that of a label's tube under it, or of a tube over a sleeve's end, a splice or a "
    "soldered contact under that of its run or place, and none that fits stands more; or the `most_heat:` of equipment "
    "is under the `heat:` of its place. Sleeves, tubes and equipment stand all heat up to their limit, that included; "
    "where no sleeve stands it, the finding is `unsleeved`.",
    why="Near the exhaust insulation softens, wires short, and a sleeve melts onto what it should protect.",
    remedy="Go by another route, `by: [belly]`; use parts that stand it, `limit: 200 °C` in parts.yaml; or measure "
    "what is really there, `heat: 90 °C`. Round an engine its maker's instructions come first.",
    source="FAA AC 43.13-1B, 11-115 and 11-117b: wires keep away from heat. Limits are the makers'.",
)


@frozen
class _Laid:
    """Wires of one kind that lie in heat: the most that one carries working [A], and the contacts that they go into."""

    kind: WirePart
    working_a: float
    contacts: tuple[ContactPart, ...]


def find(facts: Facts) -> Iterator[Finding]:
    """Find leads and own leads, tails behind halves, label tubes and equipment that do not stand their heat."""
    for lead in facts.harness.leads():
        yield from _lead(facts, lead)
        yield from _own(facts, lead)
        if isinstance(lead, CutLead):
            yield from _tube(facts, lead)
    yield from _tails(facts)
    yield from _collars(facts)
    yield from _over_splices(facts)
    yield from _over_contacts(facts)
    for entry in facts.harness.equipment.values():
        yield from _equipment(facts, entry)


def _equipment(facts: Facts, entry: Equipment) -> Iterator[Finding]:
    most_c, heat_c = entry.form.most_heat_c, facts.harness.places[entry.place].heat_c
    if most_c is None or heat_c is None or heat_c <= most_c:
        return
    sentence = (
        f"{shown(entry.name)} stands in {decimal(heat_c)} °C at {shown(entry.place)} and bears {decimal(most_c)} °C: "
        f"{decimal(heat_c - most_c)} °C too much."
    )
    do = "Put it where it is cooler, or lead air over it and measure again."
    yield facts.found(KIND, ("equipment", entry.name, "most_heat"), sentence, do, over=heat_c - most_c)


def _lead(facts: Facts, lead: Lead) -> Iterator[Finding]:
    if isinstance(lead, CutLead):
        position = partial(facts.where.value, "circuits", lead.circuit, "lead", lead.segment)
        yield from _judge(facts, f"segment {lead.segment} of {shown(lead.circuit)}", lead, None, lead.route, position)
        return
    position = partial(facts.where.key, "circuits", lead.circuit)
    for end in lead.ends:
        if end.own is not None:
            yield from _judge(facts, f"{end.name}'s own lead", lead, end, lead.route, position)


def _kind(wire: Wire, own: End | None) -> WirePart:
    """Return what a wire of a lead is, or of the own lead at one of its ends."""
    return (own.own.kind if own is not None and own.own is not None else None) or wire.kind


def _laid(facts: Facts, lead: Lead, own: End | None) -> list[_Laid]:
    """Return the wires of a lead by kind, or of the own lead at one of its ends."""
    harness = facts.harness
    segment = harness.circuits[lead.circuit].leads.index(lead)
    found: dict[WirePart, _Laid] = {}
    for wire in lead.wires:
        kind = _kind(wire, own)
        ends = [own] if own is not None else [end for end in lead.ends if wire in fitted_wires(harness, lead, end)]
        amps = facts.electricity.working_a(WireBranch(lead.circuit, segment, wire.role))
        before = found.get(kind, _Laid(kind, 0.0, ()))
        contacts = dict.fromkeys((*before.contacts, *(end.connector.contact for end in ends)))
        found[kind] = _Laid(kind, max(before.working_a, amps), tuple(contacts))
    return list(found.values())


def _tails(facts: Facts) -> Iterator[Finding]:
    """Find tails that stand less than the heat of their half's place, where no wire of the parts list would do."""
    for disconnect, common, behind in facts.harness.behind_commons():
        half = behind.half
        heat = facts.harness.places[half.place].heat_c
        if not behind.tails or behind.tails[0].kind.stands(heat) or heat is None:
            continue
        kind = behind.tails[0].kind
        sentence = (
            f"tails of the common {shown(common.name)} behind the {half.name} half of {shown(disconnect.name)} "
            f"lie in {decimal(heat)} °C at {shown(half.place)}; {_stands(kind, heat)}."
        )
        do = (
            f"Add a wire that the contacts of {shown(disconnect.shell.name)} take and that stands over "
            f"{decimal(heat)} °C to `parts.yaml`, or move the half."
        )
        yield facts.found(
            KIND,
            _contacts(disconnect, common),
            sentence,
            do,
            over=heat,
            half=half.name,
        )


def _stands(kind: WirePart, heat_c: float) -> str:
    """Say what a wire stands and by how much that is too little."""
    limit_c = kind.limit_c or 0.0
    less = (
        f"{decimal(limit_c)} °C, {decimal(heat_c - limit_c)} °C too little"
        if heat_c > limit_c
        else f"just {decimal(limit_c)} °C"
    )
    return f"{shown(kind.name)} stands {less}"


def _tube(facts: Facts, lead: CutLead) -> Iterator[Finding]:
    """Find a label tube that the heat of its lead's route is too much for."""
    heat = facts.harness.hottest_c(lead.route)
    if heat is None:
        return
    kind = tube_of_label(lead_thickness_mm(lead), facts.harness.tubes, heat)
    if kind is not None and not kind.stands(heat):
        at = f"segment {lead.segment} of {shown(lead.circuit)}"
        sentence = (
            f"labels of {at} lie in {decimal(heat)} °C {_hottest(facts, lead.route, heat)}; {shown(kind.name)} "
            f"stands {decimal(kind.limit_c or 0)} °C, and no clear tube that fits stands more."
        )
        do = f"Add a clear tube that stands {decimal(heat)} °C to `parts.yaml`, or lead it by another route."
        yield facts.found(KIND, ("circuits", lead.circuit, "lead", lead.segment), sentence, do)


def _collars(facts: Facts) -> Iterator[Finding]:
    """Find collars that the heat of their sleeve's runs is too much for."""
    tubes = collar_tubes(facts.harness.bundles, facts.harness.tubes)
    for sleeve in sleeves_of(facts.harness.bundles):
        first, last = map(shown, sleeve.ends)
        what, tube = f"collars of {shown(sleeve.kind.name)} between {first} and {last}", tubes.get(collar_need(sleeve))
        yield from _weak(facts, what, "", sleeve.heat_c, tube, ("runs", sleeve.runs[0], "heat"))


def _over_splices(facts: Facts) -> Iterator[Finding]:
    """Find tubes over splices that the heat of their place is too much for."""
    for branch in branch_splices(facts.harness):
        path: Path = ("circuits", branch.circuit.name, "split")
        yield from _at_place(facts, f"splices of {shown(branch.circuit.name)}", branch.place, branch.tube, path)
    for tail in tail_splices(facts.harness):
        what = f"splices of the common {shown(tail.common.name)}"
        yield from _at_place(facts, what, tail.place, tail.tube, _contacts(tail.disconnect, tail.common))


def _over_contacts(facts: Facts) -> Iterator[Finding]:
    """Find tubes over soldered contacts that the heat of their place is too much for."""
    for lead, end, tubes in soldered_leads(facts.harness):
        what = f"soldered contacts of segment {lead.segment} of {shown(lead.circuit)}"
        for tube in dict.fromkeys(tubes):
            yield from _at_place(facts, what, end.place, tube, ("circuits", lead.circuit, "lead", lead.segment))
    for joint, common, half, tubes in soldered_tails(facts.harness):
        what = f"soldered contacts of the common {shown(common.name)}"
        for tube in dict.fromkeys(tubes):
            yield from _at_place(facts, what, half.place, tube, _contacts(joint, common))


def _contacts(disconnect: Disconnect, common: Common) -> Path:
    return "disconnects", disconnect.name, "commons", common.name, "contacts"


def _at_place(facts: Facts, what: str, place: str, tube: TubePart | None, path: Path) -> Iterator[Finding]:
    yield from _weak(facts, what, f" at {shown(place)}", facts.harness.places[place].heat_c, tube, path)


def _weak(
    facts: Facts, what: str, where: str, heat_c: float | None, tube: TubePart | None, path: Path
) -> Iterator[Finding]:
    """Find a tube over something that does not stand the heat there: none that fits does."""
    if heat_c is not None and tube is not None and not tube.stands(heat_c):
        stands = f"{shown(tube.name)} stands {decimal(tube.limit_c or 0)} °C, and no tube that fits stands more"
        do = f"Add a tube that stands {decimal(heat_c)} °C to `parts.yaml`."
        yield facts.found(KIND, path, f"{what} lie in {decimal(heat_c)} °C{where}; {stands}.", do)


def _own(facts: Facts, lead: Lead) -> Iterator[Finding]:
    """Walk what is wrong with the leads that equipment came with, on their route to where their plugs lie.

    Of one that plugs straight in the places at its ends are judged with the lead.
    """
    for key, end in zip(("from", "to"), lead.ends, strict=True):
        if end.own is not None and (end.own.route.runs or isinstance(lead, CutLead)):
            position = partial(facts.where.value, "circuits", lead.circuit, key)
            yield from _judge(facts, f"{end.name}'s own lead", lead, end, end.own.route, position)


def _judge(
    facts: Facts, what: str, lead: Lead, own: End | None, route: Route, position: Callable[[], Position]
) -> Iterator[Finding]:
    heat = facts.harness.hottest_c(route)
    if heat is None or all(_kind(wire, own).stands(heat) for wire in lead.wires):
        return
    weak = [wires for wires in _laid(facts, lead, own) if not wires.kind.stands(heat)]
    stand = listed(_stands(wires.kind, heat) for wires in weak)
    sentence = f"{what} lies in {decimal(heat)} °C {_hottest(facts, route, heat)}; {stand}."
    better = list(dict.fromkeys(name for wires in weak for name in _standing(facts.harness.wires, wires, heat)))
    if better:
        do = f"Use a wire that stands it, such as {listed(better)}, or lead it by another route."
    else:
        gauges = listed(dict.fromkeys(wires.kind.gauge.text for wires in weak))
        over = [contact.over_mm for wires in weak for contact in wires.contacts if contact.over_mm is not None]
        thick = f", at most {decimal(min(over))} mm thick," if over else ""
        most_a = max(wires.working_a for wires in weak)
        bears = f" and bears {at_least(most_a, 2)} A in it" if most_a > 0 else ""
        do = f"Add a wire of {gauges}{thick} that stands over {decimal(heat)} °C{bears} to `parts.yaml`, "
        do += "or lead it by another route."
    yield KIND.at(position(), sentence, do, ("circuits", lead.circuit))


def _standing(wires: Iterable[WirePart], weak: _Laid, heat_c: float) -> list[str]:
    """Return the names of wires of the same gauge that stand the heat, carry what they must, and go in the contacts."""
    return [
        shown(wire.name)
        for wire in wires
        if wire.gauge == weak.kind.gauge
        and wire.limit_c is not None
        and carries(wire, heat_c, weak.working_a)
        and all(contact.fits(wire) for contact in weak.contacts)
    ]


def _hottest(facts: Facts, route: Route, heat_c: float) -> str:
    """Say where on a route it is that hot: the first run of that heat, else the first place."""
    for index in route.runs:
        run = facts.harness.runs[index]
        if run.heat_c == heat_c:
            return f"between {shown(run.between[0])} and {shown(run.between[1])}"
    return "at " + next(shown(name) for name in route.places if facts.harness.places[name].heat_c == heat_c)
