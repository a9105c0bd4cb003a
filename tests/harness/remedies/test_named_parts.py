"""Plugs and wires that are named take each other, stand the heat and bear the current."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest
from remedied import (
    BEST,
    PLUGS,
    Case,
    Check,
    Definition,
    about,
    alone,
    both,
    definition,
    heavy,
    keys,
    servo,
    shared,
    through_wing,
    tried,
)

from docgen.basics.findings import Finding

BRIGHT = {"kind": "light", "place": "tray", "lead": "100 mm", "plug": "light-2", "lead_wire": "silicone-22"}


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


# A servo that stalls at 9 A, at a plug that bears 5 A briefly: one plug is all it has, and nothing is shared.
STRONG: Definition = {
    "contacts": {"1": "negative", "2": "positive", "3": "signal"},
    "equipment": "sockets",
    "size": ["9 mm", "4 mm"],
    "contact": {"rating": "5 A", "brief": "9 A", "resistance": "6 mohm", "takes": ["24 AWG", "20 AWG"]},
}


@pytest.mark.parametrize(
    ("brief", "words"),
    [
        ("9 A", "Use a heavier plug: `strong-3`."),
        ("8.9 A", "give it a supply of its own on `power-2`, and this plug the signal alone; or add a heavier one"),
    ],
)
def test_a_strong_servo_gets_a_heavier_plug_or_a_supply_of_its_own(brief: str, words: str, findings_of: Check) -> None:
    said = alone(servo("9 A"), "servo-22")
    strong = STRONG | {"contact": {**STRONG["contact"], "brief": brief}}
    found = findings_of(said | {"parts": said["parts"] | {"plugs": {"strong-3": strong}}})
    assert {words in finding.do for finding in found if finding.name == "contact-current"} == {True}


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


# Contacts of 2 A in a shell of eight, for a servo that works at 2.5 A: of the built-in list `block-6` has too few, and
# `block-8` as many as are there; their contacts bear 10 A (common practice, no source).
def test_a_heavier_shell_is_named_that_has_as_many_contacts(findings_of: Check) -> None:
    found = findings_of(alone(servo("2.5 A", "2.5 A"), "servo-22", shell="tight"))
    do = about(found, Case("contact-current", "ail", {})).do
    assert do.endswith("use a heavier shell: `block-8`, `block-10`, `block-14`.")


# A second contact for either pole takes two; a servo on three of eight contacts leaves five, of which as many as the
# builder says stay spare.
@pytest.mark.parametrize(("kept", "words"), [("3", "Share it over 2 contacts"), ("4", "has too few to spare (5")])
def test_contacts_are_shared_if_there_are_spares_for_both_poles(kept: str, words: str, findings_of: Check) -> None:
    said = alone(servo("2.5 A", "2.5 A"), "servo-22", shell="tight")
    said["harness"]["limits"] = {"spare_contacts": kept}
    assert words in about(findings_of(said), Case("contact-current", "ail", {})).do


# At 140 °C thin fluoropolymer of 22 AWG bears 5 A (table 11-9) × √((150 − 140) / (150 − 70)) = 1.77 A, silicone 7 A
# (common practice) × √((200 − 140) / (200 − 70)) = 4.76 A. Both go in a servo's contact; the signal takes nothing.
@pytest.mark.parametrize(
    ("working", "words"),
    [("1.7 A", "such as `fluoro-22`, `silicone-22`, or"), ("1.8 A", "such as `silicone-22`, or")],
)
def test_a_wire_is_named_that_carries_what_the_heaviest_loaded_does(
    working: str, words: str, findings_of: Check
) -> None:
    found = findings_of(alone(servo("9 A", working), "servo-22", heat=140))
    assert words in about(found, Case("heat", "ail", {})).do


def test_a_wire_is_wanted_that_goes_in_the_narrower_of_two_contacts(findings_of: Check) -> None:
    """A block's contacts take 2.2 mm, a servo plug's 1.7 mm."""
    found = findings_of(alone(servo("2 A"), "servo-22", heat=300))
    assert (
        "Add a wire of 22 AWG, at most 1.7 mm thick, that stands over 300 °C"
        in about(found, Case("heat", "ail", {})).do
    )


def test_a_wire_that_is_spliced_to_tails_goes_in_the_contact_at_its_other_end(findings_of: Check) -> None:
    """A power plug's contacts take 2.4 mm; behind the block, of 2.2 mm, are tails."""
    said = definition(
        {"ail": servo("2 A")},
        {**heavy("power-16"), "ail": through_wing("unit 1", "ail", {"A": "lone-24", "B": "servo-22"})},
        shared("ail"),
    )
    said["aircraft"]["runs"][0]["heat"] = "300 °C"
    do = about(findings_of(said), Case("heat", "heavy", {})).do
    assert "Add a wire of 16 AWG, at most 2.4 mm thick, that stands over 300 °C" in do


