"""Halves that can be mated with a wrong one: against every pair of them, and where nothing is measured yet."""

from __future__ import annotations

import itertools
import math
import random
import re
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

import pytest
from beginning.begun import written
from remedied import definition, findings_in

from docgen.pipeline import check

WrittenFolder = Callable[[Mapping[str, str]], Path]
AFT_MM = {"far": 900, "near": 0, "next": 10}

KEYED = "    keyed: {left: A, right: B}\n"


def swaps_in(folder: Path) -> dict[str, str]:
    """Return what is found of swaps, by the disconnect on which it stands."""
    return {found.subject[1]: found.sentence for found in check(folder).findings if found.name == "swap"}


def test_beside_its_own_a_half_reaches_a_wrong_one_whatever_it_measures(tmp_path: Path) -> None:
    """By hand: both joints of the centre piece have their fixed half at the saddle; panels plug in wide apart."""
    folder = written(tmp_path / "gull", {"wing": "three-pieces", "surfaces": "ailerons=2,flaps=2"})
    assert swaps_in(folder) == {}
    file = folder / "harness.yaml"
    file.write_text(file.read_text("utf-8").replace(KEYED, ""), "utf-8")
    said = "the loose half of `{}` mates with the fixed half of `{}` too: both are `block-14`, and its own is at "
    said += "`wing-saddle` as well."
    assert swaps_in(folder) == {
        "left-centre": said.format("left-centre", "right-centre"),
        "right-centre": said.format("right-centre", "left-centre"),
    }


class Hung(NamedTuple):
    """A half of a joint: where it is [mm], what it carries, and how far it reaches, 0 where it is fixed."""

    at_mm: tuple[int, int, int]
    contacts: str
    reach_mm: int


def hung_at_random(seed: int, joints: int) -> dict[str, tuple[Hung, Hung]]:
    """Return joints with both halves in a box as wide as two halves reach together, or far beside it."""
    dice = random.Random(seed)

    def half(contacts: str, reach_mm: int) -> Hung:
        aft, right, up = (dice.randint(-most, most) for most in (300, 300, 40))
        return Hung((aft + dice.choice([0, 0, 0, 900]), right, up), contacts, reach_mm)

    found = {}
    for number in range(joints):
        pins = dice.choice([("pins", "sockets"), ("sockets", "pins")])
        found[f"joint-{number}"] = half(pins[0], 0), half(pins[1], dice.randint(1, 120))
    return found


def within_reach(joints: Mapping[str, tuple[Hung, Hung]]) -> set[tuple[str, ...]]:
    """Return each loose half with its joint, and a half of another joint that it mates with and reaches."""
    return {
        ("loose", one, name, other)
        for (one, (_, loose)), (other, halves) in itertools.permutations(joints.items(), 2)
        for name, half in zip(("fixed", "loose"), halves, strict=True)
        if half.contacts != loose.contacts and math.dist(half.at_mm, loose.at_mm) <= half.reach_mm + loose.reach_mm
    }


def swaps_of(
    write: WrittenFolder, joints: Mapping[str, tuple[Hung, Hung]], keyed: Mapping[str, Mapping[str, str]] | None = None
) -> dict[tuple[str, ...], str]:
    """Return what to do about each half that hangs free and a wrong one, by both."""
    said = definition({}, {})
    said["harness"]["disconnects"] = {}
    for name, halves in joints.items():
        of = {}
        for half, hung in zip(("fixed", "loose"), halves, strict=True):
            at = dict(zip(("aft", "right", "up"), (f"{each} mm" for each in hung.at_mm), strict=True))
            assembly = "wing" if hung.reach_mm else "fuselage"
            said["aircraft"]["places"][f"{name}-{half}"] = {"assembly": assembly, "at": at}
            of[half] = {"place": f"{name}-{half}", "contacts": hung.contacts}
            of[half] |= {"reach": f"{hung.reach_mm} mm"} if hung.reach_mm else {}
        said["harness"]["disconnects"][name] = {"shell": "block-6", **of, **(keyed or {}).get(name, {})}
    swaps = [finding for finding in findings_in(write, said) if finding.name == "swap"]
    both = [re.findall("(fixed|loose) half of `(.*?)`", swap.sentence) for swap in swaps]
    return {(*first, *second): swap.do for (first, second), swap in zip(both, swaps, strict=True)}


@pytest.mark.parametrize("seed", range(3))
def test_each_half_is_found_that_another_reaches_in_a_straight_line(seed: int, written_folder: WrittenFolder) -> None:
    joints = hung_at_random(seed, 50)
    found = swaps_of(written_folder, joints)
    assert found.keys() == within_reach(joints)
    assert len(found) > 20
    letters: dict[str, set[str]] = {}
    for (_, one, half, other), do in found.items():
        apart_mm = math.dist(joints[one][1].at_mm, joints[other][half == "loose"].at_mm)
        assert f"under {math.floor(apart_mm)} mm." in do
        for letter, name in re.findall("`keyed: (.*?)` at `(.*?)`", do):
            letters.setdefault(name, set()).add(letter)
    assert all(len(letters[one] | letters[other]) == 2 for _, one, _, other in found)


def test_a_letter_that_another_joint_has_is_named_for_none(written_folder: WrittenFolder) -> None:
    joints = {name: (Hung((aft, 0, 0), "pins", 0), Hung((aft, 9, 0), "sockets", 20)) for name, aft in AFT_MM.items()}
    for do in swaps_of(written_folder, joints, {"far": {"keyed": "B"}}).values():
        assert "`keyed: A` at `near`" in do
        assert "`keyed: C` at `next`" in do
