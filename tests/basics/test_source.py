from __future__ import annotations

import errno
import os
import threading
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.basics.findings import Finding, Position
from docgen.basics.locate import position_of
from docgen.basics.source import Node, plain, positions_in, read_yaml, yaml_text

Read = Callable[[str | bytes], tuple[Node | None, list[Finding]]]

SYNTAX = {
    "anchor": "a: &x b",
    "anchored mapping": "a: &x {b: c}",
    "alias": "a: b\nc: *x",
    "merge": "a: {<<: {b: c}}",
    "tag": "a: !!str 1",
    "tag of its own": "a: !thing {b: c}",
    "bare tag": "a: ! b",
    "second document": "a: b\n---\nc: d",
    "list as a key": "[a, b]: c",
    "mapping as a key": "? {a: b}\n: c",
    "open bracket": "a: [b",
    "open quote": 'a: "b',
    "two colons": "a: b: c",
    "wrong indentation": "a:\n    b: c\n  d: e",
    "tabulator as indentation": "a:\n\tb: c",
    "unknown escape": r'a: "\y"',
    "unknown directive's document": "%YAML 3.9\n---\na: b",
    "bell": "a: \x07",
    "delete": "a: \x7f",
    "byte order mark inside": "a: b\ufeffc",
}
ALIAS_BOMB = 'a0: &a0 ["x", "x"]\n' + "".join(f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]\n" for i in range(1, 40))
HOSTILE = {
    "alias bomb": ALIAS_BOMB,
    "merge bomb": ALIAS_BOMB.replace("[", "{<<: [").replace("]", "]}"),
    "deep flow lists": "[" * 100_000,
    "deep flow mappings": "{a: " * 100_000,
    "deep block lists": "- " * 100_000,
    "deep block keys": "? " * 100_000,
    "deep indentation": "\n".join(" " * i + "a:" for i in range(1300)),
    "one line of quotes": 'a: "' + "\\" * 400_000,
    "many anchors": "\n".join(f"k{i}: &a{i} x" for i in range(4000)),
    "many doubled keys": "a: b\n" * 5000,
    "many documents": "--- a\n" * 10_000,
    "over the size": "a: " + "b" * 1_000_000,
    "many carriage returns": "a: b" + "\r" * 500_000 + "\0",
}


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def read(text: str | bytes) -> tuple[Node | None, list[Finding]]:
        path = tmp_path / "harness.yaml"
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        return read_yaml(path, "harness.yaml")

    return read


def sound(result: tuple[Node | None, list[Finding]]) -> Node:
    node, findings = result
    assert findings == []
    assert node is not None
    return node


def only(result: tuple[Node | None, list[Finding]]) -> tuple[str, int, int]:
    (finding,) = result[1]
    return finding.name, finding.position.line, finding.position.column


def at(node: Node, *path: str | int) -> tuple[int, int]:
    for part in path:
        if isinstance(part, int):
            assert isinstance(node.value, list)
            node = node.value[part]
        else:
            assert isinstance(node.value, dict)
            node = node.value[part]
    return node.position.line, node.position.column


def test_a_value_stands_where_its_first_character_does(read: Read) -> None:
    assert at(sound(read("a: b\nc:\n  d:   e\n")), "c", "d") == (3, 8)


def test_an_empty_file_is_nothing_at_its_begin(read: Read) -> None:
    node = sound(read("# nothing yet\n"))
    assert (node.value, at(node)) == ({}, (1, 1))


def test_a_key_stands_where_its_first_character_does(read: Read) -> None:
    node = sound(read("a: b\nc:\n  d:   e\n"))
    assert isinstance(node.value, dict)
    assert node.value["c"].keys["d"][1:] == (3, 3)


def test_a_quoted_value_stands_at_its_quote(read: Read) -> None:
    assert at(sound(read('a: "b"')), "a") == (1, 4)


def test_accented_characters_count_one_column_each(read: Read) -> None:
    assert at(sound(read("{étagère: é, b: c}")), "b") == (1, 17)


def test_astral_characters_count_one_column_each(read: Read) -> None:
    assert at(sound(read("{🛩🛩: 𝛺, b: c}")), "b") == (1, 12)


def test_combining_accents_count_as_the_characters_they_are(read: Read) -> None:
    assert at(sound(read("{a: e\u0301, b: c}")), "b") == (1, 12)


