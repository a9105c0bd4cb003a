"""Definitions with something too thin or too weak, and what a finding says to do done in them."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from docgen.basics.findings import Finding, RemedyValue
from docgen.basics.shipped import shipped_folder
from docgen.definition.kept import NOTHING_ISSUED
from docgen.definition.load import load_definition
from docgen.definition.model import Parts
from docgen.harness.model.harness import Harness
from docgen.harness.resolve import resolve
from docgen.paperwork.kinds import ACCEPTABLE

WrittenFolder = Callable[[Mapping[str, str]], Path]
Definition = dict[str, Any]
Remedy = RemedyValue
Check = Callable[[Definition], list[Finding]]
Key = tuple[str, tuple[str, str]]
"""A finding's name, and what it is about."""

NO_NEW = {"heat", "crimp-fit", "wire-current", "spare-contacts"}
CONTACTS = {"block-14": 14, "dsub-25": 25, "weak": 14, "tight": 8}
WORN = {
    "rating": "2 A",
    "brief": "6 A",
    "resistance": "40 mohm",
    "takes": ["26 AWG", "18 AWG"],
    "over": "2.2 mm",
}
PARTS: Definition = {
    "leads": {
        "lone-24": {"wires": {"signal": "pvc-24 WH"}},
        "light-22": {"wires": {"negative": "pvc-22 BK", "positive": "pvc-22 RD"}},
        "hot-26": {"wires": {"negative": "fluoro-26 BK", "positive": "fluoro-26 RD", "signal": "fluoro-26 WH"}},
        "hot-24": {"wires": {"negative": "fluoro-24 BK", "positive": "fluoro-24 RD", "signal": "fluoro-24 WH"}},
    },
    # Contacts that are worn, or too small.
    "shells": {
        "weak": {
            "rows": [[str(number) for number in row] for row in (range(1, 8), range(8, 15))],
            "pitch": {"across": "5 mm", "down": "5 mm"},
            "outline": ["40 mm", "12 mm"],
            "contact": WORN,
        },
        "tight": {
            "rows": [["1", "2", "3", "4"], ["5", "6", "7", "8"]],
            "pitch": {"across": "5 mm", "down": "5 mm"},
            "outline": ["25 mm", "12 mm"],
            "contact": WORN,
        },
    },
}


def servo(stall: str, working: str = "0.3 A", least: str = "", lead_mm: int = 200, wire: str = "") -> Definition:
    said: Definition = {
        "kind": "servo",
        "place": "tip",
        "lead": f"{lead_mm} mm",
        "plug": "servo-3",
        "current": {"working": working, "stall": stall},
    }
    said |= {"volts": {"least": least}} if least else {}
    return said | ({"lead_wire": wire} if wire else {})


def definition(
    loads: Mapping[str, Definition],
    circuits: Mapping[str, Definition],
    commons: Definition | None = None,
    *,
    shell: str = "block-14",
    run_mm: tuple[int, int] = (300, 700),
    heat: int | None = None,
    output: Definition | None = None,
    battery: Definition | None = None,
) -> Definition:
    """Return an aircraft with a pack and a power unit in the fuselage, and loads in the wing."""
    hot = {} if heat is None else {"heat": f"{heat} °C"}
    group = {} if output is None else {"output": output}
    pack = {"cells": "2", "capacity": "2000 mAh", "full": "8.4 V", "empty": "6.4 V", **(battery or {})}
    aircraft = {
        "aircraft": {"name": "Tern", "description": "a wing", "marks": "TE-1", "revision": "A", "date": "2026-01-01"},
        "places": {
            "tray": {"assembly": "fuselage", "access": "hatch"},
            "root": {"assembly": "fuselage", "access": "wing off"},
            "panel": {"assembly": "wing", "access": "wing off"},
            "tip": {"assembly": "wing", "access": "cover"},
        },
        "runs": [
            {"between": ["tray", "root"], "length": f"{run_mm[0]} mm"},
            {"between": ["panel", "tip"], "length": f"{run_mm[1]} mm", **hot},
        ],
    }
    names = [str(number) for number in range(1, 6)]
    ports = [
        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
        {"plug": "power-2", "names": ["W"], "contacts": "pins", **group},
        {"plug": "servo-3", "names": names, "contacts": "pins", **group},
        {"plug": "light-2", "names": ["L"], "contacts": "pins"},
    ]
    joint = {
        "shell": shell,
        "fixed": {"place": "root", "contacts": "sockets"},
        "loose": {"place": "panel", "contacts": "pins", "reach": "100 mm"},
        "commons": commons or {},
    }
    own = {"kind": "battery", "place": "tray", "lead": "100 mm", "lead_wire": "pvc-16", "plug": "power-2"}
    equipment = {
        "pack": {**own, "battery": pack},
        "unit": {"kind": "power unit", "place": "tray", "ports": ports},
        **loads,
    }
    supply = {"from": "pack", "to": "unit IN", "lead": "power-16"}
    harness = {"equipment": equipment, "disconnects": {"wing": joint}, "circuits": {"supply": supply, **circuits}}
    return {"aircraft": aircraft, "harness": harness, "parts": PARTS}


