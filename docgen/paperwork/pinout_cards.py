"""Pin-out cards: for each half of each disconnect, both views and what every contact carries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from docgen.basics.findings import Said
from docgen.harness.model import Common, ContactUse, Disconnect, Harness
from docgen.paperwork.card_views import ViewContact, add_views
from docgen.paperwork.codes import numbered_texts
from docgen.paperwork.flow import Flow, TableStyle
from docgen.paperwork.imprint import (
    LARGE_MM,
    PLAIN_MM,
    SMALL_MM,
    TITLE_MM,
    Corner,
    Foot,
    Imprint,
    foot_height_mm,
    line_pitch_mm,
    number_pages,
)
from docgen.paperwork.items import digest
from docgen.paperwork.layouts import PageLayout
from docgen.paperwork.marks import THICK_MM, Box, Line, Mark, Page, cut_line
from docgen.paperwork.naming import half_title, mates_text, part_path, place_text
from docgen.paperwork.swatches import swatch, swatch_width_mm
from docgen.paperwork.tables import Column
from docgen.paperwork.typeface import wrapped
from docgen.paperwork.views import View, mating_view, wire_view

CAUTION = "Packs unplugged and switched off before a half is parted or mated. Hold the shells, never pull by the wires."
CODE_VERSION = 10  # the largest code that a card of this size holds
_BRACKET_MM = 1.6
_IN_FULL_LINES = 4  # kept free at the foot of a page for what the table shortens
_LEAST_ROW_MM = 3.3  # where rows would have to be lower, the table begins on another page
NOT_CHECKED = "Not yet held against the part in hand: check numbers and key before you fill it."


@dataclass(frozen=True)
class CardRow:
    """What one contact carries; a spare one says so."""

    contact: str
    colour: str
    gauge: str
    function: Said
    start: Said
    load: Said
    mark: str
    common: str = ""
    used: str = ""


@dataclass(frozen=True)
class Card:
    """The content of one half's card."""

    key: tuple[str, str]
    name: Said
    half: str
    gender: str
    where: Said
    mates: str
    shell: str
    mating: View
    wire_side: View
    turned: bool
    upright: tuple[View, View]
    rows: tuple[CardRow, ...]
    commons: tuple[Said, ...]
    checked: str
    lock: str
    keyed: Said
    note: Said
    since: str

    @property
    def hash8(self) -> str:
        """Return the first characters of its content's hash."""
        return digest(self)


def content(harness: Harness) -> tuple[Card, ...]:
    """Return the cards of all halves."""
    return tuple(card_of(harness, disconnect, index) for disconnect in harness.disconnects.values() for index in (0, 1))


def card_of(harness: Harness, disconnect: Disconnect, index: int) -> Card:
    """Return one half's card."""
    half, shell = disconnect.halves[index], disconnect.shell
    place = harness.places[half.place]
    rows = tuple(_row(harness, disconnect, contact, index) for contact in shell.contacts)
    return Card(
        key=(disconnect.name, half.name),
        name=disconnect.said,
        half=half_title(half),
        gender=half.gender,
        where=Said(f"at {place_text(place)}", place.position),
        mates=mates_text(harness, disconnect, index),
        shell=shell.name,
        mating=mating_view(shell, half.gender, half.key),
        wire_side=wire_view(shell, half.gender, half.key),
        turned=half.key is not None and shell.key is not None,
        upright=(mating_view(shell, half.gender, None), wire_view(shell, half.gender, None)),
        rows=rows,
        commons=tuple(_common(harness, common, index) for common in disconnect.commons.values()),
        checked=shell.checked or "",
        lock=shell.lock,
        keyed=Said(disconnect.keyed, disconnect.said.position),
        note=disconnect.note,
        since=harness.aircraft.revision.text,
    )


