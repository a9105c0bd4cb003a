"""Take electricity and loadings and return what tables show: figures of each circuit, supply and stage on the way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from docgen.basics.units import added
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.endurance import endurance_of
from docgen.harness.electrical.flow import best
from docgen.harness.electrical.full_volts import at_rest, bench_v, full_at_contacts
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.electrical.network import Supply, branches_of
from docgen.harness.electrical.sources import outputs_of, source_loadings
from docgen.harness.electrical.switching import switching_of
from docgen.harness.model.circuits import Circuit, numbered
from docgen.harness.model.equipment import Equipment, PortUse
from docgen.harness.model.harness import Harness
from docgen.harness.model.limits import Limits
from docgen.harness.model.results import CircuitFigures, Outlets, Results, Shares, Stage, SupplyFigures
from docgen.harness.wiring.feeds import CommonBranch

_NOISE_V = 1e-9


def results_of(harness: Harness, electricity: Electricity, loadings: Loadings) -> Results:
    """Return all figures of a harness."""
    circuits = {name: _circuit(harness, electricity, loadings, circuit) for name, circuit in harness.circuits.items()}
    network = electricity.network
    return Results(
        circuits,
        _contacts(harness, loadings),
        tuple(_supply(harness, electricity, supply) for supply in network.supplies),
        switching_of(harness, network),
        full_at_contacts(network, harness.circuits, harness.disconnects),
        at_rest(network, harness.circuits),
        dict(_charged(electricity)),
        dict(_on_the_bench(harness, electricity)),
        dict(_too_high(harness.equipment)),
    )


def _too_high(equipment: Mapping[str, Equipment]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Walk packs with the ports, other than where they are, that their plugs go into and that bear less than they give.

    A hand takes a pack to any of them, and what is plugged in there now may be unplugged.
    """
    loads = [(entry, entry.most_v) for entry in equipment.values() if entry.most_v]
    for pack in equipment.values():
        full_v = pack.battery.full_v if pack.battery is not None else 0.0
        ports = [(entry, port) for entry, most_v in loads if full_v > most_v + _NOISE_V for port in entry.ports]
        own = {(end.name, end.part) for port in pack.ports for end in port.far}
        found = [
            numbered(entry.name, "port", port.name)
            for entry, port in ports
            if (entry.name, port.name) not in own and any(_mates(port, plug) for plug in pack.ports)
        ]
        if found:
            yield pack.name, tuple(found)


def _mates(one: PortUse, other: PortUse) -> bool:
    return one.connector.name == other.connector.name and one.gender != other.gender


def _charged(electricity: Electricity) -> Iterator[tuple[str, float]]:
    """Walk equipment with the volts that arrive there working, with the best of its packs, full."""
    flows = {pack: electricity.working[pack].at(lambda battery: battery.full_v) for pack in electricity.network.reach}
    for name in electricity.measured:
        volts = best(flows[pack].volts(name) for pack in electricity.network.packs[name])
        if volts is not None:
            yield name, volts


def _on_the_bench(harness: Harness, electricity: Electricity) -> Iterator[tuple[tuple[str, tuple[str, ...]], float]]:
    """Walk regulated ports with what they give working, a bench supply in place of a pack."""
    for name in electricity.measured:
        flows = [electricity.working[pack].at(bench_v) for pack in electricity.network.packs[name]]
        for _, ports in outputs_of(harness.equipment[name]):
            volts = best(flow.outlet_volts((name, ports[0].group)) for flow in flows)
            if volts is not None:
                yield (name, tuple(port.name for port in ports)), volts


def _contacts(harness: Harness, loadings: Loadings) -> dict[tuple[str, str], float]:
    """Return for each contact of a disconnect that carries current how much of its rating that uses."""
    used: dict[tuple[str, str], float] = {}
    for (circuit, segment, number), contacts in loadings.contacts.items():
        end = harness.circuits[circuit].leads[segment].ends[number]
        for contact in contacts if end.kind == "half" else ():
            used |= dict.fromkeys(((end.name, name) for name in end.contacts[contact.role]), contact.rating_share)
    for (disconnect, common), contact in loadings.commons.items():
        names = harness.disconnects[disconnect].commons[common].contacts
        used |= dict.fromkeys(((disconnect, name) for name in names), contact.rating_share)
    return used


def _circuit(harness: Harness, electricity: Electricity, loadings: Loadings, circuit: Circuit) -> CircuitFigures:
    length_mm = added(lead.length_mm for lead in circuit.leads)
    wires = [wire for lead in circuit.leads for wire in lead.wires if wire.role in circuit.poles or not circuit.poles]
    kinds = dict.fromkeys(wire.kind.gauge.text for wire in wires)
    nothing = CircuitFigures(circuit.name, length_mm, " / ".join(kinds))
    branches = branches_of(circuit)
    if not electricity.known.intersection(branches) or electricity.unknown.branches.intersection(branches):
        return nothing
    working_a = max(electricity.working_a(branch) for branch in branches)
    loads = dict.fromkeys(feed.load for feed in electricity.network.feeds_of.get(circuit.name, ()))
    said = loads if electricity.unknown.volts.isdisjoint(loads) else ()
    cases = [(volts, case) for load in said for case, volts in electricity.cases(load).items()]
    volts_left_v, case = min(cases) if cases else (None, None)
    drop_v, share, stalled_v, stalled_share = _drops(electricity, circuit)
    more_a = [electricity.loads.added_a.get(load, 0.0) for load in loads]
    return replace(
        nothing,
        working_a=working_a,
        stall_a=working_a + max(more_a) if more_a else None,
        own_drop_v=drop_v,
        own_drop_share=share,
        stalled_drop_v=stalled_v,
        stalled_drop_share=stalled_share,
        volts_left_v=volts_left_v,
        case=case,
        shares=_shares(harness.limits, loadings, circuit, (share, stalled_share)),
    )


