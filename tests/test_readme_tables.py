"""The README's tables of every key and every formula say what the forms and the code do."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

import pytest
from key_table import key_table
from pydantic import BaseModel
from reference.conversions import FOOT_MM
from reference.workmanship import (
    BEND_RADIUS_DIAMETERS,
    CRIMP_PULL_N,
    MARK_NONE_UNDER_IN,
    MARK_ONE_UP_TO_IN,
    RETERMINATIONS,
    SPARE_CONTACTS,
)

from docgen.basics.units import decimal
from docgen.definition import defaults
from docgen.definition.harness import Common
from docgen.definition.load import OFFCUT_MM, SECTIONS_OF_FILES
from docgen.harness.assembly.samples import SAMPLE_MM
from docgen.harness.bundling import bundles, tubes
from docgen.harness.continuity import readings
from docgen.harness.electrical.resistances import COPPER_PER_K, REFERENCE_C

README = (Path(__file__).parents[1] / "README.md").read_text("utf-8")
FORMULAS = README.partition("## Every formula\n")[2]
ROWS = {title: how for title, how, _ in (line[2:-2].split(" | ") for line in FORMULAS.splitlines() if "| " in line)}

ALLOWED, LIMITS, LABELS = defaults.Allowances(), defaults.Limits(), defaults.Labels()
SPLICE_MM, TAIL_MM = defaults.Splices().strip_mm, Common.model_fields["tail"].default


def test_the_table_of_keys_is_that_of_the_forms() -> None:
    assert key_table() in README  # `python tests/key_table.py` prints it


def test_each_key_of_the_forms_stands_in_the_table() -> None:
    shown = {line.split(" | ")[1].strip("`") for line in key_table().splitlines()[2:]}
    sections = {name: section.form for file in SECTIONS_OF_FILES.values() for name, section in file.items()}
    assert shown == {*sections, *keys_of(*sections.values())}


def keys_of(*forms: object) -> Iterator[str]:
    """Walk the keys of forms, and of those that stand in them."""
    for form in forms:
        if isinstance(form, type) and issubclass(form, BaseModel):
            for name, field in form.model_fields.items():
                yield field.alias or name
                yield from keys_of(field.annotation)
        else:
            yield from keys_of(*getattr(form, "__args__", ()))


def mm(length: float) -> str:
    return f"{decimal(length)} mm"


def percent(share: float) -> str:
    return f"{decimal(100 * share, 3)} %"


# What stands in the code, or is printed by who is named as its source, by row.
FIGURES = {
    "quantities": [f"1 ft = {mm(FOOT_MM)}"],
    "free": [mm(SPLICE_MM)],
    "its allowances": [
        f"slack {percent(ALLOWED.slack)}",
        f"strip {mm(ALLOWED.strip_mm)}",
        f"retermination {mm(ALLOWED.retermination_mm)}",
        f"steps of {mm(ALLOWED.round_up_to_mm)}",
    ],
    "reterminations": [str(RETERMINATIONS), str(ALLOWED.reterminations)],
    "tail of a common": [f"{mm(TAIL_MM)} + {mm(SPLICE_MM)}"],
    "resistance of a wire": [f"{COPPER_PER_K}/K × (T − {decimal(REFERENCE_C)} °C)"],
    "working, peak, stall": [f"the {LIMITS.together} loads"],
    "caution `volts`": [f"{LIMITS.margin} V"],
    "note `drop`, working": [f"1/28 ({percent(LIMITS.drop_working)})", percent(1 / 28)],
    "note `drop`, stalled": [percent(LIMITS.drop_stalled)],
    "sleeve": [f"over {decimal(LIMITS.hot)} °C"],
    "bend radius": [f"flexing {BEND_RADIUS_DIAMETERS} ×", f"supported {bundles.SUPPORTED} ×", f"coax {bundles.COAX} ×"],
    "opening": [f"{tubes.TO_SPARE} ×"],
    "shrink tube": [f"{tubes.TO_SPARE} ×", f"{tubes.GRIPS} ×"],
    "strip of paper under it": [mm(tubes.PAPER_MM), mm(tubes.PAPER_THICKENS_MM), f"/ {1 - tubes.SHORTENS}"],
    "label": [
        f"{mm(LABELS.behind_plug_mm)} behind",
        f"capitals of {mm(LABELS.least_type_mm)}",
        f"under {MARK_NONE_UNDER_IN} in",
        f"{MARK_NONE_UNDER_IN} to {MARK_ONE_UP_TO_IN} in",
    ],
    "spare contacts": [", ".join([f"{SPARE_CONTACTS[25]} up to 25 contacts", f"{SPARE_CONTACTS[100]} up to 100"])],
    "clips": [
        mm(defaults.Clips().every),
        f"{decimal(defaults.Clips.model_validate({'every': '9 m'}).apart_mm / 25.4)} in",
    ],
    "pull of a crimp sample": [f"22 AWG {CRIMP_PULL_N[22]} N"],
    "expected millivolts": [
        f"× {decimal(readings.TEST_A)} A",
        f"{decimal(readings.OVER_MV)} mV over",
        f"{decimal(readings.OVER_HEAVY_MV)} mV where all contacts bear {decimal(readings.HEAVY_A)} A",
        f"within {decimal(readings.ALIKE_MV)} mV",
    ],
    "outside diameter, up to 20 equal wires": [
        f"3 {1 + 2 / math.sqrt(3):.3f} d",
        f"4 {1 + math.sqrt(2):.3f} d",
        f"19 {1 + math.sqrt(2) + math.sqrt(6):.3f} d",
    ],
    "what a tube grips": [f"{count} {'wires ' * (count == 2)}{1 + count / math.pi:.2f} d" for count in (2, 4)],
    "spools": [mm(OFFCUT_MM)],
    "to get out": [mm(SAMPLE_MM)],
}


@pytest.mark.parametrize("row", FIGURES)
def test_figures_of_the_formulas_are_those_of_the_code_and_of_their_sources(row: str) -> None:
    assert [figure for figure in FIGURES[row] if figure not in ROWS[row]] == []
