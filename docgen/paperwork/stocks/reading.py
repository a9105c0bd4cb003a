"""Read the layouts that came with the program, and the files of a builder's own."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter, ValidationError

from docgen.basics.findings import Finding, Position
from docgen.basics.locate import findings_from_errors, position_of
from docgen.basics.shipped import shipped_folder
from docgen.basics.source import Node, plain, read_yaml
from docgen.paperwork.stocks.layouts import MODELS, Layout, LayoutForm, Printer


def layout_names(kinds: tuple[str, ...] = tuple(MODELS)) -> list[str]:
    """Return the names of the layouts that came with the program, of some kinds."""
    names = []
    for path in sorted(shipped_folder("layouts").glob("*.yaml")):
        node, _ = read_yaml(path, path.name)
        form: Any = plain(node) if node else {}
        if form.get("kind") in kinds:
            names.append(path.stem)
    return names


def read_layout(name: str) -> tuple[Layout | None, list[Finding]]:
    """Return a layout that came with the program, by its name."""
    layout, _, findings = read_form(shipped_folder("layouts") / f"{name}.yaml", f"{name}.yaml", MODELS)
    return layout, findings


def read_printer(path: Path) -> tuple[Printer | None, list[Finding]]:
    """Return what a file says of a printer, or what is wrong with it."""
    printer, _, findings = read_form(path, str(path), {"printer": Printer})
    return printer, findings


def read_form(
    path: Path, shown_name: str, models: Mapping[str, type[LayoutForm]]
) -> tuple[Any, Node | None, list[Finding]]:
    """Return what is in a file, as the model that its `kind` names, with its node."""
    node, findings = read_yaml(path, shown_name)
    if node is None or findings:
        return None, node, findings
    form: Any = plain(node)
    kind = form.get("kind") if isinstance(form, dict) else None
    model = models.get(kind) if isinstance(kind, str) else None
    start = Position(shown_name, 1, 1)
    if model is None:
        position = position_of(node, ("kind",)) if isinstance(form, dict) and "kind" in form else start
        name = "value" if isinstance(form, dict) and "kind" in form else "missing"
        sentence = "the `kind` of the file is unknown." if name == "value" else "the `kind` of the file is not said."
        return None, node, [Finding(position, name, sentence, f"Write one of: {', '.join(models)}.")]
    try:
        return TypeAdapter(model).validate_python(form), node, []
    except ValidationError as error:
        errors: Any = error.errors(include_url=False, include_input=False)
        return None, node, findings_from_errors(errors, node, start, model)
