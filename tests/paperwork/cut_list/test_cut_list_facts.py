"""Every fact of the cut list, read back from its pages and compared with the harness, and how the pages are set."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations, groupby, pairwise
from typing import TYPE_CHECKING, NamedTuple

import page_facts
import pytest
from printed_cut_list import CutList, Row
from resolved import EXAMPLES, files_of_example, harness_of

from docgen.harness.assembly.bill_of_materials import bill_of_materials
from docgen.harness.bundling.sleeves import sleeves_of
from docgen.harness.model.circuits import OwnLeads
from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, make_paperwork

if TYPE_CHECKING:
    from measured import Box

LONG = pytest.mark.long


class Sample(NamedTuple):
    """An aircraft with its cut list."""

    harness: Harness
    list: CutList


def cut_list_of(harness: Harness, paper: str = "a4") -> CutList:
    return CutList(make_paperwork(harness, Choice(stems=("cut-list",), paper=paper)).files["cut-list.pdf"])


@pytest.fixture(scope="module", params=["wren", "fulmar", "wren doubled", pytest.param("fulmar doubled", marks=LONG)])
def sample(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Sample:
    name, *doubled = request.param.split()
    if not doubled:
        return Sample(harness_of(EXAMPLES / name), CutList(files_of_example(name)["cut-list.pdf"]))
    harness = harness_of(page_facts.doubled_names(EXAMPLES / name, tmp_path_factory.mktemp("names")))
    return Sample(harness, cut_list_of(harness))


def wires(listed: CutList) -> list[Row]:
    return [row for row in listed.rows if "mark" in row.cells]


def pieces_of(harness: Harness) -> Iterator[tuple[str, ...]]:
    """Walk length, colour, gauge, part, mark and function of all that is cut, from leads and commons."""
    for lead in harness.cut_leads():
        length = f"{lead.cut_length_mm:g}"
        if lead.part.bought:
            # One mark a pair: that of a negative is its positive's with an N.
            marks = " ".join(wire.mark for wire in lead.wires if not wire.mark.endswith("N"))
            thickest = max(lead.wires, key=lambda wire: wire.kind.gauge.area_mm2).kind.gauge.text
            yield length, "+".join(wire.colour for wire in lead.wires), thickest, lead.part.name, marks, lead.label
            continue
        for wire in lead.wires:
            yield length, wire.colour, wire.kind.gauge.text, wire.kind.name, wire.mark, lead.label
    for _, common, behind in harness.behind_commons():
        for tail in behind.tails:
            said = tail.colour, tail.kind.gauge.text, tail.kind.name
            yield f"{behind.tail_mm:g}", *said, "tail", common.name


def test_every_piece_has_one_row_and_no_row_stands_for_two(sample: Sample) -> None:
    found: Counter[tuple[str, ...]] = Counter()
    for row in wires(sample.list):
        colour, gauge, part = row.group.split(" · ")
        said = row.cells["cut, mm"], colour.split()[0], gauge, part, row.cells["mark"], row.cells["function"]
        found[said] += 1
    assert found == Counter(pieces_of(sample.harness))


def test_each_group_is_as_long_and_of_as_many_pieces_as_its_heading_says(sample: Sample) -> None:
    for title, rows in groupby([row for row in sample.list.rows if "cut, mm" in row.cells], lambda row: row.group):
        lengths = [int(row.cells["cut, mm"]) for row in rows]
        pieces, metres, *_ = sample.list.headings[title].split(" · ")
        assert lengths == sorted(lengths, reverse=True)
        assert int(pieces.split()[0]) == len(lengths)
        assert metres == f"{sum(lengths) / 1000:.3f} m"


def test_no_spool_gives_more_than_it_holds_nor_another_wire(sample: Sample) -> None:
    cut_mm: Counter[tuple[str, str, str]] = Counter()
    for row in wires(sample.list):
        colour, _, part = row.group.split(" · ")
        cut_mm[row.cells["spool"], part, colour.split()[0]] += int(row.cells["cut, mm"])
    for (number, part, colour), total_mm in cut_mm.items():
        if not number.startswith("buy"):
            spool = sample.harness.spools[int(number) - 1]
            assert (spool.part, spool.colour or colour) == (part, colour)
            assert total_mm <= spool.length_mm
    bought = [row for row in sample.list.group("Wire") if "buy" in row]
    assert {(row["wire"].split()[0], row["wire"].split()[1]) for row in bought} == {
        (part, colour) for number, part, colour in cut_mm if number.startswith("buy")
    }


def test_equal_lengths_and_no_others_are_joined_by_a_bracket(sample: Sample) -> None:
    rows = [row for row in sample.list.rows if "cut, mm" in row.cells]
    said = [(row.group, row.cells["cut, mm"]) for row in rows]
    alike = [one == other for one, other in pairwise(said)]
    spans = [bracket_beside(row, sample.list) for row in rows]
    assert any(alike)
    for span, above, below in zip(spans, [False, *alike], [*alike, False], strict=True):
        assert (span is not None) == (above or below)
    for (one, row), (other, following) in pairwise(zip(spans, rows, strict=True)):
        if one and other and (row.page, row.tick.left) == (following.page, following.tick.left):
            same = (row.group, row.cells["cut, mm"]) == (following.group, following.cells["cut, mm"])
            assert (abs(one.bottom - other.top) < 0.05) == same


def bracket_beside(row: Row, listed: CutList) -> Box | None:
    """Return the upright line between a row's length and what follows."""
    begins = row.at("mark" if "mark" in row.cells else "from – to").left
    ends = row.at("cut, mm").right
    lines = [line for line in listed.pages[row.page].uprights if line.top < row.middle < line.bottom]
    return next((line for line in lines if ends < line.left < begins), None)


