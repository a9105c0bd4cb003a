"""What `docgen check` shows of a folder: as text, as data, and its tables read again."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen

WREN = shipped_folder("examples") / "wren"
FULMAR = shipped_folder("examples") / "fulmar"
NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}
MEASURED = "{between: [battery-bay, radio-tray], length: 260 mm}"
ACCEPTED = {"aircraft.yaml": [(MEASURED, "{between: [battery-bay, radio-tray], accept: {unmeasured: not built yet}}")]}
NOTHING = "–"

Row = dict[str, str]
"""One line of a table, by its heads."""


def docgen_check(*words: str | Path) -> Result:
    return CliRunner().invoke(docgen, ["check", *map(str, words)])


@cache
def text_of(folder: Path) -> str:
    return docgen_check(folder).stdout


@cache
def data_of(folder: Path) -> Any:
    return json.loads(docgen_check(folder, "--json").stdout)


def tables_in(text: str) -> dict[str, list[Row]]:
    """Return tables by what their first head names; of supplies each by its own name."""
    tables = {}
    for block in text.strip().split("\n\n")[1:]:
        heading, *lines = block.splitlines()
        name = heading.split()[0]
        if name == "supply":
            name = heading.split(":")[0]
            heading, *lines = [line for line in lines if not line.startswith(" ")]
        heads = re.split(r" {2,}", heading)
        tables[name] = [dict(zip(heads, re.split(r" {2,}", line), strict=True)) for line in lines]
    return tables
