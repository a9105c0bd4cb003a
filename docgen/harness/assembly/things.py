"""Take a harness and an opening; return what goes through it one after the other, finished or not.

The leads that end in one half go through together. Contacts that are soldered sit in their housing and do not go
through without it. Sleeves are on by then, so what one of them binds to leads that go through comes along, with both
its ends, and with what is spliced or sleeved to it in turn. An own lead hangs on its equipment and goes with its plug
first, an antenna's with its tip.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.harness.assembly.splices import tail_splices
from docgen.harness.bundling.bundles import Laid, laid, lead_circles_mm
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.bundling.openings import Size, circle_mm
from docgen.harness.bundling.sleeves import BRAID_MM
from docgen.harness.model.airframe import Route
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import Circuit, CutLead, End
from docgen.harness.model.harness import Harness

Key = tuple[str, ...]
"""What an end is known by: a port, a half, a splice, or what came along."""

# A contact without its housing is thicker than the largest insulation that it takes: common practice, no source.
_CONTACT_MORE_MM = 1.0


@frozen
class Thing:
    """What goes through an opening in one go: leads that end in one plug, half or splice, or one that came along.

    `size_mm` is what it is finished, end on (nothing where it is a splice, made when it is through); `contact_mm` the
    thickest that goes through one by one without the housing, nothing where that can't be; `wires_mm` are its wires.
    One that is not `made` came along: it goes through as it is. Where others are finished may be `reached` by a hand.
    One that is `bound` has no lead that stays in the opening; it comes after all that do, tied to them by a sleeve.
    One that is not `whole` is a half that other leads come to another way: it is filled when all are there.
    """

    key: Key
    name: str
    leads: tuple[str, ...]
    circles_mm: tuple[float, ...]
    wires_mm: tuple[float, ...]
    size_mm: Size | None
    contact_mm: float | None
    reached: bool
    made: bool = True
    bound: bool = False
    whole: bool = True

    @property
    def through_mm(self) -> float:
        """Return how thick it is when it goes through finished [mm]."""
        return circle_mm(self.size_mm) if self.size_mm is not None else outside_diameter_mm(self.circles_mm)


@frozen
class Came:
    """What came along: it goes through openings with the `first` of its route's ends, what it hangs on is at the other.

    One that is `tied` lies in a sleeve with others, and goes as they do; others go through alone.
    """

    thing: Thing
    route: Route
    first: int
    tied: bool

    def goal(self, run: int) -> str:
        """Return the place that it goes to through the opening of a run."""
        return self.route.places[self.route.runs.index(run) + self.first]


def end_key(lead: CutLead, index: int) -> Key:
    """Return what an end of a lead is known by; a lead that divides has one splice."""
    end = lead.ends[index]
    return ("splice", lead.circuit) if end.is_splice else (end.kind, end.name, end.part)


def far_end(route: Route, run: int, goal: str) -> int:
    """Return which end of a lead goes through a run's opening to a place."""
    return int(route.places[route.runs.index(run) + 1] == goal)


def _beyond(route: Route, run: int, goal: str) -> tuple[int, ...]:
    """Return the runs of a route from a run on to where a place lies at its end."""
    at = route.runs.index(run)
    return route.runs[at + 1 :] if far_end(route, run, goal) else route.runs[:at]