def test_everything_to_get_out_is_counted_as_the_bill_says(sample: Sample) -> None:
    bill = bill_of_materials(sample.harness)
    found = {row.pop("family"): row for row in sample.list.group("Contacts, housings, retainers")}
    wanted: dict[str, dict[str, str]] = {name: {} for name in found}
    for contacts in bill.contacts:
        wanted[contacts.connector][f"{contacts.gender.removesuffix('s')} contacts"] = str(contacts.count)
    for (name, gender), count in bill.housings.items():
        wanted[name][f"housings for {gender}"] = str(count)
    for name, count in bill.retainers.items():
        wanted[name]["retainers"] = str(count)
    assert found == wanted
    assert list(found) == sorted(found)
    tubes = {row["what"]: int(row["pieces"]) for row in sample.list.group("Tubes")}
    assert {what.split(", ")[0]: n for what, n in tubes.items() if what.endswith("collars at sleeves")} == bill.collars
    assert {what.split(", ")[0]: n for what, n in tubes.items() if what.endswith("over splices")} == bill.splice_tubes
    over_contacts = {what.split(", ")[0]: n for what, n in tubes.items() if what.endswith("over soldered contacts")}
    assert over_contacts == bill.contact_tubes
    samples = {row["what"]: int(row["pieces"]) for row in sample.list.group("Wire for pull samples")}
    assert samples == {f"{wire}, any colour": count for wire, count in bill.sample_wires.items()}
    rest = [
        (row["what"].split(", ")[0], int(row["pieces"])) for row in sample.list.group("Grommets, clips, strain reliefs")
    ]
    assert rest == [
        *(("grommets", count) for count in bill.grommets.values()),
        *((f"clips for {mm} mm", count) for mm, count in bill.clips.items()),
        *((f"strain reliefs for {mm} mm", count) for mm, count in bill.strain_reliefs.items()),
    ]


def test_each_sleeve_has_one_row_and_what_plugs_straight_in_its_line(sample: Sample) -> None:
    found = Counter(
        (row["cut, mm"], group.split()[1], row["from – to"], row["over, mm"])
        for group, row in ((row.group, row.cells) for row in sample.list.rows)
        if "over, mm" in row
    )
    assert found == Counter(
        (f"{one.cut_length_mm:g}", one.kind.name, " – ".join(one.ends), f"{one.diameter_mm:.1f}")
        for one in sleeves_of(sample.harness.bundles)
    )
    told = " ".join(sample.list.told)
    for lead in sample.harness.leads():
        if isinstance(lead, OwnLeads):
            assert {*lead.label.split(), *(word for end in lead.ends for word in end.text.split())} <= {*told.split()}


def test_what_is_bought_by_length_is_the_sum_of_its_pieces(sample: Sample) -> None:
    pieces_mm: Counter[str] = Counter()
    for sleeve in (row for row in sample.list.rows if "over, mm" in row.cells):
        pieces_mm[f"{sleeve.group.split()[1]}, sleeve"] += int(sleeve.cells["cut, mm"])
    for row in sample.list.group("Tubes"):
        pieces_mm[row["what"].split(", ")[0]] += int(row["pieces"]) * int(row["each, mm"])
    bought = sample.list.group("Sleeve and tube")
    assert {row["what"]: round(1000 * float(row["m"])) for row in bought} == pieces_mm
    assert len(bought) == len(pieces_mm)


@pytest.mark.parametrize(("name", "most"), [("wren", 1), ("fulmar", 4)])
def test_it_takes_no_more_sheets_than_it_should_on_either_paper(name: str, most: int) -> None:
    assert len(CutList(files_of_example(name)["cut-list.pdf"]).pages) <= most
    letter = cut_list_of(harness_of(EXAMPLES / name), "letter").pages
    assert len(letter) <= most
    assert page_facts.texts_near_an_edge(letter) == []


def test_type_has_the_heights_of_the_series_and_lengths_are_the_largest_of_their_rows(sample: Sample) -> None:
    assert page_facts.heights_off(sample.list.pages) == set()
    for row in wires(sample.list):
        high = {text.text: text.capital_mm for text in row.texts}
        assert high.pop(row.cells["cut, mm"]) > max(high.values())


def test_no_text_meets_another_or_a_line_or_the_edge(sample: Sample) -> None:
    assert page_facts.texts_that_meet(sample.list.pages) == []
    assert page_facts.texts_struck(sample.list.pages) == []
    assert page_facts.texts_near_an_edge(sample.list.pages) == []


def test_rows_never_overlap(sample: Sample) -> None:
    rows = [(row.page, row.tick.left, text.box) for row in sample.list.rows for text in row.texts]
    for (page, left, one), (other_page, other_left, other) in combinations(rows, 2):
        assert (page, left) != (other_page, other_left) or not one.overlaps(other, 0.01)


def test_no_page_but_the_last_is_half_empty(sample: Sample) -> None:
    assert page_facts.pages_half_empty(sample.list.pages) == []
