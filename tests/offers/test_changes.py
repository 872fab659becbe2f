"""What changed between two offers, in words with both figures."""

import dataclasses
import json

from server.offers.changes import what_changed
from server.pricing.book_file import seed_price_book
from tests.offers.frozen import frozen, stored_example
from tests.stored_houses import changed_file, small_file


def copied(content):
    return json.loads(json.dumps(content))


def test_the_same_house_has_no_changes():
    assert what_changed(frozen(small_file()), frozen(small_file(), note="Another note.")) == []


def test_both_figures_are_told_in_words():
    before, after = stored_example(), stored_example()
    after["options"][1]["cost"]["total_usd"] = 15000.0
    assert what_changed(before, after) == [
        {
            "option": "Fill the walls",
            "what": "Installed cost",
            "before": "12\u202f345 USD",
            "after": "15\u202f000 USD",
        }
    ]


def test_what_reads_the_same_is_no_change():
    before, after = stored_example(), stored_example()
    after["options"][1]["cost"]["total_usd"] += 0.2
    assert what_changed(before, after) == []


def test_a_figure_that_became_unknown_is_a_dash():
    before, after = stored_example(), stored_example()
    after["options"][0]["fuel_cost_usd"] = None
    (line,) = what_changed(before, after)
    assert (line["before"], line["after"]) == ("2000 USD", "–")


def test_an_option_that_went_and_one_that_came():
    before, after = stored_example(), stored_example()
    after["options"][3] |= {"own_name": "Staged", "name": "Staged"}
    told = {(line["option"], line["before"], line["after"]) for line in what_changed(before, after)}
    assert ("Fill and wrap", "offered", "no longer offered") in told
    assert ("Staged", "not offered", "offered") in told


def test_prices_that_rise_show_in_cost_and_version():
    book = seed_price_book()
    dearer = dataclasses.replace(
        book,
        version=2,
        lines=tuple(
            dataclasses.replace(line, labour_cents=line.labour_cents * 2) for line in book.lines
        ),
    )
    lines = what_changed(frozen(small_file()), frozen(small_file(), dearer))
    assert {line["what"] for line in lines} == {"Installed cost", "Prices"}


def test_a_better_wall_shows_in_its_real_r():
    def change(document):
        layers = document["assemblies"]["wall as found"]["layers"]
        layers.append({"resistance": "1 m^2*K/W", "name": "found later"})

    lines = what_changed(frozen(small_file()), frozen(changed_file(small_file(), change)))
    assert "Heating need a year" in {line["what"] for line in lines}
    assert any(line["what"].startswith("Real R of") for line in lines)
