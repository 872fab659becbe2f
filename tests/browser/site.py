"""A served application on a database of its own, its people and houses; all are invented."""

from __future__ import annotations

import asyncio
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import uvicorn

from server.accounts.person import Person, Role
from server.app import create_app
from server.clock import utc_now
from server.files.reading import read_house_file
from server.first_start import DEMO_PEOPLE, prepare
from server.storage.database import Database
from server.storage.houses import Houses, Stored
from server.storage.people import Accounts, People
from tests.conftest import SMALL_HOUSE

DEMO_EMAIL = {role: email for role, _name, email in DEMO_PEOPLE}
KEY = "[0-9a-f]{32}"


class Delays:
    """The application; edits can be made to arrive late, or their answers."""

    def __init__(self, app: Any) -> None:
        self._app = app
        self._waits: list[tuple[float, float]] = []
        self._started = self._answered = 0

    def delay(self, *waits: tuple[float, float]) -> None:
        """Seconds that the next edits wait before they are seen, and their answers after it."""
        self._waits, self._started, self._answered = list(waits), 0, 0

    @property
    def started(self) -> int:
        """How many of the delayed edits have been sent."""
        return self._started

    @property
    def answered(self) -> int:
        """How many of the delayed edits have been answered, heard or not."""
        return self._answered

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request."""
        if not self._waits or not scope.get("path", "").endswith("/edit"):
            await self._app(scope, receive, send)
            return
        before, after = self._waits.pop(0)
        self._started += 1
        # the whole request has arrived, so that it counts even when its page hangs up
        sent = [await receive()]
        while sent[-1].get("more_body"):
            sent.append(await receive())
        answer: list[Any] = []

        async def arrives() -> Any:
            return sent.pop(0) if sent else {"type": "http.disconnect"}

        async def keep(message: Any) -> None:
            answer.append(message)

        await asyncio.sleep(before)
        await self._app(scope, arrives, keep)
        await asyncio.sleep(after)
        self._answered += 1
        for message in answer:
            await send(message)


class Site:
    """The demo firm with its demo house and whatever a test adds; address: where it answers."""

    def __init__(self, database: Database) -> None:
        self.database = database
        prepare(database, utc_now)
        self.delays = Delays(create_app(database))
        self.address = ""

    def person(self, role: Role = "contractor") -> Person:
        """Someone of the demo firm."""
        with self.database.session(writing=False) as session:
            found = Accounts(session, utc_now).by_email(DEMO_EMAIL[role])
        assert found is not None
        return found[0]

    def add_person(self, name: str) -> Person:
        """One more contractor, for what is kept of a person."""
        email = f"{name.split(maxsplit=1)[0].lower()}@example.com"
        with self.database.session(writing=True) as session:
            return People(session, self.person().firm_key, utc_now).add(name, email, "contractor")

    def link(self, person: Person) -> str:
        """The address of a new sign-in link; earlier ones of the person stop working."""
        with self.database.session(writing=True) as session:
            token = People(session, person.firm_key, utc_now).make_link(person.key)
        return f"{self.address}/sign-in/{token}"

    def cookie(self, person: Person) -> Any:
        """A cookie that signs a browser in."""
        with self.database.session(writing=True) as session:
            token = Accounts(session, utc_now).start_session(person)
        return {"name": "warmside_session", "value": token, "url": self.address}

    def add_house(self) -> str:
        """The small example house, once more; the result is its key."""
        house, _document = read_house_file(SMALL_HOUSE.read_bytes())
        with self.database.session(writing=True) as session:
            return Houses(session, self.person().firm_key, utc_now).add(house, "Cory Example")

    def stored(self, key: str) -> Stored:
        """A house as the database holds it."""
        with self.database.session(writing=False) as session:
            return Houses(session, self.person().firm_key, utc_now).load(key)

    def part(self, key: str, name: str) -> Any:
        """A component of a house as the database holds it."""
        return next(each for each in self.stored(key).house.components if each.name == name)

    def part_path(self, key: str, name: str) -> str:
        """The address of a component's page."""
        return f"{self.address}/houses/{key}/parts/{self.part(key, name).key}"


@contextmanager
def served(folder: Path) -> Iterator[Site]:
    """A site on a free port."""
    from tests.databases import sqlite_database

    site = Site(sqlite_database(folder))
    config = uvicorn.Config(site.delays, port=0, log_level="error", lifespan="off")
    running = uvicorn.Server(config)
    thread = threading.Thread(target=running.run, daemon=True)
    thread.start()
    while not running.started:
        time.sleep(0.02)
    site.address = f"http://127.0.0.1:{running.servers[0].sockets[0].getsockname()[1]}"
    yield site
    running.should_exit = True
    thread.join()
    site.database.close()
