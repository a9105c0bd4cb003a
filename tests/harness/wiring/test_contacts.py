"""Giving out the contacts of a disconnect: order, blocks, what is pinned and what was issued."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.definition.kept import Issued
from docgen.definition.load import load_definition
from docgen.harness.resolve import resolve
from docgen.harness.wiring.contacts import Demand, give_contacts
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check

SIX = ("1", "2", "3", "4", "5", "6")


def pinned_to(contacts: str) -> Demand:
    """Return a demand that occupies these contacts, so that the others are free."""
    return Demand("pinned", len(contacts.split()), tuple(contacts.split()))


def splits(given: dict[str, tuple[str, ...]], contacts: Sequence[str], circuits: Sequence[str]) -> int:
    """Count circuits whose contacts do not follow each other."""
    at = [[contacts.index(contact) for contact in given[circuit]] for circuit in circuits]
    return sum(max(block) - min(block) >= len(block) for block in at)


def every_way(free: frozenset[int], counts: Sequence[int]) -> Iterator[tuple[tuple[int, ...], ...]]:
    """Walk all ways of giving free numbers to circuits that need so many each."""
    if not counts:
        yield ()
        return
    for block in itertools.combinations(sorted(free), counts[0]):
        for rest in every_way(free - set(block), counts[1:]):
            yield (block, *rest)


def fewest_splits(free: frozenset[int], counts: Sequence[int]) -> int:
    """Return the least number of split circuits over all ways."""
    return min(sum(block[-1] - block[0] >= len(block) for block in way if block) for way in every_way(free, counts))


def test_circuits_get_one_block_each_in_the_order_written() -> None:
    given_contacts, unfit = give_contacts(SIX, [Demand("second", 2), Demand("first", 3)])
    assert given_contacts == {"second": ("1", "2"), "first": ("3", "4", "5")}
    assert unfit == []


def test_the_order_is_that_of_the_shell_and_not_that_of_the_alphabet() -> None:
    given_contacts, _ = give_contacts(["9", "10", "11", "A"], [Demand("one", 2), Demand("other", 2)])
    assert given_contacts == {"one": ("9", "10"), "other": ("11", "A")}


def test_a_block_goes_past_a_gap_that_is_too_narrow() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("wide", 3), pinned_to("3")])
    assert given_contacts["wide"] == ("4", "5", "6")


def test_a_narrow_circuit_leaves_room_for_a_wide_one() -> None:
    # Free are 1 2 3 and 5 6: taking the first would leave no three together.
    given_contacts, _ = give_contacts(SIX, [Demand("narrow", 2), Demand("wide", 3), pinned_to("4")])
    assert given_contacts == {"narrow": ("5", "6"), "wide": ("1", "2", "3"), "pinned": ("4",)}


def test_what_must_be_split_gets_the_first_free_contacts() -> None:
    given_contacts, unfit = give_contacts(SIX, [Demand("wide", 3), pinned_to("3 6")])
    assert given_contacts["wide"] == ("1", "2", "4")
    assert unfit == []


def test_pinned_contacts_are_kept_in_the_order_pinned_whatever_stands_before() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("free", 3), Demand("pinned", 3, ("3", "1", "2"))])
    assert given_contacts == {"free": ("4", "5", "6"), "pinned": ("3", "1", "2")}


def test_issued_contacts_are_kept_whatever_stands_before() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("new", 3), Demand("old", 3, issued=("1", "2", "3"))])
    assert given_contacts == {"new": ("4", "5", "6"), "old": ("1", "2", "3")}


def test_a_pin_displaces_what_was_issued_and_no_more_than_that() -> None:
    demands = [Demand("old", 2, issued=("1", "2")), Demand("new", 2), Demand("pinned", 2, ("2", "3"))]
    given_contacts, _ = give_contacts(SIX, demands)
    assert given_contacts == {"pinned": ("2", "3"), "old": ("1", "4"), "new": ("5", "6")}


def test_a_circuit_s_own_pin_is_stronger_than_what_was_issued_for_it() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("one", 2, ("5", "6"), ("1", "2"))])
    assert given_contacts == {"one": ("5", "6")}


def test_a_circuit_with_another_role_keeps_the_contacts_of_the_others() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("grown", 3, issued=("5", None, "6"))])
    assert given_contacts == {"grown": ("5", "1", "6")}


def test_of_issued_contacts_that_the_shell_has_no_more_the_others_stay() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("moved", 2, issued=("6", "7"))])
    assert given_contacts == {"moved": ("6", "1")}


def test_contacts_that_were_used_before_are_given_last() -> None:
    given_contacts, _ = give_contacts(SIX, [Demand("one", 2), Demand("other", 2)], {"1", "2", "3"})
    assert given_contacts == {"one": ("4", "5"), "other": ("1", "2")}


def test_who_does_not_fit_is_the_one_written_last() -> None:
    given_contacts, unfit = give_contacts(SIX, [Demand(name, 3) for name in ("one", "other", "third")])
    assert set(given_contacts) == {"one", "other"}
    assert unfit == ["third"]


@st.composite
def small_cases(draw: st.DrawFn) -> tuple[list[str], list[Demand], list[int]]:
    """Return up to eight contacts, some of them pinned, and circuits that fit into the rest."""
    contacts = [str(number) for number in range(1, draw(st.integers(1, 8)) + 1)]
    occupied = draw(st.lists(st.sampled_from(contacts), unique=True, max_size=len(contacts) // 2))
    counts: list[int] = []
    room = len(contacts) - len(occupied)
    while room and len(counts) < 4:
        counts.append(draw(st.integers(1, min(3, room))))
        room -= counts[-1]
        if draw(st.booleans()):
            break
    demands = [Demand(f"circuit-{index}", count) for index, count in enumerate(counts)]
    if occupied:
        demands.append(pinned_to(" ".join(occupied)))
    return contacts, demands, counts


@given(small_cases())
def test_no_more_circuits_are_split_than_in_the_best_of_all_ways(
    case: tuple[list[str], list[Demand], list[int]],
) -> None:
    contacts, demands, counts = case
    given_contacts, unfit = give_contacts(contacts, demands)
    assert unfit == []
    occupied = set(given_contacts.get("pinned", ()))
    free = frozenset(index for index, contact in enumerate(contacts) if contact not in occupied)
    circuits = [demand.circuit for demand in demands if demand.circuit != "pinned"]
    assert splits(given_contacts, contacts, circuits) == fewest_splits(free, counts)


def test_a_circuit_that_must_be_split_does_not_split_another() -> None:
    # Free are 1 2, 4 5 and 7: three together there are nowhere, two are.
    seven = (*SIX, "7")
    given_contacts, _ = give_contacts(seven, [Demand("wide", 3), Demand("narrow", 2), pinned_to("3 6")])
    assert given_contacts["narrow"] in {("1", "2"), ("4", "5")}


@given(small_cases())
def test_each_contact_is_given_once_and_each_circuit_gets_what_it_needs(
    case: tuple[list[str], list[Demand], list[int]],
) -> None:
    contacts, demands, _ = case
    given_contacts, _ = give_contacts(contacts, demands)
    every = [contact for block in given_contacts.values() for contact in block]
    assert len(every) == len(set(every))
    assert set(every) <= set(contacts)
    assert {name: len(block) for name, block in given_contacts.items()} == {
        demand.circuit: demand.count for demand in demands
    }


@given(small_cases())
def test_what_is_not_pinned_is_given_in_number_order(
    case: tuple[list[str], list[Demand], list[int]],
) -> None:
    contacts, demands, _ = case
    given_contacts, _ = give_contacts(contacts, demands)
    for name, block in given_contacts.items():
        if name != "pinned":
            assert list(block) == sorted(block, key=contacts.index)


@pytest.mark.long
def test_a_large_shell_is_given_out_though_no_search_ends_there() -> None:
    contacts = [str(number) for number in range(1, 129)]
    odd = " ".join(contacts[::2])
    given_contacts, unfit = give_contacts(contacts, [*[Demand(f"circuit-{i}", 3) for i in range(21)], pinned_to(odd)])
    assert len(given_contacts) == 22
    assert unfit == []


THIRD = """
  extra:
    from: receiver 3
    to: extra
    through: [left-root]
    lead: servo-22
