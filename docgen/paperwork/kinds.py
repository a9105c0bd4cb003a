"""All kinds of findings by name, from the lists of the rooms that make them."""

from __future__ import annotations

from docgen.basics.errors import ERRORS
from docgen.basics.findings import Level
from docgen.harness.checks import accept
from docgen.harness.checks.all import ALL
from docgen.paperwork.stocks.findings import STOCK, TUBE, TYPE

KINDS = {kind.name: kind for kind in (*ERRORS, *(check.KIND for check in ALL), accept.KIND, TUBE, TYPE, STOCK)}
ACCEPTABLE = tuple(name for name, kind in KINDS.items() if kind.level is not Level.ERROR)
