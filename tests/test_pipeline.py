"""What a check and a print bring together: findings of files, issues, pages and paper; what is written or refused."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from builder import Builder
from conftest import WREN

from docgen.basics.findings import Refused
from docgen.paperwork.documents import Choice
from docgen.paperwork.labels.selection import Selection
from docgen.paperwork.layouts.reading import read_printer
from docgen.pipeline import check, print_aircraft

if TYPE_CHECKING:
    from conftest import AircraftFolder

    from docgen.basics.findings import Finding

NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}
RECORD = Choice(("record",))
NOBODY = Selection(("nobody",))


def names(findings: list[Finding]) -> list[str]:
    return [finding.name for finding in findings]


def test_a_check_finds_what_is_beside_the_files_in_the_texts_and_not_built(tmp_path: Path) -> None:
    wren = Builder(tmp_path, "wren")
    assert names(wren.check().findings) == []
    wren.keep()
    assert names(check(wren.folder).findings) == ["unbuilt"]
    (wren.folder / "harness.yml").write_text("circuits: {}\n", "utf-8")
    assert sorted(names(check(wren.folder).findings)) == ["unbuilt", "unread"]
    wren.change("label: RUD\n", "label: RUD 漢\n")
    assert "character" in names(check(wren.folder).findings)
    assert check(wren.folder).harness is None
    state = wren.folder / "issued" / "A" / "state.yaml"
    state.write_text(state.read_text("utf-8") + " ", "utf-8")
    assert "value" in names(check(wren.folder).findings)


def test_of_a_print_all_is_told_that_is_found_while_it_is_made(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    folder = aircraft_folder({"aircraft.yaml": [("   length: 1140 mm,", "")]})
    [printed] = print_aircraft([(folder, tmp_path / "paper")], RECORD)
    draft = f"contacts and marks may still move; before the first crimp: docgen issue {folder}"
    assert (names(printed.findings), printed.notes) == (["unmeasured"], [draft])
    assert (printed.aircraft, printed.target, printed.name, printed.failed) == (folder, tmp_path / "paper", "wren", "")
    assert {output.path for output in printed.outputs} >= {str(tmp_path / "paper" / "record.txt")}
    harness = folder / "harness.yaml"
    harness.write_text(
        harness.read_text("utf-8").replace("    label: RUD\n", "    label: RUD\n    function: Y\n"), "utf-8"
    )
    [printed] = print_aircraft([(folder, tmp_path / "paper")], RECORD)
    assert "moved" in names(printed.findings), "in the paper there it has other numbers"
    assert "unmeasured" in names(printed.findings)


def test_what_is_issued_is_no_draft(tmp_path: Path) -> None:
    wren = Builder(tmp_path, "wren")
    wren.keep()
    [printed] = print_aircraft([(wren.folder, wren.out)], RECORD)
    assert printed.notes == []


def test_what_is_told_while_paper_is_made_stands_before_that_it_is_a_draft(tmp_path: Path) -> None:
    (tmp_path / "printer.yaml").write_text("kind: printer\nscale: [101 %, 100 %]\nshift: [0 mm, 0 mm]\n")
    printer, _ = read_printer(tmp_path / "printer.yaml")
    [printed] = print_aircraft([(WREN, tmp_path)], Choice(("hangar-card",), printer=printer))
    told, draft = printed.notes
    assert told.startswith("hangar-card: its pages lie the other way")
    assert draft.startswith("contacts and marks may still move")


def test_a_name_that_none_has_is_refused_and_beside_an_error_told(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    wrong = aircraft_folder(NO_UNIT)
    with pytest.raises(Refused) as refused:
        print_aircraft([(WREN, tmp_path / "a")], Choice(("wire-labels",), labels=NOBODY))
    assert "'nobody'" in refused.value.sentence
    both = [(WREN, tmp_path / "a"), (wrong, tmp_path / "b")]
    sound, broken = print_aircraft(both, Choice(("wire-labels",), labels=NOBODY))
    assert "'nobody'" in sound.failed
    assert broken.failed == "1 error"
    sound, broken = print_aircraft(both, RECORD)
    assert (sound.failed, broken.failed, broken.harness) == ("", "1 error", None)
    assert (broken.aircraft, broken.target) == (wrong, tmp_path / "b")
    assert not (tmp_path / "b").exists()


def test_an_error_that_comes_as_paper_is_made_is_told_before_a_name_that_none_has(tmp_path: Path) -> None:
    stock = tmp_path / "own.yaml"
    stock.write_text("kind: sail\n")
    choice = Choice(("wire-labels",), stock=stock, labels=NOBODY)
    [printed] = print_aircraft([(WREN, tmp_path / "paper")], choice)
    assert (names(printed.findings), printed.failed) == (["value"], "1 error")


def test_only_the_whole_set_of_the_whole_aircraft_makes_earlier_files_obsolete(tmp_path: Path) -> None:
    def notes(choice: Choice) -> list[str]:
        [printed] = print_aircraft([(WREN, tmp_path)], choice)
        return [note for note in printed.notes if "earlier print" in note]

    assert notes(Choice(("cut-list",), csv=True)) == []
    assert notes(Choice(("hangar-card",))) == []
    assert notes(Choice((), order=("RD",), assembly="left-panel")) == []
    assert any(note.startswith(f"{tmp_path}/cut-list.csv is from an earlier print; ") for note in notes(Choice()))
