"""The comparison in a real Chromium, at phone and desktop width, with and without JavaScript."""

from __future__ import annotations

import pytest

from tests.conftest import SMALL_HOUSE

WIDTHS = (390, 1280)

pytestmark = pytest.mark.browser


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
    page.locator(':text("m²·K/W"):visible').first.wait_for()
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


def test_print_names_every_part_of_a_finding(address, open_page):
    page = open_page(1280)
    page.goto(f"{address}/demo")
    page.emulate_media(media="print")
    closed = page.locator("#found-old-wiring .parts")
    assert closed.count() > 0
    for each in closed.all():
        assert not each.locator("summary").is_visible()
        assert each.bounding_box()["height"] > 0
