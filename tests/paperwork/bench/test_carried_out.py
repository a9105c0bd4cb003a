"""The order of work, read from the printed sheet and carried out on a bench that knows only what is on each lead."""

from __future__ import annotations

import json
import math
import random
import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field
from pathlib import Path

import jet
import networkx
import pytest
from measured import read
from printed_steps import Cell, Line, Sheet, Step, printed_sheet, ring, sheets_on
from resolved import EXAMPLES, harness_of

import docgen
from docgen.harness.bundling.bundles import lead_circles_mm
from docgen.harness.bundling.diameters import outside_diameter_mm
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, End, Lead, Wire
from docgen.harness.model.harness import Harness

PARTS = read(Path(docgen.__file__).parent / "definition" / "parts.yaml")


@dataclass
class OnTheBench:
    """One lead: which of its ends are crimped, and what has slid onto it, by where it lies along the lead.

    `unhoused` ends have their contacts on and no housing; `through` is the end that went through each opening, `along`
    are those through which it came tied to others.
    """

    lead: CutLead
    crimped: set[int] = field(default_factory=set)
    unhoused: set[int] = field(default_factory=set)
    through: dict[int, int] = field(default_factory=dict)
    along: set[int] = field(default_factory=set)
    items: dict[str, float] = field(default_factory=dict)

    def slide(self, what: str, at: float, side: int, passes_mm: float = 0.0) -> None:
        """Slide something on from one end to where it lies; nothing may be in its route, nor a plug that is too thick.

        What passes over the plug passes over its label, which is no thicker.
        """
        over = passes_mm >= 2 * sum(self.lead.ends[side].connector.outline_mm) / math.pi
        assert over or side not in self.crimped, f"{what} does not pass over end {side} of {self.lead.name}"
        beyond = [item for item, place in self.items.items() if (place < at if side == 0 else place > at)]
        if over:
            beyond = [item for item in beyond if item != f"label {side}"]
        assert beyond == [], f"{what} is blocked on {self.lead.name} by {beyond}"
        self.items[what] = at

    def label(self, index: int) -> None:
        """Slide a label to one end, from there or from the other."""
        at = -1.0 if index == 0 else float(len(self.lead.route.runs))
        self.slide(f"label {index}", at, index if index not in self.crimped else 1 - index)


@dataclass
class OwnLead:
    """A lead that came on something, from there to its plug: places, runs, and which openings it is through so far."""

    places: tuple[str, ...]
    runs: tuple[int, ...]
    plug: str
    thick_mm: float
    through: list[int] = field(default_factory=list)


