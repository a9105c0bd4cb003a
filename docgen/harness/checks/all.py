"""All cautions and notes about a harness as built."""

from __future__ import annotations

from docgen.basics.findings import Finding
from docgen.definition.model import Definition
from docgen.harness.checks.crimps import find_crimp_fit
from docgen.harness.checks.currents import find_currents, find_supply_currents
from docgen.harness.checks.gear import find_gear_limit
from docgen.harness.checks.heat import find_heat
from docgen.harness.checks.joints import find_live_pins, find_spare_contacts, find_swap
from docgen.harness.checks.radio import find_antennas, find_failsafe
from docgen.harness.checks.reach import find_access, find_reach
from docgen.harness.checks.runs import find_tight_bends, find_unsleeved
from docgen.harness.checks.spools import find_long_pieces
from docgen.harness.checks.supplies import find_joined, find_lone_packs, find_overvolts, find_short_endurance
from docgen.harness.checks.volts import find_drops, find_low_volts
from docgen.harness.electrical.cases import Electricity
from docgen.harness.model.harness import Harness
from docgen.harness.remedies.search import Remedies

_OF_THE_HARNESS = (
    find_reach,
    find_access,
    find_unsleeved,
    find_tight_bends,
    find_swap,
    find_live_pins,
    find_spare_contacts,
    find_failsafe,
    find_gear_limit,
    find_antennas,
    find_long_pieces,
)
_WITH_REMEDIES = (find_low_volts, find_drops, find_currents, find_lone_packs)
_WITH_CURRENTS = (
    find_heat,
    find_crimp_fit,
    find_overvolts,
    find_joined,
    find_supply_currents,
    find_short_endurance,
)


def find_cautions(definition: Definition, harness: Harness, electricity: Electricity) -> list[Finding]:
    """Return every caution and note about a harness."""
    where = definition.where
    remedies = Remedies(definition, harness, electricity)
    findings = [finding for find in _OF_THE_HARNESS for finding in find(harness, where)]
    findings += [finding for find in _WITH_REMEDIES for finding in find(harness, electricity, remedies, where)]
    return findings + [finding for find in _WITH_CURRENTS for finding in find(harness, electricity, where)]
