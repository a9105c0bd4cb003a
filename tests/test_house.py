"""The house: imports go one way, each library has one door, nothing is too long to hold."""

from __future__ import annotations

import ast
import fnmatch
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from pathlib import Path

import networkx

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "docgen"

# What each folder, or module beside folders, may import of the others. What stands nowhere may be imported by all.
_PAGES = "basics harness paperwork/page_kit paperwork/typesetting paperwork/layouts"
MAY_IMPORT = {
    "basics": "",
    "definition": "basics",
    "beginning": "basics definition",
    "harness/model": "basics definition",
    "harness/routing": "basics definition harness/model",
    "harness/wiring": "basics definition harness/model harness/routing",
    "harness/bundling": "basics definition harness/model harness/routing",
    "harness/electrical": "basics definition harness/model harness/routing harness/wiring",
    "harness/remedies": "basics definition harness/model harness/routing harness/wiring harness/electrical",
    "harness/losses": "basics harness/model",
    "harness/continuity": "basics harness/model",
    "harness/assembly": "basics harness/model harness/routing harness/bundling",
    "harness/checks": "basics definition harness",
    "harness": "basics definition",
    "paperwork/typesetting": "basics",
    "paperwork/page_kit": "basics paperwork/typesetting",
    "paperwork/layouts": "basics paperwork/typesetting",
    "paperwork/labels": "basics harness paperwork/page_kit paperwork/typesetting",
    "paperwork/stocks": "basics harness paperwork/page_kit paperwork/typesetting paperwork/layouts paperwork/labels",
    "paperwork/cards": _PAGES,
    "paperwork/cut_list": f"{_PAGES} paperwork/labels paperwork/stocks",
    "paperwork/bench": f"{_PAGES} paperwork/labels paperwork/cut_list",
    "paperwork/field": f"{_PAGES} paperwork/cards",
    "paperwork/measuring": _PAGES,
    "paperwork/record": "basics harness paperwork/field",
    "paperwork": "basics harness",
    "reissue": "basics definition harness paperwork",
    "pipeline": "basics definition harness paperwork reissue",
    "commands": "basics definition beginning harness paperwork reissue pipeline",
    "cli": "commands",
    "__main__": "cli",
    "__init__": "",
}
# Modules that lie beside the folders of their floor and stand above them, or below them.
ABOVE = {"harness/resolve", "paperwork/documents", "paperwork/document", "paperwork/kinds"}
BELOW = {"paperwork/hashes", "paperwork/items", "paperwork/naming", "paperwork/standing", "paperwork/values"}

# The only files, as patterns below the package, that may import a library.
DOORS = {
    "yaml": ["basics/source.py"],
    "pydantic": ["definition/*.py", "paperwork/layouts/*.py"],
    "reportlab.pdfgen": ["paperwork/typesetting/draw.py"],
    "reportlab.pdfbase.ttfonts": ["paperwork/typesetting/typeface.py"],
    "qrcode": ["paperwork/typesetting/codes.py"],
    "click": ["cli.py", "commands/*.py"],
}

MOST_LINES_OF_A_MODULE = 300
MOST_LINES_OF_A_FUNCTION = 40

VAGUE_NAMES = {"utils", "util", "helpers", "helper", "common"}
TOP_LEVEL = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "docgen",
    "layouts",
    "tests",
    "examples",
    "out",
}
# What packaging tools leave behind; it is not tracked.
LEFT_BEHIND = ("build", "dist", "*.egg-info", "__pycache__")


@cache
def modules() -> list[tuple[str, list[ast.AST]]]:
    """Return the package's modules: path below it, and all nodes."""
    return [
        (path.relative_to(PACKAGE).as_posix(), list(ast.walk(ast.parse(path.read_text("utf-8")))))
        for path in sorted(PACKAGE.rglob("*.py"))
    ]


def imported(nodes: Iterable[ast.AST], importer: str = "") -> Iterator[str]:
    """Walk the full names of all that nodes import; `importer` resolves relative ones."""
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                package = ["docgen", *Path(importer).parts][: -node.level]
                base = ".".join([*package, base]).strip(".")
            yield from (f"{base}.{alias.name}" for alias in node.names)


def running_when_imported(nodes: Sequence[ast.AST]) -> Iterator[ast.AST]:
    """Walk what runs when a module is imported."""
    left_out: set[ast.AST] = set()
    for node in nodes:
        if isinstance(node, ast.FunctionDef) or (
            isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)
        ):
            left_out.update(ast.walk(node))
    return (node for node in nodes if node not in left_out)


def module_of(name: str) -> str:
    """Return the path below the package of the module, or folder, that a full name is in."""
    path = name.removeprefix("docgen.").replace(".", "/")
    return path if (PACKAGE / f"{path}.py").exists() or (PACKAGE / path).is_dir() else path.rpartition("/")[0]


def room_of(path: str) -> str:
    """Return the folder that a file, or a module by its name, belongs to; of one beside folders its floor."""
    parts = Path(path).with_suffix("").parts
    return "/".join(parts[:2]) if (PACKAGE / Path(*parts[:2])).is_dir() else parts[0]


