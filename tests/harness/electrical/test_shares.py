"""A circuit with too much for a contact or a wire shows more than its whole limit used."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import Definition, definition, heavy, servo, shared, through_wing

from docgen.harness.model.harness import Harness
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
BEST = {"A": "lone-24", "B": "servo-22"}


def behind_one_contact(working: str, stall: str) -> Definition:
    """Return two servos on common contacts of 2 A, 6 A for a short while, one for each pole."""
    return definition(
        {name: servo(stall, working, wire="lead-22") for name in ("ail", "flap")},
        heavy("power-18") | {name: through_wing(f"unit {i}", name, BEST) for i, name in enumerate(("ail", "flap"), 1)},
        shared("ail", "flap", positive=["1"], negative=["2"]),
        shell="weak",
    )


def leg(limit: str) -> Definition:
    """Return a gear leg whose controller feeds it for so long when it is jammed, at 2.5 A through contacts of 2 A."""
    said = definition({}, {}, shell="weak")
    said["harness"]["equipment"] |= {
        "gear": {
            "kind": "gear controller",
            "place": "tray",
            "gear": {"limit": limit, "stop": "2.5 A"},
            "ports": [
                {"plug": "power-2", "names": ["IN"], "contacts": "pins"},
                {"plug": "motor-2", "names": ["LEG"], "contacts": "pins"},
            ],
        },
        "nose": {
            "kind": "gear leg",
            "place": "tip",
            "lead": "200 mm",
            "lead_wire": "pvc-22",
            "plug": "motor-2",
            "current": {"idle": "0 A", "working": "1 A", "stall": "4 A", "runs": "20 s"},
        },
    }
    said["harness"]["circuits"] |= {
        "gear-supply": {"from": "unit W", "to": "gear IN", "lead": "power-16"},
        "leg": {"from": "gear LEG", "to": "nose", "through": ["wing"], "lead": "motor-22"},
    }
    return said


def built(write: WrittenFolder, said: Definition) -> Harness:
    harness = check(
        write({f"{name}.yaml": json.dumps(text, ensure_ascii=False) for name, text in said.items()})
    ).harness
    assert harness is not None
    return harness


@pytest.mark.parametrize("circuit", ["heavy", "ail", "flap"])
def test_a_contact_of_a_common_counts_with_all_who_share_it(circuit: str, written_folder: WrittenFolder) -> None:
    # 2 × 1.2 A of 2 A; at peak both stalled, 2 × 3.6 A of 6 A.
    shares = built(written_folder, behind_one_contact("1.2 A", "3.6 A")).results.circuits[circuit].shares
    assert (shares.contact, shares.brief) == pytest.approx((1.2, 1.2))


def test_a_tail_counts_among_the_wires(written_folder: WrittenFolder) -> None:
    # Behind the loose half one tail of 22 AWG, which bears 3 A (common practice), for 2 × 1.8 A.
    shares = built(written_folder, behind_one_contact("1.8 A", "2 A")).results.circuits["ail"].shares
    assert shares.wire == pytest.approx(1.2)


@pytest.mark.parametrize(("limit", "contact"), [("11 s", 1.25), ("9 s", 0.5)])
def test_a_jammed_leg_counts_for_as_long_as_it_is_fed(
    limit: str, contact: float, written_folder: WrittenFolder
) -> None:
    # 2.5 A of 2 A where it lasts, else 1 A working.
    shares = built(written_folder, leg(limit)).results.circuits["leg"].shares
    assert shares.contact == pytest.approx(contact)


@pytest.mark.parametrize(
    "said", [behind_one_contact("1.2 A", "3.6 A"), behind_one_contact("0.5 A", "3.6 A"), leg("11 s")]
)
def test_who_has_a_contact_finding_shows_over_the_whole(said: Definition, written_folder: WrittenFolder) -> None:
    harness = built(written_folder, said)
    found = [finding.subject for finding in harness.findings if finding.name == "contact-current"]
    assert found
    for section, name in found:
        circuits = [name] if section == "circuits" else ["heavy", "ail", "flap"]
        for circuit in circuits:
            shares = harness.results.circuits[circuit].shares
            assert max(shares.contact or 0, shares.brief or 0) > 1
