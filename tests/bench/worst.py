"""How long definitions of 20 kB take that are written to take long, beside one of as many plain circuits.

Times are of the processor, of the check; 1 is that of the plain one. Run by hand, from the project's folder:
PYTHONPATH=tests python -m bench.worst
"""

# ruff: noqa: T201 - it is run by hand

from __future__ import annotations

import gc
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from docgen.pipeline import check

_BYTES = 20_000
_ROUNDS = 3
_HEAD = "aircraft: {name: W, description: D, marks: M-1, revision: A, date: 2026-01-01}\n"
_HUB = "  hub: {kind: other, place: p, ports: [{plug: servo-3, names: 1..200, contacts: pins}]}\n"
Texts = dict[str, str]


def repeated(line: str, already: int = 0) -> str:
    """Return a line with `#` for its number as often as there is room for."""
    lines: list[str] = []
    room = _BYTES - already
    while room > 0:
        lines.append(line.replace("#", f"{len(lines)}"))
        room -= len(lines[-1])
    return "".join(lines)


def plain() -> Texts:
    """Return circuits of servos, each plugged straight in; the measure of all others."""
    servos = repeated("  s#: {kind: servo, place: p, lead: 200 mm, plug: servo-3}\n", _BYTES // 2)
    count = servos.count("\n")
    circuits = "".join(f"  s{i}: {{from: hub {1 + i}, to: s{i}}}\n" for i in range(count))
    return files("  p: {assembly: a}\n", "[]", f"equipment:\n{_HUB}{servos}circuits:\n{circuits}")


def files(places: str, runs: str, harness: str, parts: str = "") -> Texts:
    """Return the files of a definition."""
    texts = {"aircraft.yaml": f"{_HEAD}places:\n{places}runs: {runs}\n", "harness.yaml": harness}
    return texts | ({"parts.yaml": parts} if parts else {})


def noted(note: str) -> Texts:
    """Return two things wired to each other, one of which has a long note."""
    return files(
        "  p: {assembly: a}\n", "[]", f"equipment:\n{_HUB}{_servo(note)}circuits:\n  c: {{from: hub 1, to: s}}\n"
    )


def _servo(note: str) -> str:
    return f"  s: {{kind: servo, place: p, lead: 200 mm, plug: servo-3, note: {note}}}\n"


def missed() -> Texts:
    """Return circuits none of whose names are known."""
    circuits = repeated("  circuit-#: {from: recevier-# 1, to: sevro-#, through: [rigth-root-#]}\n")
    return files("  p: {assembly: a}\n", "[]", f"equipment:\n{_HUB}circuits:\n{circuits}")


def grid() -> Texts:
    """Return places in a grid, all of it runs alike, wired from corner to corner."""
    side = 14
    names = [[f"p{row}-{column}" for column in range(side)] for row in range(side)]
    pairs = [(names[r][c], names[r][c + 1]) for r in range(side) for c in range(side - 1)]
    pairs += [(names[r][c], names[r + 1][c]) for r in range(side - 1) for c in range(side)]
    runs = "".join(f"\n  - {{between: [{a}, {b}], length: 100 mm}}" for a, b in pairs)
    places = "".join(f"  {name}: {{assembly: a}}\n" for row in names for name in row)
    servos = "".join(
        f"  s{i}: {{kind: servo, place: p{i}-{side - 1}, lead: 200 mm, plug: servo-3}}\n" for i in range(side)
    )
    circuits = "".join(f"  s{i}: {{from: hub {1 + i}, to: s{i}, lead: servo-22}}\n" for i in range(side))
    hub = _HUB.replace("place: p", "place: p0-0")
    return files(places, runs, f"equipment:\n{hub}{servos}circuits:\n{circuits}")


def chained() -> Texts:
    """Return circuits through forty joints, one after another."""
    joints = 40
    places = "".join(f"  p{i}: {{assembly: a{i}}}\n  q{i}: {{assembly: a{i + 1}}}\n" for i in range(joints))
    runs = "".join(f"\n  - {{between: [q{i}, p{i + 1}], length: 100 mm}}" for i in range(joints - 1))
    halves = "".join(
        f"  j{i}: {{shell: block-14, fixed: {{place: p{i}, contacts: sockets}},"
        f" loose: {{place: q{i}, contacts: pins, reach: 80 mm}}}}\n"
        for i in range(joints)
    )
    through = ", ".join(f"j{i}" for i in range(joints))
    servos = "".join(f"  s{i}: {{kind: servo, place: q{joints - 1}, lead: 200 mm, plug: servo-3}}\n" for i in range(4))
    circuits = "".join(
        f"  s{i}: {{from: hub {1 + i}, to: s{i}, through: [{through}], lead: servo-22}}\n" for i in range(4)
    )
    hub = _HUB.replace("place: p", "place: p0")
    return files(places, runs, f"equipment:\n{hub}{servos}disconnects:\n{halves}circuits:\n{circuits}")


def fed_in_chain() -> Texts:
    """Return units that feed each other one after another, from one pack."""
    unit = "  u#: {kind: power unit, place: p, ports: [{plug: power-2, names: [IN], contacts: pins}, "
    unit += "{plug: power-2, names: [OUT], contacts: sockets}], fed_by: [IN], current: {working: 10 mA}}\n"
    units = repeated(unit, _BYTES // 3)
    count = units.count("\n")
    pack = "  pack: {kind: battery, place: p, plug: power-2, lead: 90 mm, battery: {cells: 2, capacity: 2600 mAh, "
    pack += "full: 8.4 V, empty: 6.4 V}}\n"
    chain = "".join(f"  c{i}: {{from: u{i - 1} OUT, to: u{i} IN, lead: power-20}}\n" for i in range(1, count))
    circuits = f"  c0: {{from: pack, to: u0 IN, lead: power-20}}\n{chain}"
    return files("  p: {assembly: a}\n", "[]", f"equipment:\n{pack}{units}circuits:\n{circuits}")


WORST: dict[str, Callable[[], Texts]] = {
    "plain": plain,
    "one long word": lambda: noted("x" * _BYTES),
    "one long text": lambda: noted("word " * (_BYTES // 5)),
    "wide letters": lambda: noted("飛 " * (_BYTES // 4)),
    "nested": lambda: noted("[" * (_BYTES // 2) + "]" * (_BYTES // 2)),
    "keys twice": lambda: noted("x\n" + "      note: x\n" * (_BYTES // 14)),
    "names that are not there": missed,
    "a list of figures": lambda: noted(f"[{', '.join(f'{i}' for i in range(_BYTES // 6))}]"),
    "routes in a grid": grid,
    "forty joints": chained,
    "units in a chain": fed_in_chain,
}


def main() -> None:
    """Print the ratio of each."""
    plain_s = 0.0
    for name, make in WORST.items():
        texts = make()
        size = sum(len(text.encode()) for text in texts.values())
        took_s = min(taken_s(texts) for _ in range(_ROUNDS)) * _BYTES / size
        plain_s = plain_s or took_s
        print(f"{name:<26} {size / 1000:5.1f} kB  {took_s / plain_s:5.2f}")


def taken_s(texts: Texts) -> float:
    """Return how long the check of a definition takes [s]."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in texts.items():
            (Path(folder) / name).write_text(text, "utf-8")
        gc.collect()
        start = time.process_time()
        check(Path(folder))
        return time.process_time() - start


if __name__ == "__main__":
    main()
