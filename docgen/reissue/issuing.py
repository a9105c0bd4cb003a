"""Take an aircraft as checked; keep its state as the next issue, and print what that changes."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import field, replace
from pathlib import Path

from docgen.basics.findings import Finding, Refused, has_errors, listed, shown
from docgen.basics.frozen import frozen
from docgen.basics.units import counted
from docgen.definition.issued import State
from docgen.definition.issues import (
    ISSUED,
    STATE,
    Issues,
    next_letter,
    read_issues,
    read_unbuilt,
    state_text,
    text_hash,
)
from docgen.definition.kept import NOTHING_ISSUED, Issued
from docgen.definition.load import FILES
from docgen.definition.model import Where
from docgen.harness.model.harness import Harness
from docgen.paperwork.documents import Choice, Output, Paperwork, contents_of, make_paperwork
from docgen.paperwork.file_set import held
from docgen.paperwork.output_folder import prepared_paper
from docgen.paperwork.standing import Standing
from docgen.reissue.keeping import keep_built, keep_issue, settle
from docgen.reissue.lying import as_it_lies
from docgen.reissue.rework import rework
from docgen.reissue.standing import standing_of
from docgen.reissue.state import make_state

REWORK = "rework"  # where in the output folder stands what a later issue prints


@frozen
class Issuing:
    """What came of an issue: its letter, if it was kept; what was printed, found, is told, and could not be written."""

    letter: str = ""
    outputs: list[Output] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    unwritten: str = ""


@frozen
class Now:
    """An aircraft's folder, its harness as built, what was issued and what stayed of that, and where all was typed."""

    folder: Path
    harness: Harness
    issues: Issues
    issued: Issued
    where: Where


def issue(now: Now, target: Path, choice: Choice, *, as_built: bool = False, every: bool = False) -> Issuing:
    """Keep the state of an aircraft under its revision, and print: the first time all, later what differs.

    Raises OSError and Refused with nothing kept.

    Args:
        now: the aircraft as checked.
        target: the output folder.
        choice: paper, stock and the first label.
        as_built: whether the aircraft has been altered already.
        every: whether the whole set is printed too.

    """
    issues, letter, last = now.issues, now.harness.aircraft.revision, now.issues.last
    files = files_of(now.folder)
    state = state_now(now, files, as_built=as_built)
    if last is not None and alike(state, last):
        return Issuing(notes=[f"nothing differs from issue {last.issue}, so nothing is kept."])
    if letter.casefold() in (known.casefold() for known in issues.letters):
        return Issuing(findings=[_taken(now)])
    then = replace(issues, dates={**issues.dates, letter: state.date}, last=state)
    standing = standing_of(then, NOTHING_ISSUED.same)
    papers: dict[Path, Paperwork] = {}
    if issues.base is not None:
        papers[target / REWORK] = _rework(now, issues.base, state, choice, standing, as_built=as_built)
    if issues.base is None or every:
        papers[target] = make_paperwork(now.harness, choice, standing)
    issuing = _issuing(letter, papers)
    if has_errors(issuing.findings):
        return Issuing(findings=issuing.findings)
    with prepared_paper({folder: paper.files for folder, paper in papers.items()}, whole=True) as put:
        with held(now.folder / ISSUED):
            _check_unchanged(now.folder, issues)
            keep_issue(now.folder, letter, {**files, STATE: state_text(state).encode()})
        try:
            settle(now.folder)
            notes = put()
        except OSError as error:
            return replace(issuing, outputs=[], unwritten=f"{error.filename or now.folder}: {error.strerror}")
    return replace(issuing, notes=issuing.notes + notes)


def _rework(now: Now, base: State, state: State, choice: Choice, standing: Standing, *, as_built: bool) -> Paperwork:
    """Return what is printed over the state that is in the aircraft, and over issues since then."""
    unbuilt = read_unbuilt(now.folder, now.issues, base.issue)
    return rework(base, state, now.harness, choice, standing, as_built=as_built, unbuilt=unbuilt)


def _issuing(letter: str, papers: Mapping[Path, Paperwork]) -> Issuing:
    """Return what came of paper by its folders; what is found in both is told once."""
    outputs = [output.below(folder) for folder, paper in papers.items() for output in paper.outputs]
    findings = {finding: None for paper in papers.values() for finding in paper.findings}
    notes = {note: None for paper in papers.values() for note in paper.notes}
    return Issuing(letter, outputs, list(findings), list(notes))


