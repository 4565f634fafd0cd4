"""Three things that the import contracts cannot see, since they are strings: relations, names and links."""

import ast
import re
from pathlib import Path

import pytest
from django.apps import apps

ROOT = Path(__file__).resolve().parents[1]
ROOMS = ("species", "assessments", "courses")  # low to high
LINK = re.compile(r"""\{%\s*url\s+['"](\w+):""")
INCLUDE = re.compile(r"""\{%\s*(?:include|extends)\s+['"](\w+)/""")


def higher_than(room: str) -> tuple[str, ...]:
    return ROOMS[ROOMS.index(room) + 1 :]


@pytest.mark.parametrize("room", ROOMS)
def test_model_relations_point_down_or_level(room: str) -> None:
    upward = [
        f"{model.__name__}.{field.name} -> {field.related_model._meta.label}"
        for model in apps.get_app_config(room).get_models()
        for field in model._meta.get_fields()
        if field.concrete
        and field.is_relation
        and field.related_model
        and field.related_model._meta.app_label in higher_than(room)
    ]
    assert upward == []


def strings_of(path: Path) -> list[str]:
    """String constants of a module, docstrings left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    docstrings = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef)
        and node.body
        and isinstance(node.body[0], ast.Expr)
    }
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docstrings
    ]


@pytest.mark.parametrize("room", ["species", "assessments"])
def test_no_string_of_a_room_names_something_of_a_higher_room(room: str) -> None:
    pattern = re.compile(rf"^({'|'.join(higher_than(room))})[.:/]\w")
    upward = [
        f"{path.relative_to(ROOT)}: {text!r}"
        for path in (ROOT / room).rglob("*.py")
        for text in strings_of(path)
        if pattern.match(text)
    ]
    assert upward == []


@pytest.mark.parametrize("room", ["species", "assessments"])
def test_templates_of_a_room_link_and_include_down_or_level(room: str) -> None:
    upward = [
        f"{path.relative_to(ROOT)}: {found}"
        for path in (ROOT / "templates" / room).rglob("*.*")
        for found in LINK.findall(path.read_text(encoding="utf-8")) + INCLUDE.findall(path.read_text(encoding="utf-8"))
        if found in higher_than(room)
    ]
    assert upward == []


def test_the_check_itself_sees_an_upward_string() -> None:
    pattern = re.compile(rf"^({'|'.join(higher_than('species'))})[.:/]\w")
    assert pattern.match("courses:home")
    assert pattern.match("assessments.Paper")
    assert not pattern.match("courses are fine as a word")
