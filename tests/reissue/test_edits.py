"""After any sequence of edits and issues, what two states both have has the same contacts, numbers and marks.

The test knows each circuit by a number of its own, whatever it is called, where it stands and what it is plugged into.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest
from builder import Builder
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from printed_rework import Line, sections

from docgen.definition.issued import State
from docgen.definition.issues import read_issues
from docgen.paperwork.documents import Choice
from docgen.paperwork.standing import DRAFT
from docgen.reissue.rework import rework

FIRST, PORTS, CONTACTS = 3, 12, 40
AIRCRAFT = """\
aircraft: {{name: Tern, description: a wing, marks: TE-1, revision: {revision}, date: 2026-01-01}}
places:
  tray: {{assembly: fuselage, access: canopy}}
  root: {{assembly: fuselage}}
  panel-root: {{assembly: panel}}
{places}
runs:
  - {{between: [tray, root], length: {length} mm}}
{runs}
"""
HARNESS = """\
equipment:
  receiver: {kind: receiver, place: tray, ports: [{plug: servo-3, names: 1..14, contacts: pins}]}
  pack: {kind: battery, place: tray, lead: 90 mm, plug: servo-3,
    battery: {cells: 2, capacity: 900 mAh, full: 8 V, empty: 6 V}}
"""
JOINT = """\
disconnects:
  wing:
    shell: long
    fixed: {place: root, contacts: sockets}
    loose: {place: panel-root, reach: 90 mm}
circuits:
  supply: {from: pack, to: receiver 14, lead: servo-22}
