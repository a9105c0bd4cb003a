"""Which small faults no test catches: each is put into a copy of the project, one at a time, and its tests run.

First run are the tests of the fault's own room (tests/ has the same folders as docgen/) and of rooms that show it,
and the rest of the quick suite for what survives those. The same seed makes the same faults. Run by hand, from the
project's folder:
PYTHONPATH=tests python -m bench.faults --count 40 --rooms basics definition
"""

# ruff: noqa: T201 - it is run by hand

from __future__ import annotations

import argparse
import ast
import itertools
import random
import re
import subprocess
import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TypeVar

from bench.copies import ROOT, Copies, Trial, Words
from bench.faulty_source import Candidate, Fault, candidates_of_code, candidates_of_data, room_of
from bench.names import Names

# Tests that look at a room too, by the folder in docgen/: of what shows it, or holds it.
ALSO = {
    "basics": ("definition",),
    "definition": ("reissue",),
    "harness/assembly": ("paperwork/bench", "paperwork/cut_list"),
    "harness/bundling": ("harness/checks", "paperwork/labels", "paperwork/cut_list"),
    "harness/checks": ("harness/remedies", "harness/electrical"),
    "harness/continuity": ("paperwork/bench",),
    "harness/electrical": ("harness/checks", "harness/remedies"),
    "harness/model": ("harness",),
    "harness/routing": ("definition", "harness/wiring"),
    "harness/wiring": ("definition", "harness/continuity", "harness/checks", "paperwork/cards"),
    "layouts": ("paperwork/layouts", "paperwork/stocks", "paperwork/labels"),
    "paperwork/layouts": ("paperwork/stocks", "paperwork/labels"),
    "paperwork/page_kit": ("paperwork/bench", "paperwork/field"),
    "paperwork/stocks": ("paperwork/labels",),
    "paperwork/typesetting": ("paperwork/cards", "paperwork/labels", "paperwork/field"),
}

_Item = TypeVar("_Item")


def all_candidates(rooms: Sequence[str]) -> dict[str, list[Candidate]]:
    """Return the places for faults by file, in some rooms and those below them, or in all."""
    code, data = sorted((ROOT / "docgen").rglob("*.py")), [ROOT / "docgen/definition/parts.yaml"]
    names = Names()
    for path in code:
        names.learn(ast.parse(path.read_bytes()))
    found = {}
    for path in [*code, *data, *sorted((ROOT / "layouts").glob("*.yaml"))]:
        file, source = path.relative_to(ROOT).as_posix(), path.read_bytes()
        if not rooms or any(f"{room_of(file)}/".startswith(f"{room}/") for room in rooms):
            found[file] = list(candidates_of_code(source, names) if path in code else candidates_of_data(source))
    return found


def added_since(revision: str) -> dict[str, set[int]]:
    """Return the lines of each file that are not in a revision."""
    command = ["git", "diff", "--unified=0", "--no-color", revision, "--", "docgen", "layouts"]
    told = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    lines: dict[str, set[int]] = {}
    file = ""
    for line in told.splitlines():
        if line.startswith("+++ "):
            file = line.removeprefix("+++ b/")
        if match := re.match(r"@@ \S+ \+(\d+)(?:,(\d+))? @@", line):
            first, count = int(match.group(1)), int(match.group(2) or 1)
            lines.setdefault(file, set()).update(range(first, first + count))
    return lines


def chosen(candidates: dict[str, list[Candidate]], count: int, seed: int) -> list[Fault]:
    """Choose by the seed, in turn from each room, and in each room in turn of each kind."""
    dice = random.Random(seed)
    by_room: dict[str, dict[str, list[tuple[str, Candidate]]]] = {}
    for file, found in candidates.items():
        for candidate in found:
            by_room.setdefault(room_of(file), {}).setdefault(candidate.kind, []).append((file, candidate))
    rooms = []
    for room in by_room.values():
        kinds = [_shuffled(of_kind, dice) for of_kind in room.values()]
        rooms.append(_in_turn(_shuffled(kinds, dice)))
    made = ((file, place, place.make()) for file, place in _in_turn(_shuffled(rooms, dice)))
    faults = (Fault(file, place.lines.start, place.kind, change) for file, place, change in made if change)
    return sorted(itertools.islice(faults, count), key=lambda fault: (fault.file, fault.change))