def through_wing(start: str, load: str, lead: str | Mapping[str, str]) -> Definition:
    return {"from": start, "to": load, "through": ["wing"], "lead": lead}


BEST = {"A": "lone-24", "B": "servo-22"}


def both(lead: str | Mapping[str, str]) -> Definition:
    return {name: through_wing(f"unit {number}", name, lead) for number, name in enumerate(("ail", "flap"), 1)}


def alone(load: Definition, lead: str | Mapping[str, str], **more: Any) -> Definition:
    return definition({"ail": load}, {"ail": through_wing("unit 1", "ail", lead)}, **more)


def shared(*members: str, positive: Sequence[str] = ("1", "2"), negative: Sequence[str] = ("3", "4")) -> Definition:
    poles = {"positive": positive, "negative": negative}
    return {
        role[0]: {"role": role, "contacts": list(contacts), "circuits": list(members)}
        for role, contacts in poles.items()
    }


def heavy(lead: str) -> Definition:
    return {"heavy": {"from": "unit W", "to": "wing p n", "lead": lead}}


def two_packs(load: Definition, second: str, least: str) -> Definition:
    """Return an aircraft with another pack at the root, whose lead to the unit is `second`."""
    said = definition({"ail": load}, {"ail": through_wing("unit 1", "ail", "servo-22")}, run_mm=(900, 300))
    equipment = said["harness"]["equipment"]
    equipment["second"] = {**equipment["pack"], "place": "root"}
    equipment["unit"] |= {"isolates": "yes", "volts": {"least": least}}
    equipment["unit"]["ports"][0]["names"] = ["IN", "IN-2"]
    said["harness"]["circuits"]["supply-2"] = {"from": "second", "to": "unit IN-2", "lead": second}
    return said


# What a finding says to do, done.

PLUGS = re.compile(r"use a heavier plug: (?P<plugs>[^.]*)\.", re.IGNORECASE)


def each_of(remedy: Remedy | None) -> list[Remedy]:
    """Return the things to do of a remedy."""
    return [] if remedy is None else remedy.get("all", [remedy])


def remedied(before: Definition, finding: Finding, plug: str = "") -> Definition | None:
    """Return the definition with what a finding says to do, or nothing where it names nothing."""
    after = copy.deepcopy(before)
    for remedy in each_of(finding.remedy):
        do(after["harness"], remedy)
    if plug:
        replug(after["harness"], finding.subject[1], plug)
    return after if after != before else None


def do(harness: Definition, remedy: Remedy) -> None:
    if "lead" in remedy:
        harness["circuits"][remedy["circuit"]]["lead"] = remedy["lead"]
    elif "lead_wire" in remedy:
        harness["equipment"][remedy["equipment"]]["lead_wire"] = remedy["lead_wire"]
    elif "contacts_each" in remedy:
        share(harness, remedy["disconnect"], remedy["circuit"], remedy["contacts_each"])
    else:
        widen(harness["disconnects"][remedy["disconnect"]], remedy["common"], remedy["contacts"])


