"""The table of seed materials, every figure with its source."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from server.files.seeds import material_rows, material_sources
from server.pages.opening.forms import chosen_units
from server.rendering import page

router = APIRouter()


@router.get("/materials")
def materials(request: Request, units: str = "ip") -> HTMLResponse:
    """All seed materials, by group."""
    groups: dict[str, list[dict[str, str]]] = {}
    for row in material_rows():
        groups.setdefault(row.figures["group"], []).append(row.figures)
    return page(
        request,
        "materials/page.html",
        {"groups": groups, "sources": material_sources(), "units": chosen_units(units)},
    )
