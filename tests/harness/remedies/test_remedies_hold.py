"""With what a finding says to do done, it is gone, and no wire is too hot, too thin or misfits a contact for it."""

from __future__ import annotations

import copy
import itertools
import json
import math
import random
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from remedied import (
    CONTACTS,
    PARTS,
    PLUGS,
    WORN,
    Case,
    Check,
    Definition,
    Tried,
    about,
    definition,
    findings_in,
    findings_in_folder,
    heavy,
    remedied,
    servo,
    shared,
    through_wing,
    tried,
    two_packs,
    weaker_that_hold,
)

from docgen.basics.findings import Finding
from docgen.harness.remedies.changes import Change, CommonContacts, ContactsEach, ThickerLeads, ThickerOwnLeads
from docgen.harness.remedies.search import Over, Remedies, Remedy
from docgen.harness.wiring.feeds import Branch, CommonBranch, WireBranch

WrittenFolder = Callable[[Mapping[str, str]], Path]


@pytest.fixture
def findings_of(written_folder: WrittenFolder) -> Check:
    return lambda said: findings_in(written_folder, said)


THIN = {"A": "lone-24", "B": "servo-24"}
BEST = {"A": "lone-24", "B": "servo-22"}
NOT_PVC = "B: servo-2"
BRIGHT = {"kind": "light", "place": "tray", "lead": "100 mm", "plug": "light-2", "lead_wire": "silicone-22"}


def both(lead: str | Mapping[str, str]) -> Definition:
    return {name: through_wing(f"unit {number}", name, lead) for number, name in enumerate(("ail", "flap"), 1)}


def alone(load: Definition, lead: str | Mapping[str, str], **more: Any) -> Definition:
    return definition({"ail": load}, {"ail": through_wing("unit 1", "ail", lead)}, **more)


def behind_a_pair(load: Definition, lead: str | Mapping[str, str], pair: str, **more: Any) -> Definition:
    return definition({"ail": load}, heavy(pair) | {"ail": through_wing("unit 1", "ail", lead)}, shared("ail"), **more)


