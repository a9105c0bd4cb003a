"""The state that is kept of an aircraft: what stands in it, and that it reads back the same."""

from __future__ import annotations

from pathlib import Path

import pytest
from resolved import state_of_example

from docgen.basics.source import plain, read_yaml, yaml_text
from docgen.definition.issued import State


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_a_state_reads_back_the_same(tmp_path: Path, name: str) -> None:
    state = state_of_example(name)
    path = tmp_path / "state.yaml"
    path.write_text(yaml_text(state.model_dump(exclude_defaults=True)), encoding="utf-8")
    node, findings = read_yaml(path, "state.yaml")
    assert findings == []
    assert node is not None
    assert State.model_validate(plain(node)) == state


def test_a_state_holds_the_contacts_and_marks_of_the_smallest_example() -> None:
    """As `method.md` lists them: supply P1A20, left aileron C1 and C2, right C3 and C4, rudder C5 and C6."""
    state = state_of_example("wren")
    assert state.numbers == {"C": 6, "P": 1}
    assert state.disconnects["left-root"].contacts == {
        "1": "left-aileron negative",
        "2": "left-aileron positive",
        "3": "left-aileron signal",
    }
    wires = state.circuits["right-aileron"].leads["B"].wires
    assert [(wire.mark, wire.at) for wire in wires.values()] == [
        ("C3B22N", (("1",), ("1",))),
        ("C3B22", (("2",), ("2",))),
        ("C4B22", (("3",), ("3",))),
    ]


def test_a_row_to_cut_is_told_apart_in_work_and_text() -> None:
    """Wren's rudder is cut to 1335 mm (`method.md`); its mark and its ends are no reason to cut it again."""
    row = state_of_example("wren").items["cut-list"]["rudder A signal"]
    assert row.work == ("1335 mm", "WH", "22 AWG", "pvc-22")
    assert row.text == ("C6A22", "RUD", "receiver 4", "rudder")


def test_every_label_card_row_and_sheet_is_an_item_with_a_hash() -> None:
    items = state_of_example("wren").items
    assert {kind: len(some) for kind, some in items.items() if kind != "sheets"} == {
        "cut-list": 17,  # supply 2, three wires in each of 5 leads
        "wire-labels": 12,  # both ends of 6 leads
        "pinout-cards": 5,  # both halves of 2 joints, the receiver
        "record": 7,  # the whole, 2 joints, the receiver, 3 assemblies
    }
    assert {"cut-list", "order-of-work", "ring-out-sheet", "hangar-card"} <= items["sheets"].keys()
    assert all(len(item.hash) == 8 for some in items.values() for item in some.values())
