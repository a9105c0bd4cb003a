"""Labels say all that fits at the least height, in type as large as there is room for."""

from __future__ import annotations

import random
from dataclasses import replace
from itertools import pairwise

import pytest
from measured import capital_ratio, face_file
from reportlab.pdfbase.ttfonts import TTFont

from docgen.paperwork.labels import text
from docgen.paperwork.labels.text import STEP, LabelText, SetLabel, Zone, fitted, set_label
from docgen.paperwork.typesetting.ink import Shape, Text
from docgen.paperwork.typesetting.typeface import extent, overhang_mm

ENDS_MM, EDGES_MM = 2.0, 0.4  # clear
ARROW_MM = 2.4  # the arrowhead to the plug and the space behind it
# Source Sans: letters without accents are within 1.15 and 0.35 of the height of capitals (its tables OS/2 and glyf).
# With a fifth between lines:
LINE = 1.15 + 0.35 + 0.2
FACES = {bold: TTFont(f"text-{bold}", str(face_file(bold))) for bold in (False, True)}


def label(function: str, here: str, far: str, mark: str) -> LabelText:
    return LabelText(function, here, far, mark)


def width_mm(text: str, capital_mm: float, *, bold: bool = False) -> float:
    """Return a text's width by the library that draws it."""
    size = capital_mm / capital_ratio(bold)
    return float(FACES[bold].stringWidth(text, size))


def placed(text: LabelText, length: float, height: float, least: float) -> SetLabel | None:
    found = fitted(text, Zone((length, length), height, ENDS_MM, EDGES_MM), least)
    return set_label(found, found.function_mm) if found is not None else None


def said(found: SetLabel) -> str:
    return " ".join(piece.text for piece in found.texts)


def words(chance: random.Random, most: int) -> str:
    return (
        "".join(chance.choice("abcdefghijklmnopqrstuvwxyz-") for _ in range(chance.randint(3, most))).strip("-") or "x"
    )


def test_heights_are_in_the_steps_of_iso_3098() -> None:
    # ISO 3098: 1.8, 2.5, 3.5, 5 and 7 mm, each √2 times the one before, rounded.
    assert [1.8 * STEP**i for i in range(5)] == pytest.approx([1.8, 2.5, 3.5, 5, 7], abs=0.21)


def test_no_lines_are_tried_for_what_is_many_times_too_long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(text, "_arranged", lambda *_: pytest.fail("lines are tried"))
    assert placed(label("word " * 1000, "", "", "C1A22"), 60, 20, 1.6) is None


def test_what_fits_line_under_line_is_not_left_out() -> None:
    chance, whole, short = random.Random(7), 0, 0
    for _ in range(400):
        function, here, far = (words(chance, 26) for _ in range(3))
        mark = chance.choice(["C1A22", "C1A22 C2A22", "C10A22 C11A22 C12A22"])
        length, height, least = chance.uniform(35, 60), chance.uniform(5, 20), chance.uniform(1.6, 2.2)
        lines = [(function, True), (here, True), (f"→ {far}", False), (mark, False)]
        room = length - 2 * ENDS_MM - ARROW_MM - 0.2
        stacked = all(width_mm(line, least, bold=bold) <= room for line, bold in lines)
        stacked = stacked and len(lines) * LINE * least <= height - 2 * EDGES_MM
        found = placed(label(function, here, far, mark), length, height, least)
        if not stacked:
            short += 1
            continue
        whole += 1
        assert found is not None
        assert all(part in said(found) for part, _ in lines), lines
        assert min(piece.height_mm for piece in found.texts) >= least - 1e-9
    assert whole > 60
    assert short > 60


@pytest.mark.parametrize("height", [3.0, 4.0, 5.0, 6.0])
def test_a_short_function_alone_is_as_high_as_its_height_allows(height: float) -> None:
    # RUD reaches no further than its capitals; a step is at most √2 under what there is room for, 7 mm the most.
    found = placed(replace(label("RUD", "", "", ""), of_wire=True), 200, height + 2 * EDGES_MM, 1.6)
    assert found is not None
    assert max(piece.height_mm for piece in found.texts) >= min(height, 7.0) / 2**0.5 / 1.05