def _drops(electricity: Electricity, circuit: Circuit) -> tuple[float | None, ...]:
    """Return a circuit's own drop working, its share, and both with its load stalled; the worst of its feeds.

    A heavy pair that ends at commons has no load of its own: only its working drop is known. Of what hangs on an
    unknown length nothing is.
    """
    feeds = electricity.network.feeds_of.get(circuit.name, ())
    if not feeds and circuit.start.name not in electricity.unknown.volts:
        ohms = electricity.resistances_ohm
        volts = (ohms[at] * electricity.working_a(at) if at in ohms else None for at in branches_of(circuit))
        return added(volts), None, None, None
    known = [(drops, electricity.nominal_v(feed)) for feed in feeds if (drops := electricity.drops(feed)) is not None]
    found = known if len(known) == len(feeds) else []
    if not found:
        return None, None, None, None
    return (
        max(drops[0] for drops, _ in found),
        max(drops[0] / volts for drops, volts in found),
        max(drops[1] for drops, _ in found),
        max(drops[1] / volts for drops, volts in found),
    )


def _shares(limits: Limits, loadings: Loadings, circuit: Circuit, drops: tuple[float | None, float | None]) -> Shares:
    """Return how much of its limits a circuit uses, with the contacts that it shares with others and their tails."""
    segments = range(len(circuit.leads))
    at_ends = [(circuit.name, segment, end) for segment in segments for end in (0, 1)]
    shared = {
        CommonBranch(end.name, common) for lead in circuit.leads for end in lead.ends for common in end.commons.values()
    }
    wires = [wire for segment in segments for wire in loadings.leads.get((circuit.name, segment), ())]
    wires += [wire for at in at_ends for wire in loadings.own_leads.get(at, ())]
    wires += [tail for (common, _), tail in loadings.tails.items() if common in shared]
    contacts = [contact for at in at_ends for contact in loadings.contacts.get(at, ())]
    contacts += [loadings.commons[common] for common in shared if common in loadings.commons]
    most = limits.drop_working.value, limits.drop_stalled.value
    return Shares(
        max((wire.working_a / may for wire in wires if (may := wire.may_a) is not None and may > 0), default=None),
        max((contact.rating_share for contact in contacts if contact.kind.rating_a), default=None),
        max((contact.brief_a / brief_a for contact in contacts if (brief_a := contact.kind.brief_a)), default=None),
        *(drop / limit if drop is not None and limit > 0 else None for drop, limit in zip(drops, most, strict=True)),
    )


def _supply(harness: Harness, electricity: Electricity, supply: Supply) -> SupplyFigures:
    network = electricity.network
    known = any(name in electricity.carrying for name in supply.members)
    known = known and electricity.unknown.currents.isdisjoint(supply.packs)
    stages = []
    for name in sorted(supply.members, key=lambda name: (name not in supply.packs, network.rank[name])):
        packs = network.packs[name] if name in electricity.measured else ()
        working_v, peak_v = (
            best(flows[pack].volts(name) for pack in packs) for flows in (electricity.working, electricity.peak)
        )
        feeds = network.into.get(name, ())
        drop_v = best(electricity.working[pack].drop_v(feed) for pack in packs for feed in feeds)
        entry = harness.equipment[name]
        rated_by = source_loadings(electricity, entry) if name not in electricity.unknown.currents else ()
        rated = best(one.amps / one.rating_a for one in rated_by if one.rating_a > 0)
        outputs = tuple(_outlets(electricity, entry, packs))
        stages.append(Stage(name, drop_v, working_v, peak_v, rated, outputs))
    return SupplyFigures(
        name=" + ".join(supply.packs),
        packs=supply.packs,
        working_a=max(electricity.working[pack].node_a(pack) for pack in supply.packs) if known else None,
        peak_a=max(electricity.peak[pack].node_a(pack) for pack in supply.packs) if known else None,
        stages=tuple(stages),
        endurance=endurance_of(harness.flight, electricity, supply) if known else None,
    )


def _outlets(electricity: Electricity, entry: Equipment, packs: Sequence[str]) -> Iterator[Outlets]:
    """Walk the regulated outputs of equipment with what each gives working, with the best of its packs."""
    for _, ports in outputs_of(entry):
        given_v = best(electricity.working[pack].outlet_volts((entry.name, ports[0].group)) for pack in packs)
        yield Outlets(tuple(port.name for port in ports), given_v)
