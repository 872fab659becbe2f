"""The table of seed materials, every figure with its source."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from server.files.seeds import material_rows, material_sources, materials
from server.pages.access import KnowsWhoAsks
from server.rendering import page

INCH = 0.0254  # m

router = APIRouter(dependencies=[KnowsWhoAsks])


@router.get("/materials")
def materials_page(request: Request) -> HTMLResponse:
    """All seed materials, by group."""
    groups: dict[str, list[dict[str, str]]] = {}
    for row in material_rows():
        groups.setdefault(row.figures["group"], []).append(row.figures)
    sources = material_sources()
    context = {
        "groups": groups,
        "sources": sources,
        "numbers": {key: number for number, key in enumerate(sources, start=1)},
        "r_per_inch": {
            name: INCH / float(material.conductivity) for name, material in materials().items()
        },
    }
    return page(request, "materials/page.html", context)