def test_the_two_lines_are_function_with_this_end_and_far_end_with_mark() -> None:
    found = placed(label("AIL L", "left-root 1–3", "receiver 1", "C1A22 C2A22"), 60, 8, 1.6)
    assert found is not None
    bases = sorted({piece.base_mm for piece in found.texts})
    assert len(bases) == 2
    lines = [[(p.text, p.bold) for p in found.texts if p.base_mm == base] for base in bases]
    assert lines == [[("AIL L", True), ("left-root 1–3", True)], [("→ receiver 1 · C1A22 C2A22", False)]]


def test_a_larger_label_says_as_much_or_more_in_type_as_large_or_larger() -> None:
    chance = random.Random(11)
    for _ in range(300):
        text = label(words(chance, 20), words(chance, 20), words(chance, 20), "C1A22")
        length, height = chance.uniform(30, 60), chance.uniform(5, 15)
        small = placed(text, length, height, 1.6)
        large = placed(text, length * chance.uniform(1, 1.5), height * chance.uniform(1, 1.5), 1.6)
        if small is None:
            continue
        assert large is not None
        assert len(said(large)) >= len(said(small))
        if len(said(large)) == len(said(small)):
            assert max(p.height_mm for p in large.texts) >= max(p.height_mm for p in small.texts)


def left_out(text: LabelText, parts: dict[str, str]) -> list[tuple[str, ...]]:
    """Return what is left out of a label in one line of 3 mm at 2 mm, as it gets shorter."""
    found_out: list[tuple[str, ...]] = []
    for length in range(140, 8, -1):
        found = placed(text, length, 3.0 + 2 * EDGES_MM, 2.0)
        if found is None:
            break
        assert text.function in said(found)
        missing = tuple(name for name, part in parts.items() if part not in said(found))
        if missing not in found_out:
            found_out.append(missing)
    return found_out


def test_less_and_less_is_said_in_a_stated_order() -> None:
    # The mark goes last of what is small, and the place where this end goes after that.
    text = label("RUD", "receiver 4", "rudder", "C5A22 C6A22")
    parts = {"other": "C6A22", "far": "→ rudder", "mark": "C5A22", "place": "receiver 4"}
    assert left_out(text, parts) == [
        (),
        ("other",),
        ("far",),
        ("other", "far"),
        ("other", "far", "mark"),
        ("other", "far", "mark", "place"),
    ]


def test_on_a_single_wire_the_mark_is_kept_longest() -> None:
    # AC 43.13-1B 11-208: the mark is what names a wire.
    whole = replace(label("RUD", "receiver 4 contact 1", "rudder 1", "C5A22N"), of_wire=True)
    parts = {"far": "rudder 1", "place": "receiver 4 contact 1", "mark": "C5A22N"}
    for middle in (False, True):
        assert left_out(replace(whole, middle=middle), parts) == [(), ("far",), ("far", "place")]


def test_the_two_halves_of_a_joint_say_their_lead_in_words_where_there_is_room_or_the_mark_has_none() -> None:
    # Both have the same contacts: the far end tells them apart, or the mark, or the lead in words.
    for far, letter in (("receiver 1", "A"), ("left-aileron", "B")):
        half = replace(label("AIL L", "left-root 1–3", far, f"C100{letter}22"), lead=letter)
        parts = {"far": far, "mark": f"C100{letter}22", "lead": f"lead {letter}", "place": "left-root 1–3"}
        assert left_out(half, parts) == [
            (),
            ("lead",),
            ("far", "lead"),
            ("far", "mark"),
            ("far", "mark", "lead"),
            ("far", "mark", "lead", "place"),
        ]


def test_a_function_too_long_for_a_line_is_folded_at_a_blank() -> None:
    # Long names wrap, `pages.md`. At 2.5 mm one line is over 53.6 mm long, its halves are not.
    name = "RUDDER and tail wheel steering, long"
    length = 60 - 2 * ENDS_MM - ARROW_MM
    assert width_mm(name, 2.5, bold=True) > length > 2 * width_mm(name, 2.5, bold=True) / 3
    found = placed(label(name, "receiver 4", "rudder", "C5A22"), 60, 4 * LINE * 2.5 + 2 * EDGES_MM, 2.5)
    assert found is not None
    bold = [piece for piece in found.texts if piece.bold]
    assert " ".join(piece.text for piece in bold) == f"{name} receiver 4"
    assert bold[0].base_mm < bold[-1].base_mm < min(piece.base_mm for piece in found.texts if not piece.bold) + 1e-9
    assert all(width_mm(piece.text, piece.height_mm, bold=piece.bold) <= length for piece in found.texts)
    assert "C5A22" in said(found)