# 10 % of 6.4 V are 0.64 V. 2.4 A over 2 × 1.2 m of 24 AWG (0.08327 Ω/m, nominal) and 2 × 0.2 m of 26 AWG (0.13146)
# drop 0.61 V, and contacts and heavy pair more; with 22 AWG (0.05315 Ω/m, FAA AC 43.13-1B table 11-9) 0.43 V. A servo
# plug takes 22 AWG at most.
CASES = {
    "drop behind commons": Case("drop", "ail", behind_a_pair(servo("2.4 A"), THIN, "power-20", run_mm=(300, 1000))),
    "volts behind commons": Case(
        "volts", "ail", behind_a_pair(servo("2.4 A", least="5.4 V"), THIN, "power-20", run_mm=(300, 1000))
    ),
    # All but the heavy pair is of 22 AWG, and its tails are of its own wire.
    "drop, and the heavy pair's tails": Case(
        "drop",
        "ail",
        behind_a_pair(servo("3 A", wire="lead-22"), BEST, "light-24", run_mm=(900, 200)),
        "Wire heavy",
    ),
    # Wires of 80 °C are no remedy at 100 °C.
    "drop on a hot way": Case(
        "drop",
        "ail",
        alone(servo("2.4 A", wire="lead-22"), "hot-24", run_mm=(300, 800), heat=100),
        not_words=NOT_PVC,
    ),
    "volts on a hot way": Case(
        "volts",
        "ail",
        alone(servo("2.4 A", least="5.4 V", wire="lead-22"), "hot-24", run_mm=(300, 800), heat=100),
        not_words=NOT_PVC,
    ),
    # 26 AWG of 2 A and 150 °C bears at 130 °C 2 × √((150 − 130) / (150 − 70)) = 1.0 A (the form of FAA AC 43.13-1B
    # 11-66d(6)).
    "wire-current on a hot way": Case(
        "wire-current",
        "ail",
        alone(servo("2.4 A", working="1.2 A", wire="silicone-22"), {"A": "servo-22", "B": "hot-26"}, heat=130),
        not_words="`servo-2",
    ),
    # Leads and own lead are the thickest that a servo plug takes, the joint's contacts have 40 mΩ.
    "drop, a second contact": Case(
        "drop",
        "ail",
        alone(servo("1.78 A", wire="lead-22"), "servo-22", shell="weak", run_mm=(500, 1300)),
        "second contact",
    ),
    "volts, a second contact": Case(
        "volts",
        "ail",
        alone(servo("1.78 A", least="5.43 V", wire="lead-22"), "servo-22", shell="weak", run_mm=(500, 1300)),
        "second contact",
    ),
    # 22 AWG of 80 °C bears 3 A (common practice, no source), of 150 °C 5 A (FAA AC 43.13-1B table 11-9).
    "wire-current, a better insulated wire": Case(
        "wire-current",
        "ail",
        alone(servo("4 A", working="3.4 A", wire="silicone-22"), {"A": "servo-silicone-22", "B": "servo-22"}),
        "-22`",
    ),
    "wire-current of an own lead": Case(
        "wire-current", "ail", alone(servo("4 A", working="2.6 A", wire="lead-24"), "servo-22"), "lead_wire"
    ),
    # 2 × 1.8 A where 22 AWG bears 3 A.
    "wire-current of a heavy pair": Case(
        "wire-current",
        "heavy",
        definition(
            {name: servo("3 A", working="1.8 A", wire="lead-22") for name in ("ail", "flap")},
            heavy("light-22") | both(BEST),
            shared("ail", "flap"),
        ),
    ),
    # Contacts of 2 A.
    "contact-current at a joint": Case(
        "contact-current",
        "ail",
        alone(servo("4 A", working="2.4 A", wire="lead-22"), "servo-22", shell="weak"),
        "2 contacts",
    ),
    "contact-current of a common": Case(
        "contact-current",
        "wing p",
        definition(
            {name: servo("3 A", working="2.2 A", wire="lead-22") for name in ("ail", "flap")},
            heavy("power-18") | both(BEST),
            shared("ail", "flap"),
            shell="weak",
        ),
        "3 contacts",
    ),
    # With leads and own lead of 22 AWG, whose 1.2 m less of way saves 0.05 V, a second contact is not needed.
    "drop, leads and own lead before a second contact": Case(
        "drop",
        "ail",
        alone(servo("1.78 A"), "servo-24", shell="weak", run_mm=(500, 1100)),
        "own lead",
        "second contact",
    ),
    # Two contacts of 40 mΩ side by side are 20 mΩ: 2.6 A × 2 × 20 mΩ = 0.1 V less of 0.72 V, less 0.01 V of tails.
    "drop, more contacts of commons": Case(
        "drop",
        "ail",
        definition(
            {"ail": servo("2.6 A", wire="lead-22")},
            heavy("power-16") | {"ail": through_wing("unit 1", "ail", BEST)},
            shared("ail", positive=["1"], negative=["2"]),
            shell="weak",
            run_mm=(300, 1100),
        ),
        "2 contacts",
    ),
    # 2 × 1.8 A over one tail of 22 AWG, which bears 3 A.
    "wire-current of a tail": Case(
        "wire-current",
        "wing p",
        definition(
            {name: servo("3 A", working="1.8 A", wire="lead-22") for name in ("ail", "flap")},
            heavy("light-22") | both(BEST),
            shared("ail", "flap", positive=["1"], negative=["2"]),
        ),
        "2 contacts",
    ),
    # A lead that divides, with both branches too thin: the drop to either counts.
    "drop, a Y": Case(
        "drop",
        "both",
        definition(
            {name: servo("2 A", wire="lead-22") for name in ("ail", "flap")},
            {
                "both": {
                    "from": "unit 1",
                    "to": ["ail", "flap"],
                    "through": ["wing"],
                    "lead": {"A": "servo-22", "B": "servo-22", "C": "servo-26", "D": "servo-26"},
                    "split": {"place": "panel", "loop": "20 mm"},
                }
            },
            run_mm=(100, 900),
        ),
        "C: servo-24, D: servo-24",
    ),
    # The way from the root is cut 975 mm: 2 × 0.975 m × 32.4 mΩ/m of 20 AWG (FAA AC 43.13-1B table 11-9), 2 × 0.1 m ×
    # 15.8 mΩ/m of the own lead and 4 × 3 mΩ are 78 mΩ, × 4 A 0.31 V: 6.09 V of 6.15 V. With 18 AWG, 20.4 mΩ/m, 6.18 V.
    "one-pack": Case("one-pack", "second", two_packs(servo("4 A", wire="lead-22"), "power-20", "5.85 V"), "`power-18`"),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_remedy_that_is_named_holds(case: Case, findings_of: Check) -> None:
    before = findings_of(case.said)
    result = tried(findings_of, case.said, about(before, case), before)
    assert result.holds, result


@pytest.mark.parametrize("case", [case for case in CASES.values() if case.words or case.not_words])
def test_it_is_a_remedy_of_the_kind_that_would_do(case: Case, findings_of: Check) -> None:
    do = about(findings_of(case.said), case).do
    assert case.words in do
    assert not case.not_words or case.not_words not in do


def twin_packs(least: str, lead: str = "power-20", own: str = "pvc-16", run_mm: int = 900) -> Definition:
    """Return a unit with two packs in one entry, behind leads and own leads of which one may be too thin."""
    said = two_packs(servo("4 A", wire="lead-22"), lead, least)
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    pack = {**equipment.pop("pack"), "place": "root", "lead_wire": own}
    said["aircraft"]["runs"][0]["length"] = f"{run_mm} mm"
    del equipment["second"], circuits["supply"], circuits["supply-2"]
    equipment["<side>-pack"] = pack
    circuits["<side>-pack"] = {"from": "<side>-pack", "to": {"left": "unit IN", "right": "unit IN-2"}, "lead": lead}
    return said


# As for one pack above: 6.09 V are left with 20 AWG, 6.18 V with 18 AWG. With 16 AWG, 15.8 mΩ/m, the most that the plug
# takes, and own leads of 24 AWG (83.3 mΩ/m, nominal) 2 × 0.975 m × 15.8 mΩ/m + 2 × 0.1 m × 83.3 mΩ/m + 12 mΩ = 59.5 mΩ,
# × 4 A 0.24 V: 6.16 V of 6.19 V; with 20 AWG for those 6.20 V.
TWINS = {
    "leads": (twin_packs("5.85 V"), re.compile(r"[Ww]ire left-pack and right-pack with `(?P<lead>power-18)`")),
    "own leads": (
        twin_packs("5.89 V", "power-16", "pvc-24"),
        re.compile(r"[Gg]ive left-pack and right-pack own leads of [^`]*\(`lead_wire: (?P<lead_wire>[a-z0-9-]+)`\)"),
    ),
}


@pytest.mark.parametrize(("said", "words"), TWINS.values(), ids=TWINS)
def test_a_remedy_of_twins_in_one_entry_names_both(
    said: Definition, words: re.Pattern[str], findings_of: Check
) -> None:
    before, after = findings_of(said), copy.deepcopy(said)
    for case in (Case("volts", "unit", {}), *(Case("one-pack", f"{side}-pack", {}) for side in ("left", "right"))):
        found = words.search(about(before, case).do)
        assert found is not None, about(before, case).do
        for key, name in found.groupdict().items():
            section = "circuits" if key == "lead" else "equipment"
            after["harness"][section]["<side>-pack"][key] = name
    left = {find.name for find in findings_of(after)}
    assert not left & {"volts", "one-pack"}


# A heavy pair on a contact of its own goes straight in, without a tail that would take another wire.
STRAIGHT_IN = Case(
    "volts",
    "ail",
    definition(
        {"ail": servo("2 A", least="5.645 V", lead_mm=100, wire="lead-22")},
        heavy("power-18") | {"ail": through_wing("unit 1", "ail", BEST)},
        shared("ail", positive=["1"], negative=["2"]),
        run_mm=(900, 1000),
    ),
)


def test_a_remedy_is_no_wire_that_the_only_contact_of_a_common_does_not_take(findings_of: Check) -> None:
    assert "`power-16`" not in about(findings_of(STRAIGHT_IN.said), STRAIGHT_IN).do


def hot_tip() -> Definition:
    """Return a servo whose own lead lies in 100 °C."""
    load = servo("2.4 A", least="5.57 V", lead_mm=500, wire="fluoro-24")
    said = alone(load, "servo-fluoro-22", run_mm=(100, 100))
    said["aircraft"]["places"]["tip"]["heat"] = "100 °C"
    return said


def test_a_remedy_is_no_own_lead_that_is_too_hot(findings_of: Check) -> None:
    before = findings_of(hot_tip())
    result = tried(findings_of, hot_tip(), about(before, Case("volts", "ail", {})), before)
    assert result.new == frozenset()


def own_lead_at_its_current() -> Definition:
    """Return a servo of 2.8 A whose own lead drops too much, with a limit that 0.25 mm² of 2.5 A would keep.

    2 × 0.3 m × 2.8 A: of 0.25 mm² (72 mΩ/m) 0.12 V, of 24 AWG (83.3 mΩ/m, nominal) 0.14 V, of 26 AWG (131) 0.22 V.
    """
    load = servo("2.9 A", working="2.8 A", lead_mm=300, wire="silicone-26")
    said = alone(load, "servo-034", run_mm=(100, 100))
    said["harness"]["limits"] = {"drop_working": "6 %", "drop_stalled": "20 %"}
    return said


def test_a_remedy_is_no_own_lead_that_may_not_carry_the_current(findings_of: Check) -> None:
    before = findings_of(own_lead_at_its_current())
    finding = about(before, Case("drop", "ail", {}))
    assert "lead_wire" in finding.do
    assert tried(findings_of, own_lead_at_its_current(), finding, before).holds


def full_joint() -> Definition:
    """Return a joint with no contact to spare, where a second one would do."""
    load = servo("1.78 A", least="5.43 V", wire="lead-22")
    said = copy.deepcopy(alone(load, "servo-22", shell="weak", run_mm=(500, 1300)))
    said["parts"]["shells"]["weak"]["rows"] = [["1", "2", "3"]]
    return said


def test_no_second_contact_is_a_remedy_at_a_full_joint(findings_of: Check) -> None:
    assert "second contact" not in about(findings_of(full_joint()), Case("volts", "ail", {})).do


# Two commons on four of eight contacts, two signals on two more: two are to spare, and where none has to stay so, two
# may be taken. 2 × 3.2 A want four contacts of 2 A, 2 × 4.2 A five; so many are not there.
@pytest.mark.parametrize(
    ("working", "kept", "words"),
    [
        ("3.2 A", "0", "Share it over 4 contacts"),
        ("4.2 A", "0", "too few to spare (2)"),
        ("3.2 A", "1", "too few to spare (2, of which 1 is to stay spare)"),
        ("3.2 A", "2", "too few to spare (2, of which 2 are to stay spare)"),
    ],
)
def test_no_more_contacts_are_named_than_are_to_spare(working: str, kept: str, words: str, findings_of: Check) -> None:
    said = definition(
        {name: servo("5 A", working=working, wire="lead-22") for name in ("ail", "flap")},
        heavy("power-18") | both(BEST),
        shared("ail", "flap"),
        shell="tight",
    )
    said["harness"]["limits"] = {"spare_contacts": kept}
    assert words in about(findings_of(said), Case("contact-current", "wing p", {})).do


def at_the_last_spares(kept: str) -> Definition:
    """Return a servo on six of eight contacts of 40 mΩ whose drop only more contacts would remedy."""
    load = servo("1.78 A", wire="lead-22")
    said = alone(load, "servo-22", shell="tight", run_mm=(500, 1300))
    said["harness"]["limits"] = {"spare_contacts": kept}
    return said


# Three of eight contacts: five are to spare, a second contact for each pole takes two.
@pytest.mark.parametrize(("kept", "named"), [("3", True), ("4", False)])
def test_no_remedy_takes_contacts_that_are_to_stay_spare(kept: str, named: bool, findings_of: Check) -> None:
    finding = about(findings_of(at_the_last_spares(kept)), Case("drop", "ail", {}))
    assert ("second contact" in finding.do) == named


@pytest.mark.parametrize(("kept", "words"), [("3", "Give the common a second contact"), ("4", "to stay spare")])
def test_no_second_contact_of_a_common_is_one_that_is_to_stay_spare(kept: str, words: str, findings_of: Check) -> None:
    # Two commons and two signals on four of eight contacts.
    said = definition(
        {name: servo("1 A", wire="lead-22") for name in ("ail", "flap")},
        heavy("power-20") | both(BEST),
        shared("ail", "flap", positive=["1"], negative=["2"]),
        shell="tight",
    )
    said["harness"]["limits"] = {"spare_contacts": kept}
    assert words in about(findings_of(said), Case("single-contact", "wing p", {})).do


# Contacts that take 18 AWG of at most 1.9 mm: tails are of the lamp's fluoropolymer of 18 AWG, 1.7 mm thick. With a
# lead of 16 AWG PVC they would be of the heaviest PVC that goes in, of 20 AWG, as that of 18 AWG is 2.1 mm thick.
LAMP_BEHIND = {
    "kind": "light",
    "place": "tip",
    "lead": "100 mm",
    "lead_wire": "pvc-16",
    "plug": "power-2",
    "current": {"working": "4 A"},
    "volts": {"least": "5.54 V"},
}
THINNER_TAILS = Case(
    "volts",
    "lamp",
    definition(
        {"ail": servo("1 A", wire="lead-22"), "lamp": LAMP_BEHIND},
        heavy("power-18")
        | {
            "ail": through_wing("unit 1", "ail", BEST),
            "lamp": {"from": "wing p n", "to": "lamp", "lead": "thin-walled-18"},
        },
        shared("ail", positive=["1"], negative=["2"]),
        shell="narrow",
        run_mm=(300, 1500),
    ),
)
THINNER_TAILS.said["parts"] = {
    "leads": PARTS["leads"]
    | {"thin-walled-18": {"wires": {"negative": "fluoro-18 BK", "positive": "fluoro-18 RD"}, "lay": "30 mm"}},
    "shells": {
        "narrow": {
            **PARTS["shells"]["weak"],
            "contact": {**WORN, "rating": "10 A", "resistance": "5 mohm", "over": "1.9 mm"},
        }
    },
}


def test_a_remedy_leaves_no_tail_too_thin(findings_of: Check) -> None:
    assert "`power-16`" not in about(findings_of(THINNER_TAILS.said), THINNER_TAILS).do


# A lamp of 3.5 A at a plug of 3 A. A heavier plug of those roles takes 22 to 16 AWG, another 16 to 12 AWG.


def lamp(lead: str) -> Definition:
    return definition(
        {"lamp": BRIGHT | {"current": {"working": "3.5 A"}}}, {"lamp": {"from": "unit L", "to": "lamp", "lead": lead}}
    )


def plugs_named(findings: Sequence[Finding]) -> list[str]:
    found = PLUGS.search(about(findings, Case("contact-current", "lamp", {})).do)
    return re.findall(r"`([^`]*)`", found["plugs"]) if found else []


def test_a_heavier_plug_is_named_that_takes_the_wire(findings_of: Check) -> None:
    assert plugs_named(findings_of(lamp("light-22"))) == ["power-2"]


def test_with_a_heavier_plug_the_finding_is_gone(findings_of: Check) -> None:
    before = findings_of(lamp("light-22"))
    finding = about(before, Case("contact-current", "lamp", {}))
    result = tried(findings_of, lamp("light-22"), finding, before, "power-2")
    assert result.holds, result


def test_no_plug_is_named_whose_contacts_do_not_take_the_wire(findings_of: Check) -> None:
    assert plugs_named(findings_of(lamp("light-24"))) == []


# A servo plug takes 22 AWG at most, of 1.7 mm, for 20 AWG. PVC of 22 AWG or 0.34 mm² bears 3 A (common practice), thin
# fluoropolymer 5 A (FAA AC 43.13-1B table 11-9), silicone 7 A (common practice); all others are thinner.
@pytest.mark.parametrize(
    ("working", "words"),
    [
        ("2.9 A", "0.34 mm² like `pvc-034`"),
        ("3.5 A", "22 AWG like `fluoro-22`"),
        ("6.5 A", "22 AWG like `silicone-22`"),
        ("8 A", "no wire of the parts list fits at both ends and bears 8.00 A"),
    ],
)
def test_a_wire_that_fits_a_contact_also_bears_its_current(working: str, words: str, findings_of: Check) -> None:
    load = {**servo("9 A", working), "place": "root"}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-20"}})
    assert words in about(findings_of(said), Case("crimp-fit", "ail", {})).do


def hot_lamp(lead: str, working: str, heat_c: int, own: str) -> Definition:
    """Return a lamp on a power plug, which takes 22 to 16 AWG of at most 2.4 mm, at the end of a hot run."""
    load = BRIGHT | {"place": "root", "plug": "power-2", "lead_wire": own, "current": {"working": working}}
    said = definition({"lamp": load}, {"lamp": {"from": "unit W", "to": "lamp", "lead": lead}})
    said["aircraft"]["runs"][0]["heat"] = f"{heat_c} °C"
    return said


# Silicone of 16 AWG is 3.0 mm thick, thin fluoropolymer 2.0 mm. At 140 °C that bears 11 A (table 11-9) × √((150 −
# 140) / (150 − 70)) = 3.9 A (the form of 11-66d(6)).
@pytest.mark.parametrize(
    ("working", "heat_c", "words"),
    [
        ("3 A", 140, "such as `fluoro-16`, or"),
        ("5 A", 140, "16 AWG, at most 2.4 mm thick, that stands over 140 °C and bears 5 A in it"),
        ("5 A", 100, "such as `fluoro-16`, or"),
    ],
)
def test_a_wire_that_stands_the_heat_goes_in_the_contacts_and_bears_its_current(
    working: str, heat_c: int, words: str, findings_of: Check
) -> None:
    found = findings_of(hot_lamp("power-16", working, heat_c, "silicone-18"))
    assert words in about(found, Case("heat", "lamp", {})).do


# Grown at random: many ways, wires, joints, outlets and loads.

SEEDS = range(20)
LEAST_TRIED = 50
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
    weaker: list[str]


def written_and_checked(factory: pytest.TempPathFactory, said: Definition) -> list[Finding]:
    folder = factory.mktemp("grown")
    for name, text in said.items():
        (folder / f"{name}.yaml").write_text(json.dumps(text, ensure_ascii=False), "utf-8")
    return findings_in_folder(folder)


@pytest.fixture(scope="module")
def all_tried(tmp_path_factory: pytest.TempPathFactory) -> list[Grown]:
    """Do what each finding about volts, drops or currents of all that is grown says, or less, and look again."""

    def check_it(said: Definition) -> list[Finding]:
        return written_and_checked(tmp_path_factory, said)

    found = []
    for seed in SEEDS:
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


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_nothing_weaker_than_what_is_named_would_do(case: Case, findings_of: Check) -> None:
    before = findings_of(case.said)
    assert weaker_that_hold(findings_of, case.said, about(before, case), before) == []


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
        if found.does or math.prod(map(len, every)) > MOST_COMBINATIONS:
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
