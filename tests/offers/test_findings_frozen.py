"""Findings and cautions as they were sent: in words, above the savings, never computed anew."""

import copy
import html
import json

import pytest

from server.core.findings.base import Severity
from server.offers.changes import what_changed
from server.storage.offers import Offers
from tests.offers.frozen import frozen
from tests.offers.test_format_1 import page
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import changed_file, demo_file, small_file


@pytest.fixture(scope="module")
def content():
    return frozen(demo_file())


def test_every_finding_is_frozen_in_words(content):
    assert content["offer_format"] == 3
    names = [option["name"] for option in content["options"]]
    severities = {each.value for each in Severity}
    assert len(content["findings"]) > 20
    for row in content["findings"]:
        assert len(row["cells"]) == len(row["cell_names"]) == len(names)
        assert {cell for cell in row["cells"] if cell} <= severities
        assert row["source"]
        for group in row["groups"]:
            assert group["text"]
            assert set(group["columns"]) <= set(names)
    assert json.loads(json.dumps(content["findings"])) == content["findings"]


def test_cautions_go_by_what_is_handled(content):
    told = " ".join(content["cautions"])
    for words in ("respirator", "Lead paint", "Ladders", "isocyanates"):
        assert (words in told) == (words != "isocyanates")  # no sprayed foam in the demo house


def send(site, content):
    house = site.store(small_file())
    with site.database.session(writing=True) as session:
        _line, token = Offers(session, site.firm, site.clock).send(
            house, content, "", None, "Cory Invented"
        )
    return token


def test_the_page_shows_them_above_prices_and_savings(site, content):
    text = page(site, send(site, content))
    assert 0 < text.index("What could go wrong?") < text.index("What do they cost?")
    assert text.index("settle first:") < text.index("USD for heating and cooling a year")
    assert "Not judged here" not in text
    assert "code and licensed practice decide" in text


def test_what_stops_an_option_is_said_before_its_price(site, content):
    stopped = copy.deepcopy(content)
    row = next(row for row in stopped["findings"] if row["cells"][1] == "mend" != row["cells"][2])
    row["severity"] = row["cells"][1] = "stop"
    row["cell_names"][1] = "stop"
    text = page(site, send(site, stopped))
    here = text.index("Must not be built so:")
    assert row["title"] in text[here : text.index("To settle first:", here)]
    assert here < text.index("USD installed")


def test_a_page_of_words_computes_nothing(site, content, monkeypatch):
    def never(*_given, **_more):
        raise AssertionError("the page of an offer judges nothing")

    token = send(site, content)
    monkeypatch.setattr("server.core.findings.judging.judge", never)
    monkeypatch.setattr("server.files.building.judge", never)
    assert "What could go wrong?" in page(site, token)


def test_a_later_offer_says_which_finding_changed(content):
    def drier(document):
        document["seen"]["gutters"] = "sound"
        document["seen"]["below_grade"] = "dry"
        document["seen"]["flashing"] = "sound"
        document["seen"]["ground_slope"] = "away from the house"
        for component in document["components"]:
            component.pop("condition", None)

    after = frozen(changed_file(demo_file(), drier))
    lines = [line for line in what_changed(content, after) if line["what"] == "Water at the house"]
    assert {(line["before"], line["after"]) for line in lines} == {("mend", "good")}
    assert len(lines) == len(content["options"])


def test_everything_found_waits_behind_a_link_without_the_token(site, content):
    token = send(site, content)
    text = page(site, token)
    assert token not in text
    assert 'href="?findings=all"' in text
    all_found = site.visitor().get(f"/offer/{token}?findings=all")
    assert all_found.status_code == 200
    well_formed(all_found)
    assert token not in all_found.text
    for row in content["findings"]:
        assert row["source"] in html.unescape(all_found.text)


def test_a_dead_link_keeps_what_was_found(site):
    answer = site.visitor().get("/offer/no-such-offer?findings=all")
    assert answer.status_code == 404
    assert "Water at the house" not in answer.text
