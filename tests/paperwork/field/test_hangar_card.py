"""The hangar card read back from its two sides, held against what the builder wrote, typed here by hand."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from page_facts import Sheet, heights_off, sheets_of, texts_near_an_edge, texts_struck, texts_that_meet
from reference.paper_sizes import ISO_216_MM, US_LETTER_MM
from resolved import EXAMPLES, files_of_example, harness_of, record_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import hangar_content, hangar_pages
from docgen.paperwork.field.acts import Said, numbered
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.typesetting.ink import Box, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes
    from measured import PrintedText

STEM = "hangar-card"


class Card:
    """The one sheet: rows of its front, which is at the right, and of its back, the foot of each left out."""

    def __init__(self, pdf: bytes) -> None:
        self.sheets = sheets_of(pdf)
        (self.sheet,) = self.sheets
        middle = self.sheet.width_mm / 2
        texts = [text for text in self.sheet.texts if text.capital_mm > 1.6]
        self.front = _rows([text for text in texts if text.box.left > middle])
        self.back = _rows([text for text in texts if text.box.left < middle])

    def on(self) -> list[str]:
        return self._between("Switch on", "Switch off")

    def off(self) -> list[str]:
        return self._between("Switch off", "locked when")

    def _between(self, start: str, end: str) -> list[str]:
        rows = [" ".join(text.text for text in row) for row in self.front]
        return rows[rows.index(start) + 1 : next(i for i, row in enumerate(rows) if row.startswith(end))]


def _rows(texts: list[PrintedText]) -> list[list[PrintedText]]:
    rows: list[list[PrintedText]] = []
    for text in sorted(texts, key=lambda text: (round(text.base_mm, 1), text.box.left)):
        if rows and abs(rows[-1][0].base_mm - text.base_mm) < 0.15:
            rows[-1].append(text)
        else:
            rows.append([text])
    return rows


def said(rows: list[list[PrintedText]]) -> str:
    return " ".join(text.text for row in rows for text in row)


def card_of(name: str) -> Card:
    return Card(files_of_example(name)[f"{STEM}.pdf"])


def card_with(aircraft_folder: AircraftFolder, changes: Changes) -> Card:
    return Card(make_paperwork(harness_of(aircraft_folder(changes)), Choice(stems=(STEM,))).files[f"{STEM}.pdf"])


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_is_one_sheet_that_folds_to_two_sides_of_half_its_size(name: str, paper: str) -> None:
    choice = Choice(stems=(STEM,), paper=paper)
    pages: list[Sheet] = sheets_of(make_paperwork(harness_of(EXAMPLES / name), choice).files[f"{STEM}.pdf"])
    assert len(pages) == 1
    short, long = ISO_216_MM["A4"] if paper == "a4" else US_LETTER_MM
    assert (pages[0].width_mm, pages[0].height_mm) == pytest.approx((long, short), abs=0.1)
    assert heights_off(pages) == set()
    assert texts_that_meet(pages) == []
    assert texts_near_an_edge(pages) == []
    assert [text for text in texts_struck(pages) if len(text) > 1] == []  # letters of the plan: test_plan.py
    # Nothing crosses the fold, and 4 mm beside it are clear.
    middle = pages[0].width_mm / 2
    assert all(text.box.right < middle - 4 or text.box.left > middle + 4 for text in pages[0].texts)


def test_it_says_whose_aircraft_it_is_and_warns_of_what_is_aboard() -> None:
    fulmar, wren = said(card_of("fulmar").front), said(card_of("wren").front)
    assert fulmar.startswith("Fulmar · FM-12 Ansa Brook, Heron Lane field, telephone 555 0134")
    charge = "Charge packs out of the aircraft or as their maker says, never alone."
    assert charge in fulmar
    assert charge in wren
    assert "Keep clear of propellers, and fans' intakes; gear doors and legs." in fulmar
    for word in ("propeller", "fan", "engine", "fuel", "gear", "throttle", "gyro"):
        assert word not in wren.lower()


def test_fulmar_is_switched_on_and_off_in_the_order_of_time() -> None:
    """By hand from `on:`, `off:`, `stop:` and `stopped:`, the sign behind the first semicolon after the dots."""
    card = card_of("fulmar")
    assert card.on() == [
        "0 right model memory, throttle lowest and locked, gear switch as the legs",
        "stand, aircraft still until the gyro is ready",
        "1 transmitter on",
        "2 left- and right-pack: plug it in with the key in",
        "its lamp on the power unit comes on",
        "3 power-unit, key: pull the key out of the left sill both lamps steady",
        "4 service-pack: plug it in with the service switch off",
        "5 service-switch: hold its button for two seconds green lamp",
        "6 gear-unit: comes on with the service switch",
        "nothing moves until the gear switch has been moved once",
        "7 aircraft held, clear of propellers, and fans' intakes; gear doors and legs",
        "8 left- and right-fan-pack: plug it in, aircraft held, intakes clear",
        "its speed controller sounds twice",
    ]
    assert card.off() == [
        "1 throttle to its lowest, and lock it the fan stands still",
        "2 left- and right-fan-pack: unplug it",
        "3 service-switch: hold its button for two seconds lamp out",
        "4 service-pack: unplug it after the service switch",
        "5 power-unit, key: push the key into the left sill",
        "both lamps go out after two seconds",
        "6 left- and right-pack: unplug it after the key is in",
        "7 transmitter off",
        "8 stored and carried with the key in, packs unplugged",
    ]


def test_what_says_nothing_of_how_it_is_switched_is_listed_all_the_same(aircraft_folder: AircraftFolder) -> None:
    words = "    on: plug the pack in through the nose hatch; the receiver's light comes on\n"
    card = card_with(aircraft_folder, {"harness.yaml": [(words, "")]})
    assert card.on() == ["0 right model memory", "1 transmitter on", "2 pack: how: not written"]
    assert card.off() == ["1 pack: how: not written", "2 transmitter off"]


ENGINE = "  engine: {kind: engine unit, place: radio-tray, lead: 90 mm, plug: servo-3, %s}\n"
MOTOR = "  control: {kind: speed controller, place: radio-tray, lead: 90 mm, plug: servo-3, %s}\n"


@pytest.mark.parametrize(
    ("driven", "acts"),
    [
        ([(ENGINE, "")], ["1 stop engine all stands still"]),
        ([(MOTOR, "")], ["1 throttle lowest and locked all stands still"]),
        ([(MOTOR, "stop: pull the lever, stopped: it is silent")], ["1 pull the lever it is silent"]),
        (
            [(MOTOR, "stop: pull the lever, stopped: it is silent"), (ENGINE, "stop: cut the fuel, stopped: it dies")],
            ["1 control: pull the lever it is silent", "2 engine: cut the fuel it dies"],
        ),
    ],
)
def test_what_drives_is_stopped_first_as_the_builder_wrote_or_as_is_usual(
    driven: list[tuple[str, str]], acts: list[str], aircraft_folder: AircraftFolder
) -> None:
    entries = "".join(entry % says for entry, says in driven).replace(", }", "}")
    circuits = "".join(
        f"  drive-{number}: {{from: receiver {number}, to: {entry.split(':')[0].strip()}}}\n"
        for number, (entry, _) in enumerate(driven, 5)
    )
    changes = [
        ("equipment:\n", f"equipment:\n{entries}"),
        ("circuits:\n", f"circuits:\n{circuits}"),
        ("names: 1..4", "names: 1..6"),
    ]
    assert card_with(aircraft_folder, {"harness.yaml": changes}).off()[: len(acts)] == acts


def test_packs_show_full_volts_where_to_land_and_flights() -> None:
    # 1.85 A for 9 min take 277.5 mAh; 2600 mAh x 0.7 / 277.5 mAh = 6.56 flights.
    assert "Packs" in said(card_of("wren").front)
    assert "pack 8.4 6.4 6.6" in said(card_of("wren").front)
    # A fan takes 32 A for 6 min and 0.1 A for 4 min, 3206.7 mAh: 5000 mAh x 0.7 / 3206.7 = 1.09.
    fulmar = said(card_of("fulmar").front)
    assert "25.2 20.4 1.1" in fulmar
    assert "nose-leg: stroke 6.4 s, limit 8 s, stop 2 A" in fulmar


def test_packs_of_other_volts_that_go_into_one_plug_are_named() -> None:
    # Two cells in the radio's and three in the service pack, all on the heavy plug; the fans' six are on another.
    assert "left- and right-pack, service-pack: one plug, other volts. Read the label first." in said(
        card_of("fulmar").front
    )
    assert "other volts" not in said(card_of("wren").front)


@pytest.mark.parametrize(
    ("full", "plug", "named"), [("12.6", "power-2", True), ("8.4", "power-2", False), ("12.6", "motor-2", False)]
)
def test_packs_of_the_same_volts_or_on_other_plugs_are_not_taken_for_each_other(
    full: str, plug: str, named: bool, aircraft_folder: AircraftFolder
) -> None:
    second = (
        "  second:\n    kind: battery\n    place: battery-bay\n    lead: 120 mm\n    lead_wire: pvc-20\n"
        f"    plug: {plug}\n    battery: {{cells: 2, capacity: 900 mAh, full: {full} V, empty: 6.4 V}}\n"
    )
    changes: Changes = {"harness.yaml": [("equipment:\n", f"equipment:\n{second}")]}
    assert ("second, pack: one plug, other volts" in said(card_with(aircraft_folder, changes).front)) == named


@pytest.mark.parametrize(("full", "said_so"), [("12.6", True), ("9", False)])
def test_a_pack_that_goes_in_where_it_gives_too_much_is_named_with_what_it_would_harm(
    full: str, said_so: bool, aircraft_folder: AircraftFolder
) -> None:
    """The receiver bears 9 V; its port for the pack takes the plug of the lamp's, whose own port is like it."""
    more = (
        "  lamp-pack:\n    kind: battery\n    place: battery-bay\n    lead: 120 mm\n    plug: power-2\n"
        f"    battery: {{cells: 3, capacity: 900 mAh, full: {full} V, empty: 6.4 V}}\n"
        "  lamp: {kind: light, place: battery-bay, ports: [{plug: power-2, names: [IN], contacts: pins}],"
        " volts: {least: 4 V, most: 14 V}}\n"
    )
    packs = [("cells: 2, capacity: 2600 mAh, full: 8.4 V", f"cells: 2, capacity: 2600 mAh, full: {full} V")]
    changes = [
        ("equipment:\n", f"equipment:\n{more}"),
        ("circuits:\n", "circuits:\n  lit: {from: lamp-pack, to: lamp}\n"),
    ]
    front = said(card_with(aircraft_folder, {"harness.yaml": [*packs, *changes]}).front)
    assert ("lamp-pack fits receiver too: too many volts. Read the label first." in front) == said_so


