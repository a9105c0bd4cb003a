"""How thick bundles are: known packings, published examples, laws, and a search that knows nothing of the rule."""

from __future__ import annotations

import math
import random

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference.circle_packing import CLOSED_FORMS, MIXED_DIAMETER_MM, MIXED_WIRES_MM, SMALLEST_CIRCLE

from docgen.harness.bundling.diameters import gripped_diameter_mm, outside_diameter_mm

# From the thinnest own lead to a pack's lead, a jacketed cable or a twisted lead of three.
DIAMETERS_MM = st.floats(min_value=0.8, max_value=6.4)
BUNDLES = st.lists(DIAMETERS_MM, min_size=1, max_size=60)
NOISE_MM = 1e-9


def lower_bounds_mm(diameters: list[float]) -> list[float]:
    """Return what no circle can be smaller than, by geometry and the table of known packings."""
    thickest = sorted(diameters, reverse=True)
    bounds = [sum(thickest[:2]), math.sqrt(sum(d * d for d in diameters))]
    # The table is rounded to four or five figures.
    return bounds + [(SMALLEST_CIRCLE[k] - 6e-4) * d for k, d in enumerate(thickest[:20], 1)]


def searched_mm(bundles: list[list[float]], starts: int = 6, steps: int = 150) -> list[float]:
    """Find a circle around each bundle: pull circles from random starts to the middle and push them apart.

    What is found is a true packing: in the end all are moved apart until no two overlap.
    """
    draw = numpy.random.default_rng(20260418)
    radii = numpy.zeros((len(bundles), max(map(len, bundles))))
    for row, bundle in zip(radii, bundles, strict=True):
        row[: len(bundle)] = numpy.array(bundle) / 2
    radii = numpy.repeat(radii, starts, axis=0)
    at = draw.normal(size=(*radii.shape, 2)) * radii.sum(axis=1)[:, None, None] / 4
    real = radii > 0
    pairs = real[:, :, None] & real[:, None, :] & ~numpy.eye(radii.shape[1], dtype=bool)
    touching = radii[:, :, None] + radii[:, None, :]
    for step in range(steps):
        at *= 1 - 0.12 * (1 - step / steps) ** 2
        between = at[:, :, None] - at[:, None]
        apart = numpy.linalg.norm(between, axis=3) + 1e-12
        overlap = numpy.where(pairs, numpy.maximum(touching - apart, 0), 0)
        at += 0.45 * numpy.einsum("bijk,bij->bik", between, overlap / apart)
    apart = numpy.linalg.norm(at[:, :, None] - at[:, None], axis=3) + 1e-12
    at *= numpy.where(pairs, touching / apart, 0).max(axis=(1, 2))[:, None, None]
    found = around_mm(at, radii, real).reshape(len(bundles), starts).min(axis=1)
    return [float(diameter) for diameter in found]


def around_mm(
    at: numpy.ndarray[tuple[int, int, int], numpy.dtype[numpy.float64]],
    radii: numpy.ndarray[tuple[int, int], numpy.dtype[numpy.float64]],
    real: numpy.ndarray[tuple[int, int], numpy.dtype[numpy.bool_]],
) -> numpy.ndarray[tuple[int], numpy.dtype[numpy.float64]]:
    """Return the circle around laid circles, its middle going towards the farthest by ever smaller steps."""
    middle = numpy.zeros((len(at), 2))
    best = numpy.full(len(at), numpy.inf)
    for step in range(100):
        reach = numpy.where(real, numpy.linalg.norm(at - middle[:, None], axis=2) + radii, 0)
        best = numpy.minimum(best, reach.max(axis=1))
        farthest = at[numpy.arange(len(at)), reach.argmax(axis=1)]
        middle += (farthest - middle) / (step + 2)
    return 2 * best


