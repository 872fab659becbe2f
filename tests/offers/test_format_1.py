"""An offer of format 1 shows the same figures for ever.

The figures of the stored offer are round and were put in by hand: 1200 lb of carbon, 12 345 USD,
R-10. What the page must show for them is written here from those, not taken from the page.
"""

import re

import html5lib
import pytest

from server.core import evaluate
from server.offers import offer as offers
from server.storage.offers import Offers
from server.storage.price_books import PriceBooks
from tests.offers.frozen import stored_example
from tests.stored_houses import changed_file, small_file

NARROW = "\u202f"
OPTIONS = ("As it is now", "Fill the walls", "Wrap the outside", "Fill and wrap")
OF_ALL = {
    "Inside surface: main wall °F rests on a guess": ("50.0", "54.5", "59.0", "63.5"),
    "Heating and cooling bill a year USD": ("2000", "1700", "1400", "1100"),
    "… that is less by USD each figure is rounded by itself": ("0", "300", "600", "900"),
    "Cooling the rooms need a year kWh": ("5000", "4900", "4800", "4700"),
    "Carbon dioxide a year lb": ("9000", "8000", "7000", "6000"),
    "Carbon of making the materials, once lb": ("0", "1500", "3000", "4500"),
    "Walls grow outward by in": ("0.00", "1.00", "2.00", "3.00"),
    "Roof and ceilings kWh": ("1000", "500", "0", "−500"),
    "Air leaks and ventilation kWh": ("3500", "3000", "2500", "2000"),
    "All parts kWh": (f"13{NARROW}500", f"10{NARROW}500", "7500", "4500"),
    "main wall h·ft²·°F/Btu rests on a guess": ("5.0", "10.0", "15.0", "20.0"),
}
OF_WORK = {
    "Installed, all together USD": (f"12{NARROW}345", f"24{NARROW}690", f"37{NARROW}035"),
    "Due anyway, insulated or not USD": ("2345", "4690", "7035"),
    "Insulation itself USD": ("7000", f"14{NARROW}000", f"21{NARROW}000"),
    "Needed only because of the insulation USD": ("3000", "6000", "9000"),
    "Bills pay back the whole price in": ("41 years", "42 years", "43 years"),
    "… the price beyond what is due anyway": ("6.2 years", "7.2 years", "8.2 years"),
    "Carbon of the materials is saved in": ("1.5 years", "3.0 years", "4.5 years"),
}


def tables(text):
    """Name of every line of a table to the column and text of its cells."""
    found = {}
    tree = html5lib.parse(text, namespaceHTMLElements=False)
    for row in tree.iter("tr"):
        name = row.find("th[@scope='row']")
        if name is not None:
            cells = [(cell.get("data-column"), "".join(cell.itertext())) for cell in row.iter("td")]
            found[" ".join("".join(name.itertext()).split())] = cells
    return found


@pytest.fixture
def sent(site):
    house = site.store(small_file())
    with site.database.session(writing=True) as session:
        kept = Offers(session, site.firm, site.clock)
        _line, token = kept.send(house, stored_example(), "", None, "Cory Invented")
    return house, token


def page(site, token):
    answer = site.visitor().get(f"/offer/{token}")
    assert answer.status_code == 200
    return answer.text


@pytest.mark.parametrize(("lines", "columns"), [(OF_ALL, OPTIONS), (OF_WORK, OPTIONS[1:])])
def test_every_figure_is_the_one_sent(site, sent, lines, columns):
    found = tables(page(site, sent[1]))
    for name, texts in lines.items():
        assert found[name] == list(zip(columns, texts, strict=True))


def test_words_are_the_ones_sent(site, sent):
    text = re.sub(r"\s+", " ", page(site, sent[1]))
    for words in (
        "12 Example Street (invented)",
        "Invented Remodelling, Cory Invented",
        "2030-05-06",
        "A note that was sent.",
        "What changed since offer 1 of 2030-04-01",
        "14.0 °F outdoors, 68.0 °F in the room",
        "a chimney mended (east wall)",
        "version 7 of the house, 3 of the prices, 1 of the method, 2 of the local defaults",
    ):
        assert words in text
    assert "invented, for trying out" not in text


def test_it_stays_when_house_prices_and_method_change(site, sent, monkeypatch):
    house, token = sent
    before = page(site, token)

    def change(document):
        document["name"] = "Another name"
        document["components"][0]["area"] = "999 m^2"

    with site.database.session(writing=True) as session:
        from server.storage.houses import Houses

        houses = Houses(session, site.firm, site.clock)
        stored = houses.load(house, to_change=True)
        houses.save_house(house, changed_file(stored.house, change), stored.version, "Cory")
        books = PriceBooks(session, site.firm, site.clock)
        books.save(books.current(), "Lee Invented")
    monkeypatch.setattr(evaluate, "METHOD_VERSION", "99")
    monkeypatch.setattr(offers, "METHOD_VERSION", "99")

    def never(*_given, **_more):
        raise AssertionError("the page of an offer computes nothing")

    monkeypatch.setattr(evaluate, "evaluate", never)
    monkeypatch.setattr("server.files.building.build_survey", never)
    assert page(site, token) == before