def test_locks_say_apart_when_they_are_locked_and_how_they_open() -> None:
    front = card_of("fulmar").front
    heads = {text.text: text for row in front for text in row}
    locked, opens, packs = (heads[head].box.left for head in ("locked when", "to open", "Packs"))
    cells = [text for row in front for text in row if text.base_mm > heads["Locks"].base_mm]
    middle = " ".join(text.text for text in cells if abs(text.box.left - locked) < 0.5)
    right = " ".join(text.text for text in cells if abs(text.box.left - opens) < 0.5)
    assert middle == (
        "a screw at each end a latch at each end home out for flight retainer on "
        "shut, catches home strapped, leads clear"
    )
    assert right == (
        "undo both by turns, then pull the halves straight apart press both, then pull the halves straight apart "
        "retainer off first, then by the housings plug first, then strap"
    )
    names = " ".join(text.text for text in cells if text.box.left < locked - 1 and text.box.left < packs)
    for joint in (
        "right-wing-a",
        "right-wing-b, tail",
        "hatch-joint",
        "key",
        "servo plugs",
        "hatches and covers",
        "packs",
    ):
        assert joint in names


@pytest.mark.parametrize(("covered", "are_there"), [(("canopy",), True), (("canopy", "nose hatch"), True), ((), False)])
def test_hatches_are_locked_where_any_place_has_one(
    covered: tuple[str, ...], are_there: bool, aircraft_folder: AircraftFolder
) -> None:
    text = re.sub(r", access: [a-z ]+", "", (EXAMPLES / "wren" / "aircraft.yaml").read_text("utf-8"))
    for name, place in zip(covered, ("aft: 420 mm, up: 10 mm}", "aft: 180 mm}"), strict=False):
        text = text.replace(place, f"{place}, access: {name}")
    front = said(card_with(aircraft_folder, {"aircraft.yaml": text}).front)
    assert ("hatches and covers shut, catches home" in front) == are_there


