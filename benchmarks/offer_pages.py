"""Speed of the two pages that are read most: the comparison, and an owner's offer.

    .venv/bin/python -m benchmarks.offer_pages [requests]

Real server processes on one SQLite file, asked over HTTP. Every time is told beside a constant page
of the same length behind the same middleware and the same look-up in the database, in the same run.
The comparison is asked in turn: cold is the first time for its inputs, kept is any later one. The
offer is asked by 50 readers at once.
"""

from __future__ import annotations

import asyncio
import os
import socket
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import httpx
from fastapi import FastAPI
from fastapi.responses import HTMLResponse
from sqlalchemy import select

from benchmarks.house_pages import COMPONENTS, add_house
from server.accounts.person import Person
from server.accounts.tokens import token_hash
from server.actions.send_offer import Wish, send_offer
from server.app import create_app
from server.clock import utc_now
from server.first_start import DEMO_PEOPLE, prepare
from server.pages.access import COOKIE, DatabaseSession, MaybeSignedIn, SignedIn
from server.storage.database import Database
from server.storage.houses import Houses
from server.storage.models import OfferRow
from server.storage.offers import Offers
from server.storage.people import Accounts
from server.storage.price_books import PriceBooks

READERS = 50
FOLDER = "WARMSIDE_BENCHMARK_FOLDER"
CONSTANTS = ("comparison.html", "offer.html")


def app() -> FastAPI:
    """The application with two pages more, each as long as the page it is held against."""
    folder = Path(os.environ[FOLDER])
    made = create_app(Database(f"sqlite:///{folder / 'warmside.db'}"))
    comparison, offer = ((folder / name).read_text() for name in CONSTANTS)

    @made.get("/constant")
    def constant(_person: SignedIn) -> HTMLResponse:
        return HTMLResponse(comparison)

    @made.get("/constant-offer/{token}")
    def constant_offer(
        token: str, session: DatabaseSession, _person: MaybeSignedIn
    ) -> HTMLResponse:
        session.scalar(select(OfferRow.key).where(OfferRow.token_hash == token_hash(token)))
        return HTMLResponse(offer)

    return made


@contextmanager
def served(folder: Path, workers: int) -> Iterator[str]:
    """Server processes on a free port."""
    with closing(socket.socket()) as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "uvicorn", "--factory", "benchmarks.offer_pages:app"]
    command += ["--port", str(port), "--workers", str(workers), "--log-level", "error"]
    process = subprocess.Popen(command, env=os.environ | {FOLDER: str(folder)})
    address = f"http://127.0.0.1:{port}"
    try:
        for _attempt in range(600):
            try:
                httpx.get(f"{address}/sign-in")
                break
            except httpx.TransportError:
                time.sleep(0.1)
        yield address
    finally:
        process.terminate()
        process.wait()


def prepare_folder(folder: Path) -> tuple[str, str, str]:
    """A database with a house and an offer; cookie, house and token of the link."""
    with closing(Database(f"sqlite:///{folder / 'warmside.db'}")) as database:
        prepare(database, utc_now)
        with database.session(writing=False) as session:
            found = Accounts(session, utc_now).by_email(DEMO_PEOPLE[0][2])
        assert found is not None
        person: Person = found[0]
        key = add_house(database, person)
        with database.session(writing=True) as session:
            cookie = Accounts(session, utc_now).start_session(person)
            _line, token = send_offer(
                key,
                person,
                Wish(note="", days=None, seen=0),
                PriceBooks(session, person.firm_key, utc_now).current(),
                Houses(session, person.firm_key, utc_now),
                Offers(session, person.firm_key, utc_now),
            )
    return cookie, key, token


async def ask(client: httpx.AsyncClient, path: str, times: list[float], faults: list[str]) -> str:
    """One request, its seconds and what was wrong with it."""
    start = time.perf_counter()
    response = await client.get(path)
    times.append(time.perf_counter() - start)
    if response.status_code != 200:
        faults.append(f"{path}: {response.status_code}")
    return response.text


