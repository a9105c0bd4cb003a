"""Take two states of an aircraft and which is which; return the leads that equipment came with and that are others."""

from __future__ import annotations

from docgen.definition.identity import Same
from docgen.definition.issued import IssuedEquipment, State
from docgen.reissue.facts import equipment_facts

_OF_LEADS = {"kind", "place", "plug_at", "plug", "gender", "lead_mm", "lead_wire"}


def came_anew(old: State, new: State, same: Same) -> tuple[str, ...]:
    """Return the own leads of equipment that is new, elsewhere or has another lead, as sleeves name what is in them.

    One that plugs straight in is a lead of its circuit.
    """
    names = {now: was for was, now in same.equipment.items()}
    was = {now: name for name, now in same.circuits.items()}
    found: dict[str, None] = {}
    for circuit, of in new.circuits.items():
        ends = [(letter, lead, end) for letter, lead in of.leads.items() for end in lead.ends if end.own_mm is not None]
        for letter, lead, end in ends if not of.planned and not of.left_in else ():
            before = old.circuits.get(was.get(circuit, ""))
            if (before is not None and before.planned) or _is_other(
                old.equipment.get(names.get(end.name, "")), new.equipment.get(end.name)
            ):
                found[f"{end.name}'s own lead" if lead.part else f"{circuit} {letter}"] = None
    return tuple(found)


def _is_other(was: IssuedEquipment | None, now: IssuedEquipment | None) -> bool:
    return was is None or not _OF_LEADS.isdisjoint(fact.what for fact in equipment_facts(was, now))