class Bench:
    """All leads of an assembly, worked on as the sheet says."""

    def __init__(self, harness: Harness, assembly: str) -> None:
        self.harness = harness
        self.leads = [OnTheBench(lead) for lead in harness.cut_leads() if lead.assembly == assembly]
        self.sleeves = [
            bundle.sleeve
            for bundle in harness.bundles
            if bundle.sleeve is not None
            and bundle.run == bundle.sleeve.runs[0]
            and harness.places[harness.runs[bundle.run].between[0]].assembly == assembly
        ]
        self.slid: list[Sleeve] = []
        self.in_place: list[tuple[Line, int]] = []
        self.owns = {
            name: own for name, own in own_leads(harness) if harness.places[own.places[0]].assembly == assembly
        }
        self.lies: dict[int, list[float]] = defaultdict(list)
        self.bare: list[OnTheBench] = []
        self.spliced: list[tuple[str, str]] = []

    def work(self, sheet: Sheet) -> None:
        """Do everything that the sheet says, step by step as they are numbered; first ends that wait with second ones.

        Every box is at something to do, and everything to do has its box.
        """
        assert all(step.ticked for step in sheet.steps)
        for number in sorted({*sheet.heads, *(step.number for step in sheet.steps)}):
            for line in sheet.lines:
                if number in sheet.heads:
                    self.do(number, line)
            if number == 8:
                for line in sheet.lines:
                    if line.cells[4].over.startswith("after "):
                        self.crimp(line, 4)
            for step in (step for step in sheet.steps if step.number == number):
                self.do_to_all(step)
        assert self.in_place == []

    def do_to_all(self, step: Step) -> None:
        done = {"sleeve": self.slide_sleeve, "thread": self.thread, "in": self.finish_in_place}
        does = done.get(step.verb.split(" ")[0])
        if does is not None:
            does(step)

    def do(self, number: int, line: Line) -> None:
        cell = line.cells[number]
        if line.name.startswith("tails of "):
            assert cell.ticked == (number in (1, 4))
        elif line.name.startswith("splice at "):
            assert cell.ticked == (number == 9)
            if number == 9 and line.cells[8].text.endswith("with 14"):
                self.in_place.append((line, 9))
            self.spliced += self.joined_by(line) if number == 9 else []
        elif number == 1:
            lead = self.lead(line).lead
            gauges = "/".join(dict.fromkeys(wire.kind.gauge.text for wire in lead.wires))
            assert (cell.over, cell.ticked) == (f"{lead.cut_length_mm:g} {gauges}", True)
        elif number == 2 and cell.ticked:
            self.lead(line).label(self.end(line, 4))
        elif number == 3:
            lead = self.lead(line).lead
            lay = PARTS["leads"][lead.part.name].get("lay", "").removesuffix(" mm")
            twisted = lay if len(lead.wires) > 1 and not lead.part.bought else ""
            assert (cell.over, cell.ticked) == (twisted, twisted != "")
        elif number == 7 and cell.ticked:
            for at in {"": (8,), "both": (4, 8), "first": (4,)}[cell.over]:
                self.lead(line).label(self.end(line, at))
        elif number in (4, 8) and not cell.over.startswith("after "):
            self.crimp(line, number)

    def crimp(self, line: Line, number: int) -> None:
        """Crimp and fill one end as its cell says, and hold that it says all of that end, and of no other."""
        one, cell = self.lead(line), line.cells[number]
        index = self.end(line, number)
        end = one.lead.ends[index]
        if "with 14" in cell.under and (line, number) not in self.in_place:
            self.in_place.append((line, number))
            if "left bare" in cell.under:
                return
            one.unhoused.add(index)
        into, spliced = contacts_and_splices(cell.text)
        assert spliced == {w.colour for w in one.lead.wires if w.role in spliced_roles(self.harness, one.lead, end)}
        crimped = [w for w in one.lead.wires if w.role in roles_alone(self.harness, one.lead, end)]
        assert into == {("+".join(end.contacts[wire.role]), wire.colour) for wire in crimped}
        assert cell.ticked == bool(crimped)
        self.slide_tubes(one, index, crimped, cell)
        if crimped:
            assert index not in one.crimped, f"{line.name} is crimped twice"
            one.crimped.add(index)
            name = end.connector.name
            assert cell.over.endswith(f" · {name} {end.gender}"), cell
            strip = (PARTS["plugs"] | PARTS["shells"])[name]["contact"]["strip"]
            assert re.findall(r" · ([\d.]+ mm)", cell.text) == [strip], cell

    def slide_tubes(self, one: OnTheBench, index: int, wires: Sequence[Wire], cell: Cell) -> None:
        """Slide a tube for each soldered contact onto its wire: it passes the cup, and grips the wire when shrunk."""
        contact = (PARTS["plugs"] | PARTS["shells"]).get(one.lead.ends[index].connector.name, {}).get("contact", {})
        soldered = bool(wires) and contact.get("join") == "solder"
        assert (" · solder" in cell.text) == soldered, cell
        named = re.search(r"([^;]+) on first", cell.under)
        tubes = re.findall(r"(\d+) × ([^,]+?)(?:,|$)", named[1]) if named else []
        assert sum(int(count) for count, _ in tubes) == (len(wires) if soldered else 0), cell
        over = float(contact["over"].split()[0]) if soldered else 0.0
        for _, name in tubes:
            by_wire = [tubes_past(over, wire.kind.diameter_mm) for wire in wires]
            assert any(name in fitting for fitting in by_wire) or (name not in PARTS["tubes"] and [] in by_wire), cell
        if soldered:
            beyond_label = -2.0 if index == 0 else float(len(one.lead.route.runs) + 1)
            one.slide(f"tubes at {index}", beyond_label, index)

    def thread(self, step: Step) -> None:
        """Put leads through an opening one by one, and hold that each is as the sheet says, and that it passes."""
        said = re.fullmatch(r"from (.+?) to (.+?), ends taped, one by one: (.+?)(\. It does not pass: .+)?", step.says)
        assert said is not None, step
        start, goal, things, stuck = said.groups()
        (run,) = (
            index
            for index, run in enumerate(self.harness.runs)
            if set(run.between) == {start, goal}
            if run.hole_mm and f"thread · {' × '.join(f'{side:g}' for side in run.hole_mm)} mm" == step.verb
        )
        found = "hole" in {f.name for f in self.harness.findings if f.subject == ("runs", str(run))}
        stays = self.lies[run]  # what lies in the opening when all is through
        lies = list(stays)
        states = [re.fullmatch(r"(.+?)( without its housing| bare)?", thing) for thing in things.split("; ")]
        row = [(state[1], state[2] or "") for state in states if state is not None]
        going = {one.lead.name for name, _ in row for one, _ in self.ends_through(run, name, goal)}
        going |= {name for name, _ in row if name in self.owns}
        tied, sleeves = self.tied(run, goal, going)
        left = {(one.lead.name, index) for one in tied for index in (0, 1) if not one.lead.ends[index].is_splice}
        for name, state in row:
            own = self.ends_through(run, name, goal)
            along = [(one, i) for one in tied for i in (0, 1) if name in names_of(one.lead.ends[i])]
            for one, index in own:
                self.pass_end(one, index, run, state)
            for one, index in along:
                self.hold_state(one, index, state)
                assert one.through == {}, f"{one.lead.name} lies in an opening, and can't come along"
                left.remove((one.lead.name, index))
                one.along.add(run)
            beside = stays if along and not own else lies
            assert found or self.passes(run, own + along, state, beside), (step, name)
            new = [circle for one, _ in own for circle in lead_circles_mm(one.lead)]
            if not own and not along:
                assert state == "", f"{name} came finished"
                new = [self.pass_own(run, goal, name, lies, found=found)]
            stays += new
            lies += new + [circle for one, _ in along for circle in lead_circles_mm(one.lead)]
        assert left == set(), f"what is tied does not come along: {left}"
        bundle = self.harness.bundles[run]
        thick_mm = bundle.diameter_mm + (1.0 if bundle.sleeve is not None else 0.0)
        for thick in (thick_mm, *(self.thick_mm(run, sleeve) for sleeve in sleeves)):
            assert found or passes(self.harness.runs[run].hole_mm or (), (thick,), 0.0)
        assert found or stuck is None

    def ends_through(self, run: int, name: str, goal: str) -> list[tuple[OnTheBench, int]]:
        """Return the leads that a name is of, each with the end that goes through an opening to a place."""
        found = []
        for one in (one for one in self.leads if run in one.lead.route.runs):
            index = int(one.lead.route.places[one.lead.route.runs.index(run) + 1] == goal)
            end = one.lead.ends[index]
            if name in through_names(one.lead, end):
                found.append((one, index))
        return found

    def tied(self, run: int, goal: str, going: AbstractSet[str]) -> tuple[list[OnTheBench], list[Sleeve]]:
        """Return what has to come along through an opening to a place, though it stays in none: what sleeves tie to
        leads that are going through, beyond the opening, and what is spliced or sleeved to that; and those sleeves.

        What a sleeve ties to an own lead there goes through with it.
        """
        graph = networkx.Graph()
        for name in (name for name in self.owns if name in going):
            own = self.owns[name]
            tying = [(number, sleeve) for number, sleeve in enumerate(self.slid) if {*own.runs} & {*sleeve.runs}]
            held = {held for _, sleeve in tying for held in self.harness.bundles[sleeve.runs[0]].leads}
            assert {
                one.lead.name for one in self.leads if one.lead.name in held and run in one.lead.route.runs
            } <= going
            at = own.runs.index(run)
            runs = own.runs[at + 1 :] if own.places[at + 1] == goal else own.runs[:at]
            graph.add_edges_from(("goal", number) for number, sleeve in tying if {*runs} & {*sleeve.runs})
        through = {one.lead.name for one in self.leads if run in one.lead.route.runs}
        spliced = [one.lead for one in self.leads if any(end.is_splice for end in one.lead.ends)]
        later = {lead.circuit for lead in spliced if lead.name in through}  # a splice that goes through
        for one in self.leads:
            runs = one.lead.route.runs
            if run in runs and one.lead.name not in going:
                continue
            if run in runs:
                at = runs.index(run)
                runs = runs[at + 1 :] if one.lead.route.places[at + 1] == goal else runs[:at]
                graph.add_edges_from(("goal", number) for number, s in enumerate(self.slid) if {*runs} & {*s.runs})
                continue
            graph.add_edges_from((one.lead.name, number) for number, s in enumerate(self.slid) if {*runs} & {*s.runs})
            if one.lead in spliced and one.lead.circuit not in later:
                graph.add_edge(one.lead.name, ("splice", one.lead.circuit))
        graph.add_node("goal")
        reached = networkx.node_connected_component(graph, "goal")
        sleeves = [sleeve for number, sleeve in enumerate(self.slid) if number in reached]
        return [one for one in self.leads if one.lead.name in reached - through], sleeves

    def thick_mm(self, run: int, sleeve: Sleeve) -> float:
        """Return how thick a sleeve is that goes through an opening, beside leads there that are not in it."""
        inside = self.harness.bundles[sleeve.runs[0]].leads
        beside = [one.lead for one in self.leads if run in one.lead.route.runs and one.lead.name not in inside]
        circles = [circle for lead in beside for circle in lead_circles_mm(lead)]
        return outside_diameter_mm([sleeve.diameter_mm + 1.0, *circles])

    def passes(self, run: int, ends: Sequence[tuple[OnTheBench, int]], state: str, lies: Sequence[float]) -> bool:
        """Tell whether ends pass an opening as they are, beside what lies there; what came along has been held so."""
        if not ends:
            return True
        hole, end = self.harness.runs[run].hole_mm or (), ends[0][0].lead.ends[ends[0][1]]
        circles = [circle for one, _ in ends for circle in lead_circles_mm(one.lead)]
        if state == " bare":
            self.bare += [one for one, index in ends if not one.lead.ends[index].is_splice]
            return passes(hole, (outside_diameter_mm([*lies, *circles]),), 0.0)
        if not state:
            return passes(hole, size_of(end.connector.name), outside_diameter_mm(lies))
        wires = sorted((wire.kind.diameter_mm for one, _ in ends for wire in one.lead.wires), reverse=True)
        over_mm = float(contact_of(end.connector.name)["over"].split()[0])
        return passes(hole, (over_mm + 1,), outside_diameter_mm([*lies, *wires[:-1]]))

    def pass_own(self, run: int, goal: str, name: str, lies: Sequence[float], *, found: bool) -> float:
        """Pass an own lead through the next opening on its way, plug first; return how thick it is [mm]."""
        own = self.owns[name]
        ahead = [number for number in own.runs if self.harness.runs[number].hole_mm and number not in own.through]
        assert run in ahead
        holes = {f.subject[1] for f in self.harness.findings if f.name == "hole"}
        assert holes.intersection(map(str, own.runs)) or run == ahead[0], f"{name} is not there yet"
        assert found or own.places[own.runs.index(run) + 1] == goal, f"what {name} hangs on does not go through"
        assert found or passes(self.harness.runs[run].hole_mm or (), size_of(own.plug), outside_diameter_mm(lies))
        own.through.append(run)
        return own.thick_mm

    def pass_end(self, one: OnTheBench, index: int, run: int, state: str) -> None:
        """Pass one end of a lead, which is as is said; it comes from where the lead lies by now."""
        self.hold_state(one, index, state)
        runs = one.lead.route.runs
        for other in one.through:
            # What one end went through lies before it, what the other went through behind it.
            assert (runs.index(other) < runs.index(run)) == (index == 1), one.lead.name
        assert run not in one.through
        one.through[run] = index

    def hold_state(self, one: OnTheBench, index: int, state: str) -> None:
        """Hold that an end of a lead is as is said when it goes through."""
        fitted = bool(roles_alone(self.harness, one.lead, one.lead.ends[index]))
        assert (index in one.unhoused) == (state == " without its housing" and fitted), one.lead.name
        assert (index in one.crimped) == (state != " bare" and fitted), one.lead.name

    def finish_in_place(self, step: Step) -> None:
        """Finish in the airframe what the sheet names, which is all that waits, and ring it out there."""
        said = re.fullmatch(r"finish (.+)\. Ring it out there and shake it, .+ structure too: none may ring", step.says)
        assert said is not None, step
        for line, number in list(self.in_place):
            place = line.name.removeprefix("splice at ")
            if number != 9:
                one, index = self.lead(line), self.end(line, number)
                place = through_names(one.lead, one.lead.ends[index])[0]
                if index not in one.unhoused:
                    self.crimp(line, number)
                one.unhoused.discard(index)
            assert place in said[1], (place, step)
            self.in_place.remove((line, number))

    def joined_by(self, line: Line) -> list[tuple[str, str]]:
        """Return each wire that a splice joins: its lead, as its row is headed, and its colour."""
        groups = (group.split(": ") for group in line.cells[4].text.split("; "))
        return [(name, colour) for colour, names in groups for name in names.split(", ")]

    def lead(self, line: Line) -> OnTheBench:
        (found,) = (one for one in self.leads if one.lead.name == line.name)
        assert line.title == f"{found.lead.label} {found.lead.segment}"
        return found

    def end(self, line: Line, number: int) -> int:
        """Return which end a cell tells of, by the place that it names first; halves may say which."""
        lead = self.lead(line).lead
        said = re.sub(r"^after .+ is on, with 8: ", "", line.cells[number].over).split(" · ")[0]
        found = [i for i in (0, 1) if said in names_of(lead.ends[i])]
        assert len(found) == 1, said
        return found[0]

    def slide_sleeve(self, step: Step) -> None:
        """Slide a sleeve over every lead in it, from the place that the sheet names; one that opens goes around."""
        way = re.match(r"(on|around) from (.+?) to (.+?)[;,] ", step.says)
        assert way is not None, step
        verb = re.fullmatch(r"sleeve (.+) · ([\d.]+) mm", step.verb)
        assert verb is not None, step
        (sleeve,) = (
            sleeve
            for sleeve in self.sleeves
            if (sleeve.kind.name, f"{sleeve.cut_length_mm:g}") == (verb[1], verb[2])
            and set(self.ends(sleeve)) == {way[2], way[3]}
        )
        self.slid.append(sleeve)
        assert sleeve.kind.splits == (way[1] == "around")
        if sleeve.kind.splits:
            return
        held = self.harness.bundles[sleeve.runs[0]].leads
        for own in (own for own in self.owns.values() if sleeve.runs[0] in own.runs):
            alone = not any(one.lead.name in held for one in self.leads)
            assert not alone or own.places.index(way[2]) > own.places.index(way[3]), "what it hangs on is in the way"
        inside_mm = 0.0 if len(self.harness.bundles[sleeve.runs[0]].leads) == 1 else sleeve.diameter_mm
        for one in self.leads:
            route = one.lead.route
            inside = [index for index, run in enumerate(route.runs) if run in sleeve.runs]
            if inside:
                side = 0 if route.places[inside[0]] == way[2] else 1
                assert route.places[[inside[0], inside[-1] + 1][side]] == way[2]
                what = f"sleeve {self.sleeves.index(sleeve)}"
                one.slide(what, sum(inside) / len(inside), side, sleeve.kind.fits_mm[1] - inside_mm)

    def ends(self, sleeve: Sleeve) -> list[str]:
        touched = [place for run in sleeve.runs for place in self.harness.runs[run].between]
        return [place for place in touched if touched.count(place) == 1]

    def hold_all_is_done(self) -> None:
        """Hold that every lead has its labels, sleeves, contacts and splices."""
        assert len(self.slid) == len(self.sleeves)
        found = {f.subject[1] for f in self.harness.findings if f.name == "hole"}
        for one in self.bare:  # a splice is made when it is through; all else has been found at one of its openings
            assert found.intersection(map(str, {*one.lead.route.runs, *one.along})), one.lead.name
        for one in self.leads:
            assert one.through.keys() == {run for run in one.lead.route.runs if self.harness.runs[run].hole_mm}
        for own in self.owns.values():
            assert set(own.through) == {run for run in own.runs if self.harness.runs[run].hole_mm}
        for run, lies in self.lies.items():
            assert outside_diameter_mm(lies) == pytest.approx(self.harness.bundles[run].diameter_mm), run
        joints: set[tuple[str, str]] = set()
        for one in self.leads:
            for index, end in enumerate(one.lead.ends):
                assert (f"label {index}" in one.items) == (not end.is_splice), one.lead.name
                assert (index in one.crimped) == bool(roles_alone(self.harness, one.lead, end)), one.lead.name
                spliced = spliced_roles(self.harness, one.lead, end)
                name = f"{one.lead.label} {one.lead.segment}"
                joints |= {(name, wire.colour) for wire in one.lead.wires if wire.role in spliced}
        assert {joint for joint in self.spliced if not re.fullmatch(r"\d+ tails?", joint[0])} == joints


