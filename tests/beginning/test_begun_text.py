"""The text of what is begun: quotes where they must be, columns, comments as wide as they may be, names."""

from __future__ import annotations

import re
import textwrap
from itertools import pairwise

import pytest
import yaml
from beginning.begun import answers_to

from docgen.basics.findings import Refused
from docgen.beginning.answers import read_answer
from docgen.beginning.begin import aircraft_name, begin
from docgen.beginning.draft import Entry
from docgen.beginning.questions import QUESTIONS, explained
from docgen.beginning.text import file_text, list_section, named_section, one_section, short_section

WIDEST = 116
# What a reader of YAML takes for something else without quotes (YAML 1.2.2, 7.3.3), and what needs none.
TEXTS = [
    *("6 V", "it's on", "a: b", "a:", "a #b", "# a", "a#b", "a:b", "- a", "a, b", "[a]", "{a: b}", "a]", "a }"),
    *('say "a"', '"a"', "a \\ b", " a", "a ", "", "*a", "&a", "!a", "a | b", "> a", "@a", "%a", "`a`", "<side>-a", "é"),
]


@pytest.mark.parametrize("text", TEXTS)
def test_whatever_is_said_is_read_back_as_it_was(text: str) -> None:
    entry = {"on": text, "accept": {"one-loss": text}, "names": [text, text], "ports": [{"names": [text]}] * 2}
    texts = file_text(
        ["says"],
        [
            named_section("a", [Entry("x", entry, "above", {"on": "beside", "ports": "beside"})], ["says"]),
            short_section("b", [Entry("x", entry), Entry("longer", entry)], ["says"]),
            list_section("c", [entry, entry], []),
            one_section("d", {"on": text}, {"on": "beside"}, []),
        ],
    )
    expected = {"a": {"x": entry}, "b": {"x": entry, "longer": entry}, "c": [entry] * 2, "d": {"on": text}}
    assert yaml.load(texts, yaml.BaseLoader) == expected


def test_plain_texts_stand_without_quotes() -> None:
    said = named_section(
        "a", [Entry("x", {"on": "switch on, its lamp: steady"}), Entry("y", {"on": "a, b (c) d#e"})], []
    )
    assert said == 'a:\n  x:\n    on: "switch on, its lamp: steady"\n  y:\n    on: a, b (c) d#e'


def test_a_section_has_its_comment_above_and_those_of_entries_where_they_belong() -> None:
    entries = [Entry("pack", {"on": "in", "ports": [{"names": ["A"]}]}, "The pack.", {"on": "first", "ports": "all"})]
    assert named_section("equipment", entries, ["What there is."]) == textwrap.dedent("""\
        # What there is.
        equipment:
          # The pack.
          pack:
            on: in  # first
            ports:  # all
              - {names: [A]}""")
    assert short_section("places", [Entry("a", {"b": "c"}, "Here."), Entry("long", {"b": "d"})], ["There."]) == (
        "# There.\nplaces:\n  # Here.\n  a:    {b: c}\n  long: {b: d}"
    )
    assert list_section("runs", [{"a": "b"}], ["Ways."]) == "# Ways.\nruns:\n  - {a: b}"
    assert one_section("aircraft", {"a": "b", "c": "d"}, {"c": "e"}, ["It."]) == "# It.\naircraft:\n  a: b\n  c: d  # e"
    assert file_text(["One.", "Two."], ["a:", "b:"]) == "# One.\n# Two.\n\na:\n\nb:\n"


def test_comments_are_as_wide_as_they_may_be_and_no_wider() -> None:
    for text in begin("gull", answers_to(drive="turbine", gear="fixed,brakes")).values():
        for line, following in pairwise(text.splitlines()):
            if re.match(r" *# [^#]*$", line) and re.match(r" *# ", following):
                first_word = following.lstrip(" #").split()[0]
                assert len(line) <= WIDEST
                is_end = line.endswith((".", "none")) and first_word[0].isupper()
                assert is_end or len(f"{line} {first_word}") > WIDEST or "flight" in line, line


@pytest.mark.parametrize(
    ("folder", "name", "marks"),
    [
        ("gull", "Gull", "GU-1"),
        ("my_gull-2", "My gull 2", "MY-1"),
        ("a-bird", "A bird", "A-1"),
        ("ASK", "ASK", "AS-1"),
        ("鸥", "Aircraft", "AI-1"),
        ("--", "Aircraft", "AI-1"),
        ("g" * 40, "G" + "g" * 39, "GG-1"),
        ("g" * 41, "G" + "g" * 39, "GG-1"),
        ("g" * 39 + "-x", "G" + "g" * 38, "GG-1"),
    ],
)
def test_an_aircraft_is_named_after_its_folder_till_its_builder_says_otherwise(
    folder: str, name: str, marks: str
) -> None:
    assert aircraft_name(folder) == name
    text = begin(folder, answers_to())["aircraft.yaml"]
    head = f"""\
aircraft:
  name: {name}  # name and marks stand in every foot
  description: a sentence about it
  marks: {marks}  # as on the wing, or what you call it by
  revision: A  # the next letter when you change what is issued
  date: 2026-01-01  # put today's; it is printed, the clock never is

# Where things are. """
    assert f"\n\n{head}" in text


def test_what_is_begun_ends_with_how_a_flight_is_said() -> None:
    text = begin("gull", answers_to())["aircraft.yaml"]
    assert text.endswith(
        "\n\n# Say how long you fly, and what a flight takes of the charge is worked out.\n"
        "# flight: {time: 8 min, reserve: 30 %}\n"
    )


def test_what_may_be_answered_is_shown_in_groups_and_columns() -> None:
    assert explained(QUESTIONS["surfaces"]) == [
        "  any of",
        "    ailerons   one servo on each side; ailerons=2 for two",
        "    flaps      one servo on each side; flaps=2 for two",
        "    airbrakes  one servo on each side",
        "  or",
        "    none       nothing of these",
    ]
    assert explained(QUESTIONS["tail"]) == [
        "  one of",
        "    one-elevator   one servo for the elevator",
        "    two-elevators  an elevator servo on each side",
        "    v-tail         a servo on each side of a V, no rudder",
        "  with any of",
        "    rudder         a servo for the rudder",
        "    plug-in        it comes off, its servos in it, and plugs in",
    ]
    headings = {name: [line for line in explained(question) if line[2] != " "] for name, question in QUESTIONS.items()}
    assert headings["wing"] == headings["drive"] == ["  one of", "  one of"]
    assert headings["receivers"] == headings["switch"] == ["  one of"]
    assert headings["packs"] == ["  one of", "  one of", "  with any of"]


# How many of a thing may be answered; of all else the word alone.
MOST = {"ailerons": 2, "flaps": 2, "motor": 4, "turbine": 2, "piston": 2}


@pytest.mark.parametrize("name", QUESTIONS)
def test_each_word_is_counted_up_to_what_may_be(name: str) -> None:
    question = QUESTIONS[name]
    for word in question.words:
        most = MOST.get(word.name, 1)
        read_answer(question, f"{word.name}={most}")
        for count in ("0", f"{most + 1}", "01", "x", ""):
            with pytest.raises(Refused) as refused:
                read_answer(question, f"{word.name}={count}")
            may = f"at most {word.name}={most}" if most > 1 else "the word alone"
            assert refused.value.sentence == f"--{name}: `{word.name}={count}` can't be."
            assert refused.value.do == f"Say {may}."
