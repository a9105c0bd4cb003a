"""The card of one piece of equipment that the harness plugs into: what is plugged in where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment, PortUse
from docgen.harness.model.harness import Harness
from docgen.paperwork.hashes import digest
from docgen.paperwork.naming import part_path, place_text
from docgen.paperwork.typesetting.tables import Column
from docgen.paperwork.typesetting.typeface import LARGE_MM, PLAIN_MM, SMALL_MM, TITLE_MM
from docgen.paperwork.typesetting.writer import PageWriter, TableStyle

_CODE_LEAVES_OUT = ("", "hold", "centre")  # so that most cards do with one code
_ENGINES = ("engine unit", "speed controller", "motor", "smoke", "pump")


@dataclass(frozen=True)
class PortRow:
    """One port: the function plugged in there, the other end, its channel, and what it does without the radio."""

    port: str
    function: str
    far: str
    channel: str
    failsafe: str


@dataclass(frozen=True)
class EquipmentCard:
    """What one piece of equipment's card says."""

    key: str
    name: str
    kind: str
    where: str
    feeds: str
    rows: tuple[PortRow, ...]
    on: str
    off: str
    note: str
    since: str

    @cached_property
    def content_hash(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)

    @property
    def part(self) -> str:
        """Return where its part of the record stands in the output folder."""
        return part_path("equipment", self.name)

    @property
    def notes(self) -> list[str]:
        """Return what is said of it as a whole."""
        said = (f"On: {self.on}" if self.on else "", f"Off: {self.off}" if self.off else "", self.note)
        return [text for text in said if text]

    @property
    def code_words(self) -> tuple[str, str]:
        """Return what a code says it is: of what the record that it links to is, and whose text it holds."""
        return self.kind, "card"

    @property
    def code_lines(self) -> list[str]:
        """Return the lines of codes that carry the card itself, the first of them on each."""
        said = [
            f"{row.port} {row.function}"
            + (f" ch {row.channel}" if row.channel else "")
            + (f" fail-safe {row.failsafe}" if row.failsafe not in _CODE_LEAVES_OUT else "")
            for row in self.rows
        ]
        return [f"equipment-{self.name}", *said]


def equipment_card(harness: Harness, equipment: Equipment) -> EquipmentCard:
    """Return the card of one piece of equipment."""
    place = harness.places[equipment.place]
    isolates = ", kept apart" if equipment.isolates else ""
    return EquipmentCard(
        key=equipment.name,
        name=equipment.name,
        kind=equipment.kind,
        where=f"at {place_text(place)}",
        feeds=f"fed by {', '.join(equipment.fed_by)}{isolates}" if equipment.fed_by else "",
        rows=tuple(_row(harness, port) for port in equipment.ports),
        on=equipment.form.on,
        off=equipment.form.off,
        note=equipment.form.note,
        since=harness.aircraft.revision,
    )


def _row(harness: Harness, port: PortUse) -> PortRow:
    """Return a port's row; a fail-safe is said wherever one is given, and where none is but must be, "not set"."""
    circuit = port.circuit
    name = port.name or "own lead"
    if circuit is None:
        return PortRow(name, "free", "", "", "")
    channel = str(circuit.form.channel) if circuit.form.channel is not None else ""
    failsafe = circuit.form.failsafe or ("not set" if _drives(harness, circuit) else "")
    return PortRow(name, circuit.label, port.far_text, channel, failsafe)


def _drives(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether a signal drives an engine, a motor or smoke by a circuit, so that cards must say its fail-safe."""
    kinds = [harness.equipment[end.name].kind for end in circuit.loads if end.is_port]
    signal = circuit.form.channel is not None or any(lead.wire("signal") is not None for lead in circuit.leads)
    return signal and any(kind in _ENGINES for kind in kinds)


def add_equipment(writer: PageWriter, card: EquipmentCard, notes: Sequence[str]) -> None:
    """Set a card; `notes` are those that have no room beside its code."""
    writer.heading(card.name, TITLE_MM, keep_mm=20)
    writer.on_new_page = lambda writer: writer.heading(f"{card.name}, continued", LARGE_MM, 0)
    if card.kind != card.name:
        writer.heading(card.kind, LARGE_MM, keep_mm=10)
    writer.paragraph(card.where, PLAIN_MM)
    if card.feeds:
        writer.paragraph(card.feeds, SMALL_MM)
    writer.space(1.2)
    _table(writer, card)
    writer.notes(notes)


def _table(writer: PageWriter, card: EquipmentCard) -> None:
    failsafe = any(row.failsafe for row in card.rows)
    columns = [
        Column("port", LARGE_MM, bold=True, gives=True, least_mm=PLAIN_MM),
        Column("function", LARGE_MM, bold=True, gives=True, wraps=True),
        Column("other end", PLAIN_MM, gives=True, wraps=True),
        Column("channel", PLAIN_MM, align="right"),
        *([Column("fail-safe", PLAIN_MM)] if failsafe else []),
    ]
    rows = [(row.port, row.function, row.far, row.channel, *([row.failsafe] if failsafe else [])) for row in card.rows]
    writer.table(columns, rows, TableStyle(5.2), "")
