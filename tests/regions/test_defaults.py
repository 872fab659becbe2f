"""Seed defaults, and what is refused."""

import json

import pytest

from server.actions.apply_region import with_region
from server.files.building import read_project
from server.files.faults import BadFile
from server.files.seeds import regions
from server.regions.checking import checked_defaults
from server.regions.defaults import seed_regions
from tests.conftest import SMALL_HOUSE


def test_the_seeds_are_the_regions_of_the_table():
    assert list(seed_regions()) == list(regions())
    assert len(seed_regions()) == 8


@pytest.mark.parametrize("key", seed_regions())
def test_a_house_is_built_with_each_seed(key):
    defaults = checked_defaults(seed_regions()[key].as_written())
    document = with_region(json.loads(SMALL_HOUSE.read_text()), key, 1, defaults)
    document.pop("defaults", None)
    project = read_project(json.dumps(document))
    assert project.house.climate.iecc_zone[0] in "1234567"
    assert project.house.prices["natural gas"] == pytest.approx(
        defaults.prices["natural gas"].value
    )


@pytest.mark.parametrize("key", seed_regions())
def test_invented_prices_say_so(key):
    defaults = seed_regions()[key]
    assert "invented" in defaults.note
    assert {price.basis for price in defaults.prices.values()} == {"guess"}
    assert {factor.basis for factor in defaults.carbon.values()} <= {"default", "guess"}
    assert "from memory" in defaults.note


@pytest.mark.parametrize("key", seed_regions())
def test_what_was_written_comes_back(key):
    written = seed_regions()[key].as_written()
    assert checked_defaults(json.loads(json.dumps(written))).as_written() == written


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"name": ""}, "name"),
        ({"name": 3}, "name"),
        ({"colour": "red"}, "colour"),
        ({"films": "thick"}, "films"),
        ({"climate": {"station": "nowhere"}}, "climate.station"),
        ({"climate": {"name": "short"}}, "climate.latitude"),
        ({"set_points": {"heating": "70 degF"}}, "set_points.cooling"),
        ({"set_points": {"heating": "80 degF", "cooling": "75 degF"}}, "set_points.cooling"),
        ({"set_points": {"heating": "70", "cooling": "75 degF"}}, "set_points.heating"),
        ({"prices": {}}, "prices"),
        ({"prices": {"gas": "-1 USD/kWh"}}, "prices.gas"),
        ({"carbon": {"gas": "0.2 USD/kWh"}}, "carbon.gas"),
        ({"prices": {f"fuel {n}": "1 USD/kWh" for n in range(31)}}, "prices"),
        (
            {"framing_fractions": {"walls": 1, "roofs_and_ceilings": 0.1, "floors": 0.1}},
            "framing_fractions.walls",
        ),
        ({"indoor_humidity": {}}, "indoor_humidity"),
        ({"indoor_humidity": {"humidity_class": 6}}, "indoor_humidity.humidity_class"),
        (
            {"indoor_humidity": {"relative_humidity": [0.4] * 11}},
            "indoor_humidity.relative_humidity",
        ),
        (
            {"indoor_humidity": {"relative_humidity": [*[0.4] * 11, 45]}},
            "indoor_humidity.relative_humidity[11]",
        ),
        ({"energy_code": {"edition": "IECC 1066"}}, "energy_code.edition"),
        ({"energy_code": {"window": "R-13"}}, "energy_code.window"),
        ({"energy_code": {"window": "0 W/(m^2*K)"}}, "energy_code.window"),
        ({"energy_code": {"shgc": 1.1}}, "energy_code.shgc"),
    ],
)
def test_what_no_house_could_use_is_refused_where_it_stands(change, place):
    with pytest.raises(BadFile) as refused:
        checked_defaults(seed_regions()["piedmont-nc"].as_written() | change)
    assert place in [fault.place for fault in refused.value.faults]


@pytest.mark.parametrize("key", seed_regions())
def test_each_seed_has_a_code_and_leaves_humidity_to_the_house(key):
    defaults = seed_regions()[key]
    assert defaults.indoor_humidity is None
    assert defaults.energy_code.edition == "IECC 2021"
