"""What whole commands cost beside a bare import of the same libraries, how that grows, and where the time goes.

Times are of the processor, the least of several runs; all ratios are within one run. Run by hand:
PYTHONPATH=.:tests python -m bench.speed, with --long for 2,000 and 5,000 circuits too, some minutes.
"""

from __future__ import annotations

import contextlib
import gc
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from bench.many_circuits import files, written

from docgen.basics.shipped import shipped_folder
from docgen.definition.load import load_definition
from docgen.harness import resolve as harness_resolve
from docgen.paperwork import document as one_document
from docgen.paperwork import documents as all_documents
from docgen.paperwork.document import Choice
from docgen.paperwork.kinds import ACCEPTABLE
from docgen.pipeline import check

BARE = (
    "import yaml, pydantic, click, qrcode; from reportlab.pdfgen.canvas import Canvas;"
    " from reportlab.pdfbase.ttfonts import TTFont"
)
ROUNDS = 9
# Run from a small process, as one counts the memory of that which began it as its own.
_MEASURED = """
import os, subprocess, sys
process = subprocess.Popen(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
_, status, used = os.wait4(process.pid, 0)
print(used.ru_utime + used.ru_stime, used.ru_maxrss)
sys.exit(os.waitstatus_to_exitcode(status))
"""
# What is exchanged for the same with a clock.
resolve: Any = harness_resolve
document: Any = one_document
documents: Any = all_documents
WREN, FULMAR = (shipped_folder("examples") / name for name in ("wren", "fulmar"))


@dataclass(frozen=True)
class Cost:
    """What a process took: seconds of the processor, and the most memory it had [kB]."""

    seconds: float
    memory_kb: int


def cost(*words: str, rounds: int = ROUNDS) -> Cost:
    """Return the least that a command takes."""
    costs = []
    for _ in range(rounds):
        command = [sys.executable, "-c", _MEASURED, sys.executable, *words]
        told = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
        costs.append(Cost(float(told[0]), int(told[1])))
    return Cost(min(each.seconds for each in costs), min(each.memory_kb for each in costs))


def docgen(*words: str | Path, rounds: int = ROUNDS) -> Cost:
    return cost("-m", "docgen", *map(str, words), rounds=rounds)


def told(about: str, ratio: float) -> None:
    print(f"{about:44} {ratio:6.2f}", flush=True)  # noqa: T201


def of_commands(out: Path) -> None:
    """Tell what commands take, as multiples of the bare import, which runs in turn with each of them."""
    costs = []
    commands: list[list[str | Path]] = [["--help"], ["stock"], ["explain", "drop"]]
    commands += [["check", FULMAR], ["print", FULMAR, "--to", out]]
    for words in commands:
        costs = [(docgen(*words, rounds=1), cost("-c", BARE, rounds=1)) for _ in range(ROUNDS)]
        whole, bare = (min(each.seconds for each in some) for some in zip(*costs, strict=True))
        told(f"docgen {' '.join(Path(word).name for word in words[:2])}", whole / bare)
    told("docgen print fulmar, memory", costs[-1][0].memory_kb / costs[-1][1].memory_kb)


def growth(folder: Path, counts: tuple[int, ...]) -> None:
    """Tell time and memory a circuit, over those of the Wren, beside those of the least count."""
    for command in ("check", "print"):
        to: list[str | Path] = ["--to", folder / "out"] if command == "print" else []
        none = docgen(command, WREN, *to)
        first: tuple[float, float] | None = None
        for count in counts:
            took = docgen(command, folder / str(count), *to, rounds=3 if count < 2000 else 1)
            each = (took.seconds - none.seconds) / count, (took.memory_kb - none.memory_kb) / count
            first = first or each
            told(f"{command} of {count:,} circuits, time a circuit", each[0] / first[0])
            told(f"{command} of {count:,} circuits, memory a circuit", each[1] / first[1])


class Clock:
    """Seconds of the processor by what they went to."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}

    @contextlib.contextmanager
    def to(self, what: str) -> Iterator[None]:
        """Count what is done as that."""
        start = time.process_time()
        yield
        self.seconds[what] = self.seconds.get(what, 0.0) + time.process_time() - start

    def timed(self, what: str, work: Callable[..., Any]) -> Callable[..., Any]:
        """Return a function that counts, with all that it walks."""

        def counted(*words: Any, **more: Any) -> Any:
            with self.to(what):
                found = work(*words, **more)
                return list(found) if isinstance(found, Iterator) else found

        return counted

    def timed_twice(self, what: str, work: Callable[..., Callable[..., Any]]) -> Callable[..., Any]:
        """Return a function that counts, with what the function that it returns takes."""
        return lambda *words: self.timed(what, self.timed(what, work)(*words))


ROOMS = {
    "build_runs": "routing",
    "wire": "routing and wiring",
    "_bundled": "bundling",
    "losses_of": "losses",
    "_electricity": "electrical",
    "loadings_of": "electrical",
    "results_of": "electrical",
}


class TimedCheck:
    """A check whose findings and remedies are counted."""

    def __init__(self, clock: Clock, one: Any) -> None:
        self.find = clock.timed("checks and remedies", one.find)


def resolving(folder: Path) -> Clock:
    """Return where the time of a check goes, room by room."""
    clock, kept = Clock(), {name: getattr(resolve, name) for name in (*ROOMS, "ALL")}
    for name, room in ROOMS.items():
        setattr(resolve, name, clock.timed(room, kept[name]))
    resolve.ALL = tuple(TimedCheck(clock, one) for one in kept["ALL"])
    try:
        with clock.to("whole"):
            check(folder)
    finally:
        for name, one in kept.items():
            setattr(resolve, name, one)
    with clock.to("load"):
        load_definition(folder, ACCEPTABLE)
    return clock


def printing(folder: Path) -> Clock:
    """Return where the time of printing goes when all is checked: by document, and what they share."""
    clock, kept, draw, record = Clock(), documents.DOCUMENTS, document.draw_pdf, documents.record_of
    harness = check(folder).harness
    assert harness is not None
    documents.DOCUMENTS = tuple(
        replace(
            one,
            content=clock.timed(f"{one.stem}: content", one.content),
            compose=clock.timed_twice(f"{one.stem}: compose", one.compose),
        )
        for one in kept
    )
    document.draw_pdf, documents.record_of = clock.timed("draw", draw), clock.timed("record", record)
    try:
        with clock.to("whole"):
            documents.make_paperwork(harness, Choice())
    finally:
        documents.DOCUMENTS, document.draw_pdf, documents.record_of = kept, draw, record
    return clock


def shares(about: str, clock: Clock) -> None:
    """Tell the parts of a whole, the largest first."""
    print(f"\n{about}")  # noqa: T201
    whole = clock.seconds.pop("whole")
    for what, seconds in sorted(clock.seconds.items(), key=lambda item: -item[1]):
        told(f"  {what}", seconds / whole)


def main() -> None:
    """Print the table."""
    counts = (200, 2_000, 5_000) if "--long" in sys.argv else (200, 1_000)
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        of_commands(folder / "out")
        for count in counts:
            written(folder / str(count), files(count))
        thin = written(folder / "thin", files(200, thin=True))
        growth(folder, counts)
        gc.disable()  # as commands do
        resolving(FULMAR)
        shares("check fulmar", resolving(FULMAR))
        shares("check 200 circuits of thin leads", resolving(thin))
        shares("print fulmar, all checked", printing(FULMAR))


if __name__ == "__main__":
    main()
