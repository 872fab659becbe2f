"""Templates: one environment, full pages and htmx fragments from the same context."""

from __future__ import annotations

import gettext
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined

from server.formatting import figure_text, number_text, unit_text

ROOT = Path(__file__).resolve().parent.parent
TEMPLATES = ROOT / "templates"
STATIC = ROOT / "static"


def environment() -> Environment:
    """The one template environment: escaping always on, unknown names are errors."""
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        extensions=["jinja2.ext.i18n"],
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.install_gettext_translations(gettext.NullTranslations(), newstyle=True)  # type: ignore[attr-defined]
    made.filters.update(figure=figure_text, number=number_text, unit=unit_text)
    return made


_ENVIRONMENT = environment()


def page(
    request: Request,
    template: str,
    context: Mapping[str, Any],
    *,
    fragment: str | None = None,
    status: int = 200,
) -> HTMLResponse:
    """A full page, or its fragment where htmx asks for a part of one."""
    wants_part = request.headers.get("HX-Request-Type") == "partial"
    name = fragment if fragment is not None and wants_part else template
    text = _ENVIRONMENT.get_template(name).render(context)
    headers = {"Vary": "HX-Request, HX-Request-Type"} if fragment is not None else None
    return HTMLResponse(text, status_code=status, headers=headers)
