"""Two errors that need the whole: a positive of several supplies, and a character that the face lacks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from docgen.basics.findings import Finding, Level
from docgen.pipeline import check

if TYPE_CHECKING:
    from conftest import AircraftFolder

SECOND_PACK = (
    "  rudder:\n    kind: servo",
    "  second:\n    kind: battery\n    place: battery-bay\n    lead: 120 mm\n    plug: servo-3\n"
    "    battery: {cells: 2, capacity: 900 mAh, full: 8.4 V, empty: 6.4 V}\n"
    "  extra:\n    kind: light\n    place: left-aileron\n    lead: 90 mm\n    plug: servo-3\n"
    "  rudder:\n    kind: servo",
)
COMMONS = (
    "    shell: block-6\n",
    "    shell: block-6\n    commons:\n      live: {role: positive, contacts: [6], "
    "circuits: {left: [left-aileron, extra], right: [right-aileron]}}\n",
)


def extra(start: str) -> tuple[str, str]:
    return (
        "  rudder:\n    label",
        f"  extra: {{from: {start}, to: extra, through: [left-root], lead: servo-22}}\n  rudder:\n    label",
    )


def named(folder: Path, name: str) -> list[Finding]:
    return [finding for finding in check(folder).findings if finding.name == name]


def test_a_positive_of_two_packs_can_not_be_shared(aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [SECOND_PACK, COMMONS, extra("second")]})
    found = [finding for finding in check(folder).findings if finding.level is Level.ERROR]
    assert {(finding.name, finding.sentence) for finding in found} == {
        ("supplies", "circuits of several supplies (pack, second) share the positive `live`.")
    }
    line = (folder / "harness.yaml").read_text(encoding="utf-8").split("\n")
    index = next(i for i, text in enumerate(line) if "live:" in text)
    # `<side>-root` stands for two joints, but only the left one has circuits of both packs.
    assert {(f.position.line, f.position.column) for f in found} == {(index + 1, line[index].index("[left-") + 1)}


def test_a_positive_of_one_pack_can_be_shared(aircraft_folder: AircraftFolder) -> None:
    checked = check(aircraft_folder({"harness.yaml": [SECOND_PACK, COMMONS, extra("receiver 3")]}))
    assert checked.harness is not None, checked.findings


@pytest.mark.parametrize("label", ["漢字", "AIL \\u202e", "▲\\u0000", "\\u0301", "q\\u0301", "A\u203fB"])
def test_a_character_that_the_face_lacks_is_an_error_where_it_was_typed(
    label: str, aircraft_folder: AircraftFolder
) -> None:
    folder = aircraft_folder({"harness.yaml": [("label: RX BATT", f'label: "{label}"')]})
    text = (folder / "harness.yaml").read_text(encoding="utf-8").split("\n")
    line = next(i for i, line in enumerate(text) if 'label: "' in line)
    found = named(folder, "character")
    assert [(f.position.line, f.position.column) for f in found] == [(line + 1, text[line].index('"') + 1)]


@pytest.mark.parametrize("label", ["Ω µ ° ± × ≤ ≥ →", "Querruder größer", "ŁŚŻ ő ş ğ", "Ð Þ Æ ø", "e\\u0301", "_"])
def test_a_character_that_the_face_has_is_none(label: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [("label: RX BATT", f'label: "{label}"')]})
    assert check(folder).findings == []
