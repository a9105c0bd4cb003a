"""Kinds of findings: each is there once, explained in words of the form and in lines that a terminal shows."""

from __future__ import annotations

import ast
import dataclasses
import re
from pathlib import Path
from types import ModuleType

import pytest
from pydantic import BaseModel

import docgen
from docgen.basics import errors
from docgen.basics.explain import explain
from docgen.basics.findings import Level
from docgen.definition import aircraft, defaults, equipment, harness, parts, stores
from docgen.definition.model import Definition, Parts
from docgen.harness.checks import accept, moved, unread
from docgen.harness.checks.all import ALL
from docgen.paperwork.kinds import KINDS
from docgen.paperwork.stocks import findings

PACKAGE = Path(docgen.__file__).parent
CHECKS = PACKAGE / "harness" / "checks"

# All findings that builders are told of.
ERRORS = "file syntax key missing unit value name side route through contacts mate role circle unfed supplies character"
CAUTIONS = (
    "reach access short straight volts overvolts joined-supplies wire-current contact-current supply-current "
    "single-contact one-loss one-pack endurance heat unsleeved bend crimp-fit swap live-pins failsafe gear-limit "
    "antennas tube type stock spool "
    "twins unlike-plugs stall switching channel loose-plug moved near hole"
)
NOTES = "unmeasured accept unused drop spare-contacts unbuilt unread fuse return cover typical"
LEVELS = {
    name: level
    for names, level in ((ERRORS, Level.ERROR), (CAUTIONS, Level.CAUTION), (NOTES, Level.NOTE))
    for name in names.split()
}

# Names that a builder chose, used as keys in examples.
CHOSEN = {"left-root"}
SEGMENTS = set("ABC")
OF_STOCKS = {"printer"}
SIDES = {"left", "right"}

# The sections whose keys change what is judged.
DEFAULTS: dict[str, type[BaseModel]] = {
    "limits": defaults.Limits,
    "labels": defaults.Labels,
    "allowances": defaults.Allowances,
}


def fields(model: type[BaseModel]) -> set[str]:
    return {field.alias or name for name, field in model.model_fields.items()}


def keys_of_the_form() -> set[str]:
    models = [
        model
        for module in (aircraft, defaults, equipment, harness, parts, stores)
        for model in vars(module).values()
        if isinstance(model, type) and issubclass(model, BaseModel)
    ]
    sections = {field.name for form in (Definition, Parts) for field in dataclasses.fields(form)}
    return sections.union(*(fields(model) for model in models))


def quoted(text: str) -> list[str]:
    return re.findall(r"`([^`]+)`", text)


def explanation_of(name: str) -> tuple[str, str, str, str]:
    kind = KINDS[name]
    return kind.when, kind.why, kind.remedy, kind.source


def examples_of(name: str) -> list[str]:
    return [example for text in explanation_of(name) for example in quoted(text)]


def keys_in(example: str) -> list[str]:
    return re.findall(r"([^\s{\[,]+):(?= |$)", example)


def test_each_finding_that_builders_were_told_of_has_its_level_and_no_other_is_known() -> None:
    assert {name: kind.level for name, kind in KINDS.items()} == LEVELS


def test_each_finding_has_one_kind() -> None:
    others = (accept.KIND, moved.KIND, moved.UNBUILT, unread.KIND, findings.TUBE, findings.TYPE, findings.STOCK)
    made = [*errors.ERRORS, *(check.KIND for check in ALL), *others]
    assert sorted(kind.name for kind in made) == sorted(LEVELS)


def test_each_check_is_a_file_named_after_its_finding_and_in_the_list() -> None:
    listed = {Path(str(check.__file__)).name: check.KIND.name for check in ALL if isinstance(check, ModuleType)}
    named = {path.name for path in CHECKS.glob("*.py")} - {
        "__init__.py",
        "all.py",
        "facts.py",
        "accept.py",
        "moved.py",
        "unread.py",
    }
    assert listed == {name: name.removesuffix(".py").rstrip("_").replace("_", "-") for name in named}


@pytest.mark.long
def test_each_name_that_is_given_to_a_finding_is_that_of_an_error() -> None:
    given = {
        argument.value
        for path in PACKAGE.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).rpartition(".")[2] in ("Finding", "Refused", "note", "wrong")
        for argument in [next((each for each in node.args if isinstance(each, ast.Constant)), None)]
        if argument is not None
    }
    assert given == {kind.name for kind in errors.ERRORS}