def free_contacts(joint: Definition) -> list[str]:
    """Return the contacts of no common, last ones first, so that circuits still have blocks."""
    taken = {contact for common in joint["commons"].values() for contact in common["contacts"]}
    return [name for number in range(CONTACTS[joint["shell"]], 0, -1) if (name := str(number)) not in taken]


def share(harness: Definition, joint: str, circuit: str, count: int) -> None:
    """Give each pole that a circuit has alone at a joint a common of so many contacts, with tails as long as usual."""
    said = harness["disconnects"][joint]
    for role in ("positive", "negative"):
        if not any(common["role"] == role and circuit in common["circuits"] for common in said["commons"].values()):
            contacts = free_contacts(said)[:count]
            said["commons"][f"{circuit}-{role}"] = {"role": role, "contacts": contacts, "circuits": [circuit]}


def widen(joint: Definition, common: str, count: int) -> None:
    contacts = joint["commons"][common]["contacts"]
    contacts += free_contacts(joint)[: count - len(contacts)]


def replug(harness: Definition, circuit: str, plug: str) -> None:
    """Put another plug at both ends of a circuit."""
    said = harness["circuits"][circuit]
    name, port = said["from"].split()
    for group in harness["equipment"][name]["ports"]:
        if port in group["names"]:
            group["plug"] = plug
    harness["equipment"][said["to"]]["plug"] = plug


def findings_in(write: WrittenFolder, said: Definition) -> list[Finding]:
    """Return the findings of a definition that has no error; JSON is YAML too."""
    return findings_in_folder(
        write({f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()})
    )


def findings_in_folder(folder: Path) -> list[Finding]:
    loaded, findings = load_definition(folder, ACCEPTABLE)
    harness, found = resolve(loaded, NOTHING_ISSUED)
    assert harness is not None, findings + found
    return found


def built(write: WrittenFolder, said: Definition) -> Harness:
    """Return the harness of a definition that has no error."""
    loaded, findings = load_definition(
        write({f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()}), ACCEPTABLE
    )
    harness, found = resolve(loaded, NOTHING_ISSUED)
    assert harness is not None, findings + found
    return harness


def keys(findings: Sequence[Finding], *names: str) -> set[Key]:
    return {(finding.name, finding.subject) for finding in findings if not names or finding.name in names}


def count(findings: Sequence[Finding], like: Finding) -> int:
    """Count findings of one name about one thing; of wires those of one lead, or of the tails behind one half."""

    def of(finding: Finding) -> tuple[str, tuple[str, str], str]:
        wires = finding.sentence.partition(": ")[0].partition(" of ")[2] if finding.name == "wire-current" else ""
        return finding.name, finding.subject, wires

    return sum(of(finding) == of(like) for finding in findings)


@dataclass(frozen=True)
class Tried:
    """A remedy tried: what was found, what is still found of it, and what came with it."""

    what: str
    do: str
    still: bool
    new: frozenset[Key]

    @property
    def holds(self) -> bool:
        return not self.still and not self.new


def tried(check_it: Check, said: Definition, finding: Finding, before: Sequence[Finding], plug: str = "") -> Tried:
    after = remedied(said, finding, plug)
    assert after is not None, finding.do
    found = check_it(after)
    still = count(found, finding) >= count(before, finding)
    new = frozenset(keys(found, *NO_NEW) - keys(before, *NO_NEW))
    return Tried(f"{finding.name} of {finding.subject[1]}", finding.do, still, new)


@dataclass(frozen=True)
class Case:
    """A definition with a finding, and words of the remedy that is wanted of it."""

    name: str
    about: str
    said: Definition
    words: str = ""
    not_words: str = ""


def about(findings: Sequence[Finding], case: Case) -> Finding:
    found = [finding for finding in findings if finding.name == case.name and finding.subject[1] == case.about]
    assert found, f"{case.name} is not found: {sorted(keys(findings))}"
    return found[0]


# Weaker remedies: the same without one of its changes, or with one of them smaller.