def passes(opening: tuple[float, ...], size: tuple[float, ...], beside: float) -> bool:
    """Tell whether something passes beside a bundle, a tenth to spare: in a rectangle they lie side by side."""
    if len(opening) == 1:
        return 1.1 * (math.hypot(*size) + beside) <= opening[0] + 1e-9
    width, height = size if len(size) > 1 else size * 2
    return any(
        1.1 * (one + beside) <= long + 1e-9 and 1.1 * max(other, beside) <= short + 1e-9
        for one, other in [(width, height), (height, width)]
        for long, short in (opening, opening[::-1])
    )


def own_leads(harness: Harness) -> Iterator[tuple[str, OwnLead]]:
    """Walk what sheets call the leads that came on something and have a plug elsewhere, from there to the plug.

    Not those that plug into each other: they part there.
    """
    for lead in harness.leads():
        for index, end in enumerate(lead.ends):
            if end.own is None or (not isinstance(lead, CutLead) and lead.ends[1 - index].own is not None):
                continue
            thick_mm = outside_diameter_mm([(end.own.kind or wire.kind).diameter_mm for wire in lead.wires])
            if isinstance(lead, CutLead):
                route, name, plug, step = end.own.route, f"{end.name}'s own lead", end.connector.name, 1
            else:
                route, name, plug, step = lead.route, lead.label, lead.ends[1 - index].connector.name, 1 - 2 * index
            yield name, OwnLead(route.places[::step], route.runs[::step], plug, thick_mm)


