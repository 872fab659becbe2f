"""No other site may have a browser change something here."""

from __future__ import annotations

from gettext import gettext as _
from urllib.parse import urlsplit

from fastapi import Request
from starlette.types import ASGIApp, Receive, Scope, Send

from server.rendering import page

SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS", "TRACE"})


class CrossSiteDefence:
    """Refuses forms that were sent from a page of another site."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or answer it with a refusal."""
        if scope["type"] != "http" or not _from_another_site(Request(scope)):
            await self._app(scope, receive, send)
            return
        context = {
            "title": _("This came from another site"),
            "words": _("Nothing was changed. Open the page here and send it again."),
        }
        response = page(Request(scope), "error.html", context, status=403)
        await response(scope, receive, send)


def _from_another_site(request: Request) -> bool:
    if request.method in SAFE_METHODS:
        return False
    site = request.headers.get("sec-fetch-site")
    if site is not None:
        return site not in ("same-origin", "none")
    # older browsers, and any browser on an unencrypted network address
    origin = request.headers.get("origin")
    if origin is None:
        return False
    if origin == "null" and request.url.path.startswith("/offer/"):
        return False  # an offer's page sends no referrer; who posts there knows its token
    return _host_of(origin) != request.headers.get("host", "").lower()


def _host_of(origin: str) -> str | None:
    try:
        return urlsplit(origin).netloc.lower() or None
    except ValueError:
        return None
