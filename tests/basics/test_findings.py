from __future__ import annotations

import pytest

from docgen.basics.findings import (
    Finding,
    Kind,
    Level,
    Position,
    Refused,
    format_finding,
    has_errors,
    in_order,
    listed,
    meant,
    nearest,
    shown,
    told_once,
)


def finding(file: str, line: int, column: int, name: str = "unit", sentence: str = "a sentence") -> Finding:
    return Finding(Position(file, line, column), name, sentence, "what to do about it")


def looked_for(level: Level) -> Finding:
    return Kind("straight", level, "", "", "", "", "", "").at(Position("a", 1, 2), "a sentence", "what to do about it")


def test_findings_are_sorted_by_file_line_and_column() -> None:
    order = [
        finding("a/aircraft.yaml", 30, 1),
        finding("a/harness.yaml", 2, 1),
        finding("a/harness.yaml", 9, 9),
        finding("a/harness.yaml", 9, 10),
        finding("a/harness.yaml", 10, 1),
    ]
    assert in_order([order[i] for i in (2, 4, 0, 3, 1)]) == order


def test_findings_of_one_place_are_sorted_by_name_and_sentence() -> None:
    order = [finding("a", 1, 1, "unit", "b"), finding("a", 1, 1, "value", "a"), finding("a", 1, 1, "value", "c")]
    assert in_order([order[i] for i in (1, 2, 0)]) == in_order([order[i] for i in (2, 0, 1)]) == order


def test_of_findings_that_say_the_same_the_first_stays() -> None:
    first, again = (Finding(Position("a", 1, 1), "unit", "a sentence", do) for do in ("first", "again"))
    assert [each.do for each in in_order([first, again])] == ["first"]


def test_the_same_finding_is_shown_once() -> None:
    assert len(in_order([finding("a", 1, 1), finding("a", 1, 1)])) == 1


@pytest.mark.parametrize(
    "other",
    [finding("a", 1, 2), finding("a", 1, 1, "value"), finding("a", 1, 1, sentence="another")],
    ids=["position", "name", "sentence"],
)
def test_findings_that_differ_are_both_shown(other: Finding) -> None:
    assert len(in_order([finding("a", 1, 1), other])) == 2


def test_a_finding_is_written_as_builders_are_told() -> None:
    written = format_finding(finding("wren/harness.yaml", 11, 7))
    assert written == "wren/harness.yaml:11:7: error unit: a sentence\n  do: what to do about it"


def test_an_accepted_finding_keeps_its_first_lines() -> None:
    plain = looked_for(Level.CAUTION)
    assert format_finding(plain.accept("a reason")).startswith(format_finding(plain) + "\n")


def test_an_accepted_finding_shows_the_reason() -> None:
    assert "a reason" in format_finding(looked_for(Level.CAUTION).accept("a reason"))


def test_a_finding_is_an_error_if_nothing_else_is_said() -> None:
    assert has_errors([finding("a", 1, 1)])


@pytest.mark.parametrize(("level", "expected"), [(Level.ERROR, True), (Level.CAUTION, False), (Level.NOTE, False)])
def test_only_errors_keep_paper_from_being_printed(level: Level, expected: bool) -> None:
    assert has_errors([looked_for(level)]) is expected


def test_one_error_among_others_keeps_paper_from_being_printed() -> None:
    assert has_errors([looked_for(Level.CAUTION), finding("a", 2, 1), looked_for(Level.NOTE)])


def test_control_characters_do_not_reach_the_terminal() -> None:
    assert shown("a\x1b[2Jb\u202ec").isprintable()


def test_long_texts_are_cut() -> None:
    assert len(shown("a" * 100_000)) < 100


@pytest.mark.parametrize(("text", "expected"), [("abcd", "`abcd`"), ("abcde", "`abc…`")])
def test_a_text_is_cut_to_what_it_may_take(text: str, expected: str) -> None:
    assert shown(text, 4) == expected


def test_the_nearest_name_is_offered() -> None:
    assert nearest("servo-2", ["power-20", "servo-22", "signal-26"]) == "servo-22"