def test_list_items_in_flow_style_stand_where_they_begin(read: Read) -> None:
    assert at(sound(read("a: [one, {two: three}]")), "a", 1, "two") == (1, 16)


def test_list_items_in_block_style_stand_behind_their_dash(read: Read) -> None:
    assert at(sound(read("a:\n  - one\n  - two: three\n")), "a", 1) == (3, 5)


def test_flow_style_over_several_lines_keeps_lines(read: Read) -> None:
    assert at(sound(read("a: {\n  b: c,\n  d: e\n}")), "a", "d") == (3, 6)


def test_lines_that_end_as_on_other_systems_are_counted_once(read: Read) -> None:
    assert at(sound(read("a: b\r\nc: d\r\n")), "c") == (2, 4)


def test_a_byte_order_mark_takes_no_column(read: Read) -> None:
    assert at(sound(read(b"\xef\xbb\xbfa: b")), "a") == (1, 4)


@pytest.mark.parametrize(
    "text",
    ["NO", "010", "12:30", "yes", "null", "~", "1_000", "0x1F", ".inf", "1e3", "2026-04-18", "=", "0o7"],
)
def test_scalars_stay_text(read: Read, text: str) -> None:
    assert plain(sound(read(f"a: {text}"))) == {"a": text}


@pytest.mark.parametrize("text", ["NO", "010", "12:30", "null", "~", "="])
def test_keys_stay_text(read: Read, text: str) -> None:
    assert plain(sound(read(f"{text}: a"))) == {text: "a"}


def test_a_text_over_several_lines_becomes_one_line(read: Read) -> None:
    assert plain(sound(read("a: >\n  one\n  two\n"))) == {"a": "one two"}


def test_a_letter_and_its_accent_become_one_character(read: Read) -> None:
    assert plain(sound(read("a: e\u0301"))) == {"a": "é"}


def test_both_characters_for_ohm_become_one(read: Read) -> None:
    assert plain(sound(read("a: 30 m\N{OHM SIGN}"))) == {"a": "30 m\N{GREEK CAPITAL LETTER OMEGA}"}


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n# nothing\n"])
def test_a_file_of_nothing_has_no_keys(read: Read, text: str) -> None:
    node, _ = read(text)
    assert node is None or not isinstance(node.value, dict) or node.value == {}


@pytest.mark.parametrize("text", SYNTAX.values(), ids=SYNTAX)
def test_what_plain_data_does_not_need_is_refused(read: Read, text: str) -> None:
    assert {finding.name for finding in read(text)[1]} == {"syntax"}


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        ("a: b\nc: &x d", 2, 4),
        ("a: b\nc: {d: *x}", 2, 8),
        ("a: b\nc: {<<: e}", 2, 5),
        ("a: b\nc: !x d", 2, 4),
        ("a: b\n---\nc: d", 2, 1),
        ("a: [b, {c: d}: e]", 1, 8),
        ("é: b\x00", 1, 5),
        ("a: b\nc: \x07", 2, 4),
    ],
)
def test_what_is_refused_is_shown_where_it_stands(read: Read, text: str, line: int, column: int) -> None:
    assert only(read(text)) == ("syntax", line, column)


def test_all_that_is_refused_in_a_file_is_found_at_once(read: Read) -> None:
    _, findings = read("a: &x b\nc: *x\nd: !t e\nd: f\ng:\n")
    assert [(finding.name, finding.position.line) for finding in findings] == [
        ("syntax", 1),
        ("syntax", 2),
        ("syntax", 3),
        ("key", 4),
        ("value", 5),
    ]


def test_a_doubled_key_is_found_at_the_second(read: Read) -> None:
    assert only(read("a: b\nc: d\na: e")) == ("key", 3, 1)


def test_a_doubled_key_in_flow_style_is_found_at_the_second(read: Read) -> None:
    assert only(read("é: {b: c, b: d}")) == ("key", 1, 11)


def test_the_same_key_in_two_mappings_is_not_doubled(read: Read) -> None:
    sound(read("a: {c: d}\nb: {c: d}"))


@pytest.mark.parametrize(
    ("text", "line"),
    [("a:", 1), ("a: b\nc:\n", 2), ('a: ""', 1), ("a: '  '", 1), ("a:\n  - b\n  -\n", 3), ("{a: , b: c}", 1)],
)
def test_an_empty_value_is_refused(read: Read, text: str, line: int) -> None:
    assert only(read(text))[:2] == ("value", line)