def came_places(harness: Harness) -> set[str]:
    """Return where something lies that came along, on runs with a sleeve or an opening."""
    runs = {run for _, own in own_leads(harness) for run in own.runs}
    done = {run for run in runs if harness.bundles[run].sleeve is not None or harness.runs[run].hole_mm}
    return {place for run in done for place in harness.runs[run].between}


def names_of(end: End) -> tuple[str, ...]:
    """Return how sheets may name an end: of a half, which it is."""
    return end.text, f"{end.text}, {end.part}", f"{end.text}, {end.part} half"


def tubes_past(passes_mm: float, grips_mm: float) -> list[str]:
    """Return the tubes of the parts list that pass one diameter and grip another, but for clear ones."""
    sizes = {
        name: [float(part[key].split()[0]) for key in ("expanded", "recovered")]
        for name, part in PARTS["tubes"].items()
        if "clear" not in part
    }
    return [name for name, (wide, low) in sizes.items() if wide >= 1.1 * passes_mm and low <= 0.9 * grips_mm]


def through_names(lead: Lead, end: End) -> tuple[str, ...]:
    """Return how sheets may name an end that goes through an opening."""
    return (f"splice of {lead.circuit} at {end.place}",) if end.is_splice else names_of(end)


def contact_of(name: str) -> Mapping[str, str]:
    contact: Mapping[str, str] = (PARTS["plugs"] | PARTS["shells"])[name]["contact"]
    return contact


