"""Show the built-in parts list as it is written: all parts by kind, or one with everything said of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from docgen.basics.findings import Refused, listed, meant, shown
from docgen.basics.source import plain, read_yaml
from docgen.definition.load import BUILT_IN_PARTS

# What tells parts of a kind apart at a glance.
_TELLING = {
    "wires": ("gauge", "diameter", "limit"),
    "leads": ("wires", "lay", "bought"),
    "plugs": ("contacts", "size"),
    "shells": ("outline",),
    "sleeves": ("kind", "fits", "limit"),
    "tubes": ("expanded", "recovered", "limit"),
}


def _parts() -> dict[str, dict[str, Any]]:
    node, _ = read_yaml(BUILT_IN_PARTS, BUILT_IN_PARTS.name)
    assert node is not None
    sections: Any = plain(node)
    return {section: dict(entries) for section, entries in sections.items()}


def list_parts() -> str:
    """Return all built-in parts, a line each, by kind."""
    lines: list[str] = []
    for section, entries in _parts().items():
        lines += ["", section] if lines else [section]
        width = max(len(name) for name in entries)
        for name, entry in entries.items():
            telling = [f"{key} {_inline(entry[key])}" for key in _TELLING[section] if key in entry]
            if section == "shells":
                telling.insert(0, f"{_count(entry)} contacts")
            lines.append(f"  {name.ljust(width)}  {', '.join(telling)}")
    return "\n".join(lines)


def part_names() -> list[str]:
    """Return the names of all built-in parts, of each once."""
    return list(dict.fromkeys(name for entries in _parts().values() for name in entries))


def show_part(name: str) -> str:
    """Return everything that is said of a part, as it would stand in a parts.yaml; raises Refused `name`."""
    parts = _parts()
    found = [(section, entries[name]) for section, entries in parts.items() if name in entries]
    if not found:
        known = part_names()
        do = meant(name, known, f"`docgen parts` lists them: {listed(known)}.")
        raise Refused("name", f"{shown(name)} is no built-in part.", do)
    lines = []
    for section, entry in found:
        lines += [f"{section}:", f"  {name}:"]
        lines += [f"    {key}: {_inline(value)}" for key, value in entry.items()]
    return "\n".join(lines)


def _inline(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_inline(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_inline(item) for item in value) + "]"
    return str(value)


def _count(entry: Mapping[str, Any]) -> int:
    return sum(len(row) for row in entry["rows"]) if "rows" in entry else len(entry["at"])
