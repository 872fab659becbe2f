"""The page on which a house file is opened."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from server.pages.access import MaybeSignedIn
from server.pages.opening.context import opening_context
from server.rendering import page

router = APIRouter()


@router.get("/")
def opening(request: Request, person: MaybeSignedIn) -> Response:
    """The empty form; who has signed in goes on to the houses."""
    if person is not None:
        return RedirectResponse("/houses", status_code=303)
    return page(request, "opening/page.html", opening_context())