# Of 22 AWG thin fluoropolymer for 150 °C and silicone for 200 °C bear 3.5 A; PVC stands 80 °C.
@pytest.mark.parametrize(("lead", "wire"), [("servo-silicone-20", "silicone-22"), ("servo-20", "fluoro-22")])
def test_of_wires_of_a_size_the_one_is_named_that_stands_about_the_same(
    lead: str, wire: str, findings_of: Check
) -> None:
    load = {**servo("9 A", "3.5 A"), "place": "root"}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": lead}})
    assert f"22 AWG like `{wire}`" in about(findings_of(said), Case("crimp-fit", "ail", {})).do


# Two servos of 1.8 A share two tails, 1.8 A in each; the thinnest wire of the built-in parts list is 28 AWG.
def test_where_no_wire_does_for_tails_it_says_what_each_has_to_bear(findings_of: Check) -> None:
    leads = both(BEST)
    said = definition({name: servo("4 A", "1.8 A") for name in leads}, heavy("power-18") | leads, shared(*leads))
    tight = said["parts"]["shells"]["tight"]
    fine = tight | {"contact": {**tight["contact"], "takes": ["32 AWG", "30 AWG"]}}
    said = said | {"parts": said["parts"] | {"shells": {"fine": fine}}}
    said["harness"]["disconnects"]["wing"]["shell"] = "fine"
    of_tails = [f.do for f in findings_of(said) if f.name == "crimp-fit" and " tails of " in f.sentence]
    assert of_tails
    assert all("no wire of the parts list fits here and bears 1.80 A." in do for do in of_tails)


# Of 24 AWG what is twisted here has longer wires, and so more resistance, than what came as a cable. Both do.
def test_of_leads_of_a_size_that_do_the_weaker_is_named(findings_of: Check) -> None:
    found = findings_of(alone(servo("2 A", wire="lead-22"), "flat-26"))
    assert "Wire ail with `{A: flat-26, B: servo-24}`: " in about(found, Case("drop", "ail", {})).do
    for lead in ("servo-24", "cable-24"):
        after = findings_of(alone(servo("2 A", wire="lead-22"), {"A": "flat-26", "B": lead}))
        assert ("drop", ("circuits", "ail")) not in keys(after)


# Of 24 AWG thin fluoropolymer bears 4 A (FAA AC 43.13-1B table 11-9) and silicone 5 A (common practice); of 26 AWG they
# bear 2 A and 3 A (common practice).
@pytest.mark.parametrize("family", ["fluoro", "silicone"])
def test_of_own_leads_that_carry_it_one_of_the_same_kind_is_named(family: str, findings_of: Check) -> None:
    load = {**servo("9 A", "3.5 A", wire=f"{family}-26"), "place": "root"}
    said = definition({"ail": load}, {"ail": {"from": "unit 1", "to": "ail", "lead": "servo-silicone-22"}})
    do = about(findings_of(said), Case("wire-current", "ail", {})).do
    assert do == f"Give ail an own lead of 24 AWG (`lead_wire: {family}-24`)."
