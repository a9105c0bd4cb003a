"""The card of one piece of equipment that the harness plugs into: what is plugged in where."""

from __future__ import annotations

from functools import cached_property

from docgen.basics.frozen import frozen
from docgen.harness.model.circuits import Circuit
from docgen.harness.model.equipment import Equipment, PortUse
from docgen.harness.model.harness import Harness
from docgen.paperwork.cards.card_faces import WIDTH_MM, Face, Rows
from docgen.paperwork.hashes import digest
from docgen.paperwork.naming import part_path, place_text
from docgen.paperwork.page_kit.tables import Column, Row, table
from docgen.paperwork.typesetting.title_block import Corner
from docgen.paperwork.typesetting.typeface import PLAIN_MM, SMALL_MM

_ENGINES = ("engine unit", "speed controller", "motor", "smoke", "pump")


@frozen
class PortRow:
    """One port: the function plugged in there, the other end, its channel, and what it does without the radio."""

    port: str
    function: str
    far: str
    channel: str
    failsafe: str


@frozen
class EquipmentCard:
    """What one piece of equipment's card says."""

    key: str
    name: str
    kind: str
    where: str
    feeds: str
    rows: tuple[PortRow, ...]
    free: tuple[str, ...]
    on: str
    off: str
    note: str

    @cached_property
    def content_hash(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)

    @property
    def part(self) -> str:
        """Return where its part of the record stands in the output folder."""
        return part_path("equipment", self.name)

    @property
    def said(self) -> tuple[str, ...]:
        """Return what is said of it as a whole, a paragraph each."""
        free = f"Free: {', '.join(self.free)}" if self.free else ""
        said = (
            free,
            self.feeds,
            f"On: {self.on}" if self.on else "",
            f"Off: {self.off}" if self.off else "",
            self.note,
        )
        return tuple(text for text in said if text)


def equipment_card(harness: Harness, equipment: Equipment) -> EquipmentCard:
    """Return the card of one piece of equipment."""
    place = harness.places[equipment.place]
    isolates = ", kept apart" if equipment.form.isolates else ""
    return EquipmentCard(
        key=equipment.name,
        name=equipment.name,
        kind=equipment.kind,
        where=f"at {place_text(place)}",
        feeds=f"Fed by {', '.join(equipment.form.fed_by)}{isolates}" if equipment.form.fed_by else "",
        rows=tuple(_row(harness, port, port.circuit) for port in equipment.ports if port.circuit is not None),
        free=tuple(port.name or "own lead" for port in equipment.ports if port.circuit is None),
        on=equipment.form.on,
        off=equipment.form.off,
        note=equipment.form.note,
    )


def _row(harness: Harness, port: PortUse, circuit: Circuit) -> PortRow:
    """Return a port's row; a fail-safe is said wherever one is given, and where none is but must be, "not set"."""
    channel = str(circuit.form.channel) if circuit.form.channel is not None else ""
    failsafe = circuit.form.failsafe or ("not set" if _drives(harness, circuit) else "")
    return PortRow(port.name or "own lead", circuit.label, port.far_text, channel, failsafe)


def _drives(harness: Harness, circuit: Circuit) -> bool:
    """Tell whether a signal drives an engine, a motor or smoke by a circuit, so that cards must say its fail-safe."""
    kinds = [harness.equipment[end.name].kind for end in circuit.loads if end.is_port]
    signal = circuit.form.channel is not None or any(lead.wire("signal") is not None for lead in circuit.leads)
    return signal and any(kind in _ENGINES for kind in kinds)


def equipment_face(card: EquipmentCard, corner: Corner | None, last: str) -> Face:
    """Return what stands on a card."""
    kind = card.kind if card.kind != card.name else ""
    tables = _table(card, small=False), _table(card, small=True)
    return Face(card.name, kind, (card.where,), card.said, corner, last, tables)


def _table(card: EquipmentCard, *, small: bool) -> Rows:
    channel, failsafe = any(row.channel for row in card.rows), any(row.failsafe for row in card.rows)
    high = SMALL_MM if small else PLAIN_MM
    columns = [
        Column("port", high, SMALL_MM, bold=True),
        Column("function", high, SMALL_MM, bold=True),
        Column("other end", high, SMALL_MM),
        *([Column("channel", high, SMALL_MM, align="right", wraps=False)] if channel else []),
        *([Column("fail-safe", high, SMALL_MM, wraps=False)] if failsafe else []),
    ]
    rows = [
        Row((row.port, row.function, row.far, *([row.channel] * channel), *([row.failsafe] * failsafe)))
        for row in card.rows
    ]
    as_set = table(columns, rows, WIDTH_MM, 4.0 if small else 5.0)
    return as_set.head(), [as_set.block(row) for row in rows]
