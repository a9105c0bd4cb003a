"""Where a label goes on a piece of each kind of stock, and why it does not, by hand from the stock's figures."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from resolved import EXAMPLES, harness_of

from docgen.basics.findings import Finding
from docgen.paperwork.labels import content as wire_labels
from docgen.paperwork.labels.text import Zone
from docgen.paperwork.layouts.reading import read_shipped
from docgen.paperwork.stocks.fitting import Place
from docgen.paperwork.stocks.reading import KINDS
from docgen.paperwork.typesetting.ink import FAINT, Ink, Line, Shape

if TYPE_CHECKING:
    from docgen.harness.model.parts import TubePart
    from docgen.paperwork.labels.content import LabelItem
    from docgen.paperwork.stocks.stock import LabelStock


def item(**sizes: object) -> LabelItem:
    """Return the rudder's label at the receiver with other sizes."""
    labels = wire_labels.content(harness_of(EXAMPLES / "wren")).labels
    label = next(label for label in labels if label.key.circuit == "rudder")
    usual: dict[str, object] = {"wires_mm": 3.4, "passes_mm": 3.4, "grips_mm": 3.0, "heat_c": None, "plug_is_on": False}
    return replace(label, **(usual | sizes))  # type: ignore[arg-type]


def tube(name: str) -> TubePart:
    return next(one for one in harness_of(EXAMPLES / "wren").tubes if one.name == name)


def stock(name: str) -> LabelStock:
    return read_shipped(name, KINDS)


def places(name: str, label: LabelItem, of: TubePart | None = None) -> list[Place | Finding]:
    tubes = dict.fromkeys((label.need, label.need_over_paper), of) if of is not None else {}
    return list(stock(name).places(label, tubes))


def only(found: list[Place | Finding]) -> Place:
    (place,) = found
    assert isinstance(place, Place)
    return place


def found(some: list[Place | Finding]) -> Finding:
    (finding,) = some
    assert isinstance(finding, Finding)
    return finding


def box_of(ink: Ink) -> tuple[float, ...]:
    assert isinstance(ink, Shape)
    return (*min(ink.points_mm), *max(ink.points_mm))


def corners(place: Place) -> list[float]:
    return [side for corner in place.corners_mm for side in corner]


def lines(guides: tuple[Ink, ...]) -> list[tuple[float, ...]]:
    every = [(ink.x1_mm, ink.y1_mm, ink.x2_mm, ink.y2_mm) for ink in guides if isinstance(ink, Line)]
    return [tuple(round(side, 6) for side in line) for line in every]


def zone(lengths: tuple[float, float], high: float, clear: tuple[float, float], **more: object) -> Zone:
    return Zone(lengths, high, *clear, **more)  # type: ignore[arg-type]


def assert_zone(place: Place, wanted: Zone) -> None:
    at = place.zone
    assert at.height_mm == pytest.approx(wanted.height_mm)
    assert at.shrinks_to == pytest.approx(wanted.shrinks_to)
    assert replace(at, height_mm=wanted.height_mm, shrinks_to=wanted.shrinks_to) == wanted


STRIPS_CLEAR, CARRIER_CLEAR = (0.8, 0.3), (2.5, 0.4)


def test_a_strip_goes_round_once_and_3_mm_over_with_its_text_twice() -> None:
    strip, flag = places("strips-a4", item(), tube("clear-4.8"))
    assert isinstance(strip, Place)
    half = math.pi * 3.0 / 2
    assert_zone(strip, zone((32, 32), half, STRIPS_CLEAR))
    assert corners(strip) == pytest.approx([0, 0.5, 0, 0.5 + half])
    assert (strip.beside, strip.size, strip.columns, strip.instead) == ("clear-4.8 · 47 mm", (4.8, "clear-4.8"), 1, "")
    assert strip.takes_mm == pytest.approx(2 * half + 3)
    assert box_of(strip.guides[0]) == pytest.approx((0, 0, 32, 2 * half + 3))
    # Ticks of 1 mm at either end where the blank edge begins, 2.5 mm of it.
    y = round(2 * half + 0.5, 6)
    assert lines(strip.guides) == [(0, y, 1, y), (31, y, 32, y)]
    assert isinstance(flag, Place)
    assert flag.instead == "flag"


