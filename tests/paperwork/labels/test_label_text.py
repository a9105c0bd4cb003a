"""Labels say all that fits at the least height, in type as large as there is room for."""

from __future__ import annotations

import random
import re
from dataclasses import replace

import pytest
from measured import capital_ratio, face_file
from reportlab.pdfbase.ttfonts import TTFont

from docgen.paperwork.labels.text import LabelText, SetLabel, Zone, set_label

ENDS_MM, EDGES_MM = 2.0, 0.4  # clear
BAR_MM = 3.2  # the bar to the plug and the space behind it
# Source Sans: highest accent on a capital and lowest descender are within 1.4 and 0.45 of the height of capitals (its
# tables OS/2 and glyf); letters without accents within 1.15 and 0.35. With a tenth between lines:
LINE = 1.15 + 0.35 + 0.12
FACES = {bold: TTFont(f"text-{bold}", str(face_file(bold))) for bold in (False, True)}


def label(function: str, here: str, far: str, mark: str, supply: str = "") -> LabelText:
    return LabelText(function, here, far, mark, "A", supply or None)


def width_mm(text: str, capital_mm: float, *, bold: bool = False) -> float:
    """Return a text's width by the library that draws it."""
    size = capital_mm / capital_ratio(bold)
    return float(FACES[bold].stringWidth(text, size))


def placed(text: LabelText, length: float, height: float, least: float) -> SetLabel | None:
    return set_label(text, Zone((length, length), height, ENDS_MM, EDGES_MM), least)


def words(chance: random.Random, most: int) -> str:
    return (
        "".join(chance.choice("abcdefghijklmnopqrstuvwxyz-") for _ in range(chance.randint(3, most))).strip("-") or "x"
    )


def test_what_fits_line_under_line_is_not_left_out() -> None:
    chance, whole, short = random.Random(7), 0, 0
    for _ in range(400):
        function, here, far = (words(chance, 26) for _ in range(3))
        supply = chance.choice(["", words(chance, 12)])
        mark = chance.choice(["C1A22", "C1A22 C2A22", "C10A22 C11A22 C12A22"])
        length, height, least = chance.uniform(35, 60), chance.uniform(5, 20), chance.uniform(1.6, 2.2)
        lines = [here, f"→ {far}", *([supply] if supply else []), f"{mark} · rev A"]
        room = length - 2 * 2.0 - BAR_MM - 0.2
        stacked = all(width_mm(line, least) <= room for line in lines) and width_mm(function, least, bold=True) <= room
        stacked = stacked and (1 + len(lines)) * LINE * least <= height - 0.8
        found = placed(label(function, here, far, mark, supply), length, height, least)
        if not stacked:
            short += 1
            continue
        whole += 1
        assert found is not None
        everything = " ".join(piece.text for piece in found.texts)
        assert all(part in everything for part in (function, *lines)), (function, lines)
        assert min(piece.height_mm for piece in found.texts) >= least - 1e-9
    assert whole > 60
    assert short > 60


def test_three_lines_keep_a_mark_that_two_have_no_room_for() -> None:
    # Beside the function and beside the place the mark is too long for 52 − 7.2 mm; below both there is room.
    text = label("LEFT OUTER AILERON", "outer-left-root 1–3", "receiver-a 10", "C10A22 C11A22 C12A22")
    found = placed(text, 52, 9.5, 1.7)
    assert found is not None
    assert any("C12A22" in piece.text for piece in found.texts)


@pytest.mark.parametrize("height", [3.0, 4.0, 5.0, 6.0])
def test_short_texts_on_a_long_label_are_as_high_as_its_height_allows(height: float) -> None:
    # One line: the function at 1.4 × what is small (a step of ISO 3098), 7 mm at most, all between its edges.
    found = placed(label("RUD", "rx 4", "rud", "C5A22"), 200, height + 0.8, 1.6)
    assert found is not None
    assert min(piece.height_mm for piece in found.texts) >= min(height / 1.4 / 1.4, 5.0) - 1e-6
    assert all(piece.base_mm == found.texts[0].base_mm for piece in found.texts)


