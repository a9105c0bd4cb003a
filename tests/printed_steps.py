"""The order of work as printed: the steps of each assembly, and an airframe that goes round."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from measured import PrintedPage, printed_pages, rows_of

from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork


@dataclass
class Step:
    """One step as printed: its verb, what it says, and the texts of each row."""

    verb: str
    says: str = ""
    rows: list[list[str]] = field(default_factory=list)


def steps_on(pages: Sequence[PrintedPage]) -> Iterator[tuple[str, list[Step]]]:
    """Walk the assemblies of a sheet with their steps."""
    steps: list[Step] = []
    assembly = ""
    for page in pages:
        for row in rows_of(page):
            texts = [text.text for text in row]
            if title := re.fullmatch(r"Order of work · (.+)", texts[0]):
                if steps:
                    yield assembly, steps
                assembly, steps = title[1], []
            elif heading := re.fullmatch(r"\d+ +([A-Z][A-Za-z ]+?)(, continued)?", texts[0]):
                if not heading[2]:
                    steps.append(Step(heading[1]))
            elif steps and row[0].bold:
                steps[-1].rows.append(texts)
            elif steps and not steps[-1].says:
                steps[-1].says = " ".join(texts)
    if steps:
        yield assembly, steps


def printed_sheet(harness: Harness, folder: Path) -> list[PrintedPage]:
    file = folder / "order-of-work.pdf"
    file.write_bytes(make_paperwork(harness, Choice(stems=("order-of-work",))).files["order-of-work.pdf"])
    return printed_pages(file)


def ring(ways: Mapping[str, tuple[str, ...]]) -> Mapping[str, str]:
    """Write an airframe whose runs go round, all of them sharp, with leads by the ways named."""
    places = ("tray", "far", "near")
    box = {"kind": "other", "ports": [{"plug": "servo-3", "names": "1..9", "contacts": "pins"}]}
    equipment: dict[str, object] = {f"box-{place}": box | {"place": place} for place in places}
    circuits = {}
    for number, (name, way) in enumerate(ways.items(), 1):
        equipment[name] = {"kind": "other", "place": way[-1], "lead": "100 mm", "plug": "servo-3"}
        circuits[name] = {"from": f"box-{way[0]} {number}", "to": name, "by": list(way[1:-1]), "lead": "lone-26"}
    runs = [("tray", "far", 510), ("far", "near", 420), ("near", "tray", 110)]
    aircraft = {"name": "Ring", "description": "round", "marks": "R-1", "revision": "A", "date": "2026-01-01"}
    return {
        "aircraft.yaml": json.dumps(
            {
                "aircraft": aircraft,
                "places": {place: {"assembly": "hull", "access": "hatch"} for place in places},
                "runs": [{"between": [a, b], "length": f"{mm} mm", "edges": "sharp"} for a, b, mm in runs],
            }
        ),
        "harness.yaml": json.dumps({"equipment": equipment, "circuits": circuits}),
    }
