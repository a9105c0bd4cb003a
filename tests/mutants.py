"""Definitions as nobody means them: the files of an aircraft with a few things altered, by a seed."""

from __future__ import annotations

import itertools
import random
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pypdfium2
import yaml
from beginning.answer_sets import as_words, random_sets
from beginning.begun import answers_to

from docgen.basics.shipped import shipped_folder
from docgen.beginning.begin import begin
from docgen.paperwork.documents import Choice, make_paperwork
from docgen.pipeline import check

Texts = Mapping[str, str]

# What stands where something else should: values of another kind, at a bound, or hard to read and to print.
ODD = (
    "", "0", "-1", "0 mm", "-3 mm", "1e9 mm", "99999999999999999999 mm", "0.0000001 A", "1e400 V", "12", "3,5 mm",
    "100 %", "0 %", "9999 °C", "AWG", "22 AWG", "0 AWG", "60 AWG", "0.5 mm²", "1..3", "3..1", "1..200", "1..1000000",
    "yes", "no", "NO", "null", "~", "{}", "[]", "[a, [b, [c]]]", "{a: {b: c}}", "left", "<side>", "<side>-root",
    "receiver", "pins", "BK", "WHRD", "a b c", "é", "飛行機", "🛩", "\u202eabc", "a\u0301", "x" * 300, "wide " * 80,
    "'", '"', "|", ">", "&a b", "*a", "!t b", "? x", "- x", "#", "%", "\t", "\x07", "\u0085", "2026-02-30", "1:30",
)  # fmt: skip
_LONGEST = 30_000  # characters, of a file that is altered again and again


def mutant(texts: Texts, dice: random.Random) -> dict[str, str]:
    """Return the texts of files with one to four alterations, either of their characters or of what they say."""
    changed = dict(texts)
    for _ in range(dice.choice((1, 1, 1, 2, 4))):
        file = dice.choice(sorted(changed))
        alter = dice.choice((_lines, _characters, _said, _said, _said, _figures))
        changed[file] = alter(changed[file], dice)[:_LONGEST]
    return changed


def sources(begun: int) -> list[dict[str, str]]:
    """Return the files of all examples, and of so many aircraft that are begun from answers by chance."""
    examples = (path for path in sorted(shipped_folder("examples").iterdir()) if path.is_dir())
    answers = (answers_to(**as_words(said)) for said in itertools.islice(random_sets(1), begun))
    return [texts_of(path) for path in examples] + [begin("begun", answered) for answered in answers]


def texts_of(folder: Path) -> dict[str, str]:
    """Return the files of an aircraft."""
    return {path.name: path.read_text("utf-8") for path in sorted(folder.glob("*.yaml"))}


def faults_of(folder: Path, *, printed: bool) -> Iterator[str]:
    """Check what is written in a folder and, if wanted and without an error, print it; walk what must never be.

    That is a position outside of its file (lines end as YAML 1.1 has it, section 5.3), and a text off its page; a
    traceback comes as it is.
    """
    checked = check(folder)
    for finding in checked.findings:
        path = Path(finding.position.file)
        lines = (
            re.split("\r\n|[\r\n\x85\u2028\u2029]", path.read_bytes().decode("utf-8", "replace"))
            if path.is_file()
            else []
        )
        line, column = finding.position.line, finding.position.column
        if path.is_file() and not (1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 1):
            yield f"no such position: {finding.position} {finding.name}"
    if printed and checked.harness is not None:
        for name, content in make_paperwork(checked.harness, Choice()).files.items():
            if name.endswith(".pdf"):
                yield from (f"{name}: {text}" for text in _off_page(content))


def _off_page(pdf: bytes) -> Iterator[str]:
    for page in pypdfium2.PdfDocument(pdf):
        wide, high = page.get_size()
        for text in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT]):
            left, bottom, right, top = text.get_bounds()
            if right > left and not (left >= 0 and bottom >= 0 and right <= wide and top <= high):
                yield f"off its page: {text.extract()!r}"


def _lines(text: str, dice: random.Random) -> str:
    """Leave out, double, exchange, indent or cut a line."""
    lines = text.split("\n")
    one, other = dice.randrange(len(lines)), dice.randrange(len(lines))
    act = dice.randrange(5)
    if act == 0:
        del lines[one]
    elif act == 1:
        lines.insert(other, lines[one])
    elif act == 2:
        lines[one], lines[other] = lines[other], lines[one]
    elif act == 3:
        lines[one] = " " * dice.choice((1, 2, 4)) + lines[one]
    else:
        lines[one] = lines[one][: dice.randrange(len(lines[one]) + 1)]
    return "\n".join(lines)


def _characters(text: str, dice: random.Random) -> str:
    """Leave out a few characters, put some in, or end the file early."""
    at = dice.randrange(len(text) + 1)
    act = dice.randrange(4)
    if act == 0:
        return text[:at] + text[at + dice.randrange(1, 9) :]
    if act == 1:
        return text[:at] + dice.choice(ODD) + text[at:]
    if act == 2:
        return text[:at] + dice.choice("{}[]:,-#'\"|>&*!%@`?\n\t \0\ufeff") + text[at:]
    return text[:at]


def _figures(text: str, dice: random.Random) -> str:
    """Make one figure another."""
    found = list(re.finditer(r"(?<![\w-])\d+(?:\.\d+)?", text))
    if not found:
        return text
    one = dice.choice(found)
    factor = dice.choice((0, 0.001, 0.1, 0.5, 1.1, 2, 10, 1000, 1e6, -1))
    return text[: one.start()] + f"{float(one[0]) * factor:g}" + text[one.end() :]


def _said(text: str, dice: random.Random) -> str:
    """Leave out, double, exchange or replace a value of what is said, then write it all anew."""
    try:
        data = yaml.load(text, yaml.BaseLoader)
    except (yaml.YAMLError, ValueError):
        return _lines(text, dice)
    places = list(_places(data))
    if not places:
        return text
    within, key = dice.choice(places)
    act = dice.randrange(6)
    other = dice.choice(places)
    if act == 0:
        del within[key]
    elif act == 1:
        within[key] = _copied(other[0][other[1]])
    elif act == 2:
        alike = [place for place in places if place[1] == key]
        other = dice.choice(alike)
        within[key], other[0][other[1]] = _copied(other[0][other[1]]), _copied(within[key])
    elif act == 3 and isinstance(within, dict):
        within[f"{key}-2"] = _copied(within[key])
    elif act == 4 and isinstance(within, dict):
        within[dice.choice(ODD) or "x"] = within.pop(key)
    else:
        within[key] = dice.choice(ODD)
    return yaml.safe_dump(data, allow_unicode=True, sort_keys=False)


def _places(data: Any) -> Iterator[tuple[Any, Any]]:
    """Walk every value by what it is in, and its key there."""
    for key, value in list(
        data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    ):
        yield data, key
        yield from _places(value)


def _copied(value: Any) -> Any:
    return yaml.load(yaml.safe_dump(value), yaml.BaseLoader)
