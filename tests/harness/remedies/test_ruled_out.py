"""What is no remedy: what is too hot, too thin, carries too little, or takes contacts that are not to spare."""

from __future__ import annotations

import copy

import pytest
from remedied import (
    BEST,
    PARTS,
    WORN,
    Case,
    Check,
    Definition,
    about,
    alone,
    both,
    definition,
    heavy,
    servo,
    shared,
    through_wing,
    tried,
)

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
