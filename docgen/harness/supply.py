"""Follow every supply back to its battery."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from docgen.basics.findings import Finding, listed, shown
from docgen.definition.model import Definition

POSITIVE = "positive"


@dataclass(frozen=True)
class Feed:
    """A circuit that carries supply from one piece of equipment to a port of another."""

    circuit: str
    source: str
    load: str
    load_port: str


def check_supplies(definition: Definition, feeds: Sequence[Feed]) -> list[Finding]:
    """Return a finding for each supply that feeds itself, and each circuit with no battery behind it."""
    feeding: dict[str, list[Feed]] = {}
    for feed in feeds:
        narrowed = definition.equipment[feed.load].fed_by
        if not narrowed or feed.load_port in narrowed:
            feeding.setdefault(feed.load, []).append(feed)
    unfed = [
        _unfed(definition, feed)
        for feed in feeds
        if definition.equipment[feed.source].kind != "battery" and feed.source not in feeding
    ]
    findings = []
    while circle := _circle(feeding):
        findings.append(_fed_by_itself(definition, circle))
        feeding[circle[0].load].remove(circle[0])
    return findings + unfed


def _fed_by_itself(definition: Definition, circle: list[Feed]) -> Finding:
    position = definition.where.value("circuits", circle[0].circuit, "from")
    loop = " → ".join(feed.source for feed in circle)
    sentence = f"a supply feeds itself: {loop} → {circle[0].source}."
    do = "Leave the positive out of one of its leads (`omit: [positive]`), or say `fed_by:`."
    return Finding(position, "circle", sentence, do, ("circuits", circle[0].circuit))


def check_shared_positives(definition: Definition, feeds: Sequence[Feed]) -> list[Finding]:
    """Return an error for each common positive whose circuits hang on different batteries."""
    sources: dict[str, set[str]] = {}
    for feed in feeds:
        sources.setdefault(feed.load, set()).add(feed.source)
    source_of = {feed.circuit: feed.source for feed in feeds}
    findings = []
    for name, disconnect in definition.disconnects.items():
        for common_name, common in disconnect.commons.items():
            if common.role != POSITIVE:
                continue
            members = [circuit for circuit in common.circuits if circuit in source_of]
            behind = {frozenset(_batteries(definition, source_of[circuit], sources)) for circuit in members}
            if len(behind) > 1:
                position = definition.where.value("disconnects", name, "commons", common_name, "circuits")
                every = listed(sorted(set().union(*behind)))
                sentence = f"circuits of several supplies ({every}) share the positive {shown(common_name)}."
                do = "Give each supply a common of its own."
                findings.append(Finding(position, "supplies", sentence, do, ("disconnects", name)))
    return findings


def _batteries(definition: Definition, start: str, sources: dict[str, set[str]]) -> set[str]:
    """Return the batteries behind a piece of equipment."""
    found, left, seen = set[str](), [start], {start}
    while left:
        name = left.pop()
        if definition.equipment[name].kind == "battery":
            found.add(name)
        for source in sources.get(name, ()):
            if source not in seen:
                seen.add(source)
                left.append(source)
    return found


def _unfed(definition: Definition, feed: Feed) -> Finding:
    position = definition.where.value("circuits", feed.circuit, "from")
    sentence = f"nothing feeds {shown(feed.source)}, so this circuit has no battery behind it."
    do = f"Add a circuit from a battery to {shown(feed.source)}, or begin this one where there is supply."
    return Finding(position, "unfed", sentence, do, ("circuits", feed.circuit))


def _circle(feeding: dict[str, list[Feed]]) -> list[Feed]:
    """Return the feeds of a circle in the order in which the current goes, or none; without recursion."""
    done: set[str] = set()
    for start in feeding:
        path: list[Feed] = []
        stack: list[tuple[str, int]] = [(start, 0)] if start not in done else []
        while stack:
            node, index = stack[-1]
            above = feeding.get(node, [])
            if index == len(above):
                done.add(node)
                stack.pop()
                if path:
                    path.pop()
                continue
            stack[-1] = node, index + 1
            feed = above[index]
            on_way = [entry for entry, _ in stack]
            if feed.source in on_way:
                return [*path[on_way.index(feed.source) :], feed][::-1]
            if feed.source not in done:
                path.append(feed)
                stack.append((feed.source, 0))
    return []
