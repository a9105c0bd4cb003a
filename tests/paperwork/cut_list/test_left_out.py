"""What the cut list says of what is not measured, of what no tube of the parts list fits, and of headings."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from printed_cut_list import CutList
from resolved import EXAMPLES, harness_of

from docgen.harness.assembly.bill_of_materials import bill_of_materials
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.paperwork.typesetting.typeface import width_mm

if TYPE_CHECKING:
    from conftest import AircraftFolder, Changes

    from docgen.harness.model.harness import Harness


def cut_list_of(harness: Harness) -> CutList:
    return CutList(make_paperwork(harness, Choice(stems=("cut-list",))).files["cut-list.pdf"])


@pytest.fixture
def unmeasured(aircraft_folder: AircraftFolder) -> CutList:
    """Return the list where the runs of both panels are not measured, and nothing tells how long they are."""
    run = ("[<side>-panel-root, <side>-aileron], length: 745 mm", "[<side>-panel-root, <side>-aileron]")
    place = "at: {aft: 690 mm, <side>: 810 mm, up: 110 mm}, "
    return cut_list_of(harness_of(aircraft_folder({"aircraft.yaml": [run, (place, "")]})))


def test_pieces_that_are_not_measured_are_counted_wherever_they_would_be_summed_up(unmeasured: CutList) -> None:
    # Of 22 AWG the rudder's 1335 mm and both ailerons' 300 mm in the fuselage are left: 1935 mm.
    assert [says for title, says in unmeasured.headings.items() if " 22 AWG " in title] == [
        f"3 pieces · 1.935 m · 2 not measured · spool {number}" for number in (1, 2, 3)
    ]
    # Sleeves of the rudder and of both roots: 1120 + 2 × 125 mm.
    assert unmeasured.headings["Sleeve braid-4 · braided sleeve"] == "5 pieces · 1.370 m · 2 not measured"
    bought = {row["what"]: row["m"] for row in unmeasured.group("Sleeve and tube")}
    assert bought["braid-4, sleeve and 2 pieces not measured"] == "1.370"
    wires = [(row["buy"], row["each, m"], row["wire"]) for row in unmeasured.group("Wire") if "buy" in row]
    assert wires == [("1", "5", "pvc-20 BK black"), ("1", "5", "pvc-20 RD red")]
    lacking = [row for row in unmeasured.group("Wire") if "wire" in row and "buy" not in row]
    assert [row["wire"] for row in lacking] == [
        f"pvc-22 {colour}: 2 pieces not measured" for colour in ("BK black", "RD red", "WH white")
    ]
    assert all("each, m" not in row for row in lacking)
    assert "a half is fixed; those along 2 runs not measured" in " ".join(unmeasured.told)


def test_leads_that_are_left_out_are_named_at_the_head_by_what_they_wait_for(unmeasured: CutList) -> None:
    said = " ".join(unmeasured.told)
    assert "Left out, as the way is not measured yet" in unmeasured.headings
    waits = "left-panel-root to left-aileron: left-aileron B; right-panel-root to right-aileron: right-aileron B"
    assert waits in said
    assert said.index(waits) < said.index("One row is one piece")


# Places tell how far they lie apart; wires go round formers. A length that the builder pins is the builder's.
@pytest.mark.parametrize(
    ("length", "pinned", "named"),
    [("", "", True), ("", "    lengths: {A: 1400 mm}\n", False), (", length: 1140 mm", "", False)],
)
def test_leads_that_a_straight_line_makes_short_are_named_at_the_head(
    length: str, pinned: str, named: bool, aircraft_folder: AircraftFolder
) -> None:
    changes: Changes = {
        "aircraft.yaml": [("[radio-tray, tail-post],   length: 1140 mm", f"[radio-tray, tail-post]{length}")],
        "harness.yaml": [("    channel: 4\n", f"    channel: 4\n{pinned}")],
    }
    listed = cut_list_of(harness_of(aircraft_folder(changes)))
    head = "≈ By the straight line, too short: measure first"
    said = " ".join(listed.told)
    assert (head in listed.headings, "radio-tray to tail-post: rudder A" in said) == (named, named)
    if named:
        assert said.index("rudder A") < said.index("One row is one piece")
    # Each row says so too, and each page what its mark is.
    cuts = [row for row in listed.rows if row.cells.get("function")]
    marked = {row.cells["function"] for row in cuts if row.cells["cut, mm"].startswith("≈ ")}
    assert marked == ({"RUD"} if named else set())
    assert len([row for row in cuts if row.cells["cut, mm"].startswith("≈")]) == (3 if named else 0)
    # The rudder's run is sharp, so its sleeve is cut by the same line, whatever the lead in it is pinned to.
    straight = not length
    sleeves = [(row["from – to"], row["cut, mm"][:2] == "≈ ") for row in listed.group("Sleeve braid-4")]
    assert ("radio-tray – tail-post", straight) in sleeves
    assert sum(is_marked for _, is_marked in sleeves) == straight
    (way,) = (text.box for page in listed.pages for text in page.texts if text.text == "from – to")
    below = [text.text for page in listed.pages for text in page.texts if 0 < text.box.top - way.top < 4]
    assert ("≈ straight line: measure first" in below) == straight
    for page in listed.pages:
        texts = [text.text for text in page.texts]
        explained = "≈ straight line: measure first" in texts
        assert explained == any(text.startswith("≈ 1") for text in texts)


# What only the ends of a lead take is no length to cut by, where things on one place may lie any way apart.
@pytest.mark.parametrize(
    ("across", "pinned", "named"),
    [("", "", True), ("", "    lengths: {A: 300 mm}\n", False), (", across: 120 mm", "", False)],
)
def test_leads_without_any_way_are_marked_as_those_that_a_straight_line_makes_short(
    across: str, pinned: str, named: bool, aircraft_folder: AircraftFolder
) -> None:
    changes: Changes = {
        "aircraft.yaml": [("up: 10 mm}, access: canopy", f"up: 10 mm}}, access: canopy{across}")],
        "harness.yaml": [
            ("    place: tail-post\n    lead: 300 mm", "    place: radio-tray\n    lead: 300 mm"),
            ("    channel: 4\n", f"    channel: 4\n{pinned}"),
        ],
    }
    listed = cut_list_of(harness_of(aircraft_folder(changes)))
    assert ("across radio-tray: rudder A" in " ".join(listed.told)) == named
    cuts = [row for row in listed.rows if row.cells.get("function")]
    marked = [row.cells["function"] for row in cuts if row.cells["cut, mm"].startswith("≈ ")]
    assert marked == ["RUD"] * 3 * named


def test_a_shelf_is_shown_beside_what_it_says_of_though_of_other_wire_nothing_is_bought(unmeasured: CutList) -> None:
    shelf = [(row.get("buy"), row.get("on the shelf, m")) for row in unmeasured.group("Wire") if "wire" in row]
    # Of 20 AWG, black and red, the shelf has nothing; of 22 AWG, black, red and white, it has all that is known.
    assert shelf == [("1", "0"), (None, None), ("1", "0"), (None, None), (None, None)]


def test_where_no_tube_of_the_parts_list_does_it_is_one_of_your_own() -> None:
    harness = replace(harness_of(EXAMPLES / "fulmar"), tubes=())
    bill = bill_of_materials(harness.made)
    listed = cut_list_of(harness)
    own = "a tube of your own"
    tubes = {row["what"]: int(row["pieces"]) for row in listed.group("Tubes")}
    assert tubes == {
        f"{own}, collars at sleeves": bill.collars[None],
        f"{own}, over splices": bill.splice_tubes[None],
        f"{own}, over soldered contacts": bill.contact_tubes[None],
    }
    # Collars are 20 mm, splices take 25 mm and soldered contacts 15 mm (common practice, no source).
    counts = bill.collars[None], bill.splice_tubes[None], bill.contact_tubes[None]
    metres = sum(count * mm for count, mm in zip(counts, (20, 25, 15), strict=True)) / 1000
    assert [float(row["m"]) for row in listed.group("Sleeve and tube") if row["what"] == own] == [metres]


def test_spools_to_buy_of_one_wire_stand_by_their_length(aircraft_folder: AircraftFolder) -> None:
    # Sold at 5, 10 and 25 m: a rudder's lead of 24 m comes off one of 25 m, 2 × 1.045 and 2 × 0.3 m off one of 5 m.
    changes: Changes = {
        "stores.yaml": "spools: [{wire: pvc-26, colour: BK, length: 1 m}]\n",
        "harness.yaml": [("    channel: 4\n", "    channel: 4\n    lengths: {A: 24000 mm}\n")],
    }
    bought = [row for row in cut_list_of(harness_of(aircraft_folder(changes))).group("Wire") if "buy" in row]
    for colour in ("BK black", "RD red", "WH white"):
        rows = [(row["buy"], float(row["each, m"])) for row in bought if row["wire"] == f"pvc-22 {colour}"]
        assert rows == [("1", 5), ("1", 25)]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_the_colour_of_a_heading_is_in_words_where_all_of_it_has_room_in_a_line(name: str) -> None:
    listed = cut_list_of(harness_of(EXAMPLES / name))
    heads: dict[str, str] = {}
    for page in listed.pages:
        for text in (text for text in page.texts if text.bold and " AWG · " in text.text and text.capital_mm > 2):
            beside = (t for t in page.texts if abs(t.base_mm - text.base_mm) < 0.1)
            said = [t.text for t in beside if 0 < t.box.left - text.box.left < 92]
            heads.setdefault(text.text, said[0] if said else "")
    words = {"BK": "black", "RD": "red", "WH": "white"}
    shown: Counter[bool] = Counter()
    for title, says in heads.items():
        colour, _, rest = title.removesuffix(", continued").partition(" ")
        if colour in words and not title.endswith("continued"):
            rest = rest.removeprefix(f"{words[colour]} ")
            whole = f"{colour} {words[colour]} {rest}"
            fits = width_mm(whole, 2.5, bold=True) + 2 + width_mm(says, 1.8) <= (190 - 6) / 2
            assert title == (whole if fits else f"{colour} {rest}")
            shown[fits] += 1
    assert shown[True] > 3


def test_functions_are_large_where_they_have_room_and_all_small_where_one_has_none(
    aircraft_folder: AircraftFolder,
) -> None:
    # 56 mm at 2.5 mm are more than a column of 92 mm has beside length, mark and spool.
    long = "RUDDER WITH STEERED WHEEL AND TAB"
    assert width_mm(long, 2.5) > 56
    for label, high in (("RUD", 2.5), (long, 1.8)):
        changes: Changes = {"harness.yaml": [("label: RUD\n", f"label: {label}\n")]}
        listed = cut_list_of(harness_of(aircraft_folder(changes)))
        rows = [row for row in listed.rows if row.cells.get("function") in ("AIL L", label)]
        heights = {round(text.capital_mm, 2) for row in rows for text in row.texts if text.text in ("AIL L", label)}
        assert heights == {high}
