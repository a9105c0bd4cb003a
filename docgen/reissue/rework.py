"""Take the state that is in the aircraft and an issue; print what differs: labels, cards, the rework sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

from docgen.definition.issued import State
from docgen.harness.assembly.unmeasured import straight_leads
from docgen.harness.model.harness import Harness
from docgen.paperwork.bench import ring_out_content
from docgen.paperwork.cards import pinout_cards
from docgen.paperwork.documents import DOCUMENTS, Choice, Document, Paperwork, make_documents, on_paper
from docgen.paperwork.field.power_again import before_packs
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.content import LabelContent
from docgen.paperwork.standing import Standing
from docgen.reissue import sheet
from docgen.reissue.compare import compare
from docgen.reissue.differences import Differences
from docgen.reissue.making import making


def rework(
    old: State,
    new: State,
    harness: Harness,
    choice: Choice,
    standing: Standing,
    *,
    as_built: bool = False,
    unbuilt: Sequence[State] = (),
) -> Paperwork:
    """Return what is printed when a state is issued over another; `as_built` leaves out what is done to wires.

    Issues between, `unbuilt` as far as any said, may have left parts in the aircraft.
    """
    of = compare(old, new, unbuilt=unbuilt)
    of = of.as_built if as_built else of
    wanted = [(document, content) for document, content in _wanted(of, old, new, harness) if choice.has(document.stem)]
    return make_documents(harness, wanted, choice, replace(standing, draft=standing.last))


def _wanted(of: Differences, old: State, new: State, harness: Harness) -> Iterator[tuple[Document, Any]]:
    """Walk the documents with what of them is another, the rework sheet first."""

    def content(harness: Harness) -> sheet.ReworkContent:
        rung = ring_out_content.only(ring_out_content.content(harness), of.rung_out)
        powered = before_packs(harness, _anew(of, new), _other_packs(of, new))
        straight = frozenset(waiting.lead for waiting in straight_leads(harness))
        return sheet.ReworkContent(
            of, old, new, rung, powered, making(harness, of, new), straight, harness.results.rest
        )

    first = Document(
        sheet.STEM,
        "Rework sheet",
        "do it in the aircraft, step by step",
        content,
        sheet.compose,
        on_paper("list-{paper}"),
    )
    yield first, first.content(harness)
    documents = {document.stem: document for document in DOCUMENTS}
    if of.put_on:
        document = documents[wire_labels.STEM]
        yield document, _labels(harness, of)
    cards = [card.card for card in of.cards if card.now]
    if cards:
        document = documents[pinout_cards.STEM]
        yield document, pinout_cards.of_keys(document.content(harness), cards)
    for stem in of.aboard:
        yield documents[stem], documents[stem].content(harness)


def _anew(of: Differences, new: State) -> set[str]:
    """Return the circuits whose wires, plugs or tails at an end go in, or whose supply is another."""
    leads = [*of.rung_out, *(each.lead for each in of.wiring.plugged if each.now is not None)]
    names = {lead.rpartition(" ")[0] for lead in leads}
    joints = names & new.disconnects.keys()
    # Where idle current is read as well, what gets the supply is another, not that itself.
    names |= {name for name, some in of.checks.items() if "volts" in some and "idle" not in some}
    return {
        name for name, circuit in new.circuits.items() if name in names or any(e[0] in joints for e in circuit.ends)
    }


def _other_packs(of: Differences, new: State) -> set[str]:
    """Return the packs that are others, or elsewhere."""
    changed = {each.now for each in of.equipment if each.now and (each.facts or not each.was)}
    return {name for name in changed if new.equipment[name].kind == "battery"}


def _labels(harness: Harness, of: Differences) -> LabelContent:
    """Return the labels to put on; where the plug stays on, their tube must pass that."""
    open_ends = {(move.lead, move.spot.at) for move in of.wiring.moves if move.into}
    wanted = {label.key: (label.lead, label.at) in open_ends for label in of.put_on}
    every = [(label.key, " ".join(label.key.words)) for label in wire_labels.content(harness).labels]
    content = wire_labels.content(harness, [key for key, words in every if not wanted.get(words, True)])
    return replace(content, labels=tuple(label for label in content.labels if " ".join(label.key.words) in wanted))
