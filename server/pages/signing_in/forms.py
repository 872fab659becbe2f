"""The sign-in form, and what became of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Annotated

from fastapi import Depends, Request

from server.accounts.passwords import needs_rehash, verify_password
from server.accounts.person import Person
from server.accounts.throttle import Throttle
from server.pages.access import clock, database
from server.pages.addresses import local_path
from server.pages.form_texts import secret_of, text_of
from server.storage.people import Accounts, tidy_email

HOME = "/houses"
LONGEST_EMAIL = 254


@dataclass(frozen=True, slots=True)
class SignIn:
    """What was typed. then: the path to go on to."""

    email: str
    password: str = field(repr=False)
    then: str = HOME


@dataclass(frozen=True, slots=True)
class Attempt:
    """Who signs in with this email and password, None where nobody does.

    throttled: too many attempts have failed, so this one was not looked at.
    """

    form: SignIn
    person: Person | None = None
    throttled: bool = False
    old_hash: bool = False


async def _sign_in(request: Request) -> SignIn:
    async with request.form() as form:
        return SignIn(
            text_of(form, "email"), secret_of(form, "password"), local_path(form.get("next"), HOME)
        )


def _attempt(request: Request, form: Annotated[SignIn, Depends(_sign_in)]) -> Attempt:
    throttle: Throttle = request.app.state.throttle
    now = clock(request)
    email = tidy_email(form.email)[:LONGEST_EMAIL]
    address = request.client.host if request.client else ""
    names = (f"email {email}", f"address {address}")
    if not throttle.allows(names, now()):
        return Attempt(form, throttled=True)
    with database(request).session(writing=False) as session:
        person, password_hash = Accounts(session, now).by_email(email) or (None, None)
    # an email nobody has takes as long as a wrong password
    if not verify_password(form.password, password_hash) or password_hash is None:
        return Attempt(form)
    throttle.succeeded(names)
    return Attempt(form, person, old_hash=needs_rehash(password_hash))


PasswordAttempt = Annotated[Attempt, Depends(_attempt)]
"""It stands before the session among a route's parameters: checking a password takes long."""
