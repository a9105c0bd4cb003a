"""Take the state of now and what is checked again of each circuit; return the table of that, packs in."""

from __future__ import annotations

from collections.abc import Mapping

from docgen.basics.units import decimal
from docgen.definition.issued import IssuedCircuit, IssuedSettings, State
from docgen.harness.electrical.switching import MOTORS
from docgen.harness.model.results import Rest
from docgen.paperwork.field.fault_content import rest_text
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
_FIRST = " Volts first, with what gets them unplugged; packs out to plug it in."


def checked_table(state: State, checks: Mapping[str, tuple[str, ...]], rest: Mapping[str, Rest]) -> list[Block]:
    """Return the caution, and a row for each circuit with a tick for each check that it needs; nothing if none is.

    `rest` is what a meter reads by circuit while nothing draws.
    """
    used = [check for check in CHECKED if any(check in some for some in checks.values())]
    columns = [Column("", PLAIN_MM, bold=True), *(Column(CHECKED[check], wraps=False) for check in used)]
    rows = []
    for name, some in checks.items():
        circuit = state.circuits[name]
        ticks = [Tick(_value(state, circuit, check, rest.get(name))) if check in some else "" for check in used]
        rows.append(Row((Stacked(circuit.label, under=name), *ticks), rule=True))
    is_driven = any(entry.kind in MOTORS for entry in state.equipment.values())
    said = (_MADE_SAFE if is_driven else _CLEAR) + _FIRST * ("volts" in used) + _OFF * ("direction" in used)
    safe = caution(said, AREA_MM[0], 0, stays=True)
    return [safe, *with_head(columns, rows)] if rows else []


def _value(state: State, circuit: IssuedCircuit, check: str, rest: Rest | None) -> str:
    """Return what a check should show."""
    loads = [state.equipment[end[0]] for end in circuit.ends[1:] if end[0] in state.equipment]
    if check == "fail-safe":
        return circuit.failsafe
    if check == "ends":
        return circuit.throw
    if check == "limit":
        return _limit(state, circuit)
    if check == "volts":
        return _volts(
            state, circuit, min((load.most_v for load in loads if load.most_v is not None), default=None), rest
        )
    if check == "idle" and loads and loads[0].idle_a is not None:
        return f"{decimal(loads[0].idle_a)} A"
    return ""


def _volts(state: State, circuit: IssuedCircuit, bears_v: float | None, rest: Rest | None) -> str:
    """Return what a meter shows, but of what is more than loads bear, or not known, the most that is right."""
    if rest is not None and (bears_v is None or rest.full_v <= bears_v):
        return rest_text(rest)
    start, *port = circuit.ends[0]
    gives = (state.settings or {}).get(start, IssuedSettings()).output_v.get("".join(port))
    most = bears_v if bears_v is not None else gives
    return f"≤ {decimal(most)} V" if most is not None else ""


def _limit(state: State, circuit: IssuedCircuit) -> str:
    """Return what a leg, or its controller, is set to."""
    settings = [(state.settings or {}).get(end[0], IssuedSettings()) for end in reversed(circuit.ends)]
    limit_s = next((of.limit_s for of in settings if of.limit_s is not None), None)
    stop_a = next((of.stop_a for of in settings if of.stop_a is not None), None)
    said = (f"{decimal(limit_s)} s" if limit_s is not None else "", f"stop {decimal(stop_a)} A" if stop_a else "")
    return ", ".join(filter(None, said))
