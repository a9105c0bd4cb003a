"""What the tube of each label slides over and grips, where it is and how hot, by the rules and the parts list."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.model.circuits import CutLead, End, Lead
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.selection import Selection

if TYPE_CHECKING:
    from conftest import AircraftFolder, Replacements

    from docgen.harness.model.harness import Harness
    from docgen.paperwork.labels.content import LabelItem

EACH, FIT = ("lead", "wire", "both"), ("before", "after")


def ruled(example: str, each: str, fit: str) -> Harness:
    harness = harness_of(EXAMPLES / example)
    return replace(harness, labels=harness.labels.model_copy(update={"each": each, "fit": fit}))


def girth_mm(end: End) -> float:
    """Return the diameter of what is as long round as a plug is, end on."""
    width, height = end.connector.outline_mm
    return 2 * (width + height) / math.pi


def plug_mm(end: End) -> float:
    """Return what slides over an end after crimping: a flat plug, or contact by contact of a shell."""
    return girth_mm(end) if end.connector.roles else end.connector.contact.over_mm or 0.0


def wanted(harness: Harness) -> list[tuple[tuple[str, ...], str, float | None]]:
    """Return key, place and the least that each label passes, but for its wires; nothing where these are all."""
    each, fit = harness.labels.each, harness.labels.fit
    found: list[tuple[tuple[str, ...], str, float | None]] = []
    for assembly in harness.assemblies:
        for lead in (lead for lead in harness.leads() if lead.assembly == assembly):
            found += of_lead(lead, each, fit)
    return found


def of_lead(lead: Lead, each: str, fit: str) -> list[tuple[tuple[str, ...], str, float | None]]:
    found: list[tuple[tuple[str, ...], str, float | None]] = []
    is_own = not isinstance(lead, CutLead)
    if each != "wire" or is_own:
        for index in lead.plugs_at:
            # An own lead is called by the end on which it hangs, its plug lies at the other.
            name = ("from", "to")[1 - index if is_own else index]
            over = girth_mm(lead.ends[index]) if is_own else plug_mm(lead.ends[index]) if fit == "after" else None
            found.append(((lead.circuit, lead.segment, name, ""), lead.ends[index].place, over))
    if each != "lead" and not is_own:
        for wire in lead.wires:
            for index, name in enumerate(("from", "to")):
                over = lead.ends[index].connector.contact.over_mm or 0.0 if fit == "after" else None
                found.append(((lead.circuit, lead.segment, name, wire.role), lead.ends[index].place, over))
    return found


@pytest.mark.parametrize("fit", FIT)
@pytest.mark.parametrize("each", EACH)
@pytest.mark.parametrize("example", ["wren", "fulmar"])
def test_each_label_passes_what_it_slides_over_and_lies_where_its_end_is(example: str, each: str, fit: str) -> None:
    """All leads of both examples are longer than 7 in, so that none has a label in its middle alone."""
    harness = ruled(example, each, fit)
    labels = wire_labels.content(harness).labels
    assert [(tuple(label.key), label.place) for label in labels] == [(key, place) for key, place, _ in wanted(harness)]
    leads = {(lead.circuit, lead.segment): lead for lead in harness.leads()}
    for label, (key, _, over) in zip(labels, wanted(harness), strict=True):
        assert label.passes_mm == pytest.approx(max(label.wires_mm, over or 0.0)), key
        lead = leads[key[0], key[1]]
        assert label.plug_is_on == (not isinstance(lead, CutLead))
        assert label.heat_c == harness.hottest_c(lead.route)
        assert label.position == lead.position
        if label.key.role:
            (wire,) = (wire for wire in lead.wires if wire.role == label.key.role)
            assert label.wires_mm == label.grips_mm == wire.kind.diameter_mm
        assert (label.text.function, label.text.middle, label.text.of_wire) == (lead.label, False, bool(label.key.role))


def short(aircraft_folder: AircraftFolder, each: str, fit: str, length: str) -> list[LabelItem]:
    """Return the labels of the left aileron's lead in the fuselage, which is as short as that."""
    pinned: Replacements = [
        ("    through: [<side>-root]\n", f"    through: [<side>-root]\n    lengths: {{A: {length}}}\n"),
        ("equipment:\n", f"labels: {{each: {each}, fit: {fit}}}\nequipment:\n"),
    ]
    harness = harness_of(aircraft_folder({"harness.yaml": pinned}))
    labels = wire_labels.content(harness).labels
    return [label for label in labels if label.key[:2] == ("left-aileron", "A")]


# A servo plug of 8 × 2.9 mm is 21.8 mm round, as 6.94 mm; its contacts are 1.7 mm over all, those of a block 1.9 mm.
SERVO_MM, SERVO_CONTACT_MM = 21.8 / math.pi, 1.7


