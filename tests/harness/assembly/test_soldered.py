"""Contacts that are soldered: a tube each, slid on before, no sample to pull, and said wherever it matters."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from printed_steps import printed_sheet
from resolved import EXAMPLES, harness_of, record_of
from wren_changed import SOLDERED

from docgen.harness.assembly.bill_of_materials import CONTACT_MM, bill_of_materials
from docgen.harness.assembly.samples import samples_of
from docgen.harness.assembly.soldered import soldered_tubes
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.pinout_cards import content as cards_of
from docgen.paperwork.cut_list.content import content as cut_list_of

if TYPE_CHECKING:
    from conftest import AircraftFolder


@pytest.fixture
def wren(aircraft_folder: AircraftFolder) -> Harness:
    return harness_of(aircraft_folder({"parts.yaml": SOLDERED}))


def words_of(harness: Harness, folder: Path) -> str:
    return " ".join(text.text for page in printed_sheet(harness, folder) for text in page.texts)


def test_each_soldered_contact_has_a_tube_that_passes_its_cup_and_grips_its_wire(wren: Harness) -> None:
    # Two joints, two halves, three wires; a cup is as thick as the thickest insulation that goes in, a wire 1.6 mm.
    tubes = list(soldered_tubes(wren))
    assert len(tubes) == 2 * 2 * 3
    for tube in tubes:
        assert tube is not None
        assert tube.expanded_mm >= 1.1 * 2.2
        assert tube.recovered_mm <= 0.9 * 1.6
    assert sum(bill_of_materials(wren).contact_tubes.values()) == 12
    bought = cut_list_of(wren).shopping.tubes_mm
    before = cut_list_of(harness_of(EXAMPLES / "wren")).shopping.tubes_mm
    assert sum(bought.values()) - sum(before.values()) == pytest.approx(12 * CONTACT_MM)


def test_no_sample_of_a_soldered_contact_is_pulled(wren: Harness) -> None:
    assert {sample.connector for sample in samples_of(harness_of(EXAMPLES / "wren"))} == {
        "servo-3",
        "power-2",
        "block-6",
    }
    assert {sample.connector for sample in samples_of(wren)} == {"servo-3", "power-2"}


def test_the_order_of_work_says_solder_tubes_and_the_iron(wren: Harness, tmp_path: Path) -> None:
    plain, said = words_of(harness_of(EXAMPLES / "wren"), tmp_path), words_of(wren, tmp_path)
    assert said.count("· solder") == 4  # one end of each of the four leads that meet a block
    assert said.count("on first") == 4
    assert "tubes over soldered contacts" in said
    assert "An iron burns" in said
    assert not any(words in plain for words in ("solder", "on first", "An iron burns"))


def test_record_and_card_say_so(wren: Harness) -> None:
    record = record_of(wren).whole
    assert "left-root: block-6, 6 contacts, contacts soldered" in record
    assert record.count("half, soldered)") == 4
    assert all("soldered" in " ".join(card.said) for card in cards_of(wren).halves)
    plain = harness_of(EXAMPLES / "wren")
    assert "solder" not in record_of(plain).whole
    assert not any("solder" in " ".join(card.said) for card in cards_of(plain).halves)


def test_the_record_names_each_splice_how_it_is_made_and_its_tube() -> None:
    fulmar = record_of(harness_of(EXAMPLES / "fulmar"))
    splices = fulmar.whole.split("\nSplices\n")[1].split("\n\n")[0]
    text = " ".join(splices.split())
    # Both commons of both wing joints, behind both halves.
    assert text.count("crimped over 8 mm, tube ") == 2 * 2 * 2
    assert "left-root, positive: left-wing-supply A and 2 tails of left-wing-b wing-positive, crimped over 8 mm" in text
    assert "left-panel-root, negative: left-outer-aileron B, left-flap B, left-beacon A and 2 tails" in text
    assert "\nSplices\n" in fulmar.parts["record/assembly-left-panel.txt"]
    assert "\nSplices\n" not in fulmar.parts["record/assembly-tail.txt"]
