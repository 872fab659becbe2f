"""Defaults put into a house: what they replace, and that the preview says just that."""

import copy

import pytest

from server.actions.apply_region import (
    apply_region,
    begun_in,
    newer_region,
    preview,
    region_of,
    with_region,
)
from server.files.house_file import HouseFile, StationClimate
from server.regions.checking import checked_defaults
from server.regions.defaults import seed_regions
from server.storage.regions import Regions, RegionVersion
from tests.accounts.site import MovedClock
from tests.stored_houses import BY, Firm, demo_file, small_file

KEY = "twin-cities-mn"
SEED = seed_regions()[KEY]
OWN = {
    "name": "Own place",
    "latitude": "45 deg",
    "longitude": "-93 deg",
    "elevation": "250 m",
    "mean_temperature": ["5 degC"] * 12,
    "horizontal_irradiation": ["12 MJ/m^2"] * 12,
    "wind_speed": [{"value": "4 m/s", "basis": "measured"}] * 12,
}


def own_months():
    return checked_defaults(SEED.as_written() | {"climate": OWN, "iecc_zone": "6A"})


@pytest.mark.parametrize("house", [small_file, demo_file], ids=["small", "demo"])
@pytest.mark.parametrize("defaults", [SEED, own_months()], ids=["station", "own months"])
def test_the_preview_is_what_applying_does(database, house, defaults):
    firm = Firm(database, MovedClock())
    key = firm.add(house())
    before = firm.load(key).house.as_stored()
    said = preview(before, KEY, 3, defaults)
    assert said
    assert firm.load(key).version == 1
    with firm.houses() as houses:
        apply_region(houses, key, RegionVersion(KEY, 3, None, None, defaults), BY)
    stored = firm.load(key)
    assert stored.version == 2
    assert stored.house.as_stored() == with_region(before, KEY, 3, defaults)
    with firm.houses(writing=False) as houses:
        done = list(houses.revisions(key)[0].what)
    assert done == said[: len(done)]
    assert len(done) == min(20, len(said))
    assert preview(stored.house.as_stored(), KEY, 3, defaults) == []


def test_it_is_pure():
    document = demo_file().as_stored()
    kept = copy.deepcopy(document)
    with_region(document, KEY, 1, SEED)
    assert document == kept


def test_what_is_put_in_is_a_default():
    document = with_region(small_file().as_stored(), KEY, 1, SEED)
    assert document["climate"] == {"station": SEED.climate.station}
    for name in ("set_points", "prices", "carbon"):
        for fuel, raw in SEED.as_written()[name].items():
            assert document[name][fuel] == {"value": raw["value"], "basis": "default"}
    own = with_region(small_file().as_stored(), KEY, 1, own_months())["climate"]
    assert own["wind_speed"] == [{"value": "4 m/s", "basis": "default"}] * 12
    assert (own["name"], own["iecc_zone"]) == ("Own place", "6A")
    HouseFile.from_stored(document)


@pytest.mark.parametrize("basis", ["measured", "document"])
def test_what_is_known_better_stays(basis):
    def known(value):
        return {"value": value, "basis": basis}

    document = small_file().as_stored()
    document["set_points"]["heating"] = known("66 degF")
    document["prices"]["electricity"] = known("0.30 USD/kWh")
    document["prices"]["wood"] = "0.05 USD/kWh"
    document["climate"] = OWN | {"wind_speed": [known("4 m/s")] * 12}
    made = with_region(document, KEY, 1, SEED)
    assert made["set_points"]["heating"] == known("66 degF")
    assert made["set_points"]["cooling"]["basis"] == "default"
    assert made["prices"]["electricity"] == known("0.30 USD/kWh")
    assert made["prices"]["wood"] == "0.05 USD/kWh"
    assert made["climate"] == document["climate"]


def test_framing_that_was_a_default_follows_and_the_rest_stays():
    fractions = {"walls": 0.2, "roofs_and_ceilings": 0.07, "floors": 0.09}
    defaults = checked_defaults(SEED.as_written() | {"framing_fractions": fractions})
    bays = {"framing": "softwood", "fill": "air", "depth": "3 1/2 in"}

    def layer(fraction, depth="3 1/2 in"):
        return {"framed": bays | {"fraction": fraction, "depth": depth}}

    default = {"value": 0.25, "basis": "default"}
    measured = {"value": 0.3, "basis": "measured"}
    document = small_file().as_stored()
    wall = next(each for each in document["components"] if each["kind"] == "wall")
    layers = [layer(default), layer(default, "3/4 in"), layer(measured), layer(0.31)]
    document["assemblies"][wall["assembly"]]["layers"] = layers
    made = with_region(document, KEY, 1, defaults)["assemblies"][wall["assembly"]]["layers"]
    assert [each["framed"]["fraction"] for each in made] == [
        {"value": 0.2, "basis": "default"},
        default,
        measured,
        0.31,
    ]


