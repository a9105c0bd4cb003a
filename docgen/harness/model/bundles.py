"""What lies together: bundles in runs, the sleeves over them, and the masses of assemblies. Values only."""

from __future__ import annotations

from docgen.basics.frozen import frozen
from docgen.basics.units import added
from docgen.harness.model.parts import SleevePart


@frozen(slots=True)
class Sleeve:
    """One piece of protection, over unbroken runs with the same leads, and the places at its two ends.

    How much it covers and what it is cut to are not known where one of the runs is not measured. `heat_c` is the most
    that it and what closes its ends have to stand; `bare_mm` is what it leaves bare at either end, as far as is known.
    """

    kind: SleevePart
    runs: tuple[int, ...]
    ends: tuple[str, str]
    diameter_mm: float
    covered_mm: float | None
    shortening: float
    cut_length_mm: float | None
    heat_c: float | None
    bare_mm: tuple[float, float]


@frozen(slots=True)
class Bundle:
    """What lies in one run: leads (by name), own leads (by equipment) and coaxes (by receiver and antenna).

    `flexed_mm` is the least radius where it bends in use, `supported_mm` where it lies held.
    """

    run: int
    leads: tuple[str, ...]
    diameter_mm: float
    flexed_mm: float
    supported_mm: float
    sleeve: Sleeve | None


@frozen(slots=True)
class AssemblyMass:
    """What leads, sleeves and equipment of an assembly weigh, and their moment about the nose datum.

    Nothing stands for what holds a piece of unknown length, so for the moment too. `unweighed` names what has no mass
    said, `unplaced` what has mass but no coordinates, so no moment.
    """

    assembly: str
    leads_g: float | None
    sleeves_g: float | None
    equipment_g: float
    moment_g_mm: float | None
    unweighed: tuple[str, ...]
    unplaced: tuple[str, ...]

    @property
    def mass_g(self) -> float | None:
        """Return all that weighs in it, if that is known."""
        return added([self.leads_g, self.sleeves_g, self.equipment_g])
