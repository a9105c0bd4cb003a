"""Sharp and hot runs without a sleeve."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding, shown
from docgen.basics.units import at_least, at_most, decimal
from docgen.harness.bundling.bundles import heat_of_run_c
from docgen.harness.bundling.sleeves import choose_sleeve, needs_sleeve, needs_sleeve_for_edges
from docgen.harness.checks.facts import Facts, caution
from docgen.harness.model.airframe import NO_SLEEVE
from docgen.harness.model.bundles import Bundle

KIND = caution(
    name="unsleeved",
    stands_on="run",
    meaning="A sharp or hot run has no sleeve that stands it.",
    when="A run with `edges: sharp` is not `dressed:` and no sleeve fits its bundle; or a run with `heat:` over "
    "80 °C has no sleeve that fits and whose `limit:` is that heat or more. `limits: hot` changes the 80 °C. Or the "
    "sleeve that a run names, `sleeve: wrap-6`, does not fit or stand it; with `sleeve: none` it goes without.",
    why="A former's edge saws at the insulation; the short comes where nobody looks, and takes the supply along.",
    remedy="Dress the edge, `dressed: grommet`; add a sleeve to `sleeves:` in parts.yaml, `fits: [3 mm, 8 mm]`, "
    "`limit: 125 °C`; or go by another route, `by: [belly]`.",
    source="FAA AC 43.13-1B, 11-115: a grommet at a hole unless the bundle is clamped with at least 3/8 in "
    "clearance. 80 °C, and a sleeve for the whole route: common practice, no source.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each run that is sharp and not dressed, or hot itself, without a sleeve, and each sleeve that can't be."""
    for bundle in facts.harness.bundles:
        run = facts.harness.runs[bundle.run]
        if not bundle.leads or bundle.sleeve is not None or run.sleeve == NO_SLEEVE:
            continue
        if run.sleeve is not None:
            yield _misfit(facts, bundle)
        elif needs_sleeve(run, facts.harness.limits.hot_c.value):
            yield _unsleeved(facts, bundle)


def _misfit(facts: Facts, bundle: Bundle) -> Finding:
    """Say why the sleeve that a builder names can't be on its run."""
    run = facts.harness.runs[bundle.run]
    kind = next(kind for kind in facts.harness.sleeves if kind.name == run.sleeve)
    heat = heat_of_run_c(facts.harness.places, facts.harness.runs, bundle.run)
    sentence = f"labels at the ends of the run between {run.ends_text} leave no room for a sleeve."
    do = "Let the labels lie free of it by a `loop` or `loop_from` of its leads."
    if choose_sleeve(bundle.diameter_mm, heat, [kind]) is None:
        least, most = (decimal(end) for end in kind.fits_mm)
        thick = f"{bundle.diameter_mm:.2f} mm of wires" + (f" in {decimal(heat)} °C" if heat is not None else "")
        sentence = (
            f"{shown(kind.name)} fits {least} to {most} mm and stands {decimal(kind.limit_c)} °C; "
            f"between {run.ends_text} lie {thick}."
        )
        fitting = choose_sleeve(bundle.diameter_mm, heat, facts.harness.sleeves)
        do = f"Take {shown(fitting.name)}, or leave" if fitting else "Leave"
        do += " `sleeve:` out; then one is chosen where it is needed."
    return facts.found(KIND, ("runs", bundle.run, "sleeve"), sentence, do)


def _unsleeved(facts: Facts, bundle: Bundle) -> Finding:
    run = facts.harness.runs[bundle.run]
    sharp = needs_sleeve_for_edges(run)
    heat = heat_of_run_c(facts.harness.places, facts.harness.runs, bundle.run)
    stands = f" and stands {decimal(heat)} °C" if heat is not None else ""
    limit = facts.harness.limits.hot_c
    reasons = ["sharp"] if sharp else []
    dress = "dress its edges and say so (`dressed:`)"
    if run.heat_c is not None and run.heat_c > limit.value:
        dress = "lead its wires by another route"
        over = (
            f"{decimal(run.heat_c - limit.value, 3)} °C over the {decimal(limit.value)} °C that go without "
            f"({limit.source})"
        )
        reasons.append(f"{decimal(run.heat_c)} °C hot, {over}")
    why = " and ".join(reasons)
    if choose_sleeve(bundle.diameter_mm, heat, facts.harness.sleeves):
        sentence = f"the run between {run.ends_text} is {why}; labels at its ends leave no room for a sleeve."
        do = "Let the labels lie free of it by a `loop` or `loop_from` of its leads, or " + dress + "."
    else:
        thick_mm = bundle.diameter_mm
        sentence = f"the run between {run.ends_text} is {why}; no sleeve fits its {thick_mm:.2f} mm of wires{stands}."
        fits = f"{at_most(thick_mm, 1)} mm to {at_least(thick_mm, 1)} mm"
        do = f"Add a sleeve that fits {fits}{stands} to `parts.yaml`, or {dress}."
    return facts.found(KIND, ("runs", bundle.run, "edges" if sharp else "heat"), sentence, do)
