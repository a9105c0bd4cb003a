"""Harnesses grown at random: every remedy that is named holds, and none is missed."""

from __future__ import annotations

import itertools
import json
import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

import pytest
from remedied import (
    CONTACTS,
    Definition,
    Tried,
    definition,
    findings_in_folder,
    heavy,
    remedied,
    servo,
    shared,
    through_wing,
    tried,
    weaker_that_hold,
)

from docgen.basics.findings import Finding, RemedyValue
from docgen.harness.remedies.changes import Change, CommonContacts, ContactsEach, ThickerLeads, ThickerOwnLeads
from docgen.harness.remedies.search import Over, Remedies, Remedy
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch

# Grown at random: many ways, wires, joints, outlets and loads.

SEEDS = [pytest.param(range(5), marks=pytest.mark.long), pytest.param(range(5, 20), marks=pytest.mark.longest)]
LEAST_TRIED = 12
MENDED = ("drop", "volts", "wire-current", "contact-current")


def grown(seed: int) -> Definition:
    chance = random.Random(seed)
    heat = chance.choice([None, None, 60, 75, 100])
    leads = (
        ["hot-26", "hot-24", "servo-fluoro-22"] if heat == 100 else ["servo-26", "servo-24", "servo-025", "servo-22"]
    )
    own = ["fluoro-26", "silicone-24"] if heat == 100 else ["", "lead-28", "lead-26", "lead-24", "lead-22"]
    names = ["ail", "flap", "tab"][: chance.randint(1, 3)]
    commons = chance.random() < 0.6
    circuits = heavy(chance.choice(["light-24", "power-20", "power-18", "power-16"])) if commons else {}
    members = names if chance.random() < 0.7 else names[:1]
    outputs: list[Definition | None] = [
        None,
        {"volts": "6 V", "headroom": "0.2 V"},
        {"volts": "5.5 V", "headroom": "0.3 V", "efficiency": "85 %"},
    ]
    output, empty_v = chance.choice(outputs), chance.uniform(6.2, 7.2)
    given_v = min(empty_v, float(output["volts"].split()[0])) if output else empty_v
    strong = chance.random() < 0.3  # working so hard that wires and contacts have too much to carry
    loads = {}
    for number, name in enumerate(names, 1):
        loads[name] = servo(
            f"{chance.uniform(3.5, 5) if strong else chance.uniform(1, 3):.2f} A",
            f"{chance.uniform(1.5, 3.5) if strong else chance.uniform(0.1, 0.6):.2f} A",
            f"{given_v - chance.uniform(0.6, 1.1):.2f} V",
            chance.randint(60, 400),
            chance.choice(own),
        )
        segments = {"A": "lone-24" if commons and name in members else chance.choice(leads), "B": chance.choice(leads)}
        circuits[name] = through_wing(f"unit {number}", name, segments)
    contacts = chance.choice([(["1", "2"], ["3", "4"]), (["1", "2", "3"], ["4", "5", "6"])])
    return definition(
        loads,
        circuits,
        shared(*members, positive=contacts[0], negative=contacts[1]) if commons else None,
        shell=chance.choice([shell for shell in CONTACTS if shell != "tight" or (commons and members == names[:2])]),
        run_mm=(chance.randint(100, 500), chance.randint(200, 900)),
        heat=heat,
        output=output,
        battery={"empty": f"{empty_v:.2f} V", "resistance": f"{chance.randint(0, 30)} mohm"},
    )


@dataclass(frozen=True)
class Grown:
    """A remedy of something grown, tried, and weaker ones that would have done."""

    tried: Tried
    weaker: list[RemedyValue]


def written_and_checked(factory: pytest.TempPathFactory, said: Definition) -> list[Finding]:
    folder = factory.mktemp("grown")
    for name, text in said.items():
        (folder / f"{name}.yaml").write_text(json.dumps(text, ensure_ascii=False), "utf-8")
    return findings_in_folder(folder)


