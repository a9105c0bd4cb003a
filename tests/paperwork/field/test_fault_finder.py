"""The fault finder read back: dots and rings of its grid, and where each loss is tested."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pypdfium2
import pytest
from grown_supplies import Grown
from lamps import LIT
from page_facts import heights_off, pages_half_empty, sheets_of, texts_near_an_edge, texts_struck, texts_that_meet
from printed_cards import CardPage, Drawn
from printed_tables import PrintedDocument, document_of
from reached import by_removal
from recorded import entry, sections_of
from resolved import EXAMPLES, files_of_example, harness_of, record_of

from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.field import fault_content

if TYPE_CHECKING:
    from pathlib import Path

    from conftest import AircraftFolder, Changes, Replacements

    from docgen.harness.model.harness import Harness

STEM = "fault-finder"


def grid_of(pdf: bytes) -> dict[str, tuple[set[str], set[str]]]:
    """Return for each row its functions with a dot and with a ring, by the labels that stand upright over them."""
    page = CardPage(pypdfium2.PdfDocument(pdf)[0])
    upright = [text for text in page.texts if text.capital_mm < 0.1]
    rings = [one for one in page.drawn if abs(one.box.size[0] - 1.8) < 0.02 and abs(one.box.size[1] - 1.8) < 0.02]
    names = {text.ink.middle[1]: text for text in page.texts if text.capital_mm > 1.7 and _is_name(page, text.x_mm)}
    found: dict[str, tuple[set[str], set[str]]] = {text.text: (set(), set()) for text in names.values()}
    for ring in rings:
        label = min(upright, key=lambda text: abs(text.ink.middle[0] - ring.box.middle[0]))
        row = min(names.values(), key=lambda text: abs(text.ink.middle[1] - ring.box.middle[1]))
        found[row.text][0 if _filled(ring) else 1].add(label.text)
    return found


def _is_name(page: CardPage, x_mm: float) -> bool:
    left = (page.width_mm - 190) / 2
    return abs(x_mm - left - 26) < 0.3


def _filled(ring: Drawn) -> bool:
    return ring.fill is not None


def name_of(harness: Harness, kind: str, name: str) -> str:
    """Return by what name a loss is known, by hand."""
    if kind == "lead":
        circuit, _, branch = name.partition(" ")
        ends = [lead.ends[1].text for lead in harness.circuits[circuit].leads if lead.segment == branch]
        return " ".join(["lead", harness.circuits[circuit].label, *ends])
    if kind == "splice":
        return f"splice {harness.circuits[name].label}"
    if kind == "common":
        joint, common = name.split()
        shared = harness.disconnects[joint].commons[common]
        return f"{joint} {', '.join(shared.contacts)} ({shared.role})"
    return name


def lost(harness: Harness) -> dict[tuple[str, str], tuple[set[str], set[str]]]:
    """Return what stops and what goes on another way, by labels, for each thing that the program tells of."""
    expected = by_removal(harness)
    labels = {function.load: function.label for function in harness.losses.functions}
    told = {loss.thing: expected[loss.thing] for loss in harness.losses.losses}
    return {
        thing: ({labels[load] for load in dead}, {labels[load] for load in on}) for thing, (dead, on) in told.items()
    }


def assert_shown(harness: Harness, pdf: bytes) -> None:
    """Hold the page, and the record, against what is reached no more."""
    expected = lost(harness)
    assert grid_of(pdf) == {name_of(harness, *thing): some for thing, some in expected.items()}
    every = {function.label for function in harness.losses.functions}
    said = sections_of(record_of(harness).whole)["What stops when one thing is lost"]
    for (kind, name), (dead, goes_on) in expected.items():
        found = [line.strip() for line in entry(said, f"{kind} {name}")]
        for told, some in ((found[0].removesuffix(" stops"), dead), ("".join(found[1:]), goes_on)):
            listed = told.partition(": ")[2]
            assert (every if listed == "everything" else set(listed.split(", ")) - {"", "nothing"}) == some


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.long
def test_dots_and_rings_are_what_no_pack_or_receiver_reaches_any_more_or_another_way(name: str) -> None:
    assert_shown(harness_of(EXAMPLES / name), files_of_example(name)[f"{STEM}.pdf"])


@pytest.mark.parametrize("seeds", [range(3), pytest.param(range(3, 100), marks=pytest.mark.longest)])
def test_so_it_is_for_harnesses_grown_at_random(seeds: range, tmp_path: Path) -> None:
    for seed in seeds:
        harness = harness_of(Grown(seed).written(tmp_path / str(seed)))
        assert_shown(harness, make_paperwork(harness, Choice(stems=(STEM,))).files[f"{STEM}.pdf"])


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_is_one_sheet_of_two_sides_at_most_and_set_as_pages_are(name: str, paper: str) -> None:
    choice = Choice(stems=(STEM,), paper=paper)
    pages = sheets_of(make_paperwork(harness_of(EXAMPLES / name), choice).files[f"{STEM}.pdf"])
    assert len(pages) <= (1 if name == "wren" else 2)
    assert heights_off(pages) <= {0.0}  # those that stand upright
    assert texts_that_meet(pages) == []
    assert texts_struck(pages) == []
    assert texts_near_an_edge(pages) == []
    assert pages_half_empty(pages) == []


@pytest.fixture(scope="module")
def fulmar() -> PrintedDocument:
    return document_of(harness_of(EXAMPLES / "fulmar"), STEM)


def test_it_warns_of_what_is_aboard_and_begins_with_what_limp_and_stiff_mean(fulmar: PrintedDocument) -> None:
    wren = document_of(harness_of(EXAMPLES / "wren"), STEM).said
    assert "Motor made safe first: propeller off or motor leads unplugged. Packs unplugged before" in fulmar.said
    assert "Limp is supply. Stiff and not following is signal. Comes and goes: shake the joints." in wren
    assert "What shaking cured is not mended: no flight." in wren
    assert not re.search(r"motor|engine|gear|leg", wren, re.IGNORECASE)


def test_each_loss_has_its_contacts_and_what_a_meter_shows_there(fulmar: PrintedDocument) -> None:
    """By hand: packs 6.6 to 8.4 V and 9.9 to 12.6 V; a regulated outlet of 6 V gives that over the whole range."""
    for row in (
        "left-pack: its plug, + to − 6.6 to 8.4 V",
        "lead GEAR BATT: gear-unit POWER 2 (+) to 1 (−) 9.9 to 12.6 V",
        "hatch-joint: pins straight; BAY DOOR 2 (+) to 1 (−) 6.0 V",
        "left-wing-b 1, 2 (positive): 1+2 (+) to 3+4 (−) 6.6 to 8.4 V",
        "lead GEAR: gear-unit GEAR contact 3 to receiver-b 1 contact 3 rings",
    ):
        assert row in fulmar.said


def numbered(page: CardPage, ends: str) -> dict[str, str]:
    """Return by what stands right of a number, as far as `ends`, the number."""
    numbers = [text for text in page.texts if text.bold and text.text.isdecimal()]
    found = {}
    for number in numbers:
        beside = [text for text in page.texts if abs(text.base_mm - number.base_mm) < 2 and text.x_mm > number.x_mm]
        if beside:
            first = min(beside, key=lambda text: (round(text.x_mm, 1), text.base_mm))
            found[first.text.partition(ends)[0]] = number.text
    return found


def test_each_test_has_the_number_that_its_loss_has_in_the_grid() -> None:
    pdf = pypdfium2.PdfDocument(files_of_example("fulmar")[f"{STEM}.pdf"])
    in_grid, by_test = numbered(CardPage(pdf[0]), "\n"), numbered(CardPage(pdf[1]), ":")
    assert in_grid == by_test
    assert sorted(in_grid.values(), key=int) == [f"{number}" for number in range(1, 44)]  # rows counted on the page


FLAPS = [
    ("circuits:\n", "circuits:\n  flaps: {label: FLAPS, from: receiver 3, to: [flap, tab], through: [left-root], "),
    ("circuits:\n  flaps: {", "circuits:\n  flaps: {split: {place: left-panel-root}, lead: servo-22, "),
    ("through: [left-root], ", "through: [left-root]}\n"),
    (
        "  rudder:\n    kind",
        "  flap: {kind: servo, place: left-aileron, lead: 200 mm, plug: servo-3}\n  rudder:\n    kind",
    ),
    (
        "  rudder:\n    kind",
        "  tab: {kind: servo, place: left-aileron, lead: 200 mm, plug: servo-3}\n  rudder:\n    kind",
    ),
]
HUB = """  hub:
    kind: power unit
    place: tail-post
    ports:
      - {plug: servo-3, names: [IN], contacts: pins}
      - {plug: servo-3, names: [OUT-1, OUT-2], contacts: pins}
    fed_by: [IN]
  tab: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}
  trim: {kind: servo, place: tail-post, lead: 200 mm, plug: servo-3}
