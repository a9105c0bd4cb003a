"""What holds for the whole harness: limits with their sources, how labels are made, what is on the shelf."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.basics.units import decimal


@dataclass(frozen=True, slots=True)
class Limit:
    """Where cautions and notes begin, and where that comes from."""

    value: float
    source: str


@dataclass(frozen=True, slots=True)
class Limits:
    """All limits; without `spare_contacts` the number follows from the shell's contacts."""

    drop_working: Limit
    drop_stalled: Limit
    margin_v: Limit
    together: Limit
    spare_contacts: Limit | None
    hot_c: Limit

    @property
    def peak_text(self) -> str:
        """Say what the peak is, and where that comes from."""
        return f"at peak ({decimal(self.together.value)} stall together; {self.together.source})"
