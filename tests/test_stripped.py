"""What a definition without some of its lengths comes to, beside the whole one and one with other lengths."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import stripped
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from docgen.basics.findings import Level
from docgen.pipeline import Checked, check

_SETTINGS = settings(
    deadline=None, suppress_health_check=[HealthCheck.too_slow], phases=[Phase.explicit, Phase.generate]
)


def checked(said: stripped.Definition) -> Checked:
    with TemporaryDirectory() as folder:
        return check(stripped.folder_of(said, Path(folder) / "aircraft"))


@st.composite
def hidden(draw: st.DrawFn, name: str) -> dict[stripped.Measure, float]:
    """Hide all coordinates of an example and some of its lengths, or all, and say how many times as long they might be.

    With coordinates a run that is not measured is as long as the straight line.
    """
    _, measures = stripped.of_example(name)
    lengths = [measure for measure in measures if measure[-1] != "at"]
    chosen = draw(st.sets(st.sampled_from(lengths), max_size=4) | st.just(set(lengths)))
    return {measure: draw(st.floats(0.7, 1.4)) for measure in measures if measure[-1] == "at" or measure in chosen}


def assert_nothing_rests_on(name: str, hidden: dict[stripped.Measure, float]) -> None:
    """Hold that no figure of the stripped definition is another one where what is hidden is."""
    said, _ = stripped.of_example(name)
    found = checked(stripped.without(said, hidden))
    assert [finding for finding in found.findings if finding.level is Level.ERROR] == []
    assert found.harness is not None
    for whole in (checked(said), checked(stripped.otherwise(said, hidden))):
        assert whole.harness is not None, whole.findings
        if stripped.routes(whole.harness) != stripped.routes(found.harness):
            continue  # of several ways another is the shortest, so that other leads lie together
        others = stripped.figures(whole)
        assert {path: value for path, value in stripped.figures(found).items() if others.get(path) != value} == {}
        made = stripped.made(whole.harness)
        assert {of: some - made[of] for of, some in stripped.made(found.harness).items()} == {of: set() for of in made}
        told = {(finding.name, finding.subject, finding.sentence) for finding in whole.findings}
        own = {"unmeasured", "straight"}
        assert [f for f in found.findings if f.name not in own and (f.name, f.subject, f.sentence) not in told] == []
        assert stripped.labels(found.harness) == stripped.labels(whole.harness)
        assert stripped.cards(found.harness) == stripped.cards(whole.harness)


@settings(_SETTINGS, max_examples=10)
@given(hidden("wren"))
@pytest.mark.long
def test_no_figure_of_wren_rests_on_a_hidden_length(hidden: dict[stripped.Measure, float]) -> None:
    assert_nothing_rests_on("wren", hidden)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
@pytest.mark.long
def test_without_any_length_labels_and_cards_are_as_of_the_whole(name: str) -> None:
    _, measures = stripped.of_example(name)
    assert_nothing_rests_on(name, dict.fromkeys(measures, 1.2))


@pytest.mark.longest
@settings(_SETTINGS, max_examples=8)
@given(hidden("fulmar"))
def test_no_figure_of_fulmar_rests_on_a_hidden_length(hidden: dict[stripped.Measure, float]) -> None:
    assert_nothing_rests_on("fulmar", hidden)