class Things:
    """What goes through the openings of the runs that have one."""

    def __init__(self, harness: Harness, openings: Iterable[int]) -> None:
        self._harness = harness
        self._openings = frozenset(openings)

    def through(self, run: int, goal: str) -> Iterator[Thing]:
        """Walk what goes through the opening of a run to a place, in the order written, then what came tied to it."""
        groups: dict[Key, list[tuple[CutLead, End]]] = {}
        for lead in self._cut[run]:
            index = far_end(lead.route, run, goal)
            groups.setdefault(end_key(lead, index), []).append((lead, lead.ends[index]))
        staying = set(groups)
        for lead in self.bound(run, goal)[1]:
            for index in lead.plugs_at:
                groups.setdefault(end_key(lead, index), []).append((lead, lead.ends[index]))
        for key, ends in groups.items():
            yield self._made(key, [lead for lead, _ in ends], ends[0][1], bound=key not in staying)
        yield from (each.thing for each in self.came if each.tied and run in each.route.runs)

    def lying_mm(self, run: int, *, alone: bool) -> list[float]:
        """Return the circles of what lies in the opening of a run and goes through alone, or of all else [mm]."""
        leads = [] if alone else [circle for lead in self._cut[run] for circle in lead_circles_mm(lead)]
        came = (each.thing for each in self.came if each.tied != alone and run in each.route.runs)
        return [*leads, *(circle for thing in came for circle in thing.circles_mm)]

    def sleeved_mm(self, run: int, goal: str) -> float:
        """Return how thick it is at most when sleeves go through to a place, beside leads that are not in them [mm]."""
        found = 0.0
        for sleeve in self.bound(run, goal)[0]:
            inside = self._harness.bundles[sleeve.runs[0]].leads
            beside = [mm for lead in self._cut[run] if lead.name not in inside for mm in lead_circles_mm(lead)]
            found = max(found, outside_diameter_mm([sleeve.diameter_mm + BRAID_MM, *beside]))
        return found

    def bound(self, run: int, goal: str) -> tuple[list[Sleeve], list[CutLead]]:
        """Return the sleeves that go through to a place, and what comes along in them but stays in no opening there."""
        through = {lead.name for lead in self._cut[run]}
        routes = [lead.route for lead in self._cut[run]]
        routes += [each.route for each in self.came if each.tied and run in each.route.runs]
        runs = [beyond for route in routes for beyond in _beyond(route, run, goal)]
        sleeves: dict[int, Sleeve] = {}
        along: set[str] = set()
        while runs:
            sleeve = self._harness.bundles[runs.pop()].sleeve
            if sleeve is not None and sleeve.runs[0] not in sleeves:
                sleeves[sleeve.runs[0]] = sleeve
                inside = self._harness.bundles[sleeve.runs[0]].leads
                tied = {name for lead in inside for name in self._tied(lead, through)}
                runs += [beyond for name in tied - through - along for beyond in self._leads[name].route.runs]
                along |= tied - through
        return list(sleeves.values()), [lead for name, lead in self._leads.items() if name in along]

    def openings_bound_to(self, run: int) -> frozenset[int]:
        """Return the openings of what may come along through that of a run, to either place."""
        between = self._harness.runs[run].between
        along = [lead for goal in between for lead in self.bound(run, goal)[1]]
        return self._openings & {beyond for lead in along for beyond in lead.route.runs}

    def _tied(self, name: str, through: Collection[str]) -> set[str]:
        """Return the cut leads that a cut lead is spliced to, itself too; a splice that goes through is made later."""
        lead = self._leads.get(name)
        if lead is None:
            return set()
        ends = {
            each.name: [end.is_splice for end in each.ends] for each in self._harness.circuits[lead.circuit].cut_leads
        }
        joined = {each for each, splices in ends.items() if any(splices)} if any(ends[name]) else {name}
        return joined if joined.isdisjoint(through) else {name}

    def _made(self, key: Key, leads: Sequence[CutLead], end: End, *, bound: bool) -> Thing:
        """Return leads that end in one plug, half or splice."""
        wires = sorted((wire.kind.diameter_mm for lead in leads for wire in lead.wires), reverse=True)
        contact, contact_mm = end.connector.contact, None
        if not end.is_splice and contact.join != "solder":
            contact_mm = max((contact.over_mm or wires[0]) + _CONTACT_MORE_MM, self._splice_mm.get(key, 0.0))
        return Thing(
            key=key,
            name=f"splice of {leads[0].circuit} at {end.place}" if end.is_splice else end.text,
            leads=tuple(lead.name for lead in leads),
            circles_mm=tuple(circle for lead in leads for circle in lead_circles_mm(lead)),
            wires_mm=tuple(wires),
            size_mm=None if end.is_splice else end.connector.outline_mm,
            contact_mm=contact_mm,
            reached=bool(self._harness.places[end.place].access),
            bound=bound,
            whole=end.kind != "half" or self._ending[key].issubset(lead.name for lead in leads),
        )

    @cached_property
    def _leads(self) -> dict[str, CutLead]:
        return {lead.name: lead for lead in self._harness.cut_leads()}

    @cached_property
    def _ending(self) -> dict[Key, set[str]]:
        """Return the leads that end in each plug, half or splice."""
        found: dict[Key, set[str]] = {}
        for lead in self._leads.values():
            for index in (0, 1):
                found.setdefault(end_key(lead, index), set()).add(lead.name)
        return found

    @cached_property
    def _cut(self) -> dict[int, list[CutLead]]:
        """Return the leads that are cut by the openings on their routes."""
        found: dict[int, list[CutLead]] = {run: [] for run in self._openings}
        for lead in self._harness.cut_leads():
            for run in self._openings.intersection(lead.route.runs):
                found[run].append(lead)
        return found

    @cached_property
    def _splice_mm(self) -> dict[Key, float]:
        """Return how thick the splices behind each half are, in their tubes: they go through with its tails [mm]."""
        thickest: dict[Key, float] = {}
        for splice in tail_splices(self._harness):
            key = "half", splice.disconnect.name, splice.half.name
            thick = max(outside_diameter_mm([kind.diameter_mm for kind in side]) for side in splice.sides)
            thick += 2 * splice.tube.wall_mm if splice.tube is not None else 0.0
            thickest[key] = max(thick, thickest.get(key, 0.0))
        return thickest

    def _brings(self, circuit: Circuit) -> bool:
        """Tell whether something that came along with a circuit's equipment lies in an opening."""
        uncut = [lead.route for lead in circuit.leads if not isinstance(lead, CutLead)]
        owns = [end.own.route for lead in circuit.leads for end in lead.ends if end.own is not None]
        return any(not self._openings.isdisjoint(route.runs) for route in (*uncut, *owns))

    @cached_property
    def came(self) -> tuple[Came, ...]:
        """Return the own leads, with their plug, and coaxes that lie in openings, as they are."""
        leads = {lead.name: lead for lead in self._harness.leads()}
        circuits = (circuit for circuit in self._harness.circuits.values() if self._brings(circuit))
        found = []
        for item in laid(circuits, self._harness.equipment):
            lead, name, size, first = leads.get(item.name), item.name, item.plug_mm, 1
            if isinstance(lead, CutLead) or self._openings.isdisjoint(item.runs):
                continue
            if lead is not None:
                name, first = lead.label, [1, *lead.plugs_at][-1]
                size = lead.ends[first].connector.outline_mm if lead.plugs_at else ()
            size = size or (outside_diameter_mm(item.circles_mm),)
            key, its = ("own", item.name), (item.name,)
            thing = Thing(key, name, its, item.circles_mm, (), size, None, reached=True, made=False)
            found.append(Came(thing, item.route, first, self._is_tied(item)))
        return tuple(found)

    def _is_tied(self, item: Laid) -> bool:
        """Tell whether a sleeve binds something to others."""
        bundles = (self._harness.bundles[run] for run in item.runs)
        return any(bundle.sleeve is not None and len(bundle.leads) > 1 for bundle in bundles)
