"""What is printed of one assembly: of all together every label, card, piece and step of the whole, each once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from resolved import EXAMPLES, harness_of

from docgen.cli import docgen
from docgen.harness.assembly.bill_of_materials import bill_of_materials
from docgen.harness.assembly.work import plan_work
from docgen.harness.continuity.readings import lead_readings, tail_readings
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.cut_list import content as cut_list
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.measuring import content as measuring


def held(harness: Harness) -> Iterator[tuple[str, Any]]:
    """Walk every label, card, piece, step and reading, and what is to be measured."""
    cards = pinout_cards.content(harness)
    yield from (("label", (label.key, label.text)) for label in wire_labels.content(harness).labels)
    yield from (("card", (key, digest)) for key, digest in cards.hashes.items())
    cut = cut_list.content(harness)
    yield from (("piece", (piece.key, piece.length_mm)) for group in cut.groups for piece in group.pieces)
    yield from (("not measured", waiting.lead) for waiting in cut.unmeasured)
    yield from (("sleeve", (sleeve.runs, sleeve.cut_length_mm)) for sleeve in cut.sleeves)
    yield from (("own lead", lead.name) for lead in cut.own_leads)
    for work in plan_work(harness.made):
        yield from (("lead", (made.lead.name, made.first.end.text, made.after)) for made in work.leads)
        yield from (("tails", (of[0].name, of[1].name, of[2].half.name)) for of in work.tails)
        yield from (("sleeve on", (made.sleeve.runs, made.start, made.goal)) for made in work.sleeves)
        yield from (("splice", (splice.role, splice.place)) for splice in (*work.branch_splices, *work.tail_splices))
    readings = [one for some in lead_readings(harness.made) for one in some.readings]
    readings += [one for some in tail_readings(harness.made) for one in some.readings]
    yield from (("reading", (one.start, one.goal)) for one in readings)
    for assembly in measuring.content(harness).assemblies:
        yield from (("measure", (assembly.name, each.what)) for each in assembly.measures)
    bill = bill_of_materials(harness.made)
    yield from (("housing", family) for family, count in bill.housings.items() for _ in range(count))
    yield from (("retainer", family) for family, count in bill.retainers.items() for _ in range(count))


@pytest.mark.parametrize("name", ["wren", "fulmar", "wisp"])
def test_all_assemblies_together_hold_everything_once(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    parts = Counter(one for assembly in harness.assemblies for one in held(harness.of_assembly(assembly)))
    assert parts == Counter(held(harness))


def printed(to: Path, *words: str) -> dict[str, str]:
    result = CliRunner().invoke(docgen, ["print", str(EXAMPLES / "wren"), "--to", str(to), *words])
    assert result.exit_code == 0, result.output
    return {path.relative_to(to).as_posix(): path.name for path in to.rglob("*.*")}


def test_an_assembly_goes_to_a_folder_of_its_name_and_leaves_the_whole_alone(tmp_path: Path) -> None:
    printed(tmp_path)
    whole = {path: path.read_bytes() for path in tmp_path.glob("*.pdf")}
    found = printed(tmp_path, "--assembly", "left-panel")
    part = {path for path in found if path.startswith("left-panel/")}
    assert part == {
        f"left-panel/{stem}.pdf"
        for stem in ("cut-list", "wire-labels", "order-of-work", "ring-out-sheet", "pinout-cards")
    }
    assert {path: path.read_bytes() for path in whole} == whole


def test_an_assembly_that_is_not_there_is_wrong_use(tmp_path: Path) -> None:
    words = ["print", str(EXAMPLES / "wren"), "--to", str(tmp_path / "out"), "--assembly", "wing"]
    result = CliRunner().invoke(docgen, words)
    assert result.exit_code == 2
    assert "no assembly 'wing'" in result.stderr
    assert "fuselage, left-panel, right-panel" in result.stderr
    assert not (tmp_path / "out").exists()
