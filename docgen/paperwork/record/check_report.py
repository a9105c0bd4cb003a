"""What `docgen check` shows: tables of circuits, supplies, runs and masses as text, or all of it as data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from docgen.basics.findings import Finding
from docgen.basics.units import millimetres
from docgen.harness.model.circuits import numbered
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import CircuitFigures, Stage, SupplyFigures
from docgen.paperwork.record.results import currents_text, endurance_texts

_NOTHING = "–"
_DECIMALS = 6  # of volts and amperes as data


def report_text(harness: Harness) -> str:
    """Return the tables as text; lengths in mm, shares in per cent of each limit."""
    figures = harness.results
    blocks = [_summary(harness)]
    circuits = [_circuit_row(row) for row in figures.circuits.values()]
    blocks.append(_table(_CIRCUIT_HEADS, circuits, left=(0, 2)))
    blocks += [_supply_text(supply) for supply in figures.supplies]
    runs = [_run_row(harness, index) for index, bundle in enumerate(harness.bundles) if bundle.leads]
    if runs:
        blocks.append(_table(("run", "mm", "leads", "bundle", "sleeve", "cut mm", "bend mm"), runs, left=(0, 4)))
    masses = [
        (
            row.assembly,
            f"{row.leads_g:.0f}",
            f"{row.sleeves_g:.0f}",
            f"{row.equipment_g:.0f}",
            f"{row.moment_g_mm / 1000:.1f}",
        )
        for row in harness.balance
    ]
    blocks.append(_table(("assembly", "leads g", "sleeves g", "equipment g", "moment g m"), masses, left=(0,)))
    return "\n\n".join(blocks)


def _summary(harness: Harness) -> str:
    aircraft = harness.aircraft
    cut = sum(1 for lead in harness.leads() if not lead.straight)
    counts = ((len(harness.circuits), "circuit"), (cut, "lead"), (len(harness.disconnects), "disconnect"))
    circuits, leads, disconnects = (f"{count} {what}{'' if count == 1 else 's'}" for count, what in counts)
    return f"{aircraft.name} {aircraft.marks}, revision {aircraft.revision}: {circuits}, {leads} to cut, {disconnects}."


_CIRCUIT_HEADS = (
    "circuit",
    "mm",
    "gauge",
    "works A",
    "drop V",
    "left V",
    "in case",
    "wire %",
    "contact %",
    "brief %",
    "drop %",
    "stalled %",
)


def _circuit_row(row: CircuitFigures) -> tuple[str, ...]:
    shares = row.shares
    used = (shares.wire, shares.contact, shares.brief, shares.drop_working, shares.drop_stalled)
    return (
        row.name,
        millimetres(row.length_mm),
        row.gauge,
        _figure(row.working_a, 2),
        _figure(row.own_drop_v, 3),
        _figure(row.volts_left_v, 2),
        row.case or _NOTHING,
        *map(_percent, used),
    )


def _percent(share: float | None) -> str:
    return _figure(None if share is None else 100 * share, 0)


def _figure(value: float | None, decimals: int) -> str:
    return _NOTHING if value is None else f"{value:.{decimals}f}"


def _supply_text(supply: SupplyFigures) -> str:
    rows = [row for stage in supply.stages for row in _stage_rows(stage)]
    head = f"supply {supply.name}: {currents_text(supply)}"
    lasts = endurance_texts(supply.packs, supply.endurance) if supply.endurance is not None else []
    table = _table(("stage", "drop V", "working V", "peak V", "gives V", "rating %"), rows, left=(0,))
    return "\n".join([head, *(f"  {said}" for said in lasts), table])


def _stage_rows(stage: Stage) -> list[tuple[str, ...]]:
    """Return the line of a stage, with what its output gives; of several outputs each has a line of its own."""
    alone = stage.outputs[0].volts_v if len(stage.outputs) == 1 else None
    volts = (stage.drop_v, stage.working_v, stage.peak_v, alone)
    rows = [(stage.name, *(_figure(value, 2) for value in volts), _percent(stage.rating_share))]
    for outlets in stage.outputs if len(stage.outputs) > 1 else ():
        name = numbered(stage.name, "port", ", ".join(outlets.ports))
        rows.append((name, *[_NOTHING] * 3, _figure(outlets.volts_v, 2), _NOTHING))
    return rows


def _run_row(harness: Harness, index: int) -> tuple[str, ...]:
    run, bundle = harness.runs[index], harness.bundles[index]
    sleeve = bundle.sleeve
    cut = _NOTHING
    if sleeve is not None:
        cut = millimetres(sleeve.cut_length_mm) if sleeve.runs[0] == index else "as before"
    return (
        f"{run.between[0]} to {run.between[1]}",
        millimetres(run.length_mm),
        str(len(bundle.leads)),
        f"{bundle.diameter_mm:.2f}",
        sleeve.kind.name if sleeve else run.dressed or _NOTHING,
        cut,
        f"{bundle.flexed_mm if run.hinge_mm is not None else bundle.supported_mm:.0f}",
    )


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]], left: Sequence[int]) -> str:
    """Set rows in columns, those of `left` at their left edge, figures at their right."""
    widths = [max(len(row[i]) for row in (heads, *rows)) for i in range(len(heads))]

    def line(row: Sequence[str]) -> str:
        cells = [cell.ljust(widths[i]) if i in left else cell.rjust(widths[i]) for i, cell in enumerate(row)]
        return "  ".join(cells).rstrip()

    return "\n".join(line(row) for row in (heads, *rows))


def report_data(harness: Harness | None, findings: Sequence[Finding]) -> dict[str, Any]:
    """Return everything as plain data; nothing where something is not computed, or the definition has errors."""
    data: dict[str, Any] = {
        "findings": [_finding_data(finding) for finding in findings],
        "circuits": [],
        "supplies": [],
        "runs": [],
        "assemblies": [],
    }
    if harness is not None:
        data["circuits"] = [_circuit_data(harness, row) for row in harness.results.circuits.values()]
        data["supplies"] = [_supply_data(supply) for supply in harness.results.supplies]
        data["runs"] = [_run_data(harness, index) for index in range(len(harness.bundles))]
        data["assemblies"] = [
            {
                "name": row.assembly,
                "mass_g": round(row.leads_g + row.sleeves_g + row.equipment_g, _DECIMALS),
                "moment_g_mm": round(row.moment_g_mm, _DECIMALS),
            }
            for row in harness.balance
        ]
    return data


def _finding_data(finding: Finding) -> dict[str, Any]:
    return {
        "file": finding.position.file,
        "line": finding.position.line,
        "column": finding.position.column,
        "level": str(finding.level),
        "name": finding.name,
        "sentence": finding.sentence,
        "do": finding.do,
        "accepted": finding.accepted or None,
        "subject": list(finding.subject),
    }


def _circuit_data(harness: Harness, row: CircuitFigures) -> dict[str, Any]:
    data = {key: _rounded(value) for key, value in asdict(row).items() if key != "shares"}
    shares = {key: _rounded(value) for key, value in asdict(row.shares).items()}
    label = harness.circuits[row.name].label
    return {"name": row.name, "label": label, **data, "shares": shares}


def _supply_data(supply: SupplyFigures) -> dict[str, Any]:
    endurance = supply.endurance
    return {
        "name": supply.name,
        "packs": list(supply.packs),
        "working_a": _rounded(supply.working_a),
        "peak_a": _rounded(supply.peak_a),
        "stages": [_stage_data(stage) for stage in supply.stages],
        "flight_mah": _rounded(max(endurance.flight_mah.values())) if endurance else None,
        "flights_together": _rounded(endurance.together) if endurance else None,
        "flights_alone": {pack: _rounded(flights) for pack, flights in endurance.alone.items()} if endurance else None,
    }


def _stage_data(stage: Stage) -> dict[str, Any]:
    data = {key: _rounded(value) for key, value in asdict(stage).items() if key != "outputs"}
    outputs = [{"ports": list(outlets.ports), "volts_v": _rounded(outlets.volts_v)} for outlets in stage.outputs]
    return {**data, "outputs": outputs}


def _run_data(harness: Harness, index: int) -> dict[str, Any]:
    run, bundle = harness.runs[index], harness.bundles[index]
    sleeve = bundle.sleeve
    return {
        "between": list(run.between),
        "length_mm": _rounded(run.length_mm),
        "leads": list(bundle.leads),
        "diameter_mm": _rounded(bundle.diameter_mm),
        "sleeve": sleeve.kind.name if sleeve else None,
        "sleeve_cut_mm": _rounded(sleeve.cut_length_mm) if sleeve else None,
        "bend_radius_mm": _rounded(bundle.flexed_mm if run.hinge_mm is not None else bundle.supported_mm),
    }


def _rounded(value: Any) -> Any:
    return round(value, _DECIMALS) if isinstance(value, float) else value