def size_of(name: str) -> tuple[float, ...]:
    """Return how wide a plug or shell is, end on, in the parts list."""
    part = (PARTS["plugs"] | PARTS["shells"])[name]
    return tuple(float(side.split()[0]) for side in part.get("size", part.get("outline")))


def contacts_and_splices(said: str) -> tuple[set[tuple[str, str]], set[str]]:
    """Read the contacts of one end, each with the colour that goes there, and the colours that are spliced."""
    parts = said.split("; ")
    spliced = {c for part in parts if part.endswith(" to splice") for c in part.removesuffix(" to splice").split(", ")}
    pairs = [part.split(" · ")[0].split(", ") for part in parts if part and not part.endswith(" to splice")]
    return {(pair.split(" ")[0], pair.split(" ")[1]) for each in pairs for pair in each}, spliced


def tailed_roles(harness: Harness, end: End) -> set[str]:
    """Return the roles whose wires are spliced to tails at one end."""
    return {
        role
        for role, common in end.commons.items()
        for half, behind in zip(
            harness.disconnects[end.name].halves, harness.disconnects[end.name].commons[common].halves, strict=True
        )
        if half.name == end.part and behind.tails
    }


def spliced_roles(harness: Harness, lead: Lead, end: End) -> set[str]:
    """Return the roles of a lead's wires that are spliced at one end: where it divides, or before tails."""
    if end.is_splice:
        leads = harness.circuits[lead.circuit].leads
        stem, branched = ({w.role for each in leads if each.ends[i].is_splice for w in each.wires} for i in (1, 0))
        return stem & branched & {wire.role for wire in lead.wires}
    return {wire.role for wire in lead.wires} & tailed_roles(harness, end)