def _row(harness: Harness, disconnect: Disconnect, contact: str, index: int) -> CardRow:
    use: ContactUse | None = disconnect.uses.get(contact)
    if use is None:
        spare = Said("spare", disconnect.said.position)
        nothing = Said("", disconnect.said.position)
        return CardRow(contact, "", "", spare, nothing, nothing, "")
    wire = use.wires[index]
    start, goal = _from_and_to(harness, disconnect, use)
    share = harness.figures.contacts.get((disconnect.name, contact))
    used = "" if share is None else f"{100 * share:.0f}"
    if wire is None:
        return CardRow(contact, "", "", use.label, start, goal, "", use.common, used)
    size, mark = wire.kind.gauge.mark, wire.mark or "tail"
    return CardRow(contact, wire.colour, size, use.label, start, goal, mark, use.common, used)


def _from_and_to(harness: Harness, disconnect: Disconnect, use: ContactUse) -> tuple[Said, Said]:
    """Say where a contact's circuit begins and ends; of a common, what feeds it."""
    if use.common:
        common = disconnect.commons[use.common]
        fed = ", ".join(harness.circuits[name].label.text for name in common.feeders)
        return Said("", common.said.position), Said(f"fed by {fed}", common.said.position)
    circuit = harness.circuits[use.circuit]
    goal = Said(circuit.load_text, circuit.loads[0].said.position)
    return Said(circuit.start.text, circuit.start.said.position), goal


def _common(harness: Harness, common: Common, index: int) -> Said:
    """Say what feeds a common and what it feeds, what is spliced behind this half, and its note."""

    def labels(names: Iterable[str]) -> str:
        return ", ".join(harness.circuits[name].label.text for name in names)

    behind = common.halves[index]
    here = dict.fromkeys(lead.circuit for lead, _ in behind.wires)
    fed = dict.fromkeys(
        lead.circuit for half in common.halves for lead, _ in half.wires if lead.circuit not in common.feeders
    )
    how = "spliced here" if behind.tails else "straight in"
    said = [
        f"{labels(common.feeders)} feeds {labels(fed)}" if common.feeders else "",
        f"{how}: {labels(here) or 'nothing'}",
    ]
    said += [common.note]
    return Said(
        f"{common.name} {'+'.join(common.contacts)} · {' · '.join(text for text in said if text)}", common.said.position
    )


def short_form(card: Card, imprint: Imprint) -> list[str]:
    """Return the texts of the codes that carry the card itself, where the record does not stand on the web."""
    first = f"{imprint.marks} disconnect-{card.key[0]} {card.half} since {card.since} {card.hash8}"
    lines = [f"{row.contact} {row.colour}{row.gauge} {row.function.text}" for row in card.rows if row.mark]
    return numbered_texts(first, lines, CODE_VERSION)


def compose(items: tuple[Card, ...], layout: PageLayout, imprint: Imprint) -> list[Page]:
    """Return the pages of all cards; page numbers count within one card."""
    return [page for card in items for page in _compose_card(card, layout, imprint)]


def _corners(card: Card, imprint: Imprint) -> list[Corner]:
    path = part_path("disconnect", card.key[0])
    link = imprint.link(path)
    if link is not None:
        return [Corner(link, "this joint in the record")]
    texts = short_form(card, imprint)
    count = len(texts)
    return [
        Corner(text, "this half as text" + (f", {i} of {count}" if count > 1 else ""))
        for i, text in enumerate(texts, 1)
    ]


def _compose_card(card: Card, layout: PageLayout, imprint: Imprint) -> list[Page]:
    corners = _corners(card, imprint)
    state = f"rev {card.since} · {imprint.date}"
    lock = f"Lock: {card.lock}" if card.lock else ""
    notes = tuple(text for text in (lock, card.note.text, _keyed(card), _checked(card)) if text)
    feet = [Foot(imprint, CAUTION, state, card.hash8, corner, notes) for corner in corners]
    width = layout.paper[0] - 2 * layout.margin
    bottom = layout.margin + max(foot_height_mm(foot, width) for foot in feet) + 1.5
    flow = Flow(layout.paper, layout.margin, bottom)
    flow.new_page()
    _title(flow, card)
    flow.on_new_page = lambda flow: flow.heading(f"{card.name.text} · {card.half}, continued", LARGE_MM, 0)
    way = "key as it sits in the hatch" if card.turned else "not turned to the hatch"
    used = " · %: of its rating" if any(row.used for row in card.rows) else ""
    add_views(flow, [(card.mating, card.wire_side), card.upright], _view_contacts(card), way, used)
    _table(flow, card)
    flow.finish_page()
    while len(flow.pages) < len(feet):
        flow.new_page()
        flow.paragraph("The code below goes on from the one before.", SMALL_MM)
    feet += feet[-1:] * (len(flow.pages) - len(feet))
    number_pages(flow.pages, feet, layout.margin)
    for page in flow.pages:
        page.add(cut_line(page))
    return flow.pages


