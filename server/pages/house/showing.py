"""Which template and context a page of a house has, so that a form can come back to its page."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse, RedirectResponse
from starlette.datastructures import FormData

from server.accounts.person import Person
from server.files.keyed import Gone
from server.pages.form_texts import text_of
from server.pages.house import context as c
from server.pages.house import seen_context
from server.pages.house import strategy_context as s
from server.pages.house.adding import adding_context
from server.pages.house.context import OpenHouse
from server.pages.house.fields import BASIS_CHOICES, Problem
from server.pages.house.told import told
from server.rendering import page as rendered
from server.storage.houses import Stored

Show = Callable[..., dict[str, Any]]

_KEY = "([0-9a-f]{32})"
_PAGES: tuple[tuple[re.Pattern[str], str, Show], ...] = tuple(
    (re.compile(pattern + r"\Z"), template, show)
    for pattern, template, show in (
        ("", "overview", c.overview),
        ("systems", "systems", c.systems_page),
        ("seen", "seen", seen_context.seen_page),
        ("spaces", "spaces", c.spaces_page),
        ("assemblies", "assemblies", c.assemblies_page),
        (f"assemblies/{_KEY}", "assembly", c.assembly_page),
        (f"parts/{_KEY}", "part", c.part_page),
        ("junctions", "junctions", c.junctions_page),
        ("strategies", "strategies", s.strategies_page),
        (f"strategies/{_KEY}", "strategy", s.strategy_page),
        (f"strategies/{_KEY}/changes/{_KEY}", "change", s.change_page),
        ("working", "working", c.working_page),
        ("history", "history", lambda _opened: {"told": told}),
    )
)


def page_context(opened: OpenHouse, page: str) -> tuple[str, dict[str, Any]]:
    """Template and context of a page, by its path below the house. Raises: Gone."""
    for pattern, template, show in _PAGES:
        match = pattern.match(page)
        if match is not None:
            shown = show(opened, *match.groups())
            common = opened.common(page) | {"basis_choices": BASIS_CHOICES}
            return template, common | adding_context(opened, template) | shown
    raise Gone(page)


def page_asked(form: FormData) -> str:
    """The page that a form says it stands on. Raises: Gone where a house has no such page."""
    page = text_of(form, "page")
    if not any(pattern.match(page) for pattern, _template, _show in _PAGES):
        raise Gone(page)
    return page


def show(
    request: Request,
    stored: Stored,
    person: Person,
    page: str,
    *,
    problem: Problem | None = None,
    extra: Mapping[str, Any] | None = None,
    status: int = 200,
) -> HTMLResponse:
    """A page of a house. problem: what was wrong with a field; it comes back as typed."""
    opened = OpenHouse(stored, person, problem)
    template, context = page_context(opened, page)
    return rendered(request, f"house/{template}.html", context | dict(extra or {}), status=status)


def back_to(key: str, page: str, anchor: str = "") -> RedirectResponse:
    """Go back to a page of a house after something was saved."""
    path = f"/houses/{key}/{page}".rstrip("/")
    return RedirectResponse(f"{path}#{anchor}" if anchor else path, status_code=303)
