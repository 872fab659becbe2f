"""The web application: wiring only."""

from __future__ import annotations

from fastapi import FastAPI, Request
from fastapi.staticfiles import StaticFiles
from starlette.middleware.base import RequestResponseEndpoint
from starlette.responses import Response

from server import error_pages
from server.pages.comparison import routes as comparison
from server.pages.materials import routes as materials
from server.pages.opening import routes as opening
from server.pages.opening.forms import LARGEST_BODY
from server.rendering import STATIC

SECURITY_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
        "img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Opener-Policy": "same-origin",
}


def create_app() -> FastAPI:
    """A new application."""
    app = FastAPI(
        title="Warmside",
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        max_body_size=LARGEST_BODY,
    )
    app.middleware("http")(_with_security_headers)
    for routes in (opening, comparison, materials):
        app.include_router(routes.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    error_pages.register(app)
    return app


async def _with_security_headers(request: Request, call_next: RequestResponseEndpoint) -> Response:
    response = await call_next(request)
    response.headers.update(SECURITY_HEADERS)
    return response
