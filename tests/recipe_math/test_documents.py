"""The package's own words are true: its examples run, its docstrings say what comes back, it stands alone."""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import pkgutil
from collections.abc import Iterator
from pathlib import Path
from types import FunctionType, ModuleType

import pytest

import trainer.recipe_math

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
