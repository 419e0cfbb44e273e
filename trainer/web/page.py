"""A page is one frozen dataclass; its template sees that, the shell around it, and nothing else."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import ClassVar

from flask import Response, current_app, g, make_response, redirect, request, url_for
from markupsafe import Markup

from trainer.messages import Text
from trainer.web.forms import FieldProblem, KitchenForm
from trainer.web.offline.late import is_to_be_kept
from trainer.web.shell import Shell, shell_now


@dataclass(frozen=True, kw_only=True)
class Page:
    """What every page has. A page class adds its fields and names its template."""

    template: ClassVar[str] = ""
    title: Text


def show(page: Page, status: int = 200) -> Response:
    """Return the page as an answer; a form on it with problems makes the status 400 and puts them on top."""
    seen = _seen_of(page)
    problems = tuple(problem for value in seen.values() for problem in _problems_of(value))
    if problems and status == 200:
        status = 400
    template = current_app.jinja_env.get_template(page.template)
    g.told = tuple(problem.text for problem in problems) or (seen.get("happened", page.title),)
    return make_response(template.render(seen, shell=shell_now(problems)), status)


def rendered(page: Page, shell: Shell) -> Response:
    """Return the page as an answer inside a frame of its own, where there is no kitchen to take one from."""
    template = current_app.jinja_env.get_template(page.template)
    return make_response(template.render(_seen_of(page), shell=shell))


def part(page: Page) -> Markup:
    """Return a part of a page, rendered by itself: it has no shell, so it may be kept and shown to others."""
    return Markup(current_app.jinja_env.get_template(page.template).render(_seen_of(page)))  # noqa: S704 - our template


def _seen_of(page: Page) -> dict[str, object]:
    return {field.name: getattr(page, field.name) for field in fields(page)}


def go(endpoint: str, *, saved: str = "", **values: object) -> Response:
    """Return a redirect that a reload does not send again; *saved* is the entry to say "Saved" about."""
    if saved:
        values["saved"] = saved
    return make_response(redirect(url_for(endpoint, **values), 303))  # type: ignore[arg-type]


def own_path(path: str) -> str:
    """Return *path* if it is a plain path on this site, else the first page."""
    is_ours = path.startswith("/") and not path.startswith(("//", "/\\")) and path.isprintable()
    return path if is_ours and "\\" not in path else url_for("door.first")


def is_looked_at() -> bool:
    """Return whether a person looks at this page: its head alone, or a browser fetching ahead, is nobody looking.

    Nor is it where a phone fetches it to keep it.

    Sec-Purpose says so, "prefetch" or "prefetch;prerender" (Fetch Standard, section 3.6, from memory).
    """
    is_ahead = "prefetch" in request.headers.get("Sec-Purpose", "") or is_to_be_kept()
    return request.method == "GET" and not is_ahead


def here() -> str:
    """Return the path asked for, to come back to."""
    return request.full_path.rstrip("?")


def _problems_of(value: object) -> tuple[FieldProblem, ...]:
    return value.problems() if isinstance(value, KitchenForm) else ()
