"""What cards show of unusual shells, words and commons, read back from the PDF."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from card_aircraft import CONTACT, one_joint
from printed_cards import PrintedCard, cards_of, halves_of, printed_files
from resolved import EXAMPLES, files_of_example, harness_of

if TYPE_CHECKING:
    from conftest import AircraftFolder


CONTROLLER = (
    ("equipment:\n", "equipment:\n  driver: {kind: speed controller, place: tail-post, lead: 90 mm, plug: servo-3}\n"),
    ("circuits:\n", "circuits:\n  throttle: {label: THR, from: receiver 3, to: driver, lead: servo-22, channel: 3}\n"),
)


def written(folder: Path, files: dict[str, str]) -> Path:
    for file, text in files.items():
        (folder / file).write_text(text, "utf-8")
    return folder


def example_with(folder: Path, name: str, *changes: tuple[str, str]) -> Path:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / name).glob("*.yaml")}
    for old, new in changes:
        assert texts["harness.yaml"].count(old) == 1, old
        texts["harness.yaml"] = texts["harness.yaml"].replace(old, new)
    return written(folder, texts)


def card_titled(cards: list[PrintedCard], title: str) -> PrintedCard:
    return next(card for card in cards if card.title == title)


def test_rows_and_the_square_follow_the_numbers_and_not_the_order_of_writing(tmp_path: Path) -> None:
    at = "{10: [9 mm, 0 mm], 2: [0 mm, 0 mm], 1: [-9 mm, 0 mm]}"
    shell = f"{{at: {at}, outline: [30 mm, 10 mm], key: up, contact: {CONTACT}}}"
    names = ["1", "2", "10"]
    for card in halves_of(harness_of(written(tmp_path, one_joint("own", names, own_shell=shell)))):
        assert list(card.rows(names)) == names
        assert [view.first for view in card.views(names)] == [{"1"}, {"1"}]
        assert "square: contact 1" in card.said


def test_a_shell_without_a_key_says_that_it_is_not_turned(tmp_path: Path) -> None:
    shell = f"{{at: {{1: [0 mm, 3 mm], 2: [0 mm, -3 mm]}}, outline: [10 mm, 14 mm], contact: {CONTACT}}}"
    folder = written(tmp_path, one_joint("own", ["1", "2"], own_shell=shell, keys=("left", None)))
    assert "no key to turn it by" in halves_of(harness_of(folder))[0].said


@pytest.mark.parametrize("shell", ["dsub-9", "block-14", pytest.param("dsub-25", marks=pytest.mark.long)])
def test_long_notes_run_into_nothing(tmp_path: Path, shell: str) -> None:
    note = " ".join(["Undo both screws by turns before the halves are pulled straight apart."] * 8)
    count = int(shell.partition("-")[2])
    files = one_joint(shell, [str(i) for i in range(1, count + 1)])
    files["harness.yaml"] = files["harness.yaml"].replace(f"shell: {shell}", f"shell: {shell}\n    note: {note}")
    cards = halves_of(harness_of(written(tmp_path, files)))
    for page in (page for card in cards for page in card.pages):
        assert not [(a.text, b.text) for a, b in combinations(page.texts, 2) if a.ink.overlaps(b.ink)]
    assert all(card.said.count("Undo both screws") == 8 for card in cards)


def test_commons_that_pass_each_other_have_brackets_of_their_own(tmp_path: Path) -> None:
    crossed = [
        ("wing-positive: {role: positive, contacts: [1, 2]", "wing-positive: {role: positive, contacts: [1, 3]"),
        ("wing-negative: {role: negative, contacts: [3, 4]", "wing-negative: {role: negative, contacts: [2, 4]"),
    ]
    card = card_titled(cards_of(harness_of(example_with(tmp_path, "fulmar", *crossed))), "left-wing-b")
    page = next(page for page in card.pages if any(text.text == "function" for text in page.texts))
    rows = card.rows([str(i) for i in range(1, 15)])
    # Strokes of 0.5 mm left of the numbers; the middle of a row is half a capital of 2.5 mm above its base line.
    thick = [
        d.box for d in page.drawn if d.line_mm == pytest.approx(0.5, abs=0.01) and d.box.right < page.region.left + 12
    ]
    middles = {contact: float(rows[contact]["base"]) - 1.25 for contact in "1234"}
    held: dict[float, set[str]] = {}
    for box in (box for box in thick if box.size[1] < 0.1):
        nearest = min(middles, key=lambda contact: abs(middles[contact] - box.top))
        held.setdefault(round(box.left, 1), set()).add(nearest)
    assert list(held.values()) == [{"1", "3"}, {"2", "4"}]
    for left, contacts in held.items():
        upright = [box for box in thick if box.size[0] < 0.1 and abs(box.left - left) < 0.1]
        ends = min(box.top for box in upright), max(box.bottom for box in upright)
        assert ends == pytest.approx((middles[min(contacts)], middles[max(contacts)]), abs=0.1)


BESIDE = (
    (CONTROLLER[0][0], CONTROLLER[0][1] + "  lamp: {kind: light, place: tail-post, lead: 90 mm, plug: servo-3}\n"),
    (CONTROLLER[1][0], CONTROLLER[1][1].replace("to: driver,", "to: [driver, lamp], split: {place: tail-post},")),
)


@pytest.mark.parametrize("changes", [CONTROLLER, BESIDE])
def test_a_throttle_without_a_fail_safe_says_that_it_is_not_set_also_beside_something_else(
    changes: Sequence[tuple[str, str]], aircraft_folder: AircraftFolder
) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": list(changes)}))
    row = card_titled(cards_of(harness), "receiver").rows(["3"])["3"]
    assert (row["function"], row["fail-safe"]) == ("THR", "not set")


def test_a_controller_of_one_own_lead_has_a_card_and_a_part_of_the_record(aircraft_folder: AircraftFolder) -> None:
    harness = harness_of(aircraft_folder({"harness.yaml": list(CONTROLLER)}))
    row = card_titled(cards_of(harness), "driver").rows(["own lead"])["own lead"]
    assert (row["function"], row["other end"], row["channel"]) == ("THR", "receiver 3", "3")
    assert "record/equipment-driver.txt" in printed_files(harness, "record")


def test_the_record_says_the_fail_safe_of_a_port() -> None:
    files = files_of_example("fulmar")
    said = " ".join(files["record/equipment-smoke-pump.txt"].decode().split())
    assert "SMOKE (smoke-signal), other end receiver-b 4, channel 14, fail-safe off" in said
