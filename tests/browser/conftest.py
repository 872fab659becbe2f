"""What the tests in a real Chromium share: the browser, a served site, pages that are watched."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from server.accounts.person import Person
from tests.browser.site import Site, served
from tests.conftest import missing

CHROMIUM = Path("/usr/bin/chromium")
PATIENCE = 240_000  # ms; a slow machine is no failure
REFUSALS = ("422", "413")  # what Chromium says of every page that comes back with faults


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The demo firm on a migrated SQLite database, answering on a free port."""
    with served(tmp_path_factory.mktemp("site")) as site:
        yield site


@pytest.fixture(scope="module")
def address(site: Site) -> str:
    """Where the site answers."""
    return site.address


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """One Chromium for all tests of a file."""
    if not CHROMIUM.exists():
        missing("Chromium")
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(
            executable_path=str(CHROMIUM),
            args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
            timeout=PATIENCE,
        )
        yield launched
        launched.close()


@pytest.fixture
def open_page(browser: Any, site: Site) -> Iterator[Callable[..., Any]]:
    """Open pages that are closed again, and fail on anything the console says.

    as_: who has signed in. expected: what the console may say beside refused forms. Further pages
    of a page's context are watched too.
    """
    contexts = []
    unwanted: list[str] = []

    def opened(
        width: int = 1280,
        *,
        javascript: bool = True,
        as_: Person | None = None,
        expected: tuple[str, ...] = (),
    ) -> Any:
        context = browser.new_context(
            viewport={"width": width, "height": 900}, java_script_enabled=javascript
        )
        context.set_default_timeout(PATIENCE)
        if as_ is not None:
            context.add_cookies([site.cookie(as_)])

        def said(text: str) -> None:
            if not any(words in text for words in (*REFUSALS, *expected)):
                unwanted.append(text)

        context.on("console", lambda message: said(message.text))
        context.on("weberror", lambda error: said(str(error.error)))
        contexts.append(context)
        return context.new_page()

    yield opened
    for context in contexts:
        context.close()
    assert unwanted == []


@pytest.fixture
def link(site: Site) -> str:
    """A sign-in link of the demo firm's contractor; it works once."""
    return site.link(site.person())


@pytest.fixture
def house(site: Site) -> str:
    """The key of a small house that only this test knows."""
    return site.add_house()
