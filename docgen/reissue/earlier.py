"""Take the record that an earlier print left; return the contacts and numbers that it tells, where they are read.

Only what it says of leads that are still there, under the same names, is looked for.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from pathlib import Path

from docgen.basics.findings import Finding
from docgen.definition.model import Where
from docgen.harness.checks import moved
from docgen.harness.checks.accept import with_reasons
from docgen.harness.checks.moved import Given
from docgen.harness.model.harness import Harness

_INDENTED = re.compile(r"\n +")
_WIRE = re.compile(r" ([A-Z]\d+)[A-Z]+[\d.]+N?: ")


def find_moved(harness: Harness, where: Where, target: Path, found: Collection[Finding]) -> list[Finding]:
    """Find what has other contacts or numbers than in the record that stands in the output folder, if one does.

    Left out is what is `found` to have moved already.
    """
    try:
        text = (target / "record.txt").read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        return []
    known = {finding.position for finding in found if finding.name == moved.KIND.name}
    moves = moved.find(harness, where, _told(harness, text, target))
    return with_reasons((move for move in moves if move.position not in known), harness.acceptances)


def _told(harness: Harness, text: str, target: Path) -> Given:
    """Return what a record tells of the leads of a harness."""
    lines = _INDENTED.sub(" ", text).split("\n")
    entries = {line.split(":")[0]: line for line in lines if ": " in line}
    contacts: dict[tuple[str, str, str], str] = {}
    numbers: dict[str, dict[str, str]] = {}
    for lead in harness.leads():
        _, *wires = _WIRE.split(entries.get(lead.name, ""))
        for number, said in zip(wires[::2], wires[1::2], strict=True):
            role = said.split(",")[0]
            numbers.setdefault(lead.circuit, {})[role] = number
            for end in lead.ends:
                at = re.search(rf"\b{re.escape(end.name)} contact (\S+?)(?=,| |$)", said)
                if end.kind == "half" and role not in end.commons and at is not None:
                    contacts[end.name, lead.circuit, role] = at[1]
    return Given(f"in the paper in {target}", contacts, {}, numbers)
