"""An aircraft in a folder of its own, as its builder changes, issues and builds it."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner

from docgen.basics.shipped import shipped_folder
from docgen.cli import docgen
from docgen.definition.issued import State
from docgen.definition.issues import STATE, read_issues, read_state, state_text
from docgen.pipeline import Checked, check
from docgen.reissue.issuing import Now, files_of, state_now
from docgen.reissue.keeping import keep_issue


class Builder:
    """A builder with the folder of one aircraft, and an output folder beside it."""

    def __init__(self, folder: Path, example: str) -> None:
        self.folder, self.out = folder / example, folder / "out"
        self._checked: dict[tuple[tuple[Path, bytes], ...], Checked] = {}
        self.folder.mkdir(parents=True)
        for path in (shipped_folder("examples") / example).glob("*.yaml"):
            (self.folder / path.name).write_bytes(path.read_bytes())

    def change(self, old: str, new: str, file: str = "harness.yaml") -> None:
        """Change what is written, where it stands once."""
        path = self.folder / file
        text = path.read_text("utf-8")
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
        path.write_text(text.replace(old, new), "utf-8")

    def revise(self, revision: str) -> None:
        """Write another revision."""
        text = (self.folder / "aircraft.yaml").read_text("utf-8")
        lines = [f"  revision: {revision}" if "  revision: " in line else line for line in text.split("\n")]
        (self.folder / "aircraft.yaml").write_text("\n".join(lines), "utf-8")

    def say(self, command: str, *words: str) -> tuple[int, str, str]:
        """Say a command; return its exit code and what it says on standard output and error."""
        to = [] if command in ("built", "check") else ["--to", str(self.out)]
        told = CliRunner().invoke(docgen, [command, str(self.folder), *to, *words])
        return told.exit_code, told.stdout, told.stderr

    def issue(self, revision: str = "", *words: str) -> str:
        """Keep an issue with its paper; return what is told."""
        if revision:
            self.revise(revision)
        code, _, told = self.say("issue", *words)
        assert code == 0, told
        return told

    def keep(self, revision: str = "") -> None:
        """Keep an issue without its paper, which takes longest."""
        if revision:
            self.revise(revision)
        checked, files = self.check(), files_of(self.folder)
        assert checked.harness is not None, checked.findings
        now = Now(self.folder, checked.harness, checked.issues, checked.issued, checked.where)
        state = state_now(now, files)
        keep_issue(self.folder, state.issue, {**files, STATE: state_text(state).encode()})

    def check(self) -> Checked:
        """Return what is found, of the same files once."""
        key = tuple((path, path.read_bytes()) for path in sorted(self.folder.rglob("*.yaml")))
        if key not in self._checked:
            self._checked[key] = check(self.folder)
        return self._checked[key]

    def state(self, letter: str = "") -> State:
        """Return the state of an issue, unsaid of the last."""
        issues, findings = read_issues(self.folder)
        assert findings == []
        state, findings = read_state(self.folder, letter or issues.letters[-1])
        assert state is not None, findings
        return state

    def contacts(self) -> dict[str, dict[str, str]]:
        """Return what each contact of each disconnect carries now: circuit and role, or the common."""
        harness = self.check().harness
        assert harness is not None
        return {
            name: {contact: f"{use.of} {use.role}" for contact, use in joint.uses.items()}
            for name, joint in harness.disconnects.items()
        }

    def marks(self) -> dict[str, list[str]]:
        """Return the marks of each lead now."""
        harness = self.check().harness
        assert harness is not None
        return {lead.name: [wire.mark for wire in lead.wires] for lead in harness.leads()}

    def found(self, name: str) -> list[str]:
        """Return the sentences of findings of a name."""
        return [finding.sentence for finding in self.check().findings if finding.name == name]
