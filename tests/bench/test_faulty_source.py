"""Each kind of fault changes a small source as one would by mistake, and nothing else."""

from __future__ import annotations

import ast

import pytest
from bench.copies import ROOT
from bench.faults import ALSO, chosen, own_tests
from bench.faulty_source import candidates_of_code, candidates_of_data
from bench.names import Names

PACK = """\
class Pack:
    full_v: float
    empty_v: float
    name: str

def span(most: float, least: float, name: str) -> float: ...
"""


def faulty(source: str, kind: str) -> set[str]:
    """Return the source with each fault of a kind."""
    names = Names()
    names.learn(ast.parse(PACK))
    found = [each.make() for each in candidates_of_code(source.encode(), names) if each.kind == kind]
    return {change.made(source.encode()).decode() for change in found if change}


@pytest.mark.parametrize(
    ("kind", "source", "expected"),
    [
        ("comparison", "a < b", {"a <= b", "a > b"}),
        ("comparison", "a == b", {"a != b"}),
        ("comparison", "0 < a <= b", {"0 <= a <= b", "0 > a <= b", "0 < a < b", "0 < a >= b"}),
        ("sign", "a + b * -c", {"a - b * -c", "a + b / -c", "a + b * c"}),
        ("sign", "folder / a + [b] + tuple(c)", set()),
        ("opposite", "min(a, b)", {"max(a, b)"}),
        ("opposite", "math.floor(a)", {"math.ceil(a)"}),
        ("constant", "a(7)", {"a(8)", "a(6)"}),
        ("constant", "a(1000, 2.5)", {"a(1100, 2.5)", "a(1000, 2.75)"}),
        ("constant", "a(reverse=True)", {"a(reverse=False)"}),
        ("constant", "a[-1] + a[2] + a(-2)", {"a[-1] + a[2] + a(-3)", "a[-1] + a[2] + a(-1)"}),
        ("index", "a[0] + a[-1]", {"a[1] + a[-1]", "a[0] + a[0]"}),
        ("term", "c * (a + b)", {"c", "(a + b)", "c * (a)", "c * (b)"}),
        ("term", "a and b and c", {"(b and c)", "(a and c)", "(a and b)"}),
        ("term", "[a for a in b if c]", {"[a for a in b]"}),
        (
            "row",
            "a = ((1, 2), (3, 4), (5, 6))",
            {"a = ((3, 4), (5, 6))", "a = ((1, 2), (5, 6))", "a = ((1, 2), (3, 4))"},
        ),
        ("row", "a = {1: 2, 3: 4}", {"a = {3: 4}", "a = {1: 2}"}),
        ("statement", "rows.append(a)", {"pass"}),
        ("arguments", "span(a, b, c)", {"span(b, a, c)"}),
        ("arguments", "span(most=a, least=b, name=c)", {"span(most=b, least=a, name=c)"}),
        ("attribute", "pack.full_v", {"pack.empty_v"}),
        ("and-or", "x = a and b", {"x = (a or b)"}),
        ("not", "not a", {"a"}),
        ("order", "sorted(a, key=b)", {"list(a)"}),
        ("attribute", 'f"{pack.full_v} V"', {'f"{pack.empty_v} V"'}),
    ],
)
def test_a_kind_makes_these_faults_and_no_others(kind: str, source: str, expected: set[str]) -> None:
    assert faulty(source, kind) == expected


@pytest.mark.parametrize(
    "source",
    [
        '"""Not 7, nor min < max."""',
        "import a",
        "def a(b: Annotated[float, 7]) -> Annotated[float, 7]: ...",
        "a: Annotated[float, 7] = b",
        "dict[str, int]",
        "__all__ = [a, b]",
        "if TYPE_CHECKING:\n    a = 7",
        'raise Refused("value", f"{a + 7}")',
        "zip(a, b, strict=True)",
        "a * (1 + 1e-9)",
        "a >= b - CLOSE",
        'span("too long", f"{a}", b)',
        "@dataclass(order=True)\nclass A: ...",
    ],
)
def test_what_does_nothing_when_the_program_runs_gets_no_fault(source: str) -> None:
    names = Names()
    names.learn(ast.parse(f"CLOSE = 1e-9\n{PACK}"))
    assert [each for each in candidates_of_code(source.encode(), names) if each.make()] == []


def test_of_data_the_figures_are_changed_and_no_name_comment_or_text() -> None:
    source = b'# 12 AWG\npvc-22: {gauge: 22 AWG, sold: [0.5 m], "source": "table 11-9"}  # of 2\n'
    found = [each.make() for each in candidates_of_data(source)]
    made = [change.made(source).decode().splitlines()[1] for change in found if change]
    assert made == [
        'pvc-22: {gauge: 32 AWG, sold: [0.5 m], "source": "table 11-9"}  # of 2',
        'pvc-22: {gauge: 22 AWG, sold: [0.6 m], "source": "table 11-9"}  # of 2',
    ]


def test_the_rest_of_a_file_keeps_its_bytes() -> None:
    source = "# Ω at 20 °C\na = (  # first\n    b\n    - c\n)\n"
    assert faulty(source, "sign") == {"# Ω at 20 °C\na = (  # first\n    b + c\n)\n"}


def test_a_seed_chooses_the_same_faults_evenly_from_all_rooms() -> None:
    sources = {
        "docgen/few/a.py": b"a < b\n",
        "docgen/many/a.py": b"a < b + 1\n" * 20,
        "docgen/many/b.py": b"min(a, 7)\n",
    }
    candidates = {file: list(candidates_of_code(source, Names())) for file, source in sources.items()}
    first, again = (chosen(candidates, 4, seed=3) for _ in range(2))
    assert first == again != chosen(candidates, 4, seed=4)
    assert [fault.room for fault in first] == ["few", "few", "many", "many"]


@pytest.mark.parametrize(
    ("room", "folders"),
    [
        ("definition", ["definition", "reissue"]),
        ("definition/none", ["definition", "reissue"]),
        ("basics", ["basics", "definition"]),
        ("layouts", ["paperwork/layouts", "paperwork/stocks", "paperwork/labels"]),
    ],
)
def test_tests_of_a_room_are_in_the_folder_of_its_name_or_the_nearest_above_and_in_others_that_show_it(
    room: str, folders: list[str]
) -> None:
    assert own_tests(room) == tuple(f"tests/{folder}" for folder in folders)


@pytest.mark.parametrize("room", ALSO)
def test_there_are_tests_in_every_other_room_that_is_told(room: str) -> None:
    assert all(any((ROOT / folder).glob("test_*.py")) for folder in own_tests(room))
