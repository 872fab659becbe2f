"""Airtightness and ventilation after the work."""

import pytest

from server.recipes.making import make_strategy
from tests.recipes.houses import CEILING, ROOF, WALL, project, rebuilt, written


def made_of(air, recipe, parts=(WALL,), **keys):
    found = project(list(parts), air=air, **keys)
    made = make_strategy(found, recipe)
    rebuilt(found, (made,))
    return written(made)


# Shares of the leakage left, common practice: 0.75, 0.35, 0.45.
@pytest.mark.parametrize(
    ("recipe", "ach50", "cfm50", "in_use"),
    [
        ("cavity-only", 9.0, "1500 cfm", "0.6 1/hour"),
        ("exterior continuous", 4.0, "700 cfm", "0.28 1/hour"),
        ("hybrid", 5.5, "900 cfm", "0.36 1/hour"),
    ],
)
def test_leakage_in_the_form_it_was_found(recipe, ach50, cfm50, in_use):
    assert made_of({"ach50": 12}, recipe)["ach50"] == {"value": ach50, "basis": "guess"}
    assert made_of({"cfm50": 2000}, recipe)["cfm50"] == {"value": cfm50, "basis": "guess"}
    rate = made_of({"air_changes": "0.8 1/hour"}, recipe)["air_changes"]
    assert rate == {"value": in_use, "basis": "guess"}


def test_air_changes_refer_to_the_volume_after_and_a_flow_does_not():
    # 10000 ft3 inside, 2500 ft3 of attic: 15 x 0.35 x 10000 / 12500 = 4.2, to a half 4.0.
    parts = (WALL, CEILING, ROOF)
    made = made_of({"ach50": 15}, "exterior continuous", parts)
    assert made["inside"] == ["attic"]
    assert made["ach50"]["value"] == 4.0
    made = made_of({"cfm50": 2500}, "exterior continuous", parts)
    assert made["cfm50"]["value"] == "880 cfm"


@pytest.mark.parametrize(("found", "after"), [(3, 1.5), (1.8, 1.5), (2.4, 1.8)])
def test_a_house_is_not_sealed_below_the_tightest(found, after):
    recipe = "cavity-only" if found == 2.4 else "exterior continuous"
    assert made_of({"ach50": found}, recipe)["ach50"]["value"] == after


@pytest.mark.parametrize(
    "air", [{"ach50": 1.5}, {"ach50": 1.0}, {"ach50": 0}, {"cfm50": 0}, {"air_changes": "0 1/hour"}]
)
def test_a_tight_house_keeps_its_leakage(air):
    made = made_of(air, "hybrid")
    assert not {"ach50", "cfm50", "air_changes"} & set(made)


def test_ventilation_where_the_house_becomes_tight():
    # ASHRAE 62.2, from memory: 0.03 x 1600 ft2 + 7.5 x (3 + 1) = 78 cfm, to the next five.
    assert made_of({"ach50": 12}, "hybrid")["ventilation"] == {
        "flow": {"value": "80 ft^3/minute", "basis": "default"},
        "heat_recovery": {"value": 0.7, "basis": "default"},
        "balanced": True,
    }


@pytest.mark.parametrize(
    ("air", "has_fan"),
    [
        ({"ach50": 10}, False),  # 7.5 after
        ({"ach50": 8.6}, True),  # 6.5
        ({"cfm50": 1700}, False),  # 1280 cfm of 10000 ft3: 7.7
        ({"cfm50": 1400}, True),  # 6.3
        ({"air_changes": "0.6 1/hour"}, False),  # 9 by the rule of twenty
        ({"air_changes": "0.4 1/hour"}, True),  # 6
        ({"ach50": 1}, True),
    ],
)
def test_below_seven_air_changes_there_is_a_fan(air, has_fan):
    assert ("ventilation" in made_of(air, "cavity-only")) is has_fan


def test_a_fan_that_is_enough_stays():
    air = {"ach50": 12, "ventilation": {"flow": "80 cfm", "balanced": False}}
    assert "ventilation" not in made_of(air, "hybrid")
    air = {"ach50": 12, "ventilation": {"flow": "70 cfm", "balanced": False}}
    assert "ventilation" in made_of(air, "hybrid")
