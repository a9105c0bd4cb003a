"""Take what feeds what; return in which order all is switched on, what drives is stopped, and all is switched off."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from docgen.harness.electrical.network import Network
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.switching import Act, Stage, Switching
from docgen.harness.wiring.supply import sources_behind

ENGINES = ("engine unit", "ignition")  # that burn fuel
MOTORS = ("speed controller", "motor", *ENGINES)
_SWITCHES = ("battery", "power switch", "key")  # that some act switches, whether it is written or not


def switching_of(harness: Harness, network: Network) -> Switching:
    """Return the order of switching: on after what feeds it, first for the radio, last for what drives; off reversed.

    What feeds a receiver is for the radio, whatever it feeds beside; what is written of equipment and of the key that
    switches it is one act, and so are acts after each other that are written alike. A key that supply passes is an
    act of its own. A pack of which only `on` is written is unplugged.
    """
    behind = sources_behind(network.equipment, network.feeds)

    def feeding(*kinds: str) -> set[str]:
        return {source for name, entry in network.equipment.items() if entry.kind in kinds for source in behind[name]}

    radio, drive = feeding("receiver"), feeding(*MOTORS)
    stages = {
        name: Stage.RADIO if name in radio else Stage.DRIVE if name in drive else Stage.SERVICE
        for name in network.equipment
    }
    keys = _keys(harness, network)
    order = [harness.equipment[name] for name in _in_order(network, stages) if name not in keys.values()]
    return Switching(
        tuple(_acts(order, keys, harness, stages, drive, off=False)),
        tuple(_joined(_stop(entry) for entry in order if entry.kind in MOTORS and _is_first(harness, entry))),
        tuple(_acts(order[::-1], keys, harness, stages, drive, off=True)),
        tuple(key for key in keys.values() if harness.equipment[key].form.out == "on"),
    )


def _in_order(network: Network, stages: dict[str, Stage]) -> Iterator[str]:
    """Walk all equipment after what feeds it; of what may come, the first stage first, then as written."""
    waiting = {name: {feed.source for feed in network.into.get(name, ())} for name in network.equipment}
    written = {name: number for number, name in enumerate(network.equipment)}
    below: dict[str, list[str]] = {}
    for name, sources in waiting.items():
        for source in sources:
            below.setdefault(source, []).append(name)
    ready = [(stages[name], written[name], name) for name, sources in waiting.items() if not sources]
    heapq.heapify(ready)
    while ready:
        *_, name = heapq.heappop(ready)
        yield name
        for load in below.get(name, ()):
            waiting[load].discard(name)
            if not waiting[load]:
                heapq.heappush(ready, (stages[load], written[load], load))


def _keys(harness: Harness, network: Network) -> dict[str, str]:
    """Return for what keys switch its key, those that supply passes left out: they lie between pack and load."""
    keys = [name for name, one in harness.equipment.items() if one.kind == "key" and name not in network.out_of]
    return {switched: key for key in keys for switched in switched_by(harness, key)}


def switched_by(harness: Harness, key: str) -> set[str]:
    """Return what a key switches: the equipment at the other ends of its circuits."""
    ends = [{circuit.start.name, *(end.name for end in circuit.loads)} for circuit in harness.circuits.values()]
    return set().union(*(names for names in ends if key in names)) - {key}


def _acts(
    order: Sequence[Equipment],
    keys: dict[str, str],
    harness: Harness,
    stages: dict[str, Stage],
    drive: set[str],
    *,
    off: bool,
) -> Iterator[Act]:
    acts = []
    for entry in order:
        key = harness.equipment.get(keys.get(entry.name, ""))
        both = [entry, key] if key is not None else [entry]
        said = next((words for each in both if (words := _words(each, off=off))), "")
        if said or key is not None or entry.kind in _SWITCHES:
            names = tuple(each.name for each in both)
            acts.append(Act(names, stages[entry.name], *_parted(said), entry.name in drive))
    return _joined(acts)


def _words(entry: Equipment, *, off: bool) -> str:
    if not off:
        return entry.form.on
    return entry.form.off or ("unplug it" if entry.battery is not None and entry.form.on else "")


def _parted(words: str) -> tuple[str, str]:
    """Return the act, up to the first semicolon, and what shows it."""
    act, _, sign = words.partition(";")
    return act.strip(), sign.strip()


def _stop(entry: Equipment) -> Act:
    return Act((entry.name,), Stage.DRIVE, entry.form.stop, entry.form.stopped, True)


def _is_first(harness: Harness, entry: Equipment) -> bool:
    """Tell whether what drives is commanded itself: a motor behind a speed controller is stopped by that."""
    before = [circuit.start.name for circuit in harness.circuits.values() if _ends_at(circuit, entry.name)]
    return not any(name in harness.equipment and harness.equipment[name].kind in MOTORS for name in before)


def _ends_at(circuit: Circuit, name: str) -> bool:
    return any(end.name == name for end in circuit.loads)


def _joined(acts: Iterable[Act]) -> Iterator[Act]:
    """Join acts after each other that are written alike."""
    for _, some in groupby(acts, lambda act: (act.stage, act.how or act.names, act.shows, act.drives)):
        first, *rest = some
        yield replace(first, names=tuple(name for act in (first, *rest) for name in act.names))
