"""Opening a house file in the browser: upload, paste, demo, and what is wrong with it."""

import json
import re

import html5lib
import pytest

from server.files.seeds import DEMO_HOUSE
from tests.conftest import SMALL_HOUSE

SMALL = SMALL_HOUSE.read_text()


def well_formed(response):
    """The page parses without one error of HTML."""
    parser = html5lib.HTMLParser(strict=True)
    parser.parse(response.text)
    assert "{{" not in response.text
    return response.text


@pytest.mark.parametrize("path", ["/", "/demo", "/demo?units=si", "/materials"])
def test_every_page_is_well_formed(client, path):
    response = client.get(path)
    assert response.status_code == 200
    well_formed(response)


@pytest.mark.parametrize("path", ["/", "/demo", "/no-such-page", "/static/warmside.css"])
def test_every_answer_carries_the_policy(client, path):
    headers = client.get(path).headers
    assert "default-src 'none'" in headers["content-security-policy"]
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["referrer-policy"] == "same-origin"
    assert headers["x-content-type-options"] == "nosniff"


def test_pages_hold_no_inline_style_or_script(client):
    for path in ("/", "/demo", "/materials"):
        page = client.get(path).text
        assert not re.search(r"\sstyle=|<style|\son\w+=|<script(?! src)", page)


def test_the_demo_shows_every_strategy_and_its_cautions(client):
    page = well_formed(client.get("/demo"))
    for words in (
        "As found",
        "Cavity only",
        "Exterior continuous",
        "Hybrid",
        "What could go wrong",
    ):
        assert words in page
    assert page.index("What could go wrong") < page.index("At a glance")
    assert "Local codes and licensed practice decide" in page


def test_a_pasted_house_is_compared(client):
    page = well_formed(client.post("/comparison", files={"text": (None, SMALL)}))
    assert "Small example house" in page
    assert 'aria-pressed="true"' in page


def test_an_uploaded_house_is_compared_in_the_units_asked(client):
    files = {"file": ("house.json", SMALL.encode()), "units": (None, "si")}
    page = well_formed(client.post("/comparison", files=files))
    assert "m²·K/W" in page
    assert "h·ft²·°F/Btu" not in page


def test_a_plain_form_without_parts_works_too(client):
    response = client.post("/comparison", data={"text": SMALL, "units": "ip"})
    assert response.status_code == 200


def test_htmx_gets_the_comparison_alone(client):
    response = client.post(
        "/comparison",
        data={"text": SMALL},
        headers={"HX-Request": "true", "HX-Request-Type": "partial"},
    )
    assert response.text.lstrip().startswith('<div id="comparison">')
    assert "<html" not in response.text
    assert "HX-Request-Type" in response.headers["vary"]


def test_bad_input_keeps_the_text_and_names_the_place(client):
    document = json.loads(SMALL)
    document["components"][3]["area"] = "-4 m^2"
    document["name"] = "<b>Tom & Sons</b>"
    text = json.dumps(document)
    response = client.post("/comparison", data={"text": text})
    assert response.status_code == 422
    page = well_formed(response)
    assert "components[3].area" in page
    assert "must be above 0" in page
    assert "&lt;b&gt;Tom &amp; Sons" in page
    assert "<b>Tom" not in page
    assert 'role="alert"' in page


@pytest.mark.parametrize("text", ["", "  ", "[" * 100_000, "{", '{"a": NaN}', "\x00\x01"])
def test_a_text_that_is_no_house_gives_a_page(client, text):
    response = client.post("/comparison", data={"text": text})
    assert response.status_code == 422
    assert "<h1>" in response.text


def test_bytes_that_are_no_text_give_a_page(client):
    response = client.post("/comparison", files={"file": ("house.json", b"\xff\xfe\x00")})
    assert response.status_code == 422
    assert "UTF-8" in response.text


def test_twenty_megabytes_are_refused_in_words(client):
    response = client.post("/comparison", files={"file": ("house.json", b" " * 20_000_000)})
    assert response.status_code == 413
    assert "too large" in well_formed(response)


def test_a_file_above_the_limit_is_refused_in_words(client):
    response = client.post("/comparison", files={"file": ("house.json", b" " * 3_000_000)})
    assert response.status_code == 422
    assert "at most 2000000" in response.text


def test_the_comparison_is_saved_as_a_file(client):
    response = client.post("/comparison-file", data={"text": SMALL})
    assert "attachment" in response.headers["content-disposition"]
    assert response.json()["format"] == "warmside-comparison/1"


def test_a_wrong_address_and_a_wrong_way_are_pages(client):
    assert client.get("/no-such-page").status_code == 404
    assert "no such page" in well_formed(client.get("/no-such-page"))
    assert client.get("/comparison").status_code == 405
    assert "form" in well_formed(client.get("/comparison"))


def test_page_and_file_show_the_same_figures(client, demo):
    result = demo.compare().results[2]
    page = client.get("/demo").text
    assert f"{result.annual_cost:.0f}" in page
    assert DEMO_HOUSE.exists()


def test_units_that_are_none_fall_back(client):
    assert "h·ft²·°F/Btu" in client.get("/demo?units=furlongs").text
