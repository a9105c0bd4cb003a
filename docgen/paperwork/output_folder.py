"""Write paper into output folders; tell and clear away what an earlier print left there."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import re
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path

from docgen.basics.doing import wrote
from docgen.paperwork.file_set import Prepared, clear_left_over, held

SET = "set.txt"
_SAYS = "# What belongs together here: SHA-256 and file, as the last prints wrote them.\n"
_LINE = re.compile(r"([0-9a-f]{64})  ([a-z0-9][a-z0-9./-]*)")
_PART = re.compile(r"(disconnect|equipment|assembly)-(.+)\.txt")
_HEAD = 4096  # characters; the longest names take a tenth of that


def write_paper(paper: Mapping[Path, Mapping[str, bytes]], *, whole: bool) -> list[str]:
    """Write files by path into each folder, all or none; return what is said of earlier ones.

    Args:
        paper: files of each folder; what else an earlier print left there stays beside them, unless they are the
            `whole` of what belongs there.
        whole: whether they are.

    Raises:
        OSError: which names the file, where one can't be written, or where another run writes.

    """
    with prepared_paper(paper, whole=whole) as put:
        return put()


@contextlib.contextmanager
def prepared_paper(paper: Mapping[Path, Mapping[str, bytes]], *, whole: bool) -> Iterator[Callable[[], list[str]]]:
    """Write files beside their places; give what puts them there, as `write_paper` does."""
    files: dict[Path, bytes] = {}
    notes: list[str] = []
    with contextlib.ExitStack() as stack:
        for folder in sorted(folder for folder, made in paper.items() if made):
            stack.enter_context(held(folder))
            earlier = [path for path in _listed(folder) if _is_earlier(folder, path, paper[folder], whole)]
            notes += [f"{folder / path} is from an earlier print; {_advice(path)}delete it." for path in earlier]
            together = _listed(folder) | {path: _hash(content) for path, content in paper[folder].items()}
            lines = [f"{sha}  {path}\n" for path, sha in sorted(together.items()) if path not in earlier]
            for path, content in {**paper[folder], SET: "".join([_SAYS, *lines]).encode()}.items():
                _refuse_links(folder, folder / path)
                files[folder / path] = content
            for below in {(folder / path).parent for path in paper[folder]}:
                clear_left_over(below, {path.name for path in files})
        prepared = Prepared(files)

        def put() -> list[str]:
            prepared.put()
            for folder in paper:
                wrote(f"the paper in {folder}")
            return notes + [note for folder in paper for note in _clear_record(folder, files)]

        try:
            yield put
        finally:
            prepared.drop()


def mixed(folder: Path) -> list[str]:
    """Say which files of a folder are not as its list tells: a print was cut off between them, or they were changed."""
    changed = [path for path, sha in _listed(folder).items() if _changed(folder / path, sha)]
    return [f"{folder} is mixed: {', '.join(changed)} belong to another print; print again."] if changed else []


def has_paper(target: Path) -> bool:
    """Tell whether an earlier print left documents."""
    return any(target.glob("*.pdf")) or (target / "record.txt").exists()


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _listed(folder: Path) -> dict[str, str]:
    """Return the hashes of what belongs together, by path below it; of a list that can't be read nothing."""
    try:
        lines = (folder / SET).read_text("utf-8", "replace").splitlines()
    except OSError:
        return {}
    matches = (match for line in lines if (match := _LINE.fullmatch(line)))
    return {match[2]: match[1] for match in matches if ".." not in match[2].split("/")}


def _changed(path: Path, sha: str) -> bool:
    try:
        return path.is_file() and _hash(path.read_bytes()) != sha
    except OSError:
        return False  # taken away, as one does with what is out of date


def _refuse_links(folder: Path, path: Path) -> None:
    """Let nothing be written out of a folder through a link in it."""
    for parent in path.relative_to(folder).parents:
        if parent != Path() and (folder / parent).is_symlink():
            raise OSError(errno.ELOOP, "a link is in its place", str(folder / parent))


def _is_earlier(folder: Path, path: str, made: Collection[str], whole: bool) -> bool:
    """Tell whether a file of an earlier print says no more what is so: values of a document made anew, or any."""
    anew = whole or f"{Path(path).stem}.pdf" in made
    return anew and path not in made and not path.startswith("record") and (folder / path).is_file()


def _advice(path: str) -> str:
    return "print with --csv to renew it, or " if path.endswith(".csv") else ""


def _clear_record(target: Path, made: Collection[Path]) -> Iterator[str]:
    """Remove parts of the record that are made no more, where one is made, and say so."""
    for path in sorted((target / "record").glob("*.txt")) if target / "record.txt" in made else ():
        if path not in made and _is_part(path):
            try:
                path.unlink()
                yield f"{path} is removed: it was part of an earlier record."
            except OSError as error:
                yield f"{path} is part of an earlier record; delete it ({error.strerror})."


def _is_part(path: Path) -> bool:
    """Tell whether a file begins as a part of the record does, whose title may be broken into lines."""
    match = _PART.fullmatch(path.name)
    if match is None or path.is_symlink() or not path.is_file():
        return False
    try:
        with path.open(encoding="utf-8", errors="replace") as stream:
            title, since, _ = stream.read(_HEAD).partition("\nsince: ")
    except OSError:
        return False
    return bool(since) and "".join(title.split()).endswith("".join(match.groups()))
