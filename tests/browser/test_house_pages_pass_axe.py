"""Every page of someone who has signed in, on a phone, against axe."""

from __future__ import annotations

from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.house_page import AREA, fits

pytestmark = pytest.mark.browser


def faults(page: Any) -> list[Any]:
    """What axe finds on a page that fits its window."""
    fits(page)
    return [
        (violation["id"], [node["html"][:300] for node in violation["nodes"]])
        for violation in Axe().run(page).response["violations"]
    ]


def house_pages(site: Any, key: str) -> dict[str, str]:
    """The path of a page of every sort below a house."""
    house = site.stored(key).house
    part = site.part(key, "south wall").key
    assembly = house.assemblies["wall as found"].key
    strategy = house.strategies[1].key
    return {
        "overview": "",
        "part": f"/parts/{part}",
        "assemblies": "/assemblies",
        "assembly": f"/assemblies/{assembly}",
        "spaces": "/spaces",
        "junctions": "/junctions",
        "systems": "/systems",
        "seen": "/seen",
        "strategies": "/strategies",
        "strategy": f"/strategies/{strategy}",
        "field sheet": f"/strategies/{strategy}/field-sheet",
        "change": f"/strategies/{strategy}/changes/{part}",
        "history": "/history",
        "comparison": "/comparison",
    }


def test_every_page_of_a_house(site, house, open_page):
    page = open_page(390, as_=site.person())
    found = {}
    for name, path in house_pages(site, house).items():
        page.goto(f"{site.address}/houses/{house}{path}")
        page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
        found[name] = faults(page)
    assert not any(found.values()), found


def test_fields_and_forms_that_come_back_with_faults(site, house, open_page):
    page = open_page(390, as_=site.person())
    found = {}
    page.goto(site.part_path(house, "south wall"))
    area = page.get_by_role("textbox", name=AREA)
    area.fill("-1 ft^2")
    area.press("Enter")
    page.get_by_role("alert").wait_for()
    found["a field, in place"] = faults(page)

    page.goto(f"{site.address}/houses/{house}")
    page.get_by_role("button", name="Add this part").click()
    page.get_by_role("alert").first.wait_for()
    found["a part to add"] = faults(page)

    page.goto(f"{site.address}/houses/new")
    found["a new house"] = faults(page)
    page.get_by_label("Ceiling height").fill("high")
    page.get_by_role("button", name="Begin this house").click()
    page.get_by_role("alert").wait_for()
    found["a new house with faults"] = faults(page)

    page.goto(site.part_path(house, "south wall"))
    area.fill("-1 ft^2")
    area.evaluate("field => field.form.submit()")  # as it is sent without JavaScript
    page.get_by_role("heading", name="This was not saved").wait_for()
    found["a field, as a page"] = faults(page)
    assert not any(found.values()), found


def test_the_firm_and_its_people(site, link, open_page):
    stranger = open_page(390)
    found = {}
    for name, path in (("sign-in", "/sign-in"), ("link", link.removeprefix(site.address))):
        stranger.goto(site.address + path)
        found[name] = faults(stranger)
    page = open_page(390, as_=site.person("lead"))
    for path in ("/houses", "/account", "/people"):
        page.goto(site.address + path)
        found[path] = faults(page)
    assert not any(found.values()), found


def test_pages_in_the_dark(site, house, open_page):
    page = open_page(390, as_=site.person("lead"))
    page.emulate_media(color_scheme="dark")
    found = {}
    for path in (site.part_path(house, "south wall"), f"{site.address}/people"):
        page.goto(path)
        found[path] = faults(page)
    assert not any(found.values()), found
