"""Templates: one environment, full pages and htmx fragments from the same context."""

from __future__ import annotations

import functools
import gettext
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from server.explaining.blocks import blocks
from server.explaining.setting import with_indices
from server.explaining.working import title_of
from server.formatting import (
    MONTHS,
    dollars_text,
    figure_text,
    number_text,
    signed_text,
    time_text,
    unit_text,
)
from server.units import format_quantity

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
    made.filters.update(figure=figure_text, number=number_text, unit=unit_text, time=time_text)
    made.filters.update(signed=signed_text, dollars=dollars_text, pair=_pair)
    made.filters.update(month=_month, slug=_slug, quantity=format_quantity)
    made.filters.update(blocks=blocks, indexed=_indexed, working_title=title_of)
    made.globals.update(positions=_positions)
    return made


@functools.lru_cache(maxsize=4096)
def _indexed(text: str) -> Markup:
    """A formula with its indices set low; the same ones stand on every page."""
    return Markup("").join(
        Markup("<sub>{}</sub>").format(piece) if low else escape(piece)
        for piece, low in with_indices(text)
    )


def _month(number: int) -> str:
    """The name of a month, 0 to 11."""
    return gettext.gettext(MONTHS[number])


def _slug(code: str) -> str:
    """A code as part of an id."""
    return re.sub(r"[^a-z0-9]+", "-", code.lower()).strip("-")


def _pair(value: str) -> tuple[str, str]:
    """A choice that is shown as it is sent."""
    return value, value


def _positions(layers: Sequence[Any]) -> list[tuple[str, str]]:
    """The places a layer can be put among others, inside to outside."""
    inmost = [("0", gettext.gettext("innermost"))]
    return inmost + [
        (str(place), gettext.gettext("outside layer {number}").format(number=place))
        for place in range(1, len(layers) + 1)
    ]


_ENVIRONMENT = environment()
# characters that HTML does not allow, whoever wrote them
_NO_HTML = re.compile("[\0-\x08\x0b\x0e-\x1f\x7f-\x9f\ufdd0-\ufdef\ufffe\uffff]")


def drawn(template: str, context: Mapping[str, Any]) -> Markup:
    """The middle of a page, to be kept: nothing of who asks may be in its context."""
    text = _ENVIRONMENT.get_template(template).render(context)
    return Markup(text)  # noqa: S704  (a template of ours, all in it escaped)


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
    person = getattr(request.state, "person", None)
    text = _ENVIRONMENT.get_template(name).render({"person": person, **context})
    text = _NO_HTML.sub("\ufffd", text)
    headers = {"Vary": "HX-Request, HX-Request-Type"} if fragment is not None else {}
    if person is not None:
        headers["Cache-Control"] = "no-store"  # Back shows what stands now, not what stood then
    return HTMLResponse(text, status_code=status, headers=headers)
