"""Definitions with some of their lengths and coordinates hidden, or changed, and what is made of them to compare."""

from __future__ import annotations

import copy
import json
import re
from collections.abc import Collection, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from resolved import EXAMPLES

from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.continuity.readings import lead_readings, path_readings, tail_readings
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.cut_list import content as cut_list
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.record.check_report import report_data
from docgen.pipeline import Checked

Definition = dict[str, Any]
Measure = tuple[str | int, ...]
"""Keys of a length, or of coordinates, in a definition by file."""


@cache
def written(name: str) -> str:
    """Return an example, its files by their names, as JSON."""
    read = {path.name: yaml.load(path.read_text("utf-8"), yaml.BaseLoader) for path in (EXAMPLES / name).glob("*.yaml")}
    return json.dumps(read)


def measures(said: Definition) -> Iterator[Measure]:
    """Walk what an aircraft can be without: lengths of runs, coordinates, reaches, lengths of own leads."""
    for index, run in enumerate(said["aircraft.yaml"]["runs"]):
        if "length" in run:
            yield "aircraft.yaml", "runs", index, "length"
    for name, place in said["aircraft.yaml"]["places"].items():
        if "at" in place:
            yield "aircraft.yaml", "places", name, "at"
    for name, joint in said["harness.yaml"].get("disconnects", {}).items():
        for key, half in [*joint.items(), *enumerate(joint.get("halves", ()))]:
            if isinstance(half, dict) and "reach" in half:
                at = ("halves", key) if isinstance(key, int) else (key,)
                yield "harness.yaml", "disconnects", name, *at, "reach"
    for name, entry in said["harness.yaml"]["equipment"].items():
        if "lead" in entry:
            yield "harness.yaml", "equipment", name, "lead"


def of_example(name: str) -> tuple[Definition, list[Measure]]:
    said = json.loads(written(name))
    return said, list(measures(said))


def without(said: Definition, hidden: Collection[Measure]) -> Definition:
    stripped = copy.deepcopy(said)
    for *path, last in hidden:
        del _at(stripped, path)[last]
    return stripped


def otherwise(said: Definition, hidden: Mapping[Measure, float]) -> Definition:
    """Return a definition whose hidden lengths are so many times as long, and coordinates as far aft."""
    changed = copy.deepcopy(said)
    for (*path, last), times in hidden.items():
        entry = _at(changed, path)
        if last == "at":
            entry[last]["aft"] = _times(entry[last].get("aft", "0 mm"), times)
        elif isinstance(entry[last], dict):
            entry[last] = {side: _times(text, times) for side, text in entry[last].items()}
        else:
            entry[last] = _times(entry[last], times)
    return changed


def _at(said: Any, path: Collection[Any]) -> Any:
    for key in path:
        said = said[key]
    return said


def _times(text: str, times: float) -> str:
    number, unit = text.split(" ")
    return f"{float(number) * times:.2f} {unit}"


def folder_of(said: Definition, folder: Path) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for name, entries in said.items():
        (folder / name).write_text(json.dumps(entries, ensure_ascii=False), "utf-8")
    return folder


def routes(harness: Harness) -> list[tuple[str, ...]]:
    return [lead.route.places for lead in harness.leads()]


def figures(checked: Checked) -> dict[tuple[Any, ...], Any]:
    """Return every figure of `check --json` by its path, those without coordinates left out."""
    data = report_data(checked.harness, [])
    for assembly in data["assemblies"]:
        del assembly["moment_g_mm"]  # counts what has coordinates alone, and names the rest
    return dict(_leaves(data))


def _leaves(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], Any]]:
    if isinstance(data, dict | list | tuple):
        for key, value in data.items() if isinstance(data, dict) else enumerate(data):
            yield from _leaves(value, (*path, key))
    elif data is not None:
        yield path, data


def made(harness: Harness) -> dict[str, set[Any]]:
    """Return what is cut, and what is expected when it is rung out."""
    readings = [one for some in (*lead_readings(harness), *path_readings(harness)) for one in some.readings]
    readings += [one for some in tail_readings(harness) for one in some.readings]
    return {
        "pieces": {
            (piece.key, piece.length_mm) for group in cut_list.content(harness).groups for piece in group.pieces
        },
        "sleeves": {
            (one.runs, one.cut_length_mm) for one in sleeves_of(harness.bundles) if one.cut_length_mm is not None
        },
        "readings": {
            (one.start, one.goal, round(one.expected_mv, 3)) for one in readings if one.expected_mv is not None
        },
    }


def labels(harness: Harness) -> dict[tuple[str, ...], str]:
    """Return what the labels say that are at the ends of a lead."""
    return {label.key: str(label.text) for label in wire_labels.content(harness).labels if not label.text.of_wire}


def cards(harness: Harness) -> dict[tuple[str, ...], str]:
    """Return what cards say, but for how far a tail reaches."""
    said = {one.key: " | ".join(one.text) for one in pinout_cards.items(pinout_cards.content(harness))}
    reach = re.compile(r", reach [\d.]+ mm| · plugged (first|after [^|]*?)(?= \|)")
    return {key: reach.sub("", text) for key, text in said.items()}
