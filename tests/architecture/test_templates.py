"""Every template sees exactly the fields of its page: no free name that is not a field, no field unused."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest
from jinja2 import Environment, nodes
from jinja2.meta import find_undeclared_variables

import trainer.web
from trainer.web.filters import FILTERS
from trainer.web.page import Page

TEMPLATES = Path(trainer.web.__file__).parent / "templates"
GIVEN = {"shell", "url_for", "static_url", "message", "plural"}


def page_classes() -> list[type[Page]]:
    """Return every page class, having imported every module of pages."""
    for module in pkgutil.walk_packages(trainer.web.__path__, "trainer.web."):
        importlib.import_module(module.name)
    return sorted({c for c in _below(Page) if c.template}, key=lambda c: c.__qualname__)


def _below(kind: type[Page]) -> Iterator[type[Page]]:
    for lower in kind.__subclasses__():
        yield lower
        yield from _below(lower)


def parsed(template: str) -> nodes.Template:
    """Return a template as a tree, with the filters the app gives it."""
    environment = Environment(autoescape=True)
    environment.filters.update(FILTERS)
    return environment.parse((TEMPLATES / template).read_text(encoding="utf-8"))


def free_names(template: str) -> set[str]:
    """Return the names a template and all it extends or includes take from outside."""
    tree = parsed(template)
    found = set(find_undeclared_variables(tree))
    for other in named_by(tree, nodes.Extends, nodes.Include):
        found |= free_names(other)
    return found - own_names(tree)


def named_by(tree: nodes.Template, *kinds: type[nodes.Node]) -> list[str]:
    """Return the templates a template extends, includes or imports from."""
    return [node.template.value for node in tree.find_all(kinds)]  # type: ignore[attr-defined]


def own_names(tree: nodes.Template) -> set[str]:
    """Return the names a template imports, loops over or sets itself: its blocks and included parts may use them."""
    imported = {name if isinstance(name, str) else name[1] for n in tree.find_all(nodes.FromImport) for name in n.names}
    return imported | {node.name for node in tree.find_all(nodes.Name) if node.ctx == "store"}


@pytest.mark.parametrize("page", page_classes(), ids=lambda page: page.__name__)
def test_a_template_sees_the_fields_of_its_page(page: type[Page]) -> None:
    """The free names of a page's template are fields of the page class, and every field is used."""
    assert is_dataclass(page)
    own = {field.name for field in fields(page)}
    names = free_names(page.template)
    assert names - own - GIVEN == set()
    assert own - names == set()


def test_a_page_is_frozen() -> None:
    """A page cannot be changed once made."""
    assert [p.__name__ for p in page_classes() if not p.__dataclass_params__.frozen] == []  # type: ignore[attr-defined]


def test_every_template_belongs_to_a_page() -> None:
    """No template lies about unused."""
    used: set[str] = set()

    def add(template: str) -> None:
        used.add(template)
        for other in named_by(parsed(template), nodes.Extends, nodes.Include, nodes.FromImport):
            if other not in used:
                add(other)

    for page in page_classes():
        add(page.template)
    there = {str(path.relative_to(TEMPLATES)) for path in TEMPLATES.rglob("*") if path.is_file()}
    assert there - used == set()
