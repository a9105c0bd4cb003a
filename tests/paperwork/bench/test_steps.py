"""What the order of work says, read from the printed sheet and held against a hand's working."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from page_facts import sheets_of
from printed_samples import Pull, samples_on
from printed_steps import Cell, Sheet, printed_sheet, ring, sheets_on
from reference.workmanship import CRIMP_PULL_MILITARY_N, CRIMP_PULL_N
from resolved import EXAMPLES, harness_of, record_of

from docgen.harness.assembly.passing import Waits
from docgen.paperwork.bench import work_content, work_pages
from docgen.paperwork.bench.work_content import WorkContent
from docgen.paperwork.bench.work_steps import rows_of
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.layouts.reading import read_page
from docgen.paperwork.page_kit.cells import Stacked
from docgen.paperwork.typesetting.ink import Shape, Text
from docgen.paperwork.typesetting.title_block import TitleBlock

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes
    from measured import PrintedPage

GRAVITY = 9.80665  # standard acceleration of free fall [m/s²], ISO 80000-3


@pytest.fixture(scope="module")
def wren_pages(tmp_path_factory: pytest.TempPathFactory) -> list[PrintedPage]:
    return printed_sheet(harness_of(EXAMPLES / "wren"), tmp_path_factory.mktemp("wren"))


@pytest.fixture(scope="module")
def wren(wren_pages: list[PrintedPage]) -> dict[str, Sheet]:
    return sheets_on(wren_pages)


@pytest.fixture(scope="module")
def fulmar(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Sheet]:
    return sheets_on(printed_sheet(harness_of(EXAMPLES / "fulmar"), tmp_path_factory.mktemp("fulmar")))


def said(page: PrintedPage) -> str:
    return " ".join(text.text for text in sorted(page.texts, key=lambda text: (text.base_mm, text.box.left)))


def cells(sheet: Sheet, number: int) -> list[str]:
    return [line.cells[number].text for line in sheet.lines]


# The sheet of the smallest example, by hand from its files and the parts list: leads of three wires of 22 AWG and of
# two of 20 AWG, each with a lay of 25 mm; servo plugs strip 2.5 mm, power plugs 3 mm, blocks 4 mm. The receiver carries
# pins, the pack sockets, so their leads carry the other; the fixed half of a joint carries sockets. A servo's plug has
# its negative on 1, positive on 2, signal on 3; supply is black and red, signal white.
TICK, THREE, TWO = Cell(ticked=True), "1 BK, 2 RD, 3 WH", "1 BK, 2 RD"
LIVE = "bare one wire at a time, the other insulated"


def test_each_lead_says_what_is_cut_twisted_and_crimped_where(wren: dict[str, Sheet]) -> None:
    def lead(cut: str, first: Cell, second: Cell) -> dict[int, Cell]:
        return {1: Cell(cut, ticked=True), 2: TICK, 3: Cell("25", ticked=True), 4: first, 7: TICK, 8: second}

    def end(place: str, contacts: str, live: str = "") -> Cell:
        return Cell(place, contacts, live, ticked=True)

    assert {(line.title, line.name): line.cells for line in wren["fuselage"].lines} == {
        ("RX BATT A", "supply A"): lead(
            "325 20 AWG",
            end("pack · power-2 pins", f"{TWO} · 3 mm", LIVE),
            end("receiver BATT · power-2 sockets", f"{TWO} · 3 mm"),
        ),
        ("AIL L A", "left-aileron A"): lead(
            "300 22 AWG",
            end("receiver 1 · servo-3 sockets", f"{THREE} · 2.5 mm"),
            end("left-root · block-6 sockets", f"{THREE} · 4 mm"),
        ),
        ("AIL R A", "right-aileron A"): lead(
            "300 22 AWG",
            end("receiver 2 · servo-3 sockets", f"{THREE} · 2.5 mm"),
            end("right-root · block-6 sockets", f"{THREE} · 4 mm"),
        ),
        ("RUD A", "rudder A"): lead(
            "1335 22 AWG",
            end("receiver 4 · servo-3 sockets", f"{THREE} · 2.5 mm"),
            end("rudder · servo-3 pins", f"{THREE} · 2.5 mm"),
        ),
    }
    for side in ("left", "right"):
        (line,) = wren[f"{side}-panel"].lines
        assert line.cells[4] == end(f"{side}-root · block-6 pins", f"{THREE} · 4 mm")
        assert line.cells[8] == end(f"{side}-aileron · servo-3 pins", f"{THREE} · 2.5 mm")


def test_sleeves_slide_on_from_the_far_end_with_a_collar_that_passes_them(wren: dict[str, Sheet]) -> None:
    # 3.45 mm of wires and 1 mm of braid, with a tenth to spare 4.9 mm: 6.4 mm is the least of the series that passes.
    # Labels reach 25 + 47 mm behind plugs, at most over a quarter of 235 mm; the rudder's lie in its coil of 80 mm.
    assert [(step.verb, step.says) for step in wren["fuselage"].steps if step.number == 6] == [
        (f"sleeve braid-4 · {cut} mm", f"on from {far} to radio-tray, bare {bare} mm at radio-tray; collars shrink-5")
        for cut, far, bare in (
            (125, "left-root", "59 mm at left-root, 59"),
            (125, "right-root", "59 mm at right-root, 59"),
            (1120, "tail-post", "72"),
        )
    ]


def test_nothing_is_said_of_sleeves_where_there_are_none(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    dressed = {"aircraft.yaml": [("length: 1140 mm, edges: sharp", "length: 1140 mm")]}
    dressed["aircraft.yaml"] += [(f"length: {mm} mm, edges: sharp", f"length: {mm} mm") for mm in (235, 745)]
    sheets = sheets_on(printed_sheet(harness_of(aircraft_folder(dressed)), tmp_path))
    says = {step.says for sheet in sheets.values() for step in sheet.steps if step.verb == "fit"}
    assert says == {"along the routes, electronics unplugged"}


def test_the_head_of_the_second_tube_says_after_which_step_it_goes_on(wren: dict[str, Sheet]) -> None:
    assert wren["fuselage"].heads[7] == "7 tube after 6"
    assert all(step.ticked for step in wren["fuselage"].steps)


def test_samples_must_hold_the_forces_of_the_table(wren_pages: list[PrintedPage]) -> None:
    assert "it must hold the least force" in said(wren_pages[0])
    pulls = samples_on(wren_pages)
    assert {pull.key for pull in pulls} == {
        (gauge, wire, plug, gender)
        for gauge, wire, plug in (("20", "pvc-20", "power-2"), ("22", "pvc-22", "block-6"), ("22", "pvc-22", "servo-3"))
        for gender in ("pins", "sockets")
    }
    for pull in pulls:
        hold_force(pull)


def hold_force(pull: Pull) -> None:
    gauge = int(pull.gauge)
    for (newtons, kilograms), of in ((pull.least, CRIMP_PULL_N), (pull.military, CRIMP_PULL_MILITARY_N)):
        assert newtons == of[gauge]
        assert kilograms == pytest.approx(newtons / GRAVITY, abs=0.005)


def test_samples_stand_in_two_columns_by_gauge(tmp_path: Path) -> None:
    pages = printed_sheet(harness_of(EXAMPLES / "fulmar"), tmp_path)
    pulls = samples_on(pages)
    assert {pull.column for pull in pulls} == {0, 1}
    gauges = [int(pull.gauge) for pull in pulls]
    assert gauges == sorted(gauges)
    for pull in pulls:
        hold_force(pull)


def test_cautions_stand_once_at_the_head_and_where_it_hurts(wren_pages: list[PrintedPage]) -> None:
    words = " ".join(said(page) for page in wren_pages)
    heat = "A heat gun's air and fresh tube burn, and fumes harm: air the room. Never near packs or fuel; shrink before"
    # On the first page, and where each of the three assemblies is shrunk.
    assert words.count(heat) == 1 + 3
    assert words.count("Glasses on") == 1


def test_only_wires_of_leads_that_go_to_a_pack_are_bared_one_at_a_time(
    wren: dict[str, Sheet], fulmar: dict[str, Sheet]
) -> None:
    every = [
        cell for of in (wren, fulmar) for sheet in of.values() for line in sheet.lines for cell in line.cells.values()
    ]
    at = {cell.over.split(" · ")[0] for cell in every if LIVE in cell.under}
    assert at == {"pack", "left-pack", "right-pack", "service-pack", "left-fan-pack", "right-fan-pack"}


@pytest.mark.parametrize(
    ("labels", "first", "second"),
    [
        ("each: lead", "2 tube first end", TICK),
        ("each: wire", "2 tube each wire", None),
        ("each: both", "2 tube wires, first", TICK),
        ("fit: after", None, Cell("both", ticked=True)),
    ],
)
def test_tubes_go_on_when_the_builder_wants_them(
    labels: str, first: str | None, second: Cell | None, tmp_path: Path
) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / "wren").glob("*.yaml")}
    texts["harness.yaml"] += f"\nlabels: {{{labels}}}\n"
    for name, text in texts.items():
        (tmp_path / name).write_text(text, "utf-8")
    sheet = sheets_on(printed_sheet(harness_of(tmp_path), tmp_path))["fuselage"]
    assert sheet.heads.get(2) == first
    assert {line.cells.get(2) == TICK for line in sheet.lines} == {first is not None}
    assert [line.cells.get(7) for line in sheet.lines] == [second] * 4


def test_the_order_leads_from_samples_to_whole_paths(wren_pages: list[PrintedPage]) -> None:
    words = " ".join(said(page) for page in wren_pages)
    assert words.index("First: pull samples") < words.index("AIL L A") < words.index("Last: whole paths")


def test_a_contact_that_says_no_strip_takes_the_builders_own(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "allowances: {strip: 6 mm}\nequipment:\n"
    contact = "{rating: 10 A, brief: 15 A, resistance: 3 mohm, takes: [22 AWG, 16 AWG], over: 2.4 mm}"
    roles = "contacts: {1: negative, 2: positive}, equipment: sockets"
    plug = f"plugs:\n  power-2: {{{roles}, size: [7.6 mm, 5 mm], contact: {contact}}}\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)], "parts.yaml": plug})
    sheet = sheets_on(printed_sheet(harness_of(folder), tmp_path))["fuselage"]
    assert cells(sheet, 4) == [f"{TWO} · 6 mm", *[f"{THREE} · 2.5 mm"] * 3]


@pytest.mark.parametrize(
    ("contacts", "filled"),
    [
        ("1: signal, 2: positive, 3: negative", "1 WH, 2 RD, 3 BK"),
        ("8: negative, 9: positive, 10: signal", "8 BK, 9 RD, 10 WH"),
        ("b: negative, c: positive, a: signal", "b BK, c RD, a WH"),
    ],
)
def test_a_plug_is_filled_in_the_order_of_its_contacts(
    contacts: str, filled: str, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    contact = "{rating: 3 A, brief: 5 A, resistance: 10 mohm, takes: [28 AWG, 22 AWG], over: 1.7 mm, strip: 2.5 mm}"
    roles = f"contacts: {{{contacts}}}, equipment: sockets"
    own = f"plugs:\n  odd-3: {{{roles}, size: [7.6 mm, 2.5 mm], contact: {contact}}}\n"
    edits = [("    lead: 300 mm\n    plug: servo-3\n", "    lead: 300 mm\n    plug: odd-3\n")]
    folder = aircraft_folder({"harness.yaml": edits, "parts.yaml": own})
    sheet = sheets_on(printed_sheet(harness_of(folder), tmp_path))["fuselage"]
    assert cells(sheet, 8)[-1] == f"{filled} · 2.5 mm"


@pytest.mark.parametrize(("hole_mm", "straight", "passes"), [(8, False, True), (4, False, False), (6, True, False)])
def test_what_does_not_pass_an_opening_is_said_where_it_is_threaded(
    hole_mm: int, straight: bool, passes: bool, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    """By hand: the sleeved lead is 4.45 mm thick, the plug that a servo came with, which stays on, 8 mm wide."""
    own = [
        ("lead: 300 mm", "lead: 1400 mm"),
        ("    to: rudder\n    lead: servo-22\n    loop: 80 mm\n", "    to: rudder\n"),
    ]
    hole = f"[radio-tray, tail-post],   length: 1140 mm, hole: {hole_mm} mm"
    changes: Changes = {
        "aircraft.yaml": [("[radio-tray, tail-post],   length: 1140 mm", hole)],
        "harness.yaml": own * straight,
    }
    sheet = sheets_on(printed_sheet(harness_of(aircraft_folder(changes)), tmp_path))["fuselage"]
    (says,) = (step.says for step in sheet.steps if step.verb.startswith("thread"))
    assert says.endswith("It does not pass: see the caution `hole`") == (not passes)


def test_what_does_not_pass_an_opening_is_said_though_something_else_does(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    """As before: the rudder's own plug, 8 mm wide, stays on; a lead beside it is filled behind the hole of 8 mm."""
    own = [
        ("lead: 300 mm", "lead: 1400 mm"),
        ("    to: rudder\n    lead: servo-22\n    loop: 80 mm\n", "    to: rudder\n"),
        ("equipment:\n", "equipment:\n  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}\n"),
        ("circuits:\n", "circuits:\n  tab: {label: TAB, from: receiver 3, to: tab, lead: servo-22}\n"),
    ]
    hole = ("[radio-tray, tail-post],   length: 1140 mm", "[radio-tray, tail-post], length: 1140 mm, hole: 8 mm")
    changes: Changes = {"aircraft.yaml": [hole], "harness.yaml": own}
    sheet = sheets_on(printed_sheet(harness_of(aircraft_folder(changes)), tmp_path))["fuselage"]
    (says,) = (step.says for step in sheet.steps if step.verb.startswith("thread"))
    assert says.startswith("from tail-post to radio-tray, ends taped, one by one: RUD; receiver 3 without its housing.")
    assert says.endswith("It does not pass: see the caution `hole`")
    (finished,) = (step.says for step in sheet.steps if step.verb == "in place")
    assert finished.startswith("finish receiver 3. ")