def _shuffled(items: Iterable[_Item], dice: random.Random) -> list[_Item]:
    listed = list(items)
    return dice.sample(listed, len(listed))


def _in_turn(heaps: Sequence[Sequence[_Item]]) -> list[_Item]:
    """Return the first of each, then the second of each, and so on."""
    return [each for turn in itertools.zip_longest(*heaps) for each in turn if each is not None]


def own_tests(room: str) -> Words:
    """Return the tests of a room: of its folder and of those told; without any, of the nearest above it."""
    folders = [folder for folder in (room, *ALSO.get(room, ())) if any((ROOT / "tests" / folder).rglob("test_*.py"))]
    if room == "." or not folders:
        above = Path(room).parent.as_posix()
        found = sorted((ROOT / "tests").glob("test_*.py"))
        return own_tests(above) if above != "." else tuple(path.relative_to(ROOT).as_posix() for path in found)
    return tuple(f"tests/{folder}" for folder in folders)


def survivors(copies: Copies, faults: Sequence[Fault], further: str) -> list[Fault]:
    """Return the faults that no test catches: of their room, of the rest, and if wanted of their room's long ones."""
    own: dict[str, Words] = {fault.room: own_tests(fault.room) for fault in faults}
    rest = {room: ("tests", *(f"--ignore={path}" for path in paths)) for room, paths in own.items()}
    of_long = {room: ("-m", "long", *paths) for room, paths in own.items()}
    stages = [own, *{"none": (), "rest": (rest,), "long": (rest, of_long)}[further]]
    for words in stages:
        limits_s = copies.limits_s(words[fault.room] for fault in faults)
        trials = [Trial(words[fault.room], fault, limits_s[words[fault.room]]) for fault in faults]
        passed = copies.passed(trials)
        faults = [fault for fault, passes in zip(faults, passed, strict=True) if passes]
    return list(faults)


def main() -> None:
    """Read the options, choose, try and tell."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=120, help="how many, spread over the rooms (120)")
    parser.add_argument("--rooms", nargs="+", default=[], metavar="PATH", help="folders below docgen, or layouts (all)")
    parser.add_argument("--jobs", type=int, default=1, help="how many at a time (1)")
    parser.add_argument("--since", metavar="REV", help="only in lines that were added since a revision")
    whats = "what the room's tests let pass is tried with: none, the rest of the quick suite, the long tests too (rest)"
    parser.add_argument("--then", choices=("none", "rest", "long"), default="rest", help=whats)
    parser.add_argument("--list", action="store_true", help="show the faults, run nothing")
    options = parser.parse_args()
    candidates = all_candidates(options.rooms)
    if not candidates:
        parser.error(f"no such rooms: {' '.join(options.rooms)}")
    if options.since:
        added = added_since(options.since)
        for file, found in candidates.items():
            candidates[file] = [each for each in found if added.get(file, set()).intersection(each.lines)]
    faults = chosen(candidates, options.count, options.seed)
    if options.list:
        print(*faults, sep="\n", end="\n" * bool(faults))
        return
    with tempfile.TemporaryDirectory() as folder:
        left = survivors(Copies(Path(folder), options.jobs), faults, options.then)
    print(*left, sep="\n", end="\n" * bool(left))
    all_by_room, left_by_room = (Counter(fault.room for fault in some) for some in (faults, left))
    for room, made in sorted(all_by_room.items()):
        print(f"{room}: {left_by_room[room]} of {made} survive")


if __name__ == "__main__":
    main()
