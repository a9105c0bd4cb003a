"""What cards say, read back from the PDF, against the resolved harness, the record and the wire labels."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from card_aircraft import CONTACT, one_joint
from measured import PrintedPage
from printed_cards import PrintedCard, Row, cards_of_example, halves_of
from printed_labels import printed_on
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.harness.model.circuits import Wire
from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import ContactUse, Disconnect

NAMES = ("wren", "fulmar")


@cache
def read_once(name: str) -> list[PrintedCard]:
    return cards_of_example(name)


@cache
def cards_by_half(name: str) -> list[tuple[Disconnect, int, PrintedCard]]:
    """Return the cards of halves, by the joint and the half that their title names."""
    harness = harness_of(EXAMPLES / name)
    cards = {(card.title, card.texts[1]): card for card in read_once(name)}
    return [
        (joint, index, cards[joint.name, f"{half.name} half · {half.gender}"])
        for joint in harness.disconnects.values()
        for index, half in enumerate(joint.halves)
    ]


def equipment_cards(name: str) -> dict[str, PrintedCard]:
    harness = harness_of(EXAMPLES / name)
    return {card.title: card for card in read_once(name) if card.title in harness.equipment}


def without(row: Row, *columns: str) -> Row:
    return {column: text for column, text in row.items() if column not in ("base", *columns)}


def far_end(harness: Harness, joint: Disconnect, use: ContactUse, half: int) -> str:
    """Say the other end of the lead behind a half, found by its mark."""
    wire = use.wires[joint.halves[half].name]
    assert isinstance(wire, Wire)
    [lead] = [lead for lead in harness.leads() if any(one.mark == wire.mark for one in lead.wires)]
    [end] = [end for end in lead.ends if end.name != joint.name]
    if end.kind == "half":
        [contact] = end.contacts[wire.role]
        return f"{end.name} {contact}"
    return end.text


def said_of(harness: Harness, joint: Disconnect, use: ContactUse, half: int) -> Row:
    """Return what a row should say of a used contact."""
    wire = use.wires[joint.halves[half].name]
    function = use.label if use.is_common else harness.circuits[use.of].label
    # Both commons of the demanding example are spliced to tails behind either half.
    goes = "splice behind it" if use.is_common else far_end(harness, joint, use, half)
    said = {"function": function, "goes to": goes}
    return said | {
        "colour": wire.colour,
        "AWG": wire.kind.gauge.mark,
        "mark": (wire.mark or "own") if isinstance(wire, Wire) else "tail",
    }


@pytest.mark.parametrize("name", NAMES)
def test_the_table_says_what_the_harness_has_at_each_used_contact(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for joint, half, card in cards_by_half(name):
        rows = card.rows(joint.shell.contacts)
        assert list(rows) == [contact for contact in joint.shell.contacts if contact in joint.uses]
        for contact, row in rows.items():
            assert without(row) == said_of(harness, joint, joint.uses[contact], half), (joint.name, half, contact)


@pytest.mark.parametrize("name", NAMES)
def test_spare_contacts_stand_in_one_line(name: str) -> None:
    for joint, _, card in cards_by_half(name):
        lines = [text for text in card.texts if text.startswith("Spare: ")]
        said = [part.split("–") for line in lines for part in line.removeprefix("Spare: ").split(", ")]
        found = [str(i) for ends in said for i in range(int(ends[0]), int(ends[-1]) + 1)]
        assert found == list(joint.spares)
        assert len(lines) == bool(joint.spares)


@pytest.mark.parametrize("name", NAMES)
def test_both_views_say_the_colours_that_the_table_says(name: str) -> None:
    for joint, half, card in cards_by_half(name):
        wires = {contact: use.wires.get(joint.halves[half].name) for contact, use in joint.uses.items()}
        expected = {contact: wire.colour for contact, wire in wires.items() if wire is not None}
        mating, wire_side = card.views(joint.shell.contacts)
        assert mating.colours == wire_side.colours == expected
        table = {contact: row["colour"] for contact, row in card.rows(joint.shell.contacts).items() if "colour" in row}
        assert table == expected


def unwrapped(text: str) -> list[str]:
    """Return the lines of a part of the record, what was broken in one piece again."""
    lines: list[str] = []
    depth = 0
    for line in text.split("\n"):
        indent = len(line) - len(line.lstrip())
        if lines and indent == depth + 4:
            lines[-1] += " " + line.strip()
        else:
            lines.append(line.strip())
            depth = indent
    return lines


@pytest.mark.parametrize("name", NAMES)
def test_the_record_says_what_the_cards_of_both_halves_say(name: str) -> None:
    files = files_of_example(name)
    cards = cards_by_half(name)
    for (joint, _, one), (_, _, other) in zip(cards[::2], cards[1::2], strict=True):
        lines = unwrapped(files[f"record/disconnect-{joint.name}.txt"].decode())
        rows = zip(one.rows(joint.shell.contacts).items(), other.rows(joint.shell.contacts).values(), strict=True)
        for (contact, row), row_of_other in rows:
            wires = " / ".join(f"{r['colour']} {r['AWG']} AWG {r['mark']}" for r in (row, row_of_other))
            of = f"common {row['function']}" if row["mark"] == "tail" else row["function"]
            own, ends = (f"{contact}: {part}" for part in (of, f"{of}, {wires}"))
            assert any(line.startswith(ends if "common" in of else f"{own}, {wires}, ") for line in lines)
        assert {f"{contact}: spare" for contact in joint.spares} <= set(lines)


def contacts_said(joint: str, text: str) -> set[str]:
    """Read the contacts that a label names of a joint: `left-root 1–3`, `left-wing-b 5, 1+2, 3+4`."""
    here = re.match(re.escape(joint) + r" ((?:\d+(?:–\d+|(?:\+\d+)*)(?:, )?)+)", text)
    if here is None:
        return set()
    found = set()
    for part in re.split(r", |\+", here[1].strip().strip(",")):
        first, _, last = part.partition("–")
        found |= {str(i) for i in range(int(first), int(last or first) + 1)}
    return found


def labels(name: str, content: bytes) -> list[tuple[str, str]]:
    """Return the function of each label and all else that it says; the function is what its bold text begins with."""
    pages = [PrintedPage(page) for page in pypdfium2.PdfDocument(content)]
    functions = sorted({circuit.label for circuit in harness_of(EXAMPLES / name).circuits.values()}, key=len)
    found = []
    for label in printed_on(pages, "strips-a4"):
        function = [each for each in functions if f"{label.bold} ".startswith(f"{each} ")][-1]
        found.append((function, f"{label.bold.removeprefix(function).strip()} {label.small}"))
    return found


@pytest.mark.parametrize("name", NAMES)
def test_the_wire_labels_name_each_contact_with_its_function_and_marks(name: str) -> None:
    harness, files = harness_of(EXAMPLES / name), files_of_example(name)
    said = labels(name, files["wire-labels.pdf"])
    for joint in harness.disconnects.values():
        if joint.shell.roles:  # a joint of plugs: each label goes to the whole plug, so no contacts are said
            continue
        named = {(f, c) for function, rest in said for f in [function] for c in contacts_said(joint.name, rest)}
        own = {(use.label, contact) for contact, use in joint.uses.items() if not use.is_common}
        shared = {
            (harness.circuits[lead.circuit].label, contact)
            for common in joint.commons.values()
            for behind in common.halves
            for lead, _ in behind.wires
            for contact in common.contacts
        }
        assert named == own | shared
        marks = {
            use.label: {
                w.mark for u in joint.uses.values() if u.of == use.of for w in u.wires.values() if isinstance(w, Wire)
            }
            for use in joint.uses.values()
            if not use.is_common
        }
        for function, rest in said:
            if function in marks and not joint.commons and contacts_said(joint.name, rest):
                assert set(re.findall(r"\b[A-Z]\d+[A-Z]\d+N?\b", rest)) <= marks[function]


@pytest.mark.parametrize("side", ["left", "right"])
def test_commons_are_bracketed_and_what_is_spliced_behind_is_said(side: str) -> None:
    letter = side[0].upper()
    # As the builder wrote: aileron and flap pass, WING comes from the fuselage, the beacon begins behind the panel's
    # half. Signals of the two need the negative in the fuselage too, the positive only behind the joint.
    behind = [
        {"wing-positive": f"WING {letter}", "wing-negative": f"WING {letter}, AIL {letter} OUT, FLAP {letter}"},
        dict.fromkeys(("wing-positive", "wing-negative"), f"AIL {letter} OUT, FLAP {letter}, BEACON {letter}"),
    ]
    cards = [(half, card) for joint, half, card in cards_by_half("fulmar") if joint.name == f"{side}-wing-b"]
    for half, card in cards:
        for common, contacts in (("wing-positive", "1+2"), ("wing-negative", "3+4")):
            said = rf"{common} {re.escape(contacts)} ·[^:]*spliced \w+: {re.escape(behind[half][common])}(?!,)"
            assert re.search(said, card.said), said
        rows = card.rows([str(i) for i in range(1, 15)])
        bases = {contact: float(rows[contact]["base"]) for contact in "1234"}
        page = next(p for p in card.pages if any(t.text.startswith("wing-") and t.bold for t in p.texts))
        # Strokes of 0.5 mm that stand left of the numbers; capitals are 2.5 mm high.
        thick = [
            d.box
            for d in page.drawn
            if d.line_mm == pytest.approx(0.5, abs=0.01) and d.box.right < page.region.left + 10
        ]
        ticks = [box.top for box in thick if box.size[1] < 0.1]
        assert ticks == pytest.approx([bases[contact] - 1.25 for contact in "1234"], abs=0.1)
        upright = sorted((box.top, box.bottom) for box in thick if box.size[0] < 0.1)
        joined = [upright[0]]
        for top, bottom in upright[1:]:
            joined[-1:] = [(joined[-1][0], bottom)] if top < joined[-1][1] + 0.1 else [joined[-1], (top, bottom)]
        assert joined == [pytest.approx((ticks[0], ticks[1]), abs=0.1), pytest.approx((ticks[2], ticks[3]), abs=0.1)]


@pytest.mark.parametrize("name", NAMES)
def test_each_port_of_equipment_says_function_other_end_and_channel(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    cards = equipment_cards(name)
    assert set(cards) == {e.name for e in harness.equipment.values() if e.ports and not e.nameless}
    for title, card in cards.items():
        ports = harness.equipment[title].ports
        plugged = [port for port in ports if port.circuit is not None]
        rows = card.rows([port.name for port in ports])
        assert list(rows) == [port.name for port in plugged]
        for port in plugged:
            assert port.circuit is not None
            expected = {"function": port.circuit.label, "other end": port.far_text}
            if port.circuit.form.channel is not None:
                expected["channel"] = str(port.circuit.form.channel)
            assert without(rows[port.name], "fail-safe") == expected
        free = ", ".join(port.name for port in ports if port.circuit is None)
        assert [text for text in card.texts if text.startswith("Free: ")] == ([f"Free: {free}"] if free else [])


def test_the_receiver_of_wren_says_what_the_builder_plugged_in() -> None:
    rows = equipment_cards("wren")["receiver"].rows(["1", "2", "3", "4", "BATT"])
    assert {port: without(row) for port, row in rows.items()} == {
        "1": {"function": "AIL L", "other end": "left-aileron", "channel": "1"},
        "2": {"function": "AIL R", "other end": "right-aileron", "channel": "2"},
        "4": {"function": "RUD", "other end": "rudder", "channel": "4"},
        "BATT": {"function": "RX BATT", "other end": "pack"},
    }


@pytest.mark.parametrize(
    ("equipment", "port", "function"),
    [
        ("receiver-a", "1", "THR L"),
        ("receiver-a", "2", "THR R"),
        ("receiver-b", "4", "SMOKE"),
        ("left-fan-control", "RX", "THR L"),
        ("right-fan-control", "RX", "THR R"),
        ("smoke-pump", "RX", "SMOKE"),
        pytest.param("receiver-b", "6", "SMOKE VALVE"),
    ],
)
def test_what_drives_says_its_fail_safe(equipment: str, port: str, function: str) -> None:
    row = equipment_cards("fulmar")[equipment].rows([port])[port]
    assert (row["function"], row.get("fail-safe")) == (function, "off")


def test_a_shell_that_nobody_held_against_the_part_says_so(tmp_path: Path) -> None:
    own = f"{{rows: [[1, 2]], pitch: {{across: 5 mm, down: 5 mm}}, outline: [14 mm, 8 mm], key: up, contact: {CONTACT}"
    said = []
    for checked in ("", ", checked: 2026-04-11"):
        for file, text in one_joint("own", ["1", "2"], own_shell=f"{own}{checked}}}").items():
            (tmp_path / file).write_text(text, "utf-8")
        said += [[card.said for card in halves_of(harness_of(tmp_path))]]
    assert all("Not yet held against the part in hand" in text and "2026-04-11" not in text for text in said[0])
    assert all("held against the part on 2026-04-11" in text and "Not yet held" not in text for text in said[1])


@pytest.mark.parametrize("name", NAMES)
def test_each_card_says_caution_aircraft_and_that_it_is_a_draft(name: str) -> None:
    aircraft = harness_of(EXAMPLES / name).aircraft
    for card in read_once(name):
        state = f"{aircraft.name} · {aircraft.marks} · draft · {card.hash8}"
        assert card.texts.count(state) == 1
        assert card.said.count("Packs unplugged and switched off") == 1
