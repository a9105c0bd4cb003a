"""Definitions that are altered by chance: whatever they hold, no traceback, and every finding and text in its place."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

import pytest
from mutants import faults_of, mutant, sources

if TYPE_CHECKING:
    from conftest import AircraftFolder

# Many more are tried by hand: bench/mutations.py.
SOURCES = sources(3)


@pytest.mark.parametrize(
    "seeds",
    [pytest.param(range(1, 101), marks=pytest.mark.long), pytest.param(range(101, 501), marks=pytest.mark.longest)],
    ids=["few", "many"],
)
def test_nothing_that_is_written_ends_in_a_traceback(seeds: range, aircraft_folder: AircraftFolder) -> None:
    for seed in seeds:
        folder = aircraft_folder.written(of_seed(seed))
        assert list(faults_of(folder, printed=seed % 10 == 0)) == [], seed


def of_seed(seed: int) -> dict[str, str]:
    dice = random.Random(seed)
    return mutant(SOURCES[seed % len(SOURCES)], dice)


@pytest.mark.parametrize("name", ["two words", "60 AWG", "é"])
def test_a_name_that_is_refused_stops_nothing_else(name: str, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder({"harness.yaml": [("  rudder:\n    label", f"  {name}:\n    label")]})
    assert list(faults_of(folder, printed=False)) == []
