"""Take the state that is in the aircraft and one made now; return that with what stays as it lies there.

Leads that stay are as long as they are, and so are sleeves, whatever would be cut now.
"""

from __future__ import annotations

from docgen.definition.identity import identify, known_of_state
from docgen.definition.issued import IssuedLead, IssuedSleeve, State
from docgen.reissue.sleeves import other_sleeves
from docgen.reissue.wires import wiring


def as_it_lies(old: State, new: State) -> State:
    """Return the new state with the lengths and kinds of what stays of the old one."""
    same = identify(known_of_state(old), known_of_state(new))
    stays, was = wiring(old, new, same).stays, {now: was for was, now in same.circuits.items()}
    leads: dict[str, dict[str, IssuedLead]] = {
        name: {
            letter: _long(lead, old.circuits[was[name]].leads[letter]) if f"{name} {letter}" in stays else lead
            for letter, lead in circuit.leads.items()
        }
        for name, circuit in new.circuits.items()
    }
    circuits = {name: of.model_copy(update={"leads": leads[name]}) for name, of in new.circuits.items()}
    others = {sleeve.ends: sleeve.back_mm is not None for sleeve in other_sleeves(old, new)}
    sleeves = {
        ends: _lying(sleeve, old.sleeves[ends], is_cut=ends in others)
        if ends in old.sleeves and others.get(ends, True)
        else sleeve
        for ends, sleeve in new.sleeves.items()
    }
    return new.model_copy(update={"circuits": circuits, "sleeves": sleeves})


def _long(lead: IssuedLead, was: IssuedLead) -> IssuedLead:
    return lead.model_copy(update={"there_mm": was.lies_mm})


def _lying(sleeve: IssuedSleeve, was: IssuedSleeve, *, is_cut: bool) -> IssuedSleeve:
    """Return a sleeve as it lies, one that is cut back or just long enough over its way of now."""
    kind, there_mm = was.lies
    if is_cut or there_mm is None or sleeve.run_mm is None or there_mm <= sleeve.run_mm:
        there_mm = None
    return sleeve.model_copy(update={"there": kind * (kind != sleeve.kind), "there_mm": there_mm})