def test_a_function_that_fits_in_one_line_with_room_below_is_not_folded() -> None:
    chance = random.Random(3)
    for _ in range(100):
        name = f"{words(chance, 12)} {words(chance, 12)}"
        found = placed(label(name, "receiver 4", "rudder", "C5A22"), 60, 20, 1.6)
        if width_mm(name, 1.6, bold=True) <= 53.4:
            assert found is not None
            assert name in [piece.text for piece in found.texts]


def test_a_label_in_the_middle_says_first_the_end_that_its_arrow_faces() -> None:
    whole = replace(label("RUD", "receiver 4 contact 1", "rudder 1", "C5A22N"), of_wire=True, middle=True)
    found = placed(whole, 140, 3.0 + 2 * EDGES_MM, 2.0)
    assert found is not None
    assert "middle: receiver 4 contact 1 — rudder 1" in said(found)


def grown(seed: int) -> tuple[LabelText, Zone, SetLabel]:
    """Return a label at random as it is set in a zone that its text may be shorter than."""
    chance = random.Random(seed)
    while True:
        text = label(words(chance, 14).upper(), words(chance, 14), words(chance, 14), "C1A22 C2A22")
        zone = Zone(
            (chance.uniform(10, 30), chance.uniform(50, 90)), chance.uniform(5, 16), 2.0, 0.4, arrow=seed % 2 == 0
        )
        found = fitted(text, zone, 1.6)
        if found is not None:
            return text, zone, set_label(found, found.function_mm)


def reaches(found: SetLabel) -> list[tuple[float, float]]:
    """Return for each line how far down its ink begins and ends, as its letters reach at most."""
    lines: dict[float, list[tuple[float, float]]] = {}
    for piece in found.texts:
        reach = extent(piece.text, piece.height_mm, piece.bold)
        span = piece.base_mm - reach.above_mm, piece.base_mm + reach.below_mm
        lines.setdefault(round(piece.base_mm, 6), []).append(span)
    return [(min(top for top, _ in some), max(low for _, low in some)) for _, some in sorted(lines.items())]


@pytest.mark.parametrize("seed", range(40))
def test_lines_stand_in_the_middle_of_the_height_as_far_apart_as_each_other_and_no_further_than_half_of_what_is_small(
    seed: int,
) -> None:
    _, zone, found = grown(seed)
    lines = reaches(found)
    small = min(piece.height_mm for piece in found.texts)
    above, below = lines[0][0] - 0.4, zone.height_mm - 0.4 - lines[-1][1]
    assert above == pytest.approx(below, abs=1e-6)
    gaps = [top - low for (_, low), (top, _) in pairwise(lines)]
    if gaps:
        assert gaps == pytest.approx([gaps[0]] * len(gaps))
        # Either they are as far apart as they may be, or they fill the height.
        assert gaps[0] == pytest.approx(0.5 * small) or (above == pytest.approx(0, abs=1e-6) and gaps[0] < 0.5 * small)


@pytest.mark.parametrize("seed", range(40))
def test_a_label_is_as_long_as_its_longest_line_needs_and_its_lines_begin_behind_the_arrow(seed: int) -> None:
    _, zone, found = grown(seed)
    before = 2.0 + (ARROW_MM if zone.arrow else 0.0)
    ends = []
    for base in {piece.base_mm for piece in found.texts}:
        line = [piece for piece in found.texts if piece.base_mm == base]
        left = before
        for piece in line:
            out = overhang_mm(piece.text, piece.height_mm, piece.bold)
            assert piece.x_mm == pytest.approx(left + out[0])
            end = piece.x_mm + width_mm(piece.text, piece.height_mm, bold=piece.bold) + out[1]
            # Between texts of unlike height or weight eight tenths of the height of what is small are clear.
            left = end + 0.8 * min(one.height_mm for one in found.texts)
        ends.append(end)
    needed = max(ends) + 2.0 + 0.1
    assert found.length_mm == pytest.approx(min(max(needed, zone.lengths_mm[0]), zone.lengths_mm[1]), abs=1e-3)


