"""The comparison in a real Chromium, at phone and desktop width, with and without JavaScript."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn

from tests.conftest import SMALL_HOUSE, missing

CHROMIUM = Path("/usr/bin/chromium")
WIDTHS = (390, 1280)

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    """A server of its own on a free port."""
    from server.app import create_app

    config = uvicorn.Config(create_app(), port=0, log_level="error", lifespan="off")
    running = uvicorn.Server(config)
    thread = threading.Thread(target=running.run, daemon=True)
    thread.start()
    while not running.started:
        time.sleep(0.02)
    port = running.servers[0].sockets[0].getsockname()[1]
    yield f"http://127.0.0.1:{port}"
    running.should_exit = True
    thread.join()


@pytest.fixture(scope="module")
def browser():
    """One Chromium for all tests of this file."""
    if not CHROMIUM.exists():
        missing("Chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(
            executable_path=str(CHROMIUM),
            args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
            timeout=240_000,
        )
        yield launched
        launched.close()


@pytest.fixture
def open_page(browser):
    """Open pages that are closed again, and fail on anything the console says."""
    pages = []
    said: list[str] = []

    def opened(width=1280, *, javascript=True):
        page = browser.new_page(
            viewport={"width": width, "height": 900}, java_script_enabled=javascript
        )
        page.set_default_timeout(240_000)
        page.on("console", lambda message: said.append(message.text))
        page.on("pageerror", lambda error: said.append(str(error)))
        pages.append(page)
        return page

    yield opened
    for page in pages:
        page.close()
    unwanted = [text for text in said if "422" not in text and "413" not in text]
    assert unwanted == []


@pytest.mark.parametrize("width", WIDTHS)
def test_demo_fits_the_width_and_passes_axe(address, open_page, width):
    from axe_playwright_python.sync_playwright import Axe

    page = open_page(width)
    page.goto(f"{address}/")
    page.get_by_role("link", name="Compare the demo house").click()
    page.get_by_role("heading", name="At a glance").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    assert Axe().run(page).response["violations"] == []


def test_start_and_materials_pass_axe_in_the_dark(address, open_page):
    from axe_playwright_python.sync_playwright import Axe

    page = open_page(390)
    page.emulate_media(color_scheme="dark")
    for path in ("/", "/materials"):
        page.goto(address + path)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        assert Axe().run(page).response["violations"] == []


def test_without_javascript_a_bad_file_is_mended_and_compared(address, open_page):
    page = open_page(390, javascript=False)
    page.goto(f"{address}/")
    good = SMALL_HOUSE.read_text()
    page.get_by_label("or its text").fill(good.replace('"454 ft^2"', '"-454 ft^2"'))
    page.get_by_role("button", name="Compare").click()
    assert "components[0].area" in page.get_by_role("alert").inner_text()
    field = page.get_by_label("or its text")
    assert "-454 ft^2" in field.input_value()
    field.fill(good)
    page.get_by_role("button", name="Compare").click()
    page.get_by_role("heading", name="Small example house").wait_for()


def test_a_file_of_twenty_megabytes_is_refused_in_words(address, open_page, tmp_path):
    page = open_page(390, javascript=False)
    large = tmp_path / "large.json"
    large.write_bytes(b" " * 20_000_000)
    page.goto(f"{address}/")
    page.get_by_label("A file").set_input_files(large)
    page.get_by_role("button", name="Compare").click()
    page.get_by_role("heading", name="The file is too large").wait_for()


def test_units_switch_swaps_the_comparison_in_place(address, open_page):
    page = open_page()
    page.goto(f"{address}/demo")
    page.get_by_role("button", name="SI", exact=True).click()
    page.get_by_text("m²·K/W").first.wait_for()
    assert page.url == f"{address}/demo"
    assert page.get_by_role("button", name="SI", exact=True).get_attribute("aria-pressed") == "true"


def test_keyboard_reaches_the_demo(address, open_page):
    page = open_page()
    page.goto(f"{address}/")
    names = []
    for _ in range(6):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.textContent.trim()"))
    assert names[0] == "Skip to content"
    assert "Compare the demo house" in names
    page.get_by_role("link", name="Compare the demo house").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="At a glance").wait_for()
