"""What a console shows of letters that it lacks, and with which code a command ends that is stopped."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys

import pytest

from docgen.commands.streams import patient


def process(before: str, *words: str) -> subprocess.CompletedProcess[str]:
    """Run the program after some statements."""
    command = [sys.executable, "-c", f"{before}\nfrom docgen.cli import main\nmain()", *words]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_letters_that_a_console_lacks_are_shown_without_their_accents_or_as_codes() -> None:
    # Unicode character database: é and Å have a decomposition, Ł and 漢 have none.
    assert "1–3 · 5 × 2 °C: éÅŁ漢".encode("ascii", streams_error()) == rb"1-3 - 5 x 2 deg C: eA\u0141\u6f22"
    # An accent alone stands on no letter.
    assert "a\u0301".encode("ascii", streams_error()) == rb"a\u0301"


# What a letter is read as: common practice, no source.
def test_each_sign_of_the_program_s_own_is_shown_on_a_console_that_lacks_it() -> None:
    signs = {"–": "-", "—": "-", "−": "-", "·": "-", "×": "x", "°": "deg ", "²": "2", "…": "...", "Ω": "ohm", "µ": "u"}
    signs |= {"π": "pi", "≤": "<=", "≥": ">=", "→": "->", "√": "root ", "Σ": "sum ", "ß": "ss"}
    assert {sign: sign.encode("ascii", streams_error()).decode() for sign in signs} == signs


def streams_error() -> str:
    stream = io.TextIOWrapper(io.BytesIO(), "ascii")
    return str(patient(stream).errors)


# A shell may have let the tests ignore a signal.
STOPS_ITSELF = (
    "import os, signal\nimport docgen.cli as m\nsignal.signal(signal.{0}, signal.SIG_DFL)\n"
    "m.docgen = lambda **_: os.kill(os.getpid(), signal.{0})"
)


# Shells count 128 and the number of the signal; POSIX, kill: 1 is HUP, 2 INT, 14 ALRM, 15 TERM. SIGBREAK, which Windows
# sends where a console is closed, is here another.
@pytest.mark.skipif(os.name != "posix", reason="elsewhere a process that is stopped ends otherwise")
@pytest.mark.parametrize(
    ("before", "name", "code"),
    [
        ("", "SIGTERM", 143),
        ("", "SIGHUP", 129),
        ("signal.SIGBREAK = signal.SIGALRM", "SIGALRM", 142),
        ("signal.signal(signal.SIGINT, signal.default_int_handler)", "SIGINT", 130),
        ("signal.signal(signal.SIGHUP, signal.SIG_IGN)", "SIGHUP", 0),
    ],
)
def test_who_is_stopped_ends_with_the_signal_s_number_and_who_ignores_it_goes_on(
    before: str, name: str, code: int
) -> None:
    told = process(f"{STOPS_ITSELF.format(name)}\n{before}")
    assert (told.returncode, told.stdout, told.stderr) == (code, "", "")


def test_what_can_not_be_read_is_named_and_the_exit_code_is_1() -> None:
    told = process("import docgen.cli as m\nm.docgen = lambda **_: open('nowhere/file')")
    assert (told.returncode, told.stderr) == (1, "can't read or write nowhere/file: No such file or directory\n")


def test_a_fault_of_the_program_ends_with_3_and_one_line_on_standard_error() -> None:
    told = process("import docgen.cli as m\nm.docgen = lambda **_: {}['gone']")
    assert (told.returncode, told.stdout) == (3, "")
    assert re.fullmatch(r"docgen \S+ met a fault of its own, KeyError at .+\n", told.stderr)


def test_who_interrupts_a_command_ends_it_without_a_word() -> None:
    stops = "import os, signal\nsignal.signal(signal.SIGINT, signal.default_int_handler)\n"
    stops += "import docgen.basics.shipped as m\nm.example_names = lambda: os.kill(os.getpid(), signal.SIGINT)"
    told = process(stops, "new", "gull", "--like", "wren")
    assert (told.returncode, told.stdout, told.stderr.strip()) == (130, "", "")
