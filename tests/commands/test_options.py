"""What the words of a command line choose, where the paper goes, and what is said of wrong words."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import astuple
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from conftest import WREN, Run

from docgen import pipeline

if TYPE_CHECKING:
    from docgen.paperwork.document import Choice
    from docgen.paperwork.printed import Printed

NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: 260")]}


@pytest.fixture
def chosen(run: Run, monkeypatch: pytest.MonkeyPatch) -> Callable[..., tuple[list[tuple[Path, Path]], Choice]]:
    """Return what words to `print` ask for: folders with where their paper goes, and the choice; nothing is printed."""
    asked: list[tuple[list[tuple[Path, Path]], Choice]] = []

    def printed(folders: list[tuple[Path, Path]], choice: Choice) -> list[Printed]:
        asked.append((folders, choice))
        return []

    monkeypatch.setattr(pipeline, "print_aircraft", printed)

    def words(*said: str | Path) -> tuple[list[tuple[Path, Path]], Choice]:
        told = run("print", *said)
        assert told.exit_code == 0, told.output
        return asked.pop()

    return words


def test_without_options_all_is_printed_on_a4_once(chosen: Callable[..., tuple[object, Choice]]) -> None:
    _, choice = chosen(WREN)
    assert astuple(choice) == ((), "a4", None, None, ((), (), 1, 1), (), False, False, None, None)


def test_each_option_chooses_what_it_says(chosen: Callable[..., tuple[object, Choice]]) -> None:
    Path("printer.yaml").write_text("kind: printer\nscale: [101 %, 99 %]\nshift: [1 mm, -2 mm]\n")
    many = ["--only", "rudder", "--only", "supply", "--only-place", "tray", "--first", "3", "--copies", "99"]
    told = ["--stock", "tape-9", "--flat", "8.6mm", "--order", "RD, BK,,RD", "--csv", "--brief", "--paper", "letter"]
    last = ["--printer", "printer.yaml", "--assembly", "wing", "--to", "paper"]
    folders, choice = chosen(WREN, "cut-list", "record", *many, *told, *last)
    assert folders == [(WREN, Path("paper"))]
    assert choice.stems == ("cut-list", "record")
    assert (choice.paper, choice.stock, choice.flat_mm) == ("letter", "tape-9", 8.6)
    assert astuple(choice.labels) == (("rudder", "supply"), ("tray",), 3, 99)
    assert (choice.order, choice.csv, choice.brief, choice.assembly) == (("RD", "BK"), True, True, "wing")
    assert choice.printer is not None
    assert choice.printer.scale == [1.01, 0.99]
    Path("own.yaml").write_text("kind: sail\n")
    assert chosen(WREN, "--stock", "own.yaml")[1].stock == Path("own.yaml")


def test_paper_goes_to_out_or_where_it_is_told(chosen: Callable[..., tuple[object, Choice]]) -> None:
    for name in ("gull", "tern"):
        Path(name).mkdir()
    out = Path("out")
    assert chosen("gull")[0] == [(Path("gull"), out / "gull")]
    assert chosen("gull", "tern")[0] == [(Path("gull"), out / "gull"), (Path("tern"), out / "tern")]
    paper = Path("paper")
    assert chosen("gull", "--to", "paper")[0] == [(Path("gull"), paper)]
    both = [(Path("gull"), paper / "gull"), (Path("tern"), paper / "tern")]
    assert chosen("gull", "tern", "--to", "paper")[0] == both


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["print"], "Missing argument"),
        (["print", "cut-list"], "name the folder of an aircraft."),
        (["print", WREN, "cut-lists"], "'cut-lists' is neither a folder nor a document (measuring-sheet, cut-list, "),
        (["print", WREN, "--first", "0"], "0 is not in the range x>=1"),
        (["print", WREN, "--copies", "0"], "0 is not in the range 1<=x<=99"),
        (["print", WREN, "--copies", "100"], "100 is not in the range 1<=x<=99"),
        (["print", WREN, "--flat", "8.6mm"], "--flat is measured on the tube of a tape: name that with --stock."),
        (["print", WREN, "--flat", "8.6", "--stock", "tape-9"], "--flat: "),
        (["print", WREN, "--order", "RD,XX"], "--order: "),
        (["print", WREN, "--stock", "nowhere"], "there is no stock 'nowhere' (known: "),
        (["print", WREN, "--printer", "nowhere"], "'nowhere' does not exist"),
        (["print", WREN, "--printer", WREN], "is a directory"),
        (["print", WREN, "--to", WREN / "harness.yaml"], "is a file"),
        (["ruler", "--to", WREN], "is a directory"),
        (["ruler", "--measured", "1,2"], "--measured: "),
        (["check", WREN / "harness.yaml"], "is a file"),
        (["check", "nowhere"], "does not exist"),
        (["schema"], "name a file (aircraft, harness, stores, parts), or say --to for all."),
    ],
)
def test_wrong_words_are_told_with_the_reason(words: list[str | Path], told: str, run: Run) -> None:
    used = run(*words)
    assert (used.exit_code, used.stdout) == (2, "")
    assert told in re.sub(r"\s+", " ", used.stderr)
    assert list(Path().iterdir()) == []


def test_these_are_the_commands(run: Run) -> None:
    told = run("--help").stdout.partition("Commands:\n")[2]
    words = "built check compare explain issue new parts print ruler schema stock"
    assert re.findall(r"^  ([a-z]+)", told, re.MULTILINE) == words.split()


# As they are used: where to, on what, how many, in which order.
PAPER_OPTIONS = ["to", "paper", "stock", "flat", "first", "copies", "order", "csv", "brief", "printer"]


@pytest.mark.parametrize("command", ["print", "issue"])
def test_help_lists_the_options_of_paper_in_the_order_of_use(command: str, run: Run) -> None:
    told = run(command, "--help").stdout
    listed = re.findall(r"^  --([a-z-]+)", told, re.MULTILINE)
    assert listed[: len(PAPER_OPTIONS)] == PAPER_OPTIONS
    assert "[default: a4]" in told


def test_an_example_is_copied_with_its_schema_named_at_the_head_of_each_file(run: Run) -> None:
    told = run("new", "gull", "--like", "wren")
    assert (told.exit_code, told.stdout) == (0, "gull is a copy of wren; change it, then: docgen check gull\n")
    assert {path.name for path in Path("gull").glob("*.yaml")} == {path.name for path in WREN.glob("*.yaml")}
    for path in WREN.glob("*.yaml"):
        head, _, rest = (Path("gull") / path.name).read_text("utf-8").partition("\n")
        assert head == f"# yaml-language-server: $schema=.schema/{path.stem}.json"
        assert rest == path.read_text("utf-8")
    assert "there is no example 'wrenn' (known: fulmar, wisp, wren)." in run("new", "tern", "--like", "wrenn").stderr


def test_a_schema_is_shown_as_it_is_written_to_a_file(run: Run) -> None:
    shown = run("schema", "parts").stdout
    assert shown.startswith("{\n")
    assert shown.endswith("}\n")
    told = run("schema", "--to", "all")
    assert (told.exit_code, told.stdout) == (0, "")
    names = ["aircraft.json", "harness.json", "parts.json", "stores.json"]
    assert sorted(path.name for path in Path("all").iterdir()) == names
    assert Path("all/parts.json").read_text("utf-8") == shown
    assert run("schema", "stores", "--to", "one").exit_code == 0
    assert [path.name for path in Path("one").iterdir()] == ["stores.json"]
