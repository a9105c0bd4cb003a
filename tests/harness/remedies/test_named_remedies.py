"""With what a finding says to do done, it is gone, and nothing weaker would have done."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Mapping
from typing import Any

import pytest
from remedied import (
    BEST,
    Case,
    Check,
    Definition,
    about,
    alone,
    both,
    definition,
    each_of,
    heavy,
    servo,
    shared,
    through_wing,
    tried,
    two_packs,
    weaker_that_hold,
)

THIN = {"A": "lone-24", "B": "servo-24"}
NOT_PVC = "B: servo-2"


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


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_the_parts_of_a_remedy_as_data_are_those_that_are_said(case: Case, findings_of: Check) -> None:
    finding, part = about(findings_of(case.said), case), re.compile(r"[a-z][a-z-]*-[0-9]+")
    said, data = (set(part.findall(text)) for text in (finding.do.split(", or ")[0], json.dumps(finding.remedy)))
    assert said <= data <= said | set(part.findall(json.dumps(case.said["harness"])))


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
    "leads": (twin_packs("5.85 V"), "circuit", "lead", "ire left-pack and right-pack with `"),
    "own leads": (
        twin_packs("5.89 V", "power-16", "pvc-24"),
        "equipment",
        "lead_wire",
        "ive left-pack and right-pack own leads of ",
    ),
}


@pytest.mark.parametrize(("said", "of", "key", "words"), TWINS.values(), ids=TWINS)
def test_a_remedy_of_twins_in_one_entry_names_both(
    said: Definition, of: str, key: str, words: str, findings_of: Check
) -> None:
    before, after = findings_of(said), copy.deepcopy(said)
    section = {"circuit": "circuits", "equipment": "equipment"}[of]
    for case in (Case("volts", "unit", {}), *(Case("one-pack", f"{side}-pack", {}) for side in ("left", "right"))):
        finding = about(before, case)
        assert words in finding.do
        ours = [remedy for remedy in each_of(finding.remedy) if key in remedy]
        assert [remedy[of] for remedy in ours] == ["left-pack", "right-pack"]
        assert ours[0][key] == ours[1][key]
        after["harness"][section]["<side>-pack"][key] = ours[0][key]
    left = {find.name for find in findings_of(after)}
    assert not left & {"volts", "one-pack"}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_nothing_weaker_than_what_is_named_would_do(case: Case, findings_of: Check) -> None:
    before = findings_of(case.said)
    assert weaker_that_hold(findings_of, case.said, about(before, case), before) == []


def test_what_a_second_contact_leaves_is_that_of_two_side_by_side_with_their_tails(findings_of: Check) -> None:
    # A contact of 40 mΩ is 40 mΩ. Two with tails of 75 mm of 22 AWG (53.15 mΩ/m, FAA AC 43.13-1B table 11-9) on both
    # halves are (40 + 2 × 75 × 0.05315) / 2 = 24 mΩ; out and back 32 mΩ less, × 1.78 A of 6.4 V 0.89 %.
    finding = about(findings_of(CASES["drop, a second contact"].said), CASES["drop, a second contact"])
    now, then = (float(re.findall(r"([0-9.]+) %", text)[0]) for text in (finding.sentence, finding.do))
    assert now - then == pytest.approx(0.89, abs=0.02)
