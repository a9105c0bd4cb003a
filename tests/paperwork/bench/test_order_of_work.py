"""The order of work, read from the printed sheet and carried out on a bench that knows only what is on each lead."""

from __future__ import annotations

import json
import math
import random
import re
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from measured import PrintedPage, printed_pages, read, rows_of
from printed_tables import PrintedDocument, document_of
from reference.workmanship import CRIMP_PULL_MILITARY_N, CRIMP_PULL_N
from resolved import EXAMPLES, harness_of

import docgen
from docgen.basics.shipped import shipped_folder
from docgen.harness.model.bundles import Sleeve
from docgen.harness.model.circuits import CutLead, End, Lead
from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from conftest import AircraftFolder

PARTS = read(Path(docgen.__file__).parent / "definition" / "parts.yaml")
ALL = "all leads of this assembly"
FIRST, SECOND = "first end", "second end"
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
class Step:
    """One step as printed: its verb, what it says, and the texts of each row."""

    verb: str
    says: str = ""
    rows: list[list[str]] = field(default_factory=list)


def steps_on(pages: Sequence[PrintedPage]) -> Iterator[tuple[str, list[Step]]]:
    """Walk the assemblies of a sheet with their steps."""
    steps: list[Step] = []
    assembly = ""
    for page in pages:
        for row in rows_of(page):
            texts = [text.text for text in row]
            if title := re.fullmatch(r"Order of work · (.+)", texts[0]):
                if steps:
                    yield assembly, steps
                assembly, steps = title[1], []
            elif heading := re.fullmatch(r"\d+ +([A-Z][A-Za-z ]+?)(, continued)?", texts[0]):
                if not heading[2]:
                    steps.append(Step(heading[1]))
            elif steps and row[0].bold:
                steps[-1].rows.append(texts)
            elif steps and not steps[-1].says:
                steps[-1].says = " ".join(texts)
    if steps:
        yield assembly, steps


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


def printed_sheet(harness: Harness, folder: Path) -> list[PrintedPage]:
    file = folder / "order-of-work.pdf"
    file.write_bytes(make_paperwork(harness, Choice(stems=("order-of-work",))).files["order-of-work.pdf"])
    return printed_pages(file)


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


def ring(ways: Mapping[str, tuple[str, ...]]) -> Mapping[str, str]:
    """Write an airframe whose runs go round, all of them sharp, with leads by the ways named."""
    places = ("tray", "far", "near")
    box = {"kind": "other", "ports": [{"plug": "servo-3", "names": "1..9", "contacts": "pins"}]}
    equipment: dict[str, object] = {f"box-{place}": box | {"place": place} for place in places}
    circuits = {}
    for number, (name, way) in enumerate(ways.items(), 1):
        equipment[name] = {"kind": "other", "place": way[-1], "lead": "100 mm", "plug": "servo-3"}
        circuits[name] = {"from": f"box-{way[0]} {number}", "to": name, "by": list(way[1:-1]), "lead": "lone-26"}
    runs = [("tray", "far", 510), ("far", "near", 420), ("near", "tray", 110)]
    aircraft = {"name": "Ring", "description": "round", "marks": "R-1", "revision": "A", "date": "2026-01-01"}
    return {
        "aircraft.yaml": json.dumps(
            {
                "aircraft": aircraft,
                "places": {place: {"assembly": "hull", "access": "hatch"} for place in places},
                "runs": [{"between": [a, b], "length": f"{mm} mm", "edges": "sharp"} for a, b, mm in runs],
            }
        ),
        "harness.yaml": json.dumps({"equipment": equipment, "circuits": circuits}),
    }


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


def test_only_the_wires_that_go_into_contacts_are_crimped_before_a_splice(tmp_path: Path) -> None:
    sheet = dict(steps_on(printed_sheet(harness_of(EXAMPLES / "fulmar"), tmp_path)))
    # As the builder wrote: its signal has contact 5, positive and negative join the shared 1+2 and 3+4.
    rows = [
        row
        for step in sheet["left-panel"]
        if step.verb == "Crimp and fill"
        for row in step.rows
        if row[0].startswith("AIL L OUT") and row[2].startswith("left-wing-b")
    ]
    assert [row[2] for row in rows] == ["left-wing-b 5: C6B22 only"]


@pytest.mark.parametrize(
    ("labels", "single", "of_leads"),
    [("each: lead", False, True), ("each: wire", True, False), ("each: both", True, True)],
)
def test_labels_of_single_wires_go_on_before_a_lead_is_twisted(
    labels: str, single: bool, of_leads: bool, tmp_path: Path
) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / "wren").glob("*.yaml")}
    texts["harness.yaml"] += f"\nlabels: {{{labels}}}\n"
    for name, text in texts.items():
        (tmp_path / name).write_text(text, "utf-8")
    steps = dict(steps_on(printed_sheet(harness_of(tmp_path), tmp_path)))["fuselage"]
    assert ("each wire's own labels" in steps[0].says) == single
    assert any(step.verb == "Last labels" for step in steps) == of_leads
    assert (len(steps[0].rows[0]) > 3) == of_leads


