"""Take the state that is in the aircraft and another; return what differs, and what must be done again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.definition.identity import Same, identify, known_of_state
from docgen.definition.issued import IssuedCircuit, IssuedEnd, IssuedItem, IssuedSettings, State
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.standing import SHEETS
from docgen.reissue.checked import checks
from docgen.reissue.differences import ABOARD, Broken, Changed, Differences, OtherCard, OtherLabel, OtherSleeve
from docgen.reissue.facts import Fact, circuit_facts, equipment_facts, figures, joint_facts, settings_facts
from docgen.reissue.leftover import leftover
from docgen.reissue.moves import Wiring, at_text, together
from docgen.reissue.own_leads import came_anew
from docgen.reissue.sleeves import drawn_back, drawn_out, other_sleeves, unplugged
from docgen.reissue.wires import wiring

# Findings about the files, not about what is in the aircraft.
_OF_FILES = ("accept", "moved", "typical", "unbuilt", "unused")


def compare(old: State, new: State, *, unbuilt: Sequence[State] = ()) -> Differences:
    """Return what differs, and what follows; issues between that are not said to be built may have left parts."""
    return _Comparison(old, new, tuple(unbuilt)).differences()


@frozen
class _Comparison:
    """Two states; which is which between them, and what is done to wires."""

    old: State
    new: State
    unbuilt: tuple[State, ...] = ()

    @cached_property
    def same(self) -> Same:
        return identify(known_of_state(self.old), known_of_state(self.new))

    @cached_property
    def wires(self) -> Wiring:
        """Return what is done to wires, and to the plugs of leads that came with other equipment."""
        done = wiring(self.old, self.new, self.same)
        plugs = tuple(unplugged(self.old, self.new, self.same, self.came, done))
        return together([done, Wiring(plugged=plugs)])

    @cached_property
    def came(self) -> tuple[str, ...]:
        return came_anew(self.old, self.new, self.same)

    @cached_property
    def pairs(self) -> list[tuple[str, str]]:
        """Return circuits by both names, none where one is new or gone."""
        names = {now: was for was, now in self.same.circuits.items()}
        gone = [(was, "") for was in self.old.circuits if was not in self.same.circuits]
        return [(names.get(now, ""), now) for now in self.new.circuits] + gone

    @cached_property
    def swapped(self) -> frozenset[str]:
        """Return the circuits that work other equipment than before."""
        return frozenset(now for was, now in self.pairs if was and now and self._works_other(was, now))

    @cached_property
    def sleeves(self) -> tuple[OtherSleeve, ...]:
        return tuple(other_sleeves(self.old, self.new))

    @cached_property
    def drawn(self) -> list[OtherSleeve]:
        return list(drawn_out(self.old, self.new, self.same, self.wires))

    @cached_property
    def checks(self) -> dict[str, tuple[str, ...]]:
        return checks(self.old, self.new, self.same, self.wires, self.swapped)

    @cached_property
    def leftover(self) -> dict[str, tuple[str, ...]]:
        return leftover(self.old, self.new, self.unbuilt)

    def differences(self) -> Differences:
        old, new, same = self.old, self.new, self.same
        changed = [
            Changed(was, now, circuit_facts(old.circuits.get(was), new.circuits.get(now), same))
            for was, now in self.pairs
        ]
        return Differences(
            was=old.issue,
            now=new.issue,
            between=new.after if new.after != old.issue else "",
            broken=(*self._plugs(), *self._found()),
            taken=same.taken,
            circuits=tuple(each for each in changed if each.facts or each.was != each.now),
            equipment=tuple(each for each in self._equipment() if each.facts or each.was != each.now),
            joints=tuple(each for each in self._joints() if each.facts),
            figures=tuple(self._figures()),
            wiring=self.wires,
            sleeves=self.sleeves,
            threaded=dict(self._threaded()),
            came=self.came,
            drawn=tuple(each.ends for each in self.drawn),
            put_on=tuple(self._put_on()),
            stripped=tuple(self._stripped()),
            cards=tuple(self._cards()),
            sheets=self._sheets(),
            rung_out=tuple(self._rung_out()),
            checks=self.checks,
            perhaps=tuple(name for name in new.gone if name not in old.circuits),
            unbuilt=tuple(compare(old, state) for state in self.unbuilt),
            leftover=self.leftover,
        )

    def _rung_out(self) -> Iterator[str]:
        """Walk what is rung out but for what is dead, which may be put into another housing with the rest."""
        for lead in self.wires.rung_out:
            circuit = self.new.circuits.get(lead.rpartition(" ")[0])
            if circuit is None or not circuit.left_in:
                yield lead

    def _equipment(self) -> Iterator[Changed]:
        old, new, same = self.old.equipment, self.new.equipment, self.same.equipment
        pairs = [(was, same.get(was, "")) for was in old] + [("", now) for now in new if now not in same.values()]
        for was, now in pairs:
            yield Changed(was, now, equipment_facts(old.get(was), new.get(now)) + self._settings(was, now))

    def _joints(self) -> Iterator[Changed]:
        for was, now in self.same.disconnects.items():
            yield Changed(was, now, joint_facts(self.old.disconnects[was], self.new.disconnects[now]))

    def _settings(self, was: str, now: str) -> tuple[Fact, ...]:
        """Return what equipment is set to otherwise, or gives; nothing where it is new or gone, or none is kept."""
        old, new = self.old.settings, self.new.settings
        if old is None or new is None or not was or not now:
            return ()
        return settings_facts(old.get(was, IssuedSettings()), new.get(now, IssuedSettings()))

    def _works_other(self, was: str, now: str) -> bool:
        """Tell whether a load is other equipment: under its name, else that in the place of one that is gone."""
        before, after = self.old.equipment, self.new.equipment
        there = {self.same.name(end[0]): before.get(end[0]) for end in self.old.circuits[was].ends[1:]}
        loads = [end[0] for end in self.new.circuits[now].ends[1:]]
        gone = iter([there[name] for name in there if name not in loads])
        both = [(there[name] if name in there else next(gone, None), after.get(name)) for name in loads]
        return any(equipment_facts(*each) for each in both)

    def _plugs(self) -> Iterator[Broken]:
        """Walk equipment whose plug meets its lead's no more: it is another, or has its roles in another order."""
        seen: set[str] = set()
        for was, now in self.same.circuits.items():
            for end, after in _ends(self.old.circuits[was], self.new.circuits[now]):
                if end.kind == after.kind == "port" and end.plug != after.plug and after.name not in seen:
                    seen.add(after.name)
                    orders = _order(self.old, end), _order(self.new, after)
                    is_order = end.housing == after.housing
                    names = orders if is_order else (end.plug, after.plug)
                    yield Broken("order" if is_order else "plug", f"equipment {after.name}", *names)

    def _found(self) -> Iterator[Broken]:
        """Walk what was not found before."""
        before = {(finding.name, self._now(finding.on)) for finding in self.old.findings}
        for finding in self.new.findings:
            if finding.name not in _OF_FILES and (finding.name, finding.on) not in before:
                yield Broken(finding.name, finding.on, "", finding.sentence)

    def _now(self, on: str) -> str:
        """Return what a finding of before is on, under its name of now."""
        entry, _, name = on.partition(" ")
        return f"{entry} {self.same.circuit(name) if entry == 'circuits' else self.same.name(name)}"

    def _figures(self) -> Iterator[Changed]:
        for was, now in self.pairs:
            if was and now in self.checks:
                facts = figures(self.old.circuits[was].figures, self.new.circuits[now].figures)
                if facts:
                    yield Changed(was, now, facts)

    def _threaded(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Walk sleeves that stay through which leads go that are new, or drawn back for another one, with those."""
        on = [sleeve for sleeve in self.sleeves if sleeve.back_mm is None]
        others, fresh = {sleeve.ends for sleeve in on}, {*self.wires.anew, *self.came}
        back = {each for sleeve in (*on, *self.drawn) for each in drawn_back(sleeve, self.new)}
        for ends, sleeve in self.new.sleeves.items():
            leads = tuple(lead for lead in sleeve.leads if lead in fresh or (ends, lead) in back)
            if leads and ends not in others:
                yield ends, leads

    @cached_property
    def _labels(self) -> dict[str, tuple[str, IssuedItem]]:
        """Return the labels that are there by the keys that they have now, with the keys that they had."""
        names = self.same.circuits
        there = self.old.items.get(wire_labels.STEM, {})
        return {
            " ".join([names.get(words[0], words[0]), *words[1:]]): (" ".join(words), of) for words, of in _split(there)
        }

    def _put_on(self) -> Iterator[OtherLabel]:
        """Walk labels that say something else, or whose leads are bare."""
        for words, item in _split(self.new.items.get(wire_labels.STEM, {})):
            circuit, letter = words[:2]
            came = circuit in self.swapped and not self.new.circuits[circuit].leads[letter].part
            there = self._labels.get(" ".join(words))
            if there is None or there[1].hash != item.hash or came or f"{circuit} {letter}" in self.wires.anew:
                yield self._label(" ".join(words), words, item)

    def _stripped(self) -> Iterator[OtherLabel]:
        """Walk labels of wires that stay, and are alive, which say what is so no more."""
        after = self.new.items.get(wire_labels.STEM, {})
        for key, (old_key, item) in self._labels.items():
            words = key.split(" ")
            of = self.new.circuits.get(words[0])
            stays = of is not None and words[1] in of.leads and not of.left_in
            if stays and " ".join(words[:2]) not in self.wires.anew and _hash(after.get(key)) != item.hash:
                yield self._label(old_key, words, item)

    def _label(self, key: str, words: list[str], item: IssuedItem) -> OtherLabel:
        """Return a label by its key; that of an own lead lies at its plug, away from the equipment."""
        lead = self.new.circuits[words[0]].leads[words[1]]
        index = int(words[-1] == "to")
        end = lead.ends[index if lead.part else 1 - index]
        return OtherLabel(key, item.text[0], " ".join(words[:2]), at_text(end), end.place)

    def _cards(self) -> Iterator[OtherCard]:
        there = self.old.items.get(pinout_cards.STEM, {})
        before = {" ".join([self.same.name(words[0]), *words[1:]]): item for words, item in _split(there)}
        after = self.new.items.get(pinout_cards.STEM, {})
        for card in dict.fromkeys([*after, *before, *(card for card in self.leftover if card not in ABOARD)]):
            was, now = (_hash(of.get(card)) for of in (before, after))
            if was != now or card in self.leftover:
                yield OtherCard(card, was, now)

    def _sheets(self) -> tuple[str, ...]:
        before, after = (state.items.get(SHEETS, {}) for state in (self.old, self.new))
        others = {name for name, item in after.items() if _hash(before.get(name)) != item.hash}
        return tuple(name for name in after if name in others or name in self.leftover)


def _split(items: dict[str, IssuedItem]) -> Iterator[tuple[list[str], IssuedItem]]:
    return ((key.split(" "), item) for key, item in items.items())


def _hash(item: IssuedItem | None) -> str:
    return item.hash if item is not None else ""


def _ends(old: IssuedCircuit, new: IssuedCircuit) -> Iterator[tuple[IssuedEnd, IssuedEnd]]:
    for letter, lead in old.leads.items():
        if letter in new.leads:
            yield from zip(lead.ends, new.leads[letter].ends, strict=True)


def _order(state: State, end: IssuedEnd) -> str:
    """Return the roles of a plug in the order of its contacts."""
    ports = state.equipment[end.name].ports
    return ", ".join(next((group.order for group in ports if group.plug == end.plug), ()))
