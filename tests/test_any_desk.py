"""On every system: no call that only some have, names that all take, text with one end of line, UTF-8 everywhere."""

from __future__ import annotations

import ast
import os
import platform
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from conftest import WREN, AircraftFolder
from test_house import imported, modules

from docgen.basics.findings import Finding
from docgen.cli import docgen
from docgen.definition.issues import next_letter
from docgen.paperwork import file_set
from docgen.paperwork.file_set import Prepared, write_files
from docgen.paperwork.output_folder import write_paper

ErrorsIn = Callable[[Path], list[Finding]]

pytestmark = pytest.mark.long

# The Python Standard Library 3.11 to 3.13: "Unix Specific Services" and "Superseded Modules" with "Availability: Unix",
# and modules "Availability: not Windows".
POSIX_MODULES = {
    *("posix", "pwd", "grp", "termios", "tty", "pty", "fcntl", "resource", "syslog", "crypt", "nis", "spwd", "pipes"),
    *("curses", "readline"),
}
# The same, "os" and "signal": "Availability: Unix", or other than on Unix; os.kill ends any process on Windows.
POSIX_NAMES = {
    "os": {
        *("chflags", "chown", "chroot", "confstr", "ctermid", "eventfd", "fchdir", "fchmod", "fchown", "fdatasync"),
        *("fork", "forkpty", "fpathconf", "fstatvfs", "getegid", "geteuid", "getgid", "getgrouplist", "getgroups"),
        *("getloadavg", "getpgid", "getpgrp", "getpriority", "getresgid", "getresuid", "getsid", "getuid", "getxattr"),
        *("initgroups", "kill", "killpg", "lchflags", "lchmod", "lchown", "listxattr", "lockf", "major", "makedev"),
        *("memfd_create", "minor", "mkfifo", "mknod", "nice", "openpty", "pathconf", "pidfd_open", "pipe2", "plock"),
        *("posix_fadvise", "posix_fallocate", "posix_spawn", "posix_spawnp", "pread", "preadv", "pwrite", "pwritev"),
        *("readv", "removexattr", "sched_getaffinity", "sched_yield", "sendfile", "setegid", "seteuid", "setgid"),
        *("setgroups", "setns", "setpgid", "setpriority", "setregid", "setresgid", "setresuid", "setreuid", "setsid"),
        *("setuid", "setxattr", "splice", "statvfs", "sync", "sysconf", "tcgetpgrp", "tcsetpgrp", "ttyname", "uname"),
        *("wait", "wait3", "wait4", "waitid", "writev", "O_CLOEXEC", "O_DIRECTORY", "O_DSYNC", "O_EXLOCK"),
        *("O_NDELAY", "O_NOATIME", "O_NOCTTY", "O_NOFOLLOW", "O_NONBLOCK", "O_PATH", "O_SHLOCK", "O_SYNC", "O_TMPFILE"),
    },
    "signal": {
        *("SIGALRM", "SIGBUS", "SIGCHLD", "SIGCONT", "SIGHUP", "SIGIO", "SIGKILL", "SIGPIPE", "SIGQUIT", "SIGSTOP"),
        *("SIGTSTP", "SIGTTIN", "SIGTTOU", "SIGUSR1", "SIGUSR2", "SIGWINCH", "alarm", "getitimer", "pause"),
        *("pidfd_send_signal", "pthread_kill", "pthread_sigmask", "setitimer", "siginterrupt", "sigpending", "sigwait"),
        *("sigtimedwait", "sigwaitinfo"),
    },
}


def functions_with(nodes: list[ast.AST]) -> Iterator[tuple[ast.AST, str]]:
    """Walk what stands in a module with the text of the innermost function around it."""
    around: dict[ast.AST, str] = {}
    for function in nodes:
        if isinstance(function, ast.FunctionDef):
            around |= dict.fromkeys(ast.walk(function), ast.unparse(function))
    return ((node, around.get(node, "")) for node in nodes)


def test_nothing_that_only_posix_systems_have_is_imported() -> None:
    names = {(path, name.split(".")[0]) for path, nodes in modules() for name in imported(nodes, path)}
    assert [(path, name) for path, name in sorted(names) if name in POSIX_MODULES] == []


def test_nothing_that_only_posix_systems_have_is_called_without_asking_for_the_system() -> None:
    wrong = [
        f"{path} {ast.unparse(node)}"
        for path, nodes in modules()
        for node, around in functions_with(nodes)
        if isinstance(node, ast.Attribute) and node.attr in POSIX_NAMES.get(ast.unparse(node.value), ())
        if "os.name != 'posix'" not in around
    ]
    assert wrong == []