def test_a_larger_label_has_type_as_large_or_larger() -> None:
    chance = random.Random(11)
    for _ in range(300):
        text = label(words(chance, 20), words(chance, 20), words(chance, 20), "C1A22")
        length, height = chance.uniform(30, 60), chance.uniform(5, 15)
        small = placed(text, length, height, 1.6)
        large = placed(text, length * chance.uniform(1, 1.5), height * chance.uniform(1, 1.5), 1.6)
        if small is None:
            continue
        assert large is not None
        assert len(large.texts) >= 1
        if "".join(sorted(p.text for p in small.texts)).count("C1A22"):
            assert any("C1A22" in p.text for p in large.texts)
            # Heights less than 3 % apart look alike, and then the usual order of lines is kept.
            ratio = min(p.height_mm for p in large.texts) / min(p.height_mm for p in small.texts)
            assert ratio >= 0.97


def test_less_and_less_is_said_in_a_stated_order_and_what_is_missed_is_told() -> None:
    # In one line of 3 mm at 2 mm: from a label that is long enough for all to one that just holds its function.
    text = label("RUD", "receiver 4", "rudder", "C5A22", "pack")
    left_out = []
    for length in range(120, 14, -1):
        found = placed(text, length, 3.0 + 0.8, 2.0)
        assert found is not None
        said_there = " ".join(piece.text for piece in found.texts)
        parts = {"mark": "C5A22", "far": "rudder", "supply": "from pack", "revision": "rev A", "place": "receiver 4"}
        missing = tuple(name for name, part in parts.items() if part not in said_there)
        if missing not in left_out:
            left_out.append(missing)
        assert found.lacks == (missing[-1] if len(missing) > 2 else "")
    assert left_out == [
        (),
        ("mark",),
        ("mark", "far"),
        ("mark", "far", "supply"),
        ("mark", "far", "supply", "revision"),
        ("mark", "far", "supply", "revision", "place"),
    ]


def test_on_a_single_wire_the_mark_is_kept_longest() -> None:
    # AC 43.13-1B 11-208: the mark is what names a wire. In one line of 3 mm at 2 mm, shorter and shorter.
    whole = label("RUD", "receiver 4 contact 1", "rudder 1", "C5A22N", "pack")
    for middle in (False, True):
        left_out, shortest = [], 0
        for length in range(120, 14, -1):
            found = placed(replace(whole, of_wire=True, middle=middle), length, 3.0 + 0.8, 2.0)
            if found is None:
                shortest = length + 1
                break
            said_there = " ".join(piece.text for piece in found.texts)
            assert "C5A22N" in said_there
            parts = {"far": "rudder 1", "supply": "from pack", "revision": "rev A", "place": "receiver 4 contact 1"}
            missing = tuple(name for name, part in parts.items() if part not in said_there)
            if missing not in left_out:
                left_out.append(missing)
            assert found.lacks == (missing[-1] if len(missing) > 1 else "")
        order = ("far", "supply", "revision", "place")
        assert left_out == [order[:count] for count in range(5)]
        # Function and mark at the least height, with 2.4 mm between them, are all that is left.
        least = width_mm("RUD", 2.0, bold=True) + width_mm("C5A22N", 2.0) + 2.4 + 4.0 + BAR_MM
        assert least <= shortest < least + 1.5


def test_a_function_too_long_for_a_line_is_folded_once_at_a_blank() -> None:
    # Long names wrap once, `pages.md`. At 2.5 mm one line is over 52.8 mm long, its halves are not; two lines of it and
    # two of what is small are at most 4 × 4.05 mm high.
    name = "RUDDER and tail wheel steering, long"
    length = 60 - 4.0 - BAR_MM
    assert width_mm(name, 2.5, bold=True) > length > 2 * width_mm(name, 2.5, bold=True) / 3
    found = placed(label(name, "receiver 4", "rudder", "C5A22"), 60, 4 * LINE * 2.5 + 0.8, 2.5)
    assert found is not None
    bold = [piece for piece in found.texts if piece.bold]
    assert " ".join(piece.text for piece in bold) == name
    assert len(bold) == 2
    assert bold[0].base_mm < bold[1].base_mm < min(piece.base_mm for piece in found.texts if not piece.bold) + 1e-9
    # Between the ink of the two lines: descender 0.35 and ascender 1.15 at most of the height of capitals.
    assert bold[1].base_mm - bold[0].base_mm >= bold[0].height_mm
    assert all(width_mm(piece.text, piece.height_mm, bold=piece.bold) <= length for piece in found.texts)
    assert any("C5A22 · rev A" in piece.text for piece in found.texts)


