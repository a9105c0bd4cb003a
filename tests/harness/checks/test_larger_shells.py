"""How large a shell has to be that keeps contacts to spare."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from remedied import Case, about, definition, findings_in, servo, through_wing

WrittenFolder = Callable[[Mapping[str, str]], Path]


# Spare are to be two of up to 25 contacts, four of 26 to 100 (FAA AC 43.13-1B 11-234). Four servos on 12 of 14 leave
# two. Eight on 24 of 25 leave one: of 26 contacts two are left, of 28 four.
@pytest.mark.parametrize(
    ("servos", "shell", "kept", "words"),
    [
        (8, "dsub-25", None, "1 of 25 contacts to spare, 2 are wanted (AC 43.13-1B 11-234): 1 too few"),
        (8, "dsub-25", None, "at least 28 contacts"),
        (4, "block-14", "3", "2 of 14 contacts to spare, 3 are wanted (`limits: spare_contacts`): 1 too few"),
        (4, "block-14", "3", "at least 15 contacts"),
    ],
)
def test_a_shell_is_named_that_keeps_as_many_to_spare_as_its_own_size_wants(
    servos: int, shell: str, kept: str | None, words: str, written_folder: WrittenFolder
) -> None:
    names = [f"servo-{number}" for number in range(1, servos + 1)]
    circuits = {name: through_wing(f"unit {i}", name, "servo-22") for i, name in enumerate(names, 1)}
    said = definition({name: servo("1 A") for name in names}, circuits, shell=shell)
    said["harness"]["equipment"]["unit"]["ports"][2]["names"] = [str(number) for number in range(1, 10)]
    if kept is not None:
        said["harness"]["limits"] = {"spare_contacts": kept}
    found = about(findings_in(written_folder, said), Case("spare-contacts", "wing", {}))
    assert words in f"{found.sentence} {found.do}"


def test_as_many_as_are_wanted_will_do(written_folder: WrittenFolder) -> None:
    names = ["ail", "flap", "tab", "slat"]
    circuits = {name: through_wing(f"unit {i}", name, "servo-22") for i, name in enumerate(names, 1)}
    found = findings_in(written_folder, definition({name: servo("1 A") for name in names}, circuits))
    assert "spare-contacts" not in {finding.name for finding in found}