def test_no_such_name_is_imported_past_its_module() -> None:
    names = [(path, name) for path, nodes in modules() for name in imported(nodes, path)]
    wrong = [
        (path, name) for path, name in names if name.rpartition(".")[2] in POSIX_NAMES.get(name.rpartition(".")[0], ())
    ]
    assert wrong == []


# Microsoft, Win32 documentation, Naming Files, Paths, and Namespaces: reserved device names, in capitals or small, with
# whatever extension; characters that no name has; no blank or full stop at the end.
RESERVED = ["CON", "PRN", "AUX", "NUL", *(f"{port}{number}" for port in ("COM", "LPT") for number in range(1, 10))]
NO_CHARACTERS = set('<>:"/\\|?*') | {chr(code) for code in range(32)}


def is_good(path: str) -> bool:
    """Tell whether all systems take the names in a path."""
    return not any(
        NO_CHARACTERS & set(part) or part[-1] in " ." or part.partition(".")[0].upper() in RESERVED
        for part in path.split("/")
    )


@pytest.mark.parametrize("revision", ["con", "CON", "NUL", "Com1", "LPT9"])
def test_a_revision_that_can_be_no_folder_is_an_error(
    revision: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    [error] = errors_in(aircraft_folder({"aircraft.yaml": [("revision: A", f"revision: {revision}")]}))
    assert (error.name, error.do) == ("name", f"Write another, like `{revision}1`.")


@pytest.mark.parametrize(
    ("name", "offer"), [("aux", "aux1"), ("Nul.old", "Nul1.old"), ("gull.", "gull"), ("a:b", "a-b"), ("what?", "what-")]
)
def test_an_aircraft_s_folder_gets_a_name_that_all_systems_take(
    name: str, offer: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    told = CliRunner().invoke(docgen, ["new", name])
    assert told.exit_code == 2
    assert told.stderr.endswith(f"`{name}` can't be a folder's name on Windows. Write another, like `{offer}`.\n")
    assert list(tmp_path.iterdir()) == []


def test_two_folders_that_differ_in_capitals_alone_are_not_printed_side_by_side(tmp_path: Path) -> None:
    for name in ("gull", "Gull"):
        shutil.copytree(WREN, tmp_path / name)
    told = CliRunner().invoke(docgen, ["print", str(tmp_path / "gull"), str(tmp_path / "Gull")])
    assert told.exit_code == 2


def test_no_revision_is_offered_that_can_be_no_folder() -> None:
    # COM, CON, COO: of these CON is a device.
    assert next_letter(["COM"], "COM") == "COO"


@pytest.mark.parametrize("assembly", ["nul", "com1", "record", "rework"])
def test_an_assembly_whose_paper_would_have_no_folder_of_its_own_is_an_error(
    assembly: str, aircraft_folder: AircraftFolder, errors_in: ErrorsIn
) -> None:
    wrong = ("tail-post:         {assembly: fuselage", f"tail-post:         {{assembly: ▶{assembly}")
    [error] = errors_in(aircraft_folder({"aircraft.yaml": [wrong]}))
    assert {("aircraft.yaml", error.position.line, error.position.column)} == aircraft_folder.marks
    assert (error.name, error.do) == ("name", f"Write another, like `{assembly}1`.")


def test_names_of_what_is_written_are_good_everywhere(aircraft_folder: AircraftFolder, tmp_path: Path) -> None:
    """A joint and a receiver may be called as a device: their parts of the record begin otherwise."""
    harness = (WREN / "harness.yaml").read_text("utf-8")
    for old, new in (("<side>-root:\n", "con-<side>:\n"), ("[<side>-root]", "[con-<side>]"), ("receiver:", "nul:")):
        assert old in harness
        harness = harness.replace(old, new)
    harness = harness.replace("receiver 1, right: receiver 2", "nul 1, right: nul 2").replace(": receiver ", ": nul ")
    folder = aircraft_folder({"harness.yaml": harness})
    printed = CliRunner().invoke(docgen, ["print", str(folder), "--csv", "--to", str(tmp_path / "paper")])
    assert printed.exit_code == 0, printed.output
    paths = [path.relative_to(tmp_path / "paper").as_posix() for path in (tmp_path / "paper").rglob("*")]
    assert "record/equipment-nul.txt" in paths
    assert [path for path in paths if not is_good(path)] == []
    assert len({path.casefold() for path in paths}) == len(paths)


def test_text_has_one_end_of_line(tmp_path: Path) -> None:
    """Comma-separated values have the two characters of RFC 4180, section 2."""
    assert CliRunner().invoke(docgen, ["issue", *in_folder(tmp_path), "--csv"]).exit_code == 0
    kinds = {".txt", ".html", ".yaml"}
    texts = [path for path in tmp_path.rglob("*") if path.suffix in kinds]
    assert {path.suffix for path in texts} == kinds
    assert [path for path in texts if b"\r" in path.read_bytes()] == []


def in_folder(tmp_path: Path) -> list[str]:
    """Return a copy of wren, and where its paper goes, as words."""
    shutil.copytree(WREN, tmp_path / "wren")
    return [str(tmp_path / "wren"), "--to", str(tmp_path / "paper")]


def test_all_is_read_and_written_as_utf_8_whatever_the_system_s_own_encoding_is(tmp_path: Path) -> None:
    # PEP 597: with warn_default_encoding, whoever opens a text without naming its encoding warns.
    command = [sys.executable, "-X", "warn_default_encoding", "-W", "error::EncodingWarning", "-m", "docgen"]
    plain = os.environ | {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
    told = subprocess.run([*command, "issue", *in_folder(tmp_path)], env=plain, capture_output=True, check=False)
    assert told.returncode == 0, told.stderr


def test_paper_that_a_viewer_holds_open_is_named_and_all_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On Windows a file that is open elsewhere can't be replaced: ERROR_SHARING_VIOLATION, Python's PermissionError."""
    write_files({tmp_path / name: b"old" for name in ("a.pdf", "b.pdf")})
    replace = os.replace

    def refuses(source: Path, target: Path) -> None:
        if target.name == "b.pdf":
            raise PermissionError(13, "The process cannot access the file", str(source), 32, str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", refuses)
    with pytest.raises(PermissionError) as stopped:
        write_files({tmp_path / name: b"new" for name in ("a.pdf", "b.pdf")})
    assert (stopped.value.filename, stopped.value.strerror) == (
        str(tmp_path / "b.pdf"),
        "The process cannot access the file; it may be open in a viewer",
    )
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {"a.pdf": b"old", "b.pdf": b"old"}


def test_an_old_part_of_the_record_that_is_held_open_is_named_and_the_rest_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    part = "record/equipment-gyro.txt"
    write_paper({tmp_path: {"record.txt": b"old", part: b"WR-7 equipment gyro\nsince: A\n"}}, whole=True)

    def refuses(path: Path, missing_ok: bool = False) -> None:  # noqa: ARG001
        raise PermissionError(13, "Access is denied", str(path))

    monkeypatch.setattr(Path, "unlink", refuses)
    told = write_paper({tmp_path: {"record.txt": b"new"}}, whole=True)
    assert f"{tmp_path / part} is part of an earlier record; delete it (Access is denied)." in told
    assert (tmp_path / "record.txt").read_bytes() == b"new"


def test_old_parts_of_the_record_that_are_taken_away_are_named_in_the_order_of_their_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    names = ("gyro", "servo", "beacon")
    found = Path.glob
    # A disk gives them in any order.
    monkeypatch.setattr(Path, "glob", lambda path, pattern: sorted(found(path, pattern), reverse=True))
    old = {f"record/equipment-{name}.txt": f"WR-7 equipment {name}\nsince: A\n".encode() for name in names}
    write_paper({tmp_path: {"record.txt": b"old", **old}}, whole=True)
    told = [note for note in write_paper({tmp_path: {"record.txt": b"new"}}, whole=True) if "is removed" in note]
    assert told == [f"{tmp_path / part} is removed: it was part of an earlier record." for part in sorted(old)]


def test_what_a_killed_run_left_beside_its_files_is_taken_away_by_the_next(tmp_path: Path) -> None:
    Prepared({tmp_path / "a.pdf": b"left"})
    (tmp_path / ".notes.txt.12345678.part").write_bytes(b"mine")
    write_paper({tmp_path: {"a.pdf": b"new"}}, whole=True)
    assert {path.name for path in tmp_path.iterdir()} == {"a.pdf", "set.txt", ".notes.txt.12345678.part"}


def test_a_lock_asks_for_no_process_where_the_system_can_not_tell(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is there counts as held: on Windows os.kill would end the process that it asks for."""
    (tmp_path / file_set.LOCK).write_text(f"{2**22 + 1} {platform.node()}", "utf-8")  # over the most that Linux gives
    monkeypatch.setattr(os, "name", "nt")
    monkeypatch.delattr(os, "kill")
    with pytest.raises(BlockingIOError, match="if it does no more, delete"), file_set.held(tmp_path):
        pass
