"""What check shows, as tables and as data, held against the harness: every cell, its edge, and what is not known."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest
from checked import tables_in
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding, Level, Position
from docgen.paperwork.record.check_report import report_data, report_text

if TYPE_CHECKING:
    from docgen.harness.model.bundles import Bundle
    from docgen.harness.model.harness import Harness

NAMES = ("wren", "fulmar", "wisp")
NOTHING = "–"


def per_cent(share: float | None) -> str:
    return NOTHING if share is None else f"{100 * share:.0f}"


def figure(value: float | None, decimals: int) -> str:
    return NOTHING if value is None else f"{value:.{decimals}f}"


def mm(length_mm: float | None) -> str:
    return NOTHING if length_mm is None else f"{round(length_mm, 1):g}"


@pytest.mark.parametrize("name", NAMES)
def test_every_circuit_stage_and_assembly_has_its_row(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    tables = tables_in(report_text(harness))
    assert [list(row.values()) for row in tables["circuit"]] == [
        [
            *(one.name, mm(one.length_mm), one.gauge, figure(one.working_a, 2), figure(one.own_drop_v, 3)),
            *(
                figure(one.volts_left_v, 2),
                one.case or NOTHING,
                per_cent(one.shares.wire),
                per_cent(one.shares.contact),
            ),
            *(per_cent(one.shares.brief), per_cent(one.shares.drop_working), per_cent(one.shares.drop_stalled)),
        ]
        for one in harness.results.circuits.values()
    ]
    for supply in harness.results.supplies:
        rows = [list(row.values()) for row in tables[f"supply {supply.name}"]]
        assert [row for row in rows if row[0] in {stage.name for stage in supply.stages}] == [
            [
                *(stage.name, figure(stage.drop_v, 2), figure(stage.working_v, 2), figure(stage.peak_v, 2)),
                figure(stage.outputs[0].volts_v, 2) if len(stage.outputs) == 1 else NOTHING,
                per_cent(stage.rating_share),
            ]
            for stage in supply.stages
        ]
    assert [list(row.values()) for row in tables["assembly"]] == [
        [
            *(one.assembly, figure(one.leads_g, 0), figure(one.sleeves_g, 0), figure(one.equipment_g, 0)),
            NOTHING if one.moment_g_mm is None else f"{one.moment_g_mm / 1000:.1f}",
        ]
        for one in harness.balance
    ]


def sleeved(harness: Harness, bundle: Bundle) -> tuple[str, str]:
    run, sleeve = harness.runs[bundle.run], bundle.sleeve
    if sleeve is None:
        return run.dressed or NOTHING, NOTHING
    return sleeve.kind.name, mm(sleeve.cut_length_mm) if sleeve.runs[0] == bundle.run else "as before"


@pytest.mark.parametrize("name", NAMES)
def test_every_run_with_leads_and_every_loss_has_its_row(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    tables = tables_in(report_text(harness))
    wanted = []
    for bundle in (bundle for bundle in harness.bundles if bundle.leads):
        run = harness.runs[bundle.run]
        least = bundle.supported_mm if run.hinge_mm is None else bundle.flexed_mm
        row = [" to ".join(run.between), mm(run.length_mm), str(len(bundle.leads)), f"{bundle.diameter_mm:.2f}"]
        wanted.append([*row, *sleeved(harness, bundle), f"{least:.0f}"])
    assert [list(row.values()) for row in tables["run"]] == wanted
    labels = {function.load: function.label for function in harness.losses.functions}

    def told(loads: tuple[str, ...]) -> str:
        if len(loads) == len(labels) > 1:
            return "everything"
        return ", ".join(label for load, label in labels.items() if load in loads) or NOTHING

    assert [list(row.values()) for row in tables["lost"]] == [
        [f"{loss.thing.kind} {loss.thing.name}", told(loss.stopped), told(loss.goes_on)]
        for loss in harness.losses.losses
    ]


@pytest.mark.parametrize("name", NAMES)
def test_words_begin_and_figures_end_below_their_heads_with_two_blanks_between(name: str) -> None:
    left = {"circuit", "gauge", "stage", "assembly", "run", "sleeve", "lost", "stops", "goes on another way"}
    for block in report_text(harness_of(EXAMPLES / name)).split("\n\n")[1:]:
        lines = [line for line in block.splitlines() if not line.startswith(("supply ", "  "))]
        heads = [(match[0], match.start(), match.end()) for match in re.finditer(r"\S+(?: \S+)*", lines[0])]
        for line in lines[1:]:
            cells = [(match.start(), match.end()) for match in re.finditer(r"\S+(?: \S+)*", line)]
            for (start, end), (head, begins, ends) in zip(cells, heads, strict=True):
                assert start == begins if head in left else end == ends, (head, line)
        widest = [max(len(line) for line in lines)]
        assert widest[0] == len(max(lines, key=len).rstrip())


def rounded(value: Any) -> Any:
    return round(value, 6) if isinstance(value, float) else value


@pytest.mark.parametrize("name", NAMES)
def test_data_has_all_figures_by_their_names(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    data = report_data(harness, [])
    for said, one in zip(data["circuits"], harness.results.circuits.values(), strict=True):
        assert said["label"] == harness.circuits[one.name].label
        for key in ("name", "length_mm", "gauge", "working_a", "stall_a", "own_drop_v", "volts_left_v", "case"):
            assert said[key] == rounded(getattr(one, key))
        shares = ("wire", "contact", "brief", "drop_working", "drop_stalled")
        assert said["shares"] == {key: rounded(getattr(one.shares, key)) for key in shares}
    for said, supply in zip(data["supplies"], harness.results.supplies, strict=True):
        lasts = supply.endurance
        assert "endurance" not in said
        assert said["flight_mah"] == (rounded(max(lasts.flight_mah.values())) if lasts else None)
        assert said["flights_together"] == (rounded(lasts.together) if lasts else None)
        alone = {pack: rounded(flights) for pack, flights in lasts.alone.items()} if lasts else None
        assert said["flights_alone"] == alone
        assert [stage["name"] for stage in said["stages"]] == [stage.name for stage in supply.stages]
    for said, bundle in zip(data["runs"], harness.bundles, strict=True):
        run, sleeve = harness.runs[bundle.run], bundle.sleeve
        least = bundle.supported_mm if run.hinge_mm is None else bundle.flexed_mm
        assert said == {
            "between": list(run.between),
            "length_mm": rounded(run.length_mm),
            "leads": list(bundle.leads),
            "diameter_mm": rounded(bundle.diameter_mm),
            "sleeve": sleeve.kind.name if sleeve else None,
            "sleeve_cut_mm": rounded(sleeve.cut_length_mm) if sleeve else None,
            "bend_radius_mm": rounded(least),
        }
    assert data["assemblies"] == [
        {"name": one.assembly, "mass_g": rounded(one.mass_g), "moment_g_mm": rounded(one.moment_g_mm)}
        for one in harness.balance
    ]
    assert [(one["load"], one["label"], one["circuits"]) for one in data["functions"]] == [
        (one.load, one.label, list(one.circuits)) for one in harness.losses.functions
    ]
    assert data["losses"] == [
        {"kind": loss.thing.kind, "name": loss.thing.name, "stopped": [*loss.stopped], "goes_on": [*loss.goes_on]}
        for loss in harness.losses.losses
    ]


def test_data_of_a_finding_has_its_place_its_words_and_why_it_is_accepted() -> None:
    at = Position("harness.yaml", 3, 7)
    one = Finding(at, "drop", "It drops.", "Take a thicker wire.", ("circuits", "rudder"), Level.NOTE)
    said, accepted = report_data(None, [one, replace(one, accepted="on a stand")])["findings"]
    assert said == {
        "file": "harness.yaml",
        "line": 3,
        "column": 7,
        "level": "note",
        "name": "drop",
        "sentence": "It drops.",
        "do": "Take a thicker wire.",
        "remedy": None,
        "accepted": None,
        "subject": ["circuits", "rudder"],
    }
    assert accepted == said | {"accepted": "on a stand"}


def test_of_packs_of_which_a_flight_takes_more_and_less_the_most_is_given() -> None:
    harness = harness_of(EXAMPLES / "fulmar")
    (radio, *others) = harness.results.supplies
    assert radio.endurance is not None
    uneven = replace(radio, endurance=replace(radio.endurance, flight_mah={"left-pack": 200.0, "right-pack": 300.0}))
    results = replace(harness.results, supplies=(uneven, *others))
    assert report_data(replace(harness, results=results), [])["supplies"][0]["flight_mah"] == 300.0


def test_the_summary_counts_circuits_leads_and_joints_one_by_one() -> None:
    wren = harness_of(EXAMPLES / "wren")
    one = replace(
        wren,
        circuits={"supply": wren.circuits["supply"]},
        disconnects={"left-root": wren.disconnects["left-root"]},
    )
    first = report_text(one).split("\n")[0]
    assert first == "Wren WR-7, revision A: 1 circuit, 1 lead to cut, 1 disconnect."