def test_a_label_in_the_middle_comes_on_from_the_end_where_it_passes_more_easily(
    aircraft_folder: AircraftFolder,
) -> None:
    wren = harness_of(EXAMPLES / "wren")
    block_mm = wren.disconnects["left-root"].shell.contact.over_mm or 0.0
    assert block_mm < SERVO_MM
    (label,) = short(aircraft_folder, "lead", "after", "100 mm")
    # Three wires of 1.6 mm are 3.45 mm thick, thicker than any contact: over the block's end it passes these alone.
    assert (label.key.end, label.text.middle, label.place) == ("middle", True, "radio-tray")
    assert label.passes_mm == pytest.approx(max((1 + 2 / 3**0.5) * 1.6, block_mm))
    receiver = next(end for lead in wren.leads() for end in lead.ends if end.name == "receiver" and end.part == "1")
    contact_mm = receiver.connector.contact.over_mm or 0.0
    wires = short(aircraft_folder, "wire", "after", "100 mm")
    assert [label.key.end for label in wires] == ["middle"] * 3
    assert contact_mm != block_mm
    assert {label.passes_mm for label in wires} == {max(1.6, min(contact_mm, block_mm))}
    before = short(aircraft_folder, "both", "before", "100 mm")
    assert [label.passes_mm for label in before] == pytest.approx([(1 + 2 / 3**0.5) * 1.6, 1.6, 1.6, 1.6])


@pytest.mark.parametrize(
    ("length", "wires"), [("76.1 mm", 0), ("76.2 mm", 3), ("177.8 mm", 3), ("177.9 mm", 6), ("20 mm", 0)]
)
def test_wires_under_three_inches_have_no_label_and_up_to_seven_one(
    length: str, wires: int, aircraft_folder: AircraftFolder
) -> None:
    # AC 43.13-1B 11-208: 3 in are 76.2 mm, 7 in 177.8 mm.
    assert len(short(aircraft_folder, "wire", "before", length)) == wires


def test_a_lead_that_is_not_measured_is_taken_as_long() -> None:
    wisp = harness_of(EXAMPLES / "wisp")
    items = wire_labels.content(replace(wisp, labels=wisp.labels.model_copy(update={"each": "both"})))
    cut = [label for label in items.labels if label.key.circuit == "supply"]
    assert [(label.key.end, label.key.role) for label in cut] == [
        ("from", ""),
        ("to", ""),
        *((end, role) for role in ("negative", "positive", "signal") for end in ("from", "to")),
    ]


def test_the_letter_of_a_lead_is_said_where_another_of_its_circuit_goes_to_the_same_contacts() -> None:
    labels = wire_labels.content(harness_of(EXAMPLES / "wren")).labels
    letters = {(label.key.circuit, label.key.segment, label.key.end): label.text.lead for label in labels}
    assert {key: letter for key, letter in letters.items() if letter} == {
        (f"{side}-aileron", letter, end): letter
        for side in ("left", "right")
        for letter, end in (("A", "to"), ("B", "from"))
    }
    # Of the outer ailerons the panel's lead joins a common more than the fuselage's: nothing is to be told apart.
    fulmar = wire_labels.content(harness_of(EXAMPLES / "fulmar")).labels
    told = {label.key.circuit for label in fulmar if label.text.lead}
    assert "left-outer-aileron" not in told
    assert "left-inner-aileron" in told


def test_a_tube_over_paper_passes_paper_and_wires_and_a_plug_only_where_that_is_to_be_passed() -> None:
    label = wire_labels.content(harness_of(EXAMPLES / "wren")).labels[0]
    # Paper thickens by 0.5 mm (common practice, no source).
    usual = replace(label, wires_mm=3.0, passes_mm=3.0, grips_mm=2.5)
    assert usual.need_over_paper[:2] == (3.5, 3.0)
    assert replace(usual, passes_mm=3.2).need_over_paper[:2] == (3.5, 3.0)
    assert replace(usual, passes_mm=7.0).need_over_paper[:2] == (7.0, 3.0)
    assert usual.need[:2] == (3.0, 2.5)


def test_a_label_is_named_by_its_function_its_end_and_where_it_matters_its_lead() -> None:
    labels = wire_labels.content(harness_of(EXAMPLES / "wren")).labels
    named = {(label.key.circuit, label.key.segment, label.key.end): label.named for label in labels}
    assert named["rudder", "A", "from"] == "the label `RUD` at receiver 4"
    assert named["left-aileron", "B", "from"] == "the label `AIL L` at left-root 1–3 (lead B)"
    items = {item.key: item for item in wire_labels.items(wire_labels.content(harness_of(EXAMPLES / "wren")))}
    assert items["rudder", "A", "from"].text == ("RUD", "receiver 4", "rudder", "C5A22 C6A22")
    assert (items["rudder", "A", "from"].work, len(items)) == ((), 12)


def test_what_is_selected_is_of_the_circuits_and_at_the_places_named() -> None:
    items = wire_labels.content(harness_of(EXAMPLES / "wren"))
    chosen = Selection(circuits=("rudder", "supply"), places=("radio-tray",), first=3, copies=2).of(items)
    assert [label.key.words for label in chosen.labels] == [("supply", "A", "to"), ("rudder", "A", "from")]
    assert (chosen.first, chosen.copies, Selection().of(items).labels) == (3, 2, items.labels)
    assert Selection().says == "wanted"
    assert Selection(("rudder", "supply"), ("tail",)).says == "of rudder or supply and at tail"
    assert Selection(places=("tail",)).wanted(items)[1] == ["no label is at tail."]
    assert Selection().wanted(items)[1] == []
    unknown = Selection(("ruder", "left-root", "receiver", "xyz"), ("tailpost", "radio-tray"))
    assert unknown.unknown([harness_of(EXAMPLES / "wren")]) == [
        "there is no circuit, joint or equipment with a card 'ruder'; did you mean 'rudder'?",
        "there is no circuit, joint or equipment with a card 'xyz'.",
        "there is no place 'tailpost'; did you mean 'tail-post'?",
    ]
