"""One's own account: who one is here, the password, the units."""

from __future__ import annotations

from gettext import gettext as _

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from server.accounts.passwords import (
    LONGEST,
    SHORTEST,
    hash_password,
    verify_password,
)
from server.accounts.throttle import Throttle
from server.pages import access
from server.pages.access import DatabaseSession, MaybeSignedIn, SignedIn, TheClock
from server.pages.account.context import account_context
from server.pages.account.forms import NewPassword, NewPasswordForm, UnitsForm
from server.rendering import page
from server.storage.people import Accounts, People

router = APIRouter()


@router.get("/account")
def account(
    request: Request, person: SignedIn, session: DatabaseSession, clock: TheClock
) -> HTMLResponse:
    """Who one is here, and the forms."""
    password_hash = People(session, person.firm_key, clock).password_hash(person.key)
    context = account_context(
        person,
        has_password=password_hash is not None,
        saved=request.query_params.get("saved") == "password",
    )
    return page(request, "account/page.html", context)


@router.post("/account/password")
def set_password(
    request: Request,
    form: NewPasswordForm,
    person: SignedIn,
    session: DatabaseSession,
    clock: TheClock,
) -> Response:
    """Keep a new password and end every session but this browser's."""
    people = People(session, person.firm_key, clock)
    current_hash = people.password_hash(person.key)
    throttle: Throttle = request.app.state.throttle
    names = (f"email {person.email}",)
    if not throttle.allows(names, clock()):
        status, faults = 429, {"current": _("Too many attempts. Wait a quarter of an hour.")}
    else:
        status, faults = 422, _faults(form, current_hash)
        if "current" not in faults:
            throttle.succeeded(names)
    if faults:
        context = account_context(person, has_password=current_hash is not None, faults=faults)
        return page(request, "account/page.html", context, status=status)
    people.set_password(person.key, hash_password(form.new))
    people.sign_out_everywhere(person.key)
    accounts = Accounts(session, clock)
    return access.sign_in(request, accounts, person, "/account?saved=password")


@router.post("/units")
def set_units(
    form: UnitsForm, person: MaybeSignedIn, session: DatabaseSession, clock: TheClock
) -> RedirectResponse:
    """Show figures in other units from now on."""
    if person is not None:
        People(session, person.firm_key, clock).set_units(person.key, form.units)
    return RedirectResponse(form.then, status_code=303)


def _faults(form: NewPassword, current_hash: str | None) -> dict[str, str]:
    """What is wrong, by field."""
    faults = {}
    if current_hash is not None and not verify_password(form.current, current_hash):
        faults["current"] = _("This is not your password so far.")
    if not SHORTEST <= len(form.new) <= LONGEST:
        words = _("A password has {shortest} to {longest} characters; this one has {length}.")
        faults["new"] = words.format(shortest=SHORTEST, longest=LONGEST, length=len(form.new))
    elif form.new != form.again:
        faults["again"] = _("The two are not the same.")
    return faults
