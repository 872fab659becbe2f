"""A house surveyed in a real Chromium: by mouse, by keyboard, without JavaScript, in two units."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.browser.house_page import AREA, commit, fits, heat_loss, real_r, version
from tests.browser.site import KEY

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("width", [390, 1280])
def test_a_house_is_begun_surveyed_and_given_strategies(link, open_page, width):
    page = open_page(width)
    page.goto(link)
    fits(page)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="Houses").wait_for()
    fits(page)
    begin_house(page)
    fits(page)

    page.get_by_role("link", name="front wall").click()
    page.get_by_role("heading", name="front wall").wait_for()
    fits(page)
    page.evaluate("window.stays = true")
    heat_a_year = page.locator("#figures dd").nth(3)
    before = heat_loss(page), version(page), heat_a_year.inner_text()
    commit(page, page.get_by_role("textbox", name=AREA), "300 ft^2")
    assert heat_loss(page) > before[0] + 1
    assert version(page) == before[1] + 1
    assert heat_a_year.inner_text() != before[2]
    assert page.locator(".saved").inner_text().startswith("saved; heat loss of the house +")
    assert page.evaluate("window.stays")
    fits(page)

    page.get_by_role("link", name="Layers of").click()
    page.get_by_role("heading", name="Layers, from inside to outside").wait_for()
    fits(page)
    page.evaluate("window.stays = true")
    empty = real_r(page)
    commit(page, page.get_by_label("Between the framing").first, "dense-pack cellulose")
    assert real_r(page) > 2 * empty
    assert page.evaluate("window.stays")

    make_strategies_and_edit_one(page)
    page.get_by_role("link", name="History").click()
    page.get_by_role("button", name="Bring version 1 back").wait_for()
    fits(page)


def make_strategies_and_edit_one(page: Any) -> None:
    """Make the three strategies, edit a part of one, and undo that."""
    page.get_by_role("link", name="Strategies", exact=True).click()
    page.get_by_role("button", name="Make the three strategies").click()
    for name in ("Cavity only", "Exterior continuous", "Hybrid"):
        page.get_by_role("link", name=name).wait_for()
    fits(page)
    page.get_by_role("link", name="Exterior continuous").click()
    page.get_by_role("heading", name="Part by part").wait_for()
    fits(page)
    page.get_by_role("link", name="front wall").click()
    page.get_by_role("heading", name="Added outside").wait_for()
    fits(page)
    thickness = page.get_by_role("textbox", name="Thickness", exact=True).first
    found, made = thickness.input_value(), real_r(page)
    commit(page, thickness, "7 in")
    assert real_r(page) > made + 3
    page.get_by_role("button", name="Undo the last change").click()
    page.wait_for_load_state()
    assert thickness.input_value() == found
    assert real_r(page) == made
    fits(page)


def begin_house(page: Any) -> None:
    """Begin a house from its outline."""
    page.get_by_role("link", name="New house").click()
    page.get_by_label("Name").fill("8 Quarry Lane")
    page.get_by_label("Region").select_option("northern-illinois")
    page.get_by_label("Year built").fill("1952")
    page.get_by_label("Length outside").fill("32'")
    page.get_by_label("Width outside").fill("24 ft")
    fits(page)
    page.get_by_role("button", name="Begin this house").click()
    page.wait_for_url(re.compile(f"/houses/{KEY}$"))


FOCUSED = """() => {
  const focused = document.activeElement;
  const box = focused.getBoundingClientRect();
  const style = getComputedStyle(focused);
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
  const there = document.elementFromPoint(x, y);
  return {
    name: (focused.labels?.[0] ?? focused).textContent.trim().replace(/\\s+/g, " "),
    tag: focused.tagName,
    outlined: focused.matches(":focus-visible") && style.outlineStyle !== "none",
    seen: box.width > 1 && there !== null && (focused.contains(there) || there.contains(focused)),
  };
}"""


def reach(page: Any, name: str, key: str = "Tab") -> None:
    """Press a key until the focus is where it is wanted; it is visible all the way."""
    passed = []
    for _press in range(150):
        page.keyboard.press(key)
        focused = page.evaluate(FOCUSED)
        passed.append(focused["name"])
        assert focused["outlined"] or focused["tag"] in ("BODY", "SUMMARY"), focused
        assert focused["seen"] or focused["tag"] == "BODY", focused
        if focused["name"] == name:
            return
    pytest.fail(f"{name} is not reached: {passed}")


def test_a_house_is_edited_by_keyboard_alone(site, house, link, open_page):
    page = open_page()
    page.goto(link)
    reach(page, "Sign in")
    reach(page, "Sign in")  # the first is in the site's own links
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Houses").wait_for()
    reach(page, "Small example house (invented)")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Add a part").wait_for()
    reach(page, "south wall")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="south wall").wait_for()
    reach(page, AREA)
    page.keyboard.type("401 ft^2")
    page.keyboard.press("Enter")
    expect(page.locator(".saved")).to_contain_text("heat loss of the house \N{MINUS SIGN}")
    assert page.evaluate("document.activeElement.labels[0].textContent") == AREA
    assert page.evaluate("document.activeElement.value") == "401 ft^2"
    assert site.part(house, "south wall").area.typed == "401 ft^2"
    reach(page, "Strategies", "Shift+Tab")
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Strategies").wait_for()
    reach(page, "Make the three strategies")
    page.keyboard.press("Space")
    expect(page.locator("h3 a")).to_have_count(6)


def test_a_house_is_edited_without_javascript(site, house, open_page):
    page = open_page(390, javascript=False, as_=site.person())
    page.goto(site.part_path(house, "south wall"))
    area = page.get_by_role("textbox", name=AREA)
    save = page.get_by_role("button", name=f"Save {AREA}")
    area.fill("402 ft^2")
    save.click()
    assert area.input_value() == "402 ft^2"
    assert version(page) == 2

    area.fill("-3 ft^2")
    save.click()
    assert area.input_value() == "-3 ft^2"
    assert area.get_attribute("aria-invalid") == "true"
    assert page.get_by_role("alert").first.inner_text().startswith("This was not saved")
    page.get_by_role("alert").get_by_role("link", name=AREA).click()
    assert page.url.endswith("#" + area.get_attribute("id"))
    area.fill("403 ft^2")
    save.click()
    assert version(page) == 3
    assert site.part(house, "south wall").area.typed == "403 ft^2"

    page.get_by_role("link", name="Parts").click()
    page.get_by_label("Name").fill("wall of the porch")
    page.get_by_label("Built of").select_option("house:wall as found")
    page.get_by_label(AREA).fill("80 ft²")
    page.get_by_role("button", name="Add this part").click()
    page.get_by_role("heading", name="wall of the porch").wait_for()
    fits(page)
    page.get_by_role("link", name="Strategies", exact=True).click()
    page.get_by_role("button", name="Make the three strategies").click()
    expect(page.locator("h3 a")).to_have_count(6)
    page.get_by_role("button", name="Undo the last change").click()
    expect(page.locator("h3 a")).to_have_count(3)
    assert site.part(house, "wall of the porch").area.typed == "80 ft²"


def test_units_follow_the_person_and_fields_take_either(site, house, open_page):
    person = site.add_person("Uma Example")
    page = open_page(as_=person)
    page.goto(site.part_path(house, "south wall"))
    inch_pound = heat_loss(page)
    page.get_by_role("button", name="SI", exact=True).click()
    page.get_by_text("m²·K/W").first.wait_for()
    assert page.url == site.part_path(house, "south wall")
    assert heat_loss(page) < inch_pound
    page.get_by_role("link", name="Assemblies", exact=True).click()
    page.get_by_role("link", name="wall as found").click()
    page.get_by_text("m²·K/W").first.wait_for()

    elsewhere = open_page(as_=person)
    elsewhere.goto(site.part_path(house, "north wall"))
    elsewhere.get_by_text("m²·K/W").first.wait_for()
    elsewhere.get_by_role("button", name="inch-pound").click()
    elsewhere.get_by_text("ft²").first.wait_for()

    page.reload()
    field = page.get_by_role("textbox", name="Thickness", exact=True).first
    commit(page, field, "22 mm")
    assert field.input_value() == "22 mm"
    shown = page.locator(f"#{field.get_attribute('id')}-state .hint")
    assert shown.inner_text() == "= 0.87\N{NO-BREAK SPACE}in"


def test_print_keeps_the_figures_and_drops_what_paper_cannot_do(site, house, open_page):
    page = open_page(as_=site.person())
    page.goto(f"{site.address}/houses/{house}")
    page.emulate_media(media="print")
    for name in ("navigation", "button", "textbox", "combobox"):
        assert page.get_by_role(name).count() == 0, name
    assert page.locator("#totals").is_visible()
    assert page.get_by_role("link", name="south wall").is_visible()
