"""Take two states, which is which, and what is done to wires; return what is checked again of each circuit, packs in.

Each outlet has its own reversing, trim, end points and gyro sense, so what hangs on another outlet, port, channel or
unit is set up anew, with all that a signal goes on to from there. Common practice, no source.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same
from docgen.definition.issued import IssuedCircuit, IssuedSettings, State
from docgen.reissue.behind import Behind, first_lead, has_signal, is_fed
from docgen.reissue.facts import equipment_facts, settings_facts
from docgen.reissue.laid import first_cut
from docgen.reissue.moves import Wiring
from docgen.reissue.supplied import Supplied

# Volts are read before what gets them is plugged in, let alone moves.
CHECKS = ("volts", "direction", "centre", "ends", "gyro", "limit", "works", "fail-safe", "idle")
_TRIED = {"servo": ("direction", "centre", "ends"), "gear leg": ("direction", "ends")}
# What of equipment is another though the thing is the same; a gyro that lies elsewhere may lie the other way up.
_WHERE = ("place", "plug_at")
_LIMITS = ("up_s", "down_s", "limit_s", "stop_a")


def checks(old: State, new: State, same: Same, wires: Wiring, swapped: frozenset[str]) -> dict[str, tuple[str, ...]]:
    """Return what is checked of each circuit, in the order in which it is done; `swapped` work other equipment."""
    wanted = _Checking(old, new, same, wires, swapped).wanted()
    return {name: tuple(check for check in CHECKS if check in wanted[name]) for name in new.circuits if wanted[name]}


@frozen
class _Checking:
    """Two states, which is which between them, what is done to wires, and circuits that work other equipment."""

    old: State
    new: State
    same: Same
    wires: Wiring
    swapped: frozenset[str]

    @cached_property
    def behind(self) -> Behind:
        return Behind(self.new)

    def wanted(self) -> dict[str, set[str]]:
        found: dict[str, set[str]] = defaultdict(set)
        for some in (self._own(), self._of_inputs(), self._of_equipment(), self._of_settings(), self._of_volts()):
            for name, of in some:
                found[name] |= of
        for name in self.behind.of_gyros:
            if "direction" in found[name]:
                found[name].add("gyro")
        return found

    @cached_property
    def _was(self) -> dict[str, str]:
        """Return the names that circuits had, by those that they have."""
        return {now: was for was, now in self.same.circuits.items()}

    def _pairs(self) -> Iterator[tuple[str, IssuedCircuit | None, IssuedCircuit]]:
        """Walk the circuits that work, by name, as they were, if they were there, and as they are."""
        for name, after in self.new.circuits.items():
            if not after.left_in and not after.planned:
                yield name, self.old.circuits.get(self._was.get(name, "")), after

    def _own(self) -> Iterator[tuple[str, set[str]]]:
        """Walk what is checked for what is another of a circuit itself."""
        touched = {lead.rpartition(" ")[0] for lead in self.wires.touched}
        for name, before, after in self._pairs():
            is_other = self._is_new(before, after) or name in self.swapped
            is_anew = is_other or self._is_elsewhere(before, after)
            of = self._tried(after) if is_anew else set()
            of |= {"volts", "idle"} if is_other and of and any(map(is_fed, after.leads.values())) else set()
            of |= {"works"} if (is_anew or name in touched) and not of else set()
            of |= {"fail-safe"} if (is_anew or name in touched) and after.failsafe else set()
            yield name, of | (self._set_otherwise(before, after) if before is not None else set())

    def _is_new(self, before: IssuedCircuit | None, after: IssuedCircuit) -> bool:
        return before is None or before.planned or bool(first_cut(self.old, before, after))

    def _is_elsewhere(self, before: IssuedCircuit | None, after: IssuedCircuit) -> bool:
        """Tell whether a circuit is on another channel, begins at another outlet, or goes where it did not go."""
        if before is None:
            return False
        begun, *loads = ((self.same.name(end[0]), *end[1:]) for end in before.ends)
        return before.channel != after.channel or begun != after.ends[0] or not {*after.ends[1:]} <= {*loads}

    def _tried(self, circuit: IssuedCircuit) -> set[str]:
        """Return what is checked of a circuit whose outlet, unit or load is another."""
        found = set()
        for name in (end[0] for end in circuit.ends[1:] if end[0] in self.new.equipment):
            kind = self.new.equipment[name].kind
            found |= {*_TRIED.get(kind, ("works",))}
            # What a gyro without outlets corrects is not written down, but it does correct.
            has_outlets = any(each.ends[0][0] == name for each in self.new.circuits.values())
            found |= {"gyro"} if kind == "gyro" and not has_outlets else set()
        return found

    def _set_otherwise(self, before: IssuedCircuit, after: IssuedCircuit) -> set[str]:
        """Return what is checked because of what the radio is set to, or what gives the supply."""
        other_channel = before.channel != after.channel
        return {
            check
            for check, is_so in (
                ("ends", before.throw != after.throw),
                ("fail-safe", other_channel or before.failsafe != after.failsafe),
                ("volts", self._has_other_supply(before, after)),
            )
            if is_so
        }

    def _has_other_supply(self, before: IssuedCircuit, after: IssuedCircuit) -> bool:
        """Tell whether a supply comes from another outlet, and a servo's from other equipment or another group."""
        was, now = (self.same.name(before.ends[0][0]), *before.ends[0][1:]), after.ends[0]
        if was == now or not is_fed(first_lead(after)):
            return False
        groups = self.new.equipment[now[0]].ports if now[0] in self.new.equipment else ()
        is_group = any({*was[1:], *now[1:]} <= {*group.names} for group in groups)
        return was[0] != now[0] or not is_group or not has_signal(after)

    def _of_inputs(self) -> Iterator[tuple[str, set[str]]]:
        """Walk what is checked behind inputs of units that are new, or to which a signal comes from elsewhere."""
        for one, before, after in self._pairs():
            is_anew = self._is_new(before, after) or self._is_elsewhere(before, after)
            if is_anew and has_signal(after) and after.ends[0][0] in self.behind.hearing:
                for end in self.behind.goes_to(one):
                    yield from self._set_up(self.behind.of(*end))

    def _set_up(self, names: tuple[str, ...]) -> Iterator[tuple[str, set[str]]]:
        for name in names:
            circuit = self.new.circuits[name]
            yield name, (self._tried(circuit) or {"works"}) | ({"fail-safe"} if circuit.failsafe else set())

    def _of_equipment(self) -> Iterator[tuple[str, set[str]]]:
        """Walk what is checked behind other equipment, and the volts of what that feeds."""
        for was, now in self.same.equipment.items():
            facts = equipment_facts(self.old.equipment[was], self.new.equipment[now])
            is_gyro = self.new.equipment[now].kind == "gyro"
            if any(is_gyro or fact.what not in _WHERE for fact in facts):
                begun = self.behind.begins_at(now)
                yield from self._set_up(self.behind.of(now) if now in self.behind.hearing else begun)
                yield from ((name, {"volts"}) for name in begun if not has_signal(self.new.circuits[name]))

    def _of_settings(self) -> Iterator[tuple[str, set[str]]]:
        """Walk what is checked of gear that is set otherwise, and of outlets that other inputs work."""
        old, new = self.old.settings, self.new.settings
        if old is None or new is None:
            return
        for was, now in self.same.equipment.items():
            before, after = old.get(was, IssuedSettings()), new.get(now, IssuedSettings())
            facts = {fact.what for fact in settings_facts(before, after)}
            for port in after.drives if before.drives and "drives" in facts else ():
                yield from self._set_up(self.behind.of(now, port))
            if facts & {*_LIMITS}:
                every = (*self.behind.ends_at(now), *self.behind.begins_at(now))
                yield from ((name, {"limit"}) for name in every if self._is_leg(name))

    def _of_volts(self) -> Iterator[tuple[str, set[str]]]:
        """Walk what is checked of circuits that get other volts: legs are timed, as they go faster or slower."""
        if self.old.settings is None or self.new.settings is None:
            return
        old, new = Supplied(self.old), Supplied(self.new)
        for name, before, after in self._pairs():
            if before is not None and old.of(self._was[name]) != new.of(name):
                yield name, {"volts"} if any("positive" in lead.wires for lead in after.leads.values()) else set()
                yield name, {"limit"} if self._is_leg(name) else set()

    def _is_leg(self, name: str) -> bool:
        loads = (self.new.equipment.get(end[0]) for end in self.new.circuits[name].ends[1:])
        return any(load is not None and load.kind == "gear leg" for load in loads)