def roles_alone(harness: Harness, lead: Lead, end: End) -> set[str]:
    """Return the roles of wires that go into contacts at one end, without those before tails."""
    if end.is_splice:
        return set()
    return {wire.role for wire in lead.wires if wire.role in end.contacts} - tailed_roles(harness, end)


def carry_out(harness: Harness, folder: Path) -> dict[str, Sheet]:
    """Carry out a sheet and hold that nothing is stranded; return what it says."""
    sheets = sheets_on(printed_sheet(harness, folder))
    came = {harness.places[place].assembly for place in came_places(harness)}
    assert set(sheets) == {lead.assembly for lead in harness.cut_leads()} | came
    for assembly, sheet in sheets.items():
        bench = Bench(harness, assembly)
        bench.work(sheet)
        bench.hold_all_is_done()
    return sheets


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_carrying_out_an_example_strands_nothing(example: str, tmp_path: Path) -> None:
    sheets = carry_out(harness_of(EXAMPLES / example), tmp_path)
    for sheet in sheets.values():
        # The steps bear the same number in every assembly.
        verbs = {1: "cut", 2: "tube", 3: "twist", 4: "first end", 7: "tube", 8: "second end", 9: "splice"}
        assert all(head.startswith(f"{number} {verbs[number]}") for number, head in sheet.heads.items())
        assert set(verbs) - {9} <= set(sheet.heads)
        steps = [(step.number, step.verb.split(" ")[0]) for step in sheet.steps]
        fixed = [(10, "ring"), (11, "labels"), (12, "shrink"), (13, "fit"), (15, "clip")]
        now_and_then = {(6, "sleeve"), (9, "splice"), (13, "thread"), (14, "in")}
        assert [step for step in steps if step not in now_and_then] == [(5, "lay"), *fixed]
        assert steps == sorted(steps, key=lambda step: step[0])


