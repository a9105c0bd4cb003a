"""What is kept and printed when an aircraft is issued, with paper of one page that stands for all of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from docgen.basics.findings import Finding, Level, Position, Refused
from docgen.definition.issues import read_issues
from docgen.paperwork.documents import Choice, Output, Paperwork
from docgen.reissue import issuing
from docgen.reissue.issuing import Issuing, Now, alike, issue, say_built

if TYPE_CHECKING:
    from builder import Builder

NOTE = Finding(Position("a.yaml", 1, 1), "drop", "it drops.", "Mend it.", level=Level.NOTE)
ERROR = replace(NOTE, level=Level.ERROR)
Issue = Callable[..., Issuing]


def now_of(wren: Builder) -> Now:
    checked = wren.check()
    assert checked.harness is not None
    return Now(wren.folder, checked.harness, checked.issues, checked.issued, checked.where)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Any, ...]]:
    """Return what paper was made of; the whole is `set.pdf`, what differs `rework.pdf`, both with one note."""
    of: list[tuple[Any, ...]] = []

    def paper(name: str) -> Paperwork:
        return Paperwork({f"{name}.pdf": b"%PDF"}, [NOTE], ["look."], [Output(f"{name}.pdf", "1 sheet", "use it")])

    def whole(harness: Any, choice: Choice, standing: Any) -> Paperwork:
        of.append(("set", harness, choice, standing))
        return paper("set")

    def differs(old: Any, new: Any, *_: Any, as_built: bool, unbuilt: Any) -> Paperwork:
        of.append(("rework", old.issue, new.issue, as_built, [each.issue for each in unbuilt]))
        return paper("rework")

    monkeypatch.setattr(issuing, "make_paperwork", whole)
    monkeypatch.setattr(issuing, "rework", differs)
    return of


def paths(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*.pdf")}


def test_the_first_issue_prints_the_whole_set_under_its_stamp(wren: Builder, made: list[tuple[Any, ...]]) -> None:
    done = issue(now_of(wren), wren.out, Choice(copies := ("record",)))
    assert (done.letter, done.findings, done.notes, done.unwritten) == ("A", [NOTE], ["look."], "")
    assert done.outputs == [Output(str(wren.out / "set.pdf"), "1 sheet", "use it")]
    assert paths(wren.out) == {"set.pdf"}
    [(kind, _, choice, standing)] = made
    assert (kind, choice.stems, standing.last.issue, standing.draft.issue) == (
        "set",
        copies,
        "issue A",
        "draft after A",
    )
    assert (wren.state().issue, wren.state().as_built, wren.state().after) == ("A", False, "")
    kept = wren.folder / "issued" / "A"
    assert {path.name for path in kept.iterdir()} == {"aircraft.yaml", "harness.yaml", "stores.yaml", "state.yaml"}
    assert set(wren.state().files) == {"aircraft.yaml", "harness.yaml", "stores.yaml"}


def test_a_later_issue_prints_what_differs_from_what_is_built_and_the_set_where_asked(
    wren: Builder, made: list[tuple[Any, ...]]
) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.revise("B")
    done = issue(now_of(wren), wren.out, Choice(), as_built=True)
    assert made == [("rework", "A", "B", True, [])]
    assert paths(wren.out) == {"rework/rework.pdf"}
    assert [output.path for output in done.outputs] == [str(wren.out / "rework" / "rework.pdf")]
    assert wren.state().as_built
    wren.change("    label: YAW\n", "    label: TAIL\n")
    wren.revise("C")
    done = issue(now_of(wren), wren.out, Choice(), every=True)
    assert [each[:2] for each in made[1:]] == [("rework", "A"), ("set", made[2][1])]
    assert paths(wren.out) == {"rework/rework.pdf", "set.pdf"}
    assert (done.findings, done.notes) == ([NOTE], ["look."]), "what both say is told once"
    assert wren.state().after == "B"


def test_where_nothing_differs_but_date_or_letter_nothing_is_kept(wren: Builder, made: list[tuple[Any, ...]]) -> None:
    wren.keep()
    wren.revise("B")
    wren.change("date: 2026-04-18", "date: 2026-05-01", "aircraft.yaml")
    assert issue(now_of(wren), wren.out, Choice()) == Issuing(
        notes=["nothing differs from issue A, so nothing is kept."]
    )
    assert made == []
    state = wren.state()
    plain = {"issue": "Z", "after": "Y", "date": "x", "as_built": True, "files": {"a": "b"}, "gone": {}}
    assert alike(state, state.model_copy(update=plain))
    assert not alike(state, state.model_copy(update={"marks": "WR-8"}))


@pytest.mark.parametrize("letter", ["A", "a"])
def test_a_letter_that_is_taken_in_capitals_or_small_is_refused(
    letter: str, wren: Builder, made: list[tuple[Any, ...]]
) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.revise(letter)
    [finding] = issue(now_of(wren), wren.out, Choice()).findings
    assert finding.sentence == f"the revision `{letter}` is issued already, and what is now differs from it."
    assert (finding.name, finding.do, finding.subject) == (
        "value",
        f"Write `revision: {chr(ord(letter) + 1)}`.",
        ("aircraft", "aircraft"),
    )
    assert (finding.position.file, finding.position.line) == (str(wren.folder / "aircraft.yaml"), 6)
    assert made == []


def test_an_error_in_its_paper_or_a_stop_before_it_is_kept_leaves_nothing(
    wren: Builder, made: list[tuple[Any, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    wrong = Paperwork({"set.pdf": b"%PDF"}, [NOTE, ERROR])
    monkeypatch.setattr(issuing, "make_paperwork", lambda *_: wrong)
    assert issue(now_of(wren), wren.out, Choice()) == Issuing(findings=[NOTE, ERROR])
    assert not (wren.folder / "issued").exists()
    assert paths(wren.out) == set()
    assert made == []


def test_what_was_kept_or_said_to_be_built_meanwhile_is_noticed(wren: Builder, made: list[tuple[Any, ...]]) -> None:
    before = now_of(wren)
    wren.keep()
    with pytest.raises(Refused) as refused:
        issue(before, wren.out, Choice())
    assert (refused.value.name, refused.value.sentence, refused.value.do) == (
        "file",
        "another issue was kept while this one was made.",
        "Say it again; nothing of this one is kept.",
    )
    assert paths(wren.out) == set()
    issues, _ = read_issues(wren.folder)
    assert say_built(wren.folder, issues) == "issue A is built: what comes next is compared with it."
    with pytest.raises(Refused):
        say_built(wren.folder, issues)
    assert say_built(wren.folder, read_issues(wren.folder)[0]) == "issue A is built already."
    state = wren.folder / "issued" / "A" / "state.yaml"
    again = read_issues(wren.folder)[0]
    state.write_text(state.read_text("utf-8") + " ", "utf-8")
    with pytest.raises(Refused) as refused:
        issue(replace(now_of_changed(wren, again), issues=again), wren.out, Choice())
    assert refused.value.sentence.startswith(f"{state}:")
    assert len(made) == 2


def now_of_changed(wren: Builder, issues: Any) -> Now:
    """Return an aircraft that differs from what is issued."""
    now = replace(now_of_sound(wren), issues=issues)
    aircraft = now.harness.aircraft.model_copy(update={"revision": "B", "marks": "WR-8"})
    return replace(now, harness=replace(now.harness, aircraft=aircraft))


def now_of_sound(wren: Builder) -> Now:
    """Return the aircraft without what is issued of it."""
    kept = wren.folder / "issued"
    elsewhere = kept.rename(wren.folder.parent / "elsewhere")
    now = now_of(wren)
    elsewhere.rename(kept)
    return now


def test_what_can_not_be_written_once_it_is_kept_is_said(
    wren: Builder, made: list[tuple[Any, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: Path) -> None:
        raise OSError(28, "No space left on device", "there")

    monkeypatch.setattr(issuing, "settle", full)
    done = issue(now_of(wren), wren.out, Choice())
    assert (done.letter, done.outputs, done.unwritten) == ("A", [], "there: No space left on device")
    assert wren.state().issue == "A"
    assert len(made) == 1