def test_an_empty_text_is_found_at_its_quotes(read: Read) -> None:
    assert only(read('a: ""')) == ("value", 1, 4)


def test_twenty_levels_are_read(read: Read) -> None:
    sound(read("[" * 20 + "x" + "]" * 20))


def test_a_level_more_is_refused(read: Read) -> None:
    assert only(read("[" * 21 + "x" + "]" * 21)) == ("syntax", 1, 21)


def test_a_megabyte_is_read(read: Read) -> None:
    sound(read("a: " + "b" * (1_000_000 - 3)))


def test_a_byte_more_is_refused(read: Read) -> None:
    assert only(read("a: " + "b" * (1_000_000 - 2))) == ("file", 1, 1)


@pytest.mark.parametrize(
    ("raw", "line", "column"),
    [
        (b"a: b\nname: \xe9t\xe9\n", 2, 7),
        ("é: ".encode() + b"\xff", 1, 4),
        ("🛩: ".encode() + b"\xff", 1, 4),
        (b"\xef\xbb\xbfa: \xff", 1, 4),
        ("a: b".encode("utf-16"), 1, 1),
        (b"a: b\r\nc: \x80", 2, 4),
        (b"a: \xed\xa0\x80", 1, 4),
        (b"a: \xc3", 1, 4),
    ],
)
def test_what_is_not_utf_8_is_shown_where_it_stands(read: Read, raw: bytes, line: int, column: int) -> None:
    assert only(read(raw)) == ("file", line, column)


def test_a_file_that_is_not_there_is_found_at_its_begin(tmp_path: Path) -> None:
    result = read_yaml(tmp_path / "harness.yaml", "harness.yaml")
    assert only(result) == ("file", 1, 1)
    assert result[1][0].sentence == f"can't read it: {os.strerror(errno.ENOENT)}."


def test_a_folder_in_place_of_a_file_is_found(tmp_path: Path) -> None:
    result = read_yaml(tmp_path, "harness.yaml")
    assert only(result) == ("file", 1, 1)
    assert result[1][0].sentence == "can't read it: it is not a file."


@pytest.mark.skipif(not Path("/dev/zero").exists(), reason="there is no endless file here")
def test_an_endless_file_is_refused() -> None:
    assert only(read_yaml(Path("/dev/zero"), "harness.yaml")) == ("file", 1, 1)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no named pipes here")
def test_a_pipe_that_nobody_writes_to_does_not_hold_up(tmp_path: Path) -> None:
    path = tmp_path / "harness.yaml"
    os.mkfifo(path)
    reading = threading.Thread(target=read_yaml, args=(path, "harness.yaml"), daemon=True)
    reading.start()
    reading.join(1)
    held_up = reading.is_alive()
    if held_up:
        os.close(os.open(path, os.O_WRONLY))  # lets the reader go
    assert not held_up


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_hostile_text_is_refused(read: Read, text: str) -> None:
    _, findings = read(text)
    assert findings


def test_a_finding_about_hostile_text_is_short(read: Read) -> None:
    _, findings = read("a" * 1000 + ": b\n" + "a" * 1000 + ": b\n")
    assert all(len(finding.sentence) < 200 for finding in findings)


@pytest.mark.parametrize(
    ("location", "line", "column"),
    [(("a", 0), 2, 5), (("a", 1), 3, 5), (("a", 2), 2, 3), (("a", 1, "b"), 3, 5), (("c",), 1, 1)],
)
def test_what_is_not_there_is_shown_where_the_way_to_it_ends(
    read: Read, location: tuple[str | int, ...], line: int, column: int
) -> None:
    position = position_of(sound(read("a:\n  - one\n  - two\n")), location)
    assert (position.line, position.column) == (line, column)


_PLAIN_TEXT = st.text(st.sampled_from("ab Z0'\"#:-?{}[]|>&*!%@`,é→\\~=.")).map(lambda text: " ".join(text.split()))
_LINES = _PLAIN_TEXT.filter(bool)