@pytest.mark.parametrize(
    ("name", "offered"),
    [("block-2", "block-6"), ("block-9", "block-10"), ("block-99", "block-14"), ("BLOCK-7", "block-8")],
)
def test_of_names_that_differ_in_a_number_the_nearest_number_is_offered_of_two_the_larger(
    name: str, offered: str
) -> None:
    assert nearest(name, ["block-8", "block-10", "block-14", "block-6", "rock-2"]) == offered


@pytest.mark.parametrize("name", ["5", "13", "11", "2.4"])
def test_bare_numbers_are_not_taken_for_each_other(name: str) -> None:
    assert nearest(name, ["1", "2", "3", "4", "12"]) == ""


def test_a_name_unlike_all_others_is_offered_none() -> None:
    assert nearest("zzz", ["power-20", "servo-22"]) == ""


def test_capitals_and_accents_do_not_hide_the_nearest_name() -> None:
    assert nearest("SERVÖ-22", ["power-20", "servo-22"]) == "servo-22"


def test_of_a_hostile_name_the_beginning_is_looked_up() -> None:
    assert nearest("servo-2" + " " * 100 + "x" * 1_000_000, ["power-20", "servo-22"]) == ""
    assert nearest("a" * 1_000_000, ["a" * 100] * 1000) == "a" * 100


def test_long_lists_are_counted_out() -> None:
    assert listed((str(number) for number in range(30)), 3) == "0, 1, 2 and 27 more"


def test_short_lists_are_whole() -> None:
    assert listed(["a", "b"]) == "a, b"


def found(
    line: int, column: int, on: tuple[str, str], over: float = 0.0, half: str = "", sentence: str = ""
) -> Finding:
    said = sentence or f"{on[1]} {half} {over}"
    return Finding(Position("h.yaml", line, column), "drop", said, "mend it", on, Level.NOTE, over=over, half=half)


def told(*findings: Finding) -> list[tuple[str, tuple[str, ...]]]:
    return [(one.finding.sentence, one.twins) for one in told_once(findings)]


def test_left_and_right_are_told_once_and_it_is_the_worse() -> None:
    left, right = found(4, 3, ("circuits", "left-flap"), 0.1), found(4, 3, ("circuits", "right-flap"), 0.2)
    assert told(left, right) == [("right-flap  0.2", ("left-flap",))]
    assert told(right, left) == [("right-flap  0.2", ("left-flap",))]


def test_left_and_right_written_apart_are_told_apart() -> None:
    assert len(told(found(4, 3, ("circuits", "left-flap")), found(9, 3, ("circuits", "right-flap")))) == 2


def test_what_else_stands_on_one_line_is_told_apart() -> None:
    assert len(told(found(4, 3, ("circuits", "left-flap")), found(4, 9, ("circuits", "rudder")))) == 2


def test_two_things_of_each_twin_stay_two() -> None:
    each = [
        found(4, 3, ("circuits", f"{side}-flap"), sentence=f"{side} {segment}")
        for side in ("left", "right")
        for segment in "AB"
    ]
    assert told(*each) == [("left A", ("right-flap",)), ("left B", ("right-flap",))]


def test_both_halves_of_a_joint_are_told_once() -> None:
    fixed, loose = (found(4, 3, ("commons", "root p"), over, half) for over, half in ((60, "fixed"), (80, "loose")))
    assert told(fixed, loose) == [("root p loose 80", ("fixed half",))]


def test_runs_of_both_sides_are_told_once() -> None:
    assert told(found(4, 3, ("runs", "3")), found(4, 3, ("runs", "4"))) == [("3  0.0", ("the other side",))]


def test_errors_come_first_then_cautions_then_notes() -> None:
    levels = [Level.NOTE, Level.ERROR, Level.CAUTION]
    every = [Finding(Position("h.yaml", i, 1), "n", "s", "d", level=level) for i, level in enumerate(levels)]
    assert [one.finding.level for one in told_once(every)] == [Level.ERROR, Level.CAUTION, Level.NOTE]


