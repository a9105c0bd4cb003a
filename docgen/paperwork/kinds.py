"""All kinds of findings by name, from the lists of the rooms that make them."""

from __future__ import annotations

from docgen.basics.errors import ERRORS
from docgen.basics.findings import Level
from docgen.harness.checks import accept, moved, unread
from docgen.harness.checks.all import ALL
from docgen.paperwork.stocks.findings import STOCK, TUBE, TYPE

_OTHERS = (accept.KIND, moved.KIND, moved.UNBUILT, unread.KIND, TUBE, TYPE, STOCK)
KINDS = {kind.name: kind for kind in (*ERRORS, *(check.KIND for check in ALL), *_OTHERS)}
ACCEPTABLE = tuple(name for name, kind in KINDS.items() if kind.level is not Level.ERROR)
MEANINGS = {name: KINDS[name].meaning for name in ACCEPTABLE}
