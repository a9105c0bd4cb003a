"""Packs that can give more than a thin wire behind them bears."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.basics.findings import PRACTICE, Finding, listed, shown
from docgen.basics.units import added, decimal, millimetres
from docgen.harness.checks.facts import CLOSE, Facts, note
from docgen.harness.electrical.loadings import wires_bearing
from docgen.harness.electrical.network import Network
from docgen.harness.model.circuits import CutLead
from docgen.harness.wiring.feeds import Feed

KIND = note(
    name="fuse",
    stands_on="equipment",
    meaning="A pack can give more than the wire of a light, smoke, pump or the like bears.",
    when="The `rating:` of a pack, of each fuse and of each regulated `output:` on the way are over what a wire of a "
    "circuit to a light, light controller, smoke, pump or other load may carry, or of one up to such a load's fuse, "
    "however short. One line a pack; never said of receivers, units and servos, which a fuse would take with it.",
    why="A wire that is chafed through carries all that the pack can give, and burns along its whole length.",
    remedy="Put a fuse near the pack, of no more than the wire bears: `kind: fuse` with one port in, one out and "
    "`rating: 5 A`. Accept it where the switch cuts off by itself, or the way up to the fuse is as short as it can be.",
    source=PRACTICE,
)

_FUSED = ("light controller", "light", "smoke", "pump", "other")


def find(facts: Facts) -> Iterator[Finding]:
    """Find each pack with circuits of which a wire bears less than reaches it; a load beyond is judged by itself."""
    for pack, entry in facts.harness.equipment.items():
        rating_a = entry.battery.rating_a if entry.battery is not None else None
        if rating_a is None:
            continue
        reaching = _reaching(facts.electricity.network, pack, rating_a)
        weak = {
            feed.circuit: _said(facts, feed, bears_a)
            for feed, amps in reaching.items()
            if _is_fused(facts, feed.load) and amps > (bears_a := _weakest_a(facts, feed.circuit)) * (1 + CLOSE)
        }
        if weak:
            circuits = listed(f"{shown(name)} ({said})" for name, said in weak.items())
            sentence = (
                f"{shown(pack)} can give {decimal(rating_a)} A, and no fuse lies between that saves the wires of "
                f"{circuits}."
            )
            do = "Put a fuse of no more than they bear near the pack, or accept it with what cuts off instead."
            yield KIND.at(facts.where.key("equipment", pack), sentence, do, ("equipment", pack))


def _is_fused(facts: Facts, load: str) -> bool:
    """Tell whether a load wants a fuse, or is one for a load that does."""
    if (kind := facts.harness.equipment[load].kind) == "fuse":
        return any(_is_fused(facts, feed.load) for feed in facts.electricity.network.out_of.get(load, ()))
    return kind in _FUSED


def _said(facts: Facts, feed: Feed, bears_a: float) -> str:
    """Say what a circuit bears, and how long it is up to its fuse, if there is one and that is known."""
    circuit = facts.harness.circuits[feed.circuit]
    if {facts.harness.equipment[end.name].kind if end.is_port else "" for end in circuit.loads} != {"fuse"}:
        return f"{decimal(bears_a, 3)} A"
    leads = [lead for lead in circuit.leads if isinstance(lead, CutLead)]
    owns = [end.own.length_mm for lead in leads for end in lead.ends if end.own is not None]
    length_mm = added([*(lead.length_mm for lead in circuit.leads), *owns]) if len(circuit.loads) == 1 else None
    long = f"{millimetres(length_mm)} mm " if length_mm is not None else ""
    return f"{decimal(bears_a, 3)} A, {long}up to its fuse"


def _reaching(network: Network, pack: str, rating_a: float) -> dict[Feed, float]:
    """Return what a pack can send over each feed behind it [A]; behind a fuse of unsaid rating nothing is known."""
    over: dict[Feed, float] = {}
    for name in network.rank:
        entry = network.equipment[name]
        arriving = [over[feed] for feed in network.into.get(name, ()) if feed in over]
        limits = [rating_a if name == pack else max(arriving, default=None)]
        limits += [entry.form.rating_a] if entry.kind == "fuse" else []
        for feed in network.out_of.get(name, ()) if None not in limits else ():
            output = network.outputs.get(network.outlet(feed))
            regulated = output.rating_a if output is not None else None
            over[feed] = min(amps for amps in (*limits, regulated) if amps is not None)
    return over


def _weakest_a(facts: Facts, name: str) -> float:
    """Return the least that a wire of a circuit, or of the own leads at its ends, may carry [A]."""
    circuit = facts.harness.circuits[name]
    return min((amps for amps, _ in wires_bearing(facts.harness, circuit, circuit.poles)), default=math.inf)
