"""The examples as a builder meets them: wren with no caution, fulmar with accepted ones, its first draft with more."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from docgen.basics.findings import Finding, Level
from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.labels import content as wire_labels
from docgen.pipeline import check

DRAFT = Path(__file__).with_name("drafts") / "fulmar"

# What is wrong with the first draft: the finding, the text at its position, and what its sentence names.
FIRST_DRAFT = [
    ("swap", "block-14", "`left-wing-b`"),
    ("swap", "block-14", "`right-wing-a`"),
    ("overvolts", "6.5 V", "`bay-door`"),
    ("joined-supplies", "receiver-a:", "`receiver-a`"),
    ("contact-current", "<side>-elevator", "at left-elevator:"),
    ("spare-contacts", "block-8", "`nose`"),
]


@pytest.fixture(scope="module")
def of_draft() -> list[Finding]:
    return check(DRAFT).findings


@pytest.fixture(scope="module")
def of_fulmar() -> list[Finding]:
    return check(shipped_folder("examples") / "fulmar").findings


def test_wren_comes_out_with_nothing_found() -> None:
    assert check(shipped_folder("examples") / "wren").findings == []


def test_fulmar_comes_out_with_nothing_that_is_not_accepted(of_fulmar: list[Finding]) -> None:
    assert [finding.sentence for finding in of_fulmar if not finding.accepted] == []


def test_the_first_draft_of_fulmar_has_no_error(of_draft: list[Finding]) -> None:
    assert [finding.sentence for finding in of_draft if finding.level is Level.ERROR] == []


@pytest.mark.parametrize(("name", "text", "named"), FIRST_DRAFT)
def test_the_first_draft_of_fulmar_is_caught(name: str, text: str, named: str, of_draft: list[Finding]) -> None:
    found = [finding for finding in of_draft if finding.name == name and named in finding.sentence]
    lines = (DRAFT / "harness.yaml").read_text("utf-8").split("\n")
    assert found
    assert all(lines[f.position.line - 1][f.position.column - 1 :].startswith(text) for f in found)


@pytest.mark.parametrize("name", ["swap", "overvolts", "joined-supplies", "contact-current", "spare-contacts"])
def test_what_was_wrong_with_the_draft_is_remedied(name: str, of_fulmar: list[Finding]) -> None:
    assert [finding.sentence for finding in of_fulmar if finding.name == name] == []


def test_wisp_without_one_length_prints_labels_and_cards(tmp_path: Path) -> None:
    wisp = shipped_folder("examples") / "wisp"
    said = (wisp / "aircraft.yaml").read_text("utf-8") + (wisp / "harness.yaml").read_text("utf-8")
    assert re.findall(r"(?:length|reach|lead|loop|slack|across|at): [0-9{]", said) == []
    found = check(wisp)
    assert {finding.name for finding in found.findings} == {"unmeasured"}
    assert found.harness is not None
    assert len(found.harness.circuits) == 5
    # A label at each end of four leads and two halves more, one at each of two plugs; a card for each half and the hub.
    assert len(wire_labels.content(found.harness).labels) == 2 * 5 + 2
    assert len(pinout_cards.content(found.harness).hashes) == 2 * 2 + 1
    printed = CliRunner().invoke(docgen, ["print", str(wisp), "wire-labels", "pinout-cards", "--to", str(tmp_path)])
    assert (printed.exit_code, len(list(tmp_path.glob("*.pdf")))) == (0, 2)
