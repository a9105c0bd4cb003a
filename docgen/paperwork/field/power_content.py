"""Take the harness; return what first power-up holds: from ring-out passed to everything moving, step by step."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from docgen.basics.frozen import frozen
from docgen.harness.losses.ways import PASSING
from docgen.harness.model.circuits import Circuit, End
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import SupplyFigures
from docgen.paperwork.field.aboard import Aboard, aboard
from docgen.paperwork.field.fault_content import content as faults_of
from docgen.paperwork.field.power_moves import moving, signals
from docgen.paperwork.field.power_parts import Part, Step, amps_text, idle_a, limit_a, volts_text
from docgen.paperwork.field.power_runs import running

_Brought = dict[str, list[Circuit]]

_BARE_A = 0.2  # what bare wiring is fed with: common practice, no source


@frozen
class PowerContent:
    """All parts in order."""

    aboard: Aboard
    parts: tuple[Part, ...]


def content(harness: Harness) -> PowerContent:
    """Return what first power-up holds; nothing is asked of what is not aboard."""
    harness = harness.made
    there = aboard(harness)
    numbers = {fault.name: number for number, fault in enumerate(faults_of(harness).faults, 1)}
    brought = _brought(harness)
    units, driven = _units(harness, brought, numbers)
    supplied = [*_wired(harness, brought, numbers), units, signals(harness, there), driven]
    parts = [*supplied, *moving(harness, there), *running(harness, there)]
    return PowerContent(there, tuple(part for part in parts if part.steps))


def _wired(harness: Harness, brought: _Brought, numbers: dict[str, int]) -> Iterator[Part]:
    """Walk what is done with nothing but wires."""
    packs = [entry for entry in harness.equipment.values() if entry.battery is not None]
    before = ("ring-out passed, every box", "packs out", "all electronics unplugged")
    yield Part("Before", "", [Step(says) for says in before])
    yield Part(
        "Resistance, plus to minus of each supply",
        "At the plug for the pack; nothing with electronics is plugged in.",
        [Step(entry.name, "", "open", reads=True, of=(f"resistance {entry.name}",)) for entry in packs],
        stop="not open: a short, or polarity crossed. Ring it out again.",
    )
    steps = []
    for supply in harness.results.supplies:
        for pack in supply.packs:
            steps += list(_bare(harness, pack, brought.get(pack, ()), numbers))
    yield Part(
        "Bare wiring, one supply after another",
        f"Bench supply to the volts said, limit {_BARE_A} A; meter its polarity at its plug, then connect. No pack "
        "aboard meanwhile. Probe end plugs with a mating pin, neighbours covered; 2+ is contact 2, plus.",
        steps,
        stop="it draws anything, or minus shows: off at once; see the fault finder's number.",
    )


def _bare(harness: Harness, pack: str, brought: Iterable[Circuit], numbers: dict[str, int]) -> Iterator[Step]:
    for number, circuit in enumerate(brought):
        rest = harness.results.rest[circuit.name]
        if number == 0:
            says = f"supply to {volts_text(rest.bench_v)}{_number(numbers, pack)}"
            yield Step(pack, says, "0 A", reads=True, of=(f"pack {pack}",))
        yield _reading(circuit, volts_text(rest.bench_v), numbers)


def _brought(harness: Harness) -> _Brought:
    """Return the circuits that bring supply from each equipment, last those that begin at commons which it feeds.

    What a motor gets is read when it runs.
    """
    brought: _Brought = {}
    for circuit in sorted(harness.circuits.values(), key=lambda circuit: not circuit.start.is_port):
        if circuit.name in harness.results.rest and not _is_driven(harness, circuit):
            source = circuit.start.name if circuit.start.is_port else _behind(harness, circuit.start)
            brought.setdefault(source, []).append(circuit)
    return brought


def _is_driven(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether a motor or an engine gets it; what the radio gets of a motor's regulator is none of that."""
    start = harness.equipment.get(circuit.start.name)
    drives = start is not None and start.kind in ("speed controller", "engine unit", "ignition")
    return drives and not _passes_on(harness, circuit)


def _passes_on(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether it brings supply to what passes that on."""
    ends = {end.name for end in circuit.loads} & harness.equipment.keys()
    return any(harness.equipment[name].kind in PASSING for name in ends)


def _behind(harness: Harness, start: End) -> str:
    """Return what feeds the common that a circuit begins at."""
    common = harness.disconnects[start.name].commons[next(iter(start.commons.values()))]
    return common.sources[0] if common.sources else ""


def _reading(circuit: Circuit, volts: str, numbers: dict[str, int]) -> Step:
    """Return the step that reads the volts at the end plug of a circuit."""
    said = []
    for end in circuit.loads or (circuit.start,):
        contacts = ["+".join(end.contacts.get(role, ())) for role in circuit.poles]
        signs = ("+", "−") if "positive" in circuit.poles else ("", "")
        poles = " ".join(f"{at}{sign}" for at, sign in zip(contacts, signs, strict=False))
        said.append(f"{end.text} {poles}".strip())
    number = _number(numbers, f"lead {circuit.label}")
    return Step(circuit.label, "; ".join(said) + number, volts, reads=True, of=(f"circuit {circuit.name}",))


def _number(numbers: dict[str, int], name: str) -> str:
    return f" (fault {numbers[name]})" if name in numbers else ""


def _units(harness: Harness, brought: _Brought, numbers: dict[str, int]) -> tuple[Part, Part]:
    """Walk supplies with what passes supply on, each plugged in; last the outlets that a signal drives."""
    steps: list[Step] = []
    driven: list[Step] = []
    done: set[str] = set()
    for supply in harness.results.supplies:
        for step, is_driven in _of_supply(harness, brought, supply, numbers, done):
            (driven if is_driven else steps).append(step)
    units = Part(
        "Units and receivers, one after another",
        "Bench supply limited as said. Plug in, switch on, let it settle; then read the volts at the end plug of each "
        "outlet, what hangs there still unplugged.",
        steps,
        stop="it is at its limit, hot, or shows nothing: off; see the fault finder's number.",
    )
    outlets = Part(
        "Outlets of units, driven",
        "Worked from the transmitter; read the volts at the end plug, what hangs there still unplugged.",
        driven,
        stop="it shows nothing: off; see the fault finder's number.",
    )
    return units, outlets


def _of_supply(
    harness: Harness, brought: _Brought, supply: SupplyFigures, numbers: dict[str, int], done: set[str]
) -> Iterator[tuple[Step, bool]]:
    """Walk the steps of a supply, each with whether a signal must drive it."""
    drawn_a = 0.0
    for name in (stage.name for stage in supply.stages):
        entry = harness.equipment[name]
        some = brought.get(name, ())
        if entry.battery is not None or name in done or not (some or entry.kind == "receiver"):
            continue
        done.add(name)
        drawn_a += idle_a(entry)
        shows = entry.form.on.partition(";")[2].strip()
        says = ", ".join(filter(None, (f"limit {amps_text(limit_a(drawn_a))}", shows))) + _number(numbers, name)
        idle = f"{amps_text(drawn_a)} idle" if entry.load is not None else ""
        yield Step(name, says, idle, reads=True, of=(f"unit {name}",)), False
        for circuit in some:
            volts = volts_text(harness.results.rest[circuit.name].bench_v)
            yield _reading(circuit, volts, numbers), entry.kind not in PASSING and not _passes_on(harness, circuit)
