"""The comparison file holds what its format names, and says null where nothing is computed."""

import json

import pytest

from server.core.design_load import cooling_load, heating_load
from server.files.comparison_file import comparison_document, comparison_json

RESULT_KEYS = {
    "strategy",
    "k_outdoors_w_per_k",
    "k_ground_w_per_k",
    "k_air_w_per_k",
    "components",
    "months",
    "heating_load_kwh",
    "cooling_load_kwh",
    "latent_load_kwh",
    "design_heating_w",
    "design_cooling_w",
    "fuel",
    "annual_cost_usd",
    "carbon_kg",
    "findings",
}
COMPONENT_KEYS = {
    "name",
    "u_w_per_m2k",
    "r_m2k_per_w",
    "upper_limit_r_m2k_per_w",
    "lower_limit_r_m2k_per_w",
    "label_r_m2k_per_w",
    "ua_w_per_k",
    "heating_share_kwh",
}
MONTH_KEYS = {
    "balance_point_c",
    "heating_degree_days_k_d",
    "heating_load_kwh",
    "cooling_load_kwh",
    "latent_load_kwh",
    "gains_w",
    "ground_temperature_c",
}


@pytest.fixture(scope="module")
def document(small_house):
    return comparison_document(small_house)


def test_as_found_stands_first_then_the_strategies(document):
    names = [result["strategy"] for result in document["results"]]
    assert names == ["as found", "Cavity only", "Exterior continuous", "Hybrid"]


def test_every_named_key_is_there(document):
    for result in document["results"]:
        assert set(result) >= RESULT_KEYS
        assert all(set(part) >= COMPONENT_KEYS for part in result["components"])
        assert set(result["months"]) == MONTH_KEYS
        assert all(len(months) == 12 for months in result["months"].values())


def test_what_is_not_computed_is_null(document):
    door = next(p for p in document["results"][0]["components"] if p["name"] == "south door")
    assert door["upper_limit_r_m2k_per_w"] is None
    assert door["label_r_m2k_per_w"] is None


def test_design_loads_and_drifts_are_those_of_the_core(document, small_house):
    for written, result in zip(document["results"], small_house.compare().all_results, strict=True):
        assert written["design_heating_w"] == pytest.approx(float(heating_load(result).total))
        cool = cooling_load(result)
        assert written["design_cooling_w"] == pytest.approx(float(cool.sensible + cool.latent))
        drift = written["power_cut"]["winter_mean"]
        assert drift["start_c"] == pytest.approx(float(result.house.heating_set_point))
        assert drift["equilibrium_c"] < drift["start_c"]
        assert drift["time_constant_h"] > 0.0


def test_a_part_inside_to_inside_has_a_u_and_no_ua(document):
    parts = document["results"][2]["components"]
    ceiling = next(part for part in parts if part["name"] == "upper ceiling")
    assert ceiling["ua_w_per_k"] == 0.0
    assert ceiling["u_w_per_m2k"] > 0.0


def test_one_fuel_for_two_uses_stays_two_entries(small_house):
    text = small_house.file.as_written()
    text["heating"] = {"fuel": "electricity", "efficiency": 3.0}
    from server.files.building import read_project

    result = comparison_document(read_project(json.dumps(text)))["results"][0]
    assert [(use["use"], use["fuel"]) for use in result["fuel"]] == [
        ("heating", "electricity"),
        ("cooling", "electricity"),
    ]


def test_a_fuel_without_price_or_factor_costs_null(small_house):
    from server.files.building import read_project

    text = small_house.file.as_written() | {"prices": {}, "carbon": {}}
    result = comparison_document(read_project(json.dumps(text)))["results"][0]
    assert result["annual_cost_usd"] is None
    assert result["carbon_kg"] is None
    assert all(use["cost_usd"] is None for use in result["fuel"])


def test_the_text_is_json_without_nan(small_house):
    document = json.loads(comparison_json(small_house))
    assert document["format"] == "warmside-comparison/1"