"""


def leads_of(harness: Harness, label: str) -> list[tuple[str, str]]:
    """Return the rows of a circuit's leads: name, and what is tested."""
    pdf = make_paperwork(harness, Choice(stems=(STEM,))).files[f"{STEM}.pdf"]
    assert_shown(harness, pdf)
    found = fault_content.content(harness).faults
    return [(fault.name, fault.contacts) for fault in found if fault.name.startswith(f"lead {label}")]


def test_what_lies_before_a_splice_is_one_lead_though_it_passes_a_joint(aircraft_folder: AircraftFolder) -> None:
    """Either of its segments stops the same, and one test at the end tells of both."""
    harness = harness_of(aircraft_folder({"harness.yaml": FLAPS}))
    assert len(harness.circuits["flaps"].leads) == 4
    assert leads_of(harness, "FLAPS") == [("lead FLAPS", "flap 2 (+) to 1 (−)")]


def test_a_branch_that_feeds_several_is_a_lead_of_its_own_known_and_tested_by_its_end(
    aircraft_folder: AircraftFolder,
) -> None:
    changes = [
        ("    to: rudder\n", "    to: [rudder, hub IN]\n    split: {place: radio-tray, loop: 20 mm}\n"),
        ("  rudder:\n    kind", f"{HUB}  rudder:\n    kind"),
        ("circuits:\n", "circuits:\n  tab: {from: hub OUT-1, to: tab}\n  trim: {from: hub OUT-2, to: trim}\n"),
    ]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert leads_of(harness, "RUD") == [
        ("lead RUD", "rudder 2 (+) to 1 (−)"),
        ("lead RUD hub IN", "hub IN 2 (+) to 1 (−)"),
    ]


