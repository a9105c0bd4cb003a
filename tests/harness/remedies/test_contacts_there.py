"""More contacts are a remedy only while as many stay spare as are wanted."""

from __future__ import annotations

from pathlib import Path

import pytest
from resolved import EXAMPLES, harness_of

from docgen.definition.load import load_definition
from docgen.harness import resolve as resolving
from docgen.harness.electrical.cases import Electricity
from docgen.harness.electrical.loadings import Loadings
from docgen.harness.electrical.results import results_of
from docgen.harness.model.harness import Harness
from docgen.harness.model.results import Results
from docgen.harness.remedies.choices import Choices
from docgen.harness.remedies.rework import Rework
from docgen.paperwork.kinds import ACCEPTABLE


@pytest.mark.parametrize(("kept", "contacts", "can_be"), [(1, 3, True), (1, 4, False), (2, 3, False), (0, 4, True)])
def test_a_common_gets_as_many_more_contacts_as_are_spare_beyond_those_wanted(
    kept: int, contacts: int, can_be: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By hand: 12 of the 14 contacts of a wing's second joint carry something; its positives share 1 and 2."""
    seen: list[Electricity] = []

    def noted(harness: Harness, electricity: Electricity, loadings: Loadings) -> Results:
        seen.append(electricity)
        return results_of(harness, electricity, loadings)

    monkeypatch.setattr(resolving, "results_of", noted)
    for path in (EXAMPLES / "fulmar").glob("*.yaml"):
        text = path.read_text("utf-8").replace("spare_contacts: 2", f"spare_contacts: {kept}")
        (tmp_path / path.name).write_text(text, "utf-8")
    harness = harness_of(tmp_path)
    rework = Rework(Choices(load_definition(tmp_path, ACCEPTABLE)[0], harness, seen[0]))
    rework.contacts_of["left-wing-b", "wing-positive"] = contacts
    assert (rework.resistances_ohm() is not None) == can_be
