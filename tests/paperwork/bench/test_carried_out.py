"""The order of work, read from the printed sheet and carried out on a bench that knows only what is on each lead."""

from __future__ import annotations

import json
import math
import random
import re
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from measured import read
from printed_steps import Step, printed_sheet, ring, steps_on
from resolved import EXAMPLES, harness_of

import docgen
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, End, Lead
from docgen.harness.model.harness import Harness

PARTS = read(Path(docgen.__file__).parent / "definition" / "parts.yaml")
ALL = "all leads of this assembly"
STEPS = (
    "Cut and label",
    "Twist",
    "Crimp and fill",
    "Lay up",
    "Slide on",
    "Last labels",
    "Crimp and fill",
    "Splice",
    "Ring out",
    "Shrink",
    "Fit and clip",
)


@dataclass
class OnTheBench:
    """One lead: which of its ends are crimped, and what has slid onto it, by where it lies along the lead."""

    lead: CutLead
    crimped: set[int] = field(default_factory=set)
    items: dict[str, float] = field(default_factory=dict)

    def slide(self, what: str, at: float, side: int, passes_mm: float = 0.0) -> None:
        """Slide something on from one end to where it lies; nothing may be in its route, nor a plug that is too thick.

        What passes over the plug passes over its label, which is no thicker.
        """
        over = passes_mm >= 2 * sum(self.lead.ends[side].connector.outline_mm) / math.pi
        assert over or side not in self.crimped, f"{what} does not pass over end {side} of {self.lead.name}"
        beyond = [item for item, place in self.items.items() if (place < at if side == 0 else place > at)]
        if over and side in self.crimped:
            beyond = [item for item in beyond if item != f"label {side}"]
        assert beyond == [], f"{what} is blocked on {self.lead.name} by {beyond}"
        self.items[what] = at

    def label(self, index: int) -> None:
        """Slide a label to one end, from there or from the other."""
        at = -1.0 if index == 0 else float(len(self.lead.route.runs))
        self.slide(f"label {index}", at, index if index not in self.crimped else 1 - index)


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
        self.spliced: list[str] = []

    def work(self, steps: Sequence[Step]) -> None:
        """Do everything that the sheet says, row by row."""
        for step in steps:
            for row in step.rows:
                if row[0] != ALL:
                    self.do(step, row)

    def do(self, step: Step, row: list[str]) -> None:
        if step.verb == "Slide on":
            self.slide_sleeve(row)
        elif step.verb == "Splice":
            self.spliced += [lead.lead.name for lead in self.leads if lead.lead.name in re.split(", ", row[2])]
        elif step.verb == "Twist":
            twisted = self.lead(row[0]).lead
            assert row[1:] == [PARTS["leads"][twisted.part.name]["lay"].removesuffix(" mm"), str(len(twisted.wires))]
        elif " · tails of " not in row[0]:
            lead = self.lead(row[0])
            if step.verb == "Cut and label":
                assert row[1] == f"{lead.lead.cut_length_mm:g}", row
                assert row[2] == ", ".join(wire.mark for wire in lead.lead.wires), row
                if len(row) > 3:
                    lead.label(self.end(lead.lead, row[3]))
            elif step.verb == "Last labels":
                lead.label(self.end(lead.lead, row[1]))
            elif step.verb == "Crimp and fill" and not row[-1].startswith("crimp after"):
                index = self.end(lead.lead, row[2])
                assert index not in lead.crimped, f"{row[2]} is crimped twice"
                lead.crimped.add(index)
                self.hold_contact(lead.lead.ends[index], row)

    @staticmethod
    def hold_contact(end: End, row: list[str]) -> None:
        """Hold that a row tells the contact in hand, and how far the parts list says that its wires are stripped."""
        name = end.connector.name
        strip = (PARTS["plugs"] | PARTS["shells"])[name]["contact"]["strip"]
        assert row[1].endswith(f" AWG, {strip}"), row
        assert row[3] == f"{name} {end.gender}", row

    def lead(self, said: str) -> OnTheBench:
        (found,) = (one for one in self.leads if f"{one.lead.label} · {one.lead.name}".startswith(said.rstrip("…")))
        return found

    @staticmethod
    def end(lead: Lead, said: str) -> int:
        """Return which end a row tells of: that whose name begins it."""
        found = [
            i
            for i in (0, 1)
            if said.split(" ", maxsplit=1)[0] == lead.ends[i].name and said.startswith(lead.ends[i].text)
        ]
        assert len(found) == 1, said
        return found[0]

    def slide_sleeve(self, row: list[str]) -> None:
        """Slide a sleeve over every lead in it, from the place that the sheet names; one that opens goes around."""
        places = set(re.split(" and ", row[2]))
        (sleeve,) = (
            sleeve
            for sleeve in self.sleeves
            if row[0].startswith(f"{sleeve.kind.name} · ") and set(self.ends(sleeve)) == places
        )
        self.slid.append(sleeve)
        if sleeve.kind.splits:
            return
        start = re.match(r"on from (.+); collars ", row[3])
        assert start is not None, row
        inside_mm = 0.0 if len(self.harness.bundles[sleeve.runs[0]].leads) == 1 else sleeve.diameter_mm
        for one in self.leads:
            route = one.lead.route
            inside = [index for index, run in enumerate(route.runs) if run in sleeve.runs]
            if inside:
                side = 0 if route.places[inside[0]] == start[1] else 1
                assert route.places[[inside[0], inside[-1] + 1][side]] == start[1]
                one.slide(
                    f"sleeve {self.sleeves.index(sleeve)}",
                    sum(inside) / len(inside),
                    side,
                    sleeve.kind.fits_mm[1] - inside_mm,
                )

    def ends(self, sleeve: Sleeve) -> list[str]:
        touched = [place for run in sleeve.runs for place in self.harness.runs[run].between]
        return [place for place in touched if touched.count(place) == 1]

    def hold_all_is_done(self) -> None:
        """Hold that every lead has its labels, sleeves, contacts and splices."""
        assert len(self.slid) == len(self.sleeves)
        for one in self.leads:
            for index, end in enumerate(one.lead.ends):
                assert (f"label {index}" in one.items) == (not end.is_splice), one.lead.name
                assert (index in one.crimped) == (contacts_alone(self.harness, one.lead, end) > 0), one.lead.name
                if joined(self.harness, one.lead, end):
                    assert one.lead.name in self.spliced


