"""The built-in parts against published tables."""

from __future__ import annotations

import itertools
import re

import pytest
from reference import connector_numbering as numbering
from reference.conversions import FOOT_MM
from reference.heat_shrink import LINED_MM_FROM_MEMORY, THIN_WALL_MM, WALL_UNCERTAINTY_MM
from reference.servo_leads import PITCH_MM, ROLES_ACROSS
from reference.wire_tables import (
    COPPER_OHM_MM2_PER_M,
    NOMINAL_TINNED_OHM_PER_1000_FT,
    TABLE_11_9_OHM_PER_1000_FT,
)

from docgen.basics.shipped import shipped_folder
from docgen.definition.load import load_definition
from docgen.definition.model import Parts
from docgen.harness.connectors import connector_of

# The strands whose nominal resistance is meant where table 11-9 does not serve: it ends at 24 gauge, and its
# figure for 24 looks like that of a high-strength alloy.
STRANDS = {24: "19/36", 26: "19/38", 28: "19/40"}


@pytest.fixture(scope="module")
def parts() -> Parts:
    definition, _ = load_definition(shipped_folder("examples") / "wren")
    assert definition is not None
    return definition.parts


@pytest.fixture(scope="module")
def awg(parts: Parts) -> dict[str, int]:
    """Return the gauge number of every wire that has one."""
    found = {name: re.fullmatch(r"(\d+) AWG", part.gauge.text) for name, part in parts.wires.items()}
    return {name: int(match.group(1)) for name, match in found.items() if match}


def test_wires_down_to_22_gauge_have_the_resistance_of_table_11_9(parts: Parts, awg: dict[str, int]) -> None:
    expected = {n: TABLE_11_9_OHM_PER_1000_FT[g] for n, g in awg.items() if g not in STRANDS}
    found = {name: parts.wires[name].resistance * FOOT_MM for name in expected}
    assert found == pytest.approx(expected)
    assert len(found) >= 10


def test_thinner_wires_have_the_nominal_resistance_of_their_strands(parts: Parts, awg: dict[str, int]) -> None:
    expected = {n: NOMINAL_TINNED_OHM_PER_1000_FT[g, STRANDS[g]] for n, g in awg.items() if g in STRANDS}
    found = {name: parts.wires[name].resistance * FOOT_MM for name in expected}
    assert found == pytest.approx(expected)


def test_metric_wires_have_the_resistance_of_their_section_and_a_little_more(parts: Parts, awg: dict[str, int]) -> None:
    # Strands are tinned and longer than their wire: 5 % over annealed copper at most (common practice).
    for name in parts.wires.keys() - awg.keys():
        solid = COPPER_OHM_MM2_PER_M / parts.wires[name].gauge.area_mm2
        assert solid <= parts.wires[name].resistance <= 1.05 * solid, name


def test_wires_thinner_than_table_11_9_or_under_its_105_degrees_have_a_current_of_their_own(
    parts: Parts, awg: dict[str, int]
) -> None:
    lacking = {
        name
        for name, part in parts.wires.items()
        if part.current is None and (awg.get(name, 99) > 24 or part.limit is None or part.limit < 105)
    }
    assert lacking == set()


def test_a_heavier_wire_of_a_series_is_thicker_weighs_more_and_resists_less(parts: Parts, awg: dict[str, int]) -> None:
    series: dict[str, list[str]] = {}
    for name in sorted(awg, key=lambda name: awg[name]):
        series.setdefault(name.split("-")[0], []).append(name)
    for names in series.values():
        wires = [parts.wires[name] for name in names]
        for heavy, light in itertools.pairwise(wires):
            assert heavy.diameter > light.diameter
            assert heavy.resistance < light.resistance
            assert (heavy.mass or 0) > (light.mass or 0)


def test_thin_walled_tubes_have_the_diameters_of_the_data_sheet(parts: Parts) -> None:
    tubes = {n: t for n, t in parts.tubes.items() if not n.startswith("shrink3-")}
    expected = {name: THIN_WALL_MM[tube.expanded][0] for name, tube in tubes.items()}
    assert {name: tube.recovered for name, tube in tubes.items()} == expected
    assert len(tubes) >= 8


def test_thin_walled_tubes_have_the_walls_of_the_data_sheet_within_their_uncertainty(parts: Parts) -> None:
    for name, tube in parts.tubes.items():
        if not name.startswith("shrink3-"):
            assert tube.wall == pytest.approx(THIN_WALL_MM[tube.expanded][1], abs=WALL_UNCERTAINTY_MM), name


def test_lined_tubes_are_those_of_the_remembered_series(parts: Parts) -> None:
    tubes = {name: tube for name, tube in parts.tubes.items() if name.startswith("shrink3-")}
    expected = {name: LINED_MM_FROM_MEMORY[tube.expanded] for name, tube in tubes.items()}
    assert {name: (tube.recovered, tube.wall) for name, tube in tubes.items()} == expected


@pytest.mark.parametrize("count", [9, 15, 25])
def test_contacts_of_a_d_shaped_shell_stand_where_the_footprints_have_them(parts: Parts, count: int) -> None:
    at = connector_of(parts, f"dsub-{count}").at_mm
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
    at = connector_of(parts, "dsub-9").at_mm
    for contact, (right, down) in numbering.D_9_PINS_MM.items():
        found = at[str(contact)][0] - at["1"][0], at["1"][1] - at[str(contact)][1]
        assert found == pytest.approx((right, down), abs=0.005)


@pytest.mark.parametrize("name", ["dsub-9", "dsub-15", "dsub-25", "block-6", "block-14"])
def test_contacts_are_measured_from_the_middle_of_the_shell(parts: Parts, name: str) -> None:
    at = connector_of(parts, name).at_mm.values()
    rights, ups = [point[0] for point in at], [point[1] for point in at]
    assert max(rights) == pytest.approx(-min(rights))
    assert max(ups) == pytest.approx(-min(ups))


@pytest.mark.parametrize("name", ["dsub-9", "dsub-15", "dsub-25"])
def test_a_d_shaped_shell_s_contact_carries_what_is_listed(parts: Parts, name: str) -> None:
    assert parts.shells[name].contact.rating == numbering.D_CONTACT_CURRENT_A


def test_blocks_are_numbered_from_the_first_row_on_at_their_pitch(parts: Parts) -> None:
    # Two rows of three, 5 mm apart both ways, around their centre: 1 at the upper left, 6 at the lower right.
    at = connector_of(parts, "block-6").at_mm
    assert (at["1"], at["3"], at["6"]) == ((-5, 2.5), (5, 2.5), (5, -2.5))


def test_contacts_of_a_servo_plug_lie_at_its_pitch_with_the_positive_in_the_middle(parts: Parts) -> None:
    connector = connector_of(parts, "servo-3")
    across = [connector.roles[contact] for contact in connector.contacts]
    assert across in (list(ROLES_ACROSS), list(ROLES_ACROSS[::-1]))
    assert [connector.at_mm[contact][0] for contact in connector.contacts] == [-PITCH_MM, 0, PITCH_MM]
