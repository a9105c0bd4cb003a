"""A definition with every key that the builder may write."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from every_key import KINDS, files

from docgen.basics.findings import Finding
from docgen.definition.equipment import Output
from docgen.definition.load import load_definition
from docgen.harness.model.harness import Harness
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
ErrorsIn = Callable[[Path], list[Finding]]


@pytest.fixture
def harness(written_folder: WrittenFolder) -> Harness:
    checked = check(written_folder(files()))
    assert checked.harness is not None, checked.findings
    return checked.harness


def test_every_key_is_taken(written_folder: WrittenFolder) -> None:
    _, findings = load_definition(written_folder(files()), ACCEPTABLE)
    assert [(finding.position.line, finding.sentence) for finding in findings] == []


def test_a_definition_with_every_key_has_no_error(written_folder: WrittenFolder, errors_in: ErrorsIn) -> None:
    assert errors_in(written_folder(files())) == []


def test_contacts_of_a_joint_are_shared_or_a_circuit_s_own_as_written(harness: Harness) -> None:
    wing = harness.disconnects["wing"]
    assert {contact: use.of for contact, use in wing.uses.items()} == {
        "2": "tip-servo",
        "3": "feed",
        "4": "feed",
        "5": "back",
        "6": "back",
    }
    assert wing.spares == ("1",)


def test_commons_join_the_pair_that_feeds_them_with_what_takes_from_them(harness: Harness) -> None:
    commons = harness.disconnects["wing"].commons
    for name, role in (("feed", "positive"), ("back", "negative")):
        joined = [[(lead.name, wire.role) for lead, wire in half.wires] for half in commons[name].halves]
        assert joined == [[("wing-feed A", role)], [("tip-servo B", role), ("tip-light A", role)]]
        # A tail from each splice to each of the two contacts.
        assert [[tail.contact for tail in half.tails] for half in commons[name].halves] == [
            list(commons[name].contacts)
        ] * 2


def test_a_lead_passes_the_joint_on_its_own_contact_and_takes_the_rest_from_commons(harness: Harness) -> None:
    near, far = harness.circuits["tip-servo"].leads
    assert [wire.role for wire in near.wires] == ["signal"]
    assert [end.contacts for end in near.ends] == [{"signal": ("3",)}, {"signal": ("2",)}]
    assert far.ends[0].contacts == {"negative": ("5", "6"), "positive": ("3", "4"), "signal": ("2",)}
    assert far.ends[0].commons == {"negative": "back", "positive": "feed"}


def test_a_split_joins_a_branch_to_each_end(harness: Harness) -> None:
    circuit = harness.circuits["lights"]
    assert [[end.text for end in lead.ends] for lead in circuit.leads] == [
        ["receiver 7", "splice at tray"],
        ["splice at tray", "light-a"],
        ["splice at tray", "light-b"],
    ]
    assert [[wire.role for wire in lead.wires] for lead in circuit.leads] == [["negative", "positive", "signal"]] * 3


def _output(volts: str, headroom: str, **more: str) -> Output:
    return Output.model_validate({"volts": volts, "headroom": headroom, **more})


def test_outlets_of_equipment_and_of_ports_are_regulated_as_written(harness: Harness) -> None:
    assert harness.equipment["bec"].form.output == _output("6 V", "0.5 V", rating="10 A", efficiency="85 %")
    outlets = {port.name: port.output for port in harness.equipment["receiver"].ports}
    assert outlets["1"] == outlets["8"] == _output("5.5 V", "0.2 V")
    assert outlets["BATT"] is None


def test_every_kind_of_equipment_is_taken(written_folder: WrittenFolder) -> None:
    definition, _ = load_definition(written_folder(files()), ACCEPTABLE)
    assert definition is not None
    assert {"receiver", "battery", "gear controller", "gear leg", "key", "fuse", *KINDS} == {
        equipment.kind for equipment in definition.equipment.values()
    }
