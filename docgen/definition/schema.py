"""Write JSON Schema (draft 2020-12) of the builder's files, with which editors complete and explain their keys.

It knows all that can be told of one entry by its keys and the form of their values; names, bounds, and what entries
are to each other are left to `docgen check`.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from pydantic import TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from docgen.basics import units
from docgen.definition.load import SECTIONS_OF_FILES, Section
from docgen.definition.parts import PART_SECTIONS
from docgen.definition.schema_sides import Sides, units_of
from docgen.definition.shapes import ENTRY_NAME, PART_NAME, SCALAR, Shape

FOLDER = ".schema"
STEMS = tuple(file.removesuffix(".yaml") for file in SECTIONS_OF_FILES)
_FACTORS = {unit: factor for quantity in units.QUANTITIES for unit, factor in quantity.units.items()}
_FIGURES = 3


def modeline(stem: str) -> str:
    """Return the line at the head of a file by which an editor finds its schema in the aircraft's folder."""
    return f"# yaml-language-server: $schema={FOLDER}/{stem}.json\n"


def schema_files(acceptable: Mapping[str, str]) -> dict[str, bytes]:
    """Return the schemas that go with an aircraft's files, by their path in its folder; see `schema_text`."""
    return {f"{FOLDER}/{stem}.json": schema_text(stem, acceptable).encode() for stem in STEMS}


def schema_text(stem: str, acceptable: Mapping[str, str]) -> str:
    """Return the schema of a file by its stem, as JSON; `acceptable` says what each finding means that may be."""
    return json.dumps(schema_of(stem, acceptable), indent=1) + "\n"


def schema_of(stem: str, acceptable: Mapping[str, str]) -> Shape:
    """Return the schema of a file by its stem."""
    sections = SECTIONS_OF_FILES[f"{stem}.yaml"]
    adapters = [(name, "validation", TypeAdapter[Any](section.form)) for name, section in sections.items()]
    made, forms = TypeAdapter.json_schemas(adapters, schema_generator=_Generator)  # type: ignore[arg-type]
    sides = Sides(_with_findings(forms.get("$defs", {}), acceptable))
    needed = [name for name, section in sections.items() if section.needed]
    return {
        "$schema": GenerateJsonSchema.schema_dialect,
        "title": f"{stem}.yaml",
        "type": "object" if needed else ["object", "null"],
        "properties": {
            name: _section(name, section, made[name, "validation"], sides) for name, section in sections.items()
        },
        "required": needed,
        "additionalProperties": False,
        "$defs": dict(sorted(sides.definitions.items())),
    }


def _section(name: str, section: Section, form: Shape, sides: Sides) -> Shape:
    names = PART_NAME if name in PART_SECTIONS else ENTRY_NAME
    whole: Shape = {
        "one": dict(form),
        "list": {"type": "array", "items": form},
        "named": {"type": "object", "additionalProperties": form, "propertyNames": names},
    }[section.holds]
    if section.default is not None:
        whole["default"] = _as_written(section.default, units_of(form))
    return sides.once(whole | {"description": section.description})


def _with_findings(forms: dict[str, Shape], acceptable: Mapping[str, str]) -> dict[str, Shape]:
    """Return forms in which `accept` names the findings that may be accepted."""
    named = {name: SCALAR | {"description": meaning} for name, meaning in acceptable.items()}
    for form in forms.values():
        accept = form.get("properties", {}).get("accept", {})
        if accept.pop("additionalProperties", None):
            accept["$ref"] = "#/$defs/Accept"
    return forms | {"Accept": {"type": "object", "properties": named, "additionalProperties": False}}


class _Generator(GenerateJsonSchema):
    """Writes forms as the builder does: defaults with units, nothing for what is unsaid, no titles."""

    def field_title_should_be_set(self, _: Any) -> bool:
        return False

    def nullable_schema(self, schema: Any) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: Any) -> JsonSchemaValue:
        inner = self.generate_inner(schema["schema"])
        default = schema["default"]
        if default in (None, "", [], {}, ()):
            return inner
        return inner | {"default": _as_written(default, units_of(inner))}


def _as_written(default: Any, its_units: list[str]) -> Any:
    if isinstance(default, tuple):
        return [_as_written(item, its_units) for item in default]
    if isinstance(default, bool):
        return "yes" if default else "no"
    if isinstance(default, int | float) and its_units:
        return f"{units.decimal(default / _FACTORS[its_units[0]], _FIGURES)} {its_units[0]}"
    return default
