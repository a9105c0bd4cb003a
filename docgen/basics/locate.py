"""Take what a form refused; return findings: at the value, or at the entry's key where something is missing in it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, get_args

from docgen.basics.findings import Finding, Position, Refused, listed, meant, shown
from docgen.basics.source import Node

_Location = Sequence[str | int]

_WANTED = {
    "string_type": "one value",
    "dict_type": "keys with values",
    "model_type": "keys with values",
    "model_attributes_type": "keys with values",
    "list_type": "a list",
    "tuple_type": "a list",
}


def findings_from_errors(
    errors: Iterable[Mapping[str, Any]], entry: Node, entry_key: Position, model: type
) -> list[Finding]:
    """Return a finding for each error, as pydantic lists them, of a model that was validated from `entry`.

    What is missing stands at `entry_key`, where the entry's name is; for an unknown key the model's fields are offered.
    """
    return [_finding(error, entry, entry_key, model) for error in errors]


def _finding(error: Mapping[str, Any], entry: Node, entry_key: Position, model: type) -> Finding:
    location = [str(part) if isinstance(part, str) else part for part in error["loc"]]
    refused = error.get("ctx", {}).get("error")
    if isinstance(refused, Refused):
        return refused.at(_position_of_refused(entry, entry_key, location, refused))
    kind = error["type"]
    if kind == "missing":
        key = key_position_of(entry, location[:-1]) or entry_key
        return Finding(key, "missing", f"{shown(str(location[-1]))} is missing.", "Add it.")
    if kind == "extra_forbidden":
        return _unknown_key(entry, location, model)
    if kind == "too_short":
        wanted = error["ctx"]["min_length"]
        sentence = f"the list has {error['ctx']['actual_length']} items where {wanted} belong."
        return Finding(position_of(entry, location), "value", sentence, f"Give {wanted}.")
    if kind == "too_long":
        most = error["ctx"]["max_length"]
        sentence = f"the list has {error['ctx']['actual_length']} items; {most} are the most."
        return Finding(position_of(entry, location), "value", sentence, f"Give {most} at most.")
    wanted = _WANTED.get(kind, "another value")
    sentence = f"something else stands where {wanted} should."
    return Finding(position_of(entry, location), "value", sentence, f"Write {wanted} here.")


def _position_of_refused(entry: Node, entry_key: Position, location: _Location, refused: Refused) -> Position:
    """Return where it stands: the value, the key for a key, the entry's key for what is missing."""
    if location and location[-1] == "[key]":
        return key_position_of(entry, location[:-1]) or entry_key
    if refused.name == "missing":
        return key_position_of(entry, location) or entry_key
    return position_of(entry, [*location, *refused.path])


def _unknown_key(entry: Node, location: _Location, model: type) -> Finding:
    name = str(location[-1])
    known = list(_fields_at(model, location[:-1]))
    do = meant(name, known, f"Known here: {listed(sorted(known), 30)}.")
    key, _, value = name.partition(":")
    if value and key in known:
        do = f"Put a blank after the colon: {shown(f'{key}: {value}')}."
    position = key_position_of(entry, location) or entry.position
    return Finding(position, "key", f"the key {shown(name)} is unknown.", do)


def position_of(entry: Node, location: _Location) -> Position:
    """Return the position of the value at `location`, or of the last step of the way that exists."""
    return node_at(entry, location).position


def node_at(entry: Node, location: _Location) -> Node:
    """Return the node at `location`, or the last one on the way that exists."""
    node = entry
    for part in location:
        below = _step(node, part)
        if below is None:
            break
        node = below
    return node


def key_position_of(entry: Node, location: _Location) -> Position | None:
    """Return the position of the last key on the way to `location`, or nothing if there is none."""
    found = None
    node = entry
    for part in location:
        if isinstance(part, str):
            found = node.keys.get(part, found)
        below = _step(node, part)
        if below is None:
            break
        node = below
    return found


def _step(node: Node, part: str | int) -> Node | None:
    if isinstance(part, int):
        if isinstance(node.value, list):
            return node.value[part] if part < len(node.value) else None
        return node  # where a list is expected, one item may stand alone
    return node.value.get(part) if isinstance(node.value, dict) else None


def _fields_at(model: type, location: _Location) -> Iterator[str]:
    current: Any = model
    for part in location:
        fields = _fields(current)
        if isinstance(part, str) and part in fields:
            current = _model_in(fields[part])
    return iter(_fields(current))


def _fields(model: Any) -> dict[str, Any]:
    fields = getattr(model, "model_fields", {})
    return {field.alias or name: field.annotation for name, field in fields.items()}


def _model_in(annotation: Any) -> Any:
    if hasattr(annotation, "model_fields"):
        return annotation
    return next((found for arg in get_args(annotation) if (found := _model_in(arg)) is not None), None)
