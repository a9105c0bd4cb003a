"""Take the harness; return what first power-up holds: from ring-out passed to everything moving, step by step."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from docgen.basics.frozen import frozen
from docgen.harness.losses.ways import PASSING
from docgen.harness.model.circuits import Circuit, End, OwnLeads
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import SupplyFigures
from docgen.paperwork.field.aboard import Aboard, aboard
from docgen.paperwork.field.fault_content import content as faults_of
from docgen.paperwork.field.fault_content import rest_text
from docgen.paperwork.field.power_moves import follows, heard_by_units, moving, signals
from docgen.paperwork.field.power_parts import MORE, Part, Step, amps_text, idle_a, limit_a, more_text, volts_text
from docgen.paperwork.field.power_runs import running

_Brought = dict[str, list[Circuit]]

_BARE_A = 0.2  # what bare wiring is fed with: common practice, no source
_DRIVING = ("speed controller", "engine unit")
_STOP_FED = "it is at its limit, hot, or shows nothing: off; see the fault finder's number."


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
    brought = brought_by(harness)
    supplied = [*_wired(harness, brought, numbers), _straight(harness, there, brought, numbers)]
    supplied += _units(harness, there, brought, numbers)
    parts = [*supplied, *moving(harness, there), *running(harness, there)]
    return PowerContent(there, tuple(part for part in parts if part.steps))


def _wired(harness: Harness, brought: _Brought, numbers: dict[str, int]) -> Iterator[Part]:
    """Walk what is done with nothing but wires: of supplies that plug straight in there are none."""
    packs = [entry.name for entry in harness.equipment.values() if entry.battery is not None]
    wired = {pack: [circuit for circuit in brought.get(pack, ()) if circuit.cut_leads] for pack in packs}
    before = ("ring-out passed, every box", "packs out", "all electronics unplugged")
    yield Part("Before", "", [Step(says) for says in before])
    yield Part(
        "Resistance, plus to minus of each supply",
        "At the plug for the pack; nothing with electronics is plugged in.",
        [Step(pack, "", "open", reads=True, of=(f"resistance {pack}",)) for pack in packs if wired[pack]],
        stop="not open: a short, or polarity crossed. Ring it out again.",
    )
    steps = []
    for supply in harness.results.supplies:
        for pack in supply.packs:
            steps += list(_bare(harness, pack, wired[pack], numbers))
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


def _straight(harness: Harness, there: Aboard, brought: _Brought, numbers: dict[str, int]) -> Part:
    """Return the part of packs that plug straight in: what they plug into never reads open, and draws at once.

    What drives and passes no supply on is fed here, with a limit. Common practice, no source.
    """
    steps, fed = [], False
    for circuit in (circuit for some in brought.values() for circuit in some if _is_straight(harness, circuit)):
        says = f"{poles_text(circuit, circuit.start)}, as {circuit.load_text} is marked"
        volts = rest_text(harness.results.rest[circuit.name])
        steps.append(Step(circuit.start.name, says, volts, reads=True, of=(f"circuit {circuit.name}",)))
        for entry in _driving(harness, brought, circuit):
            steps.append(_fed(entry, idle_a(entry) or 0.0, numbers))
            fed = True
    says = "Nothing is cut between. Meter the pack's own plug, unplugged, against the marking of what it goes to."
    stop = "minus shows, or the marking is another: do not plug it in."
    return Part(
        "Packs that plug straight in",
        says + f" Then feed that from a bench supply, limited as said, as its maker says; {MORE}." * fed,
        steps,
        caution=there.made_safe * fed,
        stop=stop + " At its limit, or hot: off." * fed,
    )


def _driving(harness: Harness, brought: _Brought, circuit: Circuit) -> list[Equipment]:
    """Return what drives, and passes no supply on, at the end of a circuit."""
    entries = (harness.equipment[end.name] for end in circuit.loads if end.is_port)
    return [entry for entry in entries if _only_drives(entry, brought)]


def _only_drives(entry: Equipment, brought: _Brought) -> bool:
    return entry.kind in _DRIVING and entry.name not in brought


def _is_straight(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether a pack plugs straight into what it feeds: nothing of the harness lies between."""
    start = harness.equipment.get(circuit.start.name)
    return start is not None and start.battery is not None and not circuit.cut_leads


def brought_by(harness: Harness) -> _Brought:
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
    drives = start is not None and start.kind in (*_DRIVING, "ignition")
    return drives and not passes_on(harness, circuit)


