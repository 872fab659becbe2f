"""Whole houses of printed examples, through the same evaluation as any house.

The examples know conductance, temperature or degree-days and nothing else, so the houses here have
no air exchange, no people, no ground and no film outside (sun and sky act on outer films).
"""

import numpy as np
import psychrolib
import pytest

from server.core.air import ConstantInfiltration
from server.core.climate import Climate
from server.core.energy import INDOOR_HUMIDITY
from server.core.evaluate import evaluate
from server.core.films import FilmSet
from server.core.house import Component, FixedTransmittance, House, Kind, Plant, Space

BTU = 1055.05585262  # J
FT2 = 0.09290304  # m2
U_UNIT = 5.678263341  # W/(m2 K) in one Btu/(h ft2 F)
KWH = 3.6e6  # J
YEAR = 365

NO_FILMS = FilmSet("none", up=0.0, level=0.0, down=0.0, outside=0.0)

PENN_STATE = "Penn State EGEE 102, home heating (published)"
HYPERPHYSICS = "HyperPhysics, home heating (published)"


def celsius(fahrenheit):
    return (fahrenheit - 32) / 1.8


def house(parts, indoors_f, outdoors_f):
    """A house of parts (name, kind, ft2, R in h ft2 F/Btu) under one steady outdoor temperature."""
    climate = Climate(
        name="steady",
        latitude=40.0,
        longitude=-77.0,
        elevation=0.0,
        mean_temperature=np.full(12, celsius(outdoors_f)),
        temperature_deviation=np.zeros(12),
        horizontal_irradiation=np.zeros(12),
        wind_speed=np.zeros(12),
    )
    return House(
        name="example",
        climate=climate,
        heating_set_point=celsius(indoors_f),
        cooling_set_point=40.0,
        floor_area=100.0,
        bedrooms=0.0,
        storeys=1.0,
        spaces=(Space("rooms", inside=True, volume=250.0),),
        components=tuple(
            Component(
                name, kind, "rooms", "outdoors", area * FT2, FixedTransmittance(U_UNIT / r_value)
            )
            for name, kind, area, r_value in parts
        ),
        leakage=ConstantInfiltration(0.0),
        heating=Plant("gas", efficiency=1.0),
        films=NO_FILMS,
        people_and_appliances=0.0,
    )


# --- Windows, walls and roof of one house -----------------------------------------------------

# State College: 6000 F-days to base 65. A year at 6000/365 F below 65 has as many.
DEGREE_DAYS = 6000
WINDOWS = ("windows", Kind.WINDOW, 380.0, 1.1)
NEW_WINDOWS = ("windows", Kind.WINDOW, 380.0, 4.0)
WALLS = ("walls", Kind.WALL, 2750.0, 19.0)
ROOF = ("roof", Kind.ROOF, 1920.0, 30.0)


def state_college(windows):
    return evaluate(house([windows, WALLS, ROOF], 65.0, 65.0 - DEGREE_DAYS / YEAR))


def btu(kwh):
    return kwh * KWH / BTU


# Windows of the house, part, Btu a year as printed: area / R x 24 h x 6000.
PRINTED_LOSSES = [
    (WINDOWS, "windows", 49_745_455),
    (WINDOWS, "walls", 20_842_105),
    (WINDOWS, "roof", 9_216_000),
    (NEW_WINDOWS, "windows", 13_680_000),
]


@pytest.mark.parametrize(("windows", "part", "printed"), PRINTED_LOSSES)
def test_loss_of_a_part(windows, part, printed):
    result = state_college(windows)
    (share,) = [each.heating_share_kwh for each in result.components if each.component.name == part]
    assert btu(share) == pytest.approx(printed, abs=1), PENN_STATE


def test_loss_of_the_house():
    assert btu(state_college(WINDOWS).heating_load_kwh) == pytest.approx(79_803_560, abs=1), (
        PENN_STATE
    )


# Percent of the whole: 62.3 is printed, the others follow from the printed losses.
PRINTED_SHARES = [("windows", 62.3), ("walls", 26.1), ("roof", 11.5)]


@pytest.mark.parametrize(("part", "percent"), PRINTED_SHARES)
def test_share_of_a_part(part, percent):
    result = state_college(WINDOWS)
    of_load = {
        each.component.name: 100 * each.heating_share_kwh / result.heating_load_kwh
        for each in result.components
    }
    of_conductance = {
        each.component.name: 100 * each.conductance / result.to_outdoors
        for each in result.components
    }
    assert of_load[part] == pytest.approx(percent, abs=0.05), PENN_STATE
    assert of_conductance[part] == pytest.approx(percent, abs=0.05), PENN_STATE


def test_saving_of_new_windows():
    """Printed as 36.06 million Btu and 45.1 %; exactly 36 065 455 and 45.19 %."""
    before = btu(state_college(WINDOWS).heating_load_kwh)
    after = btu(state_college(NEW_WINDOWS).heating_load_kwh)
    assert before - after == pytest.approx(36_065_455, abs=1), PENN_STATE
    assert 100 * (before - after) / before == pytest.approx(45.19, abs=0.01), PENN_STATE


# --- One room ---------------------------------------------------------------------------------

# 10 x 10 x 8 ft: walls 320 ft2, R-19, 68 F inside and 28 F outside.
ROOM = evaluate(house([("walls", Kind.WALL, 320.0, 19.0)], 68.0, 28.0))

# What, ours, printed, tolerance (half of the last digit).
ROOM_FIGURES = [
    ("Btu an hour", btu(ROOM.heating_load_kwh) / YEAR / 24, 674, 0.5),
    ("Btu a day", btu(ROOM.heating_load_kwh) / YEAR, 16_168, 0.5),
    ("Btu a day and F", btu(ROOM.heating_load_kwh) / YEAR / (68 - 28), 404, 0.5),
    ("Btu a day and F, from W/K", 24 * ROOM.to_outdoors / (FT2 * U_UNIT), 404, 0.5),
]


@pytest.mark.parametrize(("name", "ours", "printed", "tolerance"), ROOM_FIGURES)
def test_room(name, ours, printed, tolerance):
    assert ours == pytest.approx(printed, abs=tolerance), f"{name}: {HYPERPHYSICS}"


def test_house_in_atlanta():
    """25 000 Btu a day and F, 2980 degree-days: 74.5 million Btu a year (computed)."""
    shell = ("shell", Kind.WALL, 25_000 / 24, 1.0)
    result = evaluate(house([shell], 65.0, 65.0 - 2980 / YEAR))
    assert btu(result.heating_load_kwh) == pytest.approx(74.5e6, abs=10), HYPERPHYSICS


# --- Indoor humidity --------------------------------------------------------------------------


def test_indoor_humidity_is_75_f_half_saturated():
    """psychrolib, sea level: 75 F and 50 % hold 0.00924; 0.0093 is the same to 1 %."""
    psychrolib.SetUnitSystem(psychrolib.IP)
    half_saturated = psychrolib.GetHumRatioFromRelHum(75.0, 0.5, 14.696)
    assert pytest.approx(half_saturated, rel=0.01) == INDOOR_HUMIDITY
