"""The package's own words are true: its examples run, its docstrings say what comes back, it stands alone."""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType

import pytest

import trainer.recipe_math

README = Path(trainer.recipe_math.__path__[0]) / "README.md"
MODULES = [
    importlib.import_module(f"trainer.recipe_math.{found.name}")
    for found in pkgutil.iter_modules(trainer.recipe_math.__path__)
]


def source_of(module: ModuleType) -> ast.Module:
    assert module.__file__ is not None
    return ast.parse(Path(module.__file__).read_text(encoding="utf-8"))


def public_functions(module: ModuleType) -> Iterator[FunctionType]:
    for name, thing in vars(module).items():
        if isinstance(thing, FunctionType) and not name.startswith("_") and thing.__module__ == module.__name__:
            yield thing


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_the_examples_run(module: ModuleType) -> None:
    """Every example in a docstring prints what it says."""
    assert doctest.testmod(module).failed == 0


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_a_public_function_says_first_what_comes_back_and_has_an_example(module: ModuleType) -> None:
    """The first word is Return; an example follows."""
    for function in public_functions(module):
        words = inspect.getdoc(function) or ""
        assert words.startswith("Return"), function.__qualname__
        assert ">>>" in words, function.__qualname__


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_no_float_is_written(module: ModuleType) -> None:
    """Amounts are fractions; a float would lose the last digit. An estimate of heat or time says that it is one."""
    if "an estimate, in floats" in (module.__doc__ or ""):
        return
    for node in ast.walk(source_of(module)):
        assert not (isinstance(node, ast.Constant) and isinstance(node.value, float)), ast.dump(node)
        assert not (isinstance(node, ast.Name) and node.id == "float"), ast.dump(node)


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_the_package_stands_alone(module: ModuleType) -> None:
    """Of this program it uses nothing but itself and messages."""
    for node in ast.walk(source_of(module)):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("trainer"):
            assert (node.module or "").startswith(("trainer.recipe_math", "trainer.messages")), node.module


def test_the_page_of_the_package_runs() -> None:
    """Every example in its README prints what it says."""
    assert doctest.testfile(str(README), module_relative=False).failed == 0


def test_the_page_shows_every_name_of_the_front_door() -> None:
    """What is exported exists, is used or named on the page, and is listed once."""
    names = trainer.recipe_math.__all__
    page = README.read_text(encoding="utf-8")
    assert sorted(set(names)) == sorted(names)
    for name in names:
        assert hasattr(trainer.recipe_math, name), name
        assert re.search(rf"\b{name}\b", page), name


def test_its_types_are_for_others_too() -> None:
    """A marker in the package that is installed tells type checkers so (PEP 561)."""
    assert README.parents[1].joinpath("py.typed").is_file()


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_nothing_is_translated_inside(module: ModuleType) -> None:
    """Refusals and words are values; only a quantity in a log prints itself, in English.

    No text that is raised is put together where it is raised: values would be lost to a reader of another language.
    """
    for node in ast.walk(source_of(module)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "translate":
            assert module.__name__.endswith(".quantity")
        if isinstance(node, ast.Raise):
            raised = node.exc
            if isinstance(raised, ast.Call) and ast.unparse(raised.func) not in {"ValueError", "TypeError"}:
                assert not any(isinstance(part, ast.JoinedStr) for part in raised.args), ast.unparse(node)
                plain = [part for part in raised.args if isinstance(part, ast.Constant)]
                assert not plain, ast.unparse(node)