def is_within(name: str, library: str) -> bool:
    return name == library or name.startswith(library + ".")


def may_import(importer: str, target: str) -> bool:
    """Tell whether a module may import another, both as paths below the package."""
    room, wanted = room_of(importer), room_of(target)
    if room == wanted or (target in BELOW and room.split("/")[0] == wanted.split("/")[0]):
        return True
    allowed = MAY_IMPORT[room].split()
    floor = importer.split("/", maxsplit=1)[0] if importer in ABOVE else None
    return wanted in allowed or wanted.split("/")[0] in [*allowed, floor]


def test_imports_go_one_way() -> None:
    wrong = [
        f"{path} imports {name}"
        for path, nodes in modules()
        for name in imported(nodes, path)
        if name.startswith("docgen.") and name != "docgen.__version__"
        if not may_import(path.removesuffix(".py"), module_of(name))
    ]
    assert wrong == []


def test_each_folder_has_a_row_and_each_row_a_folder() -> None:
    folders = {path.parent.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py")} - {"."}
    beside = {path.stem for path in PACKAGE.glob("*.py")}
    assert folders | beside == MAY_IMPORT.keys()


def test_paperwork_shows_the_harness_as_built_and_not_what_was_typed() -> None:
    wrong = [
        f"{path} imports {name}"
        for path, nodes in modules()
        if room_of(path).startswith("paperwork")
        for name in imported(nodes, path)
        if is_within(name, "docgen.definition")
    ]
    assert wrong == []


def test_a_command_imports_what_it_needs_when_it_runs() -> None:
    wrong = [
        f"{path} imports {name}"
        for path, nodes in modules()
        if path == "cli.py" or path.startswith("commands/")
        for name in imported(running_when_imported(nodes), path)
        if is_within(name, "docgen") and name != "docgen.__version__" and not is_within(name, "docgen.commands")
    ]
    assert wrong == []


def test_a_kind_of_stock_is_known_by_its_module_and_the_list_of_kinds_alone() -> None:
    kinds = {f"docgen.paperwork.stocks.{kind}" for kind in ("strips", "carrier", "pieces", "wraps", "flags", "tape")}
    knowing = {
        path for path, tree in modules() for name in imported(tree, path) if kinds & {name, name.rpartition(".")[0]}
    }
    assert knowing == {"paperwork/stocks/reading.py"}


def test_each_library_has_one_door() -> None:
    wrong = [
        f"{path} imports {name}"
        for path, nodes in modules()
        for name in imported(nodes, path)
        for library, doors in DOORS.items()
        if is_within(name, library) and not any(fnmatch.fnmatch(path, door) for door in doors)
    ]
    assert wrong == []


def test_no_modules_import_each_other_in_a_circle() -> None:
    names = {"docgen." + path.removesuffix(".py").replace("/", "."): path for path, _ in modules()}
    graph = networkx.DiGraph()
    for path, nodes in modules():
        importer = "docgen." + path.removesuffix(".py").replace("/", ".")
        for name in imported(nodes, path):
            target = name if name in names else name.rpartition(".")[0]
            if target in names and target != importer:
                graph.add_edge(importer, target)
    circles = [sorted(found) for found in networkx.strongly_connected_components(graph) if len(found) > 1]
    assert circles == []


def test_no_module_is_longer_than_a_reader_can_hold() -> None:
    lengths = {
        path.relative_to(ROOT).as_posix(): len(path.read_text("utf-8").splitlines()) for path in PACKAGE.rglob("*.py")
    }
    assert {path: lines for path, lines in lengths.items() if lines > MOST_LINES_OF_A_MODULE} == {}


def test_no_function_is_longer_than_a_reader_can_hold() -> None:
    lengths = {
        f"{path} {node.name}": (node.end_lineno or node.lineno) - node.lineno + 1
        for path, nodes in modules()
        for node in nodes
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    }
    assert {name: lines for name, lines in lengths.items() if lines > MOST_LINES_OF_A_FUNCTION} == {}


def test_no_number_is_written_in_a_form_that_may_turn_to_a_power_of_ten() -> None:
    wrong = [
        f"{path}:{node.lineno}"
        for path, nodes in modules()
        for node in nodes
        if isinstance(node, ast.FormattedValue) and node.format_spec is not None
        if ast.unparse(node.format_spec).rstrip("'\"")[-1:] in "eEgGn" and path != "basics/units.py"
    ]
    assert wrong == []


def test_the_spine_is_short() -> None:
    assert len((PACKAGE / "pipeline.py").read_text("utf-8").splitlines()) < 100


def test_no_module_has_a_name_that_says_nothing() -> None:
    paths = [path for folder in (PACKAGE, ROOT / "tests") for path in folder.rglob("*")]
    assert [path for path in paths if path.stem in VAGUE_NAMES] == []


def test_the_top_level_holds_these_and_nothing_else() -> None:
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    left = {name for name in found for pattern in LEFT_BEHIND if fnmatch.fnmatch(name, pattern)}
    assert found - left == TOP_LEVEL
