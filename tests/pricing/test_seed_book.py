"""The seed book prices all that the recipes do, on the demo house and on any other."""

import json

import pytest
from hypothesis import given, settings

from server.files import seeds
from server.files.building import read_project
from server.pricing.book_file import seed_price_book
from server.pricing.carbon import embodied_carbon
from server.pricing.estimate import price
from server.pricing.steps import Step
from server.pricing.takeoff import take_off
from server.recipes.making import make_strategies
from tests.recipes.test_making import houses

# What is known by its U alone has no price that could be looked up.
WITHOUT_A_LINE = {Step.BUILD_ANEW}
BOUGHT = {step for step in Step if step.value.startswith(("new ", "fit ", "blow ", "spray "))}


def by_recipe(project, strategies):
    return {each.recipe: price(take_off(project, each), seed_price_book()) for each in strategies}


def test_every_price_says_that_it_is_invented():
    assert all("invented" in line.note for line in seed_price_book().lines)
    words = (seeds.SEED_DATA / "price_book.md").read_text(encoding="utf-8")
    assert "invented" in words


def test_every_line_prices_something_there_is():
    rows = seeds.material_rows()
    known = {row.name for row in rows} | {row.figures["group"] for row in rows} | set(Step)
    assert {line.matches for line in seed_price_book().lines} <= known


def test_no_material_is_called_like_a_step():
    rows = seeds.material_rows()
    names = {row.name for row in rows} | {row.figures["group"] for row in rows}
    assert not names & set(Step)


def test_every_step_has_a_line():
    matched = {line.matches for line in seed_price_book().lines}
    opened = {Step.NEW_WINDOW, Step.NEW_SKYLIGHT, Step.NEW_DOOR}
    for step in set(Step) - WITHOUT_A_LINE - (BOUGHT - opened) - {Step.EDGE_BOARD}:
        assert step.value in matched


def test_the_demo_house_without_anything_unpriced(demo):
    for each in (*demo.file.strategies, *make_strategies(demo)):
        estimate = price(take_off(demo, each), seed_price_book())
        assert estimate.lines
        assert estimate.unpriced == ()


@settings(deadline=None, max_examples=30)
@given(houses())
def test_any_house_without_anything_unpriced(content):
    found = read_project(json.dumps(content))
    for each in make_strategies(found):
        assert price(take_off(found, each), seed_price_book()).unpriced == ()


def test_the_demo_figures_are_plausible(demo):
    """Common practice: filling costs some ten dollars a square foot of floor, wrapping fifty."""
    for strategies in (demo.file.strategies, make_strategies(demo)):
        estimates = by_recipe(demo, strategies)
        cavity, exterior, hybrid = (
            estimates[recipe].total_cents / 100 / 1430
            for recipe in ("cavity-only", "exterior continuous", "hybrid")
        )
        assert 5.0 < cavity < 20.0
        assert cavity < hybrid
        assert cavity < exterior
        assert 30.0 < exterior < 90.0
        wrapped = estimates["exterior continuous"].cents_by_reason
        assert all(cents > 0 for cents in wrapped.values())


def test_quantities_of_the_demo_house(demo):
    """From the sketch: walls, gables and rims 1265 ft2, roofs 1245 ft2, slab edge 34 ft."""
    walls = 132 + 72 + 171 + 145.67 + 189 + 63 + 51.33 + 59.33 + 2 * 96.75
    walls += 4 * 10.12 + 2 * 25 + 30 + 26 + 16 + 26
    roofs = 141.93 + 2 * (148.49 + 190.92 + 212.13)
    strategy = demo.file.strategies[1]
    estimate = price(take_off(demo, strategy), seed_price_book())
    told = {line.price_key: float(line.quantity) for line in estimate.lines}
    assert told["off-cladding"] == pytest.approx(walls, abs=0.01)
    assert told["wood-siding"] == pytest.approx(walls, abs=0.01)
    assert told["off-roofing"] == pytest.approx(roofs, abs=0.01)
    assert told["furring"] == pytest.approx((walls + roofs) * 0.75, abs=0.01)
    boards = 4 * walls + 8 * (roofs - 141.93) + 4 * 141.93
    assert told["rigid-mineral-wool"] == pytest.approx(boards, abs=0.1)
    # 14 x 11 314 / 60 less 3 x (11 314 + 607.5 + 750 + 5460) / 60
    cfm = (14 * 11314 - 3 * (11314 + 607.5 + 750 + 5460)) / 60
    assert told["sealing"] == pytest.approx(cfm / 100, rel=1e-4)
    assert told["window"] == 2
    # windows 2 + 1 + 3 + 2 + 3, sun room 3 + 1 + 2, upstairs 2 + 2, and three doors
    assert told["jamb"] == 24


def test_foam_and_wrap_carry_more_carbon_than_cellulose(demo):
    kg = {each.recipe: embodied_carbon(take_off(demo, each)).kg for each in demo.file.strategies}
    assert 0.0 < kg["cavity-only"] < kg["hybrid"] < kg["exterior continuous"]