def passes_on(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether it brings supply to what passes that on."""
    ends = {end.name for end in circuit.loads} & harness.equipment.keys()
    return any(harness.equipment[name].kind in PASSING for name in ends)


def _behind(harness: Harness, start: End) -> str:
    """Return what feeds the common that a circuit begins at."""
    common = harness.disconnects[start.name].commons[next(iter(start.commons.values()))]
    return common.sources[0] if common.sources else ""


def _reading(circuit: Circuit, volts: str, numbers: dict[str, int]) -> Step:
    """Return the step that reads the volts at the end plug of a circuit; a joint where it ends is mated then."""
    said = "; ".join(f"{end.text} {poles_text(circuit, end)}".strip() for end in _end_plugs(circuit))
    said += _number(numbers, f"lead {circuit.label}")
    said += "; supply off, mate it" * any(end.kind == "half" for end in circuit.loads)
    return Step(circuit.label, said, volts, reads=True, of=(f"circuit {circuit.name}",))


def _end_plugs(circuit: Circuit) -> list[End]:
    """Return where a circuit is probed: an own lead is unplugged where it begins, its equipment is none."""
    last = [circuit.leads[number] for number in circuit.form.last]
    return [lead.ends[0] if isinstance(lead, OwnLeads) else lead.ends[1] for lead in last]


def poles_text(circuit: Circuit, end: End) -> str:
    """Name the contacts of the poles at an end."""
    contacts = ["+".join(end.contacts.get(role, ())) for role in circuit.poles]
    signs = ("+", "−") if "positive" in circuit.poles else ("", "")
    return " ".join(f"{at}{sign}" for at, sign in zip(contacts, signs, strict=False))


def _number(numbers: dict[str, int], name: str) -> str:
    return f" (fault {numbers[name]})" if name in numbers else ""


def _units(harness: Harness, there: Aboard, brought: _Brought, numbers: dict[str, int]) -> Iterator[Part]:
    """Walk the parts of supplies with what passes supply on, each plugged in; of signals; of outlets that these drive.

    What drives is plugged in where it hears its signal, what such an outlet alone feeds once that is read.
    """
    straight = (circuit for some in brought.values() for circuit in some if _is_straight(harness, circuit))
    done = {entry.name for circuit in straight for entry in _driving(harness, brought, circuit)}
    late = _fed_by_driven(harness, brought)
    steps: tuple[list[Step], list[Step], list[Step]] = ([], [], [])
    for supply in harness.results.supplies:
        hangs = {0: _hangs(harness, brought, supply)}
        for number, step in _of_supply(harness, brought, supply, numbers, done, late):
            steps[number].append(replace(step, does=hangs.pop(number, "") + step.does))
    units, drives, driven = steps
    yield Part(
        "Units and receivers, one after another",
        f"Bench supply limited as said; {MORE}. Plug in, switch on, let it settle; read the volts at each outlet's end "
        "plug, what hangs there unplugged.",
        units,
        caution=there.made_safe * _feeds_what_drives(harness, units),
        stop=_STOP_FED,
    )
    yield signals(harness, there, drives, {of for step in driven for of in step.of})
    feeds = any(of.startswith("unit ") for step in driven for of in step.of)
    yield Part(
        "Outlets of units, driven",
        "Worked from the transmitter; read the volts at the end plug, what hangs there still unplugged."
        + f" Then plug in what has a limit; {MORE}." * feeds,
        driven,
        caution=there.made_safe * _feeds_what_drives(harness, driven),
        stop=_STOP_FED if feeds else "it shows nothing: off; see the fault finder's number.",
    )


def _hangs(harness: Harness, brought: _Brought, supply: SupplyFigures) -> str:
    """Say where the bench supply hangs that stands in for packs, and its volts, if there are others beside."""
    if sum(entry.battery is not None for entry in harness.equipment.values()) < 2:
        return ""
    fed = ((pack, circuit) for pack in supply.packs for circuit in brought.get(pack, ()))
    said = (f"{volts_text(harness.results.rest[one.name].bench_v)} at the plug for {pack}, " for pack, one in fed)
    return next(said, "")


def _feeds_what_drives(harness: Harness, steps: Iterable[Step]) -> bool:
    driving = {f"unit {entry.name}" for entry in harness.equipment.values() if entry.kind in _DRIVING}
    return any(not driving.isdisjoint(step.of) for step in steps)


def _of_supply(
    harness: Harness,
    brought: _Brought,
    supply: SupplyFigures,
    numbers: dict[str, int],
    done: set[str],
    late: Collection[str],
) -> Iterator[tuple[int, Step]]:
    """Walk the steps of a supply, each with its part: 0 units, 1 what drives, 2 driven outlets and what these feed."""
    drawn_a = 0.0
    entries = [harness.equipment[stage.name] for stage in supply.stages]
    part = {one.name: 2 if one.name in late else int(_only_drives(one, brought)) for one in entries}
    for entry in sorted(entries, key=lambda one: part[one.name]):
        name, some = entry.name, brought.get(entry.name, ())
        if entry.battery is not None or name in done or not (some or entry.kind in ("receiver", *_DRIVING)):
            continue
        done.add(name)
        drawn_a += idle_a(entry) or 0.0
        yield part[name], _fed(entry, drawn_a, numbers)
        if name in late:
            yield from ((2, follows(circuit)) for circuit in heard_by_units(harness) if circuit.loads[0].name == name)
        for circuit in some:
            volts = volts_text(harness.results.rest[circuit.name].bench_v)
            yield 2 if _must_be_driven(harness, name, circuit) else part[name], _reading(circuit, volts, numbers)


def _must_be_driven(harness: Harness, source: str, circuit: Circuit) -> bool:
    """Tell whether a signal must drive the outlet that brings a circuit its supply."""
    entry = harness.equipment.get(source)
    return entry is not None and entry.kind not in PASSING and not passes_on(harness, circuit)


def _fed_by_driven(harness: Harness, brought: _Brought) -> set[str]:
    """Return what has no supply but of outlets that a signal drives."""
    feeds: dict[str, list[bool]] = {}
    for source, some in brought.items():
        for circuit in some:
            for end in circuit.loads:
                fed_by = harness.equipment[end.name].form.fed_by if end.is_port else ()
                if not fed_by or end.part in fed_by:
                    feeds.setdefault(end.name, []).append(_must_be_driven(harness, source, circuit))
    return {name for name, driven in feeds.items() if all(driven)}


def _fed(entry: Equipment, drawn_a: float, numbers: dict[str, int]) -> Step:
    """Return the step that feeds equipment with a limit, all on its supply at rest drawing so much [A]."""
    shows = entry.form.on.partition(";")[2].strip()
    says = ", ".join(filter(None, (f"limit {amps_text(limit_a(drawn_a))}", shows))) + _number(numbers, entry.name)
    return Step(entry.name, says, more_text(idle_a(entry)), reads=True, of=(f"unit {entry.name}",))