def test_the_first_page_sends_the_builder_to_whole_paths_at_the_last(tmp_path: Path) -> None:
    first = printed_sheet(harness_of(EXAMPLES / "wren"), tmp_path)[0]
    said = " ".join(text.text for text in first.texts)
    assert "Last: whole paths" in said
    assert said.index("pull samples") < said.index("each assembly by its own sheet") < said.index("whole paths")


# The sheet of the smallest example, by hand from its files and the parts list: leads of three wires of 22 AWG and of
# two of 20 AWG, each with a lay of 25 mm; servo plugs strip 2.5 mm, power plugs 3 mm, blocks 4 mm. The receiver carries
# pins, the pack sockets, so their leads carry the other; the fixed half of a joint carries sockets.


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Step]]:
    harness = harness_of(shipped_folder("examples") / "wren")
    return dict(steps_on(printed_sheet(harness, tmp_path_factory.mktemp("wren"))))


@pytest.fixture(scope="module")
def fulmar(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Step]]:
    harness = harness_of(shipped_folder("examples") / "fulmar")
    return dict(steps_on(printed_sheet(harness, tmp_path_factory.mktemp("fulmar"))))


@pytest.fixture(scope="module")
def first_sheet() -> PrintedDocument:
    return document_of(harness_of(shipped_folder("examples") / "wren"), "order-of-work")


def rows_in(steps: Sequence[Step], verb: str, number: int = 0) -> list[list[str]]:
    """Return the rows of the step of that verb, or of its second one."""
    return [step for step in steps if step.verb == verb][number].rows


def test_every_page_warns_of_heat_and_fumes(first_sheet: PrintedDocument) -> None:
    said = "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; "
    assert all(f"{said}shrink before packs are aboard." in page for page in first_sheet.said_on_pages)


def test_samples_must_hold_the_forces_of_the_table_in_its_columns(first_sheet: PrintedDocument) -> None:
    assert "It must hold the least force" in first_sheet.said
    rows = first_sheet.table("First: pull samples", "Samples")
    assert [(row["wire"], row["contact"]) for row in rows] == [
        ("pvc-20", "power-2 pins"),
        ("pvc-20", "power-2 sockets"),
        ("pvc-22", "block-6 pins"),
        ("pvc-22", "block-6 sockets"),
        ("pvc-22", "servo-3 pins"),
        ("pvc-22", "servo-3 sockets"),
    ]
    for row in rows:
        gauge = int(row["wire"][-2:])
        assert float(row["least, N"]) == CRIMP_PULL_N[gauge]
        assert float(row["military, N"]) == CRIMP_PULL_MILITARY_N[gauge]


def test_each_lead_is_cut_marked_and_labelled_at_the_tray_first(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Cut and label") == [
        ["RX BATT · supply A", "325", "P1A20N, P1A20", "pack"],
        ["AIL L · left-aileron A", "300", "C1A22N, C1A22, C2A22", "receiver 1"],
        ["AIL R · right-aileron A", "300", "C3A22N, C3A22, C4A22", "receiver 2"],
        ["RUD · rudder A", "1335", "C5A22N, C5A22, C6A22", "receiver 4"],
    ]
    assert rows_in(wren["right-panel"], "Cut and label") == [
        ["AIL R · right-aileron B", "1045", "C3B22N, C3B22, C4B22", "right-root 1–3"]
    ]


def test_each_lead_is_twisted_to_its_lay(wren: dict[str, list[Step]]) -> None:
    assert [row[1:] for row in rows_in(wren["fuselage"], "Twist")] == [["25", "2"], *[["25", "3"]] * 3]


def test_each_end_says_its_strip_and_its_contact(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Crimp and fill") == [
        ["RX BATT · supply A", "20 AWG, 3 mm", "pack", "power-2 pins"],
        ["AIL L · left-aileron A", "22 AWG, 2.5 mm", "receiver 1", "servo-3 sockets"],
        ["AIL R · right-aileron A", "22 AWG, 2.5 mm", "receiver 2", "servo-3 sockets"],
        ["RUD · rudder A", "22 AWG, 2.5 mm", "receiver 4", "servo-3 sockets"],
    ]
    assert rows_in(wren["fuselage"], "Crimp and fill", 1) == [
        ["RX BATT · supply A", "20 AWG, 3 mm", "receiver BATT", "power-2 sockets"],
        ["AIL L · left-aileron A", "22 AWG, 4 mm", "left-root 1–3", "block-6 sockets"],
        ["AIL R · right-aileron A", "22 AWG, 4 mm", "right-root 1–3", "block-6 sockets"],
        ["RUD · rudder A", "22 AWG, 2.5 mm", "rudder", "servo-3 pins"],
    ]
    assert rows_in(wren["left-panel"], "Crimp and fill") == [
        ["AIL L · left-aileron B", "22 AWG, 4 mm", "left-root 1–3", "block-6 pins"]
    ]


