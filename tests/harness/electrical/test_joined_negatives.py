"""Where two supplies share a negative their currents add up there, and each has the drop of both."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import Case, Check, Definition, about, definition, findings_in, servo, through_wing

from docgen.harness.model.harness import Harness
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]


@pytest.fixture
def findings_of(written_folder: WrittenFolder) -> Check:
    return lambda said: findings_in(written_folder, said)


def apart(ail: Definition, flap: Definition, contacts: list[str]) -> Definition:
    """Return two servos on a pack and a unit each, whose negatives share contacts of the wing's joint."""
    said = definition(
        {"ail": ail, "flap": flap},
        {
            "ail": through_wing("unit 1", "ail", "servo-22"),
            "flap": through_wing("unit-2 2", "flap", "servo-22"),
            "supply-2": {"from": "pack-2", "to": "unit-2 IN", "lead": "power-16"},
        },
        {"n": {"role": "negative", "contacts": contacts, "circuits": ["ail", "flap"]}},
        shell="weak",
    )
    equipment = said["harness"]["equipment"]
    equipment |= {"pack-2": equipment["pack"], "unit-2": equipment["unit"]}
    return said


# A contact of 2 A, 6 A for a short while.
SUMS = {
    "working": (servo("2 A", "1.2 A"), "carries 2.40 A working"),
    "stalled": (servo("3.2 A", "0.6 A"), "carries 6.40 A for a short while"),
}


@pytest.mark.parametrize(("load", "words"), SUMS.values(), ids=SUMS)
def test_the_currents_of_both_supplies_pass_the_shared_contact(
    load: Definition, words: str, findings_of: Check
) -> None:
    found = about(findings_of(apart(load, load, ["1"])), Case("contact-current", "wing n", {}))
    assert words in found.sentence


def volts_left(write: WrittenFolder, said: Definition) -> float:

    harness: Harness | None = check(write({f"{name}.yaml": json.dumps(text) for name, text in said.items()})).harness
    assert harness is not None
    left = harness.results.circuits["ail"].volts_left_v
    assert left is not None
    return left


def test_a_shared_contact_drops_for_each_what_both_carry(written_folder: WrittenFolder) -> None:
    # One contact of 40 mΩ, and behind each half a tail of 22 AWG, 40 + 8 + 4 + 2 × 10 = 72 → 75 mm of 53.15 mΩ/m (FAA
    # AC 43.13-1B table 11-9): 47.97 mΩ. 1 A more of the other supply drops 0.048 V there, and nowhere else.
    one, two = (apart(servo("2 A"), servo("3 A", working), ["1"]) for working in ("1 A", "2 A"))
    drop_v = volts_left(written_folder, one) - volts_left(written_folder, two)
    assert drop_v == pytest.approx(0.040 + 2 * 0.075 * 16.20 / 304.8, rel=1e-3)


@pytest.mark.parametrize(("taps", "found"), [("pack", []), ("pack-2", []), ("pack-3", ["ail"])])
def test_a_negative_may_return_to_any_of_the_packs_that_its_positive_comes_from(
    taps: str, found: list[str], written_folder: WrittenFolder
) -> None:
    """One of two packs behind a unit, or a third, passes a tap, to which the negative of a servo returns."""
    ail = through_wing("unit 1", "ail", {"A": "live", "B": "servo-22"})
    said = definition(
        {"ail": servo("1 A")}, {"ail": ail}, {"n": {"role": "negative", "contacts": ["1", "2"], "circuits": ["ail"]}}
    )
    said["parts"] = {"leads": {"live": {"wires": {"positive": "pvc-22 RD", "signal": "pvc-22 WH"}}}}
    equipment, circuits = said["harness"]["equipment"], said["harness"]["circuits"]
    ports = [
        {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
        {"plug": "power-2", "names": ["OUT", "W"], "contacts": "sockets"},
    ]
    equipment |= {"pack-2": equipment["pack"], "pack-3": equipment["pack"]}
    equipment["tap"] = {"kind": "power unit", "place": "tray", "ports": ports}
    equipment["unit"] |= {"isolates": "yes"}
    equipment["unit"]["ports"][0]["names"] = ["IN", "IN-2"]
    for pack, port in (("pack", "IN"), ("pack-2", "IN-2")):
        start = "tap OUT" if pack == taps else pack
        circuits[f"from-{pack}"] = {"from": start, "to": f"unit {port}", "lead": "power-16"}
    del circuits["supply"]
    circuits["tapped"] = {"from": taps, "to": "tap IN", "lead": "power-16"}
    circuits["heavy"] = {"from": "tap W", "to": "wing n", "lead": "power-16", "omit": ["positive"]}
    found_at = [
        finding.subject[1] for finding in findings_in(written_folder, said) if finding.name == "joined-supplies"
    ]
    assert found_at == found
