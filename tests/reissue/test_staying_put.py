"""What is in the aircraft stays put: contacts, wire numbers and letters, whatever the builder writes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from wren_light import LIGHT, with_light

if TYPE_CHECKING:
    from builder import Builder

pytestmark = pytest.mark.long


def test_a_light_written_first_takes_free_contacts_and_new_numbers(wren: Builder) -> None:
    wren.keep()
    before, marks = wren.contacts(), wren.marks()
    with_light(wren, "supply")
    # The ailerons hold 1 to 3 of each root; the circuit's kind gives it L, of which there is none.
    assert wren.contacts() == before | {
        "left-root": before["left-root"]
        | {"4": "tip-light negative", "5": "tip-light positive", "6": "tip-light signal"}
    }
    now = wren.marks()
    assert now == marks | {lead: now[lead] for lead in ("tip-light A", "tip-light B")}
    assert now["tip-light A"] == ["L1A22N", "L1A22", "L2A22"]
    assert wren.found("moved") == []


def test_numbers_of_what_is_taken_out_are_never_given_again_and_its_contacts_last(wren: Builder) -> None:
    with_light(wren, "rudder")
    wren.keep()
    text = (wren.folder / "harness.yaml").read_text("utf-8")
    (wren.folder / "harness.yaml").write_text(re.sub(r"  tip-light:\n    label(.*\n)*?(?=  rudder)", "", text), "utf-8")
    wren.keep("B")
    assert wren.state().disconnects["left-root"].freed == ("4", "5", "6")
    assert wren.state().gone.keys() == {"tip-light"}
    assert wren.state().numbers == {"C": 6, "L": 2, "P": 1}
    wren.say("built")
    strobe = LIGHT.format(name="strobe", label="STROBE")
    wren.change("  rudder:\n    label:", strobe + "  rudder:\n    label:")
    assert wren.marks()["strobe A"] == ["L3A22N", "L3A22", "L4A22"]
    assert {wren.contacts()["left-root"][contact] for contact in "456"} == {
        "strobe negative",
        "strobe positive",
        "strobe signal",
    }


def test_contacts_that_were_free_for_several_issues_still_come_last(wren: Builder) -> None:
    """The ailerons have 1 to 3 of ten, a light that is gone had 4 to 6: those after come first."""
    wren.change("    shell: block-6", "    shell: block-10")
    with_light(wren, "rudder")
    wren.keep()
    text = (wren.folder / "harness.yaml").read_text("utf-8")
    (wren.folder / "harness.yaml").write_text(re.sub(r"  tip-light:\n    label(.*\n)*?(?=  rudder)", "", text), "utf-8")
    for letter, throw in (("B", "40"), ("C", "30")):
        wren.change("    throw: 40 mm each way", f"    throw: {throw} mm each way")
        wren.keep(letter)
        wren.say("built")
    strobe = LIGHT.format(name="strobe", label="STROBE")
    wren.change("  rudder:\n    label:", strobe + "  rudder:\n    label:")
    carried = {contact: of for contact, of in wren.contacts()["left-root"].items() if of.startswith("strobe")}
    assert carried.keys() == {"7", "8", "9"}


def test_what_an_issue_left_out_that_is_not_built_comes_back_as_it_was(wren: Builder) -> None:
    with_light(wren, "rudder")
    wren.keep()
    contacts, marks = wren.contacts(), wren.marks()
    text = (wren.folder / "harness.yaml").read_text("utf-8")
    without = re.sub(r"  tip-light:\n    label(.*\n)*?(?=  rudder)", "", text)
    (wren.folder / "harness.yaml").write_text(without, "utf-8")
    wren.keep("B")
    (wren.folder / "harness.yaml").write_text(text, "utf-8")
    assert (wren.contacts(), wren.marks()) == (contacts, marks)


def test_a_circuit_with_another_name_is_known_by_its_ends(wren: Builder) -> None:
    wren.keep()
    contacts, marks = wren.contacts(), wren.marks()
    wren.change("  rudder:\n    label: RUD\n", "  yaw:\n    label: RUD\n")
    assert wren.contacts() == contacts
    assert wren.marks() == {lead.replace("rudder A", "yaw A"): some for lead, some in marks.items()}
    assert [taken[:4] for taken in wren.check().issued.same.taken] == [("circuit", "rudder", "yaw", "its ends")]


def test_the_ports_of_a_pair_exchanged_leave_contacts_and_marks(wren: Builder) -> None:
    wren.keep()
    contacts, marks = wren.contacts(), wren.marks()
    wren.change("from: {left: receiver 1, right: receiver 2}", "from: {left: receiver 2, right: receiver 1}")
    assert (wren.contacts(), wren.marks()) == (contacts, marks)


def test_equipment_with_another_name_is_known_by_its_place(wren: Builder) -> None:
    wren.keep()
    contacts, marks = wren.contacts(), wren.marks()
    text = (wren.folder / "harness.yaml").read_text("utf-8")
    renamed = text.replace("  rudder:\n    kind:", "  tail-servo:\n    kind:").replace("to: rudder", "to: tail-servo")
    (wren.folder / "harness.yaml").write_text(renamed, "utf-8")
    assert (wren.contacts(), wren.marks()) == (contacts, marks)


def test_a_pin_wins_and_names_whom_it_disturbs(wren: Builder) -> None:
    wren.keep()
    with_light(wren, "supply", more="    contacts: {left-root: [1, 5, 6]}\n")
    assert wren.contacts()["left-root"] == {
        "1": "tip-light negative",
        "2": "left-aileron positive",
        "3": "left-aileron signal",
        "4": "left-aileron negative",
        "5": "tip-light positive",
        "6": "tip-light signal",
    }
    assert wren.found("moved") == [
        "`tip-light` has 1, 5, 6 at `left-root`. That moves `left-aileron` from 1 to 4, as issued in A."
    ]


def test_a_pin_of_a_circuit_that_was_issued_elsewhere_is_moved_and_names_whom_it_disturbs(wren: Builder) -> None:
    with_light(wren, "supply")
    wren.keep()
    wren.change("through: [left-root]\n", "through: [left-root]\n    contacts: {left-root: [4, 5, 6]}\n")
    assert wren.found("moved") == [
        "`tip-light` has 4, 5, 6 at `left-root`, 1, 2, 3 as issued in A. That moves `left-aileron` from 4, 5, 6 to "
        "1, 2, 3."
    ]


def test_a_lead_of_other_roles_keeps_the_contacts_of_those_that_stay(wren: Builder) -> None:
    wren.keep()
    wren.change("through: [<side>-root]\n    lead: servo-22\n", "through: [<side>-root]\n    lead: signal-22\n")
    parts = "leads:\n  signal-22: {wires: {signal: pvc-22 WH, negative: pvc-22 BK}}\n"
    (wren.folder / "parts.yaml").write_text(parts, "utf-8")
    # Numbers too: the signal's was the circuit's second.
    assert wren.contacts()["left-root"] == {"3": "left-aileron signal", "1": "left-aileron negative"}
    assert wren.marks()["left-aileron A"] == ["C2A22", "C1A22N"]


def test_in_another_shell_what_has_a_contact_of_that_number_stays(wren: Builder) -> None:
    wren.keep()
    before = wren.contacts()
    wren.change("    shell: block-6\n", "    shell: block-8\n")
    assert wren.contacts() == before
    contact = "{rating: 5 A, resistance: 5 mohm}"
    shell = f"{{rows: [[2, 3, 4, 5]], pitch: {{across: 3 mm, down: 3 mm}}, outline: [18 mm, 9 mm], contact: {contact}}}"
    (wren.folder / "parts.yaml").write_text(f"shells:\n  block-8: {shell}\n", "utf-8")
    assert wren.contacts()["left-root"] == {
        "2": "left-aileron positive",
        "3": "left-aileron signal",
        "4": "left-aileron negative",
    }
    assert "`left-aileron` has 4 at `left-root`, 1 as issued in A." in wren.found("moved")


def test_a_joint_more_leaves_the_letter_of_the_lead_beyond_it(wren: Builder) -> None:
    """The lead from the root on is still B; the two before it, which were one, take C and D."""
    wren.keep()
    joint = (
        "  tray-joint:\n    shell: block-6\n    fixed: {place: radio-tray, contacts: sockets}\n"
        "    loose: {place: radio-tray, reach: 90 mm}\n"
    )
    wren.change("disconnects:\n", f"disconnects:\n{joint}")
    wren.change("through: [<side>-root]\n    lead: servo-22\n", "through: [<side>-root]\n    lead: servo-22\n")
    text = (wren.folder / "harness.yaml").read_text("utf-8")
    choice = "through: {left: [tray-joint, left-root], right: [right-root]}"
    (wren.folder / "harness.yaml").write_text(text.replace("through: [<side>-root]", choice), "utf-8")
    now = wren.marks()
    assert [name for name in now if name.startswith("left-aileron")] == [
        "left-aileron C",
        "left-aileron D",
        "left-aileron B",
    ]
    assert now["left-aileron B"] == ["C1B22N", "C1B22", "C2B22"]


def test_another_function_letter_is_moved(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: RUD\n    function: Y\n")
    assert wren.found("moved") == ["the wires of `rudder` are numbered Y1, Y2, C5, C6 as issued in A."]


def test_without_issues_all_is_given_as_it_always_was(wren: Builder) -> None:
    assert wren.contacts()["left-root"] == {
        "1": "left-aileron negative",
        "2": "left-aileron positive",
        "3": "left-aileron signal",
    }
    assert wren.marks()["rudder A"] == ["C5A22N", "C5A22", "C6A22"]


def test_a_print_over_an_earlier_one_says_what_has_moved(wren: Builder) -> None:
    wren.say("print", "record")
    with_light(wren, "supply")
    _, _, told = wren.say("print", "record")
    assert "caution moved: `left-aileron` has 4, 5, 6 at `left-root`, 1, 2, 3 in the paper in " in told
    assert wren.say("print", "record")[2].count("moved") == 0