def test_the_control_check_has_throw_fail_safe_and_a_box_for_each_channel() -> None:
    card = card_of("fulmar")
    rows = [" ".join(text.text for text in row) for row in card.back]
    for row in (
        "AIL L IN 16 mm up, 10 mm down hold GEAR hold",
        "AIL R IN 16 mm up, 10 mm down hold BRAKE hold",
        "AIL L OUT 18 mm up, 12 mm down hold BAY DOOR hold",
        "ELEV L 24 mm each way centre THR L off",
        "RUDDER 38 mm each way centre gyro surfaces against tilt",
        "STEER 20 degrees each way centre",
    ):
        assert row in rows
    assert len([tick for tick in card.sheet.ticks if tick.left < card.sheet.width_mm / 2]) == 19
    # Wren says no fail-safe, so that column is not there.
    assert "fail-safe" not in said(card_of("wren").back)


def test_what_has_no_channel_is_checked_behind_the_others(aircraft_folder: AircraftFolder) -> None:
    changes: Changes = {
        "harness.yaml": [("    channel: 4\n", ""), ("{left: 1, right: 2}\n    throw", "{left: 2, right: 1}\n    throw")]
    }
    found = hangar_content.content(harness_of(aircraft_folder(changes))).channels
    assert [one.function for one in found] == ["AIL R", "AIL L", "RUD"]