@pytest.mark.parametrize(("high", "half"), [(2.0, 0.6), (4.0, 1.6), (8.0, 1.6)])
def test_the_arrowhead_is_solid_its_point_at_the_plug_and_as_high_as_it_is_long_at_most(
    high: float, half: float
) -> None:
    zone = Zone((40, 40), high, ENDS_MM, EDGES_MM)
    arrow, *others = SetLabel(zone, 40, ()).ink(10, 20)
    assert others == []
    assert isinstance(arrow, Shape)
    tip, *back = sorted(arrow.points_mm)
    # 1.6 mm long, in the middle of the height, of which 0.4 mm are clear above and below.
    assert tip == pytest.approx((12, 20 + high / 2))
    assert [x for x, _ in back] == pytest.approx([13.6] * 2)
    assert sorted(y for _, y in back) == pytest.approx([20 + high / 2 - half, 20 + high / 2 + half])
    assert (arrow.fill, arrow.colour) == ("#000000", None)
    assert list(SetLabel(replace(zone, arrow=False), 40, ()).ink(10, 20)) == []


def test_texts_are_placed_from_the_corner_and_stay_in_what_is_not_clear() -> None:
    _, zone, found = grown(4)
    texts = [ink for ink in found.ink(10, 20) if isinstance(ink, Text)]
    for ink, piece in zip(texts, found.texts, strict=True):
        at = (ink.x_mm, ink.y_mm, ink.text, ink.height_mm, ink.bold)
        assert at == (10 + piece.x_mm, 20 + piece.base_mm, piece.text, piece.height_mm, piece.bold)
        assert ink.cell == pytest.approx((12, 20.4, found.length_mm - 4, zone.height_mm - 0.8))


def test_blanks_part_what_is_bold_and_points_what_is_small_where_lines_are_filled() -> None:
    """In a zone that neither two nor three lines fit, words fill lines one after the other."""
    text = label("LEFT OUTER AILERON", "joint of the left wing", "receiver 1", "C1A22")
    for length in range(60, 20, -1):
        found = placed(text, length, 16, 1.6)
        assert found is not None
        bold = " ".join(piece.text for piece in found.texts if piece.bold)
        small = " · ".join(piece.text for piece in found.texts if not piece.bold)
        assert bold == "LEFT OUTER AILERON joint of the left wing"
        assert small in ("→ receiver 1 · C1A22", "C1A22")
        for piece in found.texts:
            assert piece.x_mm + width_mm(piece.text, piece.height_mm, bold=piece.bold) <= length - 2.0 + 0.1


@pytest.mark.parametrize(
    ("of", "said"),
    [
        (  # at a joint: the letter in words goes first, then the second mark, the far end, the mark; then it may return
            LabelText("AIL", "root L", "aileron L", "C1A22 C1A24", lead="a"),
            [
                ("root L", ("→ aileron L", "C1A22 C1A24", "lead a")),
                ("root L", ("→ aileron L", "C1A22 C1A24")),
                ("root L", ("→ aileron L", "C1A22")),
                ("root L", ("C1A22 C1A24",)),
                ("root L", ("C1A22",)),
                ("root L", ("lead a",)),
                ("root L", ()),
                ("", ()),
            ],
        ),
        (  # in the middle it never stops to say that it is
            LabelText("RUD", "receiver 4", "rudder", "C5A22", middle=True),
            [
                ("middle: receiver 4", ("— rudder", "C5A22")),
                ("middle: receiver 4", ("C5A22",)),
                ("middle: receiver 4", ()),
                ("middle", ()),
            ],
        ),
        (  # of a wire: its mark stays to the last
            LabelText("RUD", "receiver 4", "rudder", "C5A22", of_wire=True),
            [("receiver 4", ("→ rudder", "C5A22")), ("receiver 4", ("C5A22",)), ("", ("C5A22",))],
        ),
        (LabelText("RUD", "receiver 4", "rudder", ""), [("receiver 4", ("→ rudder",)), ("receiver 4", ()), ("", ())]),
    ],
)
def test_a_label_says_less_and_less_in_this_order(of: LabelText, said: list[tuple[str, tuple[str, ...]]]) -> None:
    ways = list(of.ways)
    assert [(way.here, way.small) for way in ways] == said
    assert [way.lacks_place for way in ways] == [False] * (len(said) - 1) + [True]
