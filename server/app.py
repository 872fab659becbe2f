"""The web application: wiring only."""

from __future__ import annotations

from fastapi import FastAPI, Request
from fastapi.staticfiles import StaticFiles
from starlette.middleware.base import RequestResponseEndpoint
from starlette.middleware.gzip import GZipMiddleware
from starlette.responses import Response

from server import error_pages
from server.clock import Clock, utc_now
from server.pages.access import register_access
from server.pages.account import routes as account
from server.pages.comparison import routes as comparison
from server.pages.cross_site import CrossSiteDefence
from server.pages.house import routes as house
from server.pages.houses import routes as houses
from server.pages.materials import routes as materials
from server.pages.offers import routes as offers
from server.pages.opening import routes as opening
from server.pages.opening.forms import LARGEST_BODY as LARGEST_HOUSE
from server.pages.owner import routes as owner
from server.pages.people import routes as people
from server.pages.prices import routes as prices
from server.pages.regions import climate_routes as climates
from server.pages.regions import house_routes as regions_of_houses
from server.pages.regions import routes as regions
from server.pages.signing_in import routes as signing_in
from server.rendering import STATIC
from server.storage.database import Database

LARGEST_BODY = max(LARGEST_HOUSE, climates.LARGEST_FORM)  # of a form
MOST_TAKEN = 100_000_000  # bytes: more is cut off without a page
LEAST_COMPRESSED = 4_000  # bytes
COMPRESSION = 4  # of 9: the tables of the working shrink to an eighth, at little cost

SECURITY_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; "
        "img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Opener-Policy": "same-origin",
}


def create_app(database: Database, clock: Clock = utc_now) -> FastAPI:
    """A new application on a migrated database."""
    app = FastAPI(
        title="Warmside",
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        max_body_size=MOST_TAKEN,
    )
    app.state.database, app.state.clock = database, clock
    app.add_middleware(GZipMiddleware, minimum_size=LEAST_COMPRESSED, compresslevel=COMPRESSION)
    app.add_middleware(CrossSiteDefence)
    app.middleware("http")(_without_too_large_bodies)
    app.middleware("http")(_with_security_headers)
    for routes in (
        opening,
        comparison,
        materials,
        signing_in,
        account,
        people,
        houses,
        house,
        prices,
        regions,
        regions_of_houses,
        climates,
        offers,
        owner,
    ):
        app.include_router(routes.router)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    error_pages.register(app)
    register_access(app)
    return app


async def _without_too_large_bodies(
    request: Request, call_next: RequestResponseEndpoint
) -> Response:
    declared = request.headers.get("content-length", "")
    if not declared.isdecimal() or int(declared) <= LARGEST_BODY:
        return await call_next(request)
    # a browser shows the answer only when all that it sends has been taken
    async for _chunk in request.stream():
        pass
    return error_pages.error_page(request, 413)


async def _with_security_headers(request: Request, call_next: RequestResponseEndpoint) -> Response:
    response = await call_next(request)
    for name, value in SECURITY_HEADERS.items():
        response.headers.setdefault(name, value)  # a page may ask for stricter ones
    return response
