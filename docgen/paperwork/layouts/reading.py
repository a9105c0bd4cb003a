"""Read a YAML file of a layout or a printer into its form, or say what is wrong with it and where."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from docgen.basics.findings import Finding, Position
from docgen.basics.locate import findings_from_errors, position_of
from docgen.basics.shipped import shipped_folder
from docgen.basics.source import Node, plain, read_yaml
from docgen.paperwork.layouts.forms import LayoutForm, PageLayout, Printer

_Form = TypeVar("_Form", bound=LayoutForm)
PAGES = {"page": PageLayout}


def shipped_names(kinds: Mapping[str, type[LayoutForm]]) -> list[str]:
    """Return the names of the layouts of some kinds that came with the program."""
    paths = sorted(shipped_folder("layouts").glob("*.yaml"))
    return [path.stem for path in paths if read_form(path, path.name, kinds)[0] is not None]


def read_shipped(name: str, kinds: Mapping[str, type[_Form]]) -> _Form:
    """Return a layout that came with the program, by its name."""
    form, _, findings = read_form(shipped_folder("layouts") / f"{name}.yaml", f"{name}.yaml", kinds)
    assert form is not None, findings
    return form


def read_page(name: str) -> PageLayout:
    """Return the layout of a sheet or card that came with the program, by its name."""
    return read_shipped(name, PAGES)


def read_printer(path: Path) -> tuple[Printer | None, list[Finding]]:
    """Return what a file says of a printer, or what is wrong with it."""
    printer, _, findings = read_form(path, str(path), {"printer": Printer})
    return printer, findings


def read_form(
    path: Path, shown_name: str, kinds: Mapping[str, type[_Form]]
) -> tuple[_Form | None, Node | None, list[Finding]]:
    """Return what is in a file, in the form that its `kind` names, with its node, or what is wrong with it."""
    node, findings = read_yaml(path, shown_name)
    if node is None or findings:
        return None, node, findings
    form: Any = plain(node)
    start, do = Position(shown_name, 1, 1), f"Write one of: {', '.join(kinds)}."
    if not isinstance(form, dict) or "kind" not in form:
        return None, node, [Finding(start, "missing", "the `kind` of the file is not said.", do)]
    model = kinds.get(form["kind"]) if isinstance(form["kind"], str) else None
    if model is None:
        return None, node, [Finding(position_of(node, ("kind",)), "value", "the `kind` of the file is unknown.", do)]
    try:
        return model.model_validate(form), node, []
    except ValidationError as error:
        errors: Any = error.errors(include_url=False, include_input=False)
        return None, node, findings_from_errors(errors, node, start, model)
