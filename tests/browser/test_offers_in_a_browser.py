"""From the demo house to an offer, and what its owner does with it."""

from __future__ import annotations

import re
from typing import Any

import pytest

from server.clock import utc_now
from server.storage.houses import Houses
from server.storage.offers import Offers
from tests.browser.house_page import fits
from tests.browser.test_house_pages_pass_axe import faults

pytestmark = pytest.mark.browser

PAPERS = {"Letter": 8.5 * 96, "A4": 210 / 25.4 * 96}  # CSS pixels across
MARGIN = 14 / 25.4 * 96  # as the stylesheet's @page has it
MOST_PAGES = 12
# all that opens, but of the many alike only two: axe takes long over what it sees
OPEN_SOME = """document.querySelectorAll('details').forEach(each => {
  each.open = !each.matches('.how, .workings > details');
});
for (const alike of ['.how', '.workings > details']) {
  [...document.querySelectorAll(alike)].slice(0, 2).forEach(each => { each.open = true; });
}"""
REGION = "/regions/piedmont-nc"


@pytest.fixture(scope="module")
def demo_key(site: Any) -> str:
    """The demo house, as the first start made it."""
    with site.database.session(writing=False) as session:
        lines = Houses(session, site.person().firm_key, utc_now).listed("open")
    return str(lines[0].key)


def send(page: Any, site: Any, key: str, note: str = "") -> str:
    """Send an offer by the form; the result is the link that the page shows."""
    page.goto(f"{site.address}/houses/{key}/offers")
    page.get_by_label("A note to the owner").fill(note)
    page.get_by_role("button", name="Freeze and make a link").click()
    return str(page.locator("code.link").inner_text())


def installed(page: Any) -> list[str]:
    """The installed costs of a comparison, as they are printed."""
    row = page.locator("tr", has=page.get_by_role("rowheader", name="Installed cost"))
    return [text.strip() for text in row.first.locator("td").all_inner_texts()]


def money(text: str) -> list[str]:
    """Sums of money as they are printed."""
    return re.findall(r"\d[\d\u202f]*(?= USD installed)", text)


def test_an_offer_goes_from_the_demo_house_to_its_owner_and_back(site, demo_key, open_page):
    contractor = open_page(1280, as_=site.person())
    contractor.goto(f"{site.address}/houses/{demo_key}")
    contractor.get_by_role("link", name="Compare as found with the strategies").click()
    compared = installed(contractor)
    link = send(contractor, site, demo_key, "Look at the third.")

    owner = open_page(390, javascript=False)
    owner.goto(link)
    fits(owner)
    offered = money(owner.locator("main").inner_text())
    assert offered == compared[1:4]
    words = owner.locator("main").inner_text()
    assert all(name in words for name in ("Fill the walls", "Wrap the outside", "Fill and wrap"))
    owner.get_by_label("Fill and wrap").or_(owner.get_by_label("Hybrid")).first.check()
    owner.get_by_label("A question, if you have one").fill("<script>alert(1)</script> How long?")
    owner.get_by_label("Your name").fill("Olive Invented")
    owner.get_by_role("button", name="Send").click()
    assert "Olive Invented" in owner.locator("main").inner_text()
    fits(owner)

    contractor.goto(f"{site.address}/houses/{demo_key}/offers")
    answers = contractor.locator(".answers").first.inner_text()
    assert "Olive Invented" in answers
    assert "<script>alert(1)</script> How long?" in answers
    assert "not yet" not in contractor.locator(".sent-offer").first.inner_text()


def test_an_offer_prints_whole(site, demo_key, open_page):
    link = send(open_page(1280, as_=site.person()), site, demo_key)
    for paper, width in PAPERS.items():
        owner = open_page(round(width - 2 * MARGIN), javascript=False)
        owner.goto(link)
        printed = owner.pdf(format=paper, prefer_css_page_size=False)
        pages = len(re.findall(rb"/Type\s*/Page\b", printed))
        assert 2 <= pages <= MOST_PAGES
        owner.emulate_media(media="print")
        fits(owner)
        cut = owner.evaluate(
            """() => [...document.querySelectorAll('table')].filter(table =>
                 table.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5
                 || table.scrollWidth > table.clientWidth + 1).length"""
        )
        assert cut == 0, paper
        broken = owner.evaluate(
            """() => [...document.querySelectorAll('tr')].filter(row =>
                 getComputedStyle(row).breakInside !== 'avoid').length"""
        )
        assert broken == 0, paper


def test_a_link_that_was_taken_back_or_never_was(site, demo_key, open_page):
    contractor = open_page(1280, as_=site.person())
    link = send(contractor, site, demo_key, "Secret words.")
    contractor.get_by_role("button", name="Take the link back").first.click()
    contractor.get_by_text("taken back").first.wait_for()
    owner = open_page(390, javascript=False, expected=("404", "410"))
    assert owner.goto(link).status == 410
    told = owner.locator("body").inner_text()
    assert "Secret words." not in told
    assert "1938" not in told
    assert "taken back" in told
    assert owner.goto(f"{site.address}/offer/{'a' * 27}").status == 404
    fits(owner)


