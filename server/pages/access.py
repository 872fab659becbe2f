"""Who asks, and the database session of a request: what all pages depend on."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterator
from gettext import gettext as _
from typing import Annotated
from weakref import WeakKeyDictionary

from fastapi import Depends, FastAPI, Request
from fastapi.responses import RedirectResponse, Response
from sqlalchemy.orm import Session

from server.accounts.person import Person
from server.accounts.throttle import Throttle
from server.clock import Clock
from server.drawn_once import DrawnOnce
from server.pages.addresses import local_path, with_next
from server.pages.cross_site import SAFE_METHODS
from server.rendering import page
from server.storage.database import Database
from server.storage.houses import Houses
from server.storage.people import SESSION_LASTS, Accounts

COOKIE = "warmside_session"
SIGN_IN = "/sign-in"
WITHOUT_ENCRYPTION = frozenset({"127.0.0.1", "localhost", "::1", "test"})


class NotSignedIn(Exception):
    """The page is for people who have signed in."""


class NotAllowed(Exception):
    """The page is for another role."""


# The database


def database(request: Request) -> Database:
    """The application's database."""
    found: Database = request.app.state.database
    return found


def clock(request: Request) -> Clock:
    """The application's clock."""
    found: Clock = request.app.state.clock
    return found


def writes(request: Request) -> bool:
    """Whether the request may change something."""
    return request.method not in SAFE_METHODS


_turns: WeakKeyDictionary[asyncio.AbstractEventLoop, asyncio.Lock] = WeakKeyDictionary()


async def _turn(request: Request) -> AsyncIterator[None]:
    """Those who write to SQLite queue up here, before a thread is taken.

    If they waited for its lock in threads, they could hold all of them, and the one who has the
    lock would find none to go on in.
    """
    if not writes(request):
        yield
        return
    # what is slow to arrive must not hold the lock; a form read before is not read again
    await request.form()
    try:
        if not database(request).is_sqlite:
            yield
            return
        async with _turns.setdefault(asyncio.get_running_loop(), asyncio.Lock()):
            yield
    finally:
        await request.close()  # files that came with the form


def _session(
    request: Request, _queued: Annotated[None, Depends(_turn, scope="function")]
) -> Iterator[Session]:
    with database(request).session(writing=writes(request)) as session:
        yield session


DatabaseSession = Annotated[Session, Depends(_session, scope="function")]
"""The one session of a request, committed before the answer is sent.

The whole form has arrived before it begins. One with limits of its own is read before, so it stands
before the session among a route's parameters.
"""


def _drawn_once(request: Request) -> DrawnOnce:
    kept: DrawnOnce = request.app.state.drawn_once
    return kept


TheDrawings = Annotated[DrawnOnce, Depends(_drawn_once)]
"""What was drawn before, by a hash of all that went into it."""

TheClock = Annotated[Clock, Depends(clock)]


# The person


def _maybe_signed_in(request: Request, session: DatabaseSession) -> Person | None:
    token = request.cookies.get(COOKIE)
    person = Accounts(session, clock(request)).person_of_session(token) if token else None
    request.state.person = person
    return person


MaybeSignedIn = Annotated[Person | None, Depends(_maybe_signed_in)]
"""Who asks, None where nobody has signed in; `request.state.person` too."""


KnowsWhoAsks = Depends(_maybe_signed_in)
"""For routers whose pages are for everybody, and greet who has signed in."""


def _signed_in(person: MaybeSignedIn) -> Person:
    if person is None:
        raise NotSignedIn
    return person


SignedIn = Annotated[Person, Depends(_signed_in)]
"""Who asks; others are sent to the sign-in page."""


def _lead(person: SignedIn) -> Person:
    if not person.is_lead:
        raise NotAllowed
    return person


Lead = Annotated[Person, Depends(_lead)]
"""A lead who asks; a contractor is refused."""


def _houses(person: SignedIn, session: DatabaseSession, now: TheClock) -> Houses:
    return Houses(session, person.firm_key, now)


TheHouses = Annotated[Houses, Depends(_houses)]
"""The houses of the firm of who asks."""


# Signing in and out


def sign_in(request: Request, accounts: Accounts, person: Person, then: str) -> Response:
    """Go on to a path as this person, with a session of this browser's own."""
    old = request.cookies.get(COOKIE)
    if old:
        accounts.end_session(old)
    response = RedirectResponse(then, status_code=303)
    response.set_cookie(
        COOKIE,
        accounts.start_session(person),
        max_age=int(SESSION_LASTS.total_seconds()),
        path="/",
        secure=_encrypted(request),
        httponly=True,
        samesite="lax",
    )
    return response


def sign_out(request: Request, accounts: Accounts, then: str) -> Response:
    """Go on to a path as nobody."""
    token = request.cookies.get(COOKIE)
    if token:
        accounts.end_session(token)
    response = RedirectResponse(then, status_code=303)
    response.delete_cookie(
        COOKIE, path="/", secure=_encrypted(request), httponly=True, samesite="lax"
    )
    return response


def _encrypted(request: Request) -> bool:
    """Whether the cookie may only travel encrypted: everywhere but on this machine itself."""
    return request.url.hostname not in WITHOUT_ENCRYPTION


# Refusals


def register_access(app: FastAPI) -> None:
    """What pages with people in them need: the throttle, and answers to those kept out."""
    app.state.throttle = Throttle()
    app.state.drawn_once = DrawnOnce()
    app.add_exception_handler(NotSignedIn, _to_the_sign_in_page)
    app.add_exception_handler(NotAllowed, _not_allowed)


def _to_the_sign_in_page(request: Request, _error: Exception) -> Response:
    if "hx-request" in request.headers:
        # htmx would follow a redirect and put the sign-in page into the middle of this one
        return Response(headers={"HX-Redirect": SIGN_IN})
    if request.method not in ("GET", "HEAD"):
        return RedirectResponse(SIGN_IN, status_code=303)
    asked = request.url.path + (f"?{request.url.query}" if request.url.query else "")
    return RedirectResponse(with_next(SIGN_IN, local_path(asked, "/")), status_code=303)


def _not_allowed(request: Request, _error: Exception) -> Response:
    context = {
        "title": _("This page is for the lead of your firm"),
        "words": _("Your account may not do this. Ask whoever leads your firm here."),
    }
    return page(request, "error.html", context, status=403)
