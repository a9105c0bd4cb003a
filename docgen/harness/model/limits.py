"""Where cautions and notes begin: the defaults with their sources, or what the builder says."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.basics.units import decimal
from docgen.definition.defaults import Limits as LimitsForm


@frozen(slots=True)
class Limit:
    """Where cautions and notes begin, and where that comes from."""

    value: float
    source: str


@frozen(slots=True)
class Limits:
    """All limits; without `spare_contacts` the number follows from the shell's contacts."""

    drop_working: Limit
    drop_stalled: Limit
    margin_v: Limit
    together: Limit
    spare_contacts: Limit | None
    hot_c: Limit

    def case_text(self, case: str) -> str:
        """Say in which case something is judged: `working`, `peak` or `stall`."""
        together = f"{decimal(self.together.value)} stall together; {self.together.source}"
        says = {"working": "with everything working", "peak": f"at peak ({together})", "stall": "with it stalled"}
        return says[case]


# FAA AC 43.13-1B table 11-6 allows 0.5 V of 14 V continuously, which is 1/28; the rest is common practice.
_SOURCES = {
    "drop_working": "FAA AC 43.13-1B table 11-6, continuous",
    "drop_stalled": "common practice",
    "margin": "common practice",
    "together": "common practice: surfaces move in pairs",
    "hot": "common practice",
}


def build_limits(form: LimitsForm) -> Limits:
    """Return all limits, each with where it comes from."""

    def limit(name: str) -> Limit:
        said = name in form.model_fields_set
        return Limit(float(getattr(form, name)), f"`limits: {name}`" if said else _SOURCES[name])

    spare = form.spare_contacts
    return Limits(
        drop_working=limit("drop_working"),
        drop_stalled=limit("drop_stalled"),
        margin_v=limit("margin"),
        together=limit("together"),
        spare_contacts=None if spare is None else Limit(spare, "`limits: spare_contacts`"),
        hot_c=limit("hot"),
    )
