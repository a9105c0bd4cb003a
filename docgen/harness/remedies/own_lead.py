"""Take a circuit and say where the leads that equipment came with arrive by themselves, so that nothing need be cut."""

from __future__ import annotations

from docgen.basics.findings import shown
from docgen.basics.units import added
from docgen.harness.model.circuits import Circuit, CutLead, End
from docgen.harness.model.harness import Harness
from docgen.harness.model.parts import opposite


def own_lead_alone(harness: Harness, circuit: Circuit, at: End | None = None) -> str:
    """Say what to do where an own lead, or that `at` an end, reaches a port or a plain joint without one that is cut.

    It must mate there: the same plug, the other half; a joint must be that circuit's alone, without commons.
    """
    for lead in circuit.cut_leads:
        for end, other in (lead.ends, lead.ends[::-1]):
            if end.own is None or at not in (None, end) or end.connector.name != other.connector.name:
                continue
            straight = other.is_port and other.gender == opposite(end.gender)
            if (straight or _is_half(harness, circuit, end, other)) and _reaches(lead, end, other):
                write = "leave `lead:` out" if straight else f"say `{lead.segment}: own` at `lead:`"
                return f" Or {write}: the own lead of {shown(end.name)} reaches {shown(other.text)} by itself."
    return ""


def _is_half(harness: Harness, circuit: Circuit, end: End, other: End) -> bool:
    """Tell whether the plug of an own lead may be the half of a joint."""
    joint = harness.disconnects[other.name] if other.kind == "half" else None
    return (
        joint is not None
        and not joint.commons
        and {use.of for use in joint.uses.values()} == {circuit.name}
        and other.gender == opposite(end.gender)
    )


def _reaches(lead: CutLead, end: End, other: End) -> bool:
    """Tell whether an own lead is as long as its way to the other end; to a port with that one's added, and loops."""
    owns = [each.own for each in (end, other) if each.own is not None]
    loops = lead.free_mm if other.is_port else ()
    has_mm = added(own.length_mm for own in owns)
    needs_mm = added([lead.route.length_mm, *(own.route.length_mm for own in owns), *loops])
    return has_mm is not None and needs_mm is not None and has_mm >= needs_mm
