"""Take what a supply gives working and return how many flights a charge does."""

from __future__ import annotations

from docgen.definition.aircraft import Flight
from docgen.definition.equipment import Battery, Current
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.network import Supply
from docgen.harness.model.results import Endurance

_S_PER_MAH = 3.6  # a milliampere hour in ampere seconds


def charge_of_flight_mah(load: Current, flight: Flight) -> float:
    """Return what one load takes of a pack in one flight [mAh]: working × runs + idle × all other time.

    `runs` is the flight time where it is unsaid; idle unsaid is as working, or nothing with `runs`.
    """
    working_a = load.working_a or 0.0
    idle_a = load.idle_a if load.idle_a is not None else working_a if load.runs_s is None else 0.0
    runs_s = flight.time_s if load.runs_s is None else load.runs_s
    return (working_a * runs_s + idle_a * max(flight.time_s - runs_s + flight.ground_s, 0.0)) / _S_PER_MAH


def endurance_of(flight: Flight | None, electricity: Electricity, supply: Supply) -> Endurance | None:
    """Return the endurance of a supply, or nothing where no flight is said or what it gives is not known."""
    if flight is None or not electricity.unknown.currents.isdisjoint(supply.packs):
        return None
    network = electricity.network
    flight_mah: dict[str, float] = {}
    for pack in supply.packs:
        flow = electricity.working[pack]
        flight_mah[pack] = sum(
            charge_of_flight_mah(load, flight) * flow.weights[name].nodes.get(pack, 0.0)
            for name in supply.members
            if name in flow.loads and (load := network.equipment[name].load) is not None
        )
    capacity = {pack: _battery(electricity, pack).capacity_mah for pack in supply.packs}
    alone = {
        pack: capacity[pack] * (1 - flight.reserve) / charge if charge > 0 else None
        for pack, charge in flight_mah.items()
    }
    to_empty = {pack: capacity[pack] / charge if charge > 0 else float("inf") for pack, charge in flight_mah.items()}
    together = min((flights for flights in alone.values() if flights is not None), default=None)
    add_up = len(supply.packs) > 1 and _add_up(electricity, supply)
    if together is not None and add_up:
        together = sum(capacity.values()) * (1 - flight.reserve) / max(flight_mah.values())
    return Endurance(flight_mah, alone, to_empty, together, add_up)


def _battery(electricity: Electricity, pack: str) -> Battery:
    battery = electricity.network.equipment[pack].battery
    assert battery is not None
    return battery


def _add_up(electricity: Electricity, supply: Supply) -> bool:
    """Tell whether capacities add: like packs, all on one unit that keeps them apart; common practice, no source."""
    batteries = [_battery(electricity, pack) for pack in supply.packs]
    like = len({(b.cells, b.capacity_mah, b.full_v, b.empty_v) for b in batteries}) == 1
    equipment = electricity.network.equipment
    return like and any(
        equipment[name].form.isolates and electricity.network.packs[name] == supply.packs for name in supply.members
    )
