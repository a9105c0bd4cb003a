"""Take a harness and what its documents hold; return the state of the aircraft that they say."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from docgen.definition.identity import Same
from docgen.definition.issued import (
    IssuedCircuit,
    IssuedDisconnect,
    IssuedEquipment,
    IssuedFigures,
    IssuedFinding,
    IssuedHalf,
    IssuedItem,
    IssuedPlace,
    IssuedPorts,
    IssuedSettings,
    State,
)
from docgen.definition.kept import NOTHING_ISSUED, Issued
from docgen.harness.electrical.sources import outputs_of
from docgen.harness.model.airframe import Place
from docgen.harness.model.circuits import Circuit, End
from docgen.harness.model.equipment import Equipment
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Disconnect, Half
from docgen.paperwork.documents import DOCUMENTS, record_of
from docgen.paperwork.items import Item
from docgen.paperwork.record import record
from docgen.paperwork.standing import SHEETS
from docgen.reissue.state_of_leads import DECIMALS, figure, issued_lead, issued_tails
from docgen.reissue.state_of_sleeves import issued_sleeves

_OF_CIRCUITS = ("wire-labels", "cut-list")


def make_state(
    harness: Harness,
    contents: Mapping[str, Any],
    letter: str,
    last: State | None = None,
    issued: Issued = NOTHING_ISSUED,
) -> State:
    """Return the state under a letter.

    Args:
        harness: as built.
        contents: what each document holds, by its stem.
        letter: of the issue.
        last: the issue before it, in which what is as it was there has changed last.
        issued: what stayed put of that.

    """
    items = _items(harness, contents, letter)
    return State(
        issue=letter,
        after=last.issue if last else "",
        date=harness.aircraft.date,
        aircraft=harness.aircraft.name,
        marks=harness.aircraft.marks,
        numbers=_highest(harness, issued),
        places={name: _place(place) for name, place in harness.places.items()},
        closed=tuple(" to ".join(run.between) for run in harness.runs if run.closed),
        equipment={name: _equipment(entry) for name, entry in harness.equipment.items()},
        settings={
            name: of for name, entry in harness.equipment.items() if (of := _settings(entry)) != IssuedSettings()
        },
        disconnects={name: _disconnect(joint, issued) for name, joint in harness.disconnects.items()},
        circuits={name: _circuit(harness, circuit, issued) for name, circuit in harness.every_circuit.items()},
        gone=dict(issued.gone),
        sleeves=issued_sleeves(harness, last, issued.same),
        findings=_findings(harness),
        items=_since(items, last, issued.same) if last else items,
    )


def _place(place: Place) -> IssuedPlace:
    return IssuedPlace(assembly=place.assembly, access=_line(place.access))


def _line(text: str) -> str:
    """Return a text as it is read back: in one line."""
    return " ".join(text.split())


def _highest(harness: Harness, issued: Issued) -> dict[str, int]:
    """Return the highest wire number ever of each letter."""
    highest = dict(issued.highest)
    for circuit in harness.every_circuit.values():
        for number in circuit.numbers.values():
            highest[number[0]] = max(highest.get(number[0], 0), int(number[1:]))
    return dict(sorted(highest.items()))


def _equipment(entry: Equipment) -> IssuedEquipment:
    load, form = entry.load, entry.form
    groups: dict[int, list[str]] = {}
    for port in entry.ports:
        groups.setdefault(port.group, []).append(port.name)
    first = {index: next(port for port in entry.ports if port.group == index) for index in groups}
    leads = {name: (group.lead, group.lead_wire) for group in form.ports for name in group.names}
    ports = []
    for index, names in groups.items():
        connector = first[index].connector
        lead_mm, wire = leads.get(names[0], (form.lead, form.lead_wire))
        ports.append(
            IssuedPorts(
                names=tuple(name for name in names if name),
                plug=connector.name,
                gender=first[index].gender,
                order=tuple(connector.roles.get(contact, "") for contact in connector.contacts),
                lead_mm=figure(lead_mm),
                lead_wire=wire or "",
            )
        )
    return IssuedEquipment(
        kind=entry.kind,
        place=entry.place,
        plug_at=form.plug_at or "",
        ports=tuple(ports),
        colours=dict(form.lead_colours),
        idle_a=figure(load.idle_a) if load else None,
        working_a=figure(load.working_a) if load else None,
        stall_a=figure(load.stall_a) if load else None,
        runs_s=figure(load.runs_s) if load else None,
        least_v=figure(entry.least_v),
        most_v=figure(entry.most_v),
    )


def _settings(entry: Equipment) -> IssuedSettings:
    form, battery, gear = entry.form, entry.battery, entry.form.gear
    return IssuedSettings(
        cells=battery.cells if battery else None,
        capacity_mah=figure(battery.capacity_mah) if battery else None,
        full_v=figure(battery.full_v) if battery else None,
        empty_v=figure(battery.empty_v) if battery else None,
        resistance_ohm=figure(battery.resistance_ohm) if battery else None,
        rating_a=figure(battery.rating_a if battery else form.rating_a),
        up_s=figure(gear.up_s) if gear else None,
        down_s=figure(gear.down_s) if gear else None,
        limit_s=figure(gear.limit_s) if gear else None,
        stop_a=figure(gear.stop_a) if gear else None,
        isolates=form.isolates,
        fed_by=tuple(form.fed_by),
        drives={port: tuple(outlets) for port, outlets in form.drives.items()},
        output_v={port.name: round(output.volts_v, DECIMALS) for output, ports in outputs_of(entry) for port in ports},
    )


def _disconnect(joint: Disconnect, issued: Issued) -> IssuedDisconnect:
    first, second = (_half(half) for half in joint.halves)
    carried = ((contact, joint.uses[contact]) for contact in joint.shell.contacts if contact in joint.uses)
    return IssuedDisconnect(
        shell=joint.shell.name,
        halves=(first, second),
        contacts={contact: f"{use.of} {use.role}" for contact, use in carried if not use.is_common},
        commons={name: common.contacts for name, common in joint.commons.items()},
        tails={half.name: tails for half in joint.halves if (tails := issued_tails(joint, half))},
        freed=tuple(contact for contact in joint.spares if contact in issued.used.get(joint.name, ())),
        keyed=tuple(filter(None, [joint.form.keyed])),
    )


def _half(half: Half) -> IssuedHalf:
    return IssuedHalf(name=half.name, place=half.place, gender=half.gender, key=half.key or "")


def _circuit(harness: Harness, circuit: Circuit, issued: Issued) -> IssuedCircuit:
    letters = [*issued.every.get(circuit.name, ()), *(lead.segment for lead in circuit.leads)]
    form, figures = circuit.form, harness.results.circuits.get(circuit.name)
    return IssuedCircuit(
        label=_line(form.label or circuit.name.upper()),
        ends=tuple(_words(end) for end in (circuit.start, *circuit.loads)),
        numbers=dict(circuit.numbers),
        letters=tuple(dict.fromkeys(letters)),
        planned=form.planned,
        left_in=form.left_in,
        channel=form.channel,
        throw=_line(form.throw),
        failsafe=form.failsafe or "",
        figures=IssuedFigures()
        if figures is None
        else IssuedFigures(
            working_a=figure(figures.working_a),
            stall_a=figure(figures.stall_a),
            drop_v=figure(figures.own_drop_v),
            stalled_drop_v=figure(figures.stalled_drop_v),
            left_v=figure(figures.volts_left_v),
            case=figures.case or "",
        ),
        leads={lead.segment: issued_lead(lead) for lead in circuit.leads},
    )


def _words(end: End) -> tuple[str, ...]:
    """Return what an end of a circuit is known by: equipment and port, or a disconnect and roles of its commons."""
    return (end.name, *sorted(end.commons)) if end.kind == "half" else tuple(filter(None, (end.name, end.part)))


def _findings(harness: Harness) -> tuple[IssuedFinding, ...]:
    return tuple(
        IssuedFinding(
            name=finding.name,
            level=str(finding.level),
            on=_line(_entry(harness, *finding.subject)),
            sentence=_line(finding.sentence),
        )
        for finding in harness.findings
    )


def _entry(harness: Harness, section: str, name: str) -> str:
    """Return the entry that a finding stands on, a run by its places: its number is another when one is added."""
    return f"{section} {' to '.join(harness.runs[int(name)].between) if section == 'runs' else name}"


def _items(harness: Harness, contents: Mapping[str, Any], letter: str) -> dict[str, dict[str, IssuedItem]]:
    """Return all items by document and key, and each document as a whole."""
    documents = {document.stem: document for document in DOCUMENTS if document.stem in contents}
    pieces = {stem: document.pieces(contents[stem]) for stem, document in documents.items()}
    sheets = [
        document.sheet(document.usual(contents[stem])) for stem, document in documents.items() if document.has_sheet
    ]
    every = {**{stem: some for stem, some in pieces.items() if some}, SHEETS: sheets}
    every[record.STEM] = record_of(harness, contents).items()
    return {kind: _issued(some, letter) for kind, some in every.items()}


def _since(items: dict[str, dict[str, IssuedItem]], last: State, same: Same) -> dict[str, dict[str, IssuedItem]]:
    """Return items, those that say what they said in the last issue with the issue in which that changed last."""

    def as_it_was(item: IssuedItem, was: IssuedItem | None) -> IssuedItem:
        return item.model_copy(update={"since": was.since}) if was and was.hash == item.hash else item

    before = {
        kind: {key_of_now(kind, key, same): item for key, item in some.items()} for kind, some in last.items.items()
    }
    return {
        kind: {key: as_it_was(item, before.get(kind, {}).get(key)) for key, item in some.items()}
        for kind, some in items.items()
    }


def key_of_now(kind: str, key: str, same: Same) -> str:
    """Return the key of an item of the last issue under the name that its circuit, joint or equipment has now."""
    name, blank, rest = key.partition(" ")
    of_circuit = same.circuits.get(name) if kind in _OF_CIRCUITS else None
    return f"{of_circuit or same.name(name)}{blank}{rest}"


def _issued(items: Iterable[Item], letter: str) -> dict[str, IssuedItem]:
    return {
        " ".join(item.key): IssuedItem(since=letter, hash=item.content_hash, text=item.text, work=item.work)
        for item in items
    }
