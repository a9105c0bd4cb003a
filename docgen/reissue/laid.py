"""Take a state of an aircraft; return its wires as they lie, where their ends are, and which splices they are in."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, IssuedEnd, IssuedLead, IssuedWire, State
from docgen.reissue.moves import SPLICE, Move, Piece, Spot


@frozen(slots=True)
class LaidWire:
    """One wire as it lies in the aircraft: what it is of, where its ends are, and its lead."""

    piece: Piece
    spots: tuple[Spot, Spot]
    lead: IssuedLead

    def moved(self, index: int, *, into: bool, anew: bool = False, crimped: bool = False) -> Move:
        """Return what is done with one of its ends."""
        of = self.piece
        return Move(of.lead, of.role, of.mark, of.colour, self.spots[index], into, anew, crimped, wire=of.wire)


def laid_wires(state: State, circuit: IssuedCircuit, name: str, same: Same | None) -> dict[str, dict[str, LaidWire]]:
    """Return the wires of each lead that is cut, by role; its circuit and ends under the names of now."""
    return {
        f"{name} {letter}": {
            role: LaidWire(
                Piece(f"{name} {letter}", role, wire.mark, wire.colour, wire.gauge, wire.wire, lead.cut_mm),
                (_spot(state, lead, (name, role, wire), 0, same), _spot(state, lead, (name, role, wire), 1, same)),
                lead,
            )
            for role, wire in lead.wires.items()
        }
        for letter, lead in circuit.leads.items()
        if lead.part
    }


def every_wire(state: State, same: Same | None) -> dict[str, dict[str, LaidWire]]:
    """Return the wires of all leads that are cut and neither planned nor dead, under the names of now."""
    found: dict[str, dict[str, LaidWire]] = {}
    for was, circuit in state.circuits.items():
        if not circuit.planned and not circuit.left_in:
            found |= laid_wires(state, circuit, same.circuit(was) if same else was, same)
    return found


def _spot(state: State, lead: IssuedLead, of: tuple[str, str, IssuedWire], index: int, same: Same | None) -> Spot:
    circuit, role, wire = of
    end, contacts = lead.ends[index], wire.at[index]
    name = same.name(end.name) if same else end.name
    tails = state.disconnects[end.name].tails.get(end.part, {}) if end.kind == "half" else {}
    common = next((tails[contact].common for contact in contacts if contact in tails), "")
    splice = f"{name} {end.part} {common}" if common else f"{circuit} {end.place} {role}" * (end.kind == SPLICE)
    return Spot(
        name,
        end.part,
        end.place,
        contacts,
        "" if splice else f"{end.housing} {end.gender}",
        SPLICE if splice else end.join,
        end.kind == "half",
        "" if splice else f"{end.plug} {end.gender}",
        splice,
    )


def port_spot(end: IssuedEnd, same: Same | None = None) -> Spot:
    """Return where a plug is."""
    name = same.name(end.name) if same else end.name
    return Spot(name, end.part, end.place, (), end.housing, end.join, end.kind == "half")


def plug_of(lead: IssuedLead) -> int:
    """Return at which end of a lead that plugs straight in its plug is: away from what it hangs on."""
    return 1 - next((index for index in (1, 0) if lead.ends[index].own_mm is not None), 1)


def owned(circuit: IssuedCircuit | None, same: Same | None) -> Iterator[tuple[str, Spot]]:
    """Walk, of leads that plug straight in, the port that the first own lead of each is plugged into."""
    for letter, lead in circuit.leads.items() if circuit else ():
        if not lead.part:
            yield letter, port_spot(lead.ends[plug_of(lead)], same)


def first_cut(old: State, before: IssuedCircuit | None, after: IssuedCircuit | None) -> tuple[str, ...]:
    """Return the letters of leads that have a length now and had none, so that they could not be cut before.

    Where the aircraft was altered before its files, they are there all the same.
    """
    if before is None or old.as_built:
        return ()
    leads = after.leads if after is not None else {}
    return tuple(letter for letter in before.uncut if letter not in leads or not leads[letter].is_uncut)
