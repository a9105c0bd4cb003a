"""The schemas that editors take: sound, with a sentence for each key, an example and the unit for each quantity."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Any

import pytest
from edited_documents import readings
from jsonschema import Draft202012Validator
from pydantic import BaseModel, TypeAdapter

from docgen.definition import aircraft, defaults, equipment, harness, parts, stores
from docgen.definition.equipment import KINDS_OF_EQUIPMENT
from docgen.definition.schema import STEMS, schema_of
from docgen.paperwork.kinds import ACCEPTABLE, KINDS, MEANINGS

if TYPE_CHECKING:
    from pydantic.fields import FieldInfo

SCHEMAS = {stem: schema_of(stem, MEANINGS) for stem in STEMS}


def keys(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Walk the keys of a schema's file and of all forms below it."""
    for form in (schema, *schema["$defs"].values(), *(form.get("else", {}) for form in schema["$defs"].values())):
        yield from form.get("properties", {}).items()


KEYS = [(f"{stem} {key}", key, said, SCHEMAS[stem]) for stem in STEMS for key, said in keys(SCHEMAS[stem])]


@pytest.mark.parametrize("stem", STEMS)
def test_schemas_are_sound(stem: str) -> None:
    Draft202012Validator.check_schema(SCHEMAS[stem])


@pytest.mark.parametrize("stem", STEMS)
def test_forms_stand_in_a_schema_by_name(stem: str) -> None:
    assert list(SCHEMAS[stem]["$defs"]) == sorted(SCHEMAS[stem]["$defs"])


def test_each_key_is_explained_in_one_short_sentence() -> None:
    assert [where for where, _, said, _ in KEYS if not is_sentence(said.get("description", ""))] == []


def is_sentence(text: str) -> bool:
    return text.endswith(".") and text[0].isupper() and "\n" not in text and len(text) <= 250


def test_each_quantity_has_an_example_and_says_its_units() -> None:
    quantities = [(where, said, said.get("items", said)) for where, _, said, _ in KEYS]
    with_units = [(where, said, one) for where, said, one in quantities if "unit" in one]
    assert len(with_units) > 100
    for where, said, one in with_units:
        assert said["description"].endswith(f" {one['unit'][-1]}."), where
        assert one["examples"], where


def test_examples_and_defaults_are_such_as_a_builder_may_write() -> None:
    wrong = []
    for where, _, said, schema in KEYS:
        validator = Draft202012Validator(said | {"$defs": schema["$defs"]})
        for value in [*said.get("examples", []), *([said["default"]] if "default" in said else [])]:
            wrong += [(where, value) for read in as_typed(value) if not validator.is_valid(read)]
    assert wrong == []


def as_typed(value: Any) -> list[Any]:
    """Return a value as it comes from the file through an editor's parser; numbers of the schema are typed bare."""
    typed = (
        [str(item) for item in value] if isinstance(value, list) else value if isinstance(value, dict) else str(value)
    )
    return list(readings(typed).values())


def test_what_is_said_to_hold_if_unsaid_reads_as_what_the_program_takes() -> None:
    said = [default for stem in STEMS for default in defaults_of(SCHEMAS[stem]["$defs"])]
    assert len(said) > 40
    for key, text, field in said:
        form: Any = Annotated[field.annotation, *field.metadata]
        read: object = TypeAdapter(form).validate_python(text)
        assert read == (pytest.approx(field.default, rel=1e-3) if isinstance(read, float) else field.default), key


def defaults_of(forms: dict[str, dict[str, Any]]) -> Iterator[tuple[str, Any, FieldInfo]]:
    """Walk what schemas of forms say of each key that may be left out, beside the form's own field."""
    for module in (aircraft, equipment, harness, defaults, parts, stores):
        for name, form in vars(module).items():
            if name in forms and issubclass(form, BaseModel):
                for field_name, field in form.model_fields.items():
                    said = forms[name]["properties"][field.alias or field_name]
                    if "default" in said:
                        text = said["default"]
                        yield field_name, text if isinstance(text, list) else str(text), field


def test_an_editor_offers_the_kinds_of_equipment() -> None:
    form = SCHEMAS["harness"]["$defs"]["Equipment"]
    assert [key for key in form["properties"] if key.startswith("k")] == ["kind"]
    assert form["properties"]["kind"]["enum"] == list(KINDS_OF_EQUIPMENT)
    assert form["required"] == ["kind", "place"]


def test_an_editor_explains_each_finding_that_may_be_accepted() -> None:
    offered = SCHEMAS["harness"]["$defs"]["Accept"]["properties"]
    assert {name: said["description"] for name, said in offered.items()} == {
        name: KINDS[name].meaning for name in ACCEPTABLE
    }


@pytest.mark.parametrize(
    ("name", "entry", "fits"),
    [
        ("<side>-leg", {"up": {"left": "9.6 s", "right": "9.8 s"}}, True),
        ("<side>-leg", {"up": {"left": "9.6 s", "right": "9.8 mm"}}, False),
        ("<side>-leg", {"left": {"up": "9 s"}, "right": {"up": "8 s"}}, True),
        ("leg", {"up": {"left": "9.6 s", "right": "9.8 s"}}, False),
    ],
)
def test_a_choice_stands_only_in_an_entry_made_twice_and_is_checked_inside(
    name: str, entry: dict[str, Any], fits: bool
) -> None:
    equipment = {name: {"kind": "gear leg", "place": "bay", "gear": entry}}
    assert Draft202012Validator(SCHEMAS["harness"]).is_valid({"equipment": equipment, "circuits": {}}) == fits


@pytest.mark.parametrize(
    ("item", "fits"),
    [
        ({"between": ["bay", "<side>-root"], "length": {"left": "90 mm", "right": "80 mm"}}, True),
        ({"between": ["bay", "left-root"], "length": {"left": "90 mm", "right": "80 mm"}}, False),
        ({"between": ["bay", "left-root"], "length": "90 mm"}, True),
    ],
)
def test_an_item_of_a_list_is_made_twice_where_it_holds_the_side(item: dict[str, Any], fits: bool) -> None:
    file = {"aircraft": {}, "places": {}, "runs": [item]}
    errors = Draft202012Validator(SCHEMAS["aircraft"]).iter_errors(file)
    assert all(error.path[0] == "aircraft" for error in errors) == fits


@pytest.mark.parametrize(("to", "fits"), [(["a", "b"], True), (["<side>-light"], True), (["a"], False), ("a", False)])
def test_a_split_has_several_ends(to: object, fits: bool) -> None:
    circuit = {"from": "receiver 1", "to": to, "lead": "servo-22", "split": {"place": "bay"}}
    file = {"equipment": {}, "circuits": {"lights": circuit}}
    assert Draft202012Validator(SCHEMAS["harness"]).is_valid(file) == fits


@pytest.mark.parametrize(("more", "fits"), [({"key": "up"}, True), ({}, False), ({"shape": "round"}, True)])
def test_a_d_shaped_shell_says_where_its_key_is(more: dict[str, str], fits: bool) -> None:
    contact = {"rating": "5 A", "resistance": "10 mohm"}
    shell = {"at": {"1": ["0 mm", "0 mm"]}, "outline": ["9 mm", "9 mm"], "shape": "D", "contact": contact, **more}
    assert Draft202012Validator(SCHEMAS["parts"]).is_valid({"shells": {"d": shell}}) == fits


def test_an_editor_shows_a_lead_for_all_segments_and_one_for_each() -> None:
    examples = SCHEMAS["harness"]["$defs"]["Circuit"]["properties"]["lead"]["examples"]
    assert [type(example) for example in examples] == [str, dict]