@pytest.mark.parametrize(("count", "factor"), sorted((SMALLEST_CIRCLE | CLOSED_FORMS).items()))
def test_equal_wires_lie_in_the_known_circle(count: int, factor: float) -> None:
    assert outside_diameter_mm([1.0] * count) == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize(
    ("count", "wire_mm", "bundle_mm", "tolerance"),
    # The table of known packings: 3 × 1.47 mm; 19 and 4 wires of 1 mm.
    [(7, 1.47, 4.41, 0.01), (19, 1.0, 4.8637, 0.001), (4, 1.0, 2.4142, 0.0001)],
)
def test_worked_examples_of_equal_wires(count: int, wire_mm: float, bundle_mm: float, tolerance: float) -> None:
    assert outside_diameter_mm([wire_mm] * count) == pytest.approx(bundle_mm, abs=tolerance)


def test_the_mixed_bundle_of_a_wiring_data_book() -> None:
    wires = [diameter for count, diameter in MIXED_WIRES_MM for _ in range(count)]
    assert outside_diameter_mm(wires) == pytest.approx(MIXED_DIAMETER_MM, abs=5e-4)


def test_two_wires_lie_side_by_side() -> None:
    assert outside_diameter_mm([1.6, 1.0]) == pytest.approx(2.6)


def test_a_thin_wire_lies_in_the_gap_of_two_thick_ones() -> None:
    # Two circles of 1 leave room for one of 2/3 at each side (Descartes' theorem: curvatures 2, 2, −1 give 3).
    assert outside_diameter_mm([1.0, 1.0, 0.6]) == pytest.approx(2.0)


def test_nothing_has_no_thickness() -> None:
    assert outside_diameter_mm([]) == 0


@given(BUNDLES)
def test_no_bundle_is_thinner_than_geometry_allows(diameters: list[float]) -> None:
    assert outside_diameter_mm(diameters) >= max(lower_bounds_mm(diameters)) - NOISE_MM


@given(BUNDLES, DIAMETERS_MM)
def test_one_wire_more_never_makes_a_bundle_thinner(diameters: list[float], one_more: float) -> None:
    assert outside_diameter_mm([*diameters, one_more]) >= outside_diameter_mm(diameters) - NOISE_MM


@given(BUNDLES, st.randoms())
def test_the_order_of_wires_does_not_matter(diameters: list[float], shuffler: random.Random) -> None:
    shuffled = list(diameters)
    shuffler.shuffle(shuffled)
    assert outside_diameter_mm(shuffled) == outside_diameter_mm(diameters)


@given(BUNDLES, st.floats(min_value=0.1, max_value=10))
def test_wires_twice_as_thick_make_a_bundle_twice_as_thick(diameters: list[float], scale: float) -> None:
    scaled = outside_diameter_mm([scale * d for d in diameters])
    assert scaled == pytest.approx(scale * outside_diameter_mm(diameters))


def test_mixed_bundles_are_within_a_fifth_of_a_packing_found_by_search() -> None:
    draw = random.Random(7)
    bundles = [[draw.uniform(0.8, 6.4) for _ in range(draw.randint(2, 10))] for _ in range(200)]
    wrong = [
        (bundle, found)
        for bundle, found in zip(bundles, searched_mm(bundles), strict=True)
        if abs(outside_diameter_mm(bundle) - found) > 0.2 * found
        or outside_diameter_mm(bundle) < max(lower_bounds_mm(bundle)) - NOISE_MM
    ]
    assert wrong == []


def test_the_search_finds_the_known_packings() -> None:
    counts = range(2, 11)
    found = searched_mm([[1.0] * count for count in counts])
    for count, diameter in zip(counts, found, strict=True):
        assert SMALLEST_CIRCLE[count] - 6e-4 <= diameter <= 1.12 * SMALLEST_CIRCLE[count]


def test_hundreds_of_wires_in_one_run_are_gripped_within_the_circle_around_them() -> None:
    draw = random.Random(7)
    bundle = [draw.uniform(0.8, 6.4) for _ in range(600)]
    assert 0 < gripped_diameter_mm(bundle) <= outside_diameter_mm(bundle)


@given(st.lists(DIAMETERS_MM, min_size=1, max_size=24))
def test_a_band_is_never_longer_than_the_circle_around_the_wires(diameters: list[float]) -> None:
    assert gripped_diameter_mm(diameters) <= outside_diameter_mm(diameters) + NOISE_MM
