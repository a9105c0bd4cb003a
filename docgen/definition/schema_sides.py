"""Take schemas of forms; return them as `<side>` lets them be written: by name, made twice, with choices inside."""

from __future__ import annotations

import json

from docgen.definition.shapes import Shape
from docgen.definition.sides import SIDE, SIDES

_REF = "#/$defs/"
_CHOICE = "choice"
_HOLDS = "holds-side"
_ABOUT = ("description", "default", "examples", "unit")  # what is said of a key, not of its value
_HELD: Shape = {"$ref": f"{_REF}{_HOLDS}"}
_NAMED: Shape = {"type": "string", "pattern": SIDE}


class Sides:
    """Schemas of forms, each where it is written once and where it stands in an entry that is made twice."""

    def __init__(self, forms: dict[str, Shape]) -> None:
        self._forms = forms
        self._names: dict[str, str] = {}
        self.definitions: dict[str, Shape] = {
            _CHOICE: {"type": "object", "required": list(SIDES), "maxProperties": len(SIDES)},
            _HOLDS: {
                "anyOf": [
                    _NAMED,
                    {"type": "array", "contains": _HELD},
                    {"type": "object", "not": {"additionalProperties": {"not": _HELD}}},
                    {"type": "object", "not": {"propertyNames": {"not": _NAMED}}},
                ]
            },
        }

    def once(self, schema: Shape) -> Shape:
        """Return the schema of what is written once, in which named entries and items of lists may be made twice."""
        made = _told(schema)
        if "$ref" in made:
            self._define(made["$ref"].removeprefix(_REF))
        if "properties" in made:
            made["properties"] = {key: self.once(value) for key, value in made["properties"].items()}
        if isinstance(made.get("additionalProperties"), dict):
            made["patternProperties"] = {SIDE: self._either(made["additionalProperties"])}
            made["additionalProperties"] = self.once(made["additionalProperties"])
        if "$ref" in made.get("items", {}):
            made["items"] = {"if": _HELD, "then": self._either(made["items"]), "else": self.once(made["items"])}
            pair = {key: made.pop(key) for key in ("minItems", "maxItems") if key in made}
            if pair:
                made |= {"if": {"contains": _HELD}, "then": {"minItems": 1, "maxItems": 1}, "else": pair}
        if "anyOf" in made:
            made["anyOf"] = [self.once(value) for value in made["anyOf"]]
        return made

    def _define(self, name: str) -> None:
        if name not in self.definitions:
            self.definitions[name] = {}  # so that it is not begun again inside itself
            self.definitions[name] = self.once(self._forms[name])

    def _either(self, schema: Shape) -> Shape:
        """Return the schema of a value in an entry that is made twice: itself, or one for each side."""
        about = {key: value for key, value in _told(schema).items() if key in _ABOUT}
        bare = {key: value for key, value in schema.items() if key not in _ABOUT}
        key = json.dumps(bare, sort_keys=True)
        if key not in self._names:
            form = bare["$ref"].removeprefix(_REF) if "$ref" in bare else f"value-{len(self._names)}"
            name = self._names[key] = f"{form}-or-{_CHOICE}"
            same = {"$ref": f"{_REF}{name}"}
            self.definitions[name] = {
                "if": {"$ref": f"{_REF}{_CHOICE}"},
                "then": {"properties": dict.fromkeys(SIDES, same)},
                "else": self._twice(self._forms[form] if "$ref" in bare else bare),
            }
        return about | {"$ref": f"{_REF}{self._names[key]}"}

    def _twice(self, schema: Shape) -> Shape:
        """Return the schema of a value in which every value may be a choice."""
        made = _told(schema)
        if "properties" in made:
            made["properties"] = {key: self._either(value) for key, value in made["properties"].items()}
            if set(SIDES) <= made["properties"].keys():
                made["properties"][SIDE] = made["properties"][SIDES[0]]
        for within in ("additionalProperties", "items"):
            if isinstance(made.get(within), dict):
                made[within] = self._either(made[within])
        if "anyOf" in made:
            made["anyOf"] = [self._either(one) if "$ref" in one else self._twice(one) for one in made["anyOf"]]
        if set(SIDES) <= set(made.get("enum", ())):
            made["enum"] = [*made["enum"], SIDE]
        return made


def _told(schema: Shape) -> Shape:
    """Return a schema whose description is one line and ends with the units that its values may have."""
    made = {key: value for key, value in schema.items() if key != "title"}
    if "description" in made:
        *others, last = units_of(schema) or [""]
        said = f" In {', '.join(others)} or {last}." if others else f" In {last}." if last else ""
        made["description"] = " ".join(made["description"].split()) + said
    return made


def units_of(schema: Shape) -> list[str]:
    """Return the units that a value, or those of a list or of keys, may have."""
    for within in ("items", "additionalProperties"):
        if isinstance(schema.get(within), dict):
            return units_of(schema[within])
    found: list[str] = schema.get("unit", [])
    return found