@given(st.recursive(_LINES, lambda below: st.lists(below) | st.dictionaries(_LINES, below), max_leaves=20))
@settings(max_examples=100, deadline=None)
@pytest.mark.long
def test_what_is_written_reads_back_the_same(tmp_path_factory: pytest.TempPathFactory, value: object) -> None:
    path = tmp_path_factory.getbasetemp() / "written.yaml"
    path.write_text(yaml_text({"value": value}), encoding="utf-8")
    node, findings = read_yaml(path, "written.yaml")
    assert findings == []
    assert node is not None
    assert plain(node) == {"value": value}


def test_numbers_are_written_without_powers_of_ten_and_yes_and_no_in_words() -> None:
    written = yaml_text({"mm": 1045.0, "long": 1234.5678, "a": 0.00001, "whole": 7, "built": True})
    assert written == "{mm: 1045, long: 1234.5678, a: 0.00001, whole: 7, built: yes}\n"


def test_what_is_long_is_written_below_each_other_so_that_lines_differ_where_values_do() -> None:
    written = yaml_text({"short": ["a", "b"], "long": ["x" * 60, "y" * 60]})
    assert written.splitlines() == ["short: [a, b]", "long:", f"- {'x' * 60}", f"- {'y' * 60}"]


def test_a_tab_at_the_beginning_of_a_line_has_a_sentence_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text("a:\n \tb: c\n", "utf-8")
    _, [finding] = read_yaml(path, "a.yaml")
    assert (finding.name, finding.position) == ("syntax", Position("a.yaml", 2, 2))
    assert "a tab stands" in finding.sentence
    path.write_text("a:\n  b:\tc\n", "utf-8")
    assert read_yaml(path, "a.yaml")[1] == []


@pytest.mark.parametrize("text", ["a:\n  b: c\n  d:e\n", "a:\n  b: c\n  d:e\n  f: g\n", "a:\n  b: c\n  d\ne: f\n"])
def test_a_key_without_a_colon_and_a_blank_is_told_where_it_stands(read: Read, text: str) -> None:
    [finding] = read(text)[1]
    assert (finding.name, finding.position) == ("syntax", Position("harness.yaml", 3, 3))
    assert finding.do == "Put a colon and a blank after the key, like `place: rudder`."


@pytest.mark.parametrize(
    ("text", "line", "column"), [("a: {b: c", 1, 9), ("a: 1\nb: {c: d,", 2, 10), ("a: 1\nb:", 2, 3)]
)
def test_what_a_file_ends_without_is_missed_at_the_end_of_its_last_line(
    read: Read, text: str, line: int, column: int
) -> None:
    _, findings = read(text)
    assert findings[0].position == Position("harness.yaml", line, column)


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [("a:\n  - b\n  -\tc: d\n", 3, 4), ("?\ta\n", 1, 2), ("- \t- a\n", 1, 3), ("a: |\n\tx\n", 2, 1)],
)
def test_a_tab_where_reading_stops_is_told_where_it_stands(read: Read, text: str, line: int, column: int) -> None:
    [finding] = read(text)[1]
    assert (finding.position.line, finding.position.column) == (line, column)
    assert finding.sentence == "a tab stands where YAML takes blanks alone."


def test_what_fills_110_characters_stands_in_one_line_and_what_is_longer_below() -> None:
    """With two for each item, and four for each key."""
    assert yaml_text({"long": ["a" * 108]}) == f"long: [{'a' * 108}]\n"
    assert yaml_text({"long": ["a" * 109]}) == f"long:\n- {'a' * 109}\n"
    assert yaml_text({"k": "v" * 105}) == f"{{k: {'v' * 105}}}\n"
    assert yaml_text({"k": "v" * 106}) == f"k: {'v' * 106}\n"


def test_positions_are_those_of_a_value_and_of_all_below(read: Read) -> None:
    node = sound(read("a: [b, {c: d}]\ne: f\n"))
    found = [(position.line, position.column) for position in positions_in(node)]
    assert found == [(1, 1), (1, 4), (1, 5), (1, 8), (1, 12), (2, 4)]


@pytest.mark.parametrize("text", ["a: b: c", "a: [b", 'a: "b', "a:\n    b: c\n  d: e"])
def test_what_is_no_yaml_is_told_with_the_reason_that_readers_of_it_give(read: Read, text: str) -> None:
    with pytest.raises(yaml.MarkedYAMLError) as caught:
        list(yaml.parse(text, Loader=getattr(yaml, "CLoader", yaml.Loader)))
    assert caught.value.problem
    assert read(text)[1][-1].sentence == f"the text can't be read as YAML: {caught.value.problem}."