def test_a_flag_on_strips_is_two_cells_long_and_11_mm_high_with_16_mm_round_the_wires() -> None:
    _, flag = places("strips-a4", item())
    assert isinstance(flag, Place)
    # Two cells of 39 mm, less the 7 mm between two: 71 mm.
    half = (71 - 16) / 2
    # Scissors go along its text: as much is clear as on a sheet of flags, `clear: {edges: 0.8 mm}` in flags-a4.
    assert_zone(flag, zone((half, half), 11, (0.8, 0.8), arrow=False))
    assert corners(flag) == pytest.approx([0, 0, half + 16, 0])
    assert (flag.size, flag.takes_mm, flag.columns) == ((math.inf, "flag"), 11, 2)
    assert flag.beside == "flag: halves back to back round the wires"
    assert box_of(flag.guides[0]) == pytest.approx((0, 0, 71, 11))
    assert lines(flag.guides) == [(half, 0, half, 11), (half + 16, 0, half + 16, 11)]


def test_a_strip_without_a_tube_is_a_wrap_and_one_too_high_for_the_sheet_only_a_flag() -> None:
    wrap, _ = places("strips-a4", item())
    assert isinstance(wrap, Place)
    assert (wrap.beside, wrap.size, wrap.instead) == ("no tube: clear tape over it", (math.inf, "wrap"), "wrap")
    # 39 rows of 5.3 mm are 206.7 mm high, of which 3 mm lap over.
    most = (39 * 5.3 - 3) / math.pi
    for grips, count in ((most - 0.001, 2), (most + 0.001, 1)):
        for of in (None, tube("clear-4.8")):
            assert len(places("strips-a4", item(grips_mm=grips), of)) == count


def test_on_a_carrier_a_label_lies_on_its_tube_pressed_flat() -> None:
    place = only(places("carrier-a4", item(), tube("shrink-4.8")))
    flat = math.pi * 4.8 / 2
    assert_zone(place, zone((63, 63), flat, CARRIER_CLEAR, shrinks_to=3.0 / 4.8))
    assert (place.corners_mm, place.columns) == (((0, 0),), 1)
    assert (place.beside, place.size) == ("shrink-4.8 · 63 mm", (4.8, "shrink-4.8"))
    assert place.takes_mm == pytest.approx(flat)
    assert box_of(place.guides[0]) == pytest.approx((0, 0, 63, flat))


def test_where_no_tube_does_it_says_of_which_size_one_would() -> None:
    # A tenth to spare: 1.1 × 3.4 = 3.74, 0.9 × 3 = 2.7.
    told = found(places("carrier-a4", item()))
    assert told.sentence.endswith("no tube passes 3.4 mm and grips 3.0 mm.")
    assert told.do == "Add a tube to `parts.yaml`: one of 3.8 mm that shrinks to 2.7 mm."
    # 1.1 × 7 = 7.7 over 2.7 is more than twice as much.
    told = found(places("carrier-a4", item(passes_mm=7.0)))
    assert told.sentence.endswith("and grips 3.0 mm: what passes the plug is too wide to grip the wires.")
    assert "or add a 3:1 tube to `parts.yaml`, one of 7.7 mm that shrinks to 2.7 mm." in told.do
    wire = replace(item().text, of_wire=True)
    assert "what passes the contact is too wide" in found(places("carrier-a4", item(passes_mm=7.0, text=wire))).sentence
    assert places("carrier-a4", item(plug_is_on=True)) == []


@pytest.mark.parametrize("expanded", [131.5, 131.6])
def test_a_tube_that_is_wider_than_all_rows_together_is_found(expanded: float) -> None:
    # 39 rows of 5.3 mm: half the circumference of 131.59 mm.
    some = places("carrier-a4", item(), tube("shrink-4.8").model_copy(update={"expanded_mm": expanded}))
    assert isinstance(some[0], Finding) == (expanded > 131.59)


@pytest.mark.parametrize("name", ["carrier-4.8", "tape-9"])
def test_a_stock_of_one_tube_takes_what_that_passes_and_grips(name: str) -> None:
    # The tape of 9 mm is 2 × 9 / π = 5.73 mm round, and shrinks to a third.
    expanded, recovered = (4.8, 2.4) if name == "carrier-4.8" else (18 / math.pi, 6 / math.pi)
    place = only(places(name, item()))
    flat = math.pi * expanded / 2
    lengths, clear = ((50.0, 50.0), (2, 0.4)) if name == "carrier-4.8" else ((30.0, 80.0), (2, 0.8))
    assert_zone(place, zone(lengths, flat, clear, shrinks_to=3.0 / expanded))
    assert place.corners_mm == ((0, 0),)
    passes, grips = expanded / 1.1, recovered / 0.9
    assert isinstance(places(name, item(passes_mm=passes - 1e-6, grips_mm=grips + 1e-6))[0], Place)
    narrow = found(places(name, item(passes_mm=passes + 1e-6)))
    said = f"is too narrow to pass {passes:.1f} mm; it would have to be of {expanded:.1f} mm."
    assert narrow.sentence.endswith(said)
    assert narrow.do == "Print it on a wider stock, or fit it before crimping (`labels: {fit: before}`)."
    assert found(places(name, item(wires_mm=passes + 1e-6, passes_mm=passes + 1e-6))).do == "Print it on a wider stock."
    wide = found(places(name, item(grips_mm=grips - 1e-6)))
    assert wide.sentence.endswith(f"too wide to grip {grips:.1f} mm; it would have to shrink to {recovered:.1f} mm.")
    for sizes in ({"passes_mm": passes + 0.1}, {"grips_mm": grips - 0.1}):
        assert places(name, item(plug_is_on=True, **sizes)) == []


