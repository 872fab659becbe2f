"""Density, leakage area and infiltration against a handbook's examples and arithmetic.

The basic model (Sherman and Grimsrud) as in ASHRAE Fundamentals, ventilation and infiltration
chapter (2009 and 2013 chapter 16). Its coefficients and examples are from memory; the table in
inch-pound units and the one in SI were rounded separately, so that each checks the other.
"""

import numpy as np
import psychrolib
import pytest

from server.core.air import (
    BlowerDoor,
    ConstantInfiltration,
    Ventilation,
    air_density,
    air_flows,
    air_heat_capacity,
    basic_model_flow,
    flow_from_air_changes,
    leakage_area,
)

CFM = 0.3048**3 / 60  # m3/s
SQUARE_INCH = 6.4516  # cm2
MPH = 0.44704  # m/s
FOOT3 = 0.3048**3  # m3
BASIC_MODEL = "ASHRAE Fundamentals, basic model (memory)"
BY_HAND = "arithmetic in the table"


def infiltration(area, difference, wind, storeys, shelter):
    """One month of the basic model, m3/s; cm2, K, m/s."""
    flow = basic_model_flow(area, np.array([difference]), np.array([wind]), storeys, shelter)
    return float(flow[0])


# --- Coefficients ------------------------------------------------------------------------------

# Inch-pound table: stack coefficient, cfm2/(in4 F), by storeys; the last digit is 0.0001.
STACK_IP = [(1, 0.0150), (2, 0.0299), (3, 0.0449)]

# Wind coefficient, cfm2/(in4 mph2), by storeys and shelter class 1 to 5.
WIND_IP = [
    (1, (0.0119, 0.0092, 0.0065, 0.0039, 0.0012)),
    (2, (0.0157, 0.0121, 0.0086, 0.0051, 0.0016)),
    (3, (0.0184, 0.0143, 0.0101, 0.0060, 0.0018)),
]
WIND_IP_CELLS = [
    (storeys, shelter, expected)
    for storeys, row in WIND_IP
    for shelter, expected in enumerate(row, start=1)
]


@pytest.mark.parametrize(("storeys", "printed"), STACK_IP)
def test_stack_coefficient(storeys, printed):
    """(cfm per in2)2 at 1 F; two roundings, one of them to 0.0001: 1 %."""
    flow = infiltration(SQUARE_INCH, 1 / 1.8, 0.0, storeys, 3) / CFM
    assert flow**2 == pytest.approx(printed, rel=0.01), BASIC_MODEL


@pytest.mark.parametrize(("storeys", "shelter", "printed"), WIND_IP_CELLS)
def test_wind_coefficient(storeys, shelter, printed):
    """(cfm per in2)2 at 1 mph: half a last digit of either table, 0.00005 and 0.00002."""
    flow = infiltration(SQUARE_INCH, 0.0, MPH, storeys, shelter) / CFM
    assert flow**2 == pytest.approx(printed, abs=0.00007), BASIC_MODEL


# --- Examples ----------------------------------------------------------------------------------

# In2, F, mph, storeys, shelter, cfm; the handbook's own two, from memory, and their arithmetic:
# 107 sqrt(0.0299 x 36 + 0.0086 x 7^2) = 107 sqrt(1.0764 + 0.4214) = 130.95, printed 131
# 77 sqrt(0.0299 x 75 + 0.0086 x 15^2) = 77 sqrt(2.2425 + 1.9350) = 157.38
EXAMPLES_IP = [
    (107, 36, 7, 2, 3, 130.95),
    (77, 75, 15, 2, 3, 157.38),
]

# cm2, K, m/s, storeys, shelter, m3/s:
# 0.690 sqrt(0.000290 x 20 + 0.000231 x 3.1^2) = 0.690 sqrt(0.005800 + 0.002220) = 0.0618
# 0.500 sqrt(0.000290 x 42 + 0.000231 x 6.7^2) = 0.500 sqrt(0.012180 + 0.010370) = 0.0751
# The last two by hand: 0.4 sqrt(0.000145 x 25 + 0.000104 x 4^2) = 0.4 sqrt(0.003625 + 0.001664)
# and 1.0 sqrt(0.000435 x 30 + 0.000494 x 5^2) = sqrt(0.013050 + 0.012350).
EXAMPLES_SI = [
    (690, 20, 3.1, 2, 3, 0.0618),
    (500, 42, 6.7, 2, 3, 0.0751),
    (400, 25, 4.0, 1, 4, 0.0291),
    (1000, 30, 5.0, 3, 1, 0.1594),
]


@pytest.mark.parametrize(("area", "difference", "wind", "storeys", "shelter", "cfm"), EXAMPLES_IP)
def test_example_in_inch_pound(area, difference, wind, storeys, shelter, cfm):
    """Within 0.5 %: the coefficients of the two tables differ by their rounding."""
    flow = infiltration(area * SQUARE_INCH, difference / 1.8, wind * MPH, storeys, shelter)
    assert flow / CFM == pytest.approx(cfm, rel=0.005), BASIC_MODEL


