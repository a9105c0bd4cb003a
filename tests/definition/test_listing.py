"""`docgen parts`: the built-in parts as a list, and each as it would stand in a parts.yaml."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from docgen.cli import docgen
from docgen.definition.load import load_definition
from docgen.definition.parts import PART_SECTIONS
from docgen.paperwork.kinds import ACCEPTABLE

# One part of each kind, and one whose contacts lie in rows.
SHOWN = {
    "pvc-22": "wires",
    "servo-22": "leads",
    "servo-3": "plugs",
    "block-6": "shells",
    "dsub-25": "shells",
    "braid-4": "sleeves",
    "shrink-4.8": "tubes",
}


def parts(*words: str) -> Result:
    return CliRunner().invoke(docgen, ["parts", *words])


def line_of(name: str) -> str:
    (line,) = [line for line in parts().stdout.splitlines() if line.split()[:1] == [name]]
    return line


def test_every_built_in_part_is_listed_once_under_its_kind(aircraft_folder: Callable[..., Path]) -> None:
    listed: dict[str, list[str]] = {}
    section = ""
    for line in filter(None, parts().stdout.splitlines()):
        if line.startswith("  "):
            listed[section].append(line.split()[0])
        else:
            section = line
            assert section not in listed
            listed[section] = []
    definition, _ = load_definition(aircraft_folder(), ACCEPTABLE)
    assert definition is not None
    assert listed == {section: list(getattr(definition.parts, section)) for section in PART_SECTIONS}


def test_what_is_told_of_a_kind_begins_in_one_column() -> None:
    for kind in parts().stdout.split("\n\n"):
        begins = {match.end() for line in kind.splitlines() if (match := re.match(r"  \S+ +", line))}
        assert len(begins) == 1, kind


def test_the_list_goes_to_standard_output_without_trailing_blanks() -> None:
    shown = parts()
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert [line for line in shown.stdout.splitlines() if line != line.rstrip()] == []


@pytest.mark.parametrize(
    ("name", "telling"),
    # Two rows of three; fine wire and lead, their figures from the sample; the trade's 3/16 in tube.
    [
        ("block-6", "6 contacts"),
        ("dsub-25", "25 contacts"),
        ("pvc-22", "gauge 22 AWG"),
        ("servo-22", "signal: pvc-22 WH"),
        ("servo-3", "1: negative, 2: positive, 3: signal"),
        ("shrink-4.8", "recovered 2.4 mm"),
        ("braid-4", "fits [3 mm, 8 mm]"),
    ],
)
def test_a_line_tells_what_sets_a_part_apart(name: str, telling: str) -> None:
    assert telling in line_of(name)


@pytest.mark.parametrize("name", SHOWN)
def test_a_part_is_shown_with_where_its_values_come_from(name: str) -> None:
    shown = parts(name)
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert shown.stdout.startswith(f"{SHOWN[name]}:\n  {name}:\n")
    assert re.search(r"^    source: \S", shown.stdout, re.MULTILINE)
    assert [line for line in shown.stdout.splitlines() if line != line.rstrip()] == []


@pytest.mark.parametrize("name", SHOWN)
def test_a_part_is_shown_as_it_can_be_copied_into_a_parts_list(name: str, aircraft_folder: Callable[..., Path]) -> None:
    copied = parts(name).stdout.replace(f"  {name}:\n", "  copy:\n")
    definition, findings = load_definition(aircraft_folder({"parts.yaml": copied}), ACCEPTABLE)
    assert findings == []
    assert definition is not None
    section = getattr(definition.parts, SHOWN[name])
    assert section["copy"].model_dump() == section[name].model_dump()


@pytest.mark.parametrize(("typed", "meant"), [("sevo-22", "servo-22"), ("block6", "block-6"), ("Braid-4", "braid-4")])
def test_an_unknown_part_is_wrong_use_and_the_nearest_is_offered(typed: str, meant: str) -> None:
    refused = parts(typed)
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert f"`{typed}`" in refused.stderr
    assert f"`{meant}`" in refused.stderr


def test_a_name_like_none_is_told_how_to_find_those_there_are() -> None:
    refused = parts("zzzz")
    assert (refused.exit_code, refused.stdout) == (2, "")
    assert "`docgen parts`" in refused.stderr