def test_a_contact_that_says_no_strip_takes_the_builders_own(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "allowances: {strip: 6 mm}\nequipment:\n"
    contact = "{rating: 10 A, brief: 15 A, resistance: 3 mohm, takes: [22 AWG, 16 AWG], over: 2.4 mm}"
    roles = "contacts: {1: negative, 2: positive}, equipment: sockets"
    plug = f"plugs:\n  power-2: {{{roles}, size: [7.6 mm, 5 mm], contact: {contact}}}\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)], "parts.yaml": plug})
    steps = dict(steps_on(printed_sheet(harness_of(folder), tmp_path)))["fuselage"]
    assert [row[1] for row in rows_in(steps, "Crimp and fill")] == ["20 AWG, 6 mm", *["22 AWG, 2.5 mm"] * 3]


def test_sleeves_slide_on_from_the_far_end_with_a_collar_that_passes_them(wren: dict[str, list[Step]]) -> None:
    # 3.45 mm of wires and 1 mm of braid, with a tenth to spare 4.9 mm: 6.4 mm is the least of the series that passes.
    assert rows_in(wren["fuselage"], "Slide on") == [
        ["braid-4 · braided sleeve", cut, f"radio-tray and {far}", f"on from {far}; collars shrink-6.4"]
        for cut, far in (("125", "left-root"), ("125", "right-root"), ("1100", "tail-post"))
    ]


def test_the_labels_of_the_far_ends_come_last(wren: dict[str, list[Step]]) -> None:
    assert rows_in(wren["fuselage"], "Last labels") == [
        ["RX BATT · supply A", "receiver BATT"],
        ["AIL L · left-aileron A", "left-root 1–3"],
        ["AIL R · right-aileron A", "right-root 1–3"],
        ["RUD · rudder A", "rudder"],
    ]


def test_tails_are_crimped_with_the_contacts_of_their_own_half(fulmar: dict[str, list[Step]]) -> None:
    # As the builder wrote: the wing's fixed half carries sockets, the loose one pins; shells of blocks strip 4 mm.
    for assembly, half, gender in (("fuselage", "fixed", "sockets"), ("left-panel", "loose", "pins")):
        rows = [row for row in rows_in(fulmar[assembly], "Crimp and fill") if f"tails of left-wing-b, {half}" in row[0]]
        assert [(row[0].split(" · ")[0], row[2], row[3]) for row in rows] == [
            ("wing-positive", "left-wing-b 1, 2", f"block-14 {gender}"),
            ("wing-negative", "left-wing-b 3, 4", f"block-14 {gender}"),
        ]
        assert all(row[1].endswith(" AWG, 4 mm") for row in rows)
        cut = [row for row in rows_in(fulmar[assembly], "Cut and label") if f"tails of left-wing-b, {half}" in row[0]]
        # 40 mm + 8 mm + 4 mm + 2 x 10 mm = 72 mm, rounded up to 75 mm; one for each of two contacts.
        assert [row[1:] for row in cut] == [["75", "2 pieces, unmarked"]] * 2


def test_a_splice_names_all_that_it_joins(fulmar: dict[str, list[Step]]) -> None:
    (step,) = (step for step in fulmar["left-panel"] if step.verb == "Splice")
    assert "Strip 8 mm, slide a tube on first" in step.says
    joined = "left-outer-aileron B, left-flap B, left-beacon A, tails"
    assert [row[1:] for row in step.rows] == [["positive", joined], ["negative", joined]]


def test_labels_and_clips_stand_where_the_builder_wants_them(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "labels: {behind_plug: 40 mm}\nclips: {every: 90 mm}\nequipment:\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)]})
    steps = dict(steps_on(printed_sheet(harness_of(folder), tmp_path)))["fuselage"]
    said = {step.verb: step.says for step in steps}
    assert said["Shrink"] == "Labels 40 mm behind their plugs, and collars."
    assert said["Fit and clip"].startswith("A clip every 90 mm, within 50 mm of a fixed half")


def test_where_nothing_comes_apart_there_are_no_whole_paths(
    written_folder: Callable[[Mapping[str, str]], Path],
) -> None:
    harness = harness_of(written_folder(ring({"one": ("tray", "far", "near")})))
    assert "whole paths" not in document_of(harness, "order-of-work").said
