"""What a strategy does to one part: left as found, as all of its kind, or in its own way."""

import json

import pytest

from server.files.keyed import place_of
from tests.databases import sqlite_database
from tests.pages.test_bad_input import Page
from tests.stored_houses import WholeSite, demo_file


@pytest.fixture
def site(tmp_path):
    made = WholeSite(sqlite_database(tmp_path))
    yield made
    made.database.close()


@pytest.fixture
def house(site):
    return site.store(demo_file())


def address(site, house, part):
    stored = site.stored(house).house
    strategy = next(each for each in stored.strategies if each.name == "Exterior continuous")
    key = next(each.key for each in stored.components if each.name == part)
    return f"/houses/{house}/strategies/{strategy.key}", f"/changes/{key}"


def change_of(site, house, part):
    stored = site.stored(house).house
    strategy = next(each for each in stored.strategies if each.name == "Exterior continuous")
    component = next(each for each in stored.components if each.name == part)
    return strategy.target_of(component), strategy.change_of(component)


def press(visitor, path, words):
    """Press the button with these words on a page."""
    for form in Page.of(visitor.get(path)).root.iter("form"):
        if words in (button.text for button in form.iter("button")):
            sent = {each.get("name"): each.get("value") for each in form.iter("input")}
            answer = visitor.post(form.get("action"), sent, follow_redirects=False)
            break
    else:
        raise AssertionError(f"no button {words}")
    assert answer.status_code == 303
    return visitor.get(answer.headers["location"]).text


def test_a_part_is_left_as_found_and_done_again_like_its_kind(site, house):
    path, change = address(site, house, "east wall")
    visitor = site.visitor(site.contractor)
    told = press(visitor, path + change, "Leave it as found")
    assert "This part stays as found." in told
    assert change_of(site, house, "east wall") == ("east wall", None)
    assert change_of(site, house, "north wall")[0] == "wall"
    whole = visitor.get(path).text
    stays = whole.partition("stay as found</summary>")[2]
    assert ">east wall</a>" in stays
    assert "Built anew as" not in whole
    told = press(visitor, path + change, "Do what is done to every wall")
    assert "This is what is done to every wall." in told
    assert change_of(site, house, "east wall")[0] == "wall"


def test_an_edit_that_a_strategy_no_longer_fits_is_told_at_once(site, house):
    assembly = site.stored(house).house.assemblies["main wall as found"]
    siding = next(each for each in assembly.layers if each.name == "old siding")
    form = {
        "place": place_of("assemblies", assembly.key, "layers", siding.key, "name"),
        "page": f"assemblies/{assembly.key}",
        "value": "",
        "seen": json.dumps(siding.name),
    }
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
    answer = site.visitor(site.contractor).post(f"/houses/{house}/edit", form, headers=headers)
    assert answer.status_code == 200
    told = answer.text.partition('hx-target="#not-fitting"')[2].partition("</hx-partial>")[0]
    assert "Exterior continuous" in told
    assert "wall: found nothing to act on: there is no layer called “old siding”" in told
    assert "Cavity only" not in told
