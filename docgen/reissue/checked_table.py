"""Take the state of now and what is checked again of each circuit; return the table of that, packs in."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.basics.units import decimal
from docgen.definition.issued import IssuedCircuit, IssuedSettings, State
from docgen.harness.electrical.switching import MOTORS
from docgen.paperwork.page_kit.blocks import Block
from docgen.paperwork.page_kit.cautions import caution
from docgen.paperwork.page_kit.cells import Stacked, Tick
from docgen.paperwork.page_kit.sheets import AREA_MM
from docgen.paperwork.page_kit.tables import Column, Row
from docgen.paperwork.typesetting.typeface import PLAIN_MM
from docgen.reissue.hatch_table import with_head
from docgen.reissue.told import CHECKED

_MADE_SAFE = "Engine and motor made safe, propellers off; hands clear of surfaces, gear and doors."
_CLEAR = "Hands clear of surfaces, gear and doors."
_OFF = " Linkages off until direction and centre are right."


def checked_table(state: State, checks: Mapping[str, tuple[str, ...]]) -> list[Block]:
    """Return the caution, and a row for each circuit with a tick for each check that it needs; nothing if none is."""
    used = [check for check in CHECKED if any(check in some for some in checks.values())]
    columns = [Column("", PLAIN_MM, bold=True), *(Column(CHECKED[check], wraps=False) for check in used)]
    rows = []
    for name, some in checks.items():
        circuit = state.circuits[name]
        ticks = [Tick(_value(state, circuit, check)) if check in some else "" for check in used]
        rows.append(Row((Stacked(circuit.label, under=name), *ticks), rule=True))
    is_driven = any(entry.kind in MOTORS for entry in state.equipment.values())
    said = (_MADE_SAFE if is_driven else _CLEAR) + _OFF * ("direction" in used)
    safe = caution(said, AREA_MM[0], 0, stays=True)
    return [safe, *with_head(columns, rows)] if rows else []


def _value(state: State, circuit: IssuedCircuit, check: str) -> str:
    """Return what a check should show."""
    loads = [state.equipment[end[0]] for end in circuit.ends[1:] if end[0] in state.equipment]
    if check == "fail-safe":
        return circuit.failsafe
    if check == "ends":
        return circuit.throw
    if check == "limit":
        return _limit(state, circuit)
    if check == "volts":
        start, *port = circuit.ends[0]
        gives = (state.settings or {}).get(start, IssuedSettings()).output_v.get("".join(port))
        bears = loads[0].most_v if loads else gives
        return f"≤ {decimal(bears)} V" if bears is not None else ""
    if check == "idle" and loads and loads[0].idle_a is not None:
        return f"{decimal(loads[0].idle_a)} A"
    return ""


def _limit(state: State, circuit: IssuedCircuit) -> str:
    """Return what a leg, or its controller, is set to."""
    settings = [(state.settings or {}).get(end[0], IssuedSettings()) for end in reversed(circuit.ends)]
    limit_s = next((of.limit_s for of in settings if of.limit_s is not None), None)
    stop_a = next((of.stop_a for of in settings if of.stop_a is not None), None)
    said = (f"{decimal(limit_s)} s" if limit_s is not None else "", f"stop {decimal(stop_a)} A" if stop_a else "")
    return ", ".join(filter(None, said))
