"""Take the harness; return what the fault finder shows: what is lost with what, and where that is tested."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from docgen.basics.frozen import frozen
from docgen.harness.model.circuits import Circuit, End, Lead, OwnLeads
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Loss
from docgen.harness.model.results import Rest
from docgen.paperwork.field.aboard import Aboard, aboard
from docgen.paperwork.field.ways_back import Stop, cover_of, stops_of
from docgen.paperwork.naming import contacts_text

_SWITCHING = ("power switch", "power unit", "regulator", "fuse", "key")  # that may have supply and give none
_DONE = {"power switch": ", switched on", "key": ", plugged in"}  # for it to give supply


@frozen
class Fault:
    """What may be lost: which functions are dead then and which go on, by their numbers, and where it is tested.

    `reads` is what the meter should show at the contacts named.
    """

    name: str
    dead: tuple[int, ...]
    goes_on: tuple[int, ...]
    cover: str
    contacts: str
    reads: str


@frozen
class Alone:
    """A function, and where it alone is tested."""

    label: str
    stops: tuple[Stop, ...]


@frozen
class FaultContent:
    """What the fault finder shows; faults are sorted by the cover behind which they are tested."""

    aboard: Aboard
    labels: tuple[str, ...]
    faults: tuple[Fault, ...]
    alone: tuple[Alone, ...]


def content(harness: Harness) -> FaultContent:
    """Return what the fault finder shows."""
    harness = harness.made
    functions = harness.losses.functions
    number = {function.load: index for index, function in enumerate(functions)}
    supplied = _supplied(harness)
    faults = [_fault(harness, supplied, loss, number) for loss in harness.losses.losses]
    covers = {cover: order for order, cover in enumerate(dict.fromkeys(fault.cover for fault in faults))}
    stops = stops_of(harness, (one.circuits for one in functions))
    return FaultContent(
        aboard(harness),
        tuple(function.label for function in functions),
        tuple(sorted(faults, key=lambda fault: covers[fault.cover])),
        tuple(Alone(one.label, some) for one, some in zip(functions, stops, strict=True)),
    )


def _fault(harness: Harness, supplied: Mapping[str, tuple[Circuit, End]], loss: Loss, number: dict[str, int]) -> Fault:
    name, cover, contacts, reads = _test(harness, supplied, loss)
    dead, goes_on = (tuple(number[load] for load in some) for some in (loss.stopped, loss.goes_on))
    return Fault(name, dead, goes_on, cover, contacts, reads)


def _supplied(harness: Harness) -> dict[str, tuple[Circuit, End]]:
    """Return by all that leads end at, joints too, the first circuit with both poles of a supply there, and its end."""
    found: dict[str, tuple[Circuit, End]] = {}
    for lead in harness.leads():
        circuit = harness.circuits[lead.circuit]
        for end in lead.ends if circuit.name in harness.results.rest else ():
            wired = [role for role in circuit.poles if end.contacts.get(role)]
            if len(wired) == 2:
                found.setdefault(end.name, (circuit, end))
    return found


def _test(harness: Harness, supplied: Mapping[str, tuple[Circuit, End]], loss: Loss) -> tuple[str, str, str, str]:
    """Return its name, the cover, the contacts to test there, and what the meter should read."""
    kind, name = loss.thing
    if kind == "joint":
        return _joint(harness, name, supplied.get(name))
    if kind == "common":
        joint, common = name.split()
        return _common(harness, joint, common)
    if kind == "lead":
        circuit = harness.circuits[name.split()[0]]
        branch = next((lead for lead in circuit.leads if lead.name == name), None)
        said = f"lead {circuit.label} {branch.ends[1].text}" if branch is not None else f"lead {circuit.label}"
        return (said, *_lead(harness, circuit, branch or circuit.leads[circuit.form.last[0]]))
    if kind == "splice":
        circuit = harness.circuits[name]
        end = (
            circuit.cut_leads[0].ends[1] if len(circuit.cut_leads) == 1 else circuit.leads[circuit.form.last[0]].ends[0]
        )
        return f"splice {circuit.label}", cover_of(harness, end), "stem to each branch", "rings"
    return (name, *_equipment(harness, name))


def _equipment(harness: Harness, name: str) -> tuple[str, str, str]:
    """Return where equipment is tested: at its pack plug, behind what switches or may blow, else at what feeds it."""
    entry = harness.equipment[name]
    cover = harness.places[entry.place].access or entry.place
    if entry.battery is not None:
        return cover, "its plug, + to −", rest_text(Rest(entry.battery.empty_v, 0.0, entry.battery.full_v))
    if entry.kind in _SWITCHING and (outlet := _outlet(harness, name)) is not None:
        on = _DONE.get(entry.kind, ", switched on" * bool(entry.form.on))
        return (
            cover,
            f"outlet {outlet.start.part}: {_poles(outlet.start, outlet)}{on}",
            rest_text(harness.results.rest[outlet.name]),
        )
    feeds = [
        port.circuit
        for port in entry.ports
        if port.circuit is not None and _ends_at(port.circuit, name) and port.circuit.poles
    ]
    rests = [harness.results.rest[circuit.name] for circuit in feeds if circuit.name in harness.results.rest]
    if not rests:
        return cover, "its plug", "seated"
    return cover, "its supply plug, + to −", rest_text(max(rests, key=lambda rest: rest.full_v))


def _outlet(harness: Harness, name: str) -> Circuit | None:
    """Return the first circuit that begins at equipment and brings supply over two poles."""
    begun = (port.circuit for port in harness.equipment[name].ports if port.circuit is not None)
    supplied = (one for one in begun if one.name in harness.results.rest and len(one.poles) == 2)
    return next((one for one in supplied if one.start.is_port and one.start.name == name), None)


def _ends_at(circuit: Circuit, name: str) -> bool:
    return any(end.name == name for end in circuit.loads)


def _lead(harness: Harness, circuit: Circuit, last: Lead) -> tuple[str, str, str]:
    """Return where a lead is tested: at its far plug, with supply by its volts, else by ringing it out.

    An own lead has no plug at its equipment: without supply it can only be looked at.
    """
    is_own = isinstance(last, OwnLeads)
    end, start = last.ends[0 if is_own and 0 in last.plugs_at else 1], circuit.start
    rest = harness.results.rest.get(circuit.name)
    cover = cover_of(harness, end)
    if rest is not None and len(circuit.poles) == 2:
        return cover, f"{end.text} {_poles(end, circuit)}", rest_text(rest)
    if is_own:
        return cover, f"{end.text}, its plug", "seated"
    role = next((wire.role for wire in last.wires if wire.role != "negative"), "negative")
    return cover, f"{end.text} contact {_at(end, role)} to {start.text} contact {_at(start, role)}", "rings"


def _poles(end: End, circuit: Circuit) -> str:
    """Name the contacts of both poles."""
    plus, minus = (_at(end, role) for role in circuit.poles)
    return f"{plus} (+) to {minus} (−)"


def _at(end: End, role: str) -> str:
    return "+".join(end.contacts.get(role, ("?",)))


def _joint(harness: Harness, name: str, supplied: tuple[Circuit, End] | None) -> tuple[str, str, str, str]:
    """Return where a joint is tested: its first supply by its volts, all else by ringing it out."""
    joint = harness.disconnects[name]
    cover = harness.places[joint.halves[0].place].access or joint.halves[0].place
    if supplied is None:
        return name, cover, "pins straight, each wire tugged", "rings"
    circuit, end = supplied
    rest = harness.results.rest[circuit.name]
    return name, cover, f"pins straight; {circuit.label} {_poles(end, circuit)}", rest_text(rest)


def _common(harness: Harness, joint: str, common: str) -> tuple[str, str, str, str]:
    """Return where a common is tested: against the other pole of what feeds it."""
    shared = harness.disconnects[joint].commons[common]
    half = harness.disconnects[joint].halves[0]
    cover = harness.places[half.place].access or half.place
    heavy = harness.circuits[shared.feeders[0]] if shared.feeders else None
    rest = harness.results.rest.get(heavy.name) if heavy is not None else None
    contacts = contacts_text(shared.contacts)
    name = f"{joint} {contacts} ({shared.role})"
    if heavy is None or rest is None or len(heavy.poles) != 2:
        return name, cover, contacts, "rings"
    return name, cover, _poles(heavy.leads[-1].ends[1], heavy), rest_text(rest)


def rest_text(rest: Rest) -> str:
    """Say what a meter shows, from packs nearly empty to full."""
    low, high = f"{rest.empty_v:.1f}", f"{rest.full_v:.1f}"
    return f"{high} V" if low == high else f"{low} to {high} V"


def faults_at(items: FaultContent) -> Iterator[tuple[str, list[tuple[int, Fault]]]]:
    """Walk covers with their faults, by number from 1."""
    found: dict[str, list[tuple[int, Fault]]] = {}
    for number, fault in enumerate(items.faults, 1):
        found.setdefault(fault.cover, []).append((number, fault))
    yield from found.items()
