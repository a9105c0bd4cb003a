"""Copies of the project to put faults in and run tests on, several at a time."""

from __future__ import annotations

import os
import queue
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from bench.faulty_source import Fault

ROOT = Path(__file__).resolve().parent.parent.parent
_PYTEST = (sys.executable, "-m", "pytest", "-x", "-q", "-n", "0", "-p", "no:cacheprovider")
_MOST_BYTES = 6 * 2**30  # a fault may make a list grow without end
_LONGEST_S = 1800.0

Words = tuple[str, ...]
"""What pytest is told to run."""


class Trial(NamedTuple):
    """Tests to run with a fault in the code; they are stopped where they take far longer than without."""

    words: Words
    fault: Fault | None
    limit_s: float = _LONGEST_S


class Copy:
    """One copy of what belongs to the project."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder / "project"
        self.scratch = folder / "scratch"
        self.told = folder / "told.txt"
        self._moment = 1_000_000_000
        command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
        listed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout
        for file in filter(None, listed.split("\0")):
            if (ROOT / file).is_file():
                (self.folder / file).parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(ROOT / file, self.folder / file)

    def passes(self, trial: Trial) -> bool:
        """Tell whether the tests pass in time."""
        if trial.fault is None:
            return self._run(trial)
        path = self.folder / trial.fault.file
        source = path.read_bytes()
        self._write(path, trial.fault.change.made(source))
        try:
            return self._run(trial)
        finally:
            self._write(path, source)

    def _write(self, path: Path, source: bytes) -> None:
        """Write with a time that no other state of the file had: bytecode of another never stands for it."""
        self._moment += 1
        path.write_bytes(source)
        os.utime(path, (self._moment, self._moment))

    def _run(self, trial: Trial) -> bool:
        shutil.rmtree(self.scratch, ignore_errors=True)
        self.scratch.mkdir()
        # The copy's bytecode is kept, as most of its files never change.
        settings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        settings |= {"PYTHONPATH": str(self.folder), "TMPDIR": str(self.scratch), "PYTHONHASHSEED": "0"}
        with (
            self.told.open("wb") as told,
            subprocess.Popen(
                [*_PYTEST, *trial.words],
                cwd=self.folder,
                env=settings,
                stdout=told,
                stderr=subprocess.STDOUT,
                start_new_session=True,
            ) as running,
        ):
            try:
                return running.wait(trial.limit_s) == 0
            except subprocess.TimeoutExpired:
                return False
            finally:
                stop(running)


def stop(running: subprocess.Popen[bytes]) -> None:
    """End a run with all that it started."""
    if running.poll() is None:
        os.killpg(running.pid, signal.SIGKILL)


class Copies:
    """Several copies, each with one trial at a time."""

    def __init__(self, folder: Path, jobs: int) -> None:
        resource.setrlimit(resource.RLIMIT_AS, (_MOST_BYTES, _MOST_BYTES))  # what is run inherits it
        self.free: queue.Queue[Copy] = queue.Queue()
        self.jobs = jobs
        for job in range(jobs):
            self.free.put(Copy(folder / str(job)))

    def passed(self, trials: Sequence[Trial]) -> list[bool]:
        """Return of each trial whether its tests pass."""
        with ThreadPoolExecutor(self.jobs) as pool:
            passed = []
            for trial, passes in zip(trials, pool.map(self._passes, trials), strict=True):
                passed.append(passes)
                said = "survives" if passes else "caught"
                sys.stderr.write(f"{len(passed)} of {len(trials)}: {said}: {trial.fault}\n")
            return passed

    def limits_s(self, all_words: Iterable[Words]) -> dict[Words, float]:
        """Return how long tests may take with a fault in; without one they have to pass, one time of two."""
        every = sorted(set(all_words))
        with ThreadPoolExecutor(self.jobs) as pool:
            return dict(zip(every, pool.map(self._limit_s, every), strict=True))

    def _limit_s(self, words: Words) -> float:
        copy = self.free.get()
        try:
            start = time.monotonic()
            if not (copy.passes(Trial(words, None)) or copy.passes(Trial(words, None))):
                told = copy.told.read_text("utf-8", "replace")[-3000:]
                raise SystemExit(f"without a fault these fail: {' '.join(words)}\n{told}")
            return 60 + 4 * (time.monotonic() - start)
        finally:
            self.free.put(copy)

    def _passes(self, trial: Trial) -> bool:
        copy = self.free.get()
        try:
            return copy.passes(trial)
        finally:
            self.free.put(copy)
