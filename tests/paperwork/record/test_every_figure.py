"""Every line of equipment and of worked out figures in the record, held against the harness."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from recorded import NAMES, entry, recorded, said
from resolved import EXAMPLES, harness_of, record_of

from docgen.harness.electrical.sources import outputs_of
from docgen.harness.model.results import CircuitFigures, Stage, SupplyFigures
from docgen.paperwork.cards import pinout_cards

if TYPE_CHECKING:
    from collections.abc import Iterator

    from conftest import AircraftFolder

    from docgen.harness.model.bundles import Bundle
    from docgen.harness.model.equipment import Equipment
    from docgen.harness.model.harness import Harness


def each(unit: str, **values: float | None) -> str:
    return said(*(f"{name} {value:g} {unit}" for name, value in values.items() if value is not None))


def after(name: str, text: str) -> list[str]:
    return [f"{name} {text}"] if text else []


def figures(entry: Equipment) -> Iterator[str]:
    pack, load, gear, form = entry.battery, entry.load, entry.form.gear, entry.form
    if pack is not None:
        yield f"{pack.cells} cells, {pack.capacity_mah:g} mAh, full {pack.full_v:g} V, empty {pack.empty_v:g} V"
        yield from after("resistance", f"{1000 * pack.resistance_ohm:g} mΩ" if pack.resistance_ohm is not None else "")
        yield from after("rating", each("A", of=pack.rating_a).removeprefix("of "))
    if load is not None:
        drawn = each("A", idle=load.idle_a, working=load.working_a, stall=load.stall_a)
        yield from after("current", said(drawn, each("s", runs=load.runs_s), "typical" if load.typical else ""))
    yield from after("volts", each("V", least=entry.least_v, most=entry.most_v))
    yield from after("rating", each("A", of=form.rating_a).removeprefix("of "))
    yield from after("bears heat up to", each("°C", of=form.most_heat_c).removeprefix("of "))
    if gear is not None:
        strokes = each("s", up=gear.up_s, down=gear.down_s, limit=gear.limit_s)
        yield from after("gear", said(strokes, each("A", stop=gear.stop_a)))
    for antenna in entry.antennas:
        lies = antenna.form
        sizes = each("mm", lead=lies.lead_mm, diameter=lies.diameter_mm)
        yield f"antenna {antenna.name}: {said(lies.place, lies.lies, lies.band or '', sizes, lies.note)}"
    for output, ports in outputs_of(entry):
        volts = f"{output.volts_v:g} V, headroom {output.headroom_v:g} V"
        rating = each("A", rating=output.rating_a)
        switching = f"switching, {100 * output.efficiency:g} % efficient" if output.efficiency else ""
        yield f"output {', '.join(port.name for port in ports)}: {said(volts, rating, switching)}"
    yield from ["keeps its feeds apart"] * bool(form.isolates)
    yield from after("fed by", ", ".join(form.fed_by))
    yield from after("mass", each("g", of=form.mass).removeprefix("of "))


def ports(entry: Equipment) -> Iterator[str]:
    for port in entry.ports:
        rating = each("A", rating=port.rating_a)
        plug = said(f"port {port.name or '(own lead)'}", f"{port.connector.name} {port.gender}", rating)
        if port.circuit is None:
            yield f"{plug}: free"
            continue
        form = port.circuit.form
        channel = f"channel {form.channel}" if form.channel is not None else ""
        failsafe = f"fail-safe {form.failsafe}" if form.failsafe else ""
        leads = said(f"{port.circuit.label} ({port.circuit.name})", f"other end {port.far_text}", channel, failsafe)
        yield f"{plug}: {leads}"


@pytest.mark.parametrize("name", NAMES)
def test_every_equipment_says_its_figures_ports_card_drives_and_switching(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    hashes, too_high = pinout_cards.content(harness).hashes, harness.results.too_high
    for equipment in harness.equipment.values():
        form, place = equipment.form, harness.places[equipment.place]
        pulled = f"{form.out} when pulled out" if equipment.kind == "key" else ""
        card = hashes.get((equipment.name,))
        assert entry(recorded(name)["Equipment"], equipment.name) == [
            said(f"{equipment.name}: {equipment.kind} at {place.name}, {place.assembly}", pulled),
            *figures(equipment),
            *ports(equipment),
            *after("its plug goes in where it gives too many volts:", ", ".join(too_high.get(equipment.name, ()))),
            *after("card", card or ""),
            *(f"{inlet} drives {', '.join(outlets)}" for inlet, outlets in form.drives.items()),
            *after("on:", form.on),
            *after("stop:", form.stop),
            *after("stopped:", form.stopped),
            *after("off:", form.off),
            *after("note:", form.note),
        ]


def share(value: float | None, decimals: int = 0) -> str:
    return "" if value is None else f"{100 * value:.{decimals}f} %"


def volts(value: float | None) -> str:
    return "" if value is None else f"{value:.2f} V"


def of_circuit(one: CircuitFigures) -> str:
    length = "not measured" if one.length_mm is None else f"{round(one.length_mm, 1):g} mm"
    head = f"{one.name}: {length} of {one.gauge}"
    if one.working_a is None:
        return f"{head}, no current known"
    stalls = one.stall_a is not None and one.stall_a != one.working_a
    stalled = one.stalled_drop_share is not None and one.stalled_drop_v != one.own_drop_v
    used = [("wire", one.shares.wire), ("contact", one.shares.contact), ("contact briefly", one.shares.brief)]
    limits = said(*(f"{what} {share(value)}" for what, value in used if value is not None))
    return said(
        head,
        f"working {one.working_a:.2f} A",
        f"stalled {one.stall_a:.2f} A" if stalls else "",
        f"own drop {volts(one.own_drop_v)}" if one.own_drop_v is not None else "",
        share(one.own_drop_share, 1),
        f"stalled {volts(one.stalled_drop_v)}, {share(one.stalled_drop_share, 1)}" if stalled else "",
        f"{volts(one.volts_left_v)} left ({one.case})" if one.volts_left_v is not None else "",
        f"of its limit {limits}" if limits else "",
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_circuit_says_its_length_currents_drops_and_shares(name: str) -> None:
    found = recorded(name)["Volts and currents, packs at empty"]
    assert found[1:] == [of_circuit(one) for one in harness_of(EXAMPLES / name).results.circuits.values()]


def of_stage(stage: Stage) -> str:
    if stage.working_v is None or stage.peak_v is None:
        return f"  {stage.name}: not known"
    known = [outlets for outlets in stage.outputs if outlets.volts_v is not None]
    gives = [volts(one.volts_v) + (f" at {', '.join(one.ports)}" if len(known) > 1 else "") for one in known]
    told = said(
        f"{volts(stage.working_v)} working",
        f"{volts(stage.peak_v)} at peak",
        f"gives {' and '.join(gives)}" if gives else "",
        f"drop on the way to it {volts(stage.drop_v)}" if stage.drop_v is not None else "",
        f"{share(stage.rating_share)} of its rating" if stage.rating_share is not None else "",
    )
    return f"  {stage.name}: {told}"


def of_supply(supply: SupplyFigures) -> Iterator[str]:
    known = supply.working_a is not None and supply.peak_a is not None
    currents = f"working {supply.working_a:.2f} A, peak {supply.peak_a:.2f} A" if known else "no current known"
    yield f"{supply.name}: {currents}"
    yield from map(of_stage, supply.stages)
    lasts, several = supply.endurance, len(supply.packs) > 1
    if lasts is None:
        return
    each_pack = {pack: f"{mah:.1f} mAh each" for pack, mah in lasts.flight_mah.items()}
    if lasts.together is not None:
        flights = f"{lasts.together:.1f} flights on a charge"
        yield f"  {flights}" if several else f"  {flights}, {each_pack[supply.packs[0]]}"
    for pack, alone in lasts.alone.items() if several else ():
        if alone is not None:
            yield f"  {pack} alone: {alone:.1f} flights, {each_pack[pack]}"


@pytest.mark.parametrize("name", NAMES)
def test_every_supply_says_its_currents_stages_and_flights(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    assert recorded(name).get("Supplies", []) == [
        line for supply in harness.results.supplies for line in of_supply(supply)
    ]


def of_bundle(harness: Harness, bundle: Bundle) -> Iterator[str]:
    run, sleeve = harness.runs[bundle.run], bundle.sleeve
    least = bundle.supported_mm if run.hinge_mm is None else bundle.flexed_mm
    where = "where it lies held" if run.hinge_mm is None else "at the hinge"
    bend = f"bend {least:.0f} mm at least {where}"
    yield f"{' to '.join(run.between)}: {bundle.diameter_mm:.2f} mm thick, {bend}"
    yield f"  {', '.join(bundle.leads)}"
    if sleeve is None:
        return
    if sleeve.runs[0] != bundle.run:
        yield f"  {sleeve.kind.name} goes on over this run"
        return
    cut = "not measured" if sleeve.cut_length_mm is None else f"{round(sleeve.cut_length_mm, 1):g} mm"
    covers = f" to cover {sleeve.covered_mm:.0f} mm" if sleeve.covered_mm is not None else ""
    over = f"over {len(sleeve.runs)} runs" if len(sleeve.runs) > 1 else ""
    fitted = said(over, f"cut {cut}{covers}", f"{share(sleeve.shortening, 1)} shorter when fitted")
    yield f"  {sleeve.kind.name} ({sleeve.kind.kind}): {fitted}"


@pytest.mark.parametrize("name", NAMES)
def test_every_run_with_leads_says_its_bundle_and_sleeve(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    wanted = [line for bundle in harness.bundles if bundle.leads for line in of_bundle(harness, bundle)]
    assert recorded(name)["Bundles and sleeves"] == wanted


@pytest.mark.parametrize("name", NAMES)
def test_every_assembly_says_its_masses_their_sum_and_what_is_not_known(name: str) -> None:
    harness = harness_of(EXAMPLES / name)

    def row(title: str, *parts_g: float | None, moment_g_mm: float | None) -> str:
        cells = ["unknown" if part is None else f"{part:.0f}" for part in parts_g]
        moment = "unknown" if moment_g_mm is None else f"{moment_g_mm / 1000:.1f}"
        return f"{title} {' '.join(cells)} {moment}"

    def added(values: list[float | None]) -> float | None:
        known = [value for value in values if value is not None]
        return sum(known) if len(known) == len(values) else None

    masses = harness.balance
    wanted = [
        row(one.assembly, one.leads_g, one.sleeves_g, one.equipment_g, one.mass_g, moment_g_mm=one.moment_g_mm)
        for one in masses
    ]
    sums = [added([getattr(one, f"{what}_g") for one in masses]) for what in ("leads", "sleeves", "equipment", "mass")]
    wanted.append(row("all", *sums, moment_g_mm=added([one.moment_g_mm for one in masses])))
    for one in masses:
        wanted += after(f"{one.assembly}: no mass known of", ", ".join(one.unweighed))
        wanted += after(f"{one.assembly}: no place known of", ", ".join(one.unplaced))
    found = [" ".join(line.split()) for line in recorded(name)["Balance about the nose datum"]]
    assert found[1] == "assembly leads g sleeves g others g all g g m"
    assert found[2:] == wanted


def test_figures_of_the_balance_end_below_each_other_and_long_names_stand_in_a_line_of_their_own(
    aircraft_folder: AircraftFolder,
) -> None:
    text = (EXAMPLES / "wren" / "aircraft.yaml").read_text("utf-8").replace("fuselage", "fuselage-and-fin-x")
    whole = record_of(harness_of(aircraft_folder({"aircraft.yaml": text}))).whole
    table = whole.partition("\nassembly ")[2].partition("no mass known")[0].split("\n")
    rows = [line for line in table[1:] if line[-1:].isdigit()]
    # A name has 17 letters of room, a figure 11: 17 + 5 × 11 = 72.
    assert {len(line) for line in rows} == {72}
    assert "fuselage-and-fin-x" in table
    (own,) = (line for line in rows if line.startswith(" "))
    assert own.split() == ["35", "4", "0", "39", "30.3"]
    assert [line.split()[0] for line in rows if not line.startswith(" ")] == ["left-panel", "right-panel", "all"]