def files_of(folder: Path) -> dict[str, bytes]:
    """Return the files of an aircraft's definition."""
    return {name: (folder / name).read_bytes() for name in FILES if (folder / name).exists()}


def state_now(now: Now, files: Mapping[str, bytes], *, as_built: bool = False) -> State:
    """Return the state of an aircraft under its revision, with the hashes of the files that it was read from."""
    contents = contents_of(now.harness)
    made = make_state(now.harness, contents, now.harness.aircraft.revision, now.issues.last, now.issued)
    made = made if now.issues.base is None else as_it_lies(now.issues.base, made, as_built=as_built)
    hashes = {name: text_hash(raw.decode()) for name, raw in files.items()}
    return made.model_copy(update={"as_built": as_built, "files": hashes})


def alike(state: State, other: State) -> bool:
    """Tell whether two states are the same in all that they make of the aircraft and say of it, as far as both know."""
    one, other = _made_of(state), _made_of(other)
    is_known = None not in (one.settings, other.settings)
    joints = one.disconnects.keys() & other.disconnects.keys()
    uncoded = {name for name in joints if None in (one.disconnects[name].keyed, other.disconnects[name].keyed)}
    return _known(one, uncoded, has_settings=is_known) == _known(other, uncoded, has_settings=is_known)


def _known(state: State, uncoded: Collection[str], *, has_settings: bool) -> State:
    """Return a state without settings, and without the coding of some disconnects, where either state says none."""
    joints = {
        name: joint.model_copy(update={"keyed": None}) if name in uncoded else joint
        for name, joint in state.disconnects.items()
    }
    more = {} if has_settings else {"settings": None}
    return state.model_copy(update={"disconnects": joints, **more})


def _made_of(state: State) -> State:
    """Return a state without what follows from the rest and from other states, and what none is for."""
    unsaid = {"would_do": (), "slides_from": "", "least_mm": None, "there": "", "there_mm": None}
    sleeves = {ends: sleeve.model_copy(update=unsaid) for ends, sleeve in state.sleeves.items()}
    circuits = {
        name: circuit.model_copy(
            update={"leads": {letter: of.model_copy(update={"there_mm": None}) for letter, of in circuit.leads.items()}}
        )
        for name, circuit in state.circuits.items()
    }
    plain: dict[str, object] = {
        "issue": "",
        "after": "",
        "date": "",
        "as_built": False,
        "files": {},
        "gone": {},
        "closed": (),
    }
    plain |= {"circuits": circuits, "sleeves": sleeves}
    return state.model_copy(update=plain)


def _taken(now: Now) -> Finding:
    letter = now.harness.aircraft.revision
    offer = next_letter(now.issues.letters, letter)
    sentence = f"the revision {shown(letter)} is issued already, and what is now differs from it."
    position = now.where.value("aircraft", "revision")
    return Finding(position, "value", sentence, f"Write `revision: {offer}`.", ("aircraft", "aircraft"))


def _check_unchanged(folder: Path, issues: Issues) -> None:
    """See that nothing was kept since issues were read; raises Refused."""
    now, findings = read_issues(folder)
    for finding in findings:
        raise Refused(finding.name, f"{finding.position}: {finding.sentence}", finding.do)
    if (now.letters, now.built) != (issues.letters, issues.built):
        sentence = "another issue was kept while this one was made."
        raise Refused("file", sentence, "Say it again; nothing of this one is kept.")


def say_built(folder: Path, issues: Issues) -> str:
    """Keep that the last issue is done in the aircraft, and say so; raises OSError, and Refused if there is none."""
    if issues.last is None:
        raise Refused("missing", "nothing is issued yet.", "Say `docgen issue` first.")
    letter = issues.last.issue
    if issues.built == letter:
        return f"issue {letter} is built already."
    with held(folder / ISSUED):
        _check_unchanged(folder, issues)
        keep_built(folder, letter)
    return f"issue {letter} is built: what comes next is compared with it.{_missing(issues.last)}"


def _missing(state: State) -> str:
    """Say which leads are not there, because none could cut them."""
    leads = counted(len(state.uncut), "lead")
    return f" Not made yet are {leads} of no known length: {listed(state.uncut)}." if state.uncut else ""