def test_twins_are_named_by_their_half_only_where_they_stand_on_one_entry() -> None:
    left, right = (
        found(4, 3, ("commons", f"{side}-root p"), over, half)
        for side, over, half in (("left", 60, "fixed"), ("right", 80, "loose"))
    )
    assert [twins for _, twins in told(left, right)] == [("left-root p",)]
    plain, half = found(4, 3, ("commons", "root p"), 60), found(4, 3, ("commons", "root p"), 80, "loose")
    assert [twins for _, twins in told(plain, half)] == [("root p",)]


def test_a_finding_of_a_kind_has_its_name_and_level_and_all_that_is_said_of_it() -> None:
    kind = Kind("drop", Level.NOTE, "circuit", "meaning", "when", "why", "how", "source")
    remedy = {"lead": "servo-20"}
    said = kind.at(Position("a", 1, 2), "it drops.", "Mend it.", ("circuits", "rudder"), remedy, 0.5, "fixed")
    assert (said.name, said.level, said.position) == ("drop", Level.NOTE, Position("a", 1, 2))
    assert (said.sentence, said.do, said.subject) == ("it drops.", "Mend it.", ("circuits", "rudder"))
    assert (said.remedy, said.over, said.half, said.accepted) == (remedy, 0.5, "fixed", "")
    bare = kind.at(Position("a", 1, 2), "it drops.", "Mend it.")
    assert (bare.subject, bare.remedy, bare.over, bare.half) == (("", ""), None, 0.0, "")


def test_by_how_much_and_at_which_half_makes_no_other_finding() -> None:
    kind = Kind("drop", Level.NOTE, "circuit", "", "", "", "", "")
    one, other = (
        kind.at(Position("a", 1, 1), "s", "d", ("circuits", "rudder"), {"lead": lead}, over, half)
        for lead, over, half in (("servo-20", 0.1, "fixed"), ("servo-22", 0.2, "loose"))
    )
    assert one == other
    assert len({one, other}) == 1
    assert one != kind.at(Position("a", 1, 1), "s", "other", ("circuits", "rudder"))


def test_a_reason_that_is_there_already_changes_nothing() -> None:
    accepted = finding("a", 1, 1).accept("it is short")
    assert accepted.accepted == "it is short"
    assert accepted.accept("it is short") is accepted
    assert accepted.accept("another").accepted == "another"


def test_a_text_is_shown_up_to_40_characters_and_a_list_up_to_12_names() -> None:
    assert (shown("a" * 40), shown("a" * 41)) == (f"`{'a' * 40}`", f"`{'a' * 39}…`")
    assert listed("abcdefghijkl") == "a, b, c, d, e, f, g, h, i, j, k, l"
    assert listed("abcdefghijklm") == "a, b, c, d, e, f, g, h, i, j, k, l and 1 more"
    assert shown("a\x1bb") == "`a\\u001bb`"


def test_what_is_refused_becomes_a_finding_where_it_was_typed() -> None:
    refused = Refused("unit", "it lacks its unit.", "Write `1 mm`.", ("length", 0))
    assert (str(refused), refused.path) == ("it lacks its unit.", ("length", 0))
    found_at = refused.at(Position("a", 3, 4))
    assert (found_at.position, found_at.name, found_at.sentence, found_at.do, found_at.level) == (
        Position("a", 3, 4),
        "unit",
        "it lacks its unit.",
        "Write `1 mm`.",
        Level.ERROR,
    )


def test_a_finding_is_written_with_its_twins_before_what_to_do_and_the_reason_last() -> None:
    said = format_finding(finding("a", 1, 1).accept("it is short"), ["right-flap", "left-flap"])
    assert said.splitlines()[1:] == [
        "  also: right-flap, left-flap",
        "  do: what to do about it",
        "  accepted: it is short",
    ]


def test_the_name_that_was_meant_is_asked_for_or_something_else_said() -> None:
    assert meant("servo-2", ["power-20", "servo-22"], "Known: none.") == "Did you mean `servo-22`?"
    assert meant("zzz", ["power-20", "servo-22"], "Known: none.") == "Known: none."


def test_of_two_names_as_near_the_one_whose_numbers_are_larger_in_all_is_offered() -> None:
    assert nearest("a-5-5", ["a-4-5", "a-5-6", "a-9-9"]) == "a-5-6"
    assert nearest("a-5-5", ["a-3-5", "a-5-4"]) == "a-5-4"