"""
EXTRA = """
  extra:
    kind: servo
    place: left-aileron
    lead: 250 mm
    plug: servo-3

# Where the harness comes apart"""


def with_extra_servo(circuit: str = THIRD) -> dict[str, list[tuple[str, str]]]:
    """Return changes that put a second servo into the left panel, its circuit written first."""
    return {
        "harness.yaml": [
            ("\n# Where the harness comes apart", EXTRA),
            ("circuits:\n", f"circuits:{circuit}"),
        ]
    }


def test_pinned_contacts_carry_the_roles_in_the_order_of_the_lead(
    aircraft_folder: Callable[..., Path],
) -> None:
    pinned = THIRD + "    contacts: {left-root: [6, 2, 4]}\n"
    harness = check(aircraft_folder(with_extra_servo(pinned))).harness
    assert harness is not None
    uses = harness.disconnects["left-root"].uses
    roles = {contact: next(iter(use.wires.values())).role for contact, use in uses.items()}
    assert (roles["6"], roles["2"], roles["4"]) == ("negative", "positive", "signal")
    assert {use.of for use in harness.disconnects["left-root"].uses.values()} == {
        "extra",
        "left-aileron",
    }


def test_what_was_issued_stays_when_a_circuit_is_written_before_it(
    aircraft_folder: Callable[..., Path],
) -> None:
    definition, _ = load_definition(aircraft_folder(with_extra_servo()), ACCEPTABLE)
    assert definition is not None
    roles = ("negative", "positive", "signal")
    issued = Issued({("left-root", "left-aileron", role): contact for role, contact in zip(roles, "123", strict=True)})
    harness, _ = resolve(definition, issued)
    assert harness is not None
    circuits = {contact: use.of for contact, use in harness.disconnects["left-root"].uses.items()}
    assert circuits == dict.fromkeys("123", "left-aileron") | dict.fromkeys("456", "extra")


