"""The comparison of a house file or of the demo house, and a comparison file. None is stored."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from server.files.building import Project, read_project
from server.files.comparison_file import comparison_json
from server.files.comparison_reading import comparison_file_of, is_comparison_file
from server.files.faults import BadFile
from server.files.reading import read_document
from server.files.seeds import DEMO_HOUSE
from server.pages.access import KnowsWhoAsks
from server.pages.comparison.context import comparison_context
from server.pages.comparison.file_context import comparison_file_context
from server.pages.opening.context import opening_context
from server.pages.opening.forms import OpenedFile, OpenedFileForm, chosen_units
from server.rendering import page
from server.units import System

router = APIRouter(dependencies=[KnowsWhoAsks])


@router.get("/demo")
def demo(request: Request, units: str = "ip") -> HTMLResponse:
    """The demo house, compared."""
    text = DEMO_HOUSE.read_text(encoding="utf-8")
    return _compared(request, read_project(text), text, chosen_units(units))


@router.post("/comparison")
def comparison(request: Request, opened: OpenedFileForm) -> HTMLResponse:
    """A house file compared, or a comparison file shown; a bad one comes back with its faults."""
    try:
        document = read_document(opened.content)
        if is_comparison_file(document):
            return _as_written(request, document, opened)
        project = read_project(opened.content)
        return _compared(request, project, opened.text, opened.units)
    except BadFile as refusal:
        return _refused(request, opened, refusal)


@router.post("/comparison-file")
def comparison_file(request: Request, opened: OpenedFileForm) -> Response:
    """The comparison of a house file, as a file to keep."""
    try:
        text = comparison_json(read_project(opened.content))
    except BadFile as refusal:
        return _refused(request, opened, refusal)
    return Response(
        text,
        media_type="application/json",
        headers={"Content-Disposition": 'attachment; filename="comparison.json"'},
    )


def _compared(request: Request, project: Project, text: str, units: System) -> HTMLResponse:
    return page(
        request,
        "comparison/page.html",
        comparison_context(project, text, units),
        fragment="comparison/_comparison.html",
    )


def _as_written(request: Request, document: Any, opened: OpenedFile) -> HTMLResponse:
    file = comparison_file_of(document)
    return page(
        request,
        "comparison/from_file.html",
        comparison_file_context(file, opened.text, opened.units),
        fragment="comparison/_from_file.html",
    )


def _refused(request: Request, opened: OpenedFile, refusal: BadFile) -> HTMLResponse:
    context = opening_context(opened.text, refusal.faults, opened.units)
    return page(request, "opening/page.html", context, status=422)