def test_carrying_out_a_jet_strands_nothing(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    contact = PARTS["shells"]["block-14"]["contact"] | {"over": "2.6 mm", "join": "solder"}  # the builder's own
    monkeypatch.setitem(PARTS["shells"]["block-14"], "contact", contact)
    monkeypatch.setitem(PARTS["leads"], "motor-hot", {"lay": "30 mm"})
    carry_out(harness_of(written_folder(jet.FILES)), tmp_path)


def grown(seed: int) -> Mapping[str, str]:
    """Write an airframe that is a tree at random, most of its edges sharp, with leads between any of its places."""
    chance = random.Random(seed)
    places = [f"bay-{number}" for number in range(chance.randint(3, 9))]
    runs = [
        {"between": [places[chance.randrange(i)], place], "length": f"{chance.randint(60, 400)} mm"}
        | ({"edges": "sharp"} if chance.random() < 0.75 else {})
        for i, place in enumerate(places)
        if i
    ]
    equipment: dict[str, object] = {}
    circuits: dict[str, object] = {}
    for unit in range(chance.randint(1, 3)):
        name = f"unit-{unit}"
        plug, size = chance.choice([("power-2", 20), ("power-2-heavy", 16)])  # the heavy one is soldered
        ports = [
            {"plug": plug, "names": ["IN"], "contacts": "pins"},
            {"plug": "servo-3", "names": "1..20", "contacts": "pins"},
        ]
        equipment[name] = {"kind": "power unit", "place": chance.choice(places), "ports": ports, "fed_by": ["IN"]}
        battery = {"cells": "2", "capacity": "2600 mAh", "full": "8.4 V", "empty": "6.4 V"}
        pack = {"kind": "battery", "place": chance.choice(places), "lead": "120 mm", "lead_wire": "pvc-20"}
        equipment[f"pack-{unit}"] = pack | {"plug": plug, "battery": battery}
        circuits[f"supply-{unit}"] = {"from": f"pack-{unit}", "to": f"{name} IN", "lead": f"power-{size}"}
        for port in range(1, chance.randint(2, 7)):
            loads = [f"servo-{unit}-{port}-{i}" for i in range(chance.choice([1, 1, 1, 2]))]
            for load in loads:
                own = {"lead": "100 mm", "plug": "servo-3"}
                equipment[load] = {"kind": "servo", "place": chance.choice(places), **own}
            said: dict[str, object] = {"from": f"{name} {port}", "to": loads[0], "lead": "servo-22"}
            if len(loads) > 1:
                said |= {"to": loads, "split": {"place": chance.choice(places)}}
            circuits[f"circuit-{unit}-{port}"] = said
    aircraft = {"name": "Dunlin", "description": "grown", "marks": "D-1", "revision": "A", "date": "2026-01-01"}
    return {
        "aircraft.yaml": json.dumps(
            {
                "aircraft": aircraft,
                "places": {place: {"assembly": "hull", "access": "hatch", "across": "60 mm"} for place in places},
                "runs": runs,
            }
        ),
        "harness.yaml": json.dumps({"equipment": equipment, "circuits": circuits}),
    }


def opened(seed: int) -> Mapping[str, str]:
    """Write such an airframe with openings at random, plugs that lie elsewhere, and a joint that some leads pass."""
    chance = random.Random(seed)
    texts = {file: json.loads(text) for file, text in grown(seed).items()}
    airframe, made = texts["aircraft.yaml"], texts["harness.yaml"]
    openings = [f"{chance.randint(4, 14)} mm", f"{chance.randint(9, 40)} mm", "20 mm x 8 mm", "30 mm x 16 mm"]
    for run in airframe["runs"]:
        run.update({"hole": chance.choice(openings)} if chance.random() < 0.6 else {})
        run.update({"closed": "yes"} if chance.random() < 0.3 else {})
    places = list(airframe["places"])
    for name in places[1:]:
        if chance.random() < 0.1:
            del airframe["places"][name]["access"]
    halves = [{"place": chance.choice(places), "contacts": gender, "reach": "80 mm"} for gender in ("sockets", "pins")]
    made["disconnects"] = {"joint": {"shell": "block-14", "halves": halves}}
    passing = [name for name, said in made["circuits"].items() if said["lead"] == "servo-22"]
    for name in chance.sample(passing, min(len(passing), chance.randint(1, 4))):
        made["circuits"][name]["through"] = ["joint"]
    for entry in made["equipment"].values():
        if entry["kind"] == "servo" and chance.random() < 0.3:
            entry |= {"plug_at": chance.choice(places), "lead": "2000 mm"}
    return {file: json.dumps(text) for file, text in texts.items()}


def tip_with_two_servos(near: str, far: str) -> Mapping[str, str]:
    """Write a wing tip: a cut lead to its inner servo, and the own lead of its outer one beside it, past two ribs."""
    own = {"kind": "other", "plug": "servo-3"}
    fixed = {"place": "end", "contacts": "sockets"}
    airframe = {
        "aircraft": {"name": "Row", "description": "a row", "marks": "R-1", "revision": "A", "date": "2026-01-01"},
        "places": {place: {"assembly": "wing", "access": "hatch"} for place in ("root", "end")}
        | {place: {"assembly": "tip", "access": "hatch"} for place in ("start", "inner", "outer")},
        "runs": [
            {"between": ["root", "end"], "length": "300 mm"},
            {"between": ["start", "inner"], "length": "300 mm", "edges": "sharp", "hole": near},
            {"between": ["inner", "outer"], "length": "400 mm", "edges": "sharp", "hole": far},
        ],
    }
    made = {
        "equipment": {
            "pack": {
                "kind": "battery",
                "place": "root",
                "ports": [{"plug": "servo-3", "names": "1..2", "contacts": "pins"}],
                "battery": {"cells": "2", "capacity": "2600 mAh", "full": "8.4 V", "empty": "6.4 V"},
            },
            "one": own | {"place": "inner", "lead": "150 mm"},
            "two": own | {"place": "outer", "lead": "900 mm"},
        },
        "disconnects": {
            "joint-one": {"shell": "servo-3", "fixed": fixed, "loose": {"place": "start", "reach": "90 mm"}},
            "joint-two": {"shell": "servo-3", "fixed": fixed | {"contacts": "pins"}, "loose": {"place": "start"}},
        },
        "circuits": {
            "one": {"from": "pack 1", "to": "one", "through": ["joint-one"], "lead": "servo-22"},
            "two": {
                "from": "pack 2",
                "to": "two",
                "through": ["joint-two"],
                "lead": {"A": "servo-22", "B": "own"},
            },
        },
    }
    return {"aircraft.yaml": json.dumps(airframe), "harness.yaml": json.dumps(made)}


def test_an_own_lead_goes_plug_first_away_from_what_it_hangs_on(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    harness = harness_of(written_folder(tip_with_two_servos("14 mm", "12 mm")))
    assert [finding for finding in harness.findings if finding.name == "hole"] == []
    steps = [step for step in carry_out(harness, tmp_path)["tip"].steps if step.verb.startswith("thread")]
    assert [step.says.split(", ")[0] for step in steps] == ["from outer to inner", "from inner to start"]


def test_a_sleeve_over_own_leads_alone_has_its_step_and_goes_on_over_their_plugs(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    files = {file: json.loads(text) for file, text in tip_with_two_servos("14 mm", "12 mm").items()}
    for section, name in (("equipment", "one"), ("disconnects", "joint-one"), ("circuits", "one")):
        del files["harness.yaml"][section][name]
    harness = harness_of(written_folder({file: json.dumps(said) for file, said in files.items()}))
    steps = carry_out(harness, tmp_path)["tip"].steps
    assert [step.says.split(", ")[0] for step in steps if step.verb.startswith("thread")] == [
        "from outer to inner",
        "from inner to start",
    ]
    (sleeve,) = (step for step in steps if step.verb.startswith("sleeve"))
    assert sleeve.says.startswith("on from start to outer; ")
    assert 10 not in {step.number for step in steps}


# Of 74 the steps are more than a page holds.
@pytest.mark.parametrize("seeds", [[*range(12), 74], pytest.param(range(12, 112), marks=pytest.mark.longest)])
def test_carrying_out_random_harnesses_through_openings_strands_nothing(
    seeds: Sequence[int], written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    seen: dict[str, int] = defaultdict(int)
    for seed in seeds:
        harness = harness_of(written_folder(opened(seed)))
        for sheet in carry_out(harness, tmp_path).values():
            for step in sheet.steps:
                for said in ("without its housing", " bare", "does not pass", "joint"):
                    seen[said] += said in step.says if step.verb.startswith("thread") else 0
        seen["hole"] += sum(finding.name == "hole" for finding in harness.findings)
    assert min(seen.values()) > 0, seen


@pytest.mark.parametrize("seeds", [range(8), pytest.param(range(8, 60), marks=pytest.mark.longest)])
def test_carrying_out_random_harnesses_strands_nothing(
    seeds: range, written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    waits: dict[int, int] = defaultdict(int)
    for seed in seeds:
        for sheet in carry_out(harness_of(written_folder(grown(seed))), tmp_path).values():
            for number in sheet.heads:
                waits[number] += sum(line.cells[number].over.startswith("after ") for line in sheet.lines)
    # Some leads pass a sharp edge on either side of where all else begins: both their ends have to wait.
    assert waits.pop(4) > 0
    assert set(waits.values()) == {0}


def test_sleeves_slide_along_leads_and_not_by_the_shorter_way_back(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    carry_out(harness_of(written_folder(ring({"one": ("tray", "far", "near")}))), tmp_path)


def test_a_ring_that_no_order_can_dress_asks_for_a_sleeve_that_opens(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    ways = {"one": ("tray", "far", "near"), "two": ("far", "near", "tray"), "three": ("near", "tray", "far")}
    pages = printed_sheet(harness_of(written_folder(ring(ways))), tmp_path)
    said = " ".join(text.text for page in pages for text in page.texts)
    assert said.count("take one that opens") == 1, said
