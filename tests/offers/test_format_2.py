"""An offer of format 2 was frozen before findings were: its page says that they were not judged."""

import json

import pytest

from server.storage.offers import Offers
from tests.conftest import ROOT
from tests.offers.test_format_1 import page, tables
from tests.stored_houses import small_file

FORMAT_2 = ROOT / "tests" / "offers" / "offer-format-2.json"


@pytest.fixture
def sent(site):
    content = json.loads(FORMAT_2.read_text(encoding="utf-8"))
    house = site.store(small_file())
    with site.database.session(writing=True) as session:
        kept = Offers(session, site.firm, site.clock)
        _line, token = kept.send(house, content, "", None, "Cory Invented")
    return content, token


def test_it_says_that_nothing_was_judged(site, sent):
    text = page(site, sent[1])
    assert "Not judged here" in text
    assert "What could go wrong?" not in text


def test_its_figures_are_the_ones_sent(site, sent):
    content, token = sent
    found = tables(page(site, token))
    costs = [round(option["fuel_cost_usd"]) for option in content["options"]]
    shown = found["Heating and cooling bill a year USD"]
    assert [int(text.replace("\u202f", "")) for _column, text in shown] == costs
    assert len(content["options"]) == len(shown)