def test_a_function_that_fits_in_one_line_is_not_folded() -> None:
    chance = random.Random(3)
    for _ in range(100):
        name = f"{words(chance, 12)} {words(chance, 12)}"
        found = placed(label(name, "receiver 4", "rudder", "C5A22"), 60, 20, 1.6)
        if width_mm(name, 1.6, bold=True) <= 52.6:
            assert found is not None
            assert name in [piece.text for piece in found.texts]


def test_the_two_halves_of_a_joint_never_read_alike_without_a_caution() -> None:
    # Both have the same contacts: the far end tells them apart, or the lead in a word; a letter alone is a riddle.
    halves = [
        replace(label("AIL L", "left-root 1–3", far, f"C1{letter}22 C2{letter}22", "pack"), lead=letter)
        for far, letter in (("receiver 1", "A"), ("aileron-servo", "B"))
    ]
    seen = set()
    for length in range(120, 20, -1):
        said_there = []
        for half in halves:
            found = placed(half, length, 3.0 + 0.8, 2.0)
            assert found is not None
            text = " · ".join(piece.text for piece in found.texts)
            assert not {"A", "B"} & set(text.replace(" → ", " · ").split(" · "))
            assert "A rev" not in text
            assert "B rev" not in text
            parts = {"far": half.far, "lead": f"lead {half.lead}", "revision": "rev A", "place": half.here}
            seen.add((*(name for name, part in parts.items() if part in text), "lacks", found.lacks))
            said_there.append((text, found.lacks))
        [one, other] = said_there
        assert one[0] != other[0] or {one[1], other[1]} <= {"lead", "place"}
    assert seen == {
        ("far", "revision", "place", "lacks", ""),
        ("far", "lead", "revision", "place", "lacks", ""),
        ("lead", "revision", "place", "lacks", ""),
        ("lead", "revision", "place", "lacks", "supply"),
        ("lead", "place", "lacks", "revision"),
        ("place", "lacks", "lead"),
        ("lacks", "place"),
    }


@pytest.mark.parametrize("of_wire", [False, True])
def test_a_supply_that_an_end_names_is_not_said_again(of_wire: bool) -> None:
    contact = " 1" if of_wire else ""
    pack, unit = f"pack OUT{contact}", f"unit IN{contact}"
    for here, far, length, times in (
        (pack, unit, 120, 1),
        (pack, unit, 45, 1),
        (unit, pack, 120, 1),
        (unit, pack, 65, 1),
    ):
        text = replace(label("RX", here, far, "P1A20", "pack"), of_wire=of_wire)
        found = placed(text, length, 3.0 + 0.8, 1.6)
        assert found is not None
        said_there = " ".join(piece.text for piece in found.texts)
        assert len(re.findall(r"\bpack\b", said_there)) == times
        assert "from" not in said_there


def test_wires_of_the_two_halves_of_a_joint_say_their_lead_in_words_once_their_far_end_goes() -> None:
    # Without it they differ by one letter within their marks, C1A22N and C1B22N. In one line of 3 mm at 2 mm.
    halves = [
        replace(label("AIL L", "left-root contact 1", far, f"C1{letter}22N"), lead=letter, of_wire=True)
        for far, letter in (("receiver 1 contact 1", "A"), ("left-aileron contact 1", "B"))
    ]
    for half in halves:
        left_out = []
        for length in range(140, 14, -1):
            found = placed(half, length, 3.0 + 0.8, 2.0)
            if found is None:
                break
            text = " · ".join(piece.text for piece in found.texts)
            assert half.mark in text
            parts = {"far": half.far, "lead": f"lead {half.lead} ·", "revision": "rev A", "place": half.here}
            missing = tuple(name for name, part in parts.items() if part not in text)
            if missing not in left_out:
                left_out.append(missing)
        assert left_out == [
            ("lead",),
            ("far",),
            ("far", "lead"),
            ("far", "lead", "revision"),
            ("far", "lead", "revision", "place"),
        ]


def test_a_label_in_the_middle_says_first_the_end_that_its_bar_faces() -> None:
    whole = replace(label("RUD", "receiver 4 contact 1", "rudder 1", "C5A22N"), of_wire=True, middle=True)
    found = placed(whole, 140, 3.0 + 0.8, 2.0)
    assert found is not None
    assert "middle: receiver 4 contact 1 — rudder 1" in " ".join(piece.text for piece in found.texts)
