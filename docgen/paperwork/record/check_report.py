"""Take a harness and what was found; return what `docgen check` shows, as tables of text or all of it as data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import asdict
from typing import Any, Generic, TypeVar

from docgen.basics.findings import Finding
from docgen.basics.frozen import frozen
from docgen.basics.units import counted, millimetres
from docgen.harness.model.bundles import AssemblyMass, Bundle
from docgen.harness.model.circuits import numbered
from docgen.harness.model.harness import Harness
from docgen.harness.model.losses import Loss
from docgen.harness.model.results import CircuitFigures, Stage, SupplyFigures
from docgen.paperwork.record.entries import run_text
from docgen.paperwork.record.results import begins_sleeve, bend_mm, currents_text, endurance_texts, functions_text

_NOTHING = "–"
_DECIMALS = 6  # of what is a fraction as data
_Row = TypeVar("_Row")


@frozen
class _Column(Generic[_Row]):
    """A head, and what stands below it in a row: a text, or a value to so many decimals, `times` as large."""

    head: str
    of: Callable[[_Row], str | float | None]
    decimals: int = 0
    times: float = 1
    left: bool = False

    def cell(self, row: _Row) -> str:
        value = self.of(row)
        if value is None or isinstance(value, str):
            return value or _NOTHING
        return f"{self.times * value:.{self.decimals}f}"


def _table(columns: Sequence[_Column[_Row]], rows: Iterable[_Row]) -> str:
    """Set rows in columns, figures at their right edge."""
    lines = [[column.head for column in columns], *([column.cell(row) for column in columns] for row in rows)]
    widths = [max(map(len, cells)) for cells in zip(*lines, strict=True)]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if column.left else cell.rjust(width)
            for column, cell, width in zip(columns, line, widths, strict=True)
        ).rstrip()
        for line in lines
    )


_OF_CIRCUITS: tuple[_Column[CircuitFigures], ...] = (
    _Column("circuit", lambda circuit: circuit.name, left=True),
    _Column("mm", lambda circuit: millimetres(circuit.length_mm)),
    _Column("gauge", lambda circuit: circuit.gauge, left=True),
    _Column("works A", lambda circuit: circuit.working_a, 2),
    _Column("drop V", lambda circuit: circuit.own_drop_v, 3),
    _Column("left V", lambda circuit: circuit.volts_left_v, 2),
    _Column("in case", lambda circuit: circuit.case),
    _Column("wire %", lambda circuit: circuit.shares.wire, times=100),
    _Column("contact %", lambda circuit: circuit.shares.contact, times=100),
    _Column("brief %", lambda circuit: circuit.shares.brief, times=100),
    _Column("drop %", lambda circuit: circuit.shares.drop_working, times=100),
    _Column("stalled %", lambda circuit: circuit.shares.drop_stalled, times=100),
)
_OF_STAGES: tuple[_Column[Stage], ...] = (
    _Column("stage", lambda stage: stage.name, left=True),
    _Column("drop V", lambda stage: stage.drop_v, 2),
    _Column("working V", lambda stage: stage.working_v, 2),
    _Column("peak V", lambda stage: stage.peak_v, 2),
    _Column("gives V", lambda stage: stage.outputs[0].volts_v if len(stage.outputs) == 1 else None, 2),
    _Column("rating %", lambda stage: stage.rating_share, times=100),
)
_OF_MASSES: tuple[_Column[AssemblyMass], ...] = (
    _Column("assembly", lambda mass: mass.assembly, left=True),
    _Column("leads g", lambda mass: mass.leads_g),
    _Column("sleeves g", lambda mass: mass.sleeves_g),
    _Column("equipment g", lambda mass: mass.equipment_g),
    _Column("moment g m", lambda mass: mass.moment_g_mm, 1, times=1e-3),
)


def _of_bundles(harness: Harness) -> tuple[_Column[Bundle], ...]:
    return (
        _Column("run", lambda bundle: run_text(harness.runs[bundle.run]), left=True),
        _Column("mm", lambda bundle: millimetres(harness.runs[bundle.run].length_mm)),
        _Column("leads", lambda bundle: len(bundle.leads)),
        _Column("bundle", lambda bundle: bundle.diameter_mm, 2),
        _Column(
            "sleeve",
            lambda bundle: bundle.sleeve.kind.name if bundle.sleeve else harness.runs[bundle.run].dressed,
            left=True,
        ),
        _Column("cut mm", _cut),
        _Column("bend mm", lambda bundle: bend_mm(harness, bundle)),
    )


def _of_losses(harness: Harness) -> tuple[_Column[Loss], ...]:
    return (
        _Column("lost", lambda loss: " ".join(loss.thing), left=True),
        _Column("stops", lambda loss: functions_text(harness, loss.stopped), left=True),
        _Column("goes on another way", lambda loss: functions_text(harness, loss.goes_on), left=True),
    )


def _cut(bundle: Bundle) -> str | None:
    if bundle.sleeve is None:
        return None
    return millimetres(bundle.sleeve.cut_length_mm) if begins_sleeve(bundle) else "as before"


def report_text(harness: Harness) -> str:
    """Return the tables as text; lengths in mm, shares in per cent of each limit."""
    bundles = [bundle for bundle in harness.bundles if bundle.leads]
    blocks = [
        _summary(harness),
        _table(_OF_CIRCUITS, harness.results.circuits.values()),
        *map(_supply_text, harness.results.supplies),
        *([_table(_of_bundles(harness), bundles)] if bundles else []),
        _table(_OF_MASSES, harness.balance),
        *([_table(_of_losses(harness), harness.losses.losses)] if harness.losses.losses else []),
    ]
    return "\n\n".join(blocks)


def _summary(harness: Harness) -> str:
    aircraft = harness.aircraft
    cut = sum(1 for _ in harness.made.cut_leads())
    counts = ((len(harness.circuits), "circuit"), (cut, "lead"), (len(harness.disconnects), "disconnect"))
    circuits, leads, disconnects = (counted(*each) for each in counts)
    return f"{aircraft.name} {aircraft.marks}, revision {aircraft.revision}: {circuits}, {leads} to cut, {disconnects}."


def _supply_text(supply: SupplyFigures) -> str:
    stages = [row for stage in supply.stages for row in _with_outputs(stage)]
    lasts = (f"  {said}" for said in endurance_texts(supply))
    return "\n".join([f"supply {supply.name}: {currents_text(supply)}", *lasts, _table(_OF_STAGES, stages)])


def _with_outputs(stage: Stage) -> Iterator[Stage]:
    """Walk a stage and, of several outputs, each with what it gives; ports that supply comes to are none."""
    yield stage
    for outlets in stage.outputs if len(stage.outputs) > 1 else ():
        yield Stage(numbered(stage.name, "port", ", ".join(outlets.ports)), None, None, None, None, (outlets,))


def report_data(harness: Harness | None, findings: Sequence[Finding]) -> dict[str, Any]:
    """Return everything as plain data; nothing where something is not computed, or the definition has errors."""
    data: dict[str, Any] = {"findings": [_finding_data(finding) for finding in findings]}
    data |= {"circuits": [], "supplies": [], "runs": [], "assemblies": [], "functions": [], "losses": []}
    if harness is not None:
        data["circuits"] = [
            {"name": name, "label": harness.circuits[name].label, **asdict(circuit)}
            for name, circuit in harness.results.circuits.items()
        ]
        data["supplies"] = [_supply_data(supply) for supply in harness.results.supplies]
        data["runs"] = [_run_data(harness, bundle) for bundle in harness.bundles]
        data["assemblies"] = [
            {"name": mass.assembly, "mass_g": mass.mass_g, "moment_g_mm": mass.moment_g_mm} for mass in harness.balance
        ]
        data["functions"] = [asdict(function) for function in harness.losses.functions]
        data["losses"] = [
            {**loss.thing._asdict(), "stopped": loss.stopped, "goes_on": loss.goes_on} for loss in harness.losses.losses
        ]
    return {key: _plain(value) for key, value in data.items()}


def _plain(data: Any) -> Any:
    """Return data with what is a fraction rounded."""
    if isinstance(data, dict):
        return {key: _plain(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_plain(value) for value in data]
    return round(data, _DECIMALS) if isinstance(data, float) else data


def _finding_data(finding: Finding) -> dict[str, Any]:
    return {
        **finding.position._asdict(),
        "level": str(finding.level),
        "name": finding.name,
        "sentence": finding.sentence,
        "do": finding.do,
        "remedy": finding.remedy,
        "accepted": finding.accepted or None,
        "subject": finding.subject,
    }


def _supply_data(supply: SupplyFigures) -> dict[str, Any]:
    data, lasts = asdict(supply), supply.endurance
    del data["endurance"]
    return data | {
        "flight_mah": max(lasts.flight_mah.values()) if lasts else None,
        "flights_together": lasts.together if lasts else None,
        "flights_alone": lasts.alone if lasts else None,
    }


def _run_data(harness: Harness, bundle: Bundle) -> dict[str, Any]:
    run, sleeve = harness.runs[bundle.run], bundle.sleeve
    return {
        "between": run.between,
        "length_mm": run.length_mm,
        "leads": bundle.leads,
        "diameter_mm": bundle.diameter_mm,
        "sleeve": sleeve.kind.name if sleeve else None,
        "sleeve_cut_mm": sleeve.cut_length_mm if sleeve else None,
        "bend_radius_mm": bend_mm(harness, bundle),
    }
