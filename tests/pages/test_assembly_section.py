"""The section of an assembly on the pages: drawn, told in words, its figures adding up."""

import re

import pytest

from tests.databases import sqlite_database
from tests.stored_houses import WholeSite, demo_file

NUMBER = r"−?\d+\.\d+"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("sections")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    return site.store(demo_file())


@pytest.fixture(scope="module")
def visitor(site):
    return site.visitor(site.contractor)


@pytest.fixture(scope="module")
def stored(site, house):
    return site.stored(house).house


def part_key(stored, name):
    return next(each.key for each in stored.components if each.name == name)


def change(visitor, house, stored, strategy, name):
    key = stored.strategies[strategy].key
    path = f"/houses/{house}/strategies/{key}/changes/{part_key(stored, name)}"
    return visitor.get(path).text


def rows(text):
    """Row headings to the first number beside them, in the tables of a page."""
    found = {}
    for name, cell in re.findall(r'<th scope="row">(.*?)</th><td>(.*?)</td>', text, re.DOTALL):
        words = re.sub(r"<span.*?</span>|<[^>]*>", "", name).strip()
        number = re.search(NUMBER, cell)
        found[words] = float(number[0].replace("−", "-")) if number else None
    return found


def test_the_losses_on_the_page_add_up(visitor, house, stored):
    shown = rows(change(visitor, house, stored, 2, "north wall"))
    kept = shown["The same layers without framing"]
    left = kept + shown["Framing takes"] + shown["Screws and ties take"]
    assert left == pytest.approx(shown["Real R"], abs=0.02)
    assert shown["Real R"] < kept


def test_temperatures_go_from_the_set_point_to_the_design_night(visitor, house, stored):
    path = f"/houses/{house}/parts/{part_key(stored, 'north wall')}"
    text = visitor.get(path).text
    shown = rows(text)
    assert shown["Air, indoors"] == pytest.approx(70.0)
    line = [shown["Inside surface"], shown["Outside of layer 1"], shown["Outer surface"]]
    assert line == sorted(line, reverse=True)
    assert 'role="img"' in text
    assert "Section through north wall, from inside to outside: 1 lime plaster on wood lath" in text


def test_towards_a_buffer_the_other_side_is_warmer_than_outdoors(visitor, house, stored):
    wall = rows(visitor.get(f"/houses/{house}/parts/{part_key(stored, 'north wall')}").text)
    path = f"/houses/{house}/parts/{part_key(stored, 'floor over the basement')}"
    floor = rows(visitor.get(path).text)
    assert wall["Air, outdoors"] < floor["Air, basement"] < 70.0


def test_against_soil_no_line_is_drawn(visitor, house, stored):
    path = f"/houses/{house}/parts/{part_key(stored, 'basement floor')}"
    text = visitor.get(path).text
    assert "Against soil no line is drawn" in text
    assert "Temperatures on the design night" not in text
    assert "without the soil" in text


def test_a_window_has_no_section_but_fields_for_a_storm(visitor, house, stored):
    window = next(each for each in stored.components if each.kind == "window")
    text = visitor.get(f"/houses/{house}/parts/{window.key}").text
    assert 'class="section"' not in text
    text = change(visitor, house, stored, 0, window.name)
    assert "A new one, or a storm over the old" in text
    assert "Fill the bays" not in text
