"""Who may sign in for a firm: added, kept out and let in by its lead."""

from __future__ import annotations

from gettext import gettext as _

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from server.accounts.person import Person
from server.pages.access import DatabaseSession, Lead, TheClock
from server.pages.people.context import NewLink, people_context
from server.pages.people.forms import ForgetsPassword, NewPerson, NewPersonForm
from server.rendering import page
from server.storage.people import CannotDisableSelf, EmailTaken, NoSuchPerson, People

router = APIRouter()


@router.get("/people")
def people(request: Request, lead: Lead, session: DatabaseSession, clock: TheClock) -> HTMLResponse:
    """The list, and the form that adds to it."""
    return _page(request, lead, People(session, lead.firm_key, clock))


@router.post("/people")
def add(
    request: Request, form: NewPersonForm, lead: Lead, session: DatabaseSession, clock: TheClock
) -> HTMLResponse:
    """Add a person; the answer shows the link to hand over."""
    people = People(session, lead.firm_key, clock)
    faults = form.faults()
    if faults:
        return _page(request, lead, people, form=form, faults=faults)
    try:
        added = people.add(form.name, form.email, form.role)
    except EmailTaken:
        faults = {"email": _("Someone signs in with this email already.")}
        return _page(request, lead, people, form=form, faults=faults)
    return _page(request, lead, people, link_for=added.key)


@router.post("/people/{key:key}/link")
def make_link(
    request: Request,
    key: str,
    forgets_password: ForgetsPassword,
    lead: Lead,
    session: DatabaseSession,
    clock: TheClock,
) -> HTMLResponse:
    """Make a new sign-in link, shown once; earlier ones stop working."""
    people = People(session, lead.firm_key, clock)
    try:
        if forgets_password:
            people.set_password(key, None)
        return _page(request, lead, people, link_for=key)
    except NoSuchPerson:
        raise HTTPException(404) from None


@router.post("/people/{key:key}/disable")
def disable(
    request: Request, key: str, lead: Lead, session: DatabaseSession, clock: TheClock
) -> Response:
    """Keep a person out at once."""
    return _set_disabled(request, key, True, lead, People(session, lead.firm_key, clock))


@router.post("/people/{key:key}/enable")
def enable(
    request: Request, key: str, lead: Lead, session: DatabaseSession, clock: TheClock
) -> Response:
    """Let a person in again; they need a password or a new link."""
    return _set_disabled(request, key, False, lead, People(session, lead.firm_key, clock))


def _set_disabled(
    request: Request, key: str, disabled: bool, lead: Person, people: People
) -> Response:
    try:
        people.set_disabled(key, disabled, by=lead.key)
    except NoSuchPerson:
        raise HTTPException(404) from None
    except CannotDisableSelf:
        faults = {"page": _("You cannot keep yourself out. Another lead can.")}
        return _page(request, lead, people, faults=faults)
    return RedirectResponse("/people", status_code=303)


def _page(
    request: Request,
    lead: Person,
    people: People,
    *,
    form: NewPerson | None = None,
    faults: dict[str, str] | None = None,
    link_for: str | None = None,
) -> HTMLResponse:
    """The page. link_for: the key of who gets a new link. Raises: NoSuchPerson."""
    token = people.make_link(link_for) if link_for else None
    listed = people.listed()
    new_link = None
    if token:
        name = next(line.name for line in listed if line.key == link_for)
        new_link = NewLink(name, f"{request.base_url}sign-in/{token}")
    context = people_context(lead, listed, form=form, faults=faults, new_link=new_link)
    response = page(request, "people/page.html", context, status=422 if faults else 200)
    # a link shown once must not come back out of the browser's memory
    response.headers["Cache-Control"] = "no-store"
    return response
