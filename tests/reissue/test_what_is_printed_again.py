"""Which documents are printed when a state is issued over another, and what of each."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from builder import Builder
from resolved import EXAMPLES, harness_of, state_of_example

from docgen.definition.issued import State
from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, Paperwork, contents_of
from docgen.paperwork.field.power_parts import Step
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.standing import DRAFT, Stamp
from docgen.reissue import rework as reworking
from docgen.reissue.compare import compare
from docgen.reissue.differences import Differences
from docgen.reissue.rework import rework
from docgen.reissue.state import make_state
from docgen.reissue.told import text

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.long

ALL = Choice()
LAST = Stamp("B", "2026-05-01")
Made = dict[str, Any]


@pytest.fixture(scope="module")
def aircraft(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Harness]:
    """Return a wren of which one text of its harness is another, each worked out once."""
    folder: Path = tmp_path_factory.mktemp("changed")
    known: dict[str, Harness] = {}

    def changed(what: str) -> Harness:
        if what not in known:
            wren = Builder(folder / str(len(known)), "wren")
            for old, new in [pair.split(" > ") for pair in what.split(" | ") if pair]:
                wren.change(old, new)
            harness = wren.check().harness
            assert harness is not None
            known[what] = harness
        return known[what]

    return changed


@pytest.fixture
def printed(aircraft: Callable[[str], Harness], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Made]:
    """Return, of a wren that is changed, the content of each document that is printed again, by its stem."""

    def made(what: str, choice: Choice = ALL, *, as_built: bool = False) -> Made:
        asked: list[Any] = []

        def documents_of(*words: Any) -> Paperwork:
            asked.append(words)
            return Paperwork()

        monkeypatch.setattr(reworking, "make_documents", documents_of)
        harness = aircraft(what)
        rework(state_of_example("wren"), now(harness), harness, choice, replace(DRAFT, last=LAST), as_built=as_built)
        [(of, documents, chosen, standing)] = asked
        assert (of, chosen, standing.draft, standing.last) == (harness, choice, LAST, LAST)
        return {document.stem: content for document, content in documents}

    return made


def now(harness: Harness) -> State:
    return make_state(harness, contents_of(harness), "B", state_of_example("wren"))


def label_keys(made: Made) -> set[str]:
    return {" ".join(label.key.words) for label in made["wire-labels"].labels}


def test_where_nothing_differs_the_sheet_stands_alone(printed: Callable[..., Made]) -> None:
    [(stem, content)] = printed("").items()
    assert (stem, content.old.issue, content.new.issue) == ("rework-sheet", "A", "B")
    assert not content.differences.has_any
    assert (content.ring_out.leads, content.ring_out.mirrors, content.ring_out.paths) == ((), (), ())


RENAMED = "    label: RUD\n >     label: YAW\n"
LONGER = "    throw: 40 mm each way >     loop_from: 80 mm\n    throw: 40 mm each way"


def test_another_label_has_its_labels_and_cards_printed_and_all_aboard_that_names_it(
    printed: Callable[..., Made],
) -> None:
    made = printed(RENAMED)
    assert list(made) == ["rework-sheet", "wire-labels", "pinout-cards", "hangar-card", "fault-finder"]
    assert label_keys(made) == {"rudder A from", "rudder A to"}
    assert [card.name for card in made["pinout-cards"].equipment] == ["receiver"]
    assert made["pinout-cards"].halves == ()
    assert made["rework-sheet"].ring_out.leads == ()


def test_a_longer_lead_has_its_labels_printed_and_is_rung_out(printed: Callable[..., Made]) -> None:
    made = printed(LONGER)
    assert label_keys(made) == {"rudder A from", "rudder A to"}
    assert "pinout-cards" not in made, "a card says nothing of a length"
    assert [lead.name for each in made["rework-sheet"].ring_out.leads for lead in each.leads] == ["rudder A"]
    built = printed(LONGER, as_built=True)["rework-sheet"].differences
    assert (built.is_built, built.wiring.cut) == (True, ())


def test_a_throw_stands_on_the_hangar_card_alone(printed: Callable[..., Made]) -> None:
    assert list(printed("throw: 40 mm each way > throw: 41 mm each way")) == ["rework-sheet", "hangar-card"]


def test_a_fault_finder_that_says_something_else_is_printed_as_it_goes_with_the_aircraft(
    printed: Callable[..., Made], aircraft: Callable[[str], Harness]
) -> None:
    """The pack goes to the tail: its plug is behind the hatch there."""
    moved = "place: battery-bay > place: tail-post"
    made = printed(moved)
    assert "fault-finder" in made
    assert "Cards to replace:\n  fault-finder" in text(compare(state_of_example("wren"), now(aircraft(moved))))


def test_where_a_pack_is_wired_anew_plus_and_minus_are_tried_before_it_goes_in(printed: Callable[..., Made]) -> None:
    """By hand: `power-2` has minus in 1 and plus in 2; the pack is 6.4 V empty, 8.4 V full, 2 cells of 3.7 V."""
    for as_built in (False, True):
        content = printed("place: battery-bay > place: tail-post", as_built=as_built)["rework-sheet"]
        steps = [(step.name, re.sub(r" \(fault \d+\)", "", step.does), step.should) for step in steps_of(content)]
        assert steps == [
            ("pack", "pack 2+ 1−", "6.4 to 8.4 V"),
            ("pack", "", "open"),
            ("pack", "supply to 7.4 V", "0 A"),
            ("RX BATT", "receiver BATT 2+ 1−", "7.4 V"),
        ]
        assert all(step.reads for step in steps_of(content))
    assert steps_of(printed(LONGER)["rework-sheet"]) == [], "a servo's lead brings no other any supply"
    assert steps_of(printed(RENAMED)["rework-sheet"]) == []


def test_where_only_the_lead_of_a_pack_is_anew_that_is_tried_too(printed: Callable[..., Made]) -> None:
    made = printed("    lead: power-20\n >     lead: power-20\n    loop: 60 mm\n")["rework-sheet"]
    assert [step.name for step in steps_of(made)] == ["pack", "pack", "pack", "RX BATT"]


def test_a_supply_of_other_volts_is_tried_before_packs_go_in_and_another_servo_is_not(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What the switch of the gear brings is read there with a limit, before a pack is on it."""
    state, harness = state_of_example("fulmar"), harness_of(EXAMPLES / "fulmar")
    asked: list[Any] = []
    monkeypatch.setattr(reworking, "make_documents", lambda *words: asked.append(words[1]))
    for checks in (("volts",), ("volts", "works", "idle")):
        of = Differences("A", "B", checks={"gear-supply": checks})
        monkeypatch.setattr(reworking, "compare", lambda *_, of=of, **__: of)
        rework(state, state, harness, ALL, DRAFT)
    (_, supplied), (_, replaced) = (documents[0] for documents in asked)
    assert [part.title for part in supplied.powered] == ["Units and receivers, one after another"]
    assert [step.name for step in steps_of(supplied)][:2] == ["service-switch", "GEAR BATT"]
    assert replaced.powered == ()
    assert supplied.rest["gear-supply"].full_v == 12.6, "three cells, full"


def steps_of(content: Any) -> list[Step]:
    return [step for part in content.powered for step in part.steps]


def test_only_documents_that_are_asked_for_are_printed(printed: Callable[..., Made]) -> None:
    assert list(printed(RENAMED, Choice(("wire-labels", "cut-list")))) == ["wire-labels"]


def test_a_label_where_the_plug_stays_on_has_a_tube_that_passes_it_and_one_on_a_bare_lead_has_not(
    printed: Callable[..., Made], aircraft: Callable[[str], Harness]
) -> None:
    for what, stays_on in ((RENAMED, True), (LONGER, False)):
        every = wire_labels.content(aircraft(what)).labels
        keys = [label.key for label in every if " ".join(label.key.words) in ("rudder A from", "rudder A to")]
        finished = wire_labels.content(aircraft(what), keys if stays_on else []).labels
        assert printed(what)["wire-labels"].labels == tuple(label for label in finished if label.key in keys)
    plain, over_plugs = (wire_labels.content(aircraft(RENAMED), keys).labels for keys in ([], keys))
    assert plain != over_plugs