def test_where_no_tube_of_the_parts_list_does_the_sheet_asks_for_one_of_your_own(tmp_path: Path) -> None:
    harness = replace(harness_of(EXAMPLES / "fulmar"), tubes=())
    sheets = sheets_on(printed_sheet(harness, tmp_path))
    own = "a tube of your own"
    every = [step for sheet in sheets.values() for step in sheet.steps]
    collars = [step.says for step in every if step.verb.startswith("sleeve")]
    assert collars
    assert all(f"collars {own}" in says for says in collars)
    lines = [line for sheet in sheets.values() for line in sheet.lines]
    splices = [line for line in lines if line.name.startswith("splice at ")]
    assert {line.cells[8].over for line in splices} == {f"{own} slid on before"}
    # The fans' plugs are soldered, two wires to each.
    soldered = [cell for line in lines for cell in line.cells.values() if " · solder" in cell.text]
    assert soldered
    assert {cell.under.partition(";")[0] for cell in soldered} == {f"2 × {own} on first"}


def test_wires_of_one_colour_are_told_apart_by_their_marks(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "leads:\n  plain: {wires: {negative: pvc-22 BK, positive: pvc-22 BK, signal: pvc-22 WH}, lay: 25 mm}\n"
    edits = [("    to: rudder\n    lead: servo-22\n", "    to: rudder\n    lead: plain\n")]
    folder = aircraft_folder({"harness.yaml": edits, "parts.yaml": own})
    sheet = sheets_on(printed_sheet(harness_of(folder), tmp_path))["fuselage"]
    assert cells(sheet, 4)[-1] == "1 BK C5A22N, 2 BK C5A22, 3 WH · 2.5 mm"


def test_only_fixed_halves_get_a_clip_and_only_free_tails_a_strain_relief(
    wren: dict[str, Sheet], fulmar: dict[str, Sheet]
) -> None:
    """By hand from `disconnects:`; the nose hangs free of Fulmar's fuselage, whose other halves are fixed."""
    fixed, free = ", within 50 mm of a fixed half", ", a strain relief at each free tail"
    expected = [(wren, "fuselage", fixed), (wren, "left-panel", free), (fulmar, "fuselage", fixed + free)]
    for sheets, assembly, says in [*expected, (fulmar, "nose", free)]:
        (clip,) = (step.says for step in sheets[assembly].steps if step.number == 15)
        assert clip.partition(" where a hand reaches")[2] == says


def test_only_the_wires_that_go_into_contacts_are_crimped_before_a_splice(fulmar: dict[str, Sheet]) -> None:
    # As the builder wrote: its signal has contact 5, positive and negative join the shared 1+2 and 3+4.
    (line,) = (line for line in fulmar["left-panel"].lines if line.title == "AIL L OUT B")
    assert line.cells[4].text == "5 WH · 4 mm; BK, RD to splice"


def test_tails_are_crimped_with_the_contacts_of_their_own_half(fulmar: dict[str, Sheet]) -> None:
    # As the builder wrote: the wing's fixed half carries sockets, the loose one pins; shells of blocks strip 4 mm.
    # 40 mm + 8 mm + 4 mm + 2 x 10 mm = 72 mm, rounded up to 75 mm; one for each of two contacts.
    for assembly, gender in (("fuselage", "sockets"), ("left-panel", "pins")):
        rows = [line for line in fulmar[assembly].lines if line.name == "tails of left-wing-b"]
        assert [(row.title, row.cells[4]) for row in rows] == [
            ("wing-positive", Cell(f"left-wing-b · block-14 {gender}", "1 RD, 2 RD · 4 mm", ticked=True)),
            ("wing-negative", Cell(f"left-wing-b · block-14 {gender}", "3 BK, 4 BK · 4 mm", ticked=True)),
        ]
        assert all(row.cells[1].over.startswith("2 × 75 ") for row in rows)


def test_a_splice_names_all_that_it_joins_and_how_it_is_made(fulmar: dict[str, Sheet]) -> None:
    rows = [line for line in fulmar["left-panel"].lines if line.name == "splice at left-wing-b"]
    joined = "AIL L OUT B, FLAP L B, BEACON L A, 2 tails"
    assert [(row.title, row.cells[4].text) for row in rows] == [
        ("wing-positive", f"RD: {joined}"),
        ("wing-negative", f"BK: {joined}"),
    ]
    how = Cell("shrink-4 slid on before", "crimp · 8 mm")
    (step,) = (step for step in fulmar["left-panel"].steps if step.number == 9)
    assert step.says == "staggered; never in a hinge, under a clip or unsupported in a free tail"
    assert not any(step.number == 9 for step in fulmar["tail"].steps)
    # Two tails of 22 AWG beside three wires, the thickest side: 1.6 mm, 1.6 mm and 1.4 mm around each other are about
    # 3.3 mm thick, with a tenth to spare 3.6 mm, which a tube of 4 mm passes and one of 3.5 mm does not.
    assert [row.cells[8] for row in rows] == [how, how]


def test_all_that_is_still_loose_is_shrunk_at_once(fulmar: dict[str, Sheet], wren: dict[str, Sheet]) -> None:
    # Both panels and the fuselage have splices; all assemblies have sleeves; the fans' solder cups are in the fuselage.
    shrunk = {sheet.assembly: step.says for sheet in fulmar.values() for step in sheet.steps if step.number == 12}
    assert shrunk == {
        "fuselage": "labels, tubes over soldered contacts, collars, tubes over splices",
        **dict.fromkeys(["left-panel", "right-panel"], "labels, collars, tubes over splices"),
        **dict.fromkeys(["tail", "nose"], "labels, collars"),
    }
    assert {step.says for sheet in wren.values() for step in sheet.steps if step.number == 12} == {"labels, collars"}


# The plug of a heavy pair is 16 × 8 mm and soldered: 8 mm let its two wires of 2.4 mm through, 20 mm the plug too.
@pytest.mark.parametrize(
    ("hole", "finished"),
    [("8 mm", ", tubes shrunk over what is soldered"), ("20 mm", "")],
)
def test_tubes_over_what_is_soldered_in_place_are_shrunk_there(
    hole: str, finished: str, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    heavy = [
        ("plug: power-2, names", "plug: power-2-heavy, names"),
        ("    plug: power-2\n", "    plug: power-2-heavy\n"),
        ("lead_wire: pvc-20", "lead_wire: pvc-16"),
        ("    lead: power-20\n", "    lead: power-16\n"),
    ]
    runs = [("length: 260 mm", f"length: 260 mm, hole: {hole}")]
    harness = harness_of(aircraft_folder({"aircraft.yaml": runs, "harness.yaml": heavy}))
    steps = {step.number: step.says for step in sheets_on(printed_sheet(harness, tmp_path))["fuselage"].steps}
    # The pack's end is soldered on the bench in any case, and the receiver's goes through.
    assert steps[12] == "labels, tubes over soldered contacts, collars"
    assert steps.get(14, "").partition(". ")[0] == (f"finish receiver BATT{finished}" if finished else "")
    told = [finding.do for finding in harness.findings if finding.name == "hole"]
    assert all(do.endswith("finishes it in place, if the tool gets there.") for do in told)
    assert bool(told) == bool(finished)


def test_splices_are_soldered_where_the_builder_says_so_with_a_caution(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    texts = {path.name: path.read_text("utf-8") for path in (EXAMPLES / "fulmar").glob("*.yaml")}
    texts["harness.yaml"] += "splices: {join: solder, strip: 12 mm}\n"
    pages = printed_sheet(harness_of(written_folder(texts)), tmp_path)
    sheet = sheets_on(pages)["left-panel"]
    assert {row.cells[8].text for row in sheet.lines if row.name == "splice at left-wing-b"} == {"solder · 12 mm"}
    # 40 mm + 12 mm + 4 mm + 2 x 10 mm = 76 mm, rounded up to 80 mm.
    tails = [row for row in sheet.lines if row.name == "tails of left-wing-b"]
    assert all(row.cells[1].over.startswith("2 × 80 ") for row in tails)
    assert len(tails) == 2
    # Both panels and the fuselage have splices; tail, nose and hatch have none.
    assert " ".join(said(page) for page in pages).count("An iron burns") == 3


def test_labels_and_clips_stand_where_the_builder_wants_them(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    own = "labels: {behind_plug: 40 mm}\nclips: {every: 90 mm}\nequipment:\n"
    folder = aircraft_folder({"harness.yaml": [("equipment:\n", own)]})
    sheet = sheets_on(printed_sheet(harness_of(folder), tmp_path))["fuselage"]
    says = {step.number: step.says for step in sheet.steps}
    assert says[11] == "each 40 mm behind its plug"
    assert says[15].startswith("every 90 mm where a hand reaches, within 50 mm of a fixed half")


def test_of_an_end_that_goes_through_without_its_housing_only_what_gets_contacts_says_so() -> None:
    """A heavy pair is spliced to tails, which have the contacts; a signal beside it has its own."""
    items = work_content.content(harness_of(EXAMPLES / "fulmar"))
    work = next(work for work in items.assemblies if work.assembly == "fuselage")
    leads = [replace(made, second=replace(made.second, waits=Waits.HOUSING)) for made in work.leads]
    rows = [row.cells for row in rows_of(items, replace(work, leads=tuple(leads)))]
    under = {of[0].under: of[7].under for of in rows if isinstance(of[0], Stacked) and isinstance(of[7], Stacked)}
    assert under["left-wing-supply A"] == ""
    assert under["left-outer-aileron A"] == "contacts on; into the housing in place, with 14"


def test_what_is_filled_in_place_is_rung_out_there(aircraft_folder: AircraftFolder) -> None:
    # The rudder's plug of 8 × 2.9 mm does not pass 8 mm, its contacts do.
    hole = [("[radio-tray, tail-post],   length: 1140 mm", "[radio-tray, tail-post], length: 1140 mm, hole: 8 mm")]
    harness = harness_of(aircraft_folder({"aircraft.yaml": hole}))
    sheet = make_paperwork(harness, Choice(stems=("ring-out-sheet",))).files["ring-out-sheet.pdf"]
    texts = [text.text for page in sheets_of(sheet) for text in page.texts]
    assert [text for text in texts if "in place" in text] == ["receiver 4 – rudder · in place"]
    record = record_of(harness)
    said = "radio-tray to tail-post, 8 mm: rudder without its housing\n  then 4.45 mm thick\n"
    assert f"\nThrough openings\n----------------\n{said}" in record.whole
    assert said in record.parts["record/assembly-fuselage.txt"]
    assert "Through openings" not in record_of(harness_of(EXAMPLES / "wren")).whole


@pytest.mark.parametrize(("most_mm", "passes"), [("6.9 mm", False), ("7 mm", True)])
def test_a_sleeve_over_one_own_lead_goes_over_its_plug_if_that_is_thin_enough(
    most_mm: str, passes: bool, aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    """The plug of 8 × 2.9 mm has the girth of 21.8 mm of a round one of 6.94 mm."""
    braid = f"{{kind: braided sleeve, fits: [1 mm, {most_mm}], shortening: [2 %, 30 %], limit: 125 °C}}"
    changes: Changes = {
        "parts.yaml": f"sleeves:\n  fine: {braid}\n",
        "aircraft.yaml": [
            ("  tail-post: ", "  horn: {assembly: fuselage}\n  tail-post: "),
            ("runs:\n", "runs:\n  - {between: [tail-post, horn], length: 180 mm, edges: sharp, sleeve: fine}\n"),
        ],
        "harness.yaml": [("    place: tail-post\n", "    place: horn\n    plug_at: tail-post\n")],
    }
    pages = printed_sheet(harness_of(aircraft_folder(changes)), tmp_path)
    assert ("not over the plug of rudder" not in " ".join(said(page) for page in pages)) == passes


def test_where_nothing_comes_apart_there_are_no_whole_paths(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    pages = printed_sheet(harness_of(written_folder(ring({"one": ("tray", "far", "near")}))), tmp_path)
    assert "whole paths" not in " ".join(said(page) for page in pages)


def test_of_each_wire_and_contact_there_is_a_box_for_each_gender_that_is_pulled(wren_pages: list[PrintedPage]) -> None:
    """The receiver's pack plug and the servos' are filled with both; a wire that goes into pins alone has one box."""
    harness = harness_of(EXAMPLES / "wren")
    items = work_content.content(harness)
    assert [[sample.gauge.text for sample in some] for some in items.samples] == [["20 AWG"] * 2, ["22 AWG"] * 4]
    pins = tuple(tuple(sample for sample in some if sample.gender == "pins") for some in items.samples)
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")

    def fields(of: WorkContent) -> list[tuple[float, float]]:
        page = work_pages.compose(of, read_page("list-a4"))(block).pages[0]
        shapes = [(min(ink.points_mm), max(ink.points_mm)) for ink in page.ink if isinstance(ink, Shape)]
        return [low for low, high in shapes if high[0] - low[0] == pytest.approx(18)]

    assert len(fields(items)) == 6
    left = fields(replace(items, samples=pins))
    assert len(left) == 3
    assert len(wren_pages) == 2


def test_a_gauge_of_which_no_force_is_known_says_so() -> None:
    items = work_content.content(harness_of(EXAMPLES / "wren"))
    first, *others = items.samples
    unknown = tuple(replace(sample, least_n=None, military_n=None) for sample in first)
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    page = work_pages.compose(replace(items, samples=(unknown, *others)), read_page("list-a4"))(block).pages[0]
    texts = [ink.text for ink in page.ink if isinstance(ink, Text)]
    assert "20 AWG: no least force is known" in texts
    assert len([text for text in texts if text.startswith("22 AWG: at least ")]) == 1
    assert len([text for text in texts if text.startswith("military ")]) == 1


def test_without_samples_the_sheet_begins_with_the_first_assembly() -> None:
    items = replace(work_content.content(harness_of(EXAMPLES / "wren")), samples=())
    block = TitleBlock("Wren", "WR-7", "A", "2026-01-01", None, "01234567")
    said = [
        ink.text for ink in work_pages.compose(items, read_page("list-a4"))(block).pages[0].ink if isinstance(ink, Text)
    ]
    assert "First: pull samples" not in said
    assert "fuselage" in said


def test_what_is_not_measured_is_named_at_the_head_and_its_cut_is_a_blank(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    place = "at: {aft: 690 mm, <side>: 810 mm, up: 110 mm}, "
    run = "[<side>-panel-root, <side>-aileron], length: 745 mm"
    changes: Changes = {"aircraft.yaml": [(place, ""), (run, "[<side>-panel-root, <side>-aileron]")]}
    pages = printed_sheet(harness_of(aircraft_folder(changes)), tmp_path)
    words = said(pages[0])
    waits = "left-panel-root to left-aileron: left-aileron B; right-panel-root to right-aileron: right-aileron B"
    assert words.index("To be measured before it is cut") < words.index(waits) < words.index("First: pull samples")
    sheets = sheets_on(pages)
    (line,) = sheets["left-panel"].lines
    assert line.cells[1].over == "____ 22 AWG"
    assert [step.verb for step in sheets["left-panel"].steps if step.number == 6] == ["sleeve braid-4 · ____ mm"]


def test_what_a_straight_line_makes_short_is_marked_and_each_page_says_what_the_mark_is(
    aircraft_folder: AircraftFolder, tmp_path: Path
) -> None:
    run = "[radio-tray, tail-post],   length: 1140 mm", "[radio-tray, tail-post]"
    pages = printed_sheet(harness_of(aircraft_folder({"aircraft.yaml": [run]})), tmp_path)
    words = said(pages[0])
    assert words.index("To be measured before it is cut") < words.index("radio-tray to tail-post: rudder A")
    cuts = {line.name: line.cells[1].over for sheet in sheets_on(pages).values() for line in sheet.lines}
    assert {name for name, cut in cuts.items() if cut.startswith("≈ ")} == {"rudder A"}
    sleeves = {step.verb: step.says for sheet in sheets_on(pages).values() for step in sheet.steps if step.number == 6}
    marked = [says for verb, says in sleeves.items() if "≈" in verb]
    assert len(marked) == 1
    assert "from radio-tray to tail-post" in marked[0] or "from tail-post to radio-tray" in marked[0]
    assert marked[0].endswith("; ≈ straight line: measure first")
    for page in pages:
        texts = {text.text for text in page.texts}
        assert "≈ 1" not in said(page) or texts >= {"lead · ≈ straight line:", "measure first"}


def test_what_is_done_to_all_leads_is_said_step_by_step(wren: dict[str, Sheet], fulmar: dict[str, Sheet]) -> None:
    """Common practice, no source; both examples have their labels and clips where the builder or the usual has them."""
    usual = {
        5: ("lay up", "leads side by side along their routes"),
        10: ("ring out", "by the ring-out sheet"),
        11: ("labels home", "each 25 mm behind its plug"),
        13: ("fit", "along the routes, sleeves over the edges, electronics unplugged"),
    }
    for sheets, behind in ((wren, "25 mm"), (fulmar, "30 mm")):
        for sheet in sheets.values():
            said = {step.number: (step.verb, step.says) for step in sheet.steps if not step.verb.startswith("thread")}
            expected = usual | {11: ("labels home", f"each {behind} behind its plug")}
            assert {number: said[number] for number in usual} == expected
            assert said[12][0] == "shrink"
            assert said[15][0] == "clip"


def test_a_sleeve_that_does_not_pass_a_plug_or_another_sleeve_says_which(
    written_folder: Callable[[Mapping[str, str]], Path], tmp_path: Path
) -> None:
    """Round a ring no sleeve can slide on past the others: one is asked for that opens."""
    ways = {"one": ("tray", "far", "near"), "two": ("far", "near", "tray"), "three": ("near", "tray", "far")}
    sheets = sheets_on(printed_sheet(harness_of(written_folder(ring(ways))), tmp_path))
    says = [step.says for sheet in sheets.values() for step in sheet.steps if step.verb.startswith("sleeve")]
    stuck = [said for said in says if "take one that opens" in said]
    assert len(stuck) == 1
    assert re.search(r"; collars \S+; can't pass another sleeve on \S+ [A-C].*: take one that opens$", stuck[0])


def test_the_last_step_of_all_is_to_ring_out_whole_paths_with_all_joints_mated(wren_pages: list[PrintedPage]) -> None:
    words = said(wren_pages[-1])
    last = words.index("Last: whole paths")
    assert (
        "whole paths ring out, nothing else does When all assemblies are in the aircraft, electronics" in words[last:]
    )
    assert "mate all disconnects, and ring out whole paths by the ring-out sheet." in words[last:]
    # Its caution is that of each shrinking; eyes are warned where contacts are pulled.
    assert said(wren_pages[0]).count("Glasses on: what gives flies, and wire ends are sharp.") == 1
