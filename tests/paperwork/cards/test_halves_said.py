"""What is said of each half as a whole, against the harness, and what of it changes with reaches, tails and feeders."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest
from resolved import EXAMPLES, harness_of

from docgen.harness.model.harness import Harness
from docgen.harness.model.joints import Common, Disconnect, Half
from docgen.paperwork.cards.halves import half_card
from docgen.paperwork.cards.pinout_cards import content, items, of_keys

# Which joints of one pair of assemblies are plugged first, by their tails of 110 and 140 mm.
ORDER = {f"{side}-wing-a": f" · plugged after {side}-wing-b" for side in ("left", "right")} | {
    f"{side}-wing-b": " · plugged first" for side in ("left", "right")
}


def fulmar() -> Harness:
    return harness_of(EXAMPLES / "fulmar")


def in_words(contacts: list[str]) -> str:
    """Say contacts: three and more in a row by the first and the last of them."""
    numbers = [int(contact) for contact in contacts]
    in_a_row = len(numbers) > 2 and numbers == list(range(numbers[0], numbers[0] + len(numbers)))
    return f"{contacts[0]}–{contacts[-1]}" if in_a_row else ", ".join(contacts)


def common_said(harness: Harness, joint: Disconnect, common: Common, index: int) -> str:
    """Say what feeds a common, whom it serves, and whose wires are spliced behind a half."""
    labels = {circuit.name: circuit.label for circuit in harness.circuits.values()}
    behind = [[labels[lead.circuit] for lead, _ in half.wires] for half in common.halves]
    heavy = [labels[name] for name in common.feeders if name not in common.circuits]
    every = [label for label in dict.fromkeys([*behind[0], *behind[1]]) if label not in heavy]
    here = ", ".join(dict.fromkeys(behind[index]))
    said = f"{common.name} {'+'.join(common.contacts)} · fed by {', '.join(heavy)} · for {', '.join(every)}"
    assert all(joint.uses[contact].of == common.name for contact in common.contacts)
    return f"{said} · spliced here: {here}"


def volts_said(harness: Harness, joint: Disconnect) -> str:
    volts = {c: harness.results.full_v.get((joint.name, c)) for c in joint.shell.contacts}
    known = [value for value in volts.values() if value is not None]
    parts = [f"{value:g} V at {in_words([c for c in volts if volts[c] == value])}" for value in dict.fromkeys(known)]
    return f"Full packs: {'; '.join(parts)}" if len(parts) > 1 else ""


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_each_half_says_all_that_the_harness_has_of_it_in_order_and_nothing_else(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    for joint, half in harness.halves():
        index = joint.halves.index(half)
        other = joint.halves[1 - index]
        reach = "" if other.fixed or other.reach_mm is None else f", reach {other.reach_mm:g} mm"
        mates = f"mates with the {other.name} half at {other.place} ({other.gender}{reach})"
        spares = [contact for contact in joint.shell.contacts if contact not in joint.uses]
        expected = [
            f"The plug on the own lead of {half.came_on}: nothing is joined to it here." if half.came_on else "",
            f"Spare: {in_words(spares)}" if spares else "",
            *(common_said(harness, joint, common, index) for common in joint.commons.values()),
            f"{joint.shell.name} · {mates}{ORDER.get(joint.name, '')}",
            volts_said(harness, joint),
            f"Keyed {joint.form.keyed}: mates with no other letter." if joint.form.keyed else "",
            f"Lock: {joint.shell.lock}" if joint.shell.lock else "",
            joint.form.note,
            "Not yet held against the part in hand: check numbers and key first.",
        ]
        assert list(half_card(harness, joint, index).said) == [text for text in expected if text], (joint.name, half)


def with_reaches(reaches_mm: Mapping[str, float | None], *, one_assembly: bool = False) -> Harness:
    """Return an aircraft with joints of those tails and names between one pair of assemblies, or in one."""
    harness = fulmar()
    joint = harness.disconnects["left-wing-a"]
    fixed, loose = joint.halves
    place = fixed.place if one_assembly else loose.place
    joints = {
        name: replace(joint, name=name, halves=(fixed, replace(loose, place=place, reach_mm=reach_mm)))
        for name, reach_mm in reaches_mm.items()
    }
    others = {name: other for name, other in harness.disconnects.items() if "wing" not in name}
    assert all(half.reach_mm == 0 for each in joints.values() for half in each.halves if half.fixed)
    return replace(harness, disconnects={**others, **joints})


def order_said(harness: Harness, name: str) -> str:
    [said] = [text for text in half_card(harness, harness.disconnects[name], 0).said if "mates with the" in text]
    return said.partition("mm)")[2].removeprefix(" · ")


@pytest.mark.parametrize(
    ("reaches_mm", "said"),
    [
        ({"a": 110}, {"a": ""}),
        ({"a": 110, "b": 140}, {"a": "plugged after b", "b": "plugged first"}),
        (
            {"a": 110, "b": 150, "c": 140},
            {"a": "plugged after b, c", "b": "plugged first", "c": "plugged after b"},
        ),
        # Of two that reach as far, neither is first.
        ({"a": 140, "b": 140}, {"a": "", "b": ""}),
        ({"a": 110, "b": 140, "c": 140}, {"a": "plugged after b, c", "b": "", "c": ""}),
        # Where one is not measured yet, nothing is known.
        ({"a": 110, "b": 140, "c": None}, {"a": "", "b": "", "c": ""}),
    ],
)
def test_of_joints_beside_each_other_that_whose_tail_reaches_farthest_is_plugged_first(
    reaches_mm: dict[str, float | None], said: dict[str, str]
) -> None:
    harness = with_reaches(reaches_mm)
    assert {name: order_said(harness, name) for name in said if reaches_mm[name] is not None} == {
        name: words for name, words in said.items() if reaches_mm[name] is not None
    }
    assert not any("plugged" in text for text in half_card(harness, harness.disconnects["tail"], 0).said)


def test_joints_within_one_assembly_are_plugged_in_any_order() -> None:
    harness = with_reaches({"a": 110, "b": 140}, one_assembly=True)
    assert [order_said(harness, name) for name in "ab"] == ["", ""]


def changed(harness: Harness, joint: Disconnect, common: Common) -> tuple[Harness, Disconnect]:
    now = replace(joint, commons={**joint.commons, common.name: common})
    return replace(harness, disconnects={**harness.disconnects, joint.name: now}), now


def test_a_common_without_tails_says_whose_wire_goes_straight_in_and_its_contact_where_that_goes() -> None:
    harness = fulmar()
    joint = harness.disconnects["left-wing-b"]
    common = joint.commons["wing-positive"]
    panel = common.halves[1]
    straight = replace(panel, wires=panel.wires[:1], tails=())
    none = replace(common.halves[0], wires=(), tails=())
    with_them, joint = changed(harness, joint, replace(common, halves=(none, straight)))
    card = half_card(with_them, joint, 1)
    [said] = [text for text in card.said if text.startswith("wing-positive")]
    assert said == "wing-positive 1+2 · fed by WING L · for AIL L OUT · straight in: AIL L OUT"
    assert [row.goes for row in card.rows if row.common == "wing-positive"] == ["left-outer-aileron"] * 2
    [said] = [text for text in half_card(with_them, joint, 0).said if text.startswith("wing-positive")]
    assert said.endswith(" · straight in: nothing")


def test_a_common_of_a_heavy_pair_alone_is_for_that_and_one_without_is_fed_by_none() -> None:
    harness = fulmar()
    joint = harness.disconnects["left-wing-b"]
    common = joint.commons["wing-positive"]
    alone, with_alone = changed(harness, joint, replace(common, halves=(common.halves[0],) * 2))
    [said] = [text for text in half_card(alone, with_alone, 0).said if text.startswith("wing-positive")]
    assert said == "wing-positive 1+2 · fed by WING L · for WING L · spliced here: WING L"
    fed = replace(common, feeders=common.circuits, form=common.form.model_copy(update={"note": "Both of 20 AWG."}))
    without, with_none = changed(harness, joint, fed)
    [said] = [text for text in half_card(without, with_none, 0).said if text.startswith("wing-positive")]
    assert said.startswith("wing-positive 1+2 · for WING L, ")
    assert said.endswith(" · spliced here: WING L · Both of 20 AWG.")


def test_a_contact_with_no_wire_behind_a_half_says_its_function_alone() -> None:
    harness = fulmar()
    joint = harness.disconnects["tail"]
    use = joint.uses["1"]
    now = replace(joint, uses={**joint.uses, "1": replace(use, wires={joint.halves[1].name: use.wires["loose"]})})
    row = half_card(harness, now, 0).rows[0]
    assert (row.contact, row.function) == ("1", use.label)
    assert (row.colour, row.gauge, row.goes, row.mark) == ("", "", "", "")


def test_cards_are_chosen_by_keys_of_their_own() -> None:
    cards = content(fulmar())
    halves: list[tuple[str, Half]] = [(joint.name, half) for joint, half in fulmar().halves()]
    assert [card.key for card in cards.halves] == [(joint, half.name) for joint, half in halves]
    assert [card.is_first for card in cards.halves] == [True, False] * (len(halves) // 2)
    kept = of_keys(cards, {"tail loose", "receiver-b"})
    assert [card.key for card in kept.halves] == [("tail", "loose")]
    assert [card.name for card in kept.equipment] == ["receiver-b"]
    assert kept.order == cards.order
    assert {key: cards.hashes[key] for key in kept.hashes} == kept.hashes


def test_what_is_compared_of_a_card_is_all_that_it_says() -> None:
    cards = content(fulmar())
    compared = {item.key: item.text for item in items(cards)}
    assert len(compared) == len(cards.halves) + len(cards.equipment)
    for half in cards.halves:
        for text in (half.name, half.half, half.gender, half.where, *half.said):
            assert text in compared[half.key]
        for row in half.rows:
            [line] = [text for text in compared[half.key] if text.startswith(f"{row.contact} ") and row.mark in text]
            assert all(part in line for part in (row.colour, row.gauge, row.function, row.goes, row.common))
    for card in cards.equipment:
        for text in (card.name, card.kind, card.where, *card.said):
            assert text in compared[(card.name,)]
        for port in card.rows:
            assert any(
                all(part in text for part in (port.port, port.function, port.far, port.channel, port.failsafe))
                for text in compared[(card.name,)]
            )
