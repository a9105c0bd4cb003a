"""What is only planned has its place and is not made; what is left in keeps its place and is dead."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from builder import Builder
from wren_light import with_light

from docgen.paperwork.bench import ring_out_content, work_content
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.cut_list import content as cut_content
from docgen.paperwork.field import hangar_content
from docgen.paperwork.labels import content as wire_labels

if TYPE_CHECKING:
    from pathlib import Path

    from docgen.harness.model.harness import Harness

LEFT_ROOT = {"4": "tip-light negative", "5": "tip-light positive", "6": "tip-light signal"}
NUMBERS = {"negative": "L1", "positive": "L1", "signal": "L2"}


@pytest.fixture(params=["planned", "left_in"])
def key(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def aircraft(folder: Path, more: str) -> Builder:
    """Return the smallest example with a light that is drawn from the receiver, and what is said of its circuit."""
    builder = Builder(folder, "wren")
    with_light(builder, "rudder", more=more)
    builder.change("    kind: light\n", "    kind: light\n    current: {working: 0.4 A}\n")
    return builder


def harness_of(builder: Builder) -> Harness:
    harness = builder.check().harness
    assert harness is not None, builder.check().findings
    return harness


def test_both_take_contacts_and_numbers_as_if_they_were_made(tmp_path: Path, key: str) -> None:
    builder = aircraft(tmp_path, f"    {key}: yes\n")
    assert {contact: builder.contacts()["left-root"][contact] for contact in "456"} == LEFT_ROOT
    assert harness_of(builder).every_circuit["tip-light"].numbers == NUMBERS


def test_neither_is_cut_labelled_worked_or_rung_out(tmp_path: Path, key: str) -> None:
    harness = harness_of(aircraft(tmp_path, f"    {key}: yes\n"))
    pieces = [piece.key[0] for group in cut_content.content(harness).groups for piece in group.pieces]
    labels = [label.key.circuit for label in wire_labels.content(harness).labels]
    works = [work.lead.circuit for assembly in work_content.content(harness).assemblies for work in assembly.leads]
    rings = ring_out_content.content(harness)
    rung = [lead.circuit for some in (rings.leads, rings.paths) for readings in some for lead in readings.leads]
    for named in (pieces, labels, works, rung):
        assert "rudder" in named
        assert "tip-light" not in named


def card_rows(harness: Harness) -> list[tuple[str, str, str]]:
    """Return contact, function and where it goes of the light's rows on both halves of the left root."""
    cards = pinout_cards.content(harness).halves
    return [
        (row.contact, row.function, row.goes)
        for card in cards
        if card.name == "left-root"
        for row in card.rows
        if row.contact in "456"
    ]


def test_cards_say_which_is_planned_and_where_it_will_go(tmp_path: Path) -> None:
    rows = card_rows(harness_of(aircraft(tmp_path, "    planned: yes\n")))
    assert rows == [
        *((contact, "TIP-LIGHT (planned)", "receiver 3") for contact in "456"),
        *((contact, "TIP-LIGHT (planned)", "tip-light") for contact in "456"),
    ]


def test_cards_say_which_is_dead_and_capped(tmp_path: Path) -> None:
    rows = card_rows(harness_of(aircraft(tmp_path, "    left_in: yes\n")))
    assert rows == [(contact, "TIP-LIGHT (dead)", "capped") for contact in "456"] * 2


def test_what_is_planned_takes_its_share_of_the_supply_and_what_is_left_in_none(tmp_path: Path) -> None:
    """Working: receiver 0.15 A, ailerons 0.6 A each, rudder 0.5 A, and the light's 0.4 A."""
    supplies = {
        more: harness_of(aircraft(tmp_path / str(index), more)).results.supplies[0].working_a
        for index, more in enumerate(["", "    planned: yes\n", "    left_in: yes\n"])
    }
    assert list(supplies.values()) == pytest.approx([2.25, 2.25, 1.85])


def test_what_is_not_there_is_neither_checked_before_a_flight_nor_lost(tmp_path: Path, key: str) -> None:
    harness = harness_of(aircraft(tmp_path, f"    {key}: yes\n    channel: 6\n"))
    assert [channel.function for channel in hangar_content.content(harness).channels] == ["AIL L", "AIL R", "RUD"]
    assert {function.load for function in harness.losses.functions} == {"left-aileron", "right-aileron", "rudder"}


def test_taking_planned_away_moves_nothing(tmp_path: Path) -> None:
    builder = aircraft(tmp_path, "    planned: yes\n")
    before, marks = builder.contacts(), builder.marks()
    builder.change("    planned: yes\n", "")
    assert (builder.contacts(), builder.marks()) == (before, marks)


def test_a_port_that_a_dead_circuit_was_on_is_free(tmp_path: Path) -> None:
    builder = aircraft(tmp_path, "    left_in: yes\n")
    builder.change("from: receiver 4\n", "from: receiver 3\n")
    harness = harness_of(builder)
    used = {port.name: port.circuit.name for port in harness.equipment["receiver"].ports if port.circuit is not None}
    assert used == {"1": "left-aileron", "2": "right-aileron", "3": "rudder", "BATT": "supply"}


def test_what_is_planned_and_left_in_is_an_error(tmp_path: Path) -> None:
    builder = aircraft(tmp_path, "    planned: yes\n    left_in: yes\n")
    assert builder.found("value") == ["it can't be planned and left in."]


def test_the_record_and_the_state_tell_both(tmp_path: Path, key: str) -> None:
    builder = aircraft(tmp_path, f"    {key}: yes\n")
    builder.keep()
    circuit = builder.state().circuits["tip-light"]
    assert (circuit.planned, circuit.left_in) == (key == "planned", key == "left_in")
    assert circuit.label == "TIP-LIGHT"
