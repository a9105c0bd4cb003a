"""How the time for the cut list grows with its pieces, from 200 circuits to 2,000: 1 is in proportion.

Times are of the processor. Run by hand: python tests/bench/cut_list.py
"""

from __future__ import annotations

import gc
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from docgen.harness.model.harness import Harness
from docgen.paperwork.cut_list.content import content
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.pipeline import check

COUNTS = (200, 2_000)
PORTS = 40  # of each unit
ROUNDS = 3
AIRCRAFT = """\
aircraft: {name: Bench, description: many circuits, marks: B-1, revision: A, date: 2026-01-01}
places:
  tray: {assembly: fuselage, at: {aft: 400 mm}, access: canopy}
"""
STORES = "spools:\n" + "".join(
    f"  - {{wire: pvc-22, colour: {colour}, length: {length} m}}\n"
    for colour in ("BK", "RD", "WH")
    for length in (10, 25, 50, 100)
)


def aircraft(count: int, *, stores: bool) -> dict[str, str]:
    """Return the files of an aircraft with so many circuits of three wires, of lengths from 0.3 m to 1.5 m."""
    places = "".join(
        f"  p-{i}: {{assembly: fuselage, at: {{aft: {400 + 10 * i} mm}}, access: hatch}}\n" for i in range(1, 97)
    )
    runs = "".join(f"  - {{between: [tray, p-{i}], length: {300 + 12 * i} mm}}\n" for i in range(1, 97))
    units = "".join(
        f"  unit-{i}: {{kind: other, place: tray, ports: [{{plug: three, names: 1..{PORTS}, contacts: pins}}]}}\n"
        for i in range(count // PORTS)
    )
    loads = "".join(
        f"  load-{i}: {{kind: sensor, place: p-{1 + i % 96}, lead: 90 mm, plug: three}}\n" for i in range(count)
    )
    circuits = "".join(
        f"  c-{i}: {{from: unit-{i // PORTS} {1 + i % PORTS}, to: load-{i}, lead: signals}}\n" for i in range(count)
    )
    parts = (
        "plugs:\n  three: {contacts: {1: a, 2: b, 3: c}, equipment: sockets, size: [8 mm, 3 mm],"
        " contact: {rating: 3 A, resistance: 10 mohm}}\n"
        "leads:\n  signals: {wires: {a: pvc-22 BK, b: pvc-22 RD, c: pvc-22 WH}}\n"
    )
    return {
        "aircraft.yaml": f"{AIRCRAFT}{places}runs:\n{runs}",
        "harness.yaml": f"equipment:\n{units}{loads}circuits:\n{circuits}",
        "parts.yaml": parts,
        **({"stores.yaml": STORES} if stores else {}),
    }


def written(folder: Path, files: dict[str, str]) -> Path:
    folder.mkdir()
    for file, text in files.items():
        (folder / file).write_text(text, "utf-8")
    return folder


def harness_of(folder: Path) -> Harness:
    checked = check(folder)
    assert checked.harness is not None, checked.findings[:3]
    return checked.harness


def alone(harness: Harness) -> None:
    """Compose and draw the cut list of a harness that is worked out, with its values."""
    make_paperwork(harness, Choice(stems=("cut-list",), csv=True))


def from_the_definition(folder: Path) -> None:
    """Read the definition, work the harness out, compose and draw the cut list."""
    alone(harness_of(folder))


def seconds(work: Callable[[Any], None], of: Any) -> float:
    gc.collect()
    start = time.process_time()
    work(of)
    return time.process_time() - start


def compare(about: str, work: Callable[[Any], None], of: Sequence[Any], pieces: Sequence[int]) -> None:
    """Print how long it took for both, and the ratio of the times for each piece."""
    rounds = [[seconds(work, each) for each in of] for _ in range(ROUNDS)]  # in turn, so that both meet the same noise
    times = [min(each) for each in zip(*rounds, strict=True)]
    ratio = times[1] / pieces[1] / (times[0] / pieces[0])
    said = ", ".join(f"{n:,} pieces {t:.2f} s" for n, t in zip(pieces, times, strict=True))
    print(f"{about}: {said}, ratio a piece {ratio:.2f}", flush=True)  # noqa: T201


def main() -> None:
    """Compare both without and with spools on the shelf."""
    for stores in (False, True):
        with tempfile.TemporaryDirectory() as folder:
            folders = [written(Path(folder) / str(count), aircraft(count, stores=stores)) for count in COUNTS]
            harnesses = [harness_of(folder) for folder in folders]
            pieces = [sum(len(group.pieces) for group in content(harness).groups) for harness in harnesses]
            shelf = ", with spools" if stores else ""
            compare(f"cut list alone{shelf}", alone, harnesses, pieces)
            compare(f"from the definition{shelf}", from_the_definition, folders, pieces)


if __name__ == "__main__":
    main()