def test_more_functions_than_fit_beside_each_other_stand_in_grids_below_each_other(
    aircraft_folder: AircraftFolder,
) -> None:
    servos = "".join(f"  s{i}: {{kind: servo, place: radio-tray, lead: 200 mm, plug: servo-3}}\n" for i in range(60))
    circuits = "".join(f"  s{i}: {{label: SURFACE {i}, from: hub {i}, to: s{i}}}\n" for i in range(60))
    hub = "  hub:\n    kind: power unit\n    place: radio-tray\n    ports:\n"
    hub += "      - {plug: servo-3, names: 0..59, contacts: pins}\n"
    hub += "      - {plug: power-2, names: [IN], contacts: pins}\n"
    changes = [
        ("equipment:\n", f"equipment:\n{hub}{servos}"),
        ("circuits:\n", f"circuits:\n{circuits}"),
        ("names: [BATT]", "names: [BATT, OUT]"),
        ("  rudder:\n    label", "  hub: {from: receiver OUT, to: hub IN, lead: power-20}\n  rudder:\n    label"),
    ]
    pdf = make_paperwork(harness_of(aircraft_folder({"harness.yaml": changes})), Choice(stems=(STEM,))).files
    pages = sheets_of(pdf[f"{STEM}.pdf"])
    said = {text.text for page in pages for text in page.texts}
    assert {f"SURFACE {i}" for i in range(60)} <= said
    assert texts_near_an_edge(pages) == []


