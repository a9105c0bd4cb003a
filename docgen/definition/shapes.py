"""JSON Schema of single values and rules between keys, for text and for what an editor's parser makes of it.

The program reads every scalar as text; an editor may take `4` for a number and `yes` for a truth value.
"""

from __future__ import annotations

import re
from typing import Any

from docgen.basics.colours import COLOURS, GREEN_AND_YELLOW
from docgen.basics.units import LENGTH_MM, Quantity

Shape = dict[str, Any]

# One value, not a list, not keys, and not nothing; naming types instead would make editors offer `true` and `false`.
SCALAR: Shape = {"not": {"type": ["array", "object", "null"]}}
_TRUTH: Shape = {"not": {"type": ["string", "number", "array", "object", "null"]}}
_OF_SIDE: Shape = {"type": "string", "pattern": "<side>"}
_TRUTHS = {"yes", "no", "on", "off"}  # YAML 1.1, type bool
_NUMBER = r"[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)"
_COLOUR = rf"(?!(..)\1$)(?!YEGN$)(?:{'|'.join(COLOURS)}){{1,2}}"


def text(pattern: str = "", **more: Any) -> Shape:
    """Return the shape of one value that holds to a pattern where it is text."""
    return SCALAR | ({"pattern": f"^{pattern}$"} if pattern else {}) | more


def words(*choices: str) -> Shape:
    """Return the shape of a word out of a few."""
    plain: Shape = {"enum": list(choices)}
    return {"anyOf": [plain, _TRUTH]} if _TRUTHS & set(choices) else plain


def quantity(of: Quantity) -> Shape:
    """Return the shape of a number with its unit."""
    return {"type": "string", "pattern": f"^{_amount(of)}$", "examples": [of.example], "unit": list(of.units)}


def _amount(of: Quantity) -> str:
    return rf"{_NUMBER}\s*({'|'.join(_spaced(unit) for unit in of.units)})"


def _spaced(unit: str) -> str:
    """Return the pattern of a unit, in which blanks may stand; an ohm has two signs."""
    return r"\s*".join("[\u2126\u03a9]" if sign in "\u2126\u03a9" else re.escape(sign) for sign in unit)


def whole(least: int, most: int) -> Shape:
    """Return the shape of a bare whole number from 0 or 1 to a power of ten, or one less."""
    figures, some = len(str(most)), "(?!0+$)" if least else ""
    below = f"[0-9]{{1,{figures}}}" if set(str(most)) == {"9"} else f"({most}|[0-9]{{1,{figures - 1}}})"
    number = {"type": "integer", "minimum": least, "maximum": most}
    return {"anyOf": [number, {"type": "string", "pattern": f"^{some}0*{below}$"}], "examples": [least or 1]}


GAUGE = {
    "type": "string",
    "pattern": r"^((40|[0-3]?[0-9])\s*AWG|([0-9]{1,3}|[0-9]{0,3}\.[0-9]{1,3})\s*(mm²|mm2))$",
    "examples": ["22 AWG", "0.25 mm²"],
    "unit": ["AWG", "mm²"],
}
COLOUR = {"type": "string", "pattern": f"^{_COLOUR}$", "examples": [*COLOURS, GREEN_AND_YELLOW, "WHRD"]}
WIRE_AND_COLOUR = {"type": "string", "pattern": rf"^\S+\s+{_COLOUR}$", "examples": ["pvc-22 RD"]}
DAY = {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "format": "date", "examples": ["2026-04-18"]}
LETTER = {"type": "string", "pattern": "^[A-Z]$", "examples": ["C"]}
ENTRY_NAME = text("([a-z0-9-]|<side>)+")
PART_NAME = text("([a-z0-9.-]|<side>)+")
_PORT = text(r"([0-9]{1,9}\.\.[0-9]{1,9}|(?!.*\.\.)[^ ,]+)")
ENDS = {"anyOf": [SCALAR, {"type": "array", "items": SCALAR, "minItems": 1}], "examples": ["receiver 1"]}
# Several ends, one that is made twice, or a choice of such.
SEVERAL = {"anyOf": [{"type": "object"}, {"type": "array", "anyOf": [{"minItems": 2}, {"contains": _OF_SIDE}]}]}
_SEGMENTS = {"type": "object", "propertyNames": {"pattern": "^[A-Z]$"}, "additionalProperties": SCALAR}
LEADS = {"anyOf": [SCALAR, _SEGMENTS], "examples": ["servo-22", {"A": "signal-26", "B": "servo-22"}]}
OPENING = quantity(LENGTH_MM) | {
    "pattern": rf"^{_amount(LENGTH_MM)}(\s*[x×]\s*{_amount(LENGTH_MM)})?$",
    "examples": ["14 mm", "20 mm x 8 mm"],
}
WEB_ADDRESS = {
    "type": "string",
    "pattern": """^[hH][tT][tT][pP][sS]?://[!-"$-.0->A-~]+(/[!-"$->@-~]*)?$""",
    "maxLength": 300,
    "examples": ["https://hangar.example/wren"],
}
NAMES = {"anyOf": [_PORT, {"type": "array", "items": _PORT}], "examples": ["1..6", ["A", "B"]]}


def rules(*among: Shape) -> Any:
    """Return a form's configuration that adds what holds among its keys."""
    return {"json_schema_extra": {"allOf": list(among)}}


def needs(key: str, other: str) -> Shape:
    """Return the rule that where one key stands another must."""
    return {"dependentRequired": {key: [other]}}


def where(condition: Shape, required: list[str] | None = None, **properties: Any) -> Shape:
    """Return the rule of keys that must stand under a condition, or have another shape; `False` is none."""
    return {"if": condition, "then": {"required": required} if required else {"properties": properties}}


def said(key: str) -> Shape:
    """Return the condition that a key stands there and holds something."""
    return {"required": [key], "properties": {key: {"not": {"enum": [[], {}]}}}}


def word(key: str, one: str) -> Shape:
    """Return the condition that a key says a word."""
    return {"required": [key], "properties": {key: {"const": one}}}


def other_word(key: str, one: str) -> Shape:
    """Return the condition that a key says another word; a choice of left and right is none."""
    return {"required": [key], "properties": {key: {"type": "string", "not": {"const": one}}}}
