"""The README's table of every key, from the schemas; run as a script it prints the table."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from docgen.definition.equipment import KINDS_OF_EQUIPMENT
from docgen.definition.schema import STEMS, schema_of
from docgen.paperwork.kinds import MEANINGS

HEAD = "| in | key | meaning | written as | if unsaid |\n| --- | --- | --- | --- | --- |\n"
_FORM = "#/$defs/"
_OHM_SIGN = "Ω"  # an ohm may be written so everywhere, and is shown once


def key_table() -> str:
    """Return the table: each key once, with all that it stands in."""
    rows: dict[tuple[str, ...], list[str]] = {}
    for where, *cells in _rows():
        inside = rows.setdefault(tuple(cells), [])
        inside += [where] if where not in inside else []
    return HEAD + "".join(f"| {', '.join(inside)} | {' | '.join(cells)} |\n" for cells, inside in rows.items())


def _rows() -> Iterator[tuple[str, ...]]:
    for stem in STEMS:
        schema = schema_of(stem, MEANINGS)
        yield from _rows_of(schema, f"`{stem}.yaml`")
        forms = [(name, section) for name, section in schema["properties"].items() if _form_in(section)]
        seen: set[str] = set()
        while forms:
            where, said = forms.pop(0)
            name = _form_in(said)
            yield from _rows_of(schema["$defs"][name], f"`{where}`")
            if name not in seen:
                seen.add(name)
                below = schema["$defs"][name]["properties"].items()
                forms[:0] = [(key, value) for key, value in below if _form_in(value) and key != "accept"]


def _rows_of(form: dict[str, Any], where: str) -> Iterator[tuple[str, ...]]:
    for key, said in form["properties"].items():
        unsaid = (
            _default(said["default"]) if "default" in said else "needed" if key in form.get("required", ()) else "–"
        )
        yield where, f"`{key}`", meaning(said), _written(said), unsaid


def meaning(said: dict[str, Any]) -> str:
    """Return what a key's description says before it names the units."""
    text: str = said["description"]
    return text.rpartition(" In ")[0] if _units(said) else text


def _units(said: dict[str, Any]) -> list[str]:
    units: list[str] = said.get("unit", [])
    for within in ("items", "additionalProperties"):
        units = units or (_units(said[within]) if isinstance(said.get(within), dict) else [])
    return units


def _form_in(said: dict[str, Any]) -> str:
    """Return the form that stands below a key, alone, in a list or by name."""
    if "$ref" in said:
        name: str = said["$ref"].removeprefix(_FORM)
        return name
    for below in (said.get("items"), said.get("else"), said.get("additionalProperties"), *said.get("anyOf", ())):
        if isinstance(below, dict) and _form_in(below):
            return _form_in(below)
    return ""


def _written(said: dict[str, Any]) -> str:
    """Return the units or words that a value is written with, or an example of it, or what it holds."""
    words: list[str] = said.get("enum") or next((one["enum"] for one in said.get("anyOf", ()) if "enum" in one), [])
    number: dict[str, int] = next((one for one in said.get("anyOf", ()) if one.get("type") == "integer"), {})
    if _units(said):
        return _holding(said) + ", ".join(unit for unit in _units(said) if _OHM_SIGN not in unit)
    if words:
        return "a kind of equipment" if words == list(KINDS_OF_EQUIPMENT) else ", ".join(words)
    if number:
        return f"{number['minimum']} to {number['maximum']}"
    if _form_in(said):
        return "a list" if said.get("type") == "array" else "keys"
    one = said if "examples" in said else said.get("additionalProperties", said.get("items", {}))
    like = f"like `{one['examples'][-1]}`".replace("'", "") if "examples" in one else "text"
    return (_holding(said) + like).replace("a list: text", "a list").replace("two: text", "two names")


def _holding(said: dict[str, Any]) -> str:
    if said.get("type") == "array":
        return "two: " if said.get("minItems") == said.get("maxItems") == 2 else "a list: "
    return "by name: " if said.get("type") == "object" else ""


def _default(value: Any) -> str:
    return ", ".join(value) if isinstance(value, list) else str(value)


if __name__ == "__main__":
    print(key_table(), end="")  # noqa: T201 - to be pasted into the README
