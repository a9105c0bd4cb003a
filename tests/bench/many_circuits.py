"""An aircraft with as many circuits as one likes: groups of twenty around a receiver of their own, along one spine.

Each has a pack, eleven servos in the fuselage, and four in either wing behind a joint. Names are short, as the files of
5,000 circuits must be under 1 MB each.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

CIRCUITS = 20  # of a group
STRAIGHT, BEHIND = 11, 4  # servos in the fuselage, and behind each of two joints
SIDES = {"l": "left", "r": "right"}
AIRCRAFT = "aircraft: {name: Bench, description: many circuits, marks: B-1, revision: A, date: 2026-01-01}\n"
FLIGHT = "flight: {time: 9 min, reserve: 30 %}\n"


def files(count: int, *, thin: bool = False) -> dict[str, str]:
    """Return its files; with `thin` leads, which many findings and their remedies are about."""
    sections: dict[str, dict[str, Callable[..., Iterator[str]]]] = {
        "aircraft.yaml": {"places": _places, "runs": _runs},
        "harness.yaml": {"equipment": _equipment, "disconnects": _disconnects, "circuits": _circuits},
    }
    leads = ("power-20", "servo-26") if thin else ("power-16", "servo-22")
    made = {
        file: "".join(
            f"{section}:\n" + "".join(f" {line}\n" for i in range(count // CIRCUITS) for line in write(i, *leads))
            for section, write in some.items()
        )
        for file, some in sections.items()
    }
    return {
        "aircraft.yaml": AIRCRAFT + FLIGHT + made["aircraft.yaml"],
        "harness.yaml": made["harness.yaml"].replace(", ", ","),
    }


def written(folder: Path, texts: dict[str, str]) -> Path:
    """Write an aircraft's files into a folder that is made for them."""
    folder.mkdir(parents=True)
    for file, text in texts.items():
        (folder / file).write_text(text, "utf-8")
    return folder


def _places(i: int, *_: str) -> Iterator[str]:
    at = f"aft: {300 + 100 * i} mm"
    for name in ("t", "b"):
        yield f"{name}{i}: {{assembly: fuselage, at: {{{at}}}, access: hatch}}"
    for letter, side in SIDES.items():
        yield f"{letter}-root{i}: {{assembly: fuselage, at: {{{at}, {side}: 80 mm}}, access: wing off}}"
        for name, out, access in (("panel", 90, "wing off"), ("s", 700, "servo cover")):
            yield f"{letter}-{name}{i}: {{assembly: {side}-panel, at: {{{at}, {side}: {out} mm}}, access: {access}}}"


def _runs(i: int, *_: str) -> Iterator[str]:
    yield f"- {{between: [t{i}, b{i}], length: {180 + i % 30} mm}}"
    if i:
        yield f"- {{between: [t{i - 1}, t{i}], length: 125 mm}}"
    for letter in SIDES:
        yield f"- {{between: [t{i}, {letter}-root{i}], length: 235 mm}}"
        yield f"- {{between: [{letter}-panel{i}, {letter}-s{i}], length: {600 + i % 90} mm, edges: sharp}}"


def _servos(i: int) -> Iterator[tuple[str, str, str]]:
    """Walk the servos of a group: the name of each, its place, and the joint that it is behind."""
    yield from ((f"s{i}-{j}", f"b{i}", "") for j in range(STRAIGHT))
    yield from ((f"{letter}{i}-{j}", f"{letter}-s{i}", f"{letter}j{i}") for letter in SIDES for j in range(BEHIND))


def _equipment(i: int, *_: str) -> Iterator[str]:
    ports = (
        f"{{plug: servo-3, names: 1..{CIRCUITS - 1}, contacts: pins}}, {{plug: power-2, names: [B], contacts: pins}}"
    )
    yield f"rx{i}: {{kind: receiver, place: t{i}, ports: [{ports}], current: {{working: 150 mA}}}}"
    battery = "battery: {cells: 2, capacity: 5000 mAh, full: 8.4 V, empty: 6.4 V}"
    yield f"p{i}: {{kind: battery, place: t{i}, lead: 120 mm, lead_wire: pvc-20, plug: power-2, {battery}}}"
    figures = "current: {working: 0.2 A, stall: 1 A}, volts: {least: 4 V}"
    for name, place, _joint in _servos(i):
        yield f"{name}: {{kind: servo, place: {place}, lead: 250 mm, plug: servo-3, {figures}}}"


def _disconnects(i: int, *_: str) -> Iterator[str]:
    for letter in SIDES:
        fixed = f"{{place: {letter}-root{i}, contacts: sockets, key: up}}"
        loose = f"{{place: {letter}-panel{i}, contacts: pins, reach: 120 mm}}"
        yield f"{letter}j{i}: {{shell: block-14, fixed: {fixed}, loose: {loose}}}"


def _circuits(i: int, power: str, signal: str) -> Iterator[str]:
    yield f"b{i}: {{from: p{i}, to: rx{i} B, lead: {power}}}"
    for port, (name, _, joint) in enumerate(_servos(i), 1):
        through = f", through: [{joint}]" if joint else ""
        yield f"{name}: {{from: rx{i} {port}, to: {name}{through}, lead: {signal}}}"
