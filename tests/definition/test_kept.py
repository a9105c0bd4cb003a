"""What stays put of an issue, under the names of now: contacts, numbers and letters, for wren by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from builder import Builder

from docgen.definition.identity import known_of_definition
from docgen.definition.issues import read_issues
from docgen.definition.kept import NOTHING_ISSUED, Issued, keep, segment_keys
from docgen.definition.load import load_definition
from docgen.paperwork.kinds import ACCEPTABLE

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def wren(tmp_path: Path) -> Builder:
    return Builder(tmp_path, "wren")


def kept(wren: Builder) -> Issued:
    return keep(load_definition(wren.folder, ACCEPTABLE)[0], read_issues(wren.folder)[0])


FROM, TO = ("from", "", ""), ("to", "", "")
ROLES = ("negative", "positive", "signal")


def test_contacts_numbers_and_letters_of_the_last_issue_stay(wren: Builder) -> None:
    """Contacts 1 to 3 of each joint; the supply has P1, the ailerons C1 to C4, the rudder C5 and C6 (`method.md`)."""
    assert kept(wren) == NOTHING_ISSUED
    wren.keep()
    of = kept(wren)
    assert of.last == "A"
    assert of.contacts == {
        (f"{side}-root", f"{side}-aileron", role): str(contact)
        for side in ("left", "right")
        for contact, role in enumerate(ROLES, 1)
    }
    assert of.used == {f"{side}-root": frozenset("123") for side in ("left", "right")}
    assert of.numbers["right-aileron"] == {"negative": "C3", "positive": "C3", "signal": "C4"}
    assert dict(of.highest) == {"C": 6, "P": 1}
    fixed, loose = (("half", "left-root", name) for name in ("fixed", "loose"))
    assert of.letters["left-aileron"] == {(FROM, fixed): "A", (loose, TO): "B"}
    assert of.letters["rudder"] == {(FROM, TO): "A"}
    assert (of.every["left-aileron"], of.gone, of.commons) == (("A", "B"), {}, {})


def test_what_has_another_name_keeps_all_of_it_under_that(wren: Builder) -> None:
    wren.keep()
    for old, new in (("  <side>-root:\n", "  <side>-wing:\n"), ("through: [<side>-root]", "through: [<side>-wing]")):
        wren.change(old, new)
    wren.change("  rudder:\n    label: RUD", "  yaw:\n    label: RUD")
    of = kept(wren)
    assert {joint for joint, *_ in of.contacts} == {"left-wing", "right-wing"}
    assert set(of.used) == {"left-wing", "right-wing"}
    assert of.numbers["yaw"]["signal"] == "C6"
    assert [key[1] for key in of.letters["left-aileron"]] == [("half", "left-wing", "fixed"), TO]
    assert [(taken.old, taken.new) for taken in of.same.taken] == [
        ("left-root", "left-wing"),
        ("right-root", "right-wing"),
        ("rudder", "yaw"),
    ]


RUDDER = "  rudder:\n    label: RUD\n    from: receiver 4\n    to: rudder\n"


def test_what_is_taken_out_is_gone_till_an_issue_without_it_is_built_and_has_its_numbers_when_it_comes_back(
    wren: Builder,
) -> None:
    wren.keep()
    whole = (wren.folder / "harness.yaml").read_text("utf-8")
    begin = whole.index(RUDDER)
    without = whole[:begin]
    (wren.folder / "harness.yaml").write_text(without, "utf-8")
    of = kept(wren)
    assert (set(of.gone), "rudder" in of.numbers, dict(of.highest)) == ({"rudder"}, False, {"C": 6, "P": 1})
    wren.keep("B")
    assert set(wren.state().gone) == {"rudder"}
    assert set(kept(wren).gone) == {"rudder"}, "its wires may still be there"
    (wren.folder / "harness.yaml").write_text(whole, "utf-8")
    assert (kept(wren).numbers["rudder"]["signal"], set(kept(wren).gone)) == ("C6", set())
    (wren.folder / "harness.yaml").write_text(without, "utf-8")
    wren.say("built")
    assert (set(kept(wren).gone), kept(wren).last) == (set(), "B")


@pytest.mark.long
def test_contacts_that_are_shared_stay_with_their_common_and_not_with_circuits(tmp_path: Path) -> None:
    fulmar = Builder(tmp_path, "fulmar")
    fulmar.keep()
    of, state = kept(fulmar), fulmar.state()
    shared = {
        (name, common): contacts
        for name, joint in state.disconnects.items()
        for common, contacts in joint.commons.items()
    }
    assert len(shared) > 1
    assert of.commons == shared
    for (name, _), contacts in shared.items():
        alone = {contact for (joint, *_), contact in of.contacts.items() if joint == name}
        assert alone.isdisjoint(contacts)
        assert of.used[name] >= {*contacts, *alone, *state.disconnects[name].freed}


PORT, OTHER = ("port", "receiver", "1"), ("port", "rudder", "")
HALF, SPLICE = ("half", "root", "fixed"), ("splice", "", "")


@pytest.mark.parametrize(
    ("ends", "keys"),
    [
        ([(PORT, OTHER)], [(FROM, TO)]),
        ([(PORT, HALF), (HALF, OTHER)], [(FROM, HALF), (HALF, TO)]),
        ([(PORT, HALF)], [(FROM, TO)]),
        ([(PORT, HALF), (HALF, HALF)], [(FROM, HALF), (HALF, TO)]),
        (
            [(PORT, ("splice", "tail", "x")), (("splice", "tail", "x"), OTHER), (("splice", "tail", "x"), PORT)],
            [(FROM, SPLICE), (("splice", "tail", "x"), OTHER), (("splice", "tail", "x"), PORT)],
        ),
    ],
)
def test_where_a_circuit_begins_and_ends_once_another_port_there_is_no_other_lead(ends: list, keys: list) -> None:  # type: ignore[type-arg]
    assert segment_keys(ends) == keys


@pytest.mark.parametrize("commons", ["plus minus", "minus plus"])
def test_an_end_at_commons_is_known_by_their_roles_in_whatever_order_they_are_named(
    commons: str, wren: Builder
) -> None:
    loose = "    loose: {place: <side>-panel-root, contacts: pins, reach: 120 mm}\n"
    shared = "    commons: {plus: {role: positive, contacts: [4]}, minus: {role: negative, contacts: [5]}}\n"
    wren.change(loose, loose + shared)
    feed = f"  feed: {{from: receiver 3, to: left-root {commons}, lead: servo-22}}\n"
    wren.change("  rudder:\n    label: RUD", f"{feed}  rudder:\n    label: RUD")
    known = known_of_definition(load_definition(wren.folder, ACCEPTABLE)[0])
    assert known.circuits["feed"] == (("receiver", "3"), ("left-root", "negative", "positive"))
    assert known.circuits["rudder"] == (("receiver", "4"), ("rudder",))
    assert known.disconnects["left-root"] == ("left-root", "left-panel-root")
    assert known.equipment["receiver"] == ("receiver", "radio-tray", ("1", "2", "3", "4", "BATT"))
    assert known.equipment["rudder"] == ("servo", "tail-post", ())