@pytest.mark.parametrize("name", KINDS)
def test_no_part_is_empty_and_each_is_said_in_sentences(name: str) -> None:
    for text in explanation_of(name):
        assert re.fullmatch(r"\S.+\.", text), text
        assert "  " not in text


@pytest.mark.parametrize("name", KINDS)
def test_every_key_in_an_example_is_one_of_the_form(name: str) -> None:
    known = keys_of_the_form() | CHOSEN | SEGMENTS | SIDES | OF_STOCKS
    for example in examples_of(name):
        may_be = known | KINDS.keys() if example.startswith("accept:") else known
        assert set(keys_in(example)) <= may_be, example


@pytest.mark.parametrize("name", KINDS)
def test_a_default_that_changes_a_rule_is_one_of_its_section(name: str) -> None:
    for example in examples_of(name):
        match = re.match(r"(\w+): \{?(\w+)", example)
        if match and match[1] in DEFAULTS:
            assert match[2] in fields(DEFAULTS[match[1]])


@pytest.mark.parametrize("name", KINDS)
def test_other_findings_are_mentioned_by_a_name_and_level_that_they_have(name: str) -> None:
    for level, other in re.findall(r"\b(error|caution|note) `([^`]+)`", " ".join(explanation_of(name))):
        assert other in KINDS
        assert KINDS[other].level == level


@pytest.mark.parametrize("name", [name for name, each in KINDS.items() if "accept: {" in each.remedy])
def test_no_acceptance_is_offered_for_an_error(name: str) -> None:
    offered = re.findall(r"`accept: \{([a-z-]+):", KINDS[name].remedy)
    assert offered
    assert all(KINDS[other].level != "error" for other in offered)


# The limits that the project's form and method state; 3.57 % is 1/28, the row of FAA AC 43.13-1B table 11-6 for
# continuous loads, spare contacts are those of its 11-234, 1.6 mm is NUREG-0700's 0.004 of 400 mm, the slack for two
# reterminations is AC 43.13-1B 11-118; the rest is common practice, no source.
@pytest.mark.parametrize(
    ("name", "key", "value"),
    [
        ("drop", "limits: drop_working", "3.57 %"),
        ("drop", "limits: drop_stalled", "10 %"),
        ("volts", "limits: margin", "0.3 V"),
        ("volts", "limits: together", "the 4 loads"),
        ("one-pack", "limits: margin", "0.3 V"),
        ("supply-current", "limits: together", "the 4 loads"),
        ("unsleeved", "limits: hot", "80 °C"),
        ("spare-contacts", "limits: spare_contacts", "2 up to 25 contacts, 4 up to 100, 6 above"),
        ("short", "allowances: slack", "(3 %)"),
        ("short", "allowances: strip", "(4 mm)"),
        ("short", "allowances: reterminations", "(2)"),
        ("short", "allowances: retermination", "(10 mm)"),
        ("type", "labels: least_type", "1.6 mm"),
        ("bend", "hinge:", "10 × the outside diameter"),
        ("gear-limit", "gear: stop", "1.3 × working to 0.8 × stall"),
        ("tube", "labels: fit", "at least 1.1 ×"),
    ],
)
def test_a_rule_states_its_number_and_the_key_that_it_hangs_on(name: str, key: str, value: str) -> None:
    assert value in KINDS[name].when
    assert f"`{key}`" in KINDS[name].when


@pytest.mark.parametrize("name", KINDS)
def test_what_is_shown_is_80_columns_wide_at_most(name: str) -> None:
    assert max(map(len, explain(KINDS[name]).splitlines())) <= 80


@pytest.mark.parametrize("name", KINDS)
def test_what_is_shown_begins_with_the_finding_and_has_four_paragraphs(name: str) -> None:
    first, *paragraphs = explain(KINDS[name]).split("\n\n")
    kind = KINDS[name]
    assert " ".join(first.split()) == f"{name} ({kind.level}, stands on {kind.stands_on}): {kind.meaning}"
    titles = [paragraph.splitlines()[0] for paragraph in paragraphs]
    assert titles == ["When", "Why it matters", "How to remedy it", "Source"]


@pytest.mark.parametrize("name", KINDS)
def test_examples_stay_on_one_line_and_nothing_is_lost(name: str) -> None:
    shown = explain(KINDS[name])
    for text in explanation_of(name):
        assert text in " ".join(shown.split())
        assert all(f"`{example}`" in shown for example in quoted(text))


@pytest.mark.parametrize("name", KINDS)
def test_what_is_shown_is_plain_text(name: str) -> None:
    shown = explain(KINDS[name])
    assert shown.replace("\n", "").isprintable()
    assert "\N{NO-BREAK SPACE}" not in shown