@pytest.mark.parametrize("rows", ["[[1, 2, 3]]", "[[1, 2], [3, 4, 5]]"])
def test_a_shell_that_is_too_small_names_who_did_not_fit(aircraft_folder: Callable[..., Path], rows: str) -> None:
    contact = "{rating: 10 A, resistance: 5 mohm}"
    shell = f"{{rows: {rows}, pitch: {{across: 5 mm, down: 5 mm}}, outline: [18 mm, 9 mm], contact: {contact}}}"
    folder = aircraft_folder(with_extra_servo() | {"parts.yaml": f"shells: {{block-6: {shell}}}\n"})
    found = [finding for finding in check(folder).findings if finding.name == "contacts"]
    assert [finding.subject for finding in found] == [("disconnects", "left-root")]
    assert "left-aileron" in found[0].sentence
    assert "extra" not in found[0].sentence


@pytest.mark.parametrize(
    ("pins", "names"),
    [("[4, 5, 6]", set()), ("[4, 5]", {"contacts"}), ("[5, 6, 7]", {"contacts"}), ("[3, 2, 1]", set())],
)
def test_pins_are_as_many_as_wires_and_in_the_shell(
    aircraft_folder: Callable[..., Path], pins: str, names: set[str]
) -> None:
    changes = [("    throw: 18 mm up, 12 mm down", f"    contacts: {{<side>-root: {pins}}}")]
    findings = check(aircraft_folder({"harness.yaml": changes})).findings
    assert {finding.name for finding in findings} == names


def test_two_circuits_can_not_be_pinned_to_one_contact(aircraft_folder: Callable[..., Path]) -> None:
    changes = with_extra_servo(THIRD + "    contacts: {left-root: [1, 2, 3]}\n")
    pinned = ("    throw: 18 mm up, 12 mm down", "    contacts: {<side>-root: [3, 4, 5]}")
    findings = check(aircraft_folder({"harness.yaml": [*changes["harness.yaml"], pinned]})).findings
    assert [(finding.name, finding.subject) for finding in findings] == [("contacts", ("circuits", "left-aileron"))]