@cache
def parts() -> Parts:
    loaded, _ = load_definition(shipped_folder("examples") / "wren", ACCEPTABLE)
    assert loaded is not None
    return loaded.parts


@cache
def leads() -> dict[str, dict[str, str]]:
    """Return the wires of every lead of the parts list and of ours, by role."""
    built_in = {name: {role: wire.wire for role, wire in part.wires.items()} for name, part in parts().leads.items()}
    ours = {
        name: {role: said.split()[0] for role, said in part["wires"].items()} for name, part in PARTS["leads"].items()
    }
    return built_in | ours


def lead_area(name: str) -> float:
    """Return the area of a lead's thinnest wire of a pole, or of its only wire [mm²]."""
    wires = leads()[name]
    poles = [wire for role, wire in wires.items() if role in ("negative", "positive")] or list(wires.values())
    return min(parts().wires[wire].gauge.area_mm2 for wire in poles)


def thinner_leads(now: str, then: str) -> list[str]:
    """Return the leads of the same roles between two by their area."""
    alike = [name for name, wires in leads().items() if wires.keys() == leads()[then].keys()]
    return [name for name in alike if lead_area(now) < lead_area(name) - 1e-6 < lead_area(then) - 2e-6]


def weaker(before: Definition, finding: Finding) -> Iterator[Remedy]:
    """Walk a finding's remedy with one thing to do left out, or with one size or contact less of it."""
    remedies = each_of(finding.remedy)
    for index, remedy in enumerate(remedies):
        for less in ([], *([one] for one in less_of(before["harness"], remedy))):
            yield {"all": [*remedies[:index], *less, *remedies[index + 1 :]]}


def less_of(harness: Definition, remedy: Remedy) -> Iterator[Remedy]:
    if "lead" in remedy:
        for lead in weaker_leads(harness["circuits"][remedy["circuit"]], remedy["lead"]):
            yield remedy | {"lead": lead}
    elif "lead_wire" in remedy:
        own = harness["equipment"][remedy["equipment"]].get("lead_wire", "lead-26")
        least, most = (parts().wires[name].gauge.area_mm2 for name in (own, remedy["lead_wire"]))
        for name, wire in parts().wires.items():
            if least < wire.gauge.area_mm2 - 1e-6 < most - 2e-6:
                yield remedy | {"lead_wire": name}
    else:
        key, least = ("contacts_each", 2) if "contacts_each" in remedy else ("contacts", 1)
        if remedy[key] > least:
            yield remedy | {key: remedy[key] - 1}


def by_segment(lead: str | Mapping[str, str], segments: Sequence[str]) -> dict[str, str]:
    return dict.fromkeys(segments, lead) if isinstance(lead, str) else dict(lead)


def weaker_leads(said: Definition, named: str | Mapping[str, str]) -> Iterator[str | dict[str, str]]:
    """Walk the leads of a circuit as named, but segments as they were or of thinner ones."""
    segments = list(said["lead"]) if isinstance(said["lead"], dict) else ["A", "B"] if "through" in said else ["A"]
    now, then = by_segment(said["lead"], segments), by_segment(named, segments)
    changed = [segment for segment in segments if now[segment] != then[segment]]
    thinner = {segment: set(thinner_leads(now[segment], then[segment])) for segment in changed}
    candidates = [then | {segment: now[segment]} for segment in changed if len(changed) > 1]
    for name in sorted(set().union(*thinner.values())):
        alike = [segment for segment in changed if name in thinner[segment]]
        candidates += [then | dict.fromkeys(some, name) for some in (alike, *([segment] for segment in alike))]
    yield from (chosen if len(chosen) > 1 else chosen["A"] for chosen in candidates)


def weaker_that_hold(check_it: Check, said: Definition, finding: Finding, before: Sequence[Finding]) -> list[Remedy]:
    """Return the weaker remedies that would have done as well."""
    held: list[Remedy] = []
    for remedy in {json.dumps(remedy): remedy for remedy in weaker(said, finding)}.values():
        less = replace(finding, remedy=remedy)
        if remedied(said, less) is not None and tried(check_it, said, less, before).holds:
            held.append(remedy)
    return held
