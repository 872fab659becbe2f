"""What a strategy does to one part: left as found, as all of its kind, or in its own way."""

import json

import pytest

from server.files.keyed import place_of
from tests.pages.test_bad_input import Page, seen_of
from tests.stored_houses import changed_file, demo_file


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


def strategy_named(site, house, name):
    return next(each for each in site.stored(house).house.strategies if each.name == name)


def sent_from(path, **form):
    """A form that says on which page below the house it stands."""
    return {"form": "press", "page": path.split("/", 3)[3]} | form


@pytest.mark.parametrize("partial", [True, False])
def test_a_value_that_no_strategy_can_have_is_refused_beside_its_field(site, house, partial):
    strategy = strategy_named(site, house, "Hybrid")
    visitor = site.visitor(site.contractor)
    path = f"/houses/{house}/strategies/{strategy.key}"
    place = place_of("strategies", strategy.key, "ach50")
    seen = seen_of(Page.of(visitor.get(path)), place)
    form = sent_from(path, place=place, value="300", basis="guess", seen=seen)
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"} if partial else {}
    answer = visitor.post(f"/houses/{house}/edit", form, headers=headers)
    assert answer.status_code == 422
    assert "Must lie between 0 and 100." in answer.text
    if not partial:
        assert Page.of(answer).field_of(place).get("value") == "300"
    assert strategy_named(site, house, "Hybrid") == strategy


def test_what_cannot_be_done_to_a_part_is_not_saved(site, house):
    brick = "basement wall behind the sun room"
    path, change = address(site, house, brick)
    visitor = site.visitor(site.contractor)
    answer = visitor.post(path + change, sent_from(path + change, sort="fill"))
    assert answer.status_code == 422
    assert "This was not saved" in answer.text
    assert "framed layer" in answer.text
    assert change_of(site, house, brick)[0] != brick


def test_what_is_undone_may_bring_back_a_strategy_that_does_not_fit(site):
    def renamed(document):
        layers = document["assemblies"]["main wall as found"]["layers"]
        next(each for each in layers if each.get("name") == "old siding")["name"] = "clapboard"

    broken = site.store(changed_file(demo_file(), renamed))
    visitor = site.visitor(site.contractor)
    strategy = strategy_named(site, broken, "Exterior continuous")
    path = f"/houses/{broken}/strategies/{strategy.key}"
    assert "does not fit" in visitor.get(path).text
    visitor.post(f"{path}/remove", sent_from(path))
    assert visitor.get(path).status_code == 404
    restored = sent_from(path, version="1", seen="2")
    answer = visitor.post(f"/houses/{broken}/restore", restored, follow_redirects=False)
    assert answer.status_code == 303
    assert "does not fit" in visitor.get(path).text
