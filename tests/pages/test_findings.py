"""What could go wrong, on the pages: above the savings, in words, in every form it is sent."""

import json
import re

import html5lib
import pytest

from server.files.building import read_project
from server.files.comparison_file import comparison_document
from server.files.keyed import place_of
from server.files.seeds import DEMO_HOUSE
from tests.databases import sqlite_database
from tests.pages.test_bad_input import Page, seen_of
from tests.stored_houses import WholeSite, demo_file


def tree(text):
    return html5lib.parse(text, namespaceHTMLElements=False)


def words(element):
    return " ".join("".join(element.itertext()).split())


def opened(client, content):
    files = {"file": ("house.json", content.encode()), "units": (None, "ip")}
    answer = client.post("/comparison", files=files)
    assert answer.status_code == 200
    return answer.text


@pytest.fixture(scope="module")
def compared(client):
    return opened(client, DEMO_HOUSE.read_text(encoding="utf-8"))


def test_findings_stand_above_the_savings(compared):
    assert 0 < compared.index("What could go wrong") < compared.index("At a glance")


def test_every_row_says_each_column_in_a_word(compared):
    table = next(t for t in tree(compared).iter("table") if "severities" in t.get("class", ""))
    rows = [row for row in table.iter("tr") if row.find("td[@data-column]") is not None]
    assert len(rows) > 10
    for row in rows:
        cells = [words(cell) for cell in row.iter("td")]
        assert len(cells) == 4
        if row.get("class") == "strong":
            assert all(
                re.fullmatch(r"(\d+ (stop|mend|not known|watch)(, )?)+|–", cell) for cell in cells
            )
            continue
        assert set(cells) <= {"stop", "mend", "not known", "watch", "good", "–"}


def test_each_says_its_source_and_what_mends_it(compared):
    page = tree(compared)
    for finding in page.iter("div"):
        classes = finding.get("class", "").split()
        if "finding" in classes and {"stop", "mend", "open"} & set(classes):
            assert any(p.get("class") == "mend" for p in finding.iter("p")), words(finding)
    assert compared.count("Source:") > 15


def test_a_wet_assembly_is_drawn(compared):
    assert "the pressure of vapour must stay below saturation" in compared
    assert "Water in it at the end of each month" in compared


def test_the_page_defers_to_codes(compared):
    assert "local codes and licensed practice decide" in compared.lower()


def test_a_comparison_file_shows_the_findings_it_holds(client):
    document = comparison_document(read_project(DEMO_HOUSE.read_text(encoding="utf-8")))
    text = opened(client, json.dumps(document))
    assert "What could go wrong" in text
    first = document["results"][1]["findings"][0]
    assert first["text"] in re.sub(r"\s+", " ", text.replace("&#39;", "'").replace("&amp;", "&"))
    for result in document["results"]:
        result["findings"] = None
    assert opened(client, json.dumps(document)).count("not judged") == len(document["results"])


def test_the_file_says_code_severity_component_and_text():
    document = comparison_document(read_project(DEMO_HOUSE.read_text(encoding="utf-8")))
    for result in document["results"]:
        assert result["findings"]
        for finding in result["findings"]:
            assert finding["severity"] in ("stop", "mend", "open", "watch", "good")
            assert finding["text"]
            assert finding["source"]
            one = finding["components"]
            assert finding["component"] == (one[0] if len(one) == 1 else None)


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("found")))
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    return site.store(demo_file())


def strategy_path(site, house, name):
    strategies = site.stored(house).house.strategies
    key = next(each.key for each in strategies if each.name == name)
    return f"/houses/{house}/strategies/{key}"


def test_the_page_of_a_strategy_says_what_stops_it_and_what_to_do(site, house):
    visitor = site.visitor(site.contractor)
    section = next(
        each
        for each in tree(visitor.get(strategy_path(site, house, "Hybrid")).text).iter("section")
        if each.get("id") == "findings"
    )
    told = words(section)
    assert "Old wiring" in told
    assert "an electrician replaces it" in told
    assert "Fresh air" in told.partition("In order")[2]
    other = visitor.get(strategy_path(site, house, "Exterior continuous")).text
    assert "an electrician replaces it" not in other


def test_an_edit_of_a_strategy_is_judged_anew(site):
    house = site.store(demo_file())
    path = strategy_path(site, house, "Hybrid")
    key = path.rpartition("/")[2]
    visitor = site.visitor(site.contractor)
    place = place_of("strategies", key, "ventilation", "flow")
    form = {
        "place": place,
        "page": f"strategies/{key}",
        "value": "10 cfm",
        "basis": "guess",
        "seen": seen_of(Page.of(visitor.get(path)), place),
    }
    headers = {"HX-Request": "true", "HX-Request-Type": "partial"}
    answer = visitor.post(f"/houses/{house}/edit", form, headers=headers)
    assert answer.status_code == 200
    part = answer.text.partition('hx-target="#findings"')[2].partition("</hx-partial>")[0]
    loud, _list, in_order = part.partition("<dl")
    assert "Fresh air" in loud
    assert "Fresh air" not in in_order


def test_a_part_says_what_could_go_wrong_with_it(site, house):
    visitor = site.visitor(site.contractor)
    stored = site.stored(house).house
    key = next(each.key for each in stored.components if each.name == "sun-room roof")
    as_found = words(tree(visitor.get(f"/houses/{house}/parts/{key}").text))
    assert "Damp in walls and roofs" in as_found.partition("In order")[2]
    path = strategy_path(site, house, "Cavity only") + f"/changes/{key}"
    under = words(tree(visitor.get(path).text)).partition("What could go wrong with it")[2]
    assert "water gathers at the inner face of plywood" in under.partition("In order")[0]
    assert "Old wiring" not in under  # nothing is filled here
    assert "First see to what was found: sound" not in visitor.get(path).text


def test_the_offers_page_names_what_stops_an_option_before_it_is_sent(site, house):
    told = words(tree(site.visitor(site.contractor).get(f"/houses/{house}/offers").text))
    warning = told.partition("Must not be built as they stand")[2]
    assert "Hybrid: Old wiring" in warning
    assert "Exterior continuous:" not in warning
