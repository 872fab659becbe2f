"""Stored houses for tests: two invented firms, their people, the whole application."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import event

from server.app import create_app
from server.files.house_file import HouseFile
from server.files.reading import read_house_file
from server.files.seeds import DEMO_HOUSE
from server.storage.database import Database
from server.storage.houses import Houses, Stored
from server.storage.people import add_firm
from tests.accounts.site import MovedClock, Site
from tests.conftest import SMALL_HOUSE

BY = "Cory Invented"


@functools.cache
def small_file() -> HouseFile:
    """The small example house."""
    return read_house_file(SMALL_HOUSE.read_bytes())[0]


@functools.cache
def demo_file() -> HouseFile:
    """The demo house."""
    return read_house_file(DEMO_HOUSE.read_bytes())[0]


def changed_file(house: HouseFile, change: Callable[[dict[str, Any]], Any]) -> HouseFile:
    """The house file after a change of its document, keys and all."""
    document = house.as_stored()
    change(document)
    return HouseFile.from_stored(document)


@functools.cache
def many_parts(count: int) -> HouseFile:
    """The small example house without strategies, grown to a count of components."""

    def change(document: dict[str, Any]) -> None:
        first = document["components"][0]
        document["components"] += [
            first | {"name": f"wall {number}"}
            for number in range(count - len(document["components"]))
        ]
        del document["strategies"]

    return changed_file(small_file(), change)


class Firm:
    """A firm with its houses; each call is a transaction of its own."""

    def __init__(self, database: Database, clock: MovedClock, name: str = "Invented Firm") -> None:
        self.database, self.clock = database, clock
        with database.session(writing=True) as session:
            self.key = add_firm(session, name, clock)

    @contextmanager
    def houses(self, *, writing: bool = True) -> Iterator[Houses]:
        """The firm's houses in a session."""
        with self.database.session(writing=writing) as session:
            yield Houses(session, self.key, self.clock)

    def add(self, house: HouseFile, by: str = BY) -> str:
        """Store a house."""
        with self.houses() as houses:
            return houses.add(house, by)

    def load(self, key: str) -> Stored:
        """A house as stored."""
        with self.houses(writing=False) as houses:
            return houses.load(key)

    def change(self, key: str, change: Callable[[dict[str, Any]], Any], by: str = BY) -> int:
        """Change a house's document and save it."""
        with self.houses() as houses:
            stored = houses.load(key, to_change=True)
            return houses.save_house(key, changed_file(stored.house, change), stored.version, by)


class WholeSite(Site):
    """The whole application with two firms and one house of the first."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.app = create_app(self.database, self.clock)
        with self.database.session(writing=True) as session:
            self.other_firm = add_firm(session, "Another Invented Firm", self.clock)
        self.stranger = self.add("Sam Invented", "sam@example.com", "lead", self.other_firm)

    def store(self, house: HouseFile) -> str:
        """Store a house of the first firm."""
        with self.database.session(writing=True) as session:
            return Houses(session, self.firm, self.clock).add(house, BY)

    def stored(self, key: str) -> Stored:
        """A house of the first firm."""
        with self.database.session(writing=False) as session:
            return Houses(session, self.firm, self.clock).load(key)


@contextmanager
def statements(database: Database) -> Iterator[list[str]]:
    """The statements that a database is sent meanwhile."""
    sent: list[str] = []

    def note(*given: Any) -> None:
        sent.append(given[2])

    event.listen(database.engine, "before_cursor_execute", note)
    try:
        yield sent
    finally:
        event.remove(database.engine, "before_cursor_execute", note)


def queries(sent: list[str]) -> list[str]:
    """The statements that read or write rows."""
    return [s for s in sent if s.split(maxsplit=1)[0] in ("SELECT", "INSERT", "UPDATE", "DELETE")]


def keys_of(part: Any) -> list[str]:
    """Every permanent key within a document, in order."""
    found = []
    if isinstance(part, dict):
        if isinstance(part.get("key"), str):
            found.append(part["key"])
        for each in part.values():
            found += keys_of(each)
    elif isinstance(part, list):
        for each in part:
            found += keys_of(each)
    return found