def test_region_and_version_are_remembered_where_the_house_file_can():
    document = with_region(demo_file().as_stored(), KEY, 4, SEED)
    if "defaults" in HouseFile.model_fields:
        assert region_of(document) == (KEY, 4)
    else:
        assert region_of(document) == (None, None)
    assert region_of(demo_file().as_stored())[0] == "piedmont-nc"


def test_a_zone_of_its_own_goes_with_a_station_where_the_house_file_can():
    defaults = checked_defaults(SEED.as_written() | {"iecc_zone": "5A"})
    made = with_region(small_file().as_stored(), KEY, 1, defaults)["climate"]
    expected = "5A" if "iecc_zone" in StationClimate.model_fields else None
    assert made.get("iecc_zone") == expected


def test_newer_defaults_are_told(database):
    firm = Firm(database, MovedClock())
    with firm.database.session(writing=True) as session:
        regions = Regions(session, firm.key, firm.clock)
        regions.save(KEY, own_months(), 1, BY)
        assert newer_region(regions, {"defaults": {"region": KEY, "version": 1}}).version == 2
        for remembered in ({"region": KEY, "version": 2}, {"region": "gone", "version": 1}, {}):
            assert newer_region(regions, {"defaults": remembered}) is None
        assert newer_region(regions, {"climate": {"region": KEY}}) is None


def test_a_house_begins_with_its_regions_defaults():
    begun = begun_in(small_file(), RegionVersion(KEY, 1, None, None, SEED))
    assert begun.climate.station == SEED.climate.station
    assert begun.prices["electricity"].typed == SEED.prices["electricity"].typed


# Humidity indoors and the energy code


def with_moisture(humidity, code):
    return checked_defaults(SEED.as_written() | {"indoor_humidity": humidity, "energy_code": code})


def test_humidity_and_code_are_put_in():
    first = with_moisture({"humidity_class": 3}, {"edition": "IECC 2021"})
    made = with_region(small_file().as_stored(), KEY, 1, first)
    assert made["indoor_humidity"] == {"humidity_class": 3}
    assert made["energy_code"] == {"edition": "IECC 2021"}
    document = with_region(
        made,
        KEY,
        2,
        with_moisture(
            {"relative_humidity": [0.4] * 12}, {"edition": "IECC 2018", "window": "U-0.32"}
        ),
    )
    share = {"value": 0.4, "basis": "default"}
    assert document["indoor_humidity"] == {"relative_humidity": [share] * 12}
    limit = {"value": "U-0.32", "basis": "default"}
    assert document["energy_code"] == {"edition": "IECC 2018", "window": limit}
    HouseFile.from_stored(document)


@pytest.mark.parametrize("basis", ["measured", "document"])
def test_limits_and_humidity_that_are_known_better_stay(basis):
    limit, share = {"value": "U-0.28", "basis": basis}, {"value": 0.5, "basis": basis}
    document = small_file().as_stored()
    document["energy_code"] = {"window": limit, "floor": "U-0.05", "ceiling": "U-0.03"}
    document["indoor_humidity"] = {"relative_humidity": [share] * 12}
    code = {"edition": "IECC 2018", "window": "U-0.32", "ceiling": "U-0.026"}
    made = with_region(document, KEY, 1, with_moisture({"humidity_class": 2}, code))
    assert made["indoor_humidity"] == document["indoor_humidity"]
    assert made["energy_code"] == {
        "edition": "IECC 2018",
        "window": limit,
        "floor": "U-0.05",
        "ceiling": {"value": "U-0.026", "basis": "default"},
    }


def test_a_region_without_them_leaves_a_house_its_own():
    older = SEED.as_written()
    del older["energy_code"]
    document = small_file().as_stored()
    assert "energy_code" not in with_region(document, KEY, 1, checked_defaults(older))
    document |= {"indoor_humidity": {"humidity_class": 4}, "energy_code": {"shgc": 0.4}}
    made = with_region(document, KEY, 1, checked_defaults(older))
    assert made["indoor_humidity"] == {"humidity_class": 4}
    assert made["energy_code"] == {"shgc": 0.4}


def test_the_preview_lists_them_in_words():
    code = {"edition": "IECC 2018", "window": {"value": "U-0.32", "basis": "document"}}
    said = preview(small_file().as_stored(), KEY, 1, with_moisture({"humidity_class": 2}, code))
    told = {each["place"]: (each["before"], each["after"]) for each in said}
    assert told["indoor_humidity, humidity_class"] == (None, "2")
    assert told["energy_code, edition"] == (None, "IECC 2018")
    assert told["energy_code, window"] == (None, "U-0.32 (default)")
