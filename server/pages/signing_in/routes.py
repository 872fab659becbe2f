"""Signing in, with a password or a link, and signing out."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from server.accounts.passwords import hash_password
from server.pages import access
from server.pages.access import DatabaseSession, MaybeSignedIn, TheClock
from server.pages.addresses import local_path
from server.pages.signing_in.context import dead_link_context, sign_in_context
from server.pages.signing_in.forms import HOME, PasswordAttempt
from server.rendering import page
from server.storage.people import Accounts, People

router = APIRouter()


@router.get("/sign-in")
def sign_in_page(request: Request, person: MaybeSignedIn) -> Response:
    """The form; who has signed in goes on."""
    then = local_path(request.query_params.get("next"), HOME)
    if person is not None:
        return RedirectResponse(then, status_code=303)
    return page(request, "signing_in/page.html", sign_in_context(then))


@router.post("/sign-in")
def sign_in(
    request: Request, attempt: PasswordAttempt, session: DatabaseSession, clock: TheClock
) -> Response:
    """Sign in with email and password."""
    person = attempt.person
    if person is None:
        context = sign_in_context(attempt.form.then, attempt)
        status = 429 if attempt.throttled else 422
        return page(request, "signing_in/page.html", context, status=status)
    if attempt.old_hash:
        people = People(session, person.firm_key, clock)
        people.set_password(person.key, hash_password(attempt.form.password))
    return access.sign_in(request, Accounts(session, clock), person, attempt.form.then)


@router.get("/sign-in/{token}")
def link_page(request: Request, token: str, session: DatabaseSession, clock: TheClock) -> Response:
    """A button. Opening the link does not use it up: mail programs open links to preview them."""
    if not Accounts(session, clock).link_works(token):
        return _dead_link(request)
    return _unkept(page(request, "signing_in/link.html", {}))


@router.post("/sign-in/{token}")
def use_link(request: Request, token: str, session: DatabaseSession, clock: TheClock) -> Response:
    """Sign in with a link, once."""
    accounts = Accounts(session, clock)
    person = accounts.use_link(token)
    if person is None:
        return _dead_link(request)
    return access.sign_in(request, accounts, person, HOME)


@router.post("/sign-out")
def sign_out(request: Request, session: DatabaseSession, clock: TheClock) -> Response:
    """Sign this browser out."""
    return access.sign_out(request, Accounts(session, clock), access.SIGN_IN)


def _dead_link(request: Request) -> Response:
    return _unkept(page(request, "signing_in/dead_link.html", dead_link_context(), status=410))


def _unkept(response: Response) -> Response:
    response.headers["Cache-Control"] = "no-store"
    return response
