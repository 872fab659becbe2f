"""How long the pages of a stored house take beside a constant page, and where an edit's time goes.

Run by hand: python -m benchmarks.house_pages [rounds]. Pages are asked for in turn within one
process, through every middleware, the session and the look-up of the person, without a network;
the constant page passes the same and is as long as the overview. The invented house lies in a
temporary SQLite database.
"""

from __future__ import annotations

import asyncio
import itertools
import statistics
import sys
import tempfile
import time
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import httpx
from fastapi import FastAPI
from fastapi.responses import HTMLResponse
from sqlalchemy.orm import Session

from server.accounts.person import Person
from server.actions.change_house import change_house, checked
from server.actions.make_strategies import make_strategies
from server.actions.structure import copy_component
from server.app import create_app
from server.clock import utc_now
from server.core.evaluate import evaluate
from server.files.building import build_survey
from server.files.house_file import HouseFile
from server.files.keyed import Document, place_of, set_value
from server.first_start import DEMO_PEOPLE, prepare
from server.pages.access import COOKIE, SignedIn
from server.pages.house.fields import Fields
from server.recipes.making import RECIPES
from server.storage.database import Database
from server.storage.houses import Houses
from server.storage.people import Accounts
from server.survey.outline import default_outline, house_from_outline

COMPONENTS = 30
AREAS = ("300 ft^2", "310 ft^2")  # that edits put there in turn
CONSTANT = "a constant page"
SITE = "http://localhost"

Times = dict[str, list[float]]


def add_house(database: Database, person: Person) -> str:
    """An invented house of thirty components and three strategies; the result is its key."""
    house = house_from_outline(default_outline("8 Quarry Lane", "northern-illinois", 1952))
    with database.session(writing=True) as session:
        houses = Houses(session, person.firm_key, utc_now)
        key = houses.add(house, person.name)

        def grow(document: Document) -> None:
            found = [each["key"] for each in document["components"]]
            for each in itertools.islice(itertools.cycle(found), COMPONENTS - len(found)):
                copy_component(document, each)

        change_house(houses, key, person.name, grow)
        make_strategies(houses, key, list(RECIPES), person.name)
    return key


def app_with_constant_page(database: Database) -> tuple[FastAPI, list[str]]:
    """The application with one page more; the list holds what that page answers."""
    app, content = create_app(database), [""]

    @app.get("/constant")
    def constant(_person: SignedIn) -> HTMLResponse:
        return HTMLResponse(content[0])

    return app, content


async def ask_in_turn(database: Database, person: Person, key: str, rounds: int) -> Times:
    """Seconds of each page in each round."""
    app, content = app_with_constant_page(database)
    with database.session(writing=True) as session:
        cookies = {COOKIE: Accounts(session, utc_now).start_session(person)}
        wall = Houses(session, person.firm_key, utc_now).load(key).house.components[0].key or ""
    place = place_of("components", wall, "area")
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
    areas = itertools.cycle(AREAS)
    first = stored_text(database, person, key, place)
    times: Times = defaultdict(list)
    transport = httpx.ASGITransport(app=app)
    async with httpx.AsyncClient(transport=transport, base_url=SITE, cookies=cookies) as client:

        async def get(path: str) -> httpx.Response:
            return await client.get(path)

        async def edit() -> httpx.Response:
            form = {
                "place": place,
                "page": f"parts/{wall}",
                "value": next(areas),
                "seen": first,
                "sent": [f"|{area}" for area in AREAS],
            }
            return await client.post(f"/houses/{key}/edit", data=form, headers=headers)

        content[0] = (await get(f"/houses/{key}")).text
        asked = {
            CONSTANT: lambda: get("/constant"),
            "the overview": lambda: get(f"/houses/{key}"),
            "a component": lambda: get(f"/houses/{key}/parts/{wall}"),
            "an edit, in place": edit,
        }
        for round_ in range(rounds + 3):
            for name, ask in asked.items():
                start = time.perf_counter()
                response = await ask()
                seconds = time.perf_counter() - start
                if response.status_code != 200:
                    raise RuntimeError(f"{name} answers {response.status_code}: {response.text}")
                if round_ >= 3:  # the first ones load templates and seed data
                    times[name].append(seconds)
    return times


def stored_text(database: Database, person: Person, key: str, place: str) -> str:
    """A value of a house as a form carries it along."""
    with database.session(writing=False) as session:
        document = Houses(session, person.firm_key, utc_now).load(key).house.as_stored()
    return Fields(document, "ip").one(*place.split("/")).seen[0]


def take_apart(database: Database, person: Person, key: str, rounds: int) -> Times:
    """Seconds of each step of an edit, the functions called by themselves."""
    times: Times = defaultdict(list)
    areas = itertools.cycle(AREAS)

    def timed(name: str, work: Callable[[], Any]) -> Any:
        start = time.perf_counter()
        result = work()
        times[name].append(time.perf_counter() - start)
        return result

    def edit(session: Session) -> None:
        houses = Houses(session, person.firm_key, utc_now)
        stored = timed("load", lambda: houses.load(key, to_change=True))
        place = place_of("components", stored.house.components[0].key, "area")

        def change() -> HouseFile:
            document = stored.house.as_stored()
            set_value(document, place, next(areas))
            return checked(document)

        house = timed("change and validate", change)
        survey = timed("build", lambda: build_survey(house))
        timed("evaluate", lambda: evaluate(survey.house))

        def save() -> None:
            houses.save_house(key, house, stored.version, person.name)
            session.commit()

        timed("save and commit", save)

    for _round in range(rounds):
        with database.session(writing=True) as session:
            edit(session)
    return times


def rows(times: Times, yardstick: float) -> Iterator[str]:
    """Lines of a table."""
    for name, seconds in times.items():
        median = statistics.median(seconds)
        ratio = f"{median / yardstick:9.1f}"
        yield f"{name:24}{median * 1e3:9.1f}{min(seconds) * 1e3:9.1f}{ratio}"


def main() -> None:
    """Print both tables."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    with (
        tempfile.TemporaryDirectory() as folder,
        closing(Database(f"sqlite:///{Path(folder) / 'warmside.db'}")) as database,
    ):
        prepare(database, utc_now)
        with database.session(writing=False) as session:
            found = Accounts(session, utc_now).by_email(DEMO_PEOPLE[0][2])
        assert found is not None
        person = found[0]
        key = add_house(database, person)
        pages = asyncio.run(ask_in_turn(database, person, key, rounds))
        steps = take_apart(database, person, key, rounds)
    constant = statistics.median(pages[CONSTANT])
    print(f"{COMPONENTS} components, {len(RECIPES)} strategies, {rounds} rounds")
    print(f"{'':24}{'median ms':>9}{'least ms':>9}{'of constant':>12}")
    print(*rows(pages, constant), sep="\n")
    print()
    print(f"{'of one edit':24}{'median ms':>9}{'least ms':>9}{'of constant':>12}")
    print(*rows(steps, constant), sep="\n")


if __name__ == "__main__":
    main()
