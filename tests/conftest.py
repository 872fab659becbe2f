"""What many tests share: the demo house, the small example, a client, and no silent skips."""

from __future__ import annotations

import asyncio
import os
from pathlib import Path
from typing import Any

import httpx
import pytest

from server.files.building import Project, read_project
from server.files.seeds import DEMO_HOUSE

ROOT = Path(__file__).resolve().parent.parent
SMALL_HOUSE = ROOT / "tests" / "data" / "small-house.json"


@pytest.fixture(scope="session")
def demo() -> Project:
    """The demo house of the seed data."""
    return read_project(DEMO_HOUSE.read_bytes())


@pytest.fixture(scope="session")
def small_house() -> Project:
    """The small example house."""
    return read_project(SMALL_HOUSE.read_bytes())


class Client:
    """A browser without JavaScript, talking to the application in this process."""

    def __init__(self, app: Any) -> None:
        self._app = app

    def get(self, path: str, **options: Any) -> httpx.Response:
        """One GET request."""
        return self._send("GET", path, **options)

    def post(self, path: str, **options: Any) -> httpx.Response:
        """One POST request."""
        return self._send("POST", path, **options)

    def _send(self, method: str, path: str, **options: Any) -> httpx.Response:
        async def send() -> httpx.Response:
            transport = httpx.ASGITransport(app=self._app, raise_app_exceptions=False)
            async with httpx.AsyncClient(transport=transport, base_url="http://test") as client:
                return await client.request(method, path, **options)

        return asyncio.run(send())


@pytest.fixture(scope="session")
def client(tmp_path_factory: pytest.TempPathFactory) -> Client:
    """A client of a fresh application in which nobody has signed in."""
    from server.app import create_app
    from tests.databases import sqlite_database

    return Client(create_app(sqlite_database(tmp_path_factory.mktemp("site"))))


def missing(what: str) -> None:
    """Skip for want of a browser or the like; where everything must be there, fail instead."""
    if os.environ.get("WARMSIDE_NO_SKIPS"):
        pytest.fail(f"{what} is missing, and this run must not skip")
    pytest.skip(f"{what} is missing")
