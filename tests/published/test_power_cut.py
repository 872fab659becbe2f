"""A house left to itself, against a table of its exact course and an independent solver.

150 m2, 150 W/K, from 20 deg C towards -5 deg C; capacities of ISO 13790:2008 Table 12 (memory).
The table was computed and found again with a general solver for differential equations.
"""

import json
import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from server.core.power_cut import Drift, power_cut
from server.files.building import read_project
from tests.conftest import SMALL_HOUSE

AREA, CONDUCTANCE = 150.0, 150.0
TABLE = [  # class, J/(m2 K), time constant h, deg C after 12 h, hours to 10 deg C
    ("light", 110_000.0, 30.556, 11.8803, 15.609),
    ("medium", 165_000.0, 45.833, 14.2413, 23.413),
    ("very heavy", 370_000.0, 102.778, 17.2450, 52.502),
]


def drift(capacity):
    return Drift(20.0, -5.0, capacity * AREA / CONDUCTANCE / 3600.0)


@pytest.mark.parametrize(("name", "capacity", "constant", "after", "hours"), TABLE)
def test_table(name, capacity, constant, after, hours):
    course = drift(capacity)
    assert course.time_constant == pytest.approx(constant, abs=0.001), name
    assert course.temperature(12.0) == pytest.approx(after, abs=0.0001), name
    assert course.hours_above(10.0) == pytest.approx(hours, abs=0.001), name


@pytest.mark.parametrize("capacity", [each[1] for each in TABLE])
def test_against_a_solver(capacity):
    def fall(_time, temperature):
        return -CONDUCTANCE * (temperature + 5.0) / (capacity * AREA) * 3600.0

    solved = solve_ivp(fall, (0.0, 48.0), [20.0], rtol=1e-9, atol=1e-9, t_eval=[6.0, 24.0, 48.0])
    ours = drift(capacity).temperature(np.array([6.0, 24.0, 48.0]))
    assert ours == pytest.approx(solved.y[0], abs=1e-4)


def test_after_one_time_constant_36_8_per_cent_of_the_difference_is_left():
    course = drift(165_000.0)
    left = (course.temperature(course.time_constant) + 5.0) / 25.0
    assert left == pytest.approx(math.exp(-1.0))
    assert round(100 * left, 1) == 36.8


def test_what_is_never_reached_is_infinite_and_what_is_passed_is_now():
    course = drift(165_000.0)
    assert course.hours_above(-5.0) == math.inf
    assert course.hours_above(-20.0) == math.inf
    assert course.hours_above(21.0) == 0.0
    warming = Drift(24.0, 33.0, 40.0)
    assert warming.hours_below(29.4) == pytest.approx(40.0 * math.log(9.0 / 3.6))
    assert warming.hours_below(34.0) == math.inf
    assert warming.hours_below(20.0) == 0.0


def test_a_house_that_drifts_away_from_a_limit_never_meets_it():
    assert Drift(20.0, 25.0, 40.0).hours_above(12.8) == math.inf
    assert Drift(24.0, 22.0, 40.0).hours_below(29.4) == math.inf
    assert Drift(20.0, 20.0, 40.0).hours_above(12.8) == math.inf
    many = Drift(np.array([20.0, 20.0]), np.array([25.0, 0.0]), 40.0).hours_above(10.0)
    assert many[0] == math.inf
    assert many[1] == pytest.approx(40.0 * math.log(2.0))


def test_a_house_by_hand():
    """Winter: fans off, people stay, sun of January in the mean; no sun on the design day."""
    result = read_project(SMALL_HOUSE.read_text()).compare().as_found
    cut = power_cut(result)
    house, climate = result.house, result.house.climate
    january = 0
    flow = result.working.warm.air[january]  # the small house has no fans as found
    assert house.ventilation.flow == 0.0
    outdoors = result.to_outdoors + flow
    whole = outdoors + result.to_ground
    people = 70.0 * (house.bedrooms + 1)
    sun = result.working.sources.sun[january] - result.working.sources.sky[january]
    ground = result.ground_temperature[january]
    mean = climate.mean_temperature[january]
    rest = (outdoors * mean + result.to_ground * ground + people + sun) / whole
    assert cut.winter_mean.equilibrium == pytest.approx(rest)
    hours = house.heat_capacity * house.floor_area / whole / 3600
    assert cut.winter_mean.time_constant == pytest.approx(hours)
    assert cut.winter_mean.start == house.heating_set_point
    assert cut.winter_design.equilibrium < cut.winter_mean.equilibrium
    assert cut.winter_design.hours_above(12.8) < cut.winter_mean.hours_above(12.8)
    assert cut.summer_design.hours_below(29.4) <= cut.summer_mean.hours_below(29.4)


def test_a_tighter_house_stays_warm_longer_and_unknown_days_are_none():
    compared = read_project(SMALL_HOUSE.read_text()).compare()
    found, *after = [power_cut(each).winter_mean.hours_above(12.8) for each in compared.all_results]
    assert all(each > found for each in after)
    document = json.loads(SMALL_HOUSE.read_text())
    if "region" not in document["climate"]:
        document["climate"].pop("heating_design_temperature", None)
        document["climate"].pop("cooling_design_temperature", None)
        bare = power_cut(read_project(json.dumps(document)).compare().as_found)
        assert bare.winter_design is None
        assert bare.summer_design is None