@pytest.mark.parametrize(("heat_c", "is_hot"), [(80, False), (81, True)])
def test_runs_over_the_limit_of_80_degrees_are_hot(heat_c: int, is_hot: bool, aircraft_folder: AircraftFolder) -> None:
    run = ("length: 260 mm", f"length: 260 mm, heat: {heat_c} °C")
    season = hangar_content.content(harness_of(aircraft_folder({"aircraft.yaml": [run]}))).season
    assert season.hot == (("battery-bay–radio-tray",) if is_hot else ())


def test_cards_of_several_issues_leave_it_on_one_sheet() -> None:
    items = hangar_content.content(harness_of(EXAMPLES / "fulmar"))
    keys = [key for card in items.cards for key, _ in card.hashes]
    issues = {key: "AB"[index % 2] for index, key in enumerate(keys)}
    block = TitleBlock("Fulmar", "FM-12", "issue B, built", "2026-05-30", None, "0123abcd", issues)
    (page,) = hangar_pages.compose(items, read_page("list-a4"))(block).pages
    said = [ink.text for ink in page.ink if isinstance(ink, Text)]
    assert any(text.startswith(("receiver-a A ", "receiver-a B ")) for text in said)


def test_the_cards_that_belong_aboard_are_those_that_the_record_names() -> None:
    back, record = said(card_of("wren").back), record_of(harness_of(EXAMPLES / "wren")).whole
    hashes = [line.split()[-1] for line in record.split("\n") if line.strip().startswith("card ")]
    assert len(hashes) == 5
    receiver, *halves = hashes
    assert "Cards aboard: issue draft, first four characters of each half" in back
    assert f"receiver {receiver[:4]}" in back
    assert f"left-root {halves[0][:4]} {halves[1][:4]}" in back


def test_each_season_the_sharp_hot_and_hinged_runs_are_looked_at() -> None:
    back = said(card_of("fulmar").back)
    assert "Each season, sharp edges: nose-former–pack-bay, " in back
    # Dressed edges are none; 75 °C is hot here.
    assert "radio-tray–sill" not in back
    assert "Each season, heat: motor-bay–left-fan-bay (both), left-root–left-fan-bay (both)" in back
    assert "Each season, hinges: left-leg-bay–left-wheel (both)." in back
    assert "Log date changed what from to put in the file" in back


@pytest.mark.parametrize("why", ["", "the receiver is a tested sample"])
def test_too_many_volts_are_said_on_the_front_and_why_they_are_accepted(
    why: str, aircraft_folder: AircraftFolder
) -> None:
    accepted = ("kind: receiver\n", f"kind: receiver\n    accept: {{overvolts: {why}}}\n")
    changes = [("full: 8.4 V", "full: 9.2 V"), *[accepted] * bool(why)]
    front = said(card_with(aircraft_folder, {"harness.yaml": changes}).front)
    too_much = "full pack pack gives receiver 9.2 V, it bears 9 V: 0.2 V too much."
    assert (f"{too_much} Accepted: {why}." in front) == bool(why)
    assert too_much in front


LEG = "kind: gear leg, place: <side>-root, lead: 90 mm, plug: servo-3, current: {idle: 0 A, working: 1 A, runs: 20 s}"


@pytest.mark.parametrize(
    ("limits", "says"),
    [
        ("11 s", ["left- and right-leg: stroke 9.8 s, limit 11 s, stop 2.2 A"]),
        (
            "{left: 11 s, right: 12 s}",
            ["left-leg: stroke 9.6 s, limit 11 s, stop 2.2 A", "right-leg: stroke 9.8 s, limit 12 s, stop 2.2 A"],
        ),
    ],
)
def test_legs_of_both_sides_are_told_together_where_their_controller_is_set_alike(
    limits: str, says: list[str], aircraft_folder: AircraftFolder
) -> None:
    gear = f"gear: {{up: {{left: 9.6 s, right: 9.8 s}}, down: 8 s, limit: {limits}, stop: 2.2 A}}"
    changes = [
        ("equipment:\n", f"equipment:\n  <side>-leg: {{{LEG}, {gear}}}\n"),
        ("names: 1..4", "names: 1..6"),
        ("circuits:\n", "circuits:\n  <side>-leg: {from: {left: receiver 5, right: receiver 6}, to: <side>-leg}\n"),
    ]
    front = " ".join(text.text for row in card_with(aircraft_folder, {"harness.yaml": changes}).front for text in row)
    for told in says:
        assert told in front
    assert front.count("stroke ") == len(says)


