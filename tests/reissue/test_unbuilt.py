"""What an issue that is not said to be built may have left in the aircraft when what comes next takes it back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner
from reissue.altered import kept_in
from reissue.small import item, rudder, state
from reissue.test_small_sheet import NOTHING_RUNG, placed, read_sheet, section
from reissue.test_small_states import both_circuits

from docgen.cli import docgen
from docgen.definition.issued import State
from docgen.definition.issues import Issues, read_issues, read_unbuilt
from docgen.reissue import sheet
from docgen.reissue.compare import compare
from docgen.reissue.plain import data
from docgen.reissue.told import text

if TYPE_CHECKING:
    from pathlib import Path

    from builder import Builder

WARNING = (
    "Issues after A, up to B, are not said to be built: parts of them may be in the aircraft; look before each step."
)


def printed(issue: str, card: str, hangar: str, **more: Any) -> State:
    """Return a state of the small aircraft with the hashes of its receiver's card and of the hangar card."""
    items = {
        **state().items,
        "pinout-cards": {"receiver": item("receiver", card)},
        "sheets": {"hangar-card": item("hangar card", hangar)},
    }
    return placed(issue, items=items, **more)


A = printed("A", "aaaa0001", "aaaa0002")
B = printed("B", "bbbb0001", "bbbb0002", **both_circuits(rudder=rudder("3")))
BACK = printed("C", "aaaa0001", "aaaa0002", after="B")
OTHER = printed("C", "cccc0001", "cccc0002", after="B", **both_circuits(rudder=rudder("4")))


def test_what_is_taken_back_is_looked_for_and_its_cards_are_torn_up() -> None:
    assert text(compare(A, BACK, unbuilt=[B])).splitlines() == [
        "Cards to replace:",
        "  receiver",
        "  hangar-card",
        "Look for what B may have left of rudder:",
        "  from receiver 3, was receiver 1",
        "Cards to tear up if they are there:",
        "  receiver: bbbb0001",
        "  hangar-card: bbbb0002",
        WARNING,
    ]
    assert text(compare(A, BACK)).splitlines() == ["nothing differs from A.", WARNING]
    assert text(compare(A, printed("B", "aaaa0001", "aaaa0002"))) == "nothing differs from A."


def test_of_an_issue_that_goes_on_only_what_it_leaves_out_is_looked_for() -> None:
    said = data(compare(A, OTHER, unbuilt=[B]))
    assert said["unbuilt"] == [{"issue": "B", "of": "rudder", "says": ["from receiver 3, was receiver 1"]}]
    assert said["leftover"] == {"receiver": ("bbbb0001",), "hangar-card": ("bbbb0002",)}
    again = B.model_copy(update={"issue": "C", "after": "B"})
    assert data(compare(A, again, unbuilt=[B]))["unbuilt"] == []
    assert data(compare(A, again, unbuilt=[B]))["leftover"] == {}
    twice = data(compare(A, BACK, unbuilt=[B, again]))["unbuilt"]
    assert [left["issue"] for left in twice] == ["B"], "what two issues have in common is said once"


@pytest.mark.parametrize(
    ("new", "torn", "put_in"),
    [
        (BACK, ("bbbb0001", "bbbb0002"), ("aaaa0001", "aaaa0002")),
        (OTHER, ("aaaa0001 or bbbb0001", "aaaa0002 or bbbb0002"), ("cccc0001", "cccc0002")),
    ],
)
def test_the_sheet_has_a_box_for_each_thing_to_look_for_and_all_hashes_that_may_be_there(
    new: State, torn: tuple[str, str], put_in: tuple[str, str]
) -> None:
    found = read_sheet(sheet.ReworkContent(compare(A, new, unbuilt=[B]), A, new, NOTHING_RUNG))
    looked = section(found, "Look first: not said to be built")
    assert looked == ["issue", "where it is so, put it back", "B", "rudder", "from receiver 3, was receiver 1"]
    assert list(found).index("2 Look first: not said to be built") == list(found).index("1 Packs out") + 1
    assert [text for text in section(found, "Cards") if text[-1].isdigit()] == [
        *(torn[0], put_in[0]),
        *(torn[1], put_in[1]),
    ]


def test_unbuilt_are_the_issues_after_that_which_is_in_the_aircraft(tmp_path: Path) -> None:
    for each in (A, B, BACK):
        kept_in(tmp_path, each)
    issues, findings = read_issues(tmp_path)
    assert findings == []
    assert read_unbuilt(tmp_path, issues, "A") == [B, BACK]
    assert read_unbuilt(tmp_path, Issues(issues.dates, "B", BACK, B), "A") == [BACK]
    assert read_unbuilt(tmp_path, Issues(issues.dates, "C", BACK, BACK), "C") == []


@pytest.mark.long
def test_an_issue_that_takes_back_another_prints_its_cards_again(wren: Builder) -> None:
    """The rudder goes from port 4 to 3 of the receiver and back, which is never said to be built."""
    wren.keep()
    there, other = "from: receiver 4\n", "from: receiver 3\n"
    wren.change(there, other)
    wren.keep("B")
    wren.change(other, there)
    wren.revise("C")
    told = CliRunner().invoke(docgen, ["compare", str(wren.folder)]).stdout
    assert told.startswith("Cards to replace:\n  receiver\n")
    assert "Look for what B may have left of rudder:\n  from receiver 3, was receiver 4\n" in told
    wren.issue()
    assert [path.name for path in wren.out.rglob("pinout-cards.pdf")] == ["pinout-cards.pdf"]
