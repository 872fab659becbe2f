"""From an error to a status and a page in plain words."""

from __future__ import annotations

from gettext import gettext as _

from fastapi import FastAPI, Request
from fastapi.responses import HTMLResponse
from starlette.exceptions import HTTPException

from server.files.keyed import Gone
from server.rendering import page
from server.storage.houses import NoSuchHouse

_WORDS = {
    404: (_("There is no such page"), _("The address may be mistyped, or the page has moved.")),
    405: (
        _("This address only takes a form"),
        _("Go back to the start and open the house file there."),
    ),
    413: (
        _("The file is too large"),
        _("A house file has at most 2 million bytes. Nothing was read or kept."),
    ),
}
_OTHER = (
    _("This did not work"),
    _("Nothing was changed. Go back and try again; if it stays so, tell who runs this site."),
)


def register(app: FastAPI) -> None:
    """Show errors of the web layer as pages."""

    @app.exception_handler(HTTPException)
    def _http(request: Request, error: HTTPException) -> HTMLResponse:
        return error_page(request, error.status_code)

    @app.exception_handler(NoSuchHouse)
    @app.exception_handler(Gone)
    def _gone(request: Request, _error: Exception) -> HTMLResponse:
        return error_page(request, 404)

    @app.exception_handler(Exception)
    def _unforeseen(request: Request, _error: Exception) -> HTMLResponse:
        return error_page(request, 500)


def error_page(request: Request, status: int) -> HTMLResponse:
    """The page of a status."""
    title, words = _WORDS.get(status, _OTHER)
    return page(request, "error.html", {"title": title, "words": words}, status=status)