async def in_turn(address: str, cookie: str, key: str, rounds: int) -> dict[str, list[float]]:
    """Seconds of the constant page and of the comparison, cold and kept."""
    times: dict[str, list[float]] = {"constant": [], "comparison, cold": [], "comparison, kept": []}
    faults: list[str] = []
    async with httpx.AsyncClient(base_url=address, cookies={COOKIE: cookie}, timeout=60) as client:
        for base in range(4):  # each base of the differences is a page of its own
            cold = times["comparison, cold"]
            await ask(client, f"/houses/{key}/comparison?base={base}", cold, faults)
        for _round in range(rounds):
            await ask(client, "/constant", times["constant"], faults)
            await ask(client, f"/houses/{key}/comparison", times["comparison, kept"], faults)
    if faults:
        raise RuntimeError(faults[0])
    return times


async def at_once(address: str, path: str, requests: int) -> tuple[float, list[float], list[str]]:
    """Requests a second of many readers, the seconds of each, and what went wrong."""
    times: list[float] = []
    faults: list[str] = []
    left = iter(range(requests))

    async def reader(client: httpx.AsyncClient) -> None:
        for _each in left:
            try:
                await ask(client, path, times, faults)
            except httpx.TransportError as error:
                faults.append(repr(error))

    limits = httpx.Limits(max_connections=READERS)
    async with httpx.AsyncClient(base_url=address, timeout=60, limits=limits) as client:
        await client.get(path)
        start = time.perf_counter()
        await asyncio.gather(*(reader(client) for _reader in range(READERS)))
        seconds = time.perf_counter() - start
    return requests / seconds, times, faults


def measure(folder: Path, house: tuple[str, str, str], workers: int, requests: int) -> None:
    """Print both tables for a number of processes."""
    cookie, key, token = house
    with served(folder, workers) as address:
        times = asyncio.run(in_turn(address, cookie, key, max(requests // 20, 10)))
        offers = {
            name: asyncio.run(at_once(address, f"/{path}/{token}", requests))
            for name, path in (("constant", "constant-offer"), ("offer", "offer"))
        }
    print(f"\n{workers} worker(s)")
    yardstick = statistics.median(times["constant"])
    print(f"{'asked in turn':24}{'median ms':>10}{'of constant':>12}")
    for name, seconds in times.items():
        median = statistics.median(seconds)
        print(f"{name:24}{median * 1e3:10.1f}{median / yardstick:12.2f}")
    heading = f"{READERS} readers at once"
    print(f"{heading:24}{'a second':>10}{'of constant':>12}{'95 % ms':>10}{'wrong':>7}")
    for name, (rate, seconds, faults) in offers.items():
        share = rate / offers["constant"][0]
        late = sorted(seconds)[int(0.95 * len(seconds))] * 1e3
        print(f"{name:24}{rate:10.0f}{share:12.2f}{late:10.0f}{len(faults):7}")


def write_constants(folder: Path, house: tuple[str, str, str]) -> None:
    """Keep both pages as they are, to be sent as constant ones."""
    cookie, key, token = house
    for name in CONSTANTS:
        (folder / name).touch()
    with served(folder, 1) as address:
        cookies = {COOKIE: cookie}
        paths = (f"/houses/{key}/comparison", f"/offer/{token}")
        for name, path in zip(CONSTANTS, paths, strict=True):
            answer = httpx.get(address + path, cookies=cookies, timeout=60)
            (folder / name).write_text(answer.text)


def main() -> None:
    """Measure with one process and with two."""
    requests = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    print(f"{COMPONENTS} components, three strategies, {requests} requests")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        house = prepare_folder(folder)
        write_constants(folder, house)
        for workers in (1, 2):
            measure(folder, house, workers, requests)


if __name__ == "__main__":
    main()
