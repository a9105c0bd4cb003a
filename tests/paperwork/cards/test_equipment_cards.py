"""What the cards of the demanding aircraft's equipment say, read back from the PDF, against what its builder wrote."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from page_facts import doubled_names
from printed_cards import PrintedCard, cards_of
from resolved import EXAMPLES, harness_of

# Port: function, other end, channel, fail-safe.
Said = tuple[str, str, str, str]

POWER_UNIT: dict[str, Said] = {
    "PACK-L": ("PACK L", "left-pack", "", ""),
    "PACK-R": ("PACK R", "right-pack", "", ""),
    "1": ("AIL L IN", "left-inner-aileron", "1", "hold"),
    "2": ("AIL R IN", "right-inner-aileron", "2", "hold"),
    "3": ("AIL L OUT", "left-outer-aileron", "3", "hold"),
    "4": ("AIL R OUT", "right-outer-aileron", "4", "hold"),
    "5": ("FLAP L", "left-flap", "5", "hold"),
    "6": ("FLAP R", "right-flap", "6", "hold"),
    "7": ("ELEV L", "left-elevator", "7", "centre"),
    "8": ("ELEV R", "right-elevator", "8", "centre"),
}
GEAR_UNIT: dict[str, Said] = {
    "POWER": ("GEAR BATT", "service-switch GEAR", "", ""),
    "GEAR": ("GEAR", "receiver-b 1", "10", "hold"),
    "BRAKE": ("BRAKE", "receiver-b 2", "11", "hold"),
    "NOSE": ("LEG N", "nose-leg", "", ""),
    "LEFT": ("LEG L", "left-leg", "", ""),
    "RIGHT": ("LEG R", "right-leg", "", ""),
    "BRAKE-L": ("BRAKE L", "left-brake", "", ""),
    "BRAKE-R": ("BRAKE R", "right-brake", "", ""),
}
SMOKE_PUMP: dict[str, Said] = {
    # Supply alone: no radio and no fail-safe.
    "POWER": ("SMOKE BATT", "service-switch SMOKE", "", ""),
    "RX": ("SMOKE", "receiver-b 4", "14", "off"),
}


@cache
def fulmar() -> dict[str, PrintedCard]:
    return {card.title: card for card in cards_of(harness_of(EXAMPLES / "fulmar"))}


@pytest.mark.parametrize(
    ("name", "ports"), [("power-unit", POWER_UNIT), ("gear-unit", GEAR_UNIT), ("smoke-pump", SMOKE_PUMP)]
)
def test_each_port_says_what_is_plugged_in_and_what_it_does_without_the_radio(
    name: str, ports: dict[str, Said]
) -> None:
    rows = fulmar()[name].rows(ports)
    columns = ("function", "other end", "channel", "fail-safe")
    assert {port: tuple(row.get(column, "") for column in columns) for port, row in rows.items()} == ports


def test_where_room_lacks_later_columns_are_in_small_type_first(tmp_path: Path) -> None:
    harness = harness_of(doubled_names(EXAMPLES / "fulmar", tmp_path))
    seen = set()
    for card in cards_of(harness):
        for page in card.pages:
            for failsafe in (text for text in page.texts if text.text in ("hold", "off", "centre")):
                row = [text for text in page.texts if abs(text.base_mm - failsafe.base_mm) < 0.1]
                heights = [round(text.capital_mm, 1) for text in sorted(row, key=lambda text: text.ink.left)]
                assert heights == sorted(heights, reverse=True), card.title
                seen.add(heights[-1])
    assert seen == {1.8, 2.5}


@pytest.mark.parametrize(
    ("name", "says"),
    [
        (
            "power-unit",
            (
                "power unit",
                "at radio-tray, fuselage · access: top hatch",
                "Fed by PACK-L, PACK-R, kept apart",
                "On: pull the key out of the left sill; both lamps steady",
                "Off: push the key into the left sill; both lamps go out after two seconds",
                "numbered as on its lid. WING gives supply only.",
            ),
        ),
        ("gear-unit", ("gear controller", "at lower-tray, fuselage · access: belly hatch", "Fed by POWER")),
        ("receiver-a", ("receiver", "Fed by DATA, BATT")),
    ],
)
def test_what_is_said_of_equipment_as_a_whole_stands_on_its_card(name: str, says: tuple[str, ...]) -> None:
    said = fulmar()[name].said
    for words in says:
        assert words in said


def test_only_what_isolates_is_said_to_keep_its_feeds_apart() -> None:
    assert {name for name, card in fulmar().items() if "kept apart" in card.said} == {"power-unit"}


def test_everything_with_named_ports_has_a_card_and_nothing_else() -> None:
    # As the builder wrote `ports:`.
    assert {name for name, card in fulmar().items() if "half" not in card.texts[1]} == {
        "power-unit",
        "receiver-a",
        "receiver-b",
        "service-switch",
        "gear-unit",
        "lamp-unit",
        "smoke-pump",
        "left-fan-control",
        "right-fan-control",
    }
