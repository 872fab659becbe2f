"""A small application of the account pages, its people, and a visitor who keeps cookies."""

from __future__ import annotations

import asyncio
import re
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

import httpx
from fastapi import FastAPI

from server import error_pages
from server.accounts.passwords import hash_password
from server.accounts.person import Person, Role
from server.pages.access import SignedIn, register_access
from server.pages.account import routes as account
from server.pages.cross_site import CrossSiteDefence
from server.pages.people import routes as people
from server.pages.signing_in import routes as signing_in
from server.storage.database import Database
from server.storage.people import Accounts, People, add_firm

PASSWORD = "three dry basements"  # noqa: S105 - an invented one


@dataclass
class MovedClock:
    """A clock that stands still until it is moved."""

    now: datetime = datetime(2031, 3, 1, 12, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        """The time it shows."""
        return self.now

    def move(self, **by: float) -> None:
        """Let time pass."""
        self.now += timedelta(**by)


def make_app(database: Database, clock: MovedClock) -> FastAPI:
    """The account pages, and one page of a house's that needs someone signed in."""
    app = FastAPI()
    app.state.database, app.state.clock = database, clock
    app.add_middleware(CrossSiteDefence)
    for routes in (signing_in, account, people):
        app.include_router(routes.router)
    register_access(app)
    error_pages.register(app)

    @app.get("/houses")
    def houses(person: SignedIn) -> str:
        return person.name

    return app


@dataclass
class Site:
    """The application with a firm, its lead and its contractor. All are invented."""

    database: Database
    clock: MovedClock = field(default_factory=MovedClock)

    def __post_init__(self) -> None:
        self.app = make_app(self.database, self.clock)
        with self.database.session(writing=True) as session:
            self.firm = add_firm(session, "Invented Remodelling", self.clock)
        self.lead = self.add("Lee Invented", "lead@example.com", "lead")
        self.contractor = self.add("Cory Invented", "cory@example.com", "contractor")

    def add(self, name: str, email: str, role: Role, firm: str | None = None) -> Person:
        """One more person."""
        with self.database.session(writing=True) as session:
            return People(session, firm or self.firm, self.clock).add(name, email, role)

    def link(self, person: Person) -> str:
        """The token of a new sign-in link."""
        with self.database.session(writing=True) as session:
            return People(session, person.firm_key, self.clock).make_link(person.key)

    def set_password(self, person: Person) -> None:
        """Give someone the password of these tests."""
        with self.database.session(writing=True) as session:
            people = People(session, person.firm_key, self.clock)
            people.set_password(person.key, hash_password(PASSWORD))

    def visitor(self, person: Person | None = None) -> Visitor:
        """A browser, signed in where a person is given."""
        visitor = Visitor(self.app)
        if person is not None:
            with self.database.session(writing=True) as session:
                token = Accounts(session, self.clock).start_session(person)
            visitor.cookies.set("warmside_session", token, domain="test.local")
        return visitor


class Visitor:
    """A browser without JavaScript that keeps its cookies."""

    def __init__(self, app: FastAPI) -> None:
        self._app = app
        self.cookies = httpx.Cookies()

    def get(self, path: str, **options: Any) -> httpx.Response:
        """One GET request."""
        return self.send("GET", path, **options)

    def post(self, path: str, data: Any = None, **options: Any) -> httpx.Response:
        """One POST request."""
        return self.send("POST", path, data=data, **options)

    def send(self, method: str, path: str, base: str = "http://test", **options: Any) -> Any:
        """One request; redirects are not followed."""

        async def send() -> httpx.Response:
            transport = httpx.ASGITransport(app=self._app, raise_app_exceptions=False)
            async with httpx.AsyncClient(
                transport=transport, base_url=base, cookies=self.cookies
            ) as client:
                response = await client.request(method, path, **options)
                self.cookies = client.cookies
                return response

        return asyncio.run(send())


def link_in(page: str) -> str:
    """The path of the sign-in link that a page shows."""
    found = re.search(r">http://test(/sign-in/[\w-]+)<", page)
    assert found is not None
    return found[1]
