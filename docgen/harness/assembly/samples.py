"""Take a harness; return the samples that are crimped and pulled before work begins: each wire with each contact."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.basics.gauges import Gauge
from docgen.basics.pulls import least_pull_n
from docgen.harness.assembly.splices import fitted_wires
from docgen.harness.model.harness import Harness

SAMPLE_MM = 150.0  # of wire; common practice, no source


@frozen
class Sample:
    """One wire, contact and tool to be pulled to destruction, with the least force [N] where a table has one."""

    wire: str
    gauge: Gauge
    connector: str
    gender: str
    least_n: float | None
    military_n: float | None


def samples_of(harness: Harness) -> tuple[Sample, ...]:
    """Return each wire with each contact once; behind a common the contact takes a tail. Solder is not pulled."""
    crimped = [
        (wire.kind, end.connector.name, end.gender)
        for lead in harness.cut_leads()
        for end in lead.ends
        if end.connector.contact.join == "crimp"
        for wire in fitted_wires(harness, lead, end)
    ]
    crimped += [
        (tail.kind, disconnect.shell.name, behind.half.gender)
        for disconnect, _, behind in harness.behind_commons()
        if disconnect.shell.contact.join == "crimp"
        for tail in behind.tails
    ]
    samples = {
        (kind.name, name, gender): Sample(
            kind.name, kind.gauge, name, gender, *(least_pull_n(kind.gauge.area_mm2) or (None, None))
        )
        for kind, name, gender in crimped
    }
    return tuple(samples[key] for key in sorted(samples))
