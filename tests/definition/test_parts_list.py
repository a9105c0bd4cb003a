"""The built-in parts against published tables."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterable

import numpy
import pytest
from reference import connector_numbering as numbering
from reference.conversions import FOOT_MM, INCH_MM
from reference.heat_shrink import (
    LINED_LIMIT_C,
    LINED_MM_FROM_MEMORY,
    METRIC_THIN_WALL_MM,
    SMALLEST_THIN_WALL_MM_FROM_MEMORY,
    THIN_WALL_LIMIT_C,
    THIN_WALL_MM,
    WALL_UNCERTAINTY_MM,
)
from reference.servo_leads import PITCH_MM, ROLES_ACROSS
from reference.sleeves import BRAID_RANGE, COATED_GLASS_LIMIT_C, SPIRAL_IN_FROM_MEMORY
from reference.wire_tables import (
    CLASS_5_TINNED_OHM_PER_KM_FROM_MEMORY,
    COPPER_G_PER_CM3,
    COPPER_OHM_MM2_PER_M,
    NOMINAL_TINNED_OHM_PER_1000_FT,
    TABLE_11_9_CURRENT_A,
    TABLE_11_9_OHM_PER_1000_FT,
)

from docgen.basics.gauges import parse_gauge, takes_gauge
from docgen.basics.shipped import shipped_folder
from docgen.definition.load import load_definition
from docgen.definition.model import Parts
from docgen.definition.parts import PART_SECTIONS, Part, SleevePart, TubePart
from docgen.harness.wiring.connectors import Connectors
from docgen.paperwork.kinds import ACCEPTABLE

# The strands whose nominal resistance is meant where table 11-9 does not serve: it ends at 24 gauge, and its
# figure for 24 looks like that of a high-strength alloy.
STRANDS = {24: "19/36", 26: "19/38", 28: "19/40"}

# What builders use: common practice, no source.
GAUGES = range(8, 30, 2)
METRIC_MM2 = [0.14, 0.25, 0.34, 0.5, 0.75, 1.0, 1.5, 2.5, 4.0]

THIN_WALL = THIN_WALL_MM | SMALLEST_THIN_WALL_MM_FROM_MEMORY

# Words that names are made of: plain ones of the trade, none a maker's.
# fmt: off
WORDS = {
    "pvc", "silicone", "fluoro", "lead", "power", "servo", "signal", "lone",
    "light", "address", "motor", "brake", "twisted", "flat", "cable", "heavy",
    "bullet", "block", "dsub", "braid", "heat", "wrap", "shrink", "clear",
}
# fmt: on
# Capitals in texts: whose tables are named.
CAPITALS = {"AC", "IEC"}


@pytest.fixture(scope="module")
def parts() -> Parts:
    definition, _ = load_definition(shipped_folder("examples") / "wren", ACCEPTABLE)
    assert definition is not None
    return definition.parts


@pytest.fixture(scope="module")
def awg(parts: Parts) -> dict[str, int]:
    """Return the gauge number of every wire that has one."""
    found = {name: re.fullmatch(r"(\d+) AWG", part.gauge.text) for name, part in parts.wires.items()}
    return {name: int(match.group(1)) for name, match in found.items() if match}


def all_parts(parts: Parts) -> dict[str, Part]:
    """Return every part by its section and name."""
    return {f"{s} {name}": part for s in PART_SECTIONS for name, part in getattr(parts, s).items()}


@pytest.mark.parametrize("family", ["pvc", "silicone", "fluoro"])
def test_each_family_of_wire_has_every_even_gauge(parts: Parts, family: str) -> None:
    found = {g: parts.wires[f"{family}-{g}"].gauge.text for g in GAUGES}
    assert found == {g: f"{g} AWG" for g in GAUGES}


def test_metric_wires_are_named_after_their_section_in_hundredths(parts: Parts, awg: dict[str, int]) -> None:
    found = {name: parts.wires[name].gauge.area_mm2 for name in parts.wires.keys() - awg.keys()}
    assert found == {f"pvc-{round(100 * area):03d}": area for area in METRIC_MM2}


def test_every_part_says_where_its_values_come_from(parts: Parts) -> None:
    assert {name for name, part in all_parts(parts).items() if not part.source} == set()


def test_names_are_made_of_plain_words(parts: Parts) -> None:
    words = {word for name in all_parts(parts) for word in re.findall("[a-zA-Z]+", name.split()[1])}
    assert words == WORDS


def test_texts_name_institutions_and_no_makers(parts: Parts) -> None:
    texts = [part.source + " " + part.note + " " + getattr(part, "lock", "") for part in all_parts(parts).values()]
    assert {word for text in texts for word in re.findall(r"\b[A-Z]\w+", text)} == CAPITALS


def test_wires_down_to_22_gauge_have_the_resistance_of_table_11_9(parts: Parts, awg: dict[str, int]) -> None:
    expected = {n: TABLE_11_9_OHM_PER_1000_FT[g] for n, g in awg.items() if g not in STRANDS}
    found = {name: parts.wires[name].resistance_ohm_per_m * FOOT_MM for name in expected}
    assert found == pytest.approx(expected)
    assert len(found) >= 10


def test_thinner_wires_have_the_nominal_resistance_of_their_strands(parts: Parts, awg: dict[str, int]) -> None:
    expected = {n: NOMINAL_TINNED_OHM_PER_1000_FT[g, STRANDS[g]] for n, g in awg.items() if g in STRANDS}
    found = {name: parts.wires[name].resistance_ohm_per_m * FOOT_MM for name in expected}
    assert found == pytest.approx(expected)


def test_small_metric_wires_have_the_resistance_of_their_section_and_a_little_more(parts: Parts) -> None:
    # Strands are tinned and longer than their wire: 5 % over annealed copper at most (common practice).
    for name in ("pvc-014", "pvc-025", "pvc-034"):
        solid = COPPER_OHM_MM2_PER_M / parts.wires[name].gauge.area_mm2
        assert solid <= parts.wires[name].resistance_ohm_per_m <= 1.05 * solid, name


def test_metric_wires_from_half_a_square_millimetre_on_have_the_greatest_resistance_of_class_5(parts: Parts) -> None:
    expected = CLASS_5_TINNED_OHM_PER_KM_FROM_MEMORY
    found = {area: parts.wires[f"pvc-{round(100 * area):03d}"].resistance_ohm_per_m * 1000 for area in expected}
    assert found == pytest.approx(expected)


def test_a_thicker_pvc_wire_bears_no_less_current_whatever_its_gauge_is_written_in(parts: Parts) -> None:
    wires = [part for name, part in parts.wires.items() if name.startswith("pvc-")]
    currents = [part.current_a or 0 for part in sorted(wires, key=lambda part: part.gauge.area_mm2)]
    assert currents == sorted(currents)
    assert len(currents) == len(GAUGES) + len(METRIC_MM2)


def test_silicone_wires_bear_no_less_in_free_air_than_deep_in_a_harness(parts: Parts) -> None:
    # Table 11-9 holds for 33 wires and more at 60 000 ft; its 200 °C column is that of silicone.
    for gauge in set(GAUGES) & TABLE_11_9_CURRENT_A.keys():
        assert (parts.wires[f"silicone-{gauge}"].current_a or 0) >= TABLE_11_9_CURRENT_A[gauge][2], gauge


def test_fluoropolymer_wires_leave_their_current_to_the_table_as_far_as_it_goes(parts: Parts) -> None:
    own = {gauge for gauge in GAUGES if parts.wires[f"fluoro-{gauge}"].current_a is not None}
    assert own == set(GAUGES) - TABLE_11_9_CURRENT_A.keys()


def test_wires_weigh_their_copper_and_no_more_insulation_than_they_have_room_for(parts: Parts) -> None:
    # Strands are up to 1.19 × the nominal section (table 11-9: 1216 circular mils for 20 AWG, which has 1021.5); the
    # densest insulation is of 2.2 g/cm³ (fluoropolymer, from memory).
    for name, part in parts.wires.items():
        copper = COPPER_G_PER_CM3 * part.gauge.area_mm2
        room = math.pi / 4 * part.diameter_mm**2 - part.gauge.area_mm2
        assert copper <= (part.mass_g_per_m or 0) <= 1.2 * copper + 2.2 * room, name


def test_wires_thinner_than_table_11_9_or_under_its_105_degrees_have_a_current_of_their_own(
    parts: Parts, awg: dict[str, int]
) -> None:
    lacking = {
        name
        for name, part in parts.wires.items()
        if part.current_a is None and (awg.get(name, 99) > 24 or part.limit_c is None or part.limit_c < 105)
    }
    assert lacking == set()


def test_a_heavier_wire_of_a_series_is_thicker_weighs_more_and_resists_less(parts: Parts, awg: dict[str, int]) -> None:
    series: dict[str, list[str]] = {}
    for name in sorted(parts.wires, key=lambda name: -parts.wires[name].gauge.area_mm2):
        series.setdefault(name.split("-")[0] + (" AWG" if name in awg else " mm²"), []).append(name)
    for names in series.values():
        wires = [parts.wires[name] for name in names]
        for heavy, light in itertools.pairwise(wires):
            assert heavy.diameter_mm > light.diameter_mm
            assert heavy.resistance_ohm_per_m < light.resistance_ohm_per_m
            assert (heavy.mass_g_per_m or 0) > (light.mass_g_per_m or 0)


LINED = ("shrink3-", "clear3-")


def of_series(parts: Parts, *series: str) -> dict[str, TubePart]:
    return {name: tube for name, tube in parts.tubes.items() if name.startswith(series)}


def test_thin_walled_tubes_have_the_diameters_of_the_data_sheet_and_the_metric_sizes(parts: Parts) -> None:
    sizes = {size: size / 2 for size in METRIC_THIN_WALL_MM} | {size: THIN_WALL[size][0] for size in THIN_WALL}
    for name, tube in of_series(parts, "shrink-", "clear-").items():
        assert tube.recovered_mm == sizes[tube.expanded_mm], name
    assert {tube.expanded_mm for tube in of_series(parts, "shrink-").values()} == sizes.keys()


def test_thin_walled_tubes_have_the_walls_of_the_data_sheet_within_their_uncertainty(parts: Parts) -> None:
    for name, tube in of_series(parts, "shrink-", "clear-").items():
        if tube.expanded_mm in THIN_WALL:
            assert tube.wall_mm == pytest.approx(THIN_WALL[tube.expanded_mm][1], abs=WALL_UNCERTAINTY_MM), name


def test_walls_are_those_of_the_data_sheet_rounded_and_of_metric_sizes_as_beside_them_or_a_little_thinner(
    parts: Parts,
) -> None:
    """Between two sizes of the data sheet a metric one has a wall between theirs: common practice, no source."""
    inch_mm = sorted(THIN_WALL)
    walls_mm = [THIN_WALL[size][1] for size in inch_mm]
    for name, tube in of_series(parts, "shrink-", "clear-").items():
        over_mm = tube.wall_mm - float(numpy.interp(tube.expanded_mm, inch_mm, walls_mm))
        thinner_mm, thicker_mm = (0.05, 0.05) if tube.expanded_mm in THIN_WALL else (0.061, 0.03)
        assert -thinner_mm <= over_mm <= thicker_mm, name


@pytest.mark.parametrize("series", LINED)
def test_lined_tubes_are_those_of_the_remembered_series(parts: Parts, series: str) -> None:
    tubes = of_series(parts, series)
    expected = {name: LINED_MM_FROM_MEMORY[tube.expanded_mm] for name, tube in tubes.items()}
    assert {name: (tube.recovered_mm, tube.wall_mm) for name, tube in tubes.items()} == expected
    assert {tube.expanded_mm for tube in tubes.values()} == LINED_MM_FROM_MEMORY.keys()


def test_tubes_stand_the_heat_of_their_series(parts: Parts) -> None:
    expected = {name: LINED_LIMIT_C if name.startswith(LINED) else THIN_WALL_LIMIT_C for name in parts.tubes}
    assert {name: tube.limit_c for name, tube in parts.tubes.items()} == expected


@pytest.mark.parametrize(("series", "ratio"), [("shrink-", 2), ("clear-", 2), ("shrink3-", 3), ("clear3-", 3)])
def test_tubes_shrink_by_their_ratio(parts: Parts, series: str, ratio: int) -> None:
    # Sizes are rounded: thin ones to a tenth of a millimetre, 9.5 to 4.8; lined ones as far as 3.2 to 1.0.
    rounding = {2: 0.025, 3: 0.07}[ratio]
    for name, tube in of_series(parts, series).items():
        assert tube.expanded_mm / tube.recovered_mm == pytest.approx(ratio, rel=rounding), name


def narrowest(sleeves: Iterable[tuple[str, SleevePart]], bundle_mm: float) -> str:
    """Return which sleeve fits with the least upper end; of equals the first."""
    fitting = [(name, part) for name, part in sleeves if part.fits_mm[0] <= bundle_mm <= part.fits_mm[1]]
    return min(fitting, key=lambda sleeve: sleeve[1].fits_mm[1])[0]


def test_a_bundle_of_three_leads_of_22_gauge_takes_the_braid_of_4_mm(parts: Parts) -> None:
    # 1.6 (1 + 2/√3) = 3.45 mm, by hand.
    assert narrowest(parts.sleeves.items(), 3.45) == "braid-4"


def test_at_every_diameter_an_ordinary_run_takes_a_braid(parts: Parts) -> None:
    # A sleeve for heat is heavy, a spiral wrap bears little heat: neither may come before a braid.
    for tenths in range(10, 301):
        assert narrowest(parts.sleeves.items(), tenths / 10).startswith("braid-"), tenths / 10


def test_at_every_diameter_there_is_a_sleeve_that_bears_an_exhaust(parts: Parts) -> None:
    bearing = [(name, sleeve) for name, sleeve in parts.sleeves.items() if sleeve.limit_c >= 200]
    for tenths in range(10, 301):
        assert narrowest(bearing, tenths / 10).startswith("heat-"), tenths / 10


def test_every_sleeve_has_a_mass_and_shortens_no_less_when_it_is_opened(parts: Parts) -> None:
    for name, sleeve in parts.sleeves.items():
        assert sleeve.mass_g_per_m, name
        assert sleeve.shortening == tuple(sorted(sleeve.shortening)), name


def test_braids_keep_near_the_range_of_the_guide(parts: Parts) -> None:
    # "About" 1.8: braid-4 goes to 8 mm, twice its nominal diameter.
    for name, sleeve in parts.sleeves.items():
        if sleeve.kind == "braided sleeve":
            least, most = (end / int(name.split("-")[1]) for end in sleeve.fits_mm)
            assert BRAID_RANGE[0] <= least < 1 < most <= BRAID_RANGE[1] + 0.2, name


def test_heat_sleeves_stand_what_coated_glass_stands(parts: Parts) -> None:
    limits = {sleeve.limit_c for sleeve in parts.sleeves.values() if sleeve.kind == "heat sleeve"}
    assert limits == {COATED_GLASS_LIMIT_C}


def test_spiral_wraps_keep_within_the_remembered_range_and_go_on_finished_leads(parts: Parts) -> None:
    wraps = sorted((g for g in parts.sleeves.values() if g.kind == "spiral wrap"), key=lambda g: g.fits_mm)
    for wrap, (least_in, most_in) in zip(wraps, SPIRAL_IN_FROM_MEMORY.values(), strict=True):
        assert wrap.splits
        assert least_in * INCH_MM <= wrap.fits_mm[0] < wrap.fits_mm[1] <= most_in * INCH_MM


def test_nobody_has_held_a_built_in_shell_against_the_part(parts: Parts) -> None:
    assert {name for name, shell in parts.shells.items() if shell.checked} == set()


@pytest.mark.parametrize("count", [9, 15, 25])
def test_contacts_of_a_d_shaped_shell_stand_where_the_footprints_have_them(parts: Parts, count: int) -> None:
    at = Connectors(parts).joints[f"dsub-{count}"].at_mm
    long, short = numbering.D_ROWS[count]
    expected = {str(1 + i): (i * numbering.D_PITCH_MM, 0.0) for i in range(long)}
    for i in range(short):
        right = numbering.D_STAGGER_MM + i * numbering.D_PITCH_MM
        expected[str(1 + long + i)] = right, -numbering.D_ROW_SPACING_MM
    first = at["1"]
    for contact, (right, up) in at.items():
        assert (right - first[0], up - first[1]) == pytest.approx(expected[contact], abs=0.005), contact
    assert at.keys() == expected.keys()


def test_the_nine_way_shell_agrees_with_the_pads_that_were_read(parts: Parts) -> None:
    at = Connectors(parts).joints["dsub-9"].at_mm
    for contact, (right, down) in numbering.D_9_PINS_MM.items():
        found = at[str(contact)][0] - at["1"][0], at["1"][1] - at[str(contact)][1]
        assert found == pytest.approx((right, down), abs=0.005)


@pytest.mark.parametrize("name", ["dsub-9", "dsub-15", "dsub-25", "block-6", "block-14"])
def test_contacts_are_measured_from_the_middle_of_the_shell(parts: Parts, name: str) -> None:
    at = Connectors(parts).joints[name].at_mm.values()
    rights, ups = [point[0] for point in at], [point[1] for point in at]
    assert max(rights) == pytest.approx(-min(rights))
    assert max(ups) == pytest.approx(-min(ups))


@pytest.mark.parametrize("name", ["dsub-9", "dsub-15", "dsub-25"])
def test_a_d_shaped_shell_s_contact_carries_what_is_listed(parts: Parts, name: str) -> None:
    assert parts.shells[name].contact.rating_a == numbering.D_CONTACT_CURRENT_A


@pytest.mark.parametrize("count", [6, 8, 10, 14])
def test_blocks_are_numbered_from_the_first_row_on_at_their_pitch(parts: Parts, count: int) -> None:
    """Two rows, 5 mm apart both ways, around their centre: of six 1 at the upper left, 6 at the lower right."""
    half = count // 2
    expected = {str(1 + i): (5 * (i % half) - 2.5 * (half - 1), 2.5 if i < half else -2.5) for i in range(count)}
    assert Connectors(parts).joints[f"block-{count}"].at_mm == expected
    assert [name for name in parts.shells if name.startswith("block-")] == [f"block-{n}" for n in (6, 8, 10, 14)]


def test_contacts_of_a_servo_plug_lie_at_its_pitch_with_the_positive_in_the_middle(parts: Parts) -> None:
    connector = Connectors(parts).joints["servo-3"]
    across = [connector.roles[contact] for contact in connector.contacts]
    assert across in (list(ROLES_ACROSS), list(ROLES_ACROSS[::-1]))
    assert [connector.at_mm[contact][0] for contact in connector.contacts] == [-PITCH_MM, 0, PITCH_MM]


# 0.34 mm² is the metric size that the trade sells for 22 AWG: common practice, no source.
def test_contacts_that_take_22_gauge_take_its_metric_twin_and_no_other(parts: Parts) -> None:
    contacts = [part.contact for part in parts.plugs.values()] + [part.contact for part in parts.shells.values()]
    up_to_22 = [contact.takes for contact in contacts if contact.takes and contact.takes[1].text == "22 AWG"]
    taken = {
        (size, takes_gauge((takes[0], takes[1]), parse_gauge(size)))
        for takes in up_to_22
        for size in ("22 AWG", "0.34 mm²", "0.35 mm²", "21 AWG", "0.5 mm²")
    }
    assert taken == {("22 AWG", True), ("0.34 mm²", True), ("0.35 mm²", False), ("21 AWG", False), ("0.5 mm²", False)}
    assert len(up_to_22) >= 4


# Thin-walled servo contacts take 28 to 22 AWG of 1.7 mm at most (common practice, no source).
@pytest.mark.parametrize(
    ("wire", "fits"),
    [("pvc-22", True), ("pvc-28", True), ("pvc-20", False), ("silicone-24", True), ("fluoro-20", False)],
)
def test_a_contact_is_crimped_on_what_it_takes_and_what_goes_in(parts: Parts, wire: str, fits: bool) -> None:
    assert parts.plugs["servo-3"].contact.fits(parts.wires[wire]) == fits


def test_every_tube_says_what_heat_it_stands(parts: Parts) -> None:
    # A tube without a limit would be taken for one that stands anything.
    assert {name for name, tube in parts.tubes.items() if tube.limit_c is None} == set()
