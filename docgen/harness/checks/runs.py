"""Check that what lies in runs is sleeved where it must be, and bent no tighter than it bears."""

from __future__ import annotations

from docgen.basics.findings import Finding, shown
from docgen.basics.units import at_least, at_most, decimal, millimetres
from docgen.definition.model import Where
from docgen.harness.bundling.bundles import FLEXED, heat_of_run_c
from docgen.harness.bundling.sleeves import choose_sleeve, needs_sleeve, needs_sleeve_for_edges
from docgen.harness.model.harness import Bundle, Harness
from docgen.harness.model.parts import Run


def find_unsleeved(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each run that is sharp and not dressed, or hot, and has no sleeve."""
    return [
        _unsleeved(harness, where, bundle)
        for bundle in harness.bundles
        if bundle.leads and bundle.sleeve is None and needs_sleeve(harness.runs[bundle.run], harness.limits.hot_c.value)
    ]


def _unsleeved(harness: Harness, where: Where, bundle: Bundle) -> Finding:
    run = harness.runs[bundle.run]
    sharp = needs_sleeve_for_edges(run)
    heat = heat_of_run_c(harness.places, harness.runs, bundle.run)
    stands = f" and stands {decimal(heat)} °C" if heat is not None else ""
    limit = harness.limits.hot_c
    hot = run.heat_c is not None and run.heat_c > limit.value
    reasons = ["sharp"] if sharp else []
    if hot and run.heat_c is not None:
        over = (
            f"{decimal(run.heat_c - limit.value, 3)} °C over the {decimal(limit.value)} °C that go without "
            f"({limit.source})"
        )
        reasons.append(f"{decimal(run.heat_c)} °C hot, {over}")
    why = " and ".join(reasons)
    dress = "lead its wires by another route" if hot else "dress its edges and say so (`dressed:`)"
    if choose_sleeve(bundle.diameter_mm, heat, harness.sleeves):
        sentence = f"the run between {_pair(run)} is {why}; labels at its ends leave no room for a sleeve."
        do = "Let the labels lie free of it by a `loop` or `loop_from` of its leads, or " + dress + "."
    else:
        thick_mm = bundle.diameter_mm
        sentence = f"the run between {_pair(run)} is {why}; no sleeve fits its {thick_mm:.2f} mm of wires{stands}."
        fits = f"{at_most(thick_mm, 1)} mm to {at_least(thick_mm, 1)} mm"
        do = f"Add a sleeve that fits {fits}{stands} to `parts.yaml`, or {dress}."
    position = where.value("runs", bundle.run, "edges" if sharp else "heat")
    return Finding(position, "unsleeved", sentence, do, ("runs", str(bundle.run)))


def find_tight_bends(harness: Harness, where: Where) -> list[Finding]:
    """Return a caution for each hinge that bends its wires round a smaller radius than they bear."""
    findings = []
    for bundle in harness.bundles:
        run = harness.runs[bundle.run]
        if run.hinge_mm is None or run.hinge_mm >= bundle.flexed_mm - 1e-9:
            continue
        wanted, thick = at_least(bundle.flexed_mm, 1), millimetres(bundle.diameter_mm)
        by_coax = bundle.flexed_mm != FLEXED * bundle.diameter_mm
        why = "what their coax bears" if by_coax else f"{decimal(FLEXED)} times the outside diameter"
        sentence = (
            f"the hinge between {_pair(run)} bends {thick} mm of wires round {millimetres(run.hinge_mm)} mm; "
            f"they want {wanted} mm ({why}), {at_least(bundle.flexed_mm - run.hinge_mm, 1)} mm more."
        )
        do = f"Lay them round {wanted} mm or more, or in a loop that twists and does not bend."
        position = where.value("runs", bundle.run, "hinge")
        findings.append(Finding(position, "bend", sentence, do, ("runs", str(bundle.run))))
    return findings


def _pair(run: Run) -> str:
    return f"{shown(run.between[0])} and {shown(run.between[1])}"