@pytest.mark.parametrize(("area", "difference", "wind", "storeys", "shelter", "flow"), EXAMPLES_SI)
def test_example_in_si(area, difference, wind, storeys, shelter, flow):
    ours = infiltration(float(area), float(difference), wind, storeys, shelter)
    assert ours == pytest.approx(flow, abs=0.00005), BASIC_MODEL


def test_example_in_air_changes():
    """131 cfm of 11 000 ft3 are 7860/11 000 = 0.71 an hour."""
    flow = flow_from_air_changes(0.7145, 11_000 * FOOT3)
    assert flow / CFM == pytest.approx(131, abs=0.05), BASIC_MODEL


# Storeys, counted as.
STOREYS = [(0.5, 1), (1, 1), (1.5, 2), (2, 2), (2.5, 3), (3, 3), (4, 3)]


@pytest.mark.parametrize(("storeys", "counted"), STOREYS)
def test_storeys_are_rounded_up_to_three_at_most(storeys, counted):
    ours = infiltration(500.0, 20.0, 4.0, storeys, 3)
    assert ours == infiltration(500.0, 20.0, 4.0, counted, 3)


def test_summer_draws_as_winter_does():
    assert infiltration(500.0, -8.0, 3.0, 2, 3) == infiltration(500.0, 8.0, 3.0, 2, 3)


# --- Leakage area ------------------------------------------------------------------------------

# Flow at 50 Pa m3/s, area cm2: (4/50)^0.65 = 0.193644, sqrt(1.2041/8) = 0.387959, product
# 0.0751258; times 10 000: 751.26 cm2 for each m3/s.
LEAKAGE_AREAS = [(1.0, 751.26), (0.5, 375.63), (0.0, 0.0)]


@pytest.mark.parametrize(("flow", "expected"), LEAKAGE_AREAS)
def test_leakage_area_by_hand(flow, expected):
    assert leakage_area(flow) == pytest.approx(expected, abs=0.01), BY_HAND


def test_leakage_area_is_an_eighteenth_of_cfm50():
    """Common practice: cfm at 50 Pa over 18 is the leakage area at 4 Pa in square inches."""
    assert leakage_area(1800 * CFM) / SQUARE_INCH == pytest.approx(100, rel=0.02)


# --- Density -----------------------------------------------------------------------------------


@pytest.mark.parametrize("elevation", [0.0, 1600.0])
def test_density_is_that_of_the_standard_atmosphere(elevation):
    """psychrolib: standard pressure at the height, dry air of 20 deg C."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    pressure = psychrolib.GetStandardAtmPressure(elevation)
    assert air_density(elevation) == pytest.approx(pressure / (287.055 * 293.15), rel=1e-4)
    assert air_density(elevation) == pytest.approx(
        psychrolib.GetDryAirDensity(20.0, pressure), rel=1e-4
    )


# m, kg/m3, J/(m3 K). At 1600 m: (1 - 2.25577e-5 x 1600)^5.2559 = 0.963908^5.2559 = 0.82432.
DENSITIES = [(0.0, 1.2041, 1211.3), (1600.0, 0.9926, 998.5)]


@pytest.mark.parametrize(("elevation", "density", "heat_capacity"), DENSITIES)
def test_density_by_hand(elevation, density, heat_capacity):
    assert air_density(elevation) == pytest.approx(density, rel=1e-4), BY_HAND
    assert air_heat_capacity(elevation) == pytest.approx(heat_capacity, rel=1e-4), BY_HAND


def test_heat_of_one_cfm_is_common_practice():
    """Common practice: 1.08 Btu/h for each cfm and F, at sea level."""
    watts = air_heat_capacity(0.0) * CFM / 1.8
    assert watts * 3600 / 1055.05585262 == pytest.approx(1.08, abs=0.005)


# --- Fans --------------------------------------------------------------------------------------

LEAK = ConstantInfiltration(0.030)

# Fan, all outdoor air, what of it carries heat, m3/s; infiltration 0.030.
FANS = [
    ("none", Ventilation(), 0.030, 0.030),
    ("balanced adds", Ventilation(0.040), 0.070, 0.070),
    # 0.030 + 0.040 x (1 - 0.75)
    ("balanced with recovery", Ventilation(0.040, 0.75), 0.070, 0.040),
    # 3, 4, 5: the root of the sum of squares
    ("one way, in quadrature", Ventilation(0.040, balanced=False), 0.050, 0.050),
]


@pytest.mark.parametrize(("name", "fan", "outdoor", "net"), FANS)
def test_fan_beside_infiltration(name, fan, outdoor, net):
    flows = air_flows(LEAK, fan, 1, 20.0, np.zeros(12), np.zeros(12))
    assert flows.outdoor == pytest.approx(np.full(12, outdoor)), f"{name}: {BY_HAND}"
    assert flows.net_of_recovery == pytest.approx(np.full(12, net)), f"{name}: {BY_HAND}"


def test_blower_door_to_monthly_flow():
    """1 m3/s at 50 Pa, two storeys, class 3, 20 K and 3.1 m/s: 751.26 cm2 x 0.089553 / 1000."""
    flows = air_flows(BlowerDoor(1.0, 3), Ventilation(), 2, 20.0, np.zeros(12), np.full(12, 3.1))
    assert flows.outdoor == pytest.approx(np.full(12, 0.067278), abs=5e-6), BY_HAND