def joined(harness: Harness, lead: Lead, end: End) -> bool:
    """Tell whether a wire of a lead is spliced at one end: where it divides, or before tails."""
    return end.is_splice or any(
        lead.name in [arriving.name for arriving, _ in behind.wires] and behind.tails
        for common in end.commons.values()
        for half, behind in zip(
            harness.disconnects[end.name].halves, harness.disconnects[end.name].commons[common].halves, strict=True
        )
        if half.name == end.part
    )


def contacts_alone(harness: Harness, lead: Lead, end: End) -> int:
    """Count the wires that go into contacts at one end, without those before tails."""
    if end.is_splice:
        return 0
    spliced = {
        role
        for role, common in end.commons.items()
        for half, behind in zip(
            harness.disconnects[end.name].halves, harness.disconnects[end.name].commons[common].halves, strict=True
        )
        if half.name == end.part and behind.tails
    }
    return sum(wire.role in end.contacts and wire.role not in spliced for wire in lead.wires)


def carry_out(harness: Harness, folder: Path) -> dict[str, list[Step]]:
    """Carry out a sheet and hold that nothing is stranded; return its steps."""
    sheet = dict(steps_on(printed_sheet(harness, folder)))
    assert set(sheet) == {lead.assembly for lead in harness.cut_leads()}
    for assembly, steps in sheet.items():
        bench = Bench(harness, assembly)
        bench.work(steps)
        bench.hold_all_is_done()
    return sheet


@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_carrying_out_an_example_strands_nothing(example: str, tmp_path: Path) -> None:
    sheet = carry_out(harness_of(EXAMPLES / example), tmp_path)
    for steps in sheet.values():
        verbs = [step.verb for step in steps]
        assert verbs == [verb for verb in STEPS if verb in verbs]
        assert [verb for verb in STEPS if verb not in verbs and verb not in {"Twist", "Slide on", "Splice"}] == []


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
        ports = [
            {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
            {"plug": "servo-3", "names": "1..20", "contacts": "pins"},
        ]
        equipment[name] = {"kind": "power unit", "place": chance.choice(places), "ports": ports, "fed_by": ["IN"]}
        battery = {"cells": "2", "capacity": "2600 mAh", "full": "8.4 V", "empty": "6.4 V"}
        pack = {"kind": "battery", "place": chance.choice(places), "lead": "120 mm", "lead_wire": "pvc-20"}
        equipment[f"pack-{unit}"] = pack | {"plug": "power-2", "battery": battery}
        circuits[f"supply-{unit}"] = {"from": f"pack-{unit}", "to": f"{name} IN", "lead": "power-20"}
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
                "places": {place: {"assembly": "hull", "access": "hatch"} for place in places},
                "runs": runs,
            }
        ),
        "harness.yaml": json.dumps({"equipment": equipment, "circuits": circuits}),
    }


@pytest.mark.parametrize("seeds", [range(8), pytest.param(range(8, 60), marks=pytest.mark.long)])
def test_carrying_out_random_harnesses_strands_nothing(
    seeds: range, written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    waits: dict[str, int] = defaultdict(int)
    for seed in seeds:
        for steps in carry_out(harness_of(written_folder(grown(seed))), tmp_path).values():
            for step in steps:
                waits[step.verb] += sum(row[-1].startswith("crimp after") for row in step.rows)
    # Some leads pass a sharp edge on either side of where all else begins: both their ends have to wait.
    assert waits.pop("Crimp and fill") > 0
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