def test_covers_and_names_that_are_too_long_go_on_below_in_a_higher_row(aircraft_folder: AircraftFolder) -> None:
    cover = "through the hatch behind the second former under the canopy"
    label = "RECEIVER'S BATTERY BEHIND THE SECOND FORMER, WITH ITS FUSE"
    changes: Changes = {
        "aircraft.yaml": [("access: canopy}", f"access: {cover}}}")],
        "harness.yaml": [("label: RX BATT", f'label: "{label}"')],
    }
    pdf = make_paperwork(harness_of(aircraft_folder(changes)), Choice(stems=(STEM,))).files[f"{STEM}.pdf"]
    (page,) = sheets_of(pdf)
    assert texts_that_meet([page]) == []
    top = min(text.base_mm for text in page.texts if text.text in cover)
    # Covers stand at the edge of the area, names 20 + 6 mm from it; the grid ends above what says how it is tested.
    end = next(text.base_mm for text in page.texts if text.text.startswith("Volts: "))
    for left, said in ((10.0, cover), (36.0, f"lead {label}")):
        column = [text for text in page.texts if abs(text.box.left - left) < 0.5 and top - 0.1 < text.base_mm < end]
        assert said in " ".join(text.text for text in sorted(column, key=lambda text: text.base_mm))


def fused(kind: str) -> Replacements:
    """Put something between pack and receiver."""
    entry = f"  between:\n    kind: {kind}\n    place: radio-tray\n    fed_by: [IN]\n"
    entry += "    ports:\n      - {plug: power-2, names: [IN], contacts: pins}\n"
    entry += "      - {plug: power-2, names: [OUT], contacts: sockets}\n"
    behind = "  behind: {from: between OUT, to: receiver BATT, lead: power-20}\n"
    return [
        ("  rudder:\n    kind", f"{entry}  rudder:\n    kind"),
        ("    to: receiver BATT\n", "    to: between IN\n"),
        ("  rudder:\n    label", f"{behind}  rudder:\n    label"),
    ]


@pytest.mark.parametrize(
    ("kind", "where"),
    [
        ("fuse", "outlet OUT: 2 (+) to 1 (−)"),
        ("regulator", "outlet OUT: 2 (+) to 1 (−)"),
        ("power switch", "outlet OUT: 2 (+) to 1 (−), switched on"),
        ("key", "outlet OUT: 2 (+) to 1 (−), plugged in"),
    ],
)
def test_what_may_break_a_supply_is_tested_behind_it(aircraft_folder: AircraftFolder, kind: str, where: str) -> None:
    found = fault_content.content(harness_of(aircraft_folder({"harness.yaml": fused(kind)}))).faults
    (fault,) = (fault for fault in found if fault.name == "between")
    assert (fault.contacts, fault.reads) == (where, "6.4 to 8.4 V")


def test_an_own_lead_is_tested_where_it_has_its_plug(aircraft_folder: AircraftFolder) -> None:
    """By hand: that of the lamps plugs into the receiver, that of the pack into its socket BATT."""
    straight = ("    to: receiver BATT\n    lead: power-20\n", "    to: receiver BATT\n")
    found = fault_content.content(harness_of(aircraft_folder({"harness.yaml": [*LIT, straight]}))).faults
    where = {fault.name: (fault.cover, fault.contacts) for fault in found}
    assert where["lead LAMPS"] == ("canopy", "receiver 3 2 (+) to 1 (−)")
    assert where["lead RX BATT"][1] == "receiver BATT 2 (+) to 1 (−)"