def columns(card: Card, first: str, lefts: int) -> list[str]:
    """Return what stands in columns on the back from the row on that begins so, down each of them in turn."""
    texts = [text for row in card.back for text in row]
    top = next(text for text in texts if text.text == first)
    below = [text for text in texts if text.base_mm >= top.base_mm - 0.1 and text.box.left >= top.box.left - 0.3]
    starts = sorted({round(text.box.left) for text in below if abs(text.base_mm - top.base_mm) < 0.1})
    assert len(starts) == lefts
    found = [
        (starts.index(round(text.box.left)), text.base_mm, text.text)
        for text in below
        if round(text.box.left) in starts
    ]
    return [text for _, _, text in sorted(found)]


def test_numbers_and_letters_of_the_plan_are_told_one_below_the_other() -> None:
    """By hand from `disconnects:`, and from the `access:` of each place where no joint lies, in the order written."""
    found = columns(card_of("fulmar"), "1 left- and right-wing-a", 2)
    assert [text for text in found if text[1] == " "] == [
        *("1 left- and right-wing-a", "2 left- and right-wing-b", "3 tail", "4 nose", "5 hatch-joint"),
        *("A top hatch", "B from outside", "C belly hatch", "D spine cover", "E fan cover", "F leg door", "G leg down"),
        *("H lens off", "J servo cover", "K tip off", "L probe cover", "M fin cover", "N end cone off", "P nose off"),
        "Q turret ring off",
    ]


def test_the_field_kit_has_the_tools_of_the_contacts_that_are_aboard() -> None:
    # The plugs of Fulmar's packs and motors are soldered, which come first in its file.
    for name, tools in (
        ("wren", "crimp tool, extraction tool"),
        ("fulmar", "iron, tube, crimp tool, extraction tool"),
    ):
        texts = [text for row in card_of(name).back for text in row]
        (kit,) = (text for text in texts if text.text.startswith("Field kit: "))
        below = [text for text in texts if abs(text.box.left - kit.box.left) < 0.5 and text.base_mm >= kit.base_mm]
        assert f"on the cut list; {tools}, stripper, meter." in " ".join(text.text for text in below)


def test_cards_aboard_are_named_down_each_column_as_they_are_written() -> None:
    found = columns(
        card_of("fulmar"), next(t.text for r in card_of("fulmar").back for t in r if "wing-a " in t.text), 4
    )
    joints = ["left-wing-a", "right-wing-a", "left-wing-b", "right-wing-b", "tail", "nose", "hatch-joint"]
    units = ["power-unit", "receiver-a", "receiver-b", "service-switch", "gear-unit", "lamp-unit", "smoke-pump"]
    named = [text.split()[0] for text in found if re.search(r" [0-9a-f]{4}$", text)]
    assert named == [*joints, *units, "left-fan-control", "right-fan-control"]


def test_what_shows_that_an_act_is_done_stands_in_the_line_in_which_it_ends() -> None:
    """The sign has room behind the last word of the act, none behind its first line."""
    acts = [
        Said("hold the button of the switch in the left sill for two seconds, then let it go and wait", "green lamp")
    ]
    (block,) = numbered(acts, 70.0)
    texts = [ink for ink in block.draw(Box(0, 0, 70, block.height_mm)) if isinstance(ink, Text) and not ink.bold]
    *above, last, sign = texts
    assert above
    assert (sign.text, sign.y_mm, sign.x_mm) == ("green lamp", last.y_mm, 70)
    assert sign.y_mm <= block.height_mm


def test_names_twice_as_long_take_more_sides_and_lose_nothing(aircraft_folder: AircraftFolder) -> None:
    long = "through the hatch behind the second former under the canopy"
    pdf = make_paperwork(
        harness_of(aircraft_folder({"aircraft.yaml": [("access: tail hatch", f"access: {long}")]})),
        Choice(stems=(STEM,)),
    ).files[f"{STEM}.pdf"]
    text = " ".join(page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf))
    assert "second former" in " ".join(text.split())
