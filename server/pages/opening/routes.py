"""The page on which a house file is opened."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from server.pages.opening.context import opening_context
from server.rendering import page

router = APIRouter()


@router.get("/")
def opening(request: Request) -> HTMLResponse:
    """The empty form."""
    return page(request, "opening/page.html", opening_context())
