"""`docgen issue` and `docgen built`: what they keep, print, refuse and say; and what paper says of where it stands."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pytest
from builder import Builder
from click.testing import CliRunner
from pypdf import PdfReader

from docgen.cli import docgen

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.long

CARD = re.compile(r"Wren · WR-7 · ([^·]*(?: · \d{4}-\d\d-\d\d)?) · [0-9a-f]{8}\n")


def text_of(pdf: Path) -> str:
    pages = PdfReader(io.BytesIO(pdf.read_bytes())).pages
    return "\n".join(page.extract_text() for page in pages) + "\n"


def pages_without(out: Path, words: str) -> list[str]:
    """Return the pages of all documents that do not say something, but for labels on tape: they have no room."""
    return [
        f"{pdf.name} {number}"
        for pdf in sorted(out.glob("*.pdf"))
        for number, page in enumerate(PdfReader(io.BytesIO(pdf.read_bytes())).pages, 1)
        if words not in page.extract_text()
    ]


def cards_say(out: Path) -> list[str]:
    """Return where each card stands, in the order printed: receiver, both halves of the left root, of the right."""
    return CARD.findall(text_of(out / "pinout-cards.pdf"))


def files_in(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_the_first_issue_prints_the_set_and_keeps_the_files_as_they_were(wren: Builder) -> None:
    wren.say("print")
    printed = files_in(wren.out)
    said = cards_say(wren.out)
    assert said == ["draft"] * 5
    assert pages_without(wren.out, "Wren · WR-7 · draft · ") == []
    before = {name: (wren.folder / name).read_bytes() for name in ("aircraft.yaml", "harness.yaml", "stores.yaml")}
    assert "issue A is kept" in wren.issue()
    kept = wren.folder / "issued" / "A"
    assert files_in(kept) == {*before, "state.yaml"}
    assert {name: (kept / name).read_bytes() for name in before} == before
    assert files_in(wren.out) == printed
    assert cards_say(wren.out) == ["issue A · 2026-04-18"] * 5
    assert pages_without(wren.out, "Wren · WR-7 · issue A · 2026-04-18 · ") == []
    wren.say("built")
    wren.say("print")
    assert pages_without(wren.out, "Wren · WR-7 · issue A, built · 2026-04-18 · ") == []


def test_cards_that_are_as_they_were_keep_their_letter_and_what_is_built_says_so(wren: Builder) -> None:
    wren.keep()
    assert wren.say("built")[2] == "issue A is built: what comes next is compared with it.\n"
    assert wren.say("built")[2] == "issue A is built already.\n"
    wren.change("label: {left: AIL L,", "label: {left: AILERON L,")
    wren.say("print", "pinout-cards", "record")
    right = ["issue A, built · 2026-04-18"] * 2
    assert sorted(cards_say(wren.out)) == sorted([*["draft after A"] * 3, *right])
    record = wren.out / "record"
    assert (record / "disconnect-right-root.txt").read_text("utf-8").split("\n")[1] == "since: A"
    assert (record / "disconnect-left-root.txt").read_text("utf-8").split("\n")[1] == "since: draft after A"
    assert "\nissue: draft after A\n" in (wren.out / "record.txt").read_text("utf-8")
    wren.keep("B")
    wren.say("print", "pinout-cards", "record")
    assert sorted(cards_say(wren.out)) == sorted([*["issue B · 2026-04-18"] * 3, *right])
    assert "\nissue: B\n" in (wren.out / "record.txt").read_text("utf-8")


def test_what_is_built_says_which_leads_are_missing_for_want_of_a_length(wren: Builder) -> None:
    run = "  - {between: [<side>-panel-root, <side>-aileron], "
    wren.change(f"{run}length: 745 mm, ", run, "aircraft.yaml")
    wren.change("at: {aft: 690 mm, <side>: 810 mm, up: 110 mm}, access: servo", "access: servo", "aircraft.yaml")
    wren.keep()
    assert wren.say("built")[2] == (
        "issue A is built: what comes next is compared with it. Not made yet are 2 leads of no known length: "
        "left-aileron B, right-aileron B.\n"
    )


def test_a_sheet_says_the_letter_in_which_it_changed_last_and_no_other_date(wren: Builder) -> None:
    wren.keep()
    wren.change("throw: 40 mm each way", "throw: 41 mm each way")  # the hangar card alone says it
    wren.change("date: 2026-04-18", "date: 2026-05-01", "aircraft.yaml")
    wren.keep("B")
    wren.say("print", "cut-list", "hangar-card")
    assert "Wren · WR-7 · issue A · 2026-04-18 · page 1 of 1" in text_of(wren.out / "cut-list.pdf")
    assert "Wren · WR-7 · issue B · 2026-05-01" in text_of(wren.out / "hangar-card.pdf")


def test_a_letter_that_is_there_is_refused_and_the_next_offered(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    code, printed, told = wren.say("issue")
    assert (code, printed) == (1, "")
    assert "aircraft.yaml:6:13: error value: the revision `A` is issued already, and what is now differs" in told
    assert "do: Write `revision: B`." in told
    assert files_in(wren.folder / "issued") == {f"A/{name}" for name in files_in(wren.folder / "issued" / "A")}
    assert not wren.out.exists() or files_in(wren.out) == set()
    wren.revise("a")  # one folder for both on some systems
    code, _, told = wren.say("issue")
    assert (code, "do: Write `revision: b`." in told) == (1, True)


def test_where_nothing_differs_nothing_is_kept(wren: Builder) -> None:
    wren.keep()
    wren.revise("B")
    wren.change("date: 2026-04-18", "date: 2026-05-01", "aircraft.yaml")
    assert "nothing differs from issue A, so nothing is kept." in wren.issue()
    assert files_in(wren.folder / "issued") == {f"A/{name}" for name in files_in(wren.folder / "issued" / "A")}


def test_what_has_no_length_yet_is_kept_and_read_again(tmp_path: Path) -> None:
    wisp = Builder(tmp_path, "wisp")
    wisp.keep()
    assert wisp.say("check")[0] == 0


def test_what_a_later_issue_prints_leaves_the_whole_set_as_it_is(wren: Builder) -> None:
    wren.issue()
    before = {name: (wren.out / name).read_bytes() for name in files_in(wren.out)}
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.issue("B")
    assert before.items() <= {name: (wren.out / name).read_bytes() for name in files_in(wren.out)}.items()
    assert "rework/" in " ".join(files_in(wren.out))
    assert wren.state().after == "A"


def test_with_all_the_whole_set_is_printed_beside_what_differs(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.issue("B", "--all")
    assert {"cut-list.pdf", "pinout-cards.pdf", "record.txt", "rework/rework-sheet.pdf"} <= files_in(wren.out)
    # Whose label changed has a lead on the card of the receiver alone.
    assert sorted(cards_say(wren.out)) == ["issue A · 2026-04-18"] * 4 + ["issue B · 2026-04-18"]


def test_what_is_written_is_compared_with_any_issue(wren: Builder) -> None:
    wren.keep()
    wren.say("built")
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.keep("B")

    def compared(*words: str) -> str:
        return CliRunner().invoke(docgen, ["compare", str(wren.folder), *words]).output

    assert "label YAW, was RUD" in compared()  # with what is built
    assert "label YAW, was RUD" in compared("--with", "A")
    assert compared("--with", "B") == "nothing differs from B.\n"
    assert "there is no issue 'C' (issued: A, B)." in compared("--with", "C")


def test_nothing_differs_of_a_circuit_whose_ends_are_written_in_another_order_than_that_of_their_names(
    wren: Builder,
) -> None:
    # The rudder's lead goes on to a second servo beside it, which comes first.
    second = "  brake:\n    kind: servo\n    place: tail-post\n    lead: 300 mm\n    plug: servo-3\n  rudder:\n"
    wren.change("  rudder:\n    kind: servo\n", f"{second}    kind: servo\n")
    wren.change("    to: rudder\n", "    to: [rudder, brake]\n    split: {place: tail-post}\n")
    wren.keep()
    assert CliRunner().invoke(docgen, ["compare", str(wren.folder)]).output == "nothing differs from A.\n"


def test_an_issue_of_what_is_altered_already_says_so_in_its_state(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: YAW\n")
    wren.issue("B", "--as-built")
    assert (wren.state("A").as_built, wren.state("B").as_built) == (False, True)


def test_until_an_issue_is_said_to_be_built_check_notes_it(wren: Builder) -> None:
    assert wren.found("unbuilt") == []
    wren.keep()
    assert wren.found("unbuilt") == ["the issue `A` is not said to be built."]
    wren.say("built")
    assert wren.found("unbuilt") == []


def test_nothing_issued_can_not_be_built(wren: Builder) -> None:
    code, _, told = wren.say("built")
    assert (code, told) == (1, "nothing is issued yet. Say `docgen issue` first.\n")


def test_with_an_error_nothing_is_kept(wren: Builder) -> None:
    wren.change("    from: receiver 4\n", "    from: receiver 9\n")
    code, _, told = wren.say("issue")
    assert (code, "nothing is kept." in told) == (1, True)
    assert not (wren.folder / "issued").exists()


def test_what_was_changed_by_hand_stops_every_command_with_file_and_line(wren: Builder) -> None:
    wren.keep()
    path = wren.folder / "issued" / "A" / "state.yaml"
    path.write_text(path.read_text("utf-8").replace("mark: C1A22N", "mark: C9A22N"), "utf-8")
    line = len(path.read_text("utf-8").splitlines())
    for command in ("check", "print", "issue", "built"):
        code, _, told = wren.say(command)
        assert code == 1
        assert f"{path}:{line}:1: error value: this is not the checksum of the lines above" in told


def test_neither_note_nor_caution_of_issues_is_part_of_the_record(wren: Builder) -> None:
    wren.keep()
    wren.change("    label: RUD\n", "    label: RUD\n    function: Y\n")
    assert wren.found("moved") != []
    assert wren.found("unbuilt") != []
    wren.say("print", "record")
    text = (wren.out / "record.txt").read_text("utf-8")
    assert "moved" not in text
    assert "unbuilt" not in text