@pytest.fixture(scope="module", params=SEEDS)
def all_tried(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[Grown]:
    """Do what each finding about volts, drops or currents of all that is grown says, or less, and look again."""

    def check_it(said: Definition) -> list[Finding]:
        return written_and_checked(tmp_path_factory, said)

    found = []
    for seed in request.param:
        said = grown(seed)
        before = check_it(said)
        for finding in before:
            if finding.name in MENDED and remedied(said, finding) is not None:
                result = tried(check_it, said, finding, before)
                result = Tried(f"{seed}: {result.what}", result.do, result.still, result.new)
                found.append(Grown(result, weaker_that_hold(check_it, said, finding, before)))
    return found


def test_enough_is_tried(all_tried: list[Grown]) -> None:
    assert len(all_tried) >= LEAST_TRIED


def test_no_finding_is_left_when_what_it_says_is_done(all_tried: list[Grown]) -> None:
    assert [grown.tried for grown in all_tried if grown.tried.still] == []


def test_no_remedy_brings_heat_a_misfit_or_too_much_current(all_tried: list[Grown]) -> None:
    assert [grown.tried for grown in all_tried if grown.tried.new] == []


def test_no_weaker_remedy_would_have_done(all_tried: list[Grown]) -> None:
    assert [(grown.tried, grown.weaker) for grown in all_tried if grown.weaker] == []


# Where no remedy is named, none of what could be changed does, whatever is put together: every combination is tried.

MOST_COMBINATIONS = 4000


def options(remedies: Remedies, path: Sequence[Branch]) -> list[list[Change | None]]:
    """Return for each thing on a path of current what it could be changed to, the two strongest, or nothing."""
    harness, choices = remedies.harness, remedies.choices
    found: list[list[Change]] = []
    for name in dict.fromkeys(step.circuit for step in path if isinstance(step, WireBranch)):
        circuit = harness.circuits[name]
        now = [lead.part.name for lead in circuit.cut_leads]
        for index, cut in enumerate(circuit.cut_leads):
            wired = [[*now[:index], part, *now[index + 1 :]] for _, part in choices.leads_for(circuit, cut)]
            found.append([ThickerLeads((name,), tuple(parts), tuple(now), ()) for parts in wired])
        for index, lead in enumerate(circuit.leads):
            for number, end in enumerate(lead.ends):
                if end.own is not None:
                    kinds = choices.own_wires_for(circuit, lead, end)
                    found.append([ThickerOwnLeads((name,), index, number, kind.name) for kind in kinds])
            if lead.ends[0].kind == "half":
                found.append([ContactsEach(name, lead.ends[0].name)])
    for joint, common in dict.fromkeys(step for step in path if isinstance(step, CommonBranch)):
        disconnect = harness.disconnects[joint]
        before = len(disconnect.commons[common].contacts)
        more = range(before + 1, before + 1 + len(disconnect.spares))
        found.append([CommonContacts(joint, (common,), (count,), (before,)) for count in more])
    return [[None, *changes[-2:]] for changes in found if changes]


def test_no_remedy_is_missed(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    sought: list[tuple[Remedies, Sequence[Branch], Over, Remedy]] = []
    find = Remedies.find

    def noted(remedies: Remedies, path: Sequence[Branch], over: Over) -> Remedy:
        found = find(remedies, path, over)
        sought.append((remedies, path, over, found))
        return found

    monkeypatch.setattr(Remedies, "find", noted)
    for seed in range(10):
        written_and_checked(tmp_path_factory, grown(seed))
    missed, nearer, tried_out = [], [], 0
    for remedies, way, over, found in sought:
        every = options(remedies, way)
        if found.value is not None or math.prod(map(len, every)) > MOST_COMBINATIONS:
            continue
        tried_out += 1
        for combination in itertools.product(*every):
            changes = [change for change in combination if change is not None]
            after = remedies.after(changes)
            if after is not None and over(after) <= 0:
                missed.append(changes)
            if after is not None and over(after) < over(found.after) - 1e-9:
                nearer.append(changes)
    assert (missed, nearer) == ([], [])
    assert tried_out >= 5
