"""More contacts are a remedy only while as many stay spare as are wanted."""

from __future__ import annotations

import copy
import re
from pathlib import Path

import pytest
from remedied import Case, Check, Definition, about, both, definition, servo
from resolved import EXAMPLES, harness_of

from docgen.definition.load import load_definition
from docgen.harness import resolve as resolving
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.electrical.results import results_of
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import Results
from docgen.harness.remedies.changes import CommonContacts
from docgen.harness.remedies.choices import Choices
from docgen.harness.remedies.rework import Rework
from docgen.paperwork.kinds import ACCEPTABLE


@pytest.mark.parametrize(("kept", "contacts", "can_be"), [(1, 3, True), (1, 4, False), (2, 3, False), (0, 4, True)])
def test_a_common_gets_as_many_more_contacts_as_are_spare_beyond_those_wanted(
    kept: int, contacts: int, can_be: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By hand: 12 of the 14 contacts of a wing's second joint carry something; its positives share 1 and 2."""
    seen: list[Electricity] = []

    def noted(harness: Harness, electricity: Electricity, loadings: Loadings) -> Results:
        seen.append(electricity)
        return results_of(harness, electricity, loadings)

    monkeypatch.setattr(resolving, "results_of", noted)
    for path in (EXAMPLES / "fulmar").glob("*.yaml"):
        text = path.read_text("utf-8").replace("spare_contacts: 2", f"spare_contacts: {kept}")
        (tmp_path / path.name).write_text(text, "utf-8")
    harness = harness_of(tmp_path)
    rework = Rework(Choices(load_definition(tmp_path, ACCEPTABLE)[0], harness, seen[0]))
    rework.contacts_of["left-wing-b", "wing-positive"] = contacts
    assert (rework.resistances_ohm() is not None) == can_be


def behind_two_joints(stall: str, leads: dict[str, str]) -> Definition:
    """Return a wing behind a fuselage that comes apart too, at contacts of 20 mΩ; those of the wing have 40 mΩ."""
    circuit = {"from": "unit 1", "to": "ail", "through": ["tail", "wing"], "lead": leads}
    said = copy.deepcopy(definition({"ail": servo(stall, wire="lead-22")}, {"ail": circuit}, shell="weak"))
    aircraft, shells, joints = said["aircraft"], said["parts"]["shells"], said["harness"]["disconnects"]
    aircraft["places"] |= {
        "frame": {"assembly": "fuselage", "access": "hatch"},
        "frame-aft": {"assembly": "aft", "access": "hatch"},
        "root": {"assembly": "aft", "access": "wing off"},
    }
    aircraft["runs"][0]["between"] = ["tray", "frame"]
    aircraft["runs"][1]["length"] = "1000 mm"
    aircraft["runs"].append({"between": ["frame-aft", "root"], "length": "200 mm"})
    shells["worn"] = copy.deepcopy(shells["weak"])
    shells["worn"]["contact"]["resistance"] = "20 mohm"
    aft = {"place": "frame-aft", "contacts": "pins", "reach": "100 mm"}
    joints["tail"] = {"shell": "worn", "fixed": {"place": "frame", "contacts": "sockets"}, "loose": aft}
    return said


def test_one_joint_where_second_contacts_do_alone_is_named_before_leads_and_another(findings_of: Check) -> None:
    """By hand: two contacts side by side with tails save 16 mΩ of 40 mΩ and 6 mΩ of 20 mΩ, in each of two wires.

    So the wing's save 0.88 % of 6.4 V at 1.75 A, the tail's 0.33 %. The thickest that servo plugs take, instead of
    24 AWG over the first 0.4 m or so, is 2 × 0.4 m × 30 mΩ/m, 0.66 %.
    """
    said = behind_two_joints("1.75 A", {"A": "servo-24", "B": "servo-20", "C": "servo-22"})
    finding = next(finding for finding in findings_of(said) if finding.name == "drop")
    over = float(re.findall(r"([0-9.]+) %", finding.sentence)[0]) - 10
    assert 0.66 < over < 0.88
    assert finding.remedy == {"circuit": "ail", "disconnect": "wing", "contacts_each": 2}


# Two servos, each with a positive and a signal of its own, and one negative for both leave three of eight contacts.
@pytest.mark.parametrize(
    ("kept", "words"),
    [
        ("2", "Give the common a second contact"),
        ("3", "Too few are to spare (3, of which 3 are to stay spare)"),
        ("4", "Too few are to spare (3, of which 3 are to stay spare)"),
    ],
)
def test_a_second_contact_is_named_while_more_are_spare_than_are_wanted(
    kept: str, words: str, findings_of: Check
) -> None:
    commons = {"n": {"role": "negative", "contacts": ["1"], "circuits": ["ail", "flap"]}}
    said = definition({name: servo("1 A") for name in ("ail", "flap")}, both("servo-22"), commons, shell="tight")
    said["harness"]["limits"] = {"spare_contacts": kept}
    assert words in about(findings_of(said), Case("single-contact", "wing n", {})).do


def test_what_is_weaker_than_more_contacts_has_fewer_on_one_common_alone() -> None:
    both = CommonContacts("root", ("plus", "minus"), counts=(3, 2), now=(1, 1))
    assert [weaker.counts for weaker in both.weaker()] == [(1, 2), (2, 2), (3, 1)]
    # With the other as it is now nothing would be left to do.
    one = CommonContacts("root", ("plus", "minus"), counts=(3, 1), now=(1, 1))
    assert [weaker.counts for weaker in one.weaker()] == [(2, 1)]
