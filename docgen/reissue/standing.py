"""Take what was issued; return what stands on paper where its issue stands."""

from __future__ import annotations

from docgen.definition.identity import Same
from docgen.definition.issues import Issues
from docgen.paperwork.standing import DRAFT, Stamp, Standing
from docgen.reissue.state import key_of_now


def standing_of(issues: Issues, same: Same) -> Standing:
    """Return where all stands by the last issue; `same` is what has another name now."""
    last = issues.last
    if last is None:
        return DRAFT
    done = issues.letters[: issues.letters.index(issues.built) + 1] if issues.built else ()
    stamps = {letter: Stamp(letter, date, letter in done) for letter, date in issues.dates.items()}
    return Standing(
        draft=Stamp(f"draft after {last.issue}"),
        last=stamps[last.issue],
        issued={
            (kind, key_of_now(kind, key, same)): (item.hash, stamps[item.since])
            for kind, some in last.items.items()
            for key, item in some.items()
        },
    )
