"""Try definitions that are altered by chance: no traceback, nothing that takes long, no text off its page.

Run by hand, from the project's folder, one seed for each definition from the one that is named on:
PYTHONPATH=tests python -m bench.mutations --seed 1 --count 20000
"""

# ruff: noqa: T201 - it is run by hand

from __future__ import annotations

import argparse
import random
import tempfile
import time
import traceback
from collections import Counter
from pathlib import Path

from mutants import faults_of, mutant, sources

_LONGEST_S = 2.0
_BEGUN = 9  # aircraft from answers by chance, beside the examples
_PRINTED = 10  # one of so many without an error is printed too


def main() -> None:
    """Try them all, and tell what must not be, with the seed that makes it again."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=20_000)
    parser.add_argument("--keep", type=Path, help="folder for the definitions that show something")
    options = parser.parse_args()
    of_all = sources(_BEGUN)
    slowest: list[tuple[float, int]] = []
    told: Counter[str] = Counter()
    for seed in range(options.seed, options.seed + options.count):
        found, took_s = tried(of_all, seed, options.keep)
        slowest = sorted([*slowest, (took_s, seed)], reverse=True)[:10]
        for fault in [*found, *([f"took {took_s:.1f} s"] if took_s > _LONGEST_S else [])]:
            told[fault.partition(":")[0]] += 1
            print(f"{seed}: {fault}", flush=True)
    print(f"seeds {options.seed} to {options.seed + options.count - 1}: {sum(told.values())} faults, {dict(told)}")
    print("slowest to check:", ", ".join(f"{seed} ({took_s:.2f} s)" for took_s, seed in slowest))


def tried(of_all: list[dict[str, str]], seed: int, keep: Path | None) -> tuple[list[str], float]:
    """Return what must not be of one definition, and how long its check takes [s]."""
    dice = random.Random(seed)
    texts = mutant(dice.choice(of_all), dice)
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "mutant"
        written(texts, folder)
        start = time.process_time()
        try:
            found = list(faults_of(folder, printed=False))
            took_s = time.process_time() - start
            found += list(faults_of(folder, printed=True)) if seed % _PRINTED == 0 else []
        except Exception:  # what is looked for
            found, took_s = [traceback.format_exc()], time.process_time() - start
    if keep is not None and (found or took_s > _LONGEST_S):
        written(texts, keep / f"{seed}")
    return found, took_s


def written(texts: dict[str, str], folder: Path) -> None:
    """Write files."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode("utf-8", "surrogatepass"))


if __name__ == "__main__":
    main()
