"""What a frozen offer holds."""

import dataclasses
import json

import pytest

from server.core.explain.surface import inside_surface
from server.files.building import build_survey, read_project
from server.files.comparison_file import comparison_document
from server.offers.offer import canonical, sha256
from server.offers.option_words import option_names
from server.pricing.book_file import seed_price_book
from tests.calculator import worked_out
from tests.conftest import SMALL_HOUSE
from tests.offers.frozen import frozen, option
from tests.stored_houses import changed_file, demo_file, small_file

CAVITY, OUTSIDE, HYBRID = "Cavity only", "Exterior continuous", "Hybrid"


@pytest.fixture(scope="module")
def demo_offer():
    return frozen(demo_file())


def test_it_is_plain_json_and_comes_back_the_same(demo_offer):
    assert json.loads(canonical(demo_offer)) == demo_offer
    assert sha256(json.loads(canonical(demo_offer))) == sha256(demo_offer)


def test_the_hash_does_not_hang_on_the_order_of_keys(demo_offer):
    turned = dict(reversed(list(demo_offer.items())))
    assert sha256(turned) == sha256(demo_offer)
    assert sha256(demo_offer | {"note": "Another."}) != sha256(demo_offer)


def test_it_holds_the_house_as_written_and_the_comparison(demo_offer):
    assert demo_offer["house_file"] == demo_file().as_written()
    assert demo_offer["comparison_file"] == comparison_document(build_survey(demo_file()).project)


def test_options_have_plain_names_and_those_of_ones_own_keep_theirs():
    def change(document):
        document["strategies"][1]["recipe"] = "own"

    changed = frozen(changed_file(small_file(), change))
    names = [each["name"] for each in changed["options"]]
    assert names == ["As it is now", "Fill the walls", "Exterior continuous", "Fill and wrap"]


def test_two_options_of_one_recipe_are_told_apart():
    first = small_file().strategies[0]
    second = first.model_copy(update={"name": "Cavity, staged"})
    assert option_names([first, second]) == [
        "Fill the walls: Cavity only",
        "Fill the walls: Cavity, staged",
    ]


def test_dollars_by_reason_add_up_to_the_total(demo_offer):
    for own_name in (CAVITY, OUTSIDE, HYBRID):
        cost = option(demo_offer, own_name)["cost"]
        assert sum(each["usd"] for each in cost["by_reason"]) == cost["total_usd"]
        assert sum(each["cents"] for each in cost["by_reason"]) == cost["total_cents"]
        assert sum(line["total_cents"] for line in cost["lines"]) == cost["total_cents"]
        assert abs(cost["total_usd"] - cost["total_cents"] / 100) <= 0.5


def test_heat_by_part_adds_up_to_the_heating(demo_offer):
    for each in demo_offer["options"]:
        assert sum(each["heat_by_part_j"].values()) == pytest.approx(each["heating_j"])


def test_saving_and_payback_follow_from_the_bill_and_the_price(demo_offer):
    found, hybrid = option(demo_offer, None), option(demo_offer, HYBRID)
    saving = found["fuel_cost_usd"] - hybrid["fuel_cost_usd"]
    assert hybrid["saving_usd"] == pytest.approx(saving)
    whole = hybrid["cost"]["total_cents"] / (100 * saving)
    assert hybrid["payback"]["whole_years"] == pytest.approx(whole)


def test_inside_surface_by_hand():
    """U 0.25, 20 degC in, -10 out, film 0.13: 20 - 0.25 * 0.13 * 30 = 19.025 degC; by hand.

    As a temperature factor of ISO 13788 that is 1 - 0.25 * 0.13 = 0.9675.
    """
    told = inside_surface(read_project(SMALL_HOUSE.read_text()).compare().as_found, 0)
    values = {"T_h": 20.0, "T_e": -10.0, "U": 0.25, "R_si": 0.13}
    assert {each.symbol for each in told.inputs} == set(values)
    surface = worked_out(told.formula.expression, told.formula.where, values)
    assert surface == pytest.approx(19.025)
    assert (surface + 10.0) / 30.0 == pytest.approx(0.9675)


def test_the_coldest_surface_gets_warmer_where_a_wall_is_filled(demo_offer):
    wall = next(each for each in demo_offer["assemblies"] if each["name"] == "main wall")
    as_found, filled = (each["surface_temperature"] for each in wall["by_option"][:2])
    assert as_found < filled < demo_offer["house"]["inside_temperature"]


def test_no_surface_is_told_where_the_design_night_is_unknown():
    def change(document):
        document["climate"].pop("heating_design_temperature")

    offer = frozen(changed_file(small_file(), change))
    assert offer["house"]["design_temperature"] is None
    figures = [each for row in offer["assemblies"] for each in row["by_option"]]
    assert figures
    assert all(each["surface_temperature"] is None for each in figures)


def test_what_faces_an_attic_or_the_ground_has_no_surface(demo_offer):
    ceiling = next(each for each in demo_offer["assemblies"] if each["kind"] == "ceiling")
    assert ceiling["by_option"][0]["surface_temperature"] is None


def test_guesses_say_so(demo_offer):
    assert {"where": "air, ach50", "value": "14", "basis": "guess"} in demo_offer["unmeasured"]
    assert demo_offer["air_is_guessed"]


def test_growth_is_that_of_outside_walls(demo_offer):
    """Filled closed bays make no outside wall thicker, although a knee wall gets a board."""
    assert option(demo_offer, CAVITY)["wall_growth"] == 0.0
    assert option(demo_offer, OUTSIDE)["wall_growth"] > 0.02


def test_work_without_a_price_is_listed():
    book = seed_price_book()
    some = dataclasses.replace(book, lines=tuple(x for x in book.lines if x.matches != "permits"))
    cost = option(frozen(small_file(), some), CAVITY)["cost"]
    assert "permits" in " ".join(each["words"] for each in cost["unpriced"]).lower()


def test_owners_read_of_transitions_better_and_worse(demo_offer):
    words = " ".join(option(demo_offer, CAVITY)["whole_work"])
    assert "Transitions that lose less: outside corners" in words
    assert "Transitions that lose more: window and door edges" in words
    assert "junction" not in words
