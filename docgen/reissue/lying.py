"""Take the state that is in the aircraft and one made now; return that with what stays as it lies there.

Leads that stay are as long as they are, and so are sleeves, whatever would be cut now.
"""

from __future__ import annotations

from docgen.definition.identity import identify, known_of_state
from docgen.definition.issued import IssuedLead, IssuedSleeve, State
from docgen.reissue.sleeves import other_sleeves
from docgen.reissue.wires import wiring


def as_it_lies(old: State, new: State, *, as_built: bool = False) -> State:
    """Return the new state with the lengths and kinds of what stays of the old one.

    Where the aircraft is `as_built`, altered before its files, what is written otherwise now lies so.
    """
    same = identify(known_of_state(old), known_of_state(new))
    stays, was = wiring(old, new, same).stays, {now: was for was, now in same.circuits.items()}
    leads: dict[str, dict[str, IssuedLead]] = {
        name: {
            letter: _long(lead, old.circuits[was[name]].leads[letter], as_built=as_built)
            if f"{name} {letter}" in stays
            else lead
            for letter, lead in circuit.leads.items()
        }
        for name, circuit in new.circuits.items()
    }
    for name, circuit in new.circuits.items():
        before = old.circuits.get(was.get(name, ""))
        if circuit.left_in and not as_built and before is not None and not before.planned:
            leads[name] |= {
                letter: _dead(lead, before.leads[letter])
                for letter, lead in circuit.leads.items()
                if letter in before.leads and lead.part and before.leads[letter].part
            }
    circuits = {name: of.model_copy(update={"leads": leads[name]}) for name, of in new.circuits.items()}
    others = {sleeve.ends: sleeve.back_mm is not None for sleeve in other_sleeves(old, new)}
    sleeves = {
        ends: _lying(sleeve, old.sleeves[ends], is_cut=ends in others)
        if ends in old.sleeves
        and others.get(ends, True)
        and not (as_built and (sleeve.kind, sleeve.run_mm) != (old.sleeves[ends].kind, old.sleeves[ends].run_mm))
        else sleeve
        for ends, sleeve in new.sleeves.items()
    }
    return new.model_copy(update={"circuits": circuits, "sleeves": sleeves})


def _long(lead: IssuedLead, was: IssuedLead, *, as_built: bool) -> IssuedLead:
    is_cut = as_built and lead.cut_mm != was.cut_mm
    return lead if is_cut else lead.model_copy(update={"there_mm": was.lies_mm})


def _dead(lead: IssuedLead, was: IssuedLead) -> IssuedLead:
    """Return a lead of a circuit that is left in: nothing of it is cut again, whatever is written of it now."""
    wires = {
        role: was.wires[role].model_copy(update={"at": wire.at}) if role in was.wires else wire
        for role, wire in lead.wires.items()
    }
    as_was = {name: getattr(was, name) for name in ("part", "bought", "cut_mm", "there_mm", "route")}
    return lead.model_copy(update={**as_was, "wires": wires})


def _lying(sleeve: IssuedSleeve, was: IssuedSleeve, *, is_cut: bool) -> IssuedSleeve:
    """Return a sleeve as it lies, one that is cut back over its way of now."""
    kind, there_mm = was.lies
    if is_cut or there_mm is None or sleeve.run_mm is None or there_mm == sleeve.run_mm:
        there_mm = None
    return sleeve.model_copy(update={"there": kind * (kind != sleeve.kind), "there_mm": there_mm})
