"""The command line: what goes where, exit codes, and that a builder never sees a traceback."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import pypdf
import pytest
from click.testing import CliRunner

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen
from docgen.commands.schema import FILES
from docgen.definition.schema import STEMS
from docgen.paperwork.kinds import KINDS

if TYPE_CHECKING:
    from conftest import AircraftFolder, Run

WREN = shipped_folder("examples") / "wren"
DRAFT = f"contacts and marks may still move; before the first crimp: docgen issue {WREN}\n"
FULMAR = shipped_folder("examples") / "fulmar"
PDFS = {
    "wire-labels.pdf",
    "pinout-cards.pdf",
    "cut-list.pdf",
    "order-of-work.pdf",
    "ring-out-sheet.pdf",
    "first-power.pdf",
    "hangar-card.pdf",
    "fault-finder.pdf",
}
RECORD_TOLD = ("record.txt", "record/", "index.html")
# Both halves of each disconnect share a part; the receiver is wren's only equipment with ports.
RECORD = {
    "index.html",
    "record.txt",
    "record/disconnect-left-root.txt",
    "record/disconnect-right-root.txt",
    "record/equipment-receiver.txt",
    "record/assembly-fuselage.txt",
    "record/assembly-left-panel.txt",
    "record/assembly-right-panel.txt",
}
NO_UNIT = {"aircraft.yaml": [("length: 260 mm", "length: ▶260")]}
UNMEASURED = {
    "aircraft.yaml": [("{between: [battery-bay, radio-tray], length: 260 mm}", "▶{between: [battery-bay, radio-tray]}")]
}
POINTS_PER_MM = 72 / 25.4


def process(*words: str | Path, **settings: str) -> subprocess.CompletedProcess[str]:
    """Run the program as a builder does, in the current folder."""
    command = [sys.executable, "-m", "docgen", *map(str, words)]
    return subprocess.run(
        command, capture_output=True, text=True, errors="replace", env=os.environ | settings, check=False
    )


def program(before: str, *words: str | Path) -> list[str]:
    """Return a command that runs these statements, then the program."""
    return [sys.executable, "-c", f"{before}\nfrom docgen.cli import main\nmain()", *map(str, words)]


def contents(folder: Path) -> dict[str, bytes]:
    """Return all files below a folder, hidden ones too."""
    files = (path for path in folder.rglob("*") if path.is_file() and path.name != "set.txt")
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def sizes_pt(pdf: Path) -> list[tuple[float, float]]:
    return [(float(page.mediabox.width), float(page.mediabox.height)) for page in pypdf.PdfReader(pdf).pages]


# Help and version


@pytest.mark.parametrize("option", ["--help", "-h"])
@pytest.mark.parametrize("command", [[], ["check"], ["print"], ["new"]])
def test_help_is_shown(run: Run, command: list[str], option: str) -> None:
    shown = run(*command, option)
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert shown.stdout.startswith("Usage: ")


def test_version_is_shown(bench: Path) -> None:  # noqa: ARG001
    shown = process("--version")
    assert (shown.returncode, shown.stderr) == (0, "")
    assert re.search(r"docgen.* \d+\.\d+\.\d+\n$", shown.stdout)


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["check", "--help"], ["print", "--help"]])
def test_help_loads_no_heavy_library(words: list[str]) -> None:
    tell = (
        "import atexit, sys\n"
        "heavy = {'yaml', 'pydantic', 'reportlab', 'qrcode'}\n"
        "atexit.register(lambda: print(sorted(heavy & set(sys.modules)), file=sys.stderr))"
    )
    shown = subprocess.run(program(tell, *words), capture_output=True, text=True, check=False)
    assert (shown.returncode, shown.stderr) == (0, "[]\n")


# check


def test_check_of_a_good_aircraft_says_nothing_on_standard_error(run: Run) -> None:
    checked = run("check", WREN)
    assert (checked.exit_code, checked.stderr) == (0, "")
    assert "Wren WR-7, revision A" in checked.stdout


def test_check_shows_what_is_no_error_and_exits_0(run: Run, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(UNMEASURED)
    [(file, line, column)] = aircraft_folder.marks
    checked = run("check", folder)
    assert checked.exit_code == 0
    first, then, last = checked.stderr.splitlines()
    assert first.startswith(f"{folder}/{file}:{line}:{column}: note unmeasured: ")
    assert re.fullmatch(r"  do: .+", then)
    assert last == "1 note."


def test_check_shows_an_error_and_exits_1(run: Run, aircraft_folder: AircraftFolder) -> None:
    folder = aircraft_folder(NO_UNIT)
    [(file, line, column)] = aircraft_folder.marks
    checked = run("check", folder)
    assert (checked.exit_code, checked.stdout) == (1, "")
    first, then, last = checked.stderr.splitlines()
    assert first.startswith(f"{folder}/{file}:{line}:{column}: error unit: ")
    assert re.fullmatch(r"  do: .+", then)
    assert last == "1 error."


@pytest.mark.parametrize(
    "words",
    [
        ["check"],
        ["check", "nowhere"],
        ["check", WREN / "harness.yaml"],
        ["check", WREN, WREN],
        ["print"],
        ["print", "cut-list"],
        ["print", WREN, "cut-lists"],
        ["print", WREN, "cut-list.pdf"],
        ["print", WREN / "harness.yaml"],
        ["print", WREN, "--paper", "a3"],
        ["print", WREN, "--stock", "tape-900"],
        ["print", WREN, "--stock", "list-a4"],
        ["print", WREN, "--draft"],
        ["schema"],
        ["schema", "layout"],
        ["new"],
        ["new", "gull", "--like", "gull"],
        ["paint", WREN],
    ],
    ids=lambda words: " ".join(word.name if isinstance(word, Path) else word for word in words),
)
def test_wrong_use_exits_2_and_writes_nothing(run: Run, bench: Path, words: list[str | Path]) -> None:
    used = run(*words)
    assert (used.exit_code, used.stdout) == (2, "")
    assert "Error: " in used.stderr
    assert list(bench.iterdir()) == []


def test_an_unknown_stock_or_example_is_told_with_those_there_are(run: Run) -> None:
    assert "tape-9" in run("print", WREN, "--stock", "tape-900").stderr
    assert "fulmar, wisp, wren" in run("new", "gull", "--like", "gull").stderr


# print: what is written, and where


def test_print_writes_these_files_into_out(run: Run, bench: Path) -> None:
    printed = run("print", WREN)
    assert (printed.exit_code, printed.stderr) == (0, DRAFT)
    assert contents(bench).keys() == {f"out/wren/{file}" for file in PDFS | RECORD}


def test_print_ends_with_what_came_out_in_the_order_of_use(run: Run, bench: Path) -> None:
    *lines, last = run("print", WREN, "--csv").stdout.splitlines()
    told = [re.split(r"  +", line) for line in lines]
    for_bench = "cut-list.pdf cut-list.csv wire-labels.pdf wire-labels.csv order-of-work.pdf ring-out-sheet.pdf"
    for_field = "pinout-cards.pdf first-power.pdf hangar-card.pdf fault-finder.pdf"
    files = [*for_bench.split(), *for_field.split(), *RECORD_TOLD]
    assert [path for path, _, _ in told] == [f"out/wren/{file}" for file in files]
    for path, extent, use in told:
        if path.endswith(".pdf"):
            sheets = len(pypdf.PdfReader(bench / path).pages)
            assert extent == f"{sheets} sheet{'s' if sheets > 1 else ''}"
        assert use
    sheets = sum(len(pypdf.PdfReader(pdf).pages) for pdf in (bench / "out/wren").glob("*.pdf"))
    assert last == f"{sheets} sheets, in the order in which they are used."
    assert told[-2][1] == f"{len([*(bench / 'out/wren/record').iterdir()])} files"


def test_a_tape_has_pages_and_no_sheets(run: Run, bench: Path) -> None:
    [line] = run("print", WREN, "wire-labels", "--stock", "tape-9").stdout.splitlines()
    assert f" {len(pypdf.PdfReader(bench / 'out/wren/wire-labels.pdf').pages)} pages " in line


def test_a_folder_is_named_by_where_it_is_and_not_by_how_it_is_called(
    run: Run, bench: Path, monkeypatch: pytest.MonkeyPatch, aircraft_folder: AircraftFolder
) -> None:
    monkeypatch.chdir(aircraft_folder())
    assert run("print", ".", "record", "--to", bench / "as-told").exit_code == 0
    assert run("print", ".", "record").exit_code == 0
    assert Path("out/wren/record.txt").is_file()
    assert contents(bench).keys() == {f"as-told/{file}" for file in RECORD}


def test_one_aircraft_goes_straight_to_the_folder_told(run: Run, bench: Path) -> None:
    assert run("print", WREN, "record", "--to", "paper/today").exit_code == 0
    assert contents(bench).keys() == {f"paper/today/{file}" for file in RECORD}


@pytest.mark.parametrize(("options", "parent"), [(["--to", "paper"], "paper"), ([], "out")])
def test_several_aircraft_go_to_a_folder_each(
    run: Run, bench: Path, aircraft_folder: AircraftFolder, options: list[str], parent: str
) -> None:
    gull = aircraft_folder().rename(bench.parent / "gull")
    assert run("print", WREN, gull, "cut-list", *options).exit_code == 0
    assert contents(bench).keys() == {f"{parent}/wren/cut-list.pdf", f"{parent}/gull/cut-list.pdf"}


def test_two_folders_of_one_name_are_refused(run: Run, bench: Path, aircraft_folder: AircraftFolder) -> None:
    assert run("print", WREN, aircraft_folder()).exit_code == 2
    assert list(bench.iterdir()) == []


@pytest.mark.parametrize(
    ("stems", "files"),
    [
        (["cut-list"], {"cut-list.pdf"}),
        (["hangar-card", "wire-labels"], {"hangar-card.pdf", "wire-labels.pdf"}),
        (["record"], RECORD),
        (["pinout-cards", "record"], {"pinout-cards.pdf"} | RECORD),
    ],
)
def test_only_the_documents_named_are_written(run: Run, bench: Path, stems: list[str], files: set[str]) -> None:
    assert run("print", WREN, *stems, "--to", "paper").exit_code == 0
    assert contents(bench / "paper").keys() == files


def test_a_stem_is_a_document_even_where_a_folder_has_its_name(
    run: Run, bench: Path, aircraft_folder: AircraftFolder
) -> None:
    aircraft_folder().rename(bench / "cut-list")
    assert run("print", WREN, "cut-list").exit_code == 0
    assert contents(bench / "out").keys() == {"wren/cut-list.pdf"}


def test_letter_paper_is_used_for_sheets(run: Run, bench: Path) -> None:
    assert run("print", WREN, "cut-list", "wire-labels", "--paper", "letter", "--to", "paper").exit_code == 0
    # 8.5 in and 11 in of 72 pt; the sheet of labels may lie.
    assert set(sizes_pt(bench / "paper/cut-list.pdf")) == {(612, 792)}
    assert {tuple(sorted(size)) for size in sizes_pt(bench / "paper/wire-labels.pdf")} == {(612, 792)}


def test_tape_has_one_label_a_page_as_high_as_the_tape(run: Run, bench: Path) -> None:
    assert run("print", WREN, "wire-labels", "--stock", "tape-9", "--to", "paper").exit_code == 0
    pages = sizes_pt(bench / "paper/wire-labels.pdf")
    # Supply, rudder, two ailerons in the fuselage and one in each panel: six leads of two ends.
    assert len(pages) == 12
    for width_pt, height_pt in pages:
        assert height_pt == pytest.approx(9 * POINTS_PER_MM, abs=0.01)
        assert width_pt + 0.01 >= 30 * POINTS_PER_MM
        assert width_pt <= 80 * POINTS_PER_MM + 0.01


# print: what stays as it was


def test_nothing_that_was_there_is_deleted(run: Run, bench: Path) -> None:
    (bench / "out/wren/record").mkdir(parents=True)
    (bench / "out/wren/record/equipment-gyro.txt").write_text("of an earlier harness")
    (bench / "out/wren/my-notes.pdf").write_text("mine")
    before = contents(bench)
    assert run("print", WREN, "record").exit_code == 0
    assert contents(bench).items() >= before.items()


RUDDER_UNIT = (
    "  pack:\n    kind",
    "  <name>: {kind: receiver, place: tail-post, ports: {plug: servo-3, names: [X]}}\n  pack:\n    kind",
)


@pytest.fixture
def renamed(aircraft_folder: AircraftFolder) -> Callable[[str], Path]:
    """Return a wren with one more piece of equipment, which has a part of the record."""

    def renamed(name: str) -> Path:
        old, new = RUDDER_UNIT
        return aircraft_folder({"harness.yaml": [(old, new.replace("<name>", name))]})

    return renamed


@pytest.mark.parametrize("name", ["gyro", "g" * 100])
def test_parts_of_a_record_that_are_made_no_more_are_removed_and_it_is_told(
    run: Run, bench: Path, renamed: Callable[[str], Path], name: str
) -> None:
    assert run("print", renamed(name), "cut-list", "record", "--to", "paper").exit_code == 0
    assert f"record/equipment-{name}.txt" in contents(bench / "paper")
    printed = run("print", WREN, "record", "--to", "paper")
    assert printed.exit_code == 0
    assert contents(bench / "paper").keys() == {"cut-list.pdf"} | RECORD
    assert f"paper/record/equipment-{name}.txt" in printed.stderr


def test_printing_other_documents_removes_no_part_of_the_record(
    run: Run, bench: Path, renamed: Callable[[str], Path]
) -> None:
    assert run("print", renamed("gyro"), "record", "--to", "paper").exit_code == 0
    assert run("print", WREN, "cut-list", "--to", "paper").exit_code == 0
    assert contents(bench / "paper").keys() == {"cut-list.pdf"} | RECORD | {"record/equipment-gyro.txt"}


def test_an_error_removes_no_part_of_the_record(
    run: Run, bench: Path, renamed: Callable[[str], Path], aircraft_folder: AircraftFolder
) -> None:
    assert run("print", renamed("gyro"), "record", "--to", "paper").exit_code == 0
    before = contents(bench)
    assert run("print", aircraft_folder(NO_UNIT), "--to", "paper").exit_code == 1
    assert contents(bench) == before


def test_what_does_not_begin_as_a_part_of_a_record_stays(run: Run, bench: Path) -> None:
    record = bench / "paper/record"
    record.mkdir(parents=True)
    (record / "equipment-gyro.txt").write_text("FM-12 equipment gyro\nbought in May\n")
    (record / "equipment-other.txt").write_text("FM-12 equipment gyro\nsince: A\n")
    (record / "notes.txt").write_text("FM-12 equipment notes\nsince: A\n")
    (record / "equipment-gyro.txt.bak").write_text("FM-12 equipment gyro\nsince: A\n")
    (record / "equipment-raw.txt").write_bytes(b"\xff\xfe\0")
    (record / "equipment-folder.txt").mkdir()
    (bench / "mine.txt").write_text("FM-12 equipment linked\nsince: A\n")
    (record / "equipment-linked.txt").symlink_to(bench / "mine.txt")
    (bench / "paper/equipment-gyro.txt").write_text("FM-12 equipment gyro\nsince: A\n")
    before = contents(bench)
    printed = run("print", WREN, "record", "--to", "paper")
    assert (printed.exit_code, printed.stderr) == (0, DRAFT)
    assert contents(bench).items() >= before.items()
    assert (record / "equipment-linked.txt").is_symlink()


def test_values_of_an_earlier_cut_list_stay_and_are_told(run: Run, bench: Path) -> None:
    assert run("print", WREN, "cut-list", "--csv", "--to", "paper").stderr == DRAFT
    before = contents(bench / "paper")["cut-list.csv"]
    assert "paper/cut-list.csv is from an earlier print" in run("print", WREN, "cut-list", "--to", "paper").stderr
    assert contents(bench / "paper")["cut-list.csv"] == before
    assert run("print", WREN, "record", "--to", "paper").stderr == DRAFT


def test_on_an_error_nothing_is_written(run: Run, bench: Path, aircraft_folder: AircraftFolder) -> None:
    printed = run("print", aircraft_folder(NO_UNIT))
    assert (printed.exit_code, printed.stdout) == (1, "")
    assert "error unit" in printed.stderr
    assert "earlier state" not in printed.stderr
    assert list(bench.iterdir()) == []


@pytest.mark.parametrize("left", ["cut-list.pdf", "record.txt"])
def test_on_an_error_the_paper_there_stays_and_is_said_to_be_of_an_earlier_state(
    run: Run, bench: Path, aircraft_folder: AircraftFolder, left: str
) -> None:
    (bench / "out/wren").mkdir(parents=True)
    (bench / "out/wren" / left).write_text("as it was")
    printed = run("print", aircraft_folder(NO_UNIT))
    assert printed.exit_code == 1
    assert "out/wren is from an earlier state" in printed.stderr
    assert contents(bench) == {f"out/wren/{left}": b"as it was"}


# print: targets that can't be written


@pytest.mark.parametrize("target", ["taken", "taken/below", "paper"])
def test_a_file_in_the_way_is_told_and_nothing_is_written(run: Run, bench: Path, target: str) -> None:
    (bench / "taken").write_text("as it was")
    (bench / "paper").mkdir()
    (bench / "paper/record").write_text("as it was")
    before = contents(bench)
    printed = run("print", WREN, "record", "--to", target)
    assert printed.exit_code in (1, 2)
    assert isinstance(printed.exception, SystemExit)
    assert printed.stdout == ""
    assert target in printed.stderr
    assert contents(bench) == before


def test_a_folder_in_the_way_of_one_document_leaves_all_as_they_were(run: Run, bench: Path) -> None:
    (bench / "paper/cut-list.pdf").mkdir(parents=True)
    for file in ("order-of-work.pdf", "record.txt"):
        (bench / "paper" / file).write_text("as it was")
    before = contents(bench)
    printed = run("print", WREN, "order-of-work", "cut-list", "record", "--to", "paper")
    assert (printed.exit_code, printed.stdout) == (1, "")
    assert isinstance(printed.exception, SystemExit)
    assert "paper/cut-list.pdf" in printed.stderr
    assert contents(bench) == before


# No file may grow over 1000 bytes, as if the disc were full.
FULL_DISC = "import resource; resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))"


@pytest.mark.parametrize("words", [["print", WREN, "record", "--to", "paper"], ["new", "paper"]])
@pytest.mark.long
def test_a_full_disc_is_told_and_leaves_nothing_half_written(bench: Path, words: list[str | Path]) -> None:
    (bench / "paper").mkdir()
    interpreter, *rest = program(FULL_DISC, *words)
    # Bytecode of modules that are imported here for the first time would be cut short too.
    told = subprocess.run([interpreter, "-B", *rest], capture_output=True, text=True, check=False)
    assert (told.returncode, told.stdout) == (1, "")
    assert re.match(r"can't write (\S*/)?paper\S*: File too large\n", told.stderr)
    assert contents(bench) == {}


# new


@pytest.mark.parametrize(("options", "example"), [(["--like", "wren"], WREN), (["--like", "fulmar"], FULMAR)])
def test_new_copies_an_example(run: Run, bench: Path, options: list[str], example: Path) -> None:
    assert run("new", "gull", *options).exit_code == 0
    new = {name: content.partition(b"\n") for name, content in contents(bench / "gull").items() if ".json" not in name}
    assert {name: text for name, (_, _, text) in new.items()} == {
        path.name: path.read_bytes() for path in example.glob("*.yaml")
    }


def test_what_new_writes_names_its_schema_where_that_is(run: Run, bench: Path) -> None:
    run("new", "gull", "--like", "fulmar")
    for path in (bench / "gull").glob("*.yaml"):
        named = path.read_text("utf-8").partition("\n")[0].removeprefix("# yaml-language-server: $schema=")
        schema = bench / "gull" / named
        assert schema.read_text("utf-8") == run("schema", path.stem).stdout


def test_schemas_are_written_where_they_are_wanted(run: Run, bench: Path) -> None:
    assert run("schema", "--to", "all").stdout == run("schema", "parts", "--to", "one").stdout == ""
    assert sorted(contents(bench)) == [
        *(f"all/{name}.json" for name in ("aircraft", "harness", "parts", "stores")),
        "one/parts.json",
    ]


def test_each_file_of_the_builder_has_its_schema() -> None:
    assert FILES == STEMS


def test_new_takes_an_empty_folder_and_makes_those_above(run: Run, bench: Path) -> None:
    (bench / "empty").mkdir()
    for folder in ("empty", "hangar/gull"):
        assert run("new", folder).exit_code == 0
        assert run("check", folder).exit_code == 0


@pytest.mark.parametrize("folder", ["hangar", "hangar/note.txt"])
def test_new_refuses_what_holds_something(run: Run, bench: Path, folder: str) -> None:
    (bench / "hangar").mkdir()
    (bench / "hangar/note.txt").write_text("mine")
    refused = run("new", folder)
    assert refused.exit_code == 2
    assert f"'{folder}'" in refused.stderr
    assert contents(bench) == {"hangar/note.txt": b"mine"}


# No traceback


def shown_on(standard_output: int, *words: str | Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "docgen", *map(str, words)]
    try:
        return subprocess.run(command, stdout=standard_output, stderr=subprocess.PIPE, text=True, check=False)
    finally:
        os.close(standard_output)


@pytest.mark.parametrize("words", [["--help"], ["check", WREN], ["print", WREN, "record"]], ids=lambda words: words[0])
@pytest.mark.long
def test_a_closed_pipe_is_told_and_the_exit_code_tells_of_the_files(bench: Path, words: list[str | Path]) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    told = shown_on(writing, *words)
    # strerror(EPIPE) of the GNU C library and of BSD's.
    draft = DRAFT if words[0] == "print" else ""
    assert (told.returncode, told.stderr) == (0, f"{draft}can't show the rest: Broken pipe.\n")
    assert words[0] != "print" or contents(bench).keys() == {f"out/wren/{file}" for file in RECORD}


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is always full")
@pytest.mark.parametrize(("wrong", "code"), [(False, 0), (True, 1)])
@pytest.mark.long
def test_a_full_disc_behind_standard_output_is_told_and_the_exit_code_tells_of_the_files(
    bench: Path, aircraft_folder: AircraftFolder, wrong: bool, code: int
) -> None:
    gull = aircraft_folder(NO_UNIT if wrong else {}).rename(bench.parent / "gull")
    told = shown_on(os.open("/dev/full", os.O_WRONLY), "print", WREN, gull, "hangar-card")
    assert told.returncode == code
    assert told.stderr.count("can't show the rest: No space left on device.\n") == 1
    assert {"out/wren/hangar-card.pdf"} <= contents(bench).keys()


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&-"])
@pytest.mark.long
def test_a_stream_closed_by_the_shell_changes_nothing_else(bench: Path, closed: str) -> None:
    command = ["sh", "-c", f'exec "$@" {closed}', "sh", sys.executable, "-m", "docgen", "print", str(WREN), "record"]
    told = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (told.returncode, told.stderr) == (0, "" if closed == "2>&-" else DRAFT)
    assert contents(bench).keys() == {f"out/wren/{file}" for file in RECORD}


@pytest.mark.parametrize("encoding", ["ascii", pytest.param("latin-1", marks=pytest.mark.long), "utf-8"])
@pytest.mark.long
def test_a_terminal_that_lacks_a_character_shows_no_traceback(
    bench: Path, aircraft_folder: AircraftFolder, encoding: str
) -> None:
    good = aircraft_folder({"aircraft.yaml": [("name: Wren", "name: Łabędź")]}).rename(bench / "łabędź")
    wrong = aircraft_folder({"aircraft.yaml": [("  revision: A", "  długość: źle\n  revision: A")]})
    for folder, code in ((good, 0), (wrong, 1)):
        told = process("check", folder, PYTHONIOENCODING=encoding)
        assert told.returncode == code
        assert "Traceback" not in told.stderr
    assert "error key: " in told.stderr


# ISO 646 has no letter from 128 up; what stands for the program's own signs there is no escape.
@pytest.mark.parametrize(
    "words",
    [
        ["check", WREN],
        *(pytest.param(words, marks=pytest.mark.long) for words in (["stock"], ["parts"], ["explain", "swap"])),
    ],
    ids=lambda words: words[0],
)
def test_a_console_of_ascii_alone_is_readable(words: list[str | Path]) -> None:
    told = subprocess.run(
        [sys.executable, "-m", "docgen", *map(str, words)],
        capture_output=True,
        env=os.environ | {"PYTHONIOENCODING": "ascii"},
        check=True,
    )
    text = told.stdout.decode("ascii")
    assert "\\" not in text
    assert words[0] != "check" or "pack                -       6.40" in text


def test_a_fault_of_the_program_is_told_in_two_sentences_and_nothing_is_written(bench: Path) -> None:
    fault = "from docgen.paperwork.record import record\nrecord.content = lambda *_: {}['gone']"
    stopped = subprocess.run(program(fault, "print", WREN), capture_output=True, text=True, check=False)
    assert stopped.returncode == 3
    assert re.fullmatch(
        r"docgen \S+ met a fault of its own, KeyError at <string>:2, and wrote nothing\. Send this .+ docgen on\.\n",
        stopped.stderr,
    )
    assert contents(bench) == {}


def test_an_interrupted_print_shows_no_traceback_and_writes_nothing(bench: Path) -> None:
    # A shell may have let the tests ignore interrupts; the last import tells that the command runs.
    listening = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    command = program(listening, "print", FULMAR)
    command[1:1] = ["-X", "importtime"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as printing:
        assert printing.stderr is not None
        assert any(line.endswith(" docgen.pipeline\n") for line in printing.stderr)
        printing.send_signal(signal.SIGINT)
        stdout, stderr = printing.communicate(timeout=20)
    assert stdout == ""
    assert "Traceback" not in stderr
    assert contents(bench) == {}
    assert printing.returncode not in (0, 1, 2), "these say good, an error in the definition, wrong use"


def test_a_document_with_nothing_to_show_is_not_printed_and_no_error(run: Run, bench: Path, tmp_path: Path) -> None:
    folder = tmp_path / "plain"
    folder.mkdir()
    (folder / "aircraft.yaml").write_text(
        "aircraft: {name: Plain, description: no joints, marks: P-1, revision: A, date: 2026-01-01}\n"
        "places: {tray: {assembly: fuselage}, tail: {assembly: fuselage}}\n"
        "runs: [{between: [tray, tail], length: 500 mm}]\n",
        encoding="utf-8",
    )
    (folder / "harness.yaml").write_text(
        "equipment:\n"
        "  pack: {kind: battery, place: tray, lead: 100 mm, plug: servo-3,\n"
        "    battery: {cells: 2, capacity: 900 mAh, full: 8.4 V, empty: 6.4 V}}\n"
        "  lamp: {kind: light, place: tail, lead: 100 mm, plug: servo-3}\n"
        "circuits:\n  lamp: {from: pack, to: lamp, lead: servo-22}\n",
        encoding="utf-8",
    )
    printed = run("print", folder, "pinout-cards", "--to", "paper")
    assert printed.exit_code == 0
    assert "nothing to show" in printed.stderr
    assert contents(bench) == {}


def test_check_counts_what_is_accepted_and_shows_it_when_asked(run: Run) -> None:
    fulmar = WREN.with_name("fulmar")
    counted, shown = run("check", fulmar), run("check", fulmar, "--accepted")
    [last] = counted.stderr.splitlines()
    assert re.fullmatch(r"\d+ accepted \(`docgen check --accepted` shows them\)\.", last)
    lines = shown.stderr.splitlines()
    assert lines[-1] == last.partition(" (")[0] + "."
    assert sum(line.startswith("  accepted: ") for line in lines) == int(last.split()[0])


def test_check_tells_cautions_then_notes_then_how_many(run: Run, aircraft_folder: AircraftFolder) -> None:
    servo = "    lead: servo-22\n    loop: 80 mm\n    channel: 4\n"
    changes = {
        "aircraft.yaml": [("   length: 1140 mm,", "")],
        "harness.yaml": [(servo, servo.replace("servo-22", "servo-24")), ("capacity: 2600 mAh", "capacity: 200 mAh")],
    }
    *told, last = [line for line in run("check", aircraft_folder(changes)).stderr.splitlines() if line[:1] != " "]
    assert [line.split(": ")[1] for line in told] == ["caution endurance", "note unmeasured", "note drop"]
    assert last == "1 caution, 2 notes."


def test_explain_alone_lists_every_finding_once_by_level(run: Run) -> None:
    listed = run("explain").stdout
    assert [line.split(":")[0].split()[1] for line in listed.split("\n") if line[:1].isdigit()] == [
        "errors",
        "cautions",
        "notes",
    ]
    names = [line.split()[0] for line in listed.split("\n") if line.startswith("  ")]
    assert sorted(names) == sorted(KINDS)
    assert names.index("volts") < names.index("drop")


def test_of_many_notes_of_one_name_two_are_shown_and_the_rest_counted(tmp_path: Path) -> None:
    """The glider of the examples has no length: seven runs of it are told of, twins once, and both its loose halves."""
    folder = tmp_path / "glider"
    CliRunner().invoke(docgen, ["new", str(folder), "--like", "wisp"])
    few, every = (CliRunner().invoke(docgen, ["check", str(folder), *words]).stderr for words in ((), ("--every",)))
    told = every.count("note unmeasured: ")
    assert told > 4
    assert few.count("note unmeasured: ") == 2
    assert f"{told - 2} more notes unmeasured (`docgen check --every` shows all)." in few
    assert few.splitlines()[-1] == every.splitlines()[-1]
    assert "more notes" not in every
