"""Opening a comparison file in the browser: its figures as written, and what is wrong with it."""

import json

import html5lib
import pytest

from server.files.building import read_project
from server.files.comparison_file import comparison_document
from tests.conftest import SMALL_HOUSE
from tests.pages.test_open_a_house import well_formed

XHTML = "{http://www.w3.org/1999/xhtml}"


@pytest.fixture(scope="module")
def written():
    return comparison_document(read_project(SMALL_HOUSE.read_text()))


@pytest.fixture
def document(written):
    return json.loads(json.dumps(written))


def opened(client, document, units="si"):
    files = {"file": ("comparison.json", json.dumps(document).encode()), "units": (None, units)}
    return client.post("/comparison", files=files)


def figures(response):
    """Texts of every row by its heading."""
    tree = html5lib.parse(response.text)
    return {
        "".join(row.find(f"{XHTML}th").itertext()).split("  ")[0].strip(): [
            "".join(cell.itertext()) for cell in row.findall(f"{XHTML}td")
        ]
        for row in tree.iter(f"{XHTML}tr")
        if row.find(f"{XHTML}th").get("scope") == "row"
    }


def test_its_figures_are_shown_as_they_were_written(client, document):
    document["results"][1]["heating_load_kwh"] = 1234.0
    document["results"][2]["components"][0]["r_m2k_per_w"] = 9.87
    document["method_version"] = "none of ours"
    response = opened(client, document)
    assert response.status_code == 200
    page = well_formed(response)
    assert "version none of ours" in page
    shown = figures(response)
    heating = next(texts for name, texts in shown.items() if name.startswith("Heating need"))
    assert heating[1].replace("\u2009", "").replace("\u202f", "").replace(",", "") == "1234"
    first = document["results"][0]["components"][0]["name"]
    resistances = [texts for name, texts in shown.items() if name.startswith(first)]
    assert any(texts[2] == "9.87" for texts in resistances)


def test_units_can_be_changed_without_sending_the_file_again(client, document):
    page = well_formed(opened(client, document, "ip"))
    assert 'aria-pressed="true"' in page
    assert "warmside-comparison/1" in page  # the text travels with the form
    assert "Save the comparison" not in page


def test_keys_of_a_later_writer_are_passed_over(client, document):
    document["results"][0]["more"] = document["more"] = {"of": "them"}
    assert opened(client, document).status_code == 200


@pytest.mark.parametrize(
    ("spoil", "place", "words"),
    [
        (lambda d: d.pop("house"), "house", "must be given"),
        (lambda d: d["results"].clear(), "results", "at least one"),
        (lambda d: d["results"][0].update(heating_load_kwh="much"), "heating_load_kwh", "number"),
        (lambda d: d["results"][1]["components"].pop(), "", "the same components"),
        (lambda d: d["results"][1].update(fuel=None), "results[1].fuel", "list"),
    ],
)
def test_a_bad_one_comes_back_with_its_faults(client, document, spoil, place, words):
    spoil(document)
    response = opened(client, document)
    assert response.status_code == 422
    page = well_formed(response)
    assert place in page
    assert words in page
    assert "warmside-comparison/1" in page