def _keyed(card: Card) -> str:
    return f"Keyed {card.keyed.text}: mates with no other letter." if card.keyed.text else ""


def _checked(card: Card) -> str:
    return f"Pattern held against the part on {card.checked}." if card.checked else NOT_CHECKED


def _title(flow: Flow, card: Card) -> None:
    flow.heading(card.name.text, TITLE_MM, keep_mm=20)
    flow.heading(f"{card.half} · {card.gender}", LARGE_MM, keep_mm=20)
    flow.paragraph(card.where.text, PLAIN_MM)
    flow.paragraph(f"{card.shell} · {card.mates}", SMALL_MM)
    flow.space(1.2)


def _view_contacts(card: Card) -> dict[str, ViewContact]:
    first = card.rows[0].contact
    return {row.contact: ViewContact(row.contact, row.colour, row.contact == first) for row in card.rows}


def _table(flow: Flow, card: Card) -> None:
    colour_mm = max([swatch_width_mm(row.colour, SMALL_MM) for row in card.rows if row.colour] or [8.0])
    columns = [
        Column("", PLAIN_MM, bold=True, align="right", least_mm=SMALL_MM),
        Column("colour", PLAIN_MM, fixed_mm=max(colour_mm, 8.0)),
        Column("size", SMALL_MM, align="right"),
        Column("function", PLAIN_MM, bold=True, gives=True),
        Column("from", SMALL_MM, gives=True),
        Column("to", SMALL_MM, gives=True),
        Column("mark", SMALL_MM),
        Column("%" if any(row.used for row in card.rows) else "", SMALL_MM, align="right"),
    ]
    rows = [
        (row.contact, "", row.gauge, row.function.text, row.start.text, row.load.text, row.mark, row.used)
        for row in card.rows
    ]

    def beside(index: int, row_box: Box, cells: Sequence[Box]) -> list[Mark]:
        letters = card.rows[index].colour
        middle = row_box.y_mm + row_box.height_mm / 2
        marks = swatch(letters, cells[1].x_mm, middle, SMALL_MM) if letters else []
        return [*marks, *_bracket(card.rows, index, row_box)]

    lines = sum(len(wrapped(said.text, flow.width_mm, SMALL_MM)) for said in card.commons)
    below = (lines + _IN_FULL_LINES if lines else 0) * line_pitch_mm(SMALL_MM)
    if (flow.room_mm - 5.0 - below) / len(rows) < _LEAST_ROW_MM:
        flow.new_page()  # the table is read as one
    room = (flow.room_mm - 5.0 - below) / len(rows)
    row_mm = min(room - 0.01, 4.6) if room >= _LEAST_ROW_MM else 4.4
    flow.table(columns, rows, TableStyle(row_mm), "", beside, _BRACKET_MM)
    flow.space(1)
    for said in card.commons:
        flow.paragraph(said.text, SMALL_MM)


def _bracket(rows: Sequence[CardRow], index: int, box: Box) -> list[Mark]:
    """Return this row's part of the bracket that holds the contacts of a common together."""
    common = rows[index].common
    if not common:
        return []
    above = index > 0 and rows[index - 1].common == common
    below = index + 1 < len(rows) and rows[index + 1].common == common
    x, top, bottom = box.x_mm + 0.4, box.y_mm + (0 if above else 0.6), box.bottom_mm - (0 if below else 0.6)
    marks: list[Mark] = [Line(x, top, x, bottom, THICK_MM)]
    marks += [] if above else [Line(x, top, x + 1, top, THICK_MM)]
    return marks + ([] if below else [Line(x, bottom, x + 1, bottom, THICK_MM)])
