"""Vapour on both sides of a wall: psychrolib for every pressure, ISO 13788 for its classes."""

import psychrolib
import pytest

from server.core.comparison import compare
from server.core.evaluate import evaluate
from server.core.findings.indoor_air import (
    Airs,
    IndoorHumidity,
    fresh_air_needed,
    pressure_excess,
    vapour_pressure,
)
from server.core.moisture import saturation_pressure, saturation_temperature
from server.files import seeds
from server.files.building import read_project
from server.files.seeds import DEMO_HOUSE
from tests.recipes.houses import BASEMENT_FLOOR, BASEMENT_WALL, FLOOR, WALL, project

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("humidity_ratio", [0.001, 0.004, 0.009, 0.018])
@pytest.mark.parametrize("pressure", [101325.0, 84000.0])
def test_vapour_pressure_from_the_humidity_ratio(humidity_ratio, pressure):
    theirs = psychrolib.GetVapPresFromHumRatio(humidity_ratio, pressure)
    assert vapour_pressure(humidity_ratio, pressure) == pytest.approx(theirs, rel=1e-5)


@pytest.mark.parametrize(
    ("humidity_class", "outdoors", "excess"),
    [  # ISO 13788:2012 Figure A.1 (memory): the class's limit at 0 deg C and below, none at 20
        (1, -5.0, 270.0),
        (2, 0.0, 540.0),
        (3, 10.0, 405.0),
        (4, 15.0, 270.0),
        (5, 20.0, 0.0),
        (3, 30.0, 0.0),
    ],
)
def test_excess_of_a_class(humidity_class, outdoors, excess):
    assert pressure_excess(humidity_class, outdoors) == pytest.approx(excess)


def airs(humidity=None, **keys):
    return Airs(evaluate(project([WALL], **keys).house), humidity or IndoorHumidity())


@pytest.mark.parametrize("region", sorted(seeds.regions()))
def test_every_pressure_and_dew_point_of_the_regions(region):
    air = airs(climate={"region": region})
    house = air._result.house
    altitude = psychrolib.GetStandardAtmPressure(float(house.climate.elevation))
    for month in range(12):
        ratio = float(house.climate.humidity_ratio[month])
        theirs = psychrolib.GetVapPresFromHumRatio(ratio, altitude)
        outside = air.outdoors.temperature[month]
        held = min(theirs, psychrolib.GetSatVapPres(outside))
        assert air.outdoors.pressure[month] == pytest.approx(held, rel=0.01)
        inside = air.indoors.pressure[month]
        temperature = air.indoors.temperature[month]
        assert inside <= saturation_pressure(temperature) + 1e-9
        dew_point = psychrolib.GetTDewPointFromVapPres(temperature, inside)
        assert saturation_temperature(inside) == pytest.approx(dew_point, abs=0.02)


def test_twelve_humidities_of_ones_own():
    own = airs(IndoorHumidity(relative_humidity=(0.4,) * 12))
    for month in range(12):
        temperature = own.indoors.temperature[month]
        theirs = psychrolib.GetVapPresFromRelHum(temperature, 0.4)
        assert own.indoors.pressure[month] == pytest.approx(theirs, rel=0.002)


def test_the_class_follows_from_whether_the_house_is_aired():
    # ASHRAE 62.2: 0.03 x 1800 + 7.5 x 4 = 84 cfm, ISO 13788 Table A.1: 2 aired, 3 not known
    close = {"floor_area": "1800 ft^2", "bedrooms": 3, "air": {"ach50": 0.5}}
    assert airs(**close).humidity_class == 3
    fan = {"flow": "84 cfm", "balanced": True}
    assert airs(**close | {"air": {"ach50": 0.5, "ventilation": fan}}).humidity_class == 2
    assert airs(IndoorHumidity(4), **close).humidity_class == 4


def test_a_cellar_that_comes_inside_asks_for_air_too():
    demo = read_project(DEMO_HOUSE.read_bytes())
    compared = compare(demo.house, demo.strategies)
    houses = [result.house for result in compared.all_results]
    with_cellar = next(house for house in houses if house.is_inside("basement"))
    more = fresh_air_needed(with_cellar, ("basement",)) - fresh_air_needed(houses[0])
    assert more / (0.3048**3 / 60.0) == pytest.approx(0.03 * 780.0, rel=1e-6)  # 780 ft2 of cellar


def test_a_crawlspace_is_as_humid_as_outdoors_at_least():
    made = project(
        [WALL, FLOOR, BASEMENT_WALL, BASEMENT_FLOOR],
        climate={"region": "gulf-coast-tx"},
        set_points={"heating": "68 degF", "cooling": "72 degF"},
        cooling={"fuel": "electricity", "efficiency": 3},
    )
    air = Airs(evaluate(made.house), IndoorHumidity())
    july = 6
    cellar, outdoors = air.of("basement"), air.outdoors
    most = 0.95 * saturation_pressure(cellar.temperature[july])
    assert cellar.pressure[july] == pytest.approx(min(outdoors.pressure[july], most))
