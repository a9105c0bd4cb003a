"""What the record says in figures: currents and volts, bundles and sleeves, masses, limits."""

from __future__ import annotations

from docgen.basics.units import decimal, millimetres
from docgen.harness.model.harness import AssemblyMass, Bundle, Harness
from docgen.harness.model.results import CircuitFigures, Endurance, Shares, Stage, SupplyFigures
from docgen.paperwork.record.lines import Lines

_ESTIMATE = "Worked out, not measured: to be checked on the bench."


def add_figures(lines: Lines, harness: Harness) -> None:
    """Add circuits, supplies, runs with their sleeves, and masses."""
    lines.heading("Volts and currents, packs at empty")
    lines.add(_ESTIMATE)
    for circuit in harness.results.circuits.values():
        lines.add(f"{circuit.name}: {_circuit(circuit)}")
    if harness.results.supplies:
        lines.heading("Supplies")
    for supply in harness.results.supplies:
        _supply(lines, supply)
    lines.heading("Bundles and sleeves")
    for bundle in harness.bundles:
        if bundle.leads:
            _bundle(lines, harness, bundle)
    lines.heading("Mass and moment about the nose datum")
    for assembly in harness.balance:
        _mass(lines, assembly)


def _circuit(figures: CircuitFigures) -> str:
    said = [f"{millimetres(figures.length_mm)} mm of {figures.gauge}"]
    if figures.working_a is None:
        return ", ".join([*said, "no current known"])
    said.append(f"working {figures.working_a:.2f} A")
    said += [f"stalled {figures.stall_a:.2f} A"] if figures.stall_a not in (None, figures.working_a) else []
    said += [f"own drop {figures.own_drop_v:.2f} V"] if figures.own_drop_v is not None else []
    said += [f"{100 * figures.own_drop_share:.1f} %"] if figures.own_drop_share is not None else []
    if figures.stalled_drop_share is not None and figures.stalled_drop_v != figures.own_drop_v:
        said.append(f"stalled {figures.stalled_drop_v:.2f} V, {100 * figures.stalled_drop_share:.1f} %")
    said += [f"{figures.volts_left_v:.2f} V left ({figures.case})"] if figures.volts_left_v is not None else []
    return ", ".join([*said, *_used(figures.shares)])


def _used(shares: Shares) -> list[str]:
    parts = (("wire", shares.wire), ("contact", shares.contact), ("contact briefly", shares.brief))
    used = [f"{what} {100 * share:.0f} %" for what, share in parts if share is not None]
    return [f"of its limit {', '.join(used)}"] if used else []


def _supply(lines: Lines, supply: SupplyFigures) -> None:
    lines.add(f"{supply.name}: {currents_text(supply)}")
    for stage in supply.stages:
        lines.add(f"{stage.name}: {stage_text(stage)}", 1)
    if supply.endurance is not None:
        for said in endurance_texts(supply.packs, supply.endurance):
            lines.add(said, 1)


def currents_text(supply: SupplyFigures) -> str:
    """Say what a supply gives."""
    if supply.working_a is None or supply.peak_a is None:
        return "no current known"
    return f"working {supply.working_a:.2f} A, peak {supply.peak_a:.2f} A"


def stage_text(stage: Stage) -> str:
    """Say the volts of a stage."""
    if stage.working_v is None or stage.peak_v is None:
        return "not known"
    known = [outlets for outlets in stage.outputs if outlets.volts_v is not None]
    at = [f" at {', '.join(outlets.ports)}" if len(known) > 1 else "" for outlets in known]
    gives = [f"{outlets.volts_v:.2f} V{ports}" for outlets, ports in zip(known, at, strict=True)]
    given = f", gives {' and '.join(gives)}" if known else ""
    used = f", {100 * stage.rating_share:.0f} % of its rating" if stage.rating_share is not None else ""
    lost = f", drop on the way to it {stage.drop_v:.2f} V" if stage.drop_v is not None else ""
    return f"{stage.working_v:.2f} V working, {stage.peak_v:.2f} V at peak{given}{lost}{used}"


def endurance_texts(packs: tuple[str, ...], endurance: Endurance) -> list[str]:
    """Say how many flights a charge does, with all packs and with each alone."""
    said = []
    if endurance.together is not None:
        each = f", {endurance.flight_mah[packs[0]]:.1f} mAh each" if len(packs) == 1 else ""
        said.append(f"{endurance.together:.1f} flights on a charge{each}")
    if len(packs) > 1:
        alone = [(pack, flights) for pack, flights in endurance.alone.items() if flights is not None]
        said += [
            f"{pack} alone: {flights:.1f} flights, {endurance.flight_mah[pack]:.1f} mAh each" for pack, flights in alone
        ]
    return said


def _bundle(lines: Lines, harness: Harness, bundle: Bundle) -> None:
    run = harness.runs[bundle.run]
    bend = f"bend {bundle.supported_mm:.0f} mm at least where it lies held"
    if run.hinge_mm is not None:
        bend = f"bend {bundle.flexed_mm:.0f} mm at least at the hinge"
    lines.add(f"{run.between[0]} to {run.between[1]}: {bundle.diameter_mm:.2f} mm thick, {bend}")
    lines.add(", ".join(bundle.leads), 1)
    sleeve = bundle.sleeve
    if sleeve is not None and sleeve.runs[0] == bundle.run:
        over = f"over {len(sleeve.runs)} runs, " if len(sleeve.runs) > 1 else ""
        shorter = f"{100 * sleeve.shortening:.1f} % shorter when fitted"
        cut = f"cut {millimetres(sleeve.cut_length_mm)} mm to cover {sleeve.covered_mm:.0f} mm"
        lines.add(f"{sleeve.kind.name} ({sleeve.kind.kind}): {over}{cut}, {shorter}", 1)
    elif sleeve is not None:
        lines.add(f"{sleeve.kind.name} goes on over this run", 1)


def _mass(lines: Lines, mass: AssemblyMass) -> None:
    total = mass.leads_g + mass.sleeves_g + mass.equipment_g
    parts = f"leads {mass.leads_g:.0f} g, sleeves {mass.sleeves_g:.0f} g, equipment {mass.equipment_g:.0f} g"
    lines.add(f"{mass.assembly}: {total:.0f} g ({parts}), moment {mass.moment_g_mm / 1000:.1f} g m")
    for what, names in (("no mass known of", mass.unweighed), ("no place known of", mass.unplaced)):
        if names:
            lines.add(f"{what} {', '.join(names)}", 1)


def add_limits(lines: Lines, harness: Harness) -> None:
    """Add every limit with where it comes from."""
    limits = harness.limits
    lines.heading("Limits")
    for what, limit, unit, factor in (
        ("own drop, working", limits.drop_working, "%", 100),
        ("own drop, stalled", limits.drop_stalled, "%", 100),
        ("volts to spare", limits.margin_v, "V", 1),
        ("loads that stall together", limits.together, "", 1),
        ("heat that wants a sleeve, over", limits.hot_c, "°C", 1),
    ):
        lines.add(f"{what}: {f'{decimal(factor * limit.value, 3)} {unit}'.strip()} ({limit.source})")
    spare = limits.spare_contacts
    by_table = "2 up to 25 contacts, 4 up to 100, 6 above (FAA AC 43.13-1B 11-234)"
    lines.add(f"contacts to spare: {f'{spare.value:.0f} ({spare.source})' if spare else by_table}")
