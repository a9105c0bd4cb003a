"""Take what feeds what and return which sources are behind what, and what is wrong with supplies and commons."""

from __future__ import annotations

import graphlib
import itertools
from collections.abc import Iterable, Iterator, Mapping, Sequence

from docgen.basics.findings import Finding, listed, shown
from docgen.definition.harness import Common
from docgen.definition.model import Definition
from docgen.harness.routing.segments import HalfStop
from docgen.harness.wiring.feeds import Feed, FeedFinder
from docgen.harness.wiring.marks import NEGATIVE
from docgen.harness.wiring.plans import POSITIVE


def narrowed(definition: Definition, feeds: Sequence[Feed]) -> list[Feed]:
    """Return the feeds that count: those to a port that `fed_by` names, where it does."""
    fed_by = {name: entry.fed_by for name, entry in definition.equipment.items()}
    return [feed for feed in feeds if not fed_by[feed.load] or feed.load_port in fed_by[feed.load]]


def check_supplies(definition: Definition, feeds: Sequence[Feed]) -> list[Finding]:
    """Return a finding for each supply that feeds itself, and each circuit with no battery behind it."""
    feeding: dict[str, list[Feed]] = {}
    for feed in narrowed(definition, feeds):
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
    loop = " → ".join(feed.source for feed in circle)
    sentence = f"a supply feeds itself: {loop} → {circle[0].source}."
    do = "Leave the positive out of one of its leads (`omit: [positive]`), or say `fed_by:`."
    return definition.wrong("circle", ("circuits", circle[0].circuit, "from"), sentence, do)


def check_commons(definition: Definition, finder: FeedFinder, feeds: Sequence[Feed]) -> list[Finding]:
    """Return an error for each common that feeds itself, that nothing feeds, or whose positive several share."""
    whole = len(finder.plans) == len(definition.circuits) and not definition.broken
    findings = _badly_fed(definition, finder) if whole else []
    findings += [*_on_the_near_side(definition, finder), *_members_without(definition, finder)]
    packs = [name for name, entry in definition.equipment.items() if entry.kind == "battery"]
    behind = sources_behind(packs, narrowed(definition, feeds))
    for name, entry in definition.disconnects.items():
        for common_name, form in entry.commons.items():
            if form.role == NEGATIVE or not _carries_out(finder, name, common_name, form):
                continue
            sharing = {behind.get(source, ()) for _, source in finder.sources(name, common_name)}
            if len(sharing) > 1:
                path = "disconnects", name, "commons", common_name, "circuits"
                every = listed([pack for pack in packs if any(pack in some for some in sharing)])
                sentence = f"circuits of several supplies ({every}) share the positive {shown(common_name)}."
                findings.append(definition.wrong("supplies", path, sentence, "Give each supply a common of its own."))
    return findings


def _badly_fed(definition: Definition, finder: FeedFinder) -> list[Finding]:
    findings = []
    for name, (disconnect, common) in finder.circling.items():
        sentence = f"the common {shown(common)} of {shown(disconnect)} feeds itself."
        do = "End a heavy pair there (`to:`) that begins at equipment."
        findings.append(definition.wrong("circle", ("circuits", name, "from"), sentence, do))
    for name, (disconnect, common) in finder.unfed.items():
        sentence = f"nothing feeds the common {shown(common)} of {shown(disconnect)}, so it has no battery behind it."
        do = f"End a heavy pair there: `to: {disconnect} {common}`."
        findings.append(definition.wrong("unfed", ("circuits", name, "from"), sentence, do))
    return findings


def _carries_out(finder: FeedFinder, disconnect: str, name: str, form: Common) -> bool:
    """Tell whether a common carries current out to loads: its role is the first pole of what it shares."""
    sharing = [*form.circuits, *(plan.name for plan, _ in finder.feeders(disconnect, name))]
    plans = [finder.plans[circuit] for circuit in sharing if circuit in finder.plans]
    return form.role == POSITIVE or any(plan.poles[:1] == (form.role,) for plan in plans)


def _on_the_near_side(definition: Definition, finder: FeedFinder) -> Iterator[Finding]:
    """Find circuits that begin at commons on the side that their supply comes to."""
    for plan in finder.plans.values():
        start = plan.segments[0].start
        if not isinstance(start, HalfStop):
            continue
        for common in start.commons:
            arriving = [other.segments[at].goal for other, at in finder.feeders(start.disconnect, common)]
            if any(isinstance(goal, HalfStop) and goal.half == start.half for goal in arriving):
                sentence = f"it begins at {shown(start.disconnect)} on the side that the supply comes to."
                do = "A circuit begins at commons on their far side; here let it begin where the supply does."
                yield definition.wrong("through", ("circuits", plan.name, "from"), sentence, do)
                break


def _members_without(definition: Definition, finder: FeedFinder) -> Iterator[Finding]:
    """Find members of commons that have the role on neither side; a role that no lead has is said elsewhere."""
    known = {role for lead in definition.parts.leads.values() for role in lead.wires}
    for name, entry in definition.disconnects.items():
        for common_name, form in entry.commons.items():
            for member in form.circuits if form.role in known else ():
                plan = finder.plans.get(member)
                if plan is not None and not any(form.role in roles for roles in plan.roles):
                    position = definition.where.item(member, "disconnects", name, "commons", common_name, "circuits")
                    sentence = f"{shown(member)} has no {shown(form.role)} to share."
                    yield Finding(position, "role", sentence, "Leave it out of the common.", ("disconnects", name))


def sources_behind(sources: Iterable[str], feeds: Iterable[Feed]) -> dict[str, tuple[str, ...]]:
    """Return for all that sources feed which of them are behind it, in the order given; each is behind itself."""
    below: dict[str, list[str]] = {}
    for feed in feeds:
        below.setdefault(feed.source, []).append(feed.load)
    behind: dict[str, tuple[str, ...]] = {}
    for source in sources:
        reached, left = {source}, [source]
        while left:
            name = left.pop()
            behind[name] = (*behind.get(name, ()), source)
            for load in below.get(name, ()):
                if load not in reached:
                    reached.add(load)
                    left.append(load)
    return behind


def _unfed(definition: Definition, feed: Feed) -> Finding:
    sentence = f"nothing feeds {shown(feed.source)}, so this circuit has no battery behind it."
    do = f"Add a circuit from a battery to {shown(feed.source)}, or begin this one where there is supply."
    return definition.wrong("unfed", ("circuits", feed.circuit, "from"), sentence, do)


def _circle(feeding: Mapping[str, Sequence[Feed]]) -> list[Feed]:
    """Return the feeds of a circle in the order in which the current goes, or none."""
    try:
        graphlib.TopologicalSorter({load: [feed.source for feed in feeds] for load, feeds in feeding.items()}).prepare()
    except graphlib.CycleError as error:
        steps = itertools.pairwise(error.args[1])
        return [next(feed for feed in feeding[load] if feed.source == source) for source, load in steps]
    return []
