"""How things are said on every page: contacts, ends, sides, openings, what is not measured; and cells of values."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import replace

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.assembly.unmeasured import Gap, Waiting
from docgen.harness.model.circuits import End
from docgen.paperwork import naming
from docgen.paperwork.values import comma_separated


@pytest.mark.parametrize(
    ("contacts", "said"),
    [
        (["1", "2", "3"], "1–3"),
        (["0", "1", "2", "3"], "0–3"),
        (["1", "2"], "1, 2"),
        (["1"], "1"),
        (["1", "3", "4"], "1, 3, 4"),
        (["3", "2", "1"], "3, 2, 1"),
        (["1", "2", "4"], "1, 2, 4"),
        (["A", "B", "C"], "A, B, C"),
        (["A", "0", "1"], "A, 0, 1"),
        (["A", "2", "3"], "A, 2, 3"),
        (["9", "10", "11"], "9–11"),
    ],
)
def test_three_contacts_or_more_in_a_row_are_said_from_the_first_to_the_last(contacts: list[str], said: str) -> None:
    assert naming.contacts_text(contacts) == said


def end_at(contacts: Mapping[str, tuple[str, ...]], commons: dict[str, str]) -> End:
    """Return an end of a lead at a joint whose shell has no roles, with these contacts."""
    harness = harness_of(EXAMPLES / "wren")
    end = next(end for lead in harness.leads() for end in lead.ends if end.kind == "half")
    return replace(end, contacts=dict(contacts), commons=commons)


def test_an_end_at_a_joint_says_its_own_contacts_then_those_that_it_shares() -> None:
    own = {"negative": ("1",), "positive": ("2",), "signal": ("3",)}
    assert naming.end_text(end_at(own, {})) == "left-root 1–3"
    shared = own | {"negative": ("4", "5")}
    assert naming.end_text(end_at(shared, {"negative": "n"})) == "left-root 2, 3, 4+5"
    # What is shared alone is said in the order of the shell.
    both = {"positive": ("3", "4"), "negative": ("1", "2")}
    assert naming.end_text(end_at(both, {"negative": "n", "positive": "p"})) == "left-root 1–4"


def test_the_negative_s_mark_is_left_out_beside_others_and_said_alone() -> None:
    leads = {lead.name: lead for lead in harness_of(EXAMPLES / "wren").leads()}
    rudder = leads["rudder A"]
    assert naming.marks_text(rudder) == "C5A22 C6A22"
    negative = tuple(wire for wire in rudder.wires if wire.role == "negative")
    assert naming.marks_text(replace(rudder, wires=negative)) == "C5A22N"
    unmarked = tuple(replace(wire, mark="" if wire.role == "signal" else wire.mark) for wire in rudder.wires)
    assert naming.marks_text(replace(rudder, wires=unmarked)) == "C5A22"


def test_halves_say_which_they_are_where_both_are_in_one_assembly_or_always() -> None:
    harness = harness_of(EXAMPLES / "wren")
    assert set(naming.half_names(harness).values()) == {""}
    always = naming.half_names(harness, always=True)
    assert always["left-root", "fixed"] == ", fixed half"
    panel = harness.places["left-panel-root"].model_copy(update={"assembly": "fuselage"})
    one = replace(harness, places={**harness.places, "left-panel-root": panel})
    said = naming.half_names(one)
    assert (said["left-root", "loose"], said["right-root", "loose"]) == (", loose half", "")
    half = replace(harness.disconnects["left-root"].halves[0], name="left panel")
    assert naming.half_title(half) == "left panel"


def test_a_half_says_what_it_mates_with_and_how_far_that_reaches() -> None:
    joint = harness_of(EXAMPLES / "wren").disconnects["left-root"]
    fixed, loose = joint.halves
    assert naming.mates_text(joint, fixed) == "mates with the loose half at left-panel-root (pins, reach 120 mm)"
    assert naming.mates_text(joint, loose) == "mates with the fixed half at left-root (sockets)"
    unknown = replace(joint, halves=(fixed, replace(loose, reach_mm=None)))
    assert naming.mates_text(unknown, fixed) == "mates with the loose half at left-panel-root (pins)"


@pytest.mark.parametrize(
    ("names", "said"),
    [
        (["left-wing-a", "right-wing-a", "tail"], "left- and right-wing-a, tail"),
        (["right-leg", "left-leg"], "left- and right-leg"),
        (["tail", "left-leg"], "tail, left-leg"),
        (["pack-left", "pack-right"], "pack-left and pack-right"),
        (["bright", "leftover"], "bright, leftover"),
    ],
)
def test_names_of_both_sides_are_said_together(names: list[str], said: str) -> None:
    assert naming.sides_text(names) == said


def test_the_other_side_is_a_word_and_no_part_of_one() -> None:
    assert naming.other_side("left-leg") == "right-leg"
    assert naming.other_side("flap-right") == "flap-left"
    assert naming.other_side("bright") == "bright"


def test_what_leads_wait_for_is_said_once_with_all_that_wait() -> None:
    way, reach = Gap(("tray", "post")), Gap(("panel-root", "loose"), joint="left-root")
    waiting = [Waiting("rudder A", "fuselage", (way,)), Waiting("tab A", "fuselage", (way, reach))]
    said = naming.unmeasured_text(waiting)
    assert said == "tray to post: rudder A, tab A; reach of left-root, loose half: tab A"


def test_openings_places_and_parts_are_said() -> None:
    assert naming.opening_text((8.0,)) == "8 mm"
    assert naming.opening_text((20.0, 8.5)) == "20 × 8.5 mm"
    assert naming.opening_text(None) == ""
    harness = harness_of(EXAMPLES / "wren")
    assert naming.place_text(harness.places["radio-tray"]) == "radio-tray, fuselage · access: canopy"
    bare = harness.places["radio-tray"].model_copy(update={"access": ""})
    assert naming.place_text(bare) == "radio-tray, fuselage"
    assert naming.part_path("disconnect", "tail") == "record/disconnect-tail.txt"
    assert naming.names_of_cards(harness) == ["left-root", "right-root", "receiver"]


@pytest.mark.parametrize("begins", ["=", "+", "-", "@", "\t", "\r"])
def test_a_cell_that_a_spreadsheet_would_take_for_a_formula_begins_with_an_apostrophe(begins: str) -> None:
    text = comma_separated([("a", f"{begins}1"), ("", f"x{begins}")])
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert rows == [["a", f"'{begins}1"], ["", f"x{begins}"]]
    assert text.count("\r\n") == 2
