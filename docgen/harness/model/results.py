"""The figures that tables show, for each circuit, supply and stage on the way. Nothing where not computed."""

from __future__ import annotations

from typing import NamedTuple

from docgen.basics.frozen import frozen
from docgen.harness.model.switching import Switching


@frozen(slots=True)
class Endurance:
    """What a flight takes of each pack alone [mAh], and the flights that a charge does.

    `alone` and `together` leave the reserve (nothing where nothing draws), `to_empty` is each alone to the last.
    Capacities `add_up` for like packs on one unit that keeps them apart; else the least lasts for all.
    """

    flight_mah: dict[str, float]
    alone: dict[str, float | None]
    to_empty: dict[str, float]
    together: float | None
    add_up: bool = False


@frozen(slots=True)
class Shares:
    """How much of each limit is used, 1 at the limit: wire, contact for long and briefly, own drop in both cases.

    Contacts that are shared count, and their tails among the wires; for long is working or with gear legs jammed.
    """

    wire: float | None = None
    contact: float | None = None
    brief: float | None = None
    drop_working: float | None = None
    drop_stalled: float | None = None


@frozen(slots=True)
class CircuitFigures:
    """One circuit's length, size, currents, own drops, and the least volts left at its load with their case."""

    name: str
    length_mm: float | None
    gauge: str
    working_a: float | None = None
    stall_a: float | None = None
    own_drop_v: float | None = None
    own_drop_share: float | None = None
    stalled_drop_v: float | None = None
    stalled_drop_share: float | None = None
    volts_left_v: float | None = None
    case: str | None = None
    shares: Shares = Shares()


@frozen(slots=True)
class Outlets:
    """Ports of equipment with one regulated output, and what they give working."""

    ports: tuple[str, ...]
    volts_v: float | None


@frozen(slots=True)
class Stage:
    """What arrives at equipment of a supply, working and at peak; of a pack what it gives. `outputs` are regulated.

    `drop_v` is what is lost on the way from the stage before, working; `rating_share` the most that its pack or its
    outlets use of a rating at peak, 1 at the rating.
    """

    name: str
    drop_v: float | None
    working_v: float | None
    peak_v: float | None
    rating_share: float | None
    outputs: tuple[Outlets, ...]


@frozen(slots=True)
class SupplyFigures:
    """One supply's currents, stages and endurance."""

    name: str
    packs: tuple[str, ...]
    working_a: float | None
    peak_a: float | None
    stages: tuple[Stage, ...]
    endurance: Endurance | None


class Rest(NamedTuple):
    """What a meter reads while nothing draws: packs empty, a bench supply in place of each, packs full [V]."""

    empty_v: float
    bench_v: float
    full_v: float


@frozen(slots=True)
class Results:
    """All figures, in the order written.

    `contacts` is how much of its rating each contact of a disconnect uses; `switching` the order of acts;
    `full_v` are the volts of full packs at the contacts of disconnects over which supply goes out;
    `rest` what a meter reads at the end of each circuit that brings supply; `charged_v` what arrives at equipment
    working with packs full, and `bench_v` what regulated ports give working with a bench supply in place of packs;
    `too_high` the ports that a pack's plug goes into, of equipment that bears less than the pack gives full.
    """

    circuits: dict[str, CircuitFigures]
    contacts: dict[tuple[str, str], float]
    supplies: tuple[SupplyFigures, ...]
    switching: Switching
    full_v: dict[tuple[str, str], float]
    rest: dict[str, Rest]
    charged_v: dict[str, float]
    bench_v: dict[tuple[str, tuple[str, ...]], float]
    too_high: dict[str, tuple[str, ...]]