"""
PARTS = (
    f"shells:\n  long: {{rows: [[{', '.join(map(str, range(1, CONTACTS + 1)))}]], pitch: {{across: 2 mm, down: 2 mm}}, "
    "outline: [85 mm, 9 mm], contact: {rating: 5 A, resistance: 5 mohm}}\n"
)


@dataclass(frozen=True)
class Circuit:
    """One circuit as the builder thinks of it; `number` is what it is known by here, and where its load sits."""

    number: int
    name: str
    load: str
    port: int
    lead: str = "servo-22"
    more: str = ""


@dataclass
class Aircraft:
    """What the builder has written, and how often he has written anything."""

    circuits: list[Circuit] = field(default_factory=list)
    issued: set[int] = field(default_factory=set)
    rewired: set[int] = field(default_factory=set)
    length: int = 300
    count: int = 0

    def fresh(self) -> int:
        self.count += 1
        return self.count

    def free_port(self) -> int:
        used = {circuit.port for circuit in self.circuits}
        return next(port for port in range(1, PORTS + 2) if port not in used)

    def change(self, index: int, **fields: object) -> None:
        self.circuits[index] = replace(self.circuits[index], **fields)  # type: ignore[arg-type]

    def write(self, folder: Path, revision: str) -> None:
        """Write it as files."""
        every = range(1, self.count + 1)
        places = "\n".join(f"  p{i}: {{assembly: panel, access: cover}}" for i in every) or "  p: {assembly: panel}"
        runs = "\n".join(f"  - {{between: [panel-root, p{i}], length: 400 mm}}" for i in every)
        text = AIRCRAFT.format(revision=revision, length=self.length, places=places, runs=runs)
        (folder / "aircraft.yaml").write_text(text, "utf-8")
        loads = "".join(
            f"  {circuit.load}: {{kind: servo, place: p{circuit.number}, lead: 90 mm, plug: servo-3}}\n"
            for circuit in self.circuits
        )
        circuits = "".join(
            f"  {circuit.name}: {{from: receiver {circuit.port}, to: {circuit.load}, through: [wing], "
            f"lead: {circuit.lead}{circuit.more}}}\n"
            for circuit in self.circuits
        )
        (folder / "harness.yaml").write_text(HARNESS + loads + JOINT + circuits, "utf-8")
        (folder / "parts.yaml").write_text(PARTS, "utf-8")


def add(aircraft: Aircraft, at: int, _: int) -> None:
    if len(aircraft.circuits) < PORTS:
        number = aircraft.fresh()
        circuit = Circuit(number, f"c{number}", f"s{number}", aircraft.free_port())
        aircraft.circuits.insert(at % (len(aircraft.circuits) + 1), circuit)


def remove(aircraft: Aircraft, at: int, _: int) -> None:
    del aircraft.circuits[at]


def rename(aircraft: Aircraft, at: int, _: int) -> None:
    aircraft.change(at, name=f"n{aircraft.count}-{aircraft.circuits[at].name}"[:60])


def rename_load(aircraft: Aircraft, at: int, _: int) -> None:
    aircraft.change(at, load=f"r{aircraft.circuits[at].load}")


def swap_in_file(aircraft: Aircraft, at: int, other: int) -> None:
    circuits = aircraft.circuits
    circuits[at], circuits[other] = circuits[other], circuits[at]


def exchange_ports(aircraft: Aircraft, at: int, other: int) -> None:
    ports = [aircraft.circuits[i].port for i in (at, other)]
    aircraft.change(at, port=ports[1])
    aircraft.change(other, port=ports[0])


def plan(aircraft: Aircraft, at: int, _: int) -> None:
    """Make what is planned, or plan what was never issued."""
    circuit = aircraft.circuits[at]
    if circuit.more or circuit.number not in aircraft.issued:
        aircraft.change(at, more="" if circuit.more == ", planned: yes" else circuit.more or ", planned: yes")


def leave_in(aircraft: Aircraft, at: int, _: int) -> None:
    """Leave in what was in the aircraft from the first issue on, with the lead that it had."""
    if aircraft.circuits[at].number <= FIRST and aircraft.circuits[at].number not in aircraft.rewired:
        aircraft.change(at, more=", left_in: yes")


def other_lead(aircraft: Aircraft, at: int, _: int) -> None:
    now = aircraft.circuits[at].lead
    if "left_in" in aircraft.circuits[at].more:
        return
    aircraft.rewired.add(aircraft.circuits[at].number)
    aircraft.change(at, lead={"servo-22": "signal-24", "signal-24": "servo-20", "servo-20": "servo-22"}[now])


def longer_run(aircraft: Aircraft, _: int, __: int) -> None:
    aircraft.length += 50


EDITS = (add, add, remove, rename, rename_load, swap_in_file, exchange_ports, plan, leave_in, other_lead, longer_run)
MOST = 8


class Seen:
    """What was given in issues: contacts by (number, role) in the last, and whom each wire number ever stood for."""

    def __init__(self) -> None:
        self.contacts: dict[tuple[int, str], str] = {}
        self.numbers: dict[tuple[int, str], str] = {}
        self.letters: dict[tuple[int, str], str] = {}
        self.stood_for: dict[str, int] = {}

    def hold(self, builder: Builder, aircraft: Aircraft, *, keep: bool) -> None:
        """Hold what is now against all that was issued; and keep it, if it is issued."""
        harness = builder.check().harness
        assert harness is not None, builder.check().findings
        assert builder.found("moved") == []
        contacts: dict[tuple[int, str], str] = {}
        numbers: dict[tuple[int, str], str] = {}
        letters: dict[tuple[int, str], str] = {}
        for known in aircraft.circuits:
            circuit = harness.every_circuit[known.name]
            for role, number in circuit.numbers.items():
                numbers[known.number, role] = number
                assert self.stood_for.get(number, known.number) == known.number
            fixed = circuit.leads[0].ends[1]
            contacts |= {(known.number, role): at for role, (at,) in fixed.contacts.items()}
            letters |= {(known.number, lead.ends[0].kind): lead.segment for lead in circuit.leads}
            assert circuit.leads[1].ends[0].contacts == fixed.contacts
        assert len(set(contacts.values())) == len(contacts)
        for was, now in ((self.contacts, contacts), (self.numbers, numbers), (self.letters, letters)):
            assert {key: was[key] for key in was.keys() & now.keys()} == {
                key: now[key] for key in was.keys() & now.keys()
            }
        if keep:
            self.contacts, self.numbers, self.letters = contacts, numbers, letters
            self.stood_for |= {number: who for (who, _), number in numbers.items()}


def there(state: State) -> set[tuple[str, str]]:
    """Return what is in the joint: half, and contact with its colour; what is only planned is not there yet."""
    return {
        (f"{end.name} {end.part}", f"{contact} {wire.colour}")
        for circuit in state.circuits.values()
        for lead in circuit.leads.values()
        for wire in lead.wires.values()
        for end, contacts in zip(lead.ends, wire.at, strict=True)
        for contact in contacts
        if end.kind == "half" and not circuit.planned
    }


def cells(sheet: list[Line], heading: str) -> set[tuple[str, str]]:
    """Return what a rework sheet takes out of the joint, or puts in: half, and contact with its colour."""
    found = [(line.large("at"), line.large(heading)) for line in sheet if line.large("at").startswith("wing ")]
    return {(at, each) for at, cell in found for each in cell.split(", ") if each[:1].isdigit()}


def hold_the_sheet(builder: Builder, base: State) -> None:
    """Hold that what is in the joint, and moved as the sheet says, is what the last issue says."""
    checked, state = builder.check(), builder.state()
    assert checked.harness is not None
    paper = rework(base, state, checked.harness, Choice(), DRAFT)
    covers = sections(paper.files["rework-sheet.pdf"]).get("Under the covers", [])
    out, into = cells(covers, "take out"), cells(covers, "put in")
    assert out <= there(base)
    assert (there(base) - out) | into == there(state)
    assert not (there(base) - out) & into


def check_edits(folder: Path, steps: list[tuple[int, int, int]], *, sheets: bool) -> None:
    """Edit, issue and build in turn, and hold all that stays against what was issued; the rework sheets too."""
    builder, aircraft, seen, issues = Builder(folder, "wren"), Aircraft(), Seen(), 0
    (builder.folder / "stores.yaml").unlink()
    for _ in range(FIRST):
        add(aircraft, 0, 0)
    for step, at, other in steps:
        edit = EDITS[step] if step < len(EDITS) else None
        count = len(aircraft.circuits)
        if edit is not None and (count or edit is add):
            edit(aircraft, at % max(count, 1), other % max(count, 1))
        aircraft.write(builder.folder, f"R{issues}")
        if edit is None:
            base = read_issues(builder.folder)[0].base
            builder.keep()
            aircraft.issued |= {circuit.number for circuit in aircraft.circuits}
            issues += 1
            if sheets and base is not None:
                hold_the_sheet(builder, base)
            seen.hold(builder, aircraft, keep=True)
            if step == len(EDITS) + 1:
                assert builder.say("built")[0] == 0
    aircraft.write(builder.folder, f"R{issues}")
    seen.hold(builder, aircraft, keep=False)


STEPS = st.tuples(st.integers(0, len(EDITS) + 1), st.integers(0, MOST), st.integers(0, MOST))
UNHURRIED = {"deadline": None, "suppress_health_check": list(HealthCheck)}


@given(st.lists(STEPS, min_size=4, max_size=12))
@settings(max_examples=4, derandomize=True, **UNHURRIED)  # type: ignore[arg-type]
@pytest.mark.long
def test_what_stays_has_the_contacts_numbers_and_letters_that_were_issued(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, int, int]]
) -> None:
    check_edits(tmp_path_factory.mktemp("edits"), [(len(EDITS), 0, 0), *steps], sheets=False)


@pytest.mark.longest
@given(st.lists(STEPS, min_size=6, max_size=25))
@settings(max_examples=6, derandomize=True, **UNHURRIED)  # type: ignore[arg-type]
def test_so_it_is_after_many_edits_and_issues_and_rework_sheets_lead_from_one_to_the_next(
    tmp_path_factory: pytest.TempPathFactory, steps: list[tuple[int, int, int]]
) -> None:
    check_edits(tmp_path_factory.mktemp("edits"), [(len(EDITS), 0, 0), *steps], sheets=True)
