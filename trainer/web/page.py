"""A page is one frozen dataclass; its template sees that, the shell around it, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import ClassVar

from flask import Response, current_app, make_response, redirect, request, url_for

from trainer.web.forms import FieldProblem, KitchenForm
from trainer.web.shell import shell_now


@dataclass(frozen=True, kw_only=True)
class Page:
    """What every page has. A page class adds its fields and names its template."""

    template: ClassVar[str] = ""
    title: str


def show(page: Page, status: int = 200) -> Response:
    """Return the page as an answer; a form on it with problems makes the status 400 and puts them on top."""
    seen = {field.name: getattr(page, field.name) for field in fields(page)}
    problems = tuple(problem for value in seen.values() for problem in _problems_of(value))
    if problems and status == 200:
        status = 400
    template = current_app.jinja_env.get_template(page.template)
    return make_response(template.render(seen, shell=shell_now(problems)), status)


def go(endpoint: str, *, saved: str = "", **values: object) -> Response:
    """Return a redirect that a reload does not send again; *saved* is the entry to say "Saved" about."""
    if saved:
        values["saved"] = saved
    return make_response(redirect(url_for(endpoint, **values), 303))  # type: ignore[arg-type]


def own_path(path: str) -> str:
    """Return *path* if it is a plain path on this site, else the first page."""
    is_ours = path.startswith("/") and not path.startswith(("//", "/\\")) and path.isprintable()
    return path if is_ours and "\\" not in path else url_for("door.first")


def here() -> str:
    """Return the path asked for, to come back to."""
    return request.full_path.rstrip("?")


def _problems_of(value: object) -> tuple[FieldProblem, ...]:
    return value.problems() if isinstance(value, KitchenForm) else ()