def test_a_lead_changes_prices_and_region_and_an_old_offer_stays(site, demo_key, open_page):
    contractor = open_page(1280, as_=site.person(), expected=("403",))
    link = send(contractor, site, demo_key)
    owner = open_page(390, javascript=False)
    owner.goto(link)
    before = owner.content()

    contractor.goto(f"{site.address}/houses/{demo_key}/comparison")
    cost_before = installed(contractor)
    lead = open_page(1280, as_=site.person("lead"))
    lead.goto(f"{site.address}/prices")
    line = lead.locator("#off-cladding")
    line.locator("summary").click()
    line.get_by_label("Labour, USD").fill("987.65")
    line.get_by_role("button", name="Save this price").click()
    lead.get_by_text("version 2").first.wait_for()
    lead.goto(f"{site.address}{REGION}")
    lead.get_by_label("Heating set point").first.fill("75 degF")
    lead.get_by_role("button", name="Save as a new version").click()
    lead.wait_for_url("**/regions#piedmont-nc")

    contractor.goto(f"{site.address}/houses/{demo_key}/comparison")
    assert installed(contractor) != cost_before
    owner.goto(link)
    assert owner.content() == before
    assert contractor.goto(f"{site.address}{REGION}").status == 403
    contractor.goto(f"{site.address}/prices")
    assert contractor.get_by_role("button", name="Save this price").count() == 0

    # the house keeps what it has until somebody has seen what would change
    heating = "Heating need a year"
    contractor.goto(f"{site.address}/houses/{demo_key}")
    loss = contractor.locator("#totals").get_by_text(heating).locator("xpath=..").inner_text()
    contractor.goto(f"{site.address}/houses/{demo_key}/region?to=piedmont-nc")
    assert "75 degF" in contractor.locator(".changes").inner_text()
    contractor.goto(f"{site.address}/houses/{demo_key}")
    assert loss in contractor.locator("#totals").inner_text()
    contractor.goto(f"{site.address}/houses/{demo_key}/region?to=piedmont-nc")
    contractor.get_by_role("button", name="Put these into the house").click()
    contractor.wait_for_url(f"**/houses/{demo_key}**")
    contractor.goto(f"{site.address}/houses/{demo_key}")
    assert loss not in contractor.locator("#totals").inner_text()
    owner.goto(link)
    assert owner.content() == before


def test_every_page_of_prices_regions_and_offers(site, house, open_page):
    """Phone and desk, light and dark; the small house, so that few rows are looked at."""
    lead = site.person("lead")
    page = open_page(390, as_=lead)
    found = {}
    page.goto(f"{site.address}/houses/{house}/offers")
    found["offers, none yet"] = faults(page)
    page.get_by_label("Days the link works").fill("many")
    page.get_by_role("button", name="Freeze and make a link").click()
    found["offers, a fault"] = faults(page)
    link = send(page, site, house)
    found["offers, a link"] = faults(page)
    strategy = site.stored(house).house.strategies[1].key
    paths = {
        "comparison with another base": f"/houses/{house}/comparison?base=1",
        "cost": f"/houses/{house}/strategies/{strategy}/cost",
        "working": f"/houses/{house}/working",
        "prices": "/prices",
        "regions": "/regions",
        "region": REGION,
        "stations": f"{REGION}/stations?q=carolina",
        "months": f"{REGION}/months",
        "climate of a house": f"/houses/{house}/climate?zip=27401&elevation=890 ft",
        "stations near": f"{REGION}/stations?zip=27401",
        "defaults of a house": f"/houses/{house}/region?to=twin-cities-mn",
    }
    for width, scheme in ((390, "light"), (1280, "dark")):
        page.set_viewport_size({"width": width, "height": 900})
        page.emulate_media(color_scheme=scheme)
        for name, path in paths.items():
            page.goto(site.address + path)
            page.evaluate(OPEN_SOME)
            found[name, scheme] = faults(page)
        page.goto(f"{site.address}{REGION}")
        page.get_by_label("Heating set point").first.fill("warm")
        page.get_by_role("button", name="Save as a new version").click()
        found["region, a fault", scheme] = faults(page)
        page.goto(link)
        found["offer", scheme] = faults(page)
        page.get_by_role("button", name="Send").evaluate("button => button.form.submit()")
        page.get_by_role("alert").first.wait_for()
        found["offer, a fault", scheme] = faults(page)
    page.get_by_label("Not decided yet").check()
    page.get_by_label("Your name").fill("Olive Invented")
    page.get_by_role("button", name="Send").click()
    page.wait_for_load_state()
    found["thanks"] = faults(page)
    page.goto(f"{site.address}/houses/{house}/offers")
    assert page.locator(".answers").count() == 1
    found["offers, an answer"] = faults(page)
    with site.database.session(writing=True) as session:
        offers = Offers(session, lead.firm_key, utc_now)
        offers.revoke(house, offers.of_house(house)[0].key)
    stranger = open_page(390, javascript=True, expected=("404", "410"))
    stranger.goto(link)
    found["taken back"] = faults(stranger)
    assert not any(found.values()), {name: each for name, each in found.items() if each}
