"""Take a harness; return what stops when one thing of it is lost, and what goes on by another feed or signal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from docgen.harness.losses.ways import Node, State, Way, Ways
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Function, Loss, Losses, Thing


def losses_of(harness: Harness) -> Losses:
    """Return what hangs on each thing: equipment, joints, commons, splices and leads, in that order."""
    ways = Ways(harness)
    loads = [entry for entry in harness.equipment.values() if ways.is_function(entry)]
    functions = {entry.name: Function(entry.name, "", ways.circuits_into(entry.name)) for entry in loads}
    states = {ways.runs(entry.name): entry.name for entry in loads}
    receivers = {ways.fed(entry.name): entry.name for entry in harness.equipment.values() if entry.kind == "receiver"}
    needs = _asked(ways.of)
    users: dict[Node, list[State]] = defaultdict(list)
    for state, some in needs.items():
        for node in {node for way in some for node in way}:
            users[node].append(state)
    order = {state: number for number, state in enumerate((*states, *receivers))}
    found = []
    for thing in _things(harness, [node for node in users if isinstance(node, Thing)]):
        touched = _above(thing, users)
        dead = _dead(thing, touched, needs)
        hanging = sorted(order.keys() & touched, key=order.__getitem__)
        loss = Loss(
            thing,
            tuple(states[state] for state in hanging if state in dead and state in states),
            tuple(states[state] for state in hanging if state not in dead and state in states),
            tuple(receivers[state] for state in hanging if state in dead and state in receivers),
        )
        if not _is_its_own(loss, functions):
            found.append(loss)
    return Losses(tuple(_labelled(harness, functions.values())), tuple(found))


def _asked(ways: Mapping[State, tuple[Way, ...]]) -> dict[State, tuple[Way, ...]]:
    """Return ways as they can be gone with nothing lost.

    A signal that never arrives, as there is no receiver behind it, is asked of nothing.
    """
    never = _dead(None, ways, ways)
    silent = {state for state in ways if state in never and state.what in ("comes", "speaks", "hears")}
    heard = {
        state: tuple(tuple(node for node in way if state.what != "runs" or node not in silent) for way in some)
        for state, some in ways.items()
    }
    dead = _dead(None, heard, heard)
    return {
        state: tuple(way for way in some if dead.isdisjoint(way)) for state, some in heard.items() if state not in dead
    }


def _dead(lost: Thing | None, touched: Iterable[State], ways: Mapping[State, tuple[Way, ...]]) -> set[Node]:
    """Return which of the states that a loss touches no way keeps alive."""
    dead: set[Node] = {*touched, *([lost] if lost else [])}
    while revived := {state for state in dead if isinstance(state, State) and any(map(dead.isdisjoint, ways[state]))}:
        dead -= revived
    return dead


def _above(thing: Thing, users: Mapping[Node, list[State]]) -> dict[State, None]:
    """Return all states on whose ways a thing lies."""
    found: dict[State, None] = {}
    left: list[Node] = [thing]
    while left:
        new = [state for state in users.get(left.pop(), ()) if state not in found]
        found.update(dict.fromkeys(new))
        left += new
    return found


def _things(harness: Harness, used: Iterable[Thing]) -> list[Thing]:
    """Return what something hangs on, in the order written: equipment first, then where the harness may part."""
    joints, circuits = harness.disconnects, harness.circuits
    parting: dict[str, Mapping[str, object]] = {"joint": joints, "common": joints, "splice": circuits, "lead": circuits}
    places = {kind: place for place, kind in enumerate(parting, 1)}
    written = {kind: {name: number for number, name in enumerate(entries)} for kind, entries in parting.items()}
    equipment = {name: number for number, name in enumerate(harness.equipment)}

    def order(thing: Thing) -> tuple[int, int, str]:
        first, *rest = thing.name.split()  # of a name that is refused for its blanks too
        branch = "".join(rest) if thing.kind == "lead" else ""
        return places.get(thing.kind, 0), written.get(thing.kind, equipment).get(first, 0), branch

    return sorted(used, key=order)


def _is_its_own(loss: Loss, functions: Mapping[str, Function]) -> bool:
    """Tell whether it is a function itself that is lost, or its only lead, or nothing that anything hangs on."""
    touched = {*loss.stopped, *loss.goes_on}
    if len(touched) != 1:
        return not touched
    if loss.thing.kind != "lead":
        return loss.thing.name in touched
    return functions[touched.pop()].circuits == (loss.thing.name.split()[0],)


def _labelled(harness: Harness, functions: Iterable[Function]) -> Iterable[Function]:
    """Give functions their labels: of what the radio moves, else of what brings a signal, else the first one's."""
    for function in functions:
        circuits = [harness.circuits[name] for name in function.circuits]
        best = min(circuits, key=lambda circuit: (circuit.form.channel is None, bool(circuit.poles)))
        several = len(best.loads) > 1
        label = f"{best.label} {function.load}" if several else best.label
        yield Function(function.load, label, function.circuits)
