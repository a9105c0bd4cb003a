"""Hinges that bend their wires too tightly."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.findings import Finding
from docgen.basics.units import at_least, decimal, millimetres
from docgen.harness.bundling.bundles import FLEXED
from docgen.harness.checks.facts import Facts, caution

KIND = caution(
    name="bend",
    stands_on="run",
    meaning="A hinge is tighter than the bundle bears.",
    when="The `hinge:` of a run is under 10 × the outside diameter of all that lies in it. 3 × where a bundle "
    "lies supported is printed, not checked.",
    why="At a hinge strands break one by one inside sound insulation. It fails now and then, long before for good.",
    remedy="Let it bend round a larger radius, `hinge: 45 mm`; lay fewer or thinner wires there, `by: [belly]`, "
    "`lead: servo-24`; or clamp the bundle so that it twists along the hinge instead of bending.",
    source="NASA-STD-8739.4, 7.3.21, long-term; US Army TM 1-1500-204-23-4: 10 × the outside diameter. Twisting "
    "at hinged panels: FAA AC 43.13-1B, 11-115.",
)


def find(facts: Facts) -> Iterator[Finding]:
    """Find each hinge that bends its wires round a smaller radius than they bear."""
    for bundle in facts.harness.bundles:
        run = facts.harness.runs[bundle.run]
        if run.hinge_mm is None or run.hinge_mm >= bundle.flexed_mm - 1e-9:
            continue
        wanted, thick = at_least(bundle.flexed_mm, 1), millimetres(bundle.diameter_mm)
        by_coax = bundle.flexed_mm != FLEXED * bundle.diameter_mm
        why = "what their coax bears" if by_coax else f"{decimal(FLEXED)} times the outside diameter"
        sentence = (
            f"the hinge between {run.ends_text} bends {thick} mm of wires round {millimetres(run.hinge_mm)} mm; "
            f"they want {wanted} mm ({why}), {at_least(bundle.flexed_mm - run.hinge_mm, 1)} mm more."
        )
        do = f"Lay them round {wanted} mm or more, or in a loop that twists and does not bend."
        yield facts.found(KIND, ("runs", bundle.run, "hinge"), sentence, do, over=bundle.flexed_mm - run.hinge_mm)
