"""Take what was worked out of the harness; add it to the record: volts, endurance, bundles, masses, their limits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.basics.units import added, decimal
from docgen.harness.model.bundles import AssemblyMass, Bundle
from docgen.harness.model.harness import Harness
from docgen.harness.model.limits import Limits
from docgen.harness.model.losses import Loss
from docgen.harness.model.results import CircuitFigures, Rest, Stage, SupplyFigures
from docgen.harness.model.switching import Switching
from docgen.paperwork.record.entries import run_text
from docgen.paperwork.record.lines import Lines, joined, length, named, percent, quantity


def add_circuits(lines: Lines, _: Harness, circuits: dict[str, CircuitFigures]) -> None:
    """Add the currents and drops of circuits, and how much of their limits they use."""
    lines.add("Worked out, not measured: to be checked on the bench.")
    for circuit in circuits.values():
        long = f"{circuit.name}: {length(circuit.length_mm)} of {circuit.gauge}"
        lines.add(long, "no current known" if circuit.working_a is None else _figures(circuit))


def _figures(circuit: CircuitFigures) -> str:
    stall_a, stalled_v, stalled_share = circuit.stall_a, circuit.stalled_drop_v, circuit.stalled_drop_share
    stalled = f"stalled {quantity(stalled_v, 'V', 2)}, {percent(stalled_share, 1)}"
    shares = circuit.shares
    used = (("wire", shares.wire), ("contact", shares.contact), ("contact briefly", shares.brief))
    return joined(
        named("working", quantity(circuit.working_a, "A", 2)),
        named("stalled", quantity(stall_a if stall_a != circuit.working_a else None, "A", 2)),
        named("own drop", quantity(circuit.own_drop_v, "V", 2)),
        percent(circuit.own_drop_share, 1),
        stalled if stalled_share is not None and stalled_v != circuit.own_drop_v else "",
        f"{quantity(circuit.volts_left_v, 'V', 2)} left ({circuit.case})" if circuit.volts_left_v is not None else "",
        named("of its limit", joined(*(named(what, percent(share, 0)) for what, share in used))),
    )


def add_supply(lines: Lines, _: Harness, supply: SupplyFigures) -> None:
    """Add what a supply gives, what arrives at each stage of it, and how long a charge lasts."""
    lines.add(f"{supply.name}: {currents_text(supply)}")
    for stage in supply.stages:
        lines.add(f"{stage.name}: {_stage_text(stage)}", depth=1)
    for said in endurance_texts(supply):
        lines.add(said, depth=1)


def currents_text(supply: SupplyFigures) -> str:
    """Say what a supply gives."""
    if supply.working_a is None or supply.peak_a is None:
        return "no current known"
    return f"working {quantity(supply.working_a, 'A', 2)}, peak {quantity(supply.peak_a, 'A', 2)}"


def _stage_text(stage: Stage) -> str:
    if stage.working_v is None or stage.peak_v is None:
        return "not known"
    known = [outlets for outlets in stage.outputs if outlets.volts_v is not None]
    at = [f" at {', '.join(outlets.ports)}" if len(known) > 1 else "" for outlets in known]
    gives = [f"{quantity(outlets.volts_v, 'V', 2)}{ports}" for outlets, ports in zip(known, at, strict=True)]
    return joined(
        f"{quantity(stage.working_v, 'V', 2)} working",
        f"{quantity(stage.peak_v, 'V', 2)} at peak",
        named("gives", " and ".join(gives)),
        named("drop on the way to it", quantity(stage.drop_v, "V", 2)),
        f"{percent(stage.rating_share, 0)} of its rating" if stage.rating_share is not None else "",
    )


def endurance_texts(supply: SupplyFigures) -> Iterator[str]:
    """Say how many flights a charge does, with all packs and with each alone."""
    lasts, several = supply.endurance, len(supply.packs) > 1
    if lasts is None:
        return
    each = {pack: f"{quantity(taken_mah, 'mAh', 1)} each" for pack, taken_mah in lasts.flight_mah.items()}
    if lasts.together is not None:
        yield joined(f"{lasts.together:.1f} flights on a charge", "" if several else each[supply.packs[0]])
    for pack, flights in lasts.alone.items() if several else ():
        if flights is not None:
            yield f"{pack} alone: {flights:.1f} flights, {each[pack]}"


def functions_text(harness: Harness, loads: Sequence[str]) -> str:
    """Name functions by their labels, or all of several at once."""
    losses = harness.losses
    return "everything" if len(loads) == len(losses.functions) > 1 else ", ".join(losses.labels(loads))


def add_loss(lines: Lines, harness: Harness, loss: Loss) -> None:
    """Add what stops when a thing is lost, and what goes on by another feed or signal."""
    lines.add(f"{loss.thing.kind} {loss.thing.name}: {functions_text(harness, loss.stopped) or 'nothing'} stops")
    lines.add(named("goes on another way:", functions_text(harness, loss.goes_on)), depth=1)


def add_bundle(lines: Lines, harness: Harness, bundle: Bundle) -> None:
    """Add how thick a bundle is, how it may be bent, the leads in it, and what protects them."""
    run = harness.runs[bundle.run]
    where = "where it lies held" if run.hinge_mm is None else "at the hinge"
    bend = f"bend {bend_mm(harness, bundle):.0f} mm at least {where}"
    lines.add(f"{run_text(run)}: {bundle.diameter_mm:.2f} mm thick, {bend}")
    lines.add(", ".join(bundle.leads), depth=1)
    sleeve = bundle.sleeve
    if sleeve is not None and begins_sleeve(bundle):
        over = f"over {len(sleeve.runs)} runs" if len(sleeve.runs) > 1 else ""
        covers = named("to cover", quantity(sleeve.covered_mm, "mm", 0))
        cut = f"cut {length(sleeve.cut_length_mm)} {covers}".strip()
        shorter = f"{percent(sleeve.shortening, 1)} shorter when fitted"
        lines.add(f"{sleeve.kind.name} ({sleeve.kind.kind}): {joined(over, cut, shorter)}", depth=1)
    elif sleeve is not None:
        lines.add(f"{sleeve.kind.name} goes on over this run", depth=1)


def bend_mm(harness: Harness, bundle: Bundle) -> float:
    """Return the least radius of a bundle: flexed at a hinge, else held."""
    return bundle.supported_mm if harness.runs[bundle.run].hinge_mm is None else bundle.flexed_mm


def begins_sleeve(bundle: Bundle) -> bool:
    """Tell whether the sleeve on a run is cut for it, and not for one before."""
    return bundle.sleeve is not None and bundle.sleeve.runs[0] == bundle.run


def add_balance(lines: Lines, _: Harness, masses: Sequence[AssemblyMass]) -> None:
    """Add what assemblies weigh and their moments, as a table, with their sum; and what is not known of them."""
    lines.add(
        "Moments: mass times how far aft. What has no mass or place is not in them; nose ballast is yours to add."
    )
    lines.row("assembly", "leads g", "sleeves g", "others g", "all g", "g m")
    for mass in masses:
        parts = (mass.leads_g, mass.sleeves_g, mass.equipment_g, mass.mass_g)
        lines.row(mass.assembly, *map(_grams, parts), _moment(mass.moment_g_mm))
    names = ("leads_g", "sleeves_g", "equipment_g", "mass_g")
    sums = (added(getattr(mass, name) for mass in masses) for name in names)
    lines.row("all", *map(_grams, sums), _moment(added(mass.moment_g_mm for mass in masses)))
    for mass in masses:
        lines.add(named(f"{mass.assembly}: no mass known of", ", ".join(mass.unweighed)))
        lines.add(named(f"{mass.assembly}: no place known of", ", ".join(mass.unplaced)))


def _grams(mass_g: float | None) -> str:
    return "unknown" if mass_g is None else f"{mass_g:.0f}"


def _moment(moment_g_mm: float | None) -> str:
    return "unknown" if moment_g_mm is None else f"{moment_g_mm / 1000:.1f}"


def add_switching(lines: Lines, _: Harness, switching: Switching) -> None:
    """Add the acts in the order of time: on, what drives is stopped, off; how, and what shows it."""
    for heading, acts in (("on", switching.on), ("stop", switching.stop), ("off", switching.off)):
        for number, act in enumerate(acts, 1):
            said = f"{heading} {number}: {', '.join(act.names)}: {act.how or 'how: not written'}"
            lines.add(f"{said}; {act.shows}" if act.shows else said)
    for key in switching.carried:
        lines.add(f"stored and carried with {key} in, packs unplugged")


def add_rest(lines: Lines, harness: Harness, rest: tuple[str, Rest]) -> None:
    """Add what a meter reads at the end of a circuit while nothing draws."""
    name, volts = rest
    low, high = f"{volts.empty_v:.1f}", f"{volts.full_v:.1f}"
    lines.add(f"{name}: {harness.circuits[name].label}, {high if low == high else f'{low} to {high}'} V")


def add_limits(lines: Lines, _: Harness, limits: Limits) -> None:
    """Add every limit with where it comes from."""
    for what, limit, unit, factor in (
        ("own drop, working", limits.drop_working, " %", 100),
        ("own drop, stalled", limits.drop_stalled, " %", 100),
        ("volts to spare", limits.margin_v, " V", 1),
        ("loads that stall together", limits.together, "", 1),
        ("heat that wants a sleeve, over", limits.hot_c, " °C", 1),
    ):
        lines.add(f"{what}: {decimal(factor * limit.value, 3)}{unit} ({limit.source})")
    spare = limits.spare_contacts
    by_table = "2 up to 25 contacts, 4 up to 100, 6 above (FAA AC 43.13-1B 11-234)"
    lines.add(f"contacts to spare: {f'{spare.value:.0f} ({spare.source})' if spare else by_table}")