@pytest.mark.parametrize(("heat_c", "hot"), [(None, False), (135, False), (136, True)])
@pytest.mark.parametrize("name", ["carrier-4.8", "tape-9", "carrier-a4", "strips-a4"])
def test_a_tube_that_stands_less_than_its_route_is_found_and_printed_all_the_same(
    name: str, heat_c: float | None, hot: bool
) -> None:
    own = tube("clear-4.8" if name == "strips-a4" else "shrink-4.8").model_copy(update={"limit_c": 135.0})
    place = places(name, item(heat_c=heat_c), own)[0]
    assert isinstance(place, Place)
    assert [finding.name for finding in place.findings] == ["heat"] * hot
    assert all("lies in 136 °C; " in one.sentence and "stands 135 °C" in one.sentence for one in place.findings)


@pytest.mark.parametrize("grips", [2.0, 4.0, 8.0, 8.9])
def test_a_wrap_has_its_type_where_only_film_comes_to_lie_over_it(grips: float) -> None:
    place = only(places("wraps-a4", item(grips_mm=grips)))
    around = math.pi * grips
    # 12 mm are printed: the last half turn, of which the film's first turn is outside.
    assert_zone(place, zone((50, 50), min(12, around / 2), (1, 0.5)))
    assert corners(place) == pytest.approx([0, max(12 - around, 0)])
    outline, edge = place.guides
    assert box_of(outline) == (0, 0, 50, 40)
    assert lines((edge,)) == [(0, 12, 50, 12)]


def test_a_flag_has_its_text_on_both_halves_and_an_arrow_up_between_them() -> None:
    place = only(places("flags-a4", item()))
    assert_zone(place, zone((35, 35), 12, (1, 0.8), arrow=False))
    assert place.corners_mm == ((0, 0), (53, 0))
    *cut, arrow = place.guides
    assert box_of(cut[0]) == (0, 0, 88, 12)
    assert lines(tuple(cut)) == [(35, 0, 35, 12), (53, 0, 53, 12)]
    assert isinstance(arrow, Shape)
    points = arrow.points_mm
    # 4 mm high about the middle, its point up, alike left and right, its head wider than its shaft.
    assert (min(y for _, y in points), max(y for _, y in points)) == (4, 8)
    assert [x for x, y in points if y == 4] == [44]
    assert {(round(88 - x, 6), y) for x, y in points} == {(round(x, 6), y) for x, y in points}
    across = {y: max(x for x, at in points if at == y) - 44 for _, y in points}
    assert across[8] < across[6]
    assert 0 < across[8] < 9


@pytest.mark.parametrize(
    ("name", "room", "what"),
    [("wraps-a4", 28, "the clear film"), ("flags-a4", 18, "the part between the halves")],
)
def test_what_does_not_reach_round_the_wires_is_found(name: str, room: float, what: str) -> None:
    assert isinstance(places(name, item(grips_mm=room / math.pi - 1e-6))[0], Place)
    told = found(places(name, item(grips_mm=(room + 0.2) / math.pi)))
    assert told.sentence.endswith(f"it is {room + 0.2:.1f} mm round its wires, {what} of the stock is {room} mm.")


@pytest.mark.parametrize("name", ["wraps-a4", "flags-a4", "carrier-4.8"])
def test_an_unused_label_is_drawn_faint_as_large_as_a_used_one(name: str) -> None:
    of = stock(name)
    blank = of.blank  # type: ignore[attr-defined]
    guides = only(places(name, item())).guides
    assert [type(ink) for ink in blank] == [type(ink) for ink in guides]
    colours = [ink.fill or ink.colour if isinstance(ink, Shape) else ink.colour for ink in blank]
    assert set(colours) == {FAINT}
    high = {"carrier-4.8": 7.6}.get(name)
    used = box_of(guides[0])
    assert box_of(blank[0]) == pytest.approx(used if high is None else (*used[:3], high))
    assert lines(blank) == lines(guides)
