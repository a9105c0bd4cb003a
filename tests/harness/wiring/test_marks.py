"""Wire marks: the taught scheme, letters, numbers, segments, and that no whole mark stands twice."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference import wire_marks
from resolved import EXAMPLES, harness_of

from docgen.basics.gauges import parse_gauge
from docgen.definition.harness import segment_letters
from docgen.harness.model.circuits import OwnLeads, Wire
from docgen.harness.model.harness import Harness
from docgen.harness.wiring.marks import Numbers, function_letter, wire_mark

# A whole mark: function letter, number, segment without I and O, size, N for a wire to negative.
MARK = re.compile(r"[A-Z][1-9]\d*[A-HJ-NP-Z]+\d+(\.\d+)?N?")


def marks(harness: Harness, circuit: str) -> list[dict[str, str]]:
    """Return the marks by role of each lead of a circuit."""
    return [{wire.role: wire.mark for wire in lead.wires} for lead in harness.circuits[circuit].leads]


def test_a_mark_has_the_order_of_the_published_example() -> None:
    parts = wire_marks.EXAMPLE_PARTS
    numbered = f"{parts['function']}{parts['number']}"
    assert wire_mark(numbered, str(parts["segment"]), str(parts["size"]), "negative") == wire_marks.EXAMPLE


def test_a_mark_that_is_not_negative_has_the_order_of_the_other_example() -> None:
    parts = wire_marks.SECOND_EXAMPLE_PARTS
    numbered = f"{parts['function']}{parts['number']}"
    mark = wire_mark(numbered, str(parts["segment"]), str(parts["size"]), "positive")
    assert mark == wire_marks.SECOND_EXAMPLE


@pytest.mark.parametrize(
    ("kind", "letter"),
    [
        ("light", wire_marks.LETTERS["light"]),
        ("light controller", wire_marks.LETTERS["light"]),
        ("servo", wire_marks.LETTERS_FROM_MEMORY["control surface"]),
        ("gear leg", wire_marks.LETTERS_FROM_MEMORY["landing gear"]),
        ("gear controller", wire_marks.LETTERS_FROM_MEMORY["landing gear"]),
        ("brake", wire_marks.LETTERS_FROM_MEMORY["landing gear"]),
        ("receiver", wire_marks.LETTERS_FROM_MEMORY["radio"]),
        ("engine unit", wire_marks.LETTERS_FROM_MEMORY["engine control"]),
        ("speed controller", wire_marks.LETTERS_FROM_MEMORY["engine control"]),
        # All others are M: the design, no source.
        ("pump", "M"),
        ("gyro", "M"),
        ("power unit", "M"),
        ("other", "M"),
    ],
)
def test_the_letter_follows_from_the_kind_of_the_load(kind: str, letter: str) -> None:
    assert function_letter(None, "receiver", kind, False) == letter


@pytest.mark.parametrize(("from_kind", "to_common"), [("battery", False), ("power switch", True)])
def test_what_comes_from_a_battery_or_ends_at_a_common_is_a_supply(from_kind: str, to_common: bool) -> None:
    assert function_letter(None, from_kind, "receiver", to_common) == wire_marks.LETTERS["power"]


@pytest.mark.parametrize("from_kind", ["battery", "receiver"])
def test_the_builder_s_letter_wins(from_kind: str) -> None:
    assert function_letter("S", from_kind, "servo", True) == "S"


def test_each_wire_that_is_not_negative_takes_a_number_and_the_negative_the_first_of_them() -> None:
    numbers = Numbers({})
    assert numbers.give("C", ["negative", "positive", "signal"], {}) == {
        "negative": "C1",
        "positive": "C1",
        "signal": "C2",
    }
    assert numbers.give("C", ["signal", "negative"], {}) == {"signal": "C3", "negative": "C3"}


def test_numbers_run_from_one_within_each_letter() -> None:
    numbers = Numbers({})
    numbers.give("C", ["negative", "positive", "signal"], {})
    assert numbers.give("L", ["positive"], {}) == {"positive": "L1"}
    assert numbers.give("C", ["positive"], {}) == {"positive": "C3"}


def test_a_circuit_of_a_negative_alone_takes_a_number() -> None:
    numbers = Numbers({})
    assert numbers.give("P", ["negative"], {}) == {"negative": "P1"}
    assert numbers.give("P", ["negative", "positive"], {}) == {"negative": "P2", "positive": "P2"}


def test_neither_wire_of_a_motor_pair_is_negative() -> None:
    given_numbers = Numbers({}).give("G", ["one", "other"], {})
    assert given_numbers == {"one": "G1", "other": "G2"}
    assert wire_mark(given_numbers["other"], "A", "22", "other") == "G2A22"


def test_segments_leave_out_the_letters_that_look_like_figures() -> None:
    letters = segment_letters(24)
    assert letters == sorted(set("ABCDEFGHIJKLMNOPQRSTUVWXYZ") - set(wire_marks.LETTERS_LEFT_OUT))


def test_segments_past_the_last_letter_are_still_told_apart() -> None:
    letters = segment_letters(200)
    assert len(set(letters)) == 200
    assert not {"I", "O"} & set("".join(letters))


@pytest.mark.parametrize(
    ("size", "mark"),
    [("22 AWG", "C3B22"), ("8 AWG", "C3B8"), ("0.25 mm²", "C3B0.25"), ("0.5 mm2", "C3B0.5")],
)
def test_a_mark_ends_in_the_size_without_its_unit(size: str, mark: str) -> None:
    assert wire_mark("C3", "B", parse_gauge(size).mark, "signal") == mark


CIRCUITS = st.lists(
    st.tuples(
        st.sampled_from("CGLPM"),
        st.lists(st.sampled_from(["negative", "positive", "signal", "data", "one"]), min_size=1, unique=True),
        st.lists(st.sampled_from(["22", "2", "20", "0.25", "0.2"]), min_size=1, max_size=30),
    ),
    max_size=30,
)


@given(CIRCUITS)
def test_no_whole_mark_stands_twice_in_any_harness(circuits: list[tuple[str, list[str], list[str]]]) -> None:
    numbers = Numbers({})
    every = []
    for letter, roles, sizes in circuits:
        numbered = numbers.give(letter, roles, {})
        for segment, size in zip(segment_letters(len(sizes)), sizes, strict=True):
            every += [wire_mark(numbered[role], segment, size, role) for role in roles]
    assert len(set(every)) == len(every)


def marked_wires(harness: Harness) -> list[Wire]:
    """Return all wires but those that came along up to a joint, which bear no marks."""
    own = [lead for lead in harness.leads() if isinstance(lead, OwnLeads) and lead.joint is not None]
    assert not any(wire.mark for lead in own for wire in lead.wires)
    return [wire for lead in harness.leads() if lead not in own for wire in lead.wires]


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_no_whole_mark_stands_twice_in_an_example(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    every = [wire.mark for wire in marked_wires(harness)]
    assert len(set(every)) == len(every)


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_every_mark_of_an_example_has_the_form_of_the_scheme(name: str) -> None:
    harness = harness_of(EXAMPLES / name)
    assert [wire.mark for wire in marked_wires(harness) if not MARK.fullmatch(wire.mark)] == []


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_only_negatives_of_an_example_end_in_n(name: str) -> None:
    wires = marked_wires(harness_of(EXAMPLES / name))
    assert [w.mark for w in wires if w.mark.endswith("N") != (w.role == "negative")] == []


@pytest.mark.parametrize("name", ["wren", "fulmar"])
def test_a_wire_keeps_letter_and_number_through_its_disconnects(name: str) -> None:
    for circuit in harness_of(EXAMPLES / name).circuits.values():
        numbers: dict[str, str] = {}
        letters = segment_letters(len(circuit.leads))
        for lead, letter in zip(circuit.leads, letters, strict=True):
            for wire in (wire for wire in lead.wires if wire.mark):
                numbered = numbers.setdefault(wire.role, re.findall(r"[A-Z]\d+", wire.mark)[0])
                assert wire.mark.startswith(f"{numbered}{letter}{wire.kind.gauge.mark}")


def test_left_is_numbered_before_right(aircraft_folder: Callable[..., Path]) -> None:
    harness = harness_of(aircraft_folder())
    assert marks(harness, "left-aileron")[0]["signal"] == "C2A22"
    assert marks(harness, "right-aileron")[0]["positive"] == "C3A22"


def test_numbers_follow_the_order_written(aircraft_folder: Callable[..., Path]) -> None:
    rudder = "  rudder:\n    label: RUD\n    from: receiver 4\n    to: rudder\n    lead: servo-22\n"
    rest = "    loop: 80 mm\n    channel: 4\n    throw: 40 mm each way\n"
    changes = [(rudder + rest, ""), ("circuits:\n", f"circuits:\n{rudder}{rest}")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert marks(harness, "rudder")[0] == {"negative": "C1A22N", "positive": "C1A22", "signal": "C2A22"}
    assert marks(harness, "left-aileron")[0]["positive"] == "C3A22"


def test_a_letter_of_the_builder_s_is_counted_with_the_others_of_its_letter(
    aircraft_folder: Callable[..., Path],
) -> None:
    changes = [("    lead: power-20", "    lead: power-20\n    function: C")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert marks(harness, "supply") == [{"negative": "C1A20N", "positive": "C1A20"}]
    assert marks(harness, "left-aileron")[0]["positive"] == "C2A22"


def test_a_metric_lead_is_marked_with_its_section(aircraft_folder: Callable[..., Path]) -> None:
    changes = [("lead: servo-22\n    loop: 80 mm\n    channel: 4", "lead: servo-025\n    channel: 4")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert marks(harness, "rudder") == [{"negative": "C5A0.25N", "positive": "C5A0.25", "signal": "C6A0.25"}]


def test_a_circuit_that_plugs_straight_in_is_marked_by_the_contacts_of_its_plug(
    aircraft_folder: Callable[..., Path],
) -> None:
    changes = [("    lead: servo-22\n    loop: 80 mm\n    channel: 4", "    channel: 4")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    # A servo's own lead is 26 gauge where nothing is said.
    assert marks(harness, "rudder") == [{"negative": "C5A26N", "positive": "C5A26", "signal": "C6A26"}]


def test_a_role_left_out_takes_no_number(aircraft_folder: Callable[..., Path]) -> None:
    changes = [("    channel: {left: 1, right: 2}", "    omit: [positive]")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert marks(harness, "left-aileron")[0] == {"negative": "C1A22N", "signal": "C1A22"}
    assert marks(harness, "right-aileron")[0] == {"negative": "C2A22N", "signal": "C2A22"}


def test_segments_of_different_sizes_carry_each_its_own(aircraft_folder: Callable[..., Path]) -> None:
    old = "through: [<side>-root]\n    lead: servo-22"
    changes = [(old, "through: [<side>-root]\n    lead: {A: servo-20, B: servo-24}")]
    harness = harness_of(aircraft_folder({"harness.yaml": changes}))
    assert [lead["signal"] for lead in marks(harness, "left-aileron")] == ["C2A20", "C2B24"]
